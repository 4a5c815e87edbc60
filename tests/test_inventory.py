"""The list of what was built: outdated files of our own are taken away, and nothing else."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

from booklet.recipe.inventory import (
    NAME,
    Inventory,
    checked_inventory,
    in_the_way,
    outdated,
    read_inventory,
    state_of,
)
from booklet.recipe.output import OutputError, digest, keep_aside


def listed(folder, files, state):
    """Write files and the list of them."""
    found = Inventory()
    for name, content in files.items():
        (folder / name).write_bytes(content)
    found.renew({name: digest(content) for name, content in files.items()}, state, ())
    (folder / NAME).write_bytes(found.text())


def test_files_of_an_earlier_state_are_outdated_unless_made_anew(tmp_path):
    listed(tmp_path, {"lap.pdf": b"1", "bed.pdf": b"2"}, "before")
    (tmp_path / "mine.pdf").write_bytes(b"mine")
    found = read_inventory(tmp_path)
    assert outdated(tmp_path, found, {"lap.pdf": ""}, "now") == ["bed.pdf"]
    assert outdated(tmp_path, found, {"lap.pdf": ""}, "before") == []  # the pattern is the same


def test_a_file_that_was_changed_since_is_never_outdated(tmp_path):
    listed(tmp_path, {"bed.pdf": b"2"}, "before")
    (tmp_path / "bed.pdf").write_bytes(b"my own")
    assert outdated(tmp_path, read_inventory(tmp_path), {}, "now") == []


@pytest.mark.parametrize("name", ["../mine.txt", "/etc/passwd", "a/b.pdf", "..", ""])
def test_a_list_of_a_stranger_names_nothing_outside(tmp_path, name):
    out = tmp_path / "out"
    out.mkdir()
    (tmp_path / "mine.txt").write_bytes(b"mine")
    rows = {"files": {name: [digest(b"mine"), "before"]}}
    (out / NAME).write_text(json.dumps(rows), encoding="utf-8")
    assert read_inventory(out).entries == {}


@pytest.mark.parametrize(
    "text", ["", "{", "[]", '{"files": 3}', '{"files": {"a": 1}}', "[" * 99999, "\x00"]
)
def test_a_broken_list_is_an_empty_one(tmp_path, text):
    (tmp_path / NAME).write_text(text, encoding="utf-8")
    assert read_inventory(tmp_path).entries == {}


@pytest.mark.parametrize("below", ["", "deeper/still"])
def test_a_file_is_no_folder_to_build_into(tmp_path, below):
    file = tmp_path / "booklets"
    file.write_text("mine")
    for may_replace in (False, True):
        with pytest.raises(
            OutputError, match="is a file, not a folder; nothing was written"
        ) as told:
            checked_inventory(file / below, may_replace)
        assert f"`{file}`" in str(told.value)
    assert file.read_text() == "mine"


def test_a_link_is_not_followed(tmp_path):
    listed(tmp_path, {"bed.pdf": b"2"}, "before")
    (tmp_path / "bed.pdf").unlink()
    (tmp_path / "mine.pdf").write_bytes(b"2")
    (tmp_path / "bed.pdf").symlink_to(tmp_path / "mine.pdf")
    assert outdated(tmp_path, read_inventory(tmp_path), {}, "now") == []


def test_outdated_files_go_when_the_new_ones_come(tmp_path):
    (tmp_path / "bed.pdf").write_bytes(b"old")
    with keep_aside(tmp_path) as aside:
        aside.write("lap.pdf", b"new")
        assert aside.replace(["bed.pdf"]) == ("lap.pdf",)
    assert [p.name for p in tmp_path.iterdir()] == ["lap.pdf"]


def test_when_an_outdated_file_cannot_go_all_stays(tmp_path):
    (tmp_path / "bed.pdf").write_bytes(b"old")
    with pytest.raises(Exception, match="cannot write"), keep_aside(tmp_path) as aside:
        aside.write("lap.pdf", b"new")
        aside.replace(["bed.pdf", "not there.pdf"])
    assert {p.name: p.read_bytes() for p in tmp_path.iterdir()} == {"bed.pdf": b"old"}


def test_the_state_of_a_pattern_is_the_same_in_every_run(example_checked):
    from booklet.recipe import compiler

    folder = Path(__file__).parent.parent / "example_pattern"
    asked = (
        "from pathlib import Path; from booklet.source.reader import read_folder; "
        f"from booklet.recipe.inventory import state_of; print(state_of(read_folder(Path({str(folder)!r})).value))"
    )
    told = {
        subprocess.run(
            [sys.executable, "-c", asked],
            env={"PYTHONHASHSEED": seed, "PYTHONPATH": str(folder.parent)},
            capture_output=True,
            text=True,
            check=True,
            timeout=60,
        ).stdout.strip()
        for seed in ("1", "2")
    }
    assert told == {state_of(compiler.pattern_of(example_checked))}


def test_a_site_is_a_folder_whose_files_are_listed_and_taken_away_like_others(tmp_path):
    (tmp_path / "a-site").mkdir()
    listed(tmp_path, {"a-site/index.html": b"1", "a-site/old.html": b"2"}, "before")
    (tmp_path / "a-site" / "mine.txt").write_bytes(b"mine")
    old = outdated(tmp_path, read_inventory(tmp_path), {"a-site/index.html": ""}, "now")
    assert old == ["a-site/old.html"]
    with keep_aside(tmp_path) as aside:
        aside.write("a-site/index.html", b"3")
        aside.write("b-site/index.html", b"4")
        aside.replace(old)
    assert {p.name: p.read_bytes() for p in (tmp_path / "a-site").iterdir()} == {
        "index.html": b"3",
        "mine.txt": b"mine",
    }
    with keep_aside(tmp_path) as aside:  # a folder in which nothing is left goes too
        aside.write("new.pdf", b"5")
        aside.replace(["b-site/index.html"])
    assert not (tmp_path / "b-site").exists()


def test_a_link_in_the_place_of_a_site_is_not_followed(tmp_path):
    out, mine = tmp_path / "out", tmp_path / "mine"
    out.mkdir()
    mine.mkdir()
    (mine / "index.html").write_bytes(b"mine")
    (out / "a-site").symlink_to(mine, target_is_directory=True)
    rows = {"files": {"a-site/index.html": [digest(b"mine"), "before"]}}
    (out / NAME).write_text(json.dumps(rows), encoding="utf-8")
    found = read_inventory(out)
    assert outdated(out, found, {}, "now") == []
    assert in_the_way(out, found, {"a-site/index.html": digest(b"mine")}) == ["a-site/index.html"]
    with pytest.raises(OutputError), keep_aside(out) as aside:
        aside.write("b-site/x", b"")
        aside.write("a-site/index.html", b"theirs")
        aside.replace()
    assert (mine / "index.html").read_bytes() == b"mine"
    assert not (out / "b-site").exists()


@pytest.mark.parametrize("name", ["a-site/../x", "../a-site/x", "a-site/b-site/x", "a-site/", "/a-site"])  # fmt: skip
def test_only_the_folder_of_a_site_may_stand_in_a_name(tmp_path, name):
    (tmp_path / NAME).write_text(json.dumps({"files": {name: ["1", "2"]}}), encoding="utf-8")
    assert read_inventory(tmp_path).entries == {}


def test_a_site_comes_back_from_a_build_that_was_killed(tmp_path):
    left = tmp_path / ".unfinished-1"
    (left / "former" / "a-site").mkdir(parents=True)
    (left / ".booklet-unfinished").write_text("")
    (left / "former" / "a-site" / "index.html").write_bytes(b"old")
    (left / "former" / "a-site" / "style.css").write_bytes(b"old")
    (tmp_path / "a-site").mkdir()
    (tmp_path / "a-site" / "index.html").write_bytes(b"new")
    with keep_aside(tmp_path):
        pass
    assert (tmp_path / "a-site" / "index.html").read_bytes() == b"new"
    assert (tmp_path / "a-site" / "style.css").read_bytes() == b"old"
    assert not left.exists()
