"""Files are written aside and take their places together; nothing that was there is lost."""

import errno
import os

import pytest

from booklet.recipe.output import OutputError, keep_aside, write_files


def tree(folder):
    return {
        p.relative_to(folder).as_posix(): p.read_bytes() for p in folder.rglob("*") if p.is_file()
    }


def failing(call, number: int, code: int = errno.ENOSPC):
    """`call`, which fails at its `number`-th use."""
    uses = iter(range(1, 1000))

    def either(*args, **options):
        if next(uses) == number:
            raise OSError(code, os.strerror(code))
        return call(*args, **options)

    return either


def test_files_appear_together_at_the_end(tmp_path):
    target = tmp_path / "a" / "out"
    with keep_aside(target) as aside:
        aside.write("one.html", b"1")
        aside.write("two.pdf", b"2")
        assert not (target / "one.html").exists()
        assert aside.replace() == ("one.html", "two.pdf")
    assert tree(target) == {"one.html": b"1", "two.pdf": b"2"}


def test_older_files_are_replaced_and_others_stay(tmp_path):
    (tmp_path / "one.html").write_bytes(b"old")
    (tmp_path / "mine.txt").write_bytes(b"mine")
    with keep_aside(tmp_path) as aside:
        aside.write("one.html", b"new")
        aside.replace()
    assert tree(tmp_path) == {"one.html": b"new", "mine.txt": b"mine"}


@pytest.mark.parametrize("stop", [KeyboardInterrupt, RuntimeError])
def test_a_build_that_stops_changes_nothing(tmp_path, stop):
    (tmp_path / "one.html").write_bytes(b"old")
    with pytest.raises(stop), keep_aside(tmp_path) as aside:
        aside.write("one.html", b"new")
        raise stop
    assert tree(tmp_path) == {"one.html": b"old"}
    assert [p.name for p in tmp_path.iterdir()] == ["one.html"]  # no folder of waiting files either


def test_a_folder_made_for_nothing_is_taken_away(tmp_path):
    with pytest.raises(RuntimeError), keep_aside(tmp_path / "out"):
        raise RuntimeError
    assert not (tmp_path / "out").exists()


def test_a_full_disk_is_a_sentence(tmp_path, monkeypatch):
    (tmp_path / "one.html").write_bytes(b"old")
    from pathlib import Path

    monkeypatch.setattr(Path, "write_bytes", failing(Path.write_bytes, 1))
    with (
        pytest.raises(OutputError, match="no space left on device; nothing that was there") as told,
        keep_aside(tmp_path) as aside,
    ):
        aside.write("one.html", b"new")
    assert "Make room on the disk" in str(told.value)
    assert tree(tmp_path) == {"one.html": b"old"}


@pytest.mark.parametrize("number", [1, 2, 3, 4, 5])
@pytest.mark.parametrize("kind", ["refusal", "Ctrl-C"])
def test_when_a_file_cannot_take_its_place_all_come_back(tmp_path, monkeypatch, number, kind):
    # moves: old one away, one in, two in (it is new), old three away, three in
    before = {"one.html": b"old 1", "three.pdf": b"old 3"}
    for name, content in before.items():
        (tmp_path / name).write_bytes(content)
    broken = failing(os.replace, number, errno.EACCES)

    def move(*args):
        try:
            broken(*args)
        except OSError:
            if kind == "Ctrl-C":
                raise KeyboardInterrupt from None
            raise

    monkeypatch.setattr(os, "replace", move)
    expected = OutputError if kind == "refusal" else KeyboardInterrupt
    with pytest.raises(expected), keep_aside(tmp_path) as aside:
        for name in ("one.html", "two.pdf", "three.pdf"):
            aside.write(name, b"new")
        aside.replace()
    assert tree(tmp_path) == before


def test_a_folder_in_the_place_of_a_file_stays(tmp_path):
    (tmp_path / "one.html").mkdir()
    (tmp_path / "one.html" / "mine.txt").write_bytes(b"mine")
    with pytest.raises(OutputError, match="is a directory"), keep_aside(tmp_path) as aside:
        aside.write("one.html", b"new")
        aside.replace()
    assert tree(tmp_path) == {"one.html/mine.txt": b"mine"}


def test_a_file_in_the_place_of_the_folder_is_a_sentence(tmp_path):
    (tmp_path / "out").write_bytes(b"mine")
    for target in (tmp_path / "out", tmp_path / "out" / "deeper"):
        with (
            pytest.raises(OutputError, match="choose another folder with --out"),
            keep_aside(target),
        ):
            pass
    assert tree(tmp_path) == {"out": b"mine"}


@pytest.mark.parametrize(
    ("code", "words"),
    [
        (errno.EROFS, "Ask who may write there"),
        (errno.EACCES, "Ask who may write there"),
        (errno.ENOSPC, "Make room"),
        (errno.ENAMETOOLONG, "shorter names"),
        (errno.EIO, "whether the disk is sound"),
    ],
)
def test_every_refusal_says_what_to_do_next(tmp_path, monkeypatch, code, words):
    monkeypatch.setattr("tempfile.mkdtemp", failing(None, 1, code))
    with pytest.raises(OutputError, match=words), keep_aside(tmp_path):
        pass


def test_two_files_of_one_name_are_our_bug(tmp_path):
    with pytest.raises(ValueError, match=r"one\.html"), keep_aside(tmp_path) as aside:
        aside.write("one.html", b"1")
        aside.write("one.html", b"2")


def test_new_files_never_replace_others(tmp_path):
    (tmp_path / "b.md").write_text("mine")
    with pytest.raises(OutputError, match="file exists"):
        write_files(tmp_path, {"b.md": "theirs", "text/a.md": "a"})
    assert tree(tmp_path) == {"b.md": b"mine"}
    write_files(tmp_path / "new", {"text/a.md": "é\n"})
    assert tree(tmp_path / "new") == {"text/a.md": "é\n".encode()}
