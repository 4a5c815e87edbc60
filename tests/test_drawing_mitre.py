"""The corner of a mitred border and of a binding, drawn to the measures of their pattern."""

import math
import re

import pytest

from booklet.drawing.ink.fills import looks_of
from booklet.drawing.quilts.finishing import binding_figure
from booklet.drawing.quilts.mitre import (
    _Corner,
    _corner,
    _lines_of_the_top,
    _mitred,
    mitre_figure,
)
from booklet.kit.outlines.plane import box_of


@pytest.fixture
def sizes(example_plan):
    return {size.size.id: size for size in example_plan.sizes}


def test_strips_and_their_ends_have_the_measures_they_are_cut_to(sizes):
    throw = sizes["throw"]
    border = _mitred(throw)
    corner = _corner(throw, border)
    # 4 in and an allowance of 1/4 in from the dot to the raw edge
    assert (border.number, corner.out, corner.up, corner.allowance) == (2, 4.25, 4.25, 0.25)
    # top and bottom go round 40 + 2 x 1 in and are cut longer by 2 x 4 in and what the mitres take
    cut = {p.name: float(p.cut[0]) for p in throw.quilt.parts}
    assert corner.across == (cut["border 2 top and bottom"] - 42) / 2
    assert corner.down == (cut["border 2 sides"] - 50) / 2  # 48 + 2 x 1
    assert corner.across > corner.out  # the seam at 45 degrees ends on the strip


def test_the_top_inside_is_that_of_the_pattern_from_the_back(sizes):
    throw = sizes["throw"]
    corner = _corner(throw, _mitred(throw))
    lines = _lines_of_the_top(throw, _mitred(throw), corner)
    assert box_of([p for line in lines for p in line]) == pytest.approx((-4, 0.25, -0.25, 4))
    # border 1 is 1 in wide, and the first patch of the block is the square k1 of 2 in; of 4 in are shown 0.8 x 5
    assert corner.inside == 4
    square = ((-1, 1), (-3, 1), (-3, 3), (-1, 3))
    assert any(sorted(map(rounded, line)) == sorted(square) for line in lines)


def test_a_miter_between_two_widths_goes_from_corner_to_corner():
    """Sides of 3 in, top and bottom of 4 in: the miter is 5 in long, its way 3/5 along the level strip and 4/5 out, and it
    leaves the strips at the outer raw edge of top and bottom, 4 1/4 in out and 3/4 of that along. Folded in line with it the
    inner edge of the upright strip comes to lie askew: 90 degrees on from twice the angle of 53.13."""
    corner = _Corner(sides=3, ends=4, across=4, down=5, allowance=0.25)
    assert corner.slant == pytest.approx((0.6, -0.8))
    assert corner.edge == pytest.approx((3.1875, -4.25))
    ((x, y),) = corner.folded(((0.0, 1.0),))
    assert math.degrees(math.atan2(-y, x)) % 360 == pytest.approx(2 * 53.1301 + 90)
    # and the dot and the outer corner of one strip on those of the other
    assert corner.folded(((3.0, -4.0),))[0] == pytest.approx((3, -4))


def rounded(point):
    return tuple(round(v) for v in point)


def test_borders_without_mitres_have_no_such_picture(sizes):
    assert mitre_figure(sizes["cushion"]) is None


def test_captions_say_what_is_done_and_the_allowance(sizes, example_plan):
    mitre = str(mitre_figure(sizes["bed"]).caption)
    assert "border 2" in mitre and "trim to 1/4 in" in mitre and re.search(r"1 : \d", mitre)
    assert "stop 1/4 in before" in str(binding_figure(sizes["bed"], looks_of(example_plan)).caption)
