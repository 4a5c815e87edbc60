"""The form `path` by itself: how it stands, how it is known, how it is cut."""

from __future__ import annotations

import math

from booklet.crafts.figure import curved_figure
from booklet.crafts.forms import recognised


def arc(start, end, radius):
    """Points on a circle about (0, 0), angles in degrees."""
    turns = [start + (end - start) * k / 24 for k in range(25)]
    return tuple(
        (radius * math.cos(math.radians(a)), radius * math.sin(math.radians(a))) for a in turns
    )


def seen(*lines):
    form, found = recognised(curved_figure(lines), None)
    return form.word, str(found.name), found.side


def test_a_quarter_circle_is_two_radii_and_their_arc():
    curve = arc(0, 90, 2)
    assert seen(curve, (curve[-1], (0, 0)), ((0, 0), curve[0])) == ("path", "quarter circle", 1)


def test_a_circle():
    assert seen(arc(0, 180, 2), arc(180, 360, 2)) == ("path", "circle", 0)


def test_the_grain_runs_along_the_longest_straight_side():
    curve = arc(0, 90, 2)
    lines = (curve, (curve[-1], (-3, 2)), ((-3, 2), (-3, 0)), ((-3, 0), curve[0]))
    assert seen(*lines) == ("path", "curved patch", 3)  # 5 in long
