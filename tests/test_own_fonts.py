"""Fonts of the author's for titles and for the text: embedded where it may be, told where it may not or is none."""

import io
import re
import struct
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont

from booklet.pages.composing import compose
from booklet.pages.style.cover import wall_of
from booklet.pages.style.fonts import FACES
from booklet.pages.style.paper import sheet_of
from booklet.pattern import Paper
from booklet.plan import make_plan
from booklet.recipe.compiler import check
from booklet.source.files.font_file import read_font

SOURCE = """\
title: Quay stones
sizes: {lap: {title: Lap, unit: 1 in, blocks: 2 x 2}}
fabrics: {ink: {name: Dark blue}, sand: {name: Sand}}
blocks: {stone: {grid: [[ink, sand]]}}
booklet:
  look: {title font: fonts/mine.ttf}
  editions: {p: {pages: [cover, materials]}}
"""
SLANTED = FACES[1].read()  # one of ours, as an author's own


def with_bits(bits: int) -> bytes:
    """A font whose maker allows what these bits of `fsType` say."""
    font = TTFont(io.BytesIO(SLANTED))
    font["OS/2"].fsType = bits
    out = io.BytesIO()
    font.save(out)
    return out.getvalue()


@pytest.fixture
def read(tmp_path):
    def made(data: bytes):
        (tmp_path / "fonts").mkdir()
        (tmp_path / "fonts" / "mine.ttf").write_bytes(data)
        (tmp_path / "pattern.yaml").write_text(SOURCE, "utf-8")
        return check(tmp_path)

    return made


def test_a_font_is_embedded_and_measured(read):
    found = read(SLANTED)
    assert found.diagnostics == ()
    (font,) = found.value.pattern.fonts.values()
    there = TTFont(io.BytesIO(SLANTED))
    assert (font.em, font.widths[ord("Q")]) == (
        there["head"].unitsPerEm,
        there["hmtx"][there.getBestCmap()[ord("Q")]][0],
    )
    plan = make_plan(found.value)
    for paper in (None, Paper.A4):
        page = compose(plan, plan.pattern.booklet.editions[0], paper=paper).html
        assert page.count("src:url(data:font/woff;base64,d09GR") >= 1 and '--titles:"own-' in page
    long = "Quay stones and a longer word to sew by"
    own = wall_of(sheet_of(Paper.LETTER), long, "", face=font)
    assert own.title >= wall_of(sheet_of(Paper.LETTER), long, "").title  # slanted is narrower


@pytest.mark.parametrize("bits", [0x0000, 0x0004, 0x0008, 0x0100, 0x000A])
def test_what_may_be_embedded_is(bits):
    """OpenType 1.9, OS/2 `fsType`: of several bits of use the least strict holds."""
    assert read_font(with_bits(bits)).fault is None


@pytest.mark.parametrize("bits", [0x0002, 0x0202, 0x0200])
def test_what_may_not_be_embedded_is_told(read, bits):
    (fault,) = read(with_bits(bits)).diagnostics
    assert fault.code == "bad-font" and "may not be embedded" in fault.message
    assert (fault.span.file, fault.span.line, fault.span.column) == ("pattern.yaml", 6, 22)


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"Buy a font.",
        SLANTED[:2000],
        SLANTED[:4] + struct.pack(">H", 65535) + SLANTED[6:],  # so many tables it has not
        b"OTTO" + SLANTED[4:200],
        b"wOFF" + b"\xff" * 400,
        SLANTED[:12] + b"\xff" * 160 + SLANTED[172:],
    ],
)
def test_a_font_that_is_none_is_told(read, data):
    (fault,) = read(data).diagnostics
    assert fault.code == "bad-font" and "is no font that can be read" in fault.message


def test_the_same_font_gives_the_same_bytes():
    assert read_font(SLANTED) == read_font(SLANTED)


# For the text


def without(data: bytes, signs: str) -> bytes:
    """A font that lacks some signs."""
    font = TTFont(io.BytesIO(data))
    for table in font["cmap"].tables:
        for sign in signs:
            table.cmap.pop(ord(sign), None)
    out = io.BytesIO()
    font.save(out)
    return out.getvalue()


def of_text(folder: Path, look: str, fonts: dict[str, bytes], more: str = ""):
    (folder / "fonts").mkdir()
    for name, data in fonts.items():
        (folder / "fonts" / name).write_bytes(data)
    text = SOURCE.replace("{title font: fonts/mine.ttf}", look) + more
    (folder / "pattern.yaml").write_text(text, "utf-8")
    return check(folder)


def test_the_text_and_its_titles_are_set_in_a_font_of_the_author(tmp_path):
    found = of_text(tmp_path, "{text font: fonts/mine.ttf}", {"mine.ttf": SLANTED})
    assert found.diagnostics == ()
    plan = make_plan(found.value)
    page = compose(plan, plan.pattern.booklet.editions[0], paper=Paper.A4).html
    (name,) = set(re.findall(r'--text:"(own-[0-9a-f]*-text)", "Source Serif Pro"', page))
    assert f'--titles:"{name}"' in page
    # of paper nothing is slanted or bold but by a font: ours stand in
    faces = re.findall(f'font-family:"{name}";font-(?:style:(.*?)|weight:(.*?));', page)
    assert len(faces) == 3
    assert "h1,.back-title,.block-head .depth-1" in page  # not bold where the font has no bold


def test_slanted_and_bold_words_have_faces_of_their_own(tmp_path):
    look = "{text font: fonts/a.ttf, text italic: fonts/b.ttf, text bold: fonts/c.ttf, title font: serif}"
    fonts = {"a.ttf": FACES[0].read(), "b.ttf": SLANTED, "c.ttf": FACES[2].read()}
    found = of_text(tmp_path, look, fonts)
    assert found.diagnostics == ()
    plan = make_plan(found.value)
    page = compose(plan, plan.pattern.booklet.editions[0]).html
    assert page.count('-text";font-style:italic;font-weight:400') == 1
    assert page.count('-text";font-style:normal;font-weight:600') == 1
    assert '--titles:"Source Serif Pro", serif' in page
    assert "font-weight:400}.block-head" not in page


def test_fractions_are_of_one_font():
    """Of a font with halves and quarters but no eighths all fractions are ours; ⅓ and ⅔ stand by themselves."""
    made = read_font(without(SLANTED, "⅛⅜⅝⅞"))
    kept = {chr(code) for code in made.widths}
    assert not kept & set("½¼¾⅛⅜⅝⅞") and kept >= set("⅓⅔×⁄₈³")
    assert set("½¼¾⅛⅜⅝⅞") <= {chr(code) for code in read_font(SLANTED).widths}


def test_what_a_font_lacks_is_told(tmp_path):
    more = "language: de\n"
    data = without(SLANTED, "⅛×ßü")
    (told,) = of_text(tmp_path, "{text font: fonts/mine.ttf}", {"mine.ttf": data}, more).diagnostics
    assert (told.code, told.is_error, told.span.line) == ("missing-letter", False, 6)
    assert told.message == (
        "`fonts/mine.ttf` has no `¼`, `½`, `¾`, `×`, `ß`, `ü`, `⅛`, `⅜` and 2 more, which the text may show: "
        "they are set in the booklet's own font"
    )


def test_a_face_of_no_font_is_refused(tmp_path):
    (fault,) = of_text(tmp_path, "{text bold: fonts/c.ttf}", {"c.ttf": SLANTED}).diagnostics
    assert (fault.code, fault.span.line) == ("conflicting-keys", 6)
    assert fault.message == "`look` has `text bold`, but its `text font` is none of yours"
