"""Nobody's file is lost: what a build did not write, or what was changed since, is never replaced unasked."""

import json
import os
import signal
import subprocess
import sys
import time

import pytest

from booklet.__main__ import main
from booklet.kit.remembered.memory import plainly
from booklet.kit.running.stopping import Stopped, held, watching
from booklet.recipe import compiler
from booklet.recipe.inventory import NAME, Inventory, put_in_place
from booklet.recipe.output import digest, keep_aside

SOURCE = """\
title: Quay stones
sizes: {lap: {title: Lap, unit: 2 in, blocks: 2 x 2}}
fabrics: {ink: {name: Dark blue, colour: "#243b6b"}, sand: {name: Sand, colour: "#e9dcc3"}}
blocks: {stone: {grid: [[ink, sand], [sand, ink]]}}
quilt: {set: straight, arrange: [[stone]]}
booklet: {editions: {pattern: {pages: [cover, materials]}}}
"""
WEB = "quay-stones-pattern.html"


@pytest.fixture
def folder(tmp_path):
    home = tmp_path / "stones"
    home.mkdir()
    (home / "pattern.yaml").write_text(SOURCE, encoding="utf-8")
    return home


@pytest.fixture
def quick(monkeypatch):
    """Builds that make one file, whose content can be set."""
    made = {"content": b"booklet"}
    monkeypatch.setattr(
        compiler, "build", lambda checked, options, write, say: write(WEB, made["content"])
    )
    return made


def call(capsys, *words):
    status = main([str(word) for word in words])
    told = capsys.readouterr()
    assert "Traceback" not in told.err
    return status, told.err


def tree(folder):
    return {p.name: p.read_bytes() for p in folder.iterdir() if p.name != NAME}


def test_a_file_that_no_build_wrote_stays(capsys, folder, quick):
    out = folder / "out"
    out.mkdir()
    (out / WEB).write_bytes(b"mine")
    status, err = call(capsys, "build", folder)
    assert status == 1 and "--replace" in err and "--out" in err
    assert f"in the way: `{out / WEB}` was not built by us; nothing was replaced" in err
    assert tree(out) == {WEB: b"mine"} and not (out / NAME).exists()
    assert call(capsys, "build", folder, "--replace")[0] == 0
    assert tree(out) == {WEB: b"booklet"}


def test_a_built_file_that_was_changed_by_hand_stays(capsys, folder, quick):
    out = folder / "out"
    assert call(capsys, "build", folder)[0] == 0
    quick["content"] = b"a newer booklet"
    assert call(capsys, "build", folder)[0] == 0  # as it was built: it is replaced
    (out / WEB).write_bytes(b"with notes of mine")
    status, err = call(capsys, "build", folder)
    assert status == 1 and f"`{out / WEB}` was changed since it was built" in err
    assert tree(out) == {WEB: b"with notes of mine"}


def test_the_very_same_bytes_are_in_nobodys_way(capsys, folder, quick):
    (folder / "out").mkdir()
    (folder / "out" / WEB).write_bytes(b"booklet")
    assert call(capsys, "build", folder)[0] == 0


def test_a_link_in_the_place_of_a_file_stays_and_is_not_followed(capsys, folder, quick):
    out, far = folder / "out", folder.parent / "diary.txt"
    out.mkdir()
    far.write_bytes(b"diary")
    (out / WEB).symlink_to(far)
    assert call(capsys, "build", folder)[0] == 1
    assert (out / WEB).is_symlink() and far.read_bytes() == b"diary"
    assert call(capsys, "build", folder, "--replace")[0] == 0
    assert not (out / WEB).is_symlink() and far.read_bytes() == b"diary"


@pytest.mark.parametrize("named", [False, True])
def test_an_out_that_is_a_link_of_the_folder_is_refused(capsys, folder, quick, named):
    far = folder.parent / "far"
    far.mkdir()
    (folder / "out").symlink_to(far)
    words = ["--out", folder / "out" / "deeper"] if named else []
    status, err = call(capsys, "build", folder, *words)
    assert status == 1 and f"`{folder / 'out'}` is a link that the pattern's folder brings" in err
    assert list(far.iterdir()) == []


def test_a_link_of_ones_own_outside_the_folder_is_followed(capsys, folder, quick):
    far, link = folder.parent / "far", folder.parent / "link"
    far.mkdir()
    link.symlink_to(far)
    assert call(capsys, "build", folder, "--out", link)[0] == 0
    assert tree(far) == {WEB: b"booklet"}


def _pipe(path):
    os.mkfifo(path)


LISTS = {
    "a pipe": (_pipe, "is not a plain file"),
    "a folder": (lambda path: path.mkdir(), "is not a plain file"),
    "cut short": (lambda path: path.write_text('{"files": {"a'), "is damaged"),
    "numbers": (lambda path: path.write_text('{"files": {"a": [1, 2]}}'), "is damaged"),
    "no rows": (lambda path: path.write_text('{"files": {"a": []}}'), "is damaged"),
    "not text": (lambda path: path.write_bytes(b"\xff\xfe\x00"), "is damaged"),
    "half a pair": (lambda path: path.write_text(r'{"files": {"\ud800": ["a", "b"]}}'), "names `"),
    "a zero": (lambda path: path.write_text(r'{"files": {"a\u0000": ["a", "b"]}}'), "names `"),
    "outside": (lambda path: path.write_text('{"files": {"../a": ["a", "b"]}}'), "names `../a`"),
}


@pytest.mark.parametrize("kind", LISTS)
def test_a_list_that_cannot_be_understood_is_a_sentence(capsys, folder, quick, kind):
    make, words = LISTS[kind]
    out = folder / "out"
    out.mkdir()
    make(out / NAME)
    status, err = call(capsys, "build", folder)
    assert status == 1 and words in err and "nothing was written" in err
    assert len(err.splitlines()) == 2  # "reading and checking", and the sentence
    assert tree(out) == {}
    # a folder and all that is in it is never replaced
    assert call(capsys, "build", folder, "--replace")[0] == (1 if kind == "a folder" else 0)


def test_a_build_killed_while_files_take_their_places_is_not_in_the_way_of_the_next(folder):
    # the list names what is coming before the first file moves
    out, pattern = folder / "out", compiler.pattern_of(compiler.check(folder).value)
    with keep_aside(out) as aside:
        aside.write(WEB, b"first")
        put_in_place(aside, out, pattern, whole=True)
    asked = (
        "import os, sys; from pathlib import Path; from booklet.recipe import compiler; "
        "from booklet.recipe.inventory import put_in_place; from booklet.recipe.output import keep_aside\n"
        f"out = Path({str(out)!r}); pattern = compiler.pattern_of(compiler.check(Path({str(folder)!r})).value)\n"
        "with keep_aside(out) as aside:\n"
        f"    aside.write({WEB!r}, b'second'); aside.write('b.html', b'second')\n"
        "    move = os.replace\n"
        "    def fatal(a, b):\n"
        "        if str(b).endswith('b.html'): os.kill(os.getpid(), 9)\n"
        "        move(a, b)\n"
        "    os.replace = fatal\n"
        "    put_in_place(aside, out, pattern, True)\n"
    )
    subprocess.run([sys.executable, "-c", asked], check=False, timeout=60)
    assert tree_of_files(out).get(WEB) == b"second"  # killed in the midst
    with keep_aside(out) as aside:
        aside.write(WEB, b"third")
        aside.write("b.html", b"third")
        put_in_place(aside, out, pattern, whole=True)
    assert tree(out) == {WEB: b"third", "b.html": b"third"}


def test_when_placing_fails_the_list_is_as_before(folder, tmp_path):
    pattern = compiler.pattern_of(compiler.check(folder).value)
    with keep_aside(tmp_path) as aside:
        aside.write(WEB, b"first")
        put_in_place(aside, tmp_path, pattern, whole=True)
    before = (tmp_path / NAME).read_bytes()
    (tmp_path / "b.html").mkdir()
    with pytest.raises(Exception, match="is a directory"), keep_aside(tmp_path) as aside:
        aside.write(WEB, b"second")
        aside.write("b.html", b"second")
        put_in_place(aside, tmp_path, pattern, True, may_replace=True)
    assert (tmp_path / NAME).read_bytes() == before
    assert (tmp_path / WEB).read_bytes() == b"first"


# builds that were ended from outside

PROGRAM = """
import sys, time
from pathlib import Path
from booklet.recipe import compiler
from booklet.__main__ import main
def slow(checked, options, write, say):
    write("quay-stones-pattern.html", b"new")
    print("waiting", flush=True)
    time.sleep(60)
compiler.build = slow
sys.exit(main(["build", sys.argv[1], "--quiet"]))
"""


@pytest.mark.parametrize(
    ("number", "status"),
    [(signal.SIGTERM, 143), (signal.SIGINT, 130), (signal.SIGHUP, 129), (signal.SIGKILL, -9)],
)
def test_a_build_that_is_ended_changes_nothing(capsys, folder, quick, number, status):
    out = folder / "out"
    assert call(capsys, "build", folder)[0] == 0
    with subprocess.Popen(
        [sys.executable, "-c", PROGRAM, str(folder)],
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
    ) as build:  # fmt: skip
        assert build.stdout.readline() == "waiting\n"
        build.send_signal(number)
        _, err = build.communicate(timeout=30)
    assert build.returncode == status and tree_of_files(out) == {WEB: b"booklet"}
    left = [p.name for p in out.iterdir() if p.name.startswith(".unfinished-")]
    if number == signal.SIGKILL:
        assert len(left) == 1
        assert call(capsys, "build", folder)[0] == 0
        assert not [p for p in out.iterdir() if p.name.startswith(".unfinished-")]
    else:
        assert left == [] and err == "booklet: stopped; what was built before is still there\n"


def tree_of_files(folder):
    return {p.name: p.read_bytes() for p in folder.iterdir() if p.is_file() and p.name != NAME}


def test_ctrl_c_while_the_program_loads_is_a_sentence(folder):
    asked = [sys.executable, "-X", "importtime", "-m", "booklet", "check", str(folder)]
    for word in ("booklet.kit.running.stopping", "numpy", "booklet.geometry"):
        with subprocess.Popen(asked, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as program:
            told = b""
            for line in program.stderr:
                told = line
                if word.encode() in line:
                    break
            if word == "booklet.kit.running.stopping":
                time.sleep(0.02)
            program.send_signal(signal.SIGINT)
            _, err = program.communicate(timeout=30)
        last = err.splitlines()[-1] if err else told
        assert program.returncode == 130 and b"Traceback" not in err
        assert last == b"booklet: stopped; what was built before is still there"


def test_only_folders_of_ours_are_cleared_away(tmp_path):
    for name, mark in ((".unfinished-mine", False), (".unfinished-left", True)):
        (tmp_path / name).mkdir()
        (tmp_path / name / "a.txt").write_bytes(b"a")
        if mark:
            (tmp_path / name / ".booklet-unfinished").write_text("left")
            (tmp_path / name / "former").mkdir()
            (tmp_path / name / "former" / "b.html").write_bytes(b"taken from its place")
    with keep_aside(tmp_path), keep_aside(tmp_path):  # a build that lives keeps its own
        alive = {p.name for p in tmp_path.iterdir()}
        assert len(alive) == 4 and ".unfinished-left" not in alive
    assert {p.name for p in tmp_path.iterdir()} == {".unfinished-mine", "b.html"}


def test_a_stretch_that_is_held_is_not_cut_in_two():
    done = []
    with watching(), pytest.raises(Stopped), held() as heed:
        signal.raise_signal(signal.SIGTERM)
        done.append("whole")
        heed()
    assert done == ["whole"]


def test_a_request_within_a_destructor_is_not_lost():
    class Clumsy:
        def __del__(self):
            signal.raise_signal(signal.SIGINT)

    with watching(), pytest.raises(Stopped):
        Clumsy()
        time.sleep(5)


def test_the_list_is_kept_as_it_was_written():
    found = Inventory()
    found.renew({"a.html": digest(b"a")}, "now", ())
    assert json.loads(found.text()) == {"files": {"a.html": [digest(b"a"), "now"]}}


@pytest.mark.skipif(sys.platform == "win32", reason="links need rights there")
def test_what_a_killed_build_left_cannot_lead_out_of_its_folder(tmp_path):
    """A stranger's folder may bring the remains of a build along, with a link where our files would wait."""
    home, left = tmp_path / "home", tmp_path / "out" / ".unfinished-x"
    home.mkdir()
    (home / "thesis.txt").write_text("years of work")
    left.mkdir(parents=True)
    (left / ".booklet-unfinished").write_text("left")
    (left / "former").symlink_to(home)
    with keep_aside(tmp_path / "out"):
        pass
    assert (home / "thesis.txt").read_text() == "years of work"
    assert list((tmp_path / "out").iterdir()) == []


def test_ctrl_c_says_what_was_being_worked_out(folder, capsys, monkeypatch):
    def stop(*read):
        raise KeyboardInterrupt

    monkeypatch.setattr(
        "booklet.recipe.checking.of_one_run", lambda: plainly
    )  # tests share what is sewn
    monkeypatch.setattr("booklet.sewing.stage.draft_steps", stop)
    status, err = call(capsys, "check", folder)
    assert status == 130
    assert err.startswith("booklet: stopped while working out how block `")
    assert err.endswith("; nothing was changed, what was built before is still there\n")
    monkeypatch.undo()
    assert call(capsys, "check", folder)[0] == 0  # and nothing of it is left over
