"""The list of what was built: outdated files of our own are taken away, and nothing else."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

from booklet.inventory import NAME, Inventory, outdated, read_inventory, state_of
from booklet.output import digest, keep_aside


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
    from booklet import compiler

    folder = Path(__file__).parent.parent / "example_pattern"
    asked = (
        "from pathlib import Path; from booklet.source import read_folder; "
        f"from booklet.inventory import state_of; print(state_of(read_folder(Path({str(folder)!r})).value))"
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
