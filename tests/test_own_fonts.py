"""A font of the author's for titles: embedded where it may be, told where it may not or is none."""

import io
import struct

import pytest
from fontTools.ttLib import TTFont

from booklet.compiler import check
from booklet.pages import compose
from booklet.pages.style.cover import wall_of
from booklet.pages.style.fonts import FACES
from booklet.pages.style.paper import sheet_of
from booklet.pattern import Paper
from booklet.plan import make_plan
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
