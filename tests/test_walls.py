"""Documents are laid out behind walls of the system; past one the build ends with a sentence."""

import base64
import io
import os
import subprocess
import sys

import pytest
from PIL import Image

from booklet.exports.printed import Job, printed
from booklet.exports.printing import PLAIN, PrintingError, read_creep
from booklet.exports.printing import Printing as Asked
from booklet.pattern import Paper
from booklet.walls import Layouts, WallError

PAGE = '<html lang="en"><title>A</title><body><p>One page.</p></body></html>'
POSIX = pytest.mark.skipif(sys.platform == "win32", reason="no such limits there")


def job(html: str = PAGE, printing: Asked = PLAIN) -> Job:
    return Job(html, Paper.A4, printing)


def asked(html: str, **limits):
    layouts = Layouts(1, **limits)
    try:
        return layouts.submit(job(html), "`lap-a4.pdf`").result(timeout=300)
    finally:
        layouts.close()


def bomb(side: int) -> str:
    """A page with a small file that is a large picture."""
    stream = io.BytesIO()
    Image.new("RGB", (side, side)).save(stream, "PNG")
    data = base64.b64encode(stream.getvalue()).decode()
    return PAGE.replace("<p>", f'<img alt="" src="data:image/png;base64,{data}"><p>')


def test_a_worker_gives_the_bytes_that_we_would_make_ourselves():
    here = printed(job())
    assert asked(PAGE) == here and here.files[0][0] == ".pdf"


def test_several_workers_give_the_same_bytes_whoever_is_first(monkeypatch):
    monkeypatch.setattr("booklet.walls.pool._cores", lambda: 2)
    pages = [PAGE.replace("One", word) for word in ("One", "Two", "Three", "Four", "Five", "Six")]
    layouts = Layouts(len(pages))
    try:
        made = [layouts.submit(job(page), "`x`") for page in pages]
        assert layouts.ahead == 2
        found = [one.result(timeout=300) for one in made]
    finally:
        layouts.close()
    assert found == [printed(job(page)) for page in pages]


def test_the_end_of_a_file_name_says_how_it_is_printed():
    layouts = Layouts(1)
    try:
        how = Asked(imposed=True, crop_marks=True, low_ink=True)
        made = layouts.submit(job(printing=how), "`x`").result(timeout=300)
        thick = Asked(imposed=True, creep=read_creep("1"))
        many = job(PAGE.replace("<p>", "<p style='break-after: page'>x<p>" * 120), thick)
        with pytest.raises(PrintingError, match="with a creep of 1"):
            layouts.submit(many, "`x`").result(timeout=300)
    finally:
        layouts.close()
    assert [end for end, _ in made.files] == [
        "-low-ink-crop-marks.pdf",
        "-low-ink-imposed-crop-marks.pdf",
    ]
    assert made.said == ("  to fold and staple: 1 sheet of A3",)


@POSIX
def test_what_takes_too_long_is_named_with_its_page():
    long = PAGE.replace("<p>", "<p>" + "word " * 30 + "<p>" + "<p>and more</p>" * 40_000)
    with pytest.raises(
        WallError, match=r"laying out (page \d+ of )?`lap-a4.pdf` took more than 2 s"
    ):
        asked(long, seconds=2)


@POSIX
def test_what_needs_too_much_memory_is_named():
    with pytest.raises(WallError, match=r"`lap-a4.pdf` needed more than 600 MiB of memory"):
        asked(bomb(12_000), memory=600 << 20)


@POSIX
def test_the_walls_stand():
    # asked of a worker's own limits: memory, files, no core
    told = subprocess.run(
        [sys.executable, "-c",
         "import resource as r; from booklet.walls.limits import allow, raise_walls; raise_walls(1 << 30); allow(7); "
         "print(*(r.getrlimit(k)[0] for k in (r.RLIMIT_AS, r.RLIMIT_CORE, r.RLIMIT_NOFILE))); "
         "print(r.getrlimit(r.RLIMIT_CPU)[0] - int(sum(r.getrusage(r.RUSAGE_SELF)[:2])) in (7, 8)); "
         "open('/dev/null', 'w').close(); import tempfile; f = tempfile.TemporaryFile(); f.write(b'x' * (70 << 20))"],
        capture_output=True, text=True, check=False,
        env=os.environ | {"PYTHONPATH": os.pathsep.join(sys.path)},
    )  # fmt: skip
    assert told.stdout.splitlines() == [f"{1 << 30} 0 256", "True"]
    assert told.returncode != 0  # a file of 70 MB is beyond the wall


def test_nothing_of_a_worker_is_left(tmp_path, monkeypatch):
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    layouts = Layouts(1)
    layouts.submit(job(), "`x`").result(timeout=300)
    (worker,) = layouts._all
    layouts.close()
    assert worker.process.poll() is not None and list(tmp_path.iterdir()) == []
