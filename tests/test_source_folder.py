"""Floor 2: nothing is read outside the folder, and nothing too large."""

from __future__ import annotations

import os
import sys
from pathlib import Path

import pytest
from picture_bytes import jpeg, pixels, png
from source_helpers import GOOD

from booklet.kit.diagnostic import Span
from booklet.source.faults import Faults
from booklet.source.files.folder import Folder
from booklet.source.reader import read_folder

pytestmark = pytest.mark.usefixtures("read_here")
PNG, JPEG = png(), jpeg()
LINKS = pytest.mark.skipif(sys.platform == "win32", reason="links need rights there")


def folder(tmp_path: Path, picture: str = "ink.png", page: str = "text/welcome.md") -> Path:
    home = tmp_path / "home"
    (home / "text").mkdir(parents=True)
    text = GOOD.replace('"#243b6b"', f'"#243b6b", picture: "{picture}"')
    text += f'booklet: {{editions: {{pattern: {{pages: [cover, "{page}"]}}}}}}\n'
    (home / "pattern.yaml").write_text(text, encoding="utf-8")
    (home / "text" / "welcome.md").write_text("# Ahoy\n", encoding="utf-8")
    (home / "ink.png").write_bytes(PNG)
    (tmp_path / "secret.md").write_text("secret", encoding="utf-8")
    return home


def codes(home: Path) -> list[str]:
    return [d.code for d in read_folder(home).diagnostics]


def test_texts_and_drawings_have_a_size_together(tmp_path):
    """Six of a megabyte each, of which five are read."""
    for k in range(6):
        (tmp_path / f"{k}.md").write_text("x" * 1_000_000)
    faults = Faults()
    files = Folder(tmp_path, faults)
    read = [files.text(f"{k}.md", Span.whole("pattern.yaml")) is not None for k in range(6)]
    assert read == [True] * 5 + [False]
    assert [d.code for d in faults.all()] == ["too-large"]


def test_texts_and_pictures_are_loaded(tmp_path):
    home = folder(tmp_path)
    outcome = read_folder(home)
    assert outcome.diagnostics == () and outcome.value is not None
    assert dict(outcome.value.texts) == {"text/welcome.md": "# Ahoy\n"}
    made = outcome.value.pictures["ink.png"]  # made anew: the same pixels
    assert len(outcome.value.pictures) == 1 and pixels(made) == pixels(PNG)
    (home / "ink.png").write_bytes(JPEG)
    assert codes(home) == []


@pytest.mark.parametrize(
    ("page", "code"),
    [
        ("../secret.md", "outside-folder"),
        ("text/../../secret.md", "outside-folder"),
        ("/etc/secret.md", "outside-folder"),
        ("~/secret.md", "outside-folder"),
        ("C:/secret.md", "outside-folder"),
        ("C:secret.md", "outside-folder"),
        ("..\\\\secret.md", "outside-folder"),
        ("https://example.org/x.md", "remote-address"),
        ("HTTP://example.org/x.md", "remote-address"),
        ("//example.org/x.md", "remote-address"),
        ("file:///etc/x.md", "remote-address"),
        ("data:text/plain,x.md", "remote-address"),
        ("text/none.md", "unreadable-source"),
        ("text\\0.md", "unreadable-source"),
    ],
)
def test_names_that_lead_elsewhere(tmp_path, page, code):
    assert codes(folder(tmp_path, page=page)) == [code]


@LINKS
def test_links_that_leave_are_refused_and_links_inside_are_followed(tmp_path):
    home = folder(tmp_path, page="text/link.md")
    (home / "text" / "link.md").symlink_to(tmp_path / "secret.md")
    assert codes(home) == ["outside-folder"]
    (home / "text" / "link.md").unlink()
    (home / "text" / "link.md").symlink_to(home / "text" / "welcome.md")
    assert codes(home) == []
    (home / "text" / "link.md").unlink()
    (home / "text" / "link.md").symlink_to(home / "text" / "link.md")
    assert codes(home) in (["unreadable-source"], ["outside-folder"])


@LINKS
def test_a_linked_directory_and_a_linked_pattern_do_not_leave_either(tmp_path):
    home = folder(tmp_path, page="out/secret.md")
    (home / "out").symlink_to(tmp_path)
    assert codes(home) == ["outside-folder"]
    (home / "pattern.yaml").unlink()
    (home / "pattern.yaml").symlink_to(tmp_path / "secret.md")
    assert codes(home) == ["outside-folder"]


@LINKS
def test_what_is_no_plain_file_is_not_opened(tmp_path):
    home = folder(tmp_path, page="text/pipe.md")
    os.mkfifo(home / "text" / "pipe.md")  # opening it would wait for ever
    assert codes(home) == ["unreadable-source"]


def test_large_files_are_refused_before_they_are_read(tmp_path, monkeypatch):
    home = folder(tmp_path)
    with (home / "pattern.yaml").open("ab") as file:
        file.truncate(50_000_000)
    opened: list[object] = []
    monkeypatch.setattr(Path, "open", lambda *a, **k: opened.append(a))
    assert codes(home) == ["too-large"] and opened == []


@pytest.mark.parametrize(("size", "code"), [(10_000_000, []), (10_000_001, ["too-large"])])
def test_the_size_of_pictures(tmp_path, size, code):
    home = folder(tmp_path)
    with (home / "ink.png").open("r+b") as file:
        file.truncate(size)
    assert codes(home) == code


@pytest.mark.parametrize(
    ("name", "content", "code"),
    [("ink.png", b"GIF89a", "unreadable-source"), ("ink.svg", b"<svg/>", "not-yet"), ("ink.png", b"", "unreadable-source")],
)  # fmt: skip
def test_pictures_are_known_by_their_first_bytes(tmp_path, name, content, code):
    home = folder(tmp_path, picture=name)
    (home / name).write_bytes(content)
    assert codes(home) == [code]


def test_no_folder_and_no_pattern(tmp_path):
    for place in (tmp_path / "nowhere", tmp_path):
        outcome = read_folder(place)
        assert outcome.value is None
        assert [d.code for d in outcome.diagnostics] == ["unreadable-source"]


def test_a_text_that_is_not_utf_8(tmp_path):
    home = folder(tmp_path)
    (home / "text" / "welcome.md").write_bytes(b"# A\n\nDie M\xf6we\n")  # as ISO 8859-1 has it
    (told,) = read_folder(home).diagnostics
    assert (told.code, told.span) == ("unreadable-source", Span("text/welcome.md", 3, 6, 7))


def test_a_folder_of_pages_that_cannot_be_looked_into_is_told(tmp_path, monkeypatch):
    home = folder(tmp_path)
    (home / "pages").mkdir()
    look = Path.iterdir

    def refused(path):
        if path.name == "pages":
            raise PermissionError(13, "Permission denied")
        return look(path)

    monkeypatch.setattr(
        Path, "iterdir", refused
    )  # the tests may run as one who may read everything
    found = [d for d in read_folder(home).diagnostics if d.span.file == "pages"]
    assert [(d.code, d.message) for d in found] == [
        ("unreadable-source", "the folder `pages` cannot be looked into")
    ]
