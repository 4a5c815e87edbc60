"""A hostile or careless stranger: one clear sentence each, within bounded time, never a traceback."""

import pytest
from picture_bytes import png, zeros

from booklet.__main__ import main
from booklet.source.starter import starter_files

pytestmark = pytest.mark.usefixtures("read_here")
STARTER = starter_files()
PATTERN = STARTER["pattern.yaml"]
WELCOME = "text/welcome.md"


@pytest.fixture
def check(tmp_path, capsys, monkeypatch):
    """Checks the starter with some files changed: the exit status and what is printed, line by line."""

    def run(pattern: str | bytes = PATTERN, **files: str | bytes) -> tuple[int, list[str]]:
        named = {
            name.replace("__", "/").replace("_dot_", "."): data for name, data in files.items()
        }
        for name, data in {**STARTER, "pattern.yaml": pattern, **named}.items():
            path = tmp_path / "p" / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(data if isinstance(data, bytes) else data.encode("utf-8"))
        monkeypatch.chdir(tmp_path / "p")
        status = main(["check", "--format", "lines"])
        told = capsys.readouterr()
        assert told.err == ""
        return status, told.out.splitlines()

    return run


def changed(old: str, new: str, *more: str) -> str:
    """The starter pattern with parts replaced, each of which it holds."""
    text = PATTERN
    for a, b in zip((old, *more[::2]), (new, *more[1::2]), strict=True):
        assert a in text, a
        text = text.replace(a, b, 1)
    return text


def line_of(part: str) -> int:
    return PATTERN[: PATTERN.index(part)].count("\n") + 1


# what is not YAML

SLIPS = {
    "no colon": (changed("title: Lamp", "title Lamp"), "the line above this one has no colon"),
    "no colon, alone": (changed("sizes:", "sizes"), "this line has no colon"),
    "no space": (
        changed("units: inch", "units:inch"),
        "the colon on this line has no space after it",
    ),
    "no space at first": (
        changed("title: L", "title:L"),
        "the colon on the line above has no space",
    ),
    "no brace": (changed("blocks: 2 x 2}", "blocks: 2 x 2"), "the group opened here is not closed"),
    "no bracket": (changed("at: [3, 3]}", "at: [3, 3}"), "the list opened here is not closed"),
    "quote": (changed('"#e8b23a"', '"#e8b23a'), "a quotation mark on this line is never closed"),
    "no quotes": (
        changed('"#e8b23a"', "#e8b23a"),
        "what follows ` #` on this line is read as a note",
    ),
    "colon in a text": (
        changed("Lamp and", "Lamp: and"),
        "a colon stands here where no key can begin",
    ),
    "too far left": (
        changed("    title: Lan", "   title: Lan"),
        "this line is indented further than",
    ),
    "too far right": (
        changed("  lap: {", "    lap: {"),
        "this line is indented like nothing above it",
    ),
    "tab": (changed("    title: Lantern", "\ttitle: Lantern"), "a tab stands here"),
    "key twice": (changed("designer: Your Name", "title: Again"), "`title` stands here again"),
    "size twice": (changed("  lap: {", "  cushion: {"), "`cushion` stands here again"),
    "nothing": ("", "`pattern.yaml` is empty"),
    "notes only": ("# a\n# b\n", "`pattern.yaml` is empty"),
    "a list": ("- a\n", "the pattern is a list"),
    "a word": ("hello\n", "the pattern is `hello`"),
    "another alphabet": (PATTERN.encode("utf-16"), "`pattern.yaml` is not written in UTF-8"),
    "zeros": (b"\0" * 9, "an invisible character (number 0) stands here"),
    "noise": (bytes(range(256)), "`pattern.yaml` is not written in UTF-8"),
    "deep": ("a: " + "[" * 900_000, "lists and groups stand inside one another more than 24 deep"),
    "50 MB": (b"# " + b"x" * 50_000_000, "`pattern.yaml` has 50 MB; at most 1 MB are read"),
    "steers the terminal": ("title: a\x1b[2Jb\n", "an invisible character (number 27) stands here"),
}


@pytest.mark.parametrize("slip", SLIPS)
def test_a_slip_of_the_pen_is_one_sentence(check, slip):
    pattern, words = SLIPS[slip]
    status, told = check(pattern)
    assert status == 1 and len(told) == 1 and words in told[0], told


def test_an_alias_bomb_is_refused_where_it_stands(check):
    levels = [
        f"{b}: &{b} [{', '.join([f'*{a}'] * 9)}]\n"
        for a, b in zip("abcdefgh", "bcdefghi", strict=True)
    ]
    status, told = check(
        "a: &a [x, x]\n" + "".join(levels)
    )  # written out: 9^8 lists, which would not end
    assert status == 1
    assert any("pattern.yaml:1:4: error: `&a` gives a name to a value" in line for line in told)
    assert len(told) <= 201


# folders


def test_folders_without_a_pattern(tmp_path, capsys):
    (tmp_path / "p").mkdir()
    for name, hint in (
        ("x.txt", "`booklet new`"),
        ("pattern.yml", "rename `pattern.yml` to `pattern.yaml`"),
    ):
        (tmp_path / "p" / name).write_text("title: a")
        assert main(["check", str(tmp_path / "p")]) == 1
        told = capsys.readouterr().out
        assert "there is no file `pattern.yaml` in the folder" in told and hint in told


def test_a_pattern_that_is_a_folder_or_a_link_out(tmp_path, capsys):
    (tmp_path / "p" / "pattern.yaml").mkdir(parents=True)
    assert main(["check", str(tmp_path / "p")]) == 1
    assert "`pattern.yaml` is not a file" in capsys.readouterr().out
    (tmp_path / "q").mkdir()
    (tmp_path / "secret.yaml").write_text("title: secret")
    (tmp_path / "q" / "pattern.yaml").symlink_to(tmp_path / "secret.yaml")
    assert main(["check", str(tmp_path / "q")]) == 1
    told = capsys.readouterr().out
    assert "does not lie in the pattern's folder" in told and "secret" not in told


# paths and pictures

PATHS = {
    "../secret.md": "outside-folder",
    "/etc/passwd.md": "outside-folder",
    "~/x.md": "outside-folder",
    '"C:\\\\x.md"': "outside-folder",
    '"\\\\\\\\host\\\\x.md"': "remote-address",
    "https://example.org/a.md": "remote-address",
    "file:///etc/passwd.md": "remote-address",
    "text/none.md": "unreadable-source",
    "text/welcome": "unknown-name",
    "text/link.md": "outside-folder",
}


@pytest.mark.parametrize("path", PATHS)
def test_a_text_comes_from_the_folder_only(check, tmp_path, path):
    (tmp_path / "secret.md").write_text("secret")
    (tmp_path / "p" / "text").mkdir(parents=True)
    (tmp_path / "p" / "text" / "link.md").symlink_to(tmp_path / "secret.md")
    status, told = check(changed("cover, text/welcome.md", f"cover, {path}"))
    place = f"pattern.yaml:{line_of('pages: [cover')}:22: error: "
    assert status == 1 and len(told) == 1 and told[0].startswith(place), told
    assert told[0].endswith(f" [{PATHS[path]}]")


@pytest.mark.parametrize(
    ("picture", "data", "words"),
    [
        ("../a.png", png(), "does not lie in the pattern's folder"),
        ('"https://example.org/a.png"', png(), "is an address"),
        ("a.png", b"\x89PNG\r\n\x1a\n", "is a broken picture"),
        ("a.png", b"GIF89a", "is neither a PNG nor a JPEG picture"),
        ("a.png", png(60_000, 60_000, packed=zeros(0)), "has 60000 x 60000 pixels"),
        ("a.png", b"\x89PNG\r\n\x1a\n" + b"x" * 10_000_000, "has 10 MB; at most 10 MB"),
        ("a.svg", b"<svg/>", "is an SVG drawing"),
    ],
)
def test_a_swatch_is_a_whole_picture_of_the_folder(check, picture, data, words):
    pattern = changed('colour: "#e8b23a"', f'colour: "#e8b23a", picture: {picture}')
    status, told = check(pattern, a_dot_png=data, a_dot_svg=data)
    assert status == 1 and len(told) == 1 and words in told[0], told


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("![a](https://example.org/a.png)", "nothing is fetched from elsewhere"),
        ("![a](//example.org/a.png)", "nothing is fetched from elsewhere"),
        ("![a](../../a.png)", "is not in the folder"),
        ("![a](broken.png)", "is neither a PNG nor a JPEG picture"),
        ("{{ ''.__class__ }}", "`''.__class__` is no value, figure or table"),
        ("{{ title.__class__ }}", "`title.__class__` is no value, figure or table"),
        ("{{ 7*7 }}", "`7*7` is no value"),
        ("> " * 500 + "x", "nests deeper"),
        ("[" * 5000, "holds more signs"),
    ],
)
def test_a_text_shows_only_what_it_may(check, text, words):
    status, told = check(text__welcome_dot_md=text, text__broken_dot_png=b"x")
    assert (
        status == 1 and len(told) == 1 and words in told[0] and "text/welcome.md:1:" in told[0]
    ), told


@pytest.mark.parametrize(
    "text", ["<script>alert(1)</script>", "<img src=x onerror=a()>", "{% import os %}", "{# a #}"]
)
def test_code_in_a_text_is_a_warning(check, text):
    status, told = check(text__welcome_dot_md=f"# A\n\n{text}\n")
    assert status == 0 and len(told) == 1
    assert told[0].startswith("text/welcome.md:3:1: warning: ")
    assert told[0].endswith(" [code-in-text]")


# numbers

LENGTHS = ["0", "-1", "0 in", "-1 in", "99999999999 in", "1/0", "1/0 in", "1//2 in", "1e9 in", "1e400", ".inf",
           "inf in", "NaN", ".nan", "1 furlong", "abc", '""', "√-1", "9**9**9", '__import__("os")', "1" * 5000,
           "(" * 90 + "1" + ")" * 90]  # fmt: skip


@pytest.mark.parametrize("length", LENGTHS)
def test_an_impossible_length_is_one_sentence(check, length):
    status, told = check(changed("unit: 1 in,", f"unit: {length},"))
    place = f"pattern.yaml:{line_of('cushion: {')}:35: error: `unit` of size `cushion`"
    assert status == 1 and len(told) == 1 and told[0].startswith(place), told
    assert told[0].endswith(" [bad-length]")
    assert len(told[0]) < 200


def test_a_size_without_a_unit(check):
    status, told = check(changed(", unit: 1 in", ""))
    assert status == 1 and told == [
        f"pattern.yaml:{line_of('cushion: {')}:3: error: size `cushion` has no `unit` [missing-key]"
    ]


@pytest.mark.parametrize(
    ("blocks", "code"),
    [
        ("400 x 250", "too-large"),
        ("100000", "too-large"),
        ("100000 x 1", "too-large"),
        ("99 x 99", "too-large"),  # 9801 blocks of 13 pieces: too many to draw
        ("0 x 0", "bad-number"),
        ("-1 x 2", "bad-number"),
        ("2 x", "wrong-kind"),
        ("two", "wrong-kind"),
        (".inf x 2", "bad-number"),
    ],
)
def test_a_hundred_thousand_blocks_end_in_a_sentence(check, blocks, code):
    status, told = check(changed("blocks: 2 x 2", f"blocks: {blocks}"))
    assert status == 1 and len(told) == 1
    place = f"pattern.yaml:{line_of('cushion: {')}:49: error: "
    assert told[0].startswith(place) and told[0].endswith(f" [{code}]"), told


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("title: Lamp and Quay", "title: " + "x" * 100_000),
        ("summary: Twenty", "summary: " + "x" * 100_000),
        ("name: Warm yellow", "name: " + "x" * 100_000),
        ("times: 4}}", "times: 100000}}"),
        ("corners: butted}", "corners: butted}" + ", {width: 2 in, fabric: water}" * 500),
    ],
)
def test_what_is_too_long_is_said_shortly(check, old, new):
    status, told = check(changed(old, new))
    assert status == 1 and told[0].startswith("pattern.yaml:")
    assert told[0].endswith(" [too-large]") and ": error: " in told[0]
    assert max(map(len, told)) < 300


# names

ODD = ['"a\'b"', "<b>", '"\U0001f9f5"', "a/b", "..", "../x", '""', ".", '"a\\u202eb"', "a.b", "-x", "a#b",
       '"a\\nb"', '"a|b"', "x" * 300, '"a:b"', '"\\0"']  # fmt: skip


@pytest.mark.parametrize("name", ODD)
def test_an_odd_name_is_refused(check, name):
    for old, new in (("  cushion: {", f"  {name}: {{"), ("    handout:\n", f"    {name}:\n")):
        status, told = check(changed(old, new).replace("sizes: [cushion]", "sizes: [lap]"))
        assert status == 1 and told[0].startswith("pattern.yaml:"), told
        assert told[0].endswith(" [bad-name]") and ": error: " in told[0], told
        assert all(line.isprintable() and len(line) < 300 for line in told)


@pytest.mark.parametrize("name", ["a b", '"מנורה"', '"灯笼"', "123", "con", "Größe"])
def test_a_name_of_any_script_is_kept(check, name):
    assert check(
        PATTERN.replace("  cushion: {", f"  {name}: {{").replace("[cushion]", f"[{name}]")
    ) == (0, [])


def test_letters_without_a_face_are_a_warning(check):
    status, told = check(changed("Lamp and Quay", "Lamp 灯 مرحبا"), text__welcome_dot_md="# 灯\n")
    assert status == 0 and [line.split()[-1] for line in told] == ["[missing-letter]"] * 2
    assert told[1].startswith("text/welcome.md:1:3: warning: ")


def test_an_edition_needs_pages_and_names_that_differ(check):
    status, told = check(
        changed("pages: [class, supplies, cutting, practice, piecing, pressing]", "pages: []")
    )
    assert status == 1 and "has 0 entries; it needs at least 1" in told[0]
    status, told = check(changed("    handout:\n", "    Pattern:\n"))
    assert status == 1 and "would have files of the same name" in told[0]
