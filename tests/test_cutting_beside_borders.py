"""Binding beside borders that are cut along the selvedge, only where that makes no more joins than strips across; and both
beside a narrow panel of the back, as a sleeve and long sashes are."""

import pytest

from booklet.recipe import compiler

QUILT = """\
title: Tall
units: inch
sizes:
  small: {{title: Small, unit: 2 in, blocks: 2 x 4}}
  tall:
    {{title: Tall, unit: 2 in, blocks: 4 x 16, quilt: {{borders: [{{width: 5 in, fabric: x, cut: lengthwise}}]}}}}
fabrics:
  a: {{colour: red}}
  x: {{colour: green, width: 42 in, direction: {direction}}}
blocks:
  four: {{grid: [[a, a], [a, a]]}}
quilt:
  arrange: [[four]]
  borders: [{{width: 5 in, fabric: x, corners: squares, square fabric: a}}]
  binding: {{width: 2 1/2 in, fabric: x}}
"""


@pytest.fixture(scope="module", params=["any", "one-way"])
def cut(request, tmp_path_factory):
    folder = tmp_path_factory.mktemp("tall")
    text = QUILT.format(direction=request.param)
    (folder / "pattern.yaml").write_text(text, encoding="utf-8")
    return request.param, compiler.check(folder).value.cuts


def told(plan):
    (cloth,) = (cloth for cloth in plan.fabrics if cloth.fabric == "x")
    binding = sum(patch.pieces for patch in plan.patches if patch.name == "binding")
    return float(cloth.length), binding


def test_short_borders_leave_the_binding_its_long_strips(cut):
    """The top is 8 x 16 in, with its border 18 x 26: binding 2 x 18 + 2 x 26 + 10 = 98 in, of strips across
    (98 - 2.5) / (42 - 2.5) = 2.4, so 3. Beside the upright sides, 16.5 in long, it would be 98 / (16.5 - 2.5) = 7 strips.

    May the cloth be turned: 16.5 + 16.5 + 8.5 = 41.5 and 8.5 in two strips of 5.5, binding 3 x 2.5, and 1/2: 19 in.
    Of a print with an up the sides stand 16.5 high, the others beside them: 16.5 + 7.5 + 1/2 = 24.5 in."""
    direction, plans = cut
    assert told(plans["small"]) == ({"any": 19.0, "one-way": 24.5}[direction], 3)


def test_long_borders_give_fewer_strips_beside_them(cut):
    """The top is 16 x 64 in, with its border, cut along the selvedge, 26 x 74: binding 2 x 26 + 2 x 74 + 10 = 210 in, across 5.3, so 6. Beside the sides, 64.5 in
    long, 210 / (64.5 - 2.5) = 3.4, so 4, which fit with the borders: 4 x 5.5 + 4 x 2.5 = 32 of 42 in."""
    _, plans = cut
    assert told(plans["tall"])[1] == 4


BACKED = """\
title: Wide
units: inch
sizes: {{lap: {{title: Lap, unit: {unit} in, blocks: {blocks}}}}}
fabrics:
  a: {{colour: red}}
  w: {{colour: grey, width: {width} in, direction: {direction}}}
blocks:
  plain: {{grid: [[a]]}}
quilt:
  arrange: [[plain]]
  {part}
  backing: {{extra: {extra} in, fabric: w}}
  binding: {{width: 2 1/2 in, fabric: {binding}}}
"""


def backed(folder, **words):
    """A quilt whose back is of the cloth `w`, as it is cut, and the plan of that cloth."""
    (folder / "pattern.yaml").write_text(BACKED.format(**words), encoding="utf-8")
    found = compiler.check(folder).value
    (cloth,) = (cloth for cloth in found.cuts["lap"].fabrics if cloth.fabric == "w")
    return found, cloth


def of_wide(folder, borders, **words):
    found, cloth = backed(folder, unit=10, part=borders, extra=4, binding="w", **words)
    return found.quilts["lap"].backing, cloth


def test_borders_come_from_beside_the_panel_of_the_back(tmp_path):
    """40 x 60 in with a border of 6 in is 52 x 72, its back 60 x 80, from 90 in wide cloth. Standing it leaves 30 in of the
    width, 80 in long: all four border strips of 6 1/2 in, up to 60 1/2 long, take 26. Binding 2 x 52 + 2 x 72 + 10 = 258 in:
    3 strips across. 80 + 3 x 2 1/2 + 1/2 = 88 in. Lying it leaves 10 in, and each border a strip of its own:
    60 + 4 x 6 1/2 + 7 1/2 + 1/2 = 94 in."""
    borders = "borders: [{width: 6 in, fabric: w}]"
    back, cloth = of_wide(tmp_path, blocks="4 x 6", width=90, direction="any", borders=borders)
    assert (float(cloth.length), back.turned) == (88.0, False)
    panel = cloth.strips[0]
    assert panel.lengthwise
    assert {use.name: use.pieces for use in panel.uses} == {
        "backing": 1,
        "border 1 sides": 2,
        "border 1 top and bottom": 2,
    }


def test_the_binding_comes_from_beside_the_panel_of_the_back(tmp_path):
    """70 x 90 in; the back of a print with an up stands, 78 x 98 of 108 in. Binding 2 x 70 + 2 x 90 + 10 = 330 in: across
    (330 - 2 1/2) / (108 - 2 1/2) = 3.1, 4 strips; beside the back 327 1/2 / (98 - 2 1/2) = 3.4, 4 too, which take 10 in of
    the 30 that are left: 98 + 1/2 in of cloth, not 108 1/2."""
    back, cloth = of_wide(tmp_path, blocks="7 x 9", width=108, direction="one-way", borders="")
    assert (float(cloth.length), back.turned) == (98.5, False)
    assert {use.name: use.pieces for use in cloth.strips[0].uses} == {"backing": 1, "binding": 4}


def of_long(folder, **words):
    found, cloth = backed(folder, unit=9, binding="a", **words)
    along = {
        use.name: use.pieces for strip in cloth.strips if strip.lengthwise for use in strip.uses
    }
    return float(cloth.length), cloth.buy.yards_text, along, found.cuts["lap"]


@pytest.mark.parametrize(
    ("direction", "inches", "yards", "along", "joined"),
    [
        ("any", 102.5, "2 7/8", {"backing last width": 1, "sleeve": 1}, 0),
        ("one-way", 155.5, "4 3/8", {}, 1),
    ],
)
def test_a_sleeve_comes_from_beside_the_last_panel_of_the_back(
    tmp_path, direction, inches, yards, along, joined
):
    """45 x 63 in, its back 51 x 69 lies in two widths of 40 in: the last covers 69 - (40 - 1/2) = 29 1/2, which leaves
    10 1/2 in, 51 long, for the sleeve of 8 1/2 x 47: 2 x 51 + 1/2 = 102 1/2 in. In two strips across it took 17 in more,
    119 1/2 in, 3 3/8 yd. Of a print with an up the back stands, 2 x 69 in, and the sleeve would lie on its side
    beside its last width: it stays across, 138 + 17 + 1/2 = 155 1/2 in."""
    words = {"blocks": "5 x 7", "width": 40, "extra": 3, "part": "sleeve: {fabric: w}"}
    found = of_long(tmp_path, direction=direction, **words)
    assert found[:3] == (inches, yards, along)
    assert len(found[3].joins) == joined


def test_long_sashes_come_from_beside_the_panel_of_the_back(tmp_path):
    """5 x 9 + 4 = 49 by 6 x 9 + 5 = 59 in, its back 51 x 61 of 60 in wide cloth leaves 9 in: the five long sashes of 1 1/2 in
    take 7 1/2 of them, and 24 short ones of 9 1/2 in come from four strips across: 61 + 4 x 1 1/2 + 1/2 = 67 1/2 in. With the
    long ones across, 49 1/2 in of the 60, it was 61 + 5 x 1 1/2 + 1/2 = 69 in, 2 yd, the short ones beside the back."""
    part = "sashing: {width: 1 in, fabric: w}"
    inches, yards, along, _ = of_long(
        tmp_path, blocks="5 x 6", width=60, extra=1, direction="any", part=part
    )
    assert (inches, yards) == (67.5, "1 7/8")
    assert along["long sash"] == 5
