"""Every shape of the format against closed formulas: sides, angles, order of corners, origin."""

from __future__ import annotations

import math

import pytest
from builders import shape

from booklet.crafts.figure import figure_of
from booklet.crafts.forms import FORMS
from booklet.geometry.patches.recognise import recognise
from booklet.geometry.placing.shapes import ShapeError, grain_wish, shape_outline
from booklet.kit.measure import Length
from booklet.kit.outlines.plane import box_of
from booklet.kit.outlines.polygon import area_of
from booklet.pattern import Anchor, AnchorKind, Grain

ONE = Length.of(1)
R2, R3 = math.sqrt(2), math.sqrt(3)

# kind, keys, side lengths clockwise, inner angles, area
FORMULAS = [
    ("square", {"side": 2}, [2, 2, 2, 2], [90] * 4, 4),
    ("rectangle", {"width": 3, "height": 2}, [3, 2, 3, 2], [90] * 4, 6),
    ("half-square triangle", {"side": 2}, [2 * R2, 2, 2], [45, 45, 90], 2),
    ("quarter-square triangle", {"base": 2}, [R2, 2, R2], [90, 45, 45], 1),
    ("right triangle", {"width": 3, "height": 4}, [5, 3, 4], None, 6),
    ("equilateral triangle", {"side": 2}, [2, 2, 2], [60] * 3, R3),  # s^2 sqrt3 / 4 = sqrt3
    ("isosceles triangle", {"base": 2, "height": 3}, [math.sqrt(10), 2, math.sqrt(10)], None, 3),
    ("diamond", {"side": 2, "angle": 45}, [2] * 4, [45, 135, 45, 135], 4 * math.sin(math.pi / 4)),
    ("parallelogram", {"base": 3, "height": 2, "shift": 2}, [3, 2 * R2, 3, 2 * R2], [135, 45, 135, 45], 6),
    ("trapezoid", {"base": 4, "top": 2, "height": 1}, [2, R2, 4, R2], [135, 135, 45, 45], 3),
    ("half hexagon", {"side": 2}, [2, 2, 4, 2], [120, 120, 60, 60], 3 * R3),  # half of 6 sqrt3
    ("hexagon", {"side": 2}, [2] * 6, [120] * 6, 6 * R3),  # 3 sqrt3 / 2 * 4
    ("elongated hexagon", {"side": 1}, [1] * 6, [135, 135, 90, 135, 135, 90], 1 + R2),  # ring = square of area 1 + middle 1 x sqrt2
    ("elongated hexagon", {"side": 1, "middle": 2}, [2, 1, 1, 2, 1, 1], [135, 135, 90] * 2, 1 + 2 * R2),
    ("elongated hexagon", {"side": 2, "angle": 60, "middle": 1}, [1, 2, 2] * 2, [150, 150, 60] * 2, 2 * R3 + 2),
    ("octagon", {"side": 1}, [1] * 8, [135] * 8, 2 * (1 + R2)),
    ("kite", {"length": 4, "width": 2, "cross": 1}, [R2, math.sqrt(10), math.sqrt(10), R2], None, 4),
    ("right trapezoid", {"base": 4, "top": 2, "height": 2}, [2, 2 * R2, 4, 2], [90, 135, 45, 90], 6),
    ("regular polygon", {"sides": 5, "side": 1}, [1] * 5, [108] * 5, math.sqrt(25 + 10 * math.sqrt(5)) / 4),
    ("regular polygon", {"sides": 12, "side": 1}, [1] * 12, [150] * 12, 3 * (2 + R3)),
]  # fmt: skip


@pytest.mark.parametrize(("kind", "keys", "sides", "angles", "area"), FORMULAS)
def test_sides_angles_and_area(kind, keys, sides, angles, area):
    outline = shape_outline(shape(kind, **keys), ONE)
    figure = figure_of(outline.points)
    assert figure.sides == pytest.approx(sides, abs=1e-9)
    if angles:
        assert figure.angles == pytest.approx(angles, abs=1e-9)
    assert area_of(outline.points) == pytest.approx(area, abs=1e-9)  # positive: clockwise
    left, top, right, bottom = box_of(outline.points)
    assert (left + right, top + bottom) == pytest.approx((0, 0), abs=1e-12)  # origin: the middle


@pytest.mark.parametrize(("kind", "keys"), [(kind, keys) for kind, keys, *_ in FORMULAS])
def test_a_drawn_shape_is_recognised_for_what_it_is(kind, keys):
    found = recognise(shape_outline(shape(kind, **keys), ONE), None).form.word
    same = {  # where geometry knows only one name
        "quarter-square triangle": "half-square triangle",
    }
    assert found == same.get(kind, kind) or (kind, keys.get("side")) == ("elongated hexagon", 0)


def test_corners_come_in_the_order_of_the_table():
    def first(kind, **keys):
        return shape_outline(shape(kind, **keys), ONE).corners[0]

    assert first("square", side=2) == (-1, -1)  # top left
    assert first("half-square triangle", side=2) == (-1, -1)  # top left
    assert first("quarter-square triangle", base=2) == (0, -0.5)  # top
    assert first("diamond", side=2, angle=60) == pytest.approx((0, -R3))  # top
    assert first("parallelogram", base=2, height=1, shift=1) == (
        -0.5,
        -0.5,
    )  # top left, moved right
    assert first("hexagon", side=1) == (0, -1)  # top
    assert first("elongated hexagon", side=1) == pytest.approx((-0.5, -R2 / 2))  # upper left
    assert first("octagon", side=2) == pytest.approx((-1, -1 - R2))  # upper left of the top side
    assert first("kite", length=4, width=2, cross=1) == (0, -2)  # top
    assert first("regular polygon", sides=4, side=2) == pytest.approx((-1, -1))  # left of two
    assert first("regular polygon", sides=5, side=2)[0] == pytest.approx(0)  # the one at the top


def test_a_regular_polygon_stands_on_a_flat_side():
    for sides in range(3, 13):
        corners = shape_outline(shape("regular polygon", sides=sides, side=1), ONE).corners
        low = max(y for _, y in corners)
        assert sum(abs(y - low) < 1e-9 for _, y in corners) == 2


def test_the_unit_scales_units_but_not_inches():
    outline = shape_outline(shape("rectangle", width=2, height="1 in"), Length.of("3/4 in"))
    assert figure_of(outline.points).sides == pytest.approx((1.5, 1, 1.5, 1))  # 2 u * 3/4; 1 in


def test_an_anchor_is_the_origin():
    corner = shape_outline(shape("square", side=2, anchor=Anchor(AnchorKind("corner"), 3)), ONE)
    assert corner.corners[2] == (0, 0)
    side = shape_outline(shape("square", side=2, anchor=Anchor(AnchorKind("side"), 2)), ONE)
    assert side.corners[1] == (0, -1)  # the middle of the right side is the origin
    free = shape_outline(shape("polygon", corners=[(5, 5), (6, 5), (6, 7)]), ONE)
    assert free.corners[0] == (5, 5)  # free corners keep their own (0, 0)
    centred = shape_outline(
        shape("polygon", corners=[(5, 5), (6, 5), (6, 7)], anchor=Anchor()), ONE
    )
    assert centred.corners[0] == (-0.5, -1)


def test_corners_against_the_clock_are_turned_round_from_the_same_first_corner():
    outline = shape_outline(shape("polygon", corners=[(0, 0), (0, 1), (1, 1), (1, 0)]), ONE)
    assert outline.corners == ((0, 0), (1, 0), (1, 1), (0, 1))


def test_a_grain_wish_is_a_direction():
    square = shape("square", side=1, grain=Grain(side=2))
    assert grain_wish(square, shape_outline(square, ONE)) == 0  # side 2 runs down: up and down
    slanted = shape("square", side=1, grain=Grain(angle=225))
    assert grain_wish(slanted, shape_outline(slanted, ONE)) == 45
    with pytest.raises(ShapeError, match="there is no side 5"):
        wrong = shape("square", side=1, grain=Grain(side=5))
        grain_wish(wrong, shape_outline(wrong, ONE))


@pytest.mark.parametrize(
    ("made", "says"),
    [
        (shape("square"), "needs `side`"),
        (shape("square", side=-1), "greater than 0"),
        (shape("diamond", side=1, angle=180), "between 0 and 180"),
        (shape("regular polygon", side=1, sides=2), "whole number from 3"),
        (shape("polygon", corners=[(0, 0), (1, 1), (2, 2)]), "no area"),
        (shape("polygon", corners=[(0, 0), (1, 0), (1, 0), (0, 1)]), "lie on each other"),
        (shape("square", side=1, anchor=Anchor(AnchorKind("corner"), 5)), "there is no corner 5"),
    ],
)
def test_measures_that_make_no_shape_are_refused(made, says):
    with pytest.raises(ShapeError, match=says):
        shape_outline(made, ONE)


def test_names_of_freely_drawn_outlines():
    def name(*corners, grain=None):
        return recognise(shape_outline(shape("polygon", corners=corners), ONE), grain).name

    assert name((0, 0), (2, 2), (0, 2)) == "half-square triangle"
    assert (
        name((0, 0), (2, 2), (0, 2), grain=135) == "quarter-square triangle"
    )  # along the long side
    assert name((0, 0), (1, -1), (2, 0), (1, 1)) == "square"
    assert name((0, 0), (2, -1), (4, 0), (2, 1)) == "diamond"
    assert name((0, 0), (2, -1), (3, 0), (2, 1)) == "kite"
    assert name((0, 0), (2, -1), (1, 0), (2, 1)) == "dart"
    assert name((0, 0), (5, 0), (4, 1), (0, 3)) == "four-sided patch"
    assert name((0, 0), (1, 0), (2, 0), (2, 2), (0, 2)) == "square"  # a corner on a side is none


def test_kinds_have_all_their_outlines():
    assert {kind for kind, *_ in FORMULAS} == {f.word for f in FORMS.values() if not f.is_free}
