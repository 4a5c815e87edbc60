"""The back as it is cut: panels with their seams cover it, and all else of its cloth lies beside them."""

from __future__ import annotations

import tempfile
from pathlib import Path

import pytest
from cutting_helpers import cut_text
from hypothesis import given, settings, strategies as st
from sampling import examples
from shapely import Polygon
from source_helpers import PATTERNS

from booklet import cutting, geometry, pressing, quilt, sewing
from booklet.source import reader

SEAM = {"in": 0.25, "cm": 0.6}


def cut_of(folder: Path):
    read = reader.read_folder(folder)
    cut = read.then(geometry.lay_out).then(sewing.assemble).then(pressing.press)
    return cut.then(quilt.set_quilts).then(cutting.cut).value


def laid(cloth):
    """(name, box in inches) of everything that lies on a cloth, y along it."""
    for strip in cloth.strips:
        for layout in strip.layouts:
            for placed in layout:
                yield placed.name, Polygon(placed.outline).bounds


def assert_backed(plan, back, width_in, seam_in, fabric="ink"):
    """The panels lie whole on the cloth, joined they cover the back, nothing else lies on them, and the
    cloth bought holds all of it. A last panel that is joined from strips lies across the cloth."""
    cloth = next(cloth for cloth in plan.fabrics if cloth.fabric == fabric)
    everything = list(laid(cloth))
    panels = [box for name, box in everything if name.startswith("backing")]
    strips = [box for name, box in everything if name == "backing last width" and back.strips]
    lengths = [box for box in panels if box not in strips]
    across = [right - left for left, _, right, _ in lengths]
    along = [bottom - top for _, top, _, bottom in lengths]
    wide, high = (float(side) for side in back.size)
    over, other = (high, wide) if back.turned else (wide, high)
    if (
        strips
    ):  # joined end to end they are as long as the other panels, and as wide as they lie high
        joined = sum(box[2] - box[0] for box in strips) - (len(strips) - 1) * 2 * seam_in
        across.append(min(box[3] - box[1] for box in strips))
        along.append(joined)
    assert sum(across) - (len(across) - 1) * 2 * seam_in >= over - 1e-6
    assert min(along) >= other - 1e-6
    others = [box for name, box in everything if not name.startswith("backing")]
    for left, top, right, bottom in [*panels, *others]:
        assert left >= -1e-6 and right <= width_in + 1e-6 and top >= -1e-6
        assert bottom <= float(cloth.buy.yards) * 36 + 1e-6
    for a in panels:
        for b in [box for box in [*panels, *others] if box is not a]:
            overlap = min(a[2], b[2]) - max(a[0], b[0]), min(a[3], b[3]) - max(a[1], b[1])
            assert min(overlap) <= 1e-6, (a, b)
    told = [tuple(map(float, panel)) for panel in plan.panels]
    if strips:
        told[-1] = told[-1][::-1]
    assert told == [pytest.approx(pair) for pair in zip(across, along, strict=True)]


def back_text(wide, high, cloth, unit, direction="any"):
    """A quilt of one piece whose back, 2 wider on each side, comes from its own cloth."""
    units = "inch" if unit == "in" else "cm"
    return f"""
title: T
units: {units}
allowance: {SEAM[unit]} {unit}
sizes: {{lap: {{title: Lap, unit: 1 {unit}, blocks: 2 x 2}}}}
fabrics: {{ink: {{name: Ink, colour: '#000000', width: {cloth} {unit}, direction: {direction}}}}}
patches: {{half: {{shape: rectangle, width: {(wide - 4) / 4}, height: {(high - 4) / 2}}}}}
blocks:
  boat:
    pieces:
      - {{id: a, patch: half, fabric: ink, at: [0, 0]}}
      - {{id: b, patch: half, fabric: ink, at: [{(wide - 4) / 4}, 0]}}
quilt: {{backing: {{extra: 2 {unit}, fabric: ink}}}}
"""


def backed(wide, high, cloth, unit, direction="any"):
    with tempfile.TemporaryDirectory() as folder:
        found = cut_text(Path(folder), back_text(wide, high, cloth, unit, direction)).value
    back = found.quilts["lap"].backing
    inch = 1.0 if unit == "in" else 1 / 2.54
    assert [float(x) for x in back.size] == pytest.approx([wide * inch, high * inch], abs=0.13)
    assert_backed(found.cuts["lap"], back, cloth * inch, SEAM[unit] * inch)
    return back


@pytest.mark.parametrize(
    ("wide", "high", "cloth", "unit", "panel"),
    [
        (32, 40, 40, "in", (40, 32)),  # its height across the cloth: 32 of length, not 40
        (19, 22, 40, "in", (22, 19)),
        (40, 32, 40, "in", (40, 32)),
        # its 8 rectangles of 19.2 x 42.2 lie 2 beside it where it stands: 86, 3 x 19.2 and 1.5; where it lies 16 wide
        # beside it hold none: 76, 4 x 19.2 and 1.5
        (76, 86, 102, "cm", (76, 86)),
        # of 8 of 15 x 38 1/2 beside it 6 where it stands: 80, 15 and 1/2; where it lies 1: 62, 38 1/2 and 1/2
        (62, 80, 108, "in", (62, 80)),
        (32, 42, 40, "in", (32, 42)),  # 42 does not lie across 40
    ],
)
def test_a_back_of_one_panel_is_cut_in_its_own_size(wide, high, cloth, unit, panel):
    back = backed(wide, high, cloth, unit)
    inch = 1.0 if unit == "in" else 1 / 2.54
    assert (back.widths, back.seam) == (1, "none")
    assert [float(x) for x in back.panel] == pytest.approx([x * inch for x in panel])


@settings(max_examples=examples(40), deadline=None)
@given(
    st.integers(12, 130),
    st.integers(12, 130),
    st.sampled_from([40, 42, 44, 58, 108]),
    st.sampled_from(["any", "one-way"]),
)
def test_the_panels_as_cut_cover_the_back(wide, high, cloth, direction):
    back = backed(wide, high, cloth, "in", direction)
    assert direction == "any" or not back.turned  # a print with a top keeps it up


@settings(max_examples=examples(20), deadline=None)
@given(st.integers(30, 300), st.integers(30, 300), st.sampled_from([102, 106, 112, 150, 274]))
def test_the_panels_as_cut_cover_the_back_in_centimetres(wide, high, cloth):
    backed(wide, high, cloth, "cm")


def test_patches_come_from_beside_a_small_back():
    found = cut_of(PATTERNS / "small_plain_back")
    sizes = {}
    for size, width in (("cot", 40.0), ("wide", 108.0)):
        back = found.quilts[size].backing
        assert_backed(found.cuts[size], back, width, 0.25, "sand")
        sizes[size] = [float(x) for x in (*back.size, *back.panel)]
    # 4 x 6 + 8 = 32, 5 x 6 + 8 = 38: 38 across the cloth and 32 along it
    assert sizes["cot"] == [32, 38, 38, 32]
    # 6 x 9 + 8 = 62, 8 x 9 + 8 = 80: 80 across, 62 along, and 28 in of the width beside it
    assert sizes["wide"] == [62, 80, 80, 62]


@pytest.mark.parametrize(
    ("wide", "high", "widths", "length"),
    [
        # standing 2 x 118 = 236 in, 6 5/8 yd; lying 3 x 76 = 228 in, 6 3/8 yd: a quarter of a yard is not worth a seam
        (76, 118, 2, 236),
        # standing 2 x 118 = 236 in, 6 5/8 yd; lying 3 x 60 = 180 in, 5 yd: a yard and a half is
        (60, 118, 3, 180),
    ],
)
def test_a_further_seam_of_the_back_spares_half_a_yard(wide, high, widths, length, tmp_path):
    text = back_text(wide, high, 40, "in").replace(
        "fabrics: {", "fabrics: {sand: {name: Sand, colour: '#ffffff'}, "
    )
    found = cut_text(
        tmp_path, text.replace("patch: half, fabric: ink", "patch: half, fabric: sand")
    )
    back = found.value.quilts["lap"].backing
    assert (back.widths, float(back.length)) == (widths, length)


@pytest.mark.parametrize("wide", [28, 18])
@pytest.mark.parametrize("units", ["inch", "cm"])
def test_a_back_from_fat_quarters_is_made_in_a_way_that_lies_on_them(wide, units, tmp_path):
    """28 x 9 in with 4 in all round is 36 x 17, 18 x 9 is 26 x 17. Two panels of 17 in side by side (2 x 21 - 1/2 = 41 1/2)
    are two fat quarters of 18 x 21 in; one panel, 36 or 26 in long, lies on none."""
    found = cut_text(
        tmp_path,
        f"""
title: Runner
units: {units}
allowance: 1/4 in
sizes: {{run: {{unit: 1 in, blocks: 1 x 1}}}}
fabrics: {{ink: {{colour: navy}}, sand: {{colour: silver, kind: fat quarter}}}}
blocks: {{plain: {{grid: [[ink]], columns: [{wide}], rows: [9]}}}}
quilt: {{arrange: [[plain]], backing: {{extra: 4 in, fabric: sand}}}}
""",
    )
    assert not [fault for fault in found.diagnostics if fault.is_error]
    (cloth,) = (cloth for cloth in found.value.cuts["run"].fabrics if cloth.fabric == "sand")
    back = found.value.quilts["run"].backing
    assert (cloth.buy.count, back.widths, back.turned) == (2, 2, False)


@pytest.mark.parametrize(("cloth", "told"), [("reed", ["hardly-used-width"]), ("sand", [])])
def test_a_last_width_that_patches_use_is_not_hardly_used(cloth, told, tmp_path):
    """72 x 80 in, the back 80 x 88 from cloth 40 in wide: two widths and 1 in of a third. Of a cloth of its own 2 x 88 + 3 strips
    of 1 in + 1/2 = 179 1/2, 5 yd; 1/4 in less on either side two widths of 87 1/2 do, 175 1/2, 4 7/8 yd. Of the cloth of 180
    squares of 4 1/2 in 8 x 19 lie beside the third width, 28 in four strips: 3 x 88 + 18 + 1/2 = 282 1/2, 7 7/8 yd; without it
    175 + 23 x 4 1/2 + 1/2 = 279, 7 3/4 yd: an eighth less, which is not worth a word."""
    found = cut_text(
        tmp_path,
        f"""
title: Quay stones
units: inch
sizes: {{lap: {{title: Lap, unit: 1 in, blocks: 9 x 10}}}}
fabrics:
  ink: {{colour: "#243b6b"}}
  sand: {{colour: "#e9dcc3"}}
  reed: {{colour: "#8a9a5b"}}
blocks:
  stone: {{grid: [[ink, sand], [sand, ink]], columns: [4, 4], rows: [4, 4]}}
quilt: {{backing: {{extra: 4 in, fabric: {cloth}}}}}
""",
    )
    assert [d.code for d in found.diagnostics] == told
