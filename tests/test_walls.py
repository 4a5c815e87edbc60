"""Documents are laid out, drawings and pictures read, behind walls of the system; past one there is a sentence."""

import io
import os
import re
import shutil
import signal
import socket
import sys

import pytest
from PIL import Image
from test_nothing_lost import SOURCE

from booklet.__main__ import main
from booklet.exports.press.printed import PrintJob, printed
from booklet.exports.press.printing import PLAIN, Printing as Asked, PrintingError, read_creep
from booklet.layouts import Layouts
from booklet.layouts.print_jobs import receive_printed
from booklet.pattern import Paper
from booklet.recipe import compiler
from booklet.walls.limits import Limits
from booklet.walls.process import Worker, WorkerGone, answer
from booklet.walls.wire import send_words

if sys.platform != "win32":
    import resource
if sys.platform == "linux":
    from landlockpy import abi_version

pytestmark = pytest.mark.usefixtures("fresh_workers")

PAGE = '<html lang="en"><title>A</title><body><p>One page.</p></body></html>'
POSIX = pytest.mark.skipif(sys.platform == "win32", reason="no such limits there")


def job(html: str = PAGE, printing: Asked = PLAIN) -> PrintJob:
    return PrintJob(html, Paper.A4, printing)


def asked(html: str):
    layouts = Layouts(1)
    try:
        return layouts.submit(job(html), "`lap-a4.pdf`").result(timeout=300)
    finally:
        layouts.close()


def test_a_worker_gives_the_bytes_that_we_would_make_ourselves():
    here = printed(job())
    assert asked(PAGE) == here and here[0].files[0][0] == ".pdf"


def test_several_workers_give_the_same_bytes_whoever_is_first(monkeypatch):
    monkeypatch.setattr("booklet.layouts.pool._cores", lambda: 2)
    pages = [PAGE.replace("One", word) for word in ("One", "Two", "Three", "Four", "Five", "Six")]
    layouts = Layouts(len(pages))
    try:
        made = [layouts.submit(job(page), "`x`") for page in pages]
        assert layouts.ahead == 4
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
    assert [end for end, _ in made[0].files] == [
        "-low-ink-crop-marks.pdf",
        "-low-ink-imposed-crop-marks.pdf",
    ]
    assert made[0].said == ("  to fold and staple: 1 sheet of A3",)


# what a worker cannot do

SMALL = Limits(seconds=1, memory=300 << 20, file=1 << 20)


@pytest.fixture
def taken_over(tmp_path):
    """Asks a worker that was taken over."""
    (tmp_path / "aside").mkdir()
    worker = Worker("prying", SMALL, str(tmp_path / "aside"))

    def asks(**words):
        with worker.asked() as (requests, answers):
            send_words(requests, words)
            return answer(answers)

    yield asks
    worker.close()


@pytest.mark.skipif(sys.platform != "linux" or not abi_version(), reason="no Landlock here")
def test_a_worker_that_was_taken_over_reaches_nothing(taken_over, tmp_path):
    secret = tmp_path / "secret"
    secret.write_bytes(b"secret")
    with socket.create_server(("127.0.0.1", 0)) as server:
        done = taken_over(secret=str(secret), port=server.getsockname()[1])["done"]
    allowed = {"library", "aside"}
    allowed |= {"connect", "listen"} if abi_version() < 4 else set()
    allowed |= {"signal"} if abi_version() < 6 else set()
    assert set(done) <= allowed and secret.read_bytes() == b"secret"
    assert {"library", "aside"} <= set(done)


@POSIX
@pytest.mark.parametrize(
    ("words", "told"),
    [
        ({"time": 1}, "took more than 1 s of processor time"),
        ({"memory": 1 << 30}, "needed more than 300 MiB of memory"),
        ({"file": 2 << 20}, "needed a file of more than 1 MiB"),
        ({"die": 1}, "needed more than 300 MiB of memory, or was ended by the system"),
    ],
)
def test_a_worker_that_meets_a_wall_says_which(taken_over, words, told):
    with pytest.raises(WorkerGone, match=f"^{told}$"):
        taken_over(**words)


def test_a_bug_of_ours_is_told_as_one(taken_over):
    with pytest.raises(RuntimeError, match=r"KeyError: 'secret' \(prying.py, line"):
        taken_over()


def test_a_worker_that_does_not_answer_is_ended_by_the_clock(taken_over, monkeypatch):
    monkeypatch.setattr("booklet.walls.process._PATIENCE", 0.5)  # of 1 s
    monkeypatch.setattr("booklet.walls.process.HAS_WALLS", False)  # as where there are none
    with pytest.raises(WorkerGone, match="took more than 1 s of processor time"):
        taken_over(time=1)


def test_nothing_of_a_worker_is_left(tmp_path, monkeypatch):
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    layouts = Layouts(1)
    layouts.submit(job(), "`x`").result(timeout=300)
    (worker,) = layouts._all
    layouts.close()
    assert worker._process.poll() is not None and list(tmp_path.iterdir()) == []


# a folder whose build meets a wall: the page, the edition and the size are named, and what was built before is there


@pytest.fixture(scope="module")
def first_build(tmp_path_factory):
    """A folder that was built."""
    home = tmp_path_factory.mktemp("stones")
    (home / "pattern.yaml").write_text(SOURCE.replace("[cover,", "[cover, a.md,"), "utf-8")
    (home / "a.md").write_text("A stone.\n", "utf-8")
    assert main(["build", str(home), "--pdf", "--paper", "a4", "--quiet"]) == 0
    return home


@pytest.fixture
def stones(first_build, tmp_path):
    """The folder, which has a longer text now."""
    shutil.copytree(first_build, tmp_path, dirs_exist_ok=True)
    (tmp_path / "a.md").write_text(
        "A stone.\n\n" * 1800, "utf-8"
    )  # a second of the processor at least
    return tmp_path


def rebuilt(folder, capsys):
    """What a second build says at its end."""
    before = {path.name: path.read_bytes() for path in (folder / "out").iterdir()}
    capsys.readouterr()
    assert main(["build", str(folder), "--pdf", "--paper", "a4", "--quiet"]) == 1
    assert {path.name: path.read_bytes() for path in (folder / "out").iterdir()} == before
    return capsys.readouterr().err


PLACE = (
    r"laying out (page \d+ of )?`quay-stones-pattern-lap-a4.pdf` \(edition `pattern`, size `lap`\) "
)
ENDED = "needed more than 3072 MiB of memory(, or was ended by the system)?; what was built before is still there"


def ends_at_page_2(monkeypatch, wall):
    """Lets a worker meet a wall while it lays out the second page."""
    begun = []

    def watched(stream, at):
        def told(page):
            at(page)
            if page == 2:
                wall(begun[0]._process.pid)

        return receive_printed(stream, told)

    def started(*given):
        begun.append(Worker(*given))
        return begun[0]

    monkeypatch.setattr("booklet.layouts.pool.Worker", started)
    monkeypatch.setattr("booklet.layouts.pool.receive_printed", watched)


@pytest.mark.skipif(sys.platform != "linux", reason="limits of another process are Linux's")
@pytest.mark.parametrize(
    ("wall", "told"),
    [
        (lambda pid: resource.prlimit(pid, resource.RLIMIT_CPU, (1, -1)), "took more than 300 s of processor time; what"),
        (lambda pid: resource.prlimit(pid, resource.RLIMIT_AS, (100 << 20, 100 << 20)), ENDED),
        (lambda pid: os.kill(pid, signal.SIGKILL), ENDED),
    ],
    ids=["time", "memory", "killed"],
)  # fmt: skip
def test_a_build_past_a_limit_names_page_edition_and_size(stones, capsys, monkeypatch, wall, told):
    ends_at_page_2(monkeypatch, wall)
    found = re.search(PLACE + told, rebuilt(stones, capsys))
    assert found and found[1]


@POSIX
def test_a_build_that_needs_a_large_file_names_edition_and_size(stones, capsys, monkeypatch):
    # only fonts are written, before the first page
    monkeypatch.setattr("booklet.layouts.pool.LIMITS", Limits(300, 3 << 30, 1_000))
    told = "needed a file of more than 0 MiB; what was built before is still there"
    assert re.search(PLACE + told, rebuilt(stones, capsys))


# a drawing and a picture whose reading meets a wall

DRAWN = SOURCE.replace("grid: [[ink, sand], [sand, ink]]", "drawing: stone.svg")
STONE = '<svg xmlns="http://www.w3.org/2000/svg"><path fill="#243b6b" d="M0 0h1v1h-1z"/></svg>'


def said_of(folder, monkeypatch, limits):
    monkeypatch.setattr("booklet.source.files.apart.LIMITS", limits)
    return [(d.code, d.span.line, d.message) for d in compiler.check(folder).diagnostics]


@POSIX
def test_a_drawing_that_takes_too_long_is_a_fault_at_its_name(tmp_path, monkeypatch):
    names = "a " * 95_000  # each is looked up
    shapes = f'<rect class="{names}" width="1" height="1"/>' * 4
    (tmp_path / "pattern.yaml").write_text(DRAWN, "utf-8")
    (tmp_path / "stone.svg").write_text(STONE.replace("<path", "<style>.a{fill:#243b6b}</style>" + shapes + "<path"), "utf-8")  # fmt: skip
    found = said_of(tmp_path, monkeypatch, Limits(0, 512 << 20))
    assert found == [("too-large", 4, "reading `stone.svg` took more than 0 s of processor time")]


@POSIX
def test_a_picture_that_needs_too_much_is_a_fault_at_its_name(tmp_path, monkeypatch):
    stream = io.BytesIO()
    Image.new("RGB", (6_000, 6_000)).save(stream, "PNG")  # 36 million pixels: 103 MiB
    (tmp_path / "big.png").write_bytes(stream.getvalue())
    logo = SOURCE.replace("{editions:", "{look: {logo: big.png}, editions:")
    (tmp_path / "pattern.yaml").write_text(logo, "utf-8")
    assert compiler.check(tmp_path).value is not None
    monkeypatch.setattr(
        "booklet.source.files.folder._READY", {}
    )  # known pictures are not read again
    found = said_of(tmp_path, monkeypatch, Limits(10, 100 << 20))
    assert found == [("too-large", 6, "reading `big.png` needed more than 100 MiB of memory")]
    found = said_of(tmp_path, monkeypatch, Limits(10, 10 << 20))  # too little to begin with
    assert [(code, line) for code, line, _ in found] == [("too-large", 6)]
