"""Floor 10: how parts lie when they are sewn: right sides together, once for each kind of join."""

from __future__ import annotations

import itertools
from collections.abc import Sequence

from booklet.drawing.ink.fills import wrong_side
from booklet.drawing.ink.svg import figure
from booklet.drawing.lettering.labels import Desk
from booklet.drawing.lettering.strokes import sign_strokes
from booklet.drawing.scene import Area, Figure, Fill, Ink, Item, Line, Mark, Scene, Sign
from booklet.kit.outlines.plane import Point, plus, rectangle, vector
from booklet.kit.words import Text, phrase
from booklet.sewing.assembly import StepKind

WIDTH, HEIGHT = 56.0, 48.0  # mm
FOLDED = 11.0  # mm: the corner that is turned back, so that the right side of the upper part shows
SHARE = 4.0  # mm: the allowance
STRAIGHT = phrase(
    "Lay one part on the other, right sides together and raw edges level: the one on top lies wrong side up. Sew, "
    "and open it."
)
SET_IN = phrase(
    "Lay the part to be set in on the first side of the corner, right sides together, and sew from 1 to 2. Then bring "
    "its next side round to the next edge, which folds the cloth below, and go on from 2 to 3."
)


def faces_figures(
    name: str, kinds: Sequence[StepKind], by_hand: Sequence[StepKind], under: Fill, upper: Fill
) -> tuple[Figure, ...]:
    """A picture for a plain join and one for a corner set in, where these are among the `kinds`; seams of those
    `by_hand` are drawn so. `under` and `upper` are the cloths of the two parts."""
    found: list[Figure] = []
    for kind, draw, said in (
        (StepKind.STRAIGHT, _straight, STRAIGHT),
        (StepKind.SET_IN, _set_in, SET_IN),
    ):
        if kind in kinds:
            items = draw(Ink.HAND if kind in by_hand else Ink.MACHINE, under, upper)
            found.append(_figure(f"{name}-{kind.value}", items, said))
    return tuple(found)


def _figure(name: str, items: list[Item], said: Text) -> Figure:
    title = phrase("Right sides together")
    return figure(
        Scene.of(name, (WIDTH, HEIGHT), items, title, said),
        said,
    )


def _straight(seam: Ink, under: Fill, upper: Fill) -> list[Item]:
    """Two squares on each other, one corner of the upper turned back."""
    left, top, right, low = 9.0, 7.0, 45.0, 37.0
    shown = ((left, top), (right, top), (right, low - FOLDED), (right - FOLDED, low), (left, low))
    back = ((right, low - FOLDED), (right - FOLDED, low), (right - FOLDED, low - FOLDED))
    return [
        Area(rectangle(left + 2.5, top, right - left, low - top + 2.5), under, Ink.PATCH),
        Area(shown, wrong_side(), Ink.PATCH),
        Area(back, upper, Ink.PATCH),
        Line(points=((left, top + SHARE), (right, top + SHARE)), ink=seam, halo=True),
    ]


def _set_in(seam: Ink, under: Fill, upper: Fill) -> list[Item]:
    """A part laid on the first side of an inward corner, its next side dashed, and where that goes."""
    x, y, wide, tall = 28.0, 26.0, 22.0, 15.0  # the inward corner; the part from dot to dot
    turn = (x + SHARE, y - SHARE)  # the matching point lies an allowance inside the raw edges
    first, free, last = plus(turn, (-wide, 0.0)), plus(turn, (0.0, -tall)), plus(turn, (0.0, tall))
    low, right = last[1] + SHARE, turn[0] + 19.0
    left, top = first[0] - SHARE, 1.0
    corner = ((left, top), (right, top), (right, low), (x, low), (x, y), (left, y))
    laid = rectangle(first[0] - SHARE, free[1] - SHARE, wide + 2 * SHARE, tall + 2 * SHARE)
    dots = (
        Sign(first, Mark.STOP, 90.0),
        Sign(turn, Mark.DOT),
        Sign(last, Mark.STOP),
        Sign(free, Mark.SMALL),
    )
    arc = tuple(plus(turn, vector(angle), 9.5) for angle in range(12, 169, 12))
    strokes = [(first, turn), (turn, last), (turn, free), *itertools.pairwise(arc)]
    strokes += [stroke for sign in dots for stroke in sign_strokes(sign)]
    desk = Desk(strokes, (), (0.3, 0.3, WIDTH - 0.3, HEIGHT - 0.3), (first, turn, last, free))
    ways: tuple[Point, ...] = ((0.0, -1.0), (-1.0, -1.0), (1.0, 0.0))
    numbers = [
        item
        for n, (p, way) in enumerate(zip((first, turn, last), ways, strict=True), 1)
        for item in desk.named(p, str(n), 8.5, way)
    ]
    return [
        Area(corner, under, Ink.PATCH),
        Area(laid, wrong_side(), Ink.PATCH),
        Line(points=(turn, free), ink=Ink.GUIDE),
        Line(points=(turn, last), ink=Ink.GUIDE, halo=True),
        Line(points=arc, ink=Ink.FAN, end_arrow=True, halo=True),
        Line(points=(first, turn), ink=seam, halo=True),
        *dots,
        *numbers,
    ]
