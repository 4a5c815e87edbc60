"""Floor 10: the exercise sheet of a handout: seams to sew from point to point, true to size."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence

from booklet.drawing.ink.svg import figure
from booklet.drawing.lettering.labels import Desk
from booklet.drawing.lettering.strokes import sign_strokes
from booklet.drawing.lettering.text_widths import wrapped
from booklet.drawing.scene import Figure, Ink, Item, Label, Line, Mark, Scene, Sign
from booklet.kit.measure import INCH_MM
from booklet.kit.outlines.plane import Point, bearing, box_of, direction, plus, right_of, vector
from booklet.kit.records import Record
from booklet.kit.words import Text, listing, phrase, words_of
from booklet.plan import SizePlan

HEAD, LOW_HEAD = 9.0, 7.0  # mm for the words over an exercise, on a large page and on a small one
ROOMY = 150.0  # mm: a page no wider has one column, and all exercises and their ticks share it


class _Exercise(Record):
    """A seam to sew, in mm, and what is said over it."""

    words: Text
    path: tuple[Point, ...]


def practice_figure(size: SizePlan, width: float = 170.0, tallest: float = 135.0) -> Figure:
    """Lines to sew through paper and cloth: straight, round a corner, and each shape of the pattern's own set-ins,
    as many as have room; side by side on a large page."""
    allowance = float(size.pattern.allowance) * INCH_MM
    columns = 2 if width > ROOMY else 1
    items: list[Item] = []
    told: list[Text] = []
    say = words_of(size.pattern.tongue).say
    y, high, column = 1.0, 0.0, 0
    for exercise in _exercises(size, width / columns, allowance, columns > 1):
        left, top, right, bottom = box_of(exercise.path)
        wide = right - left + 2 * allowance + 8
        span = 1 if wide <= width / columns + 0.01 else columns
        lines = wrapped(say(exercise.words), 9.0, span * width / columns - 9)
        head = (HEAD if columns > 1 else LOW_HEAD) + 4.0 * (len(lines) - 1)
        needs = bottom - top + 2 * allowance + head + (9.0 if columns > 1 else 2.5)
        if column + span > columns:
            y, high, column = y + high, 0.0, 0
        if y + needs > tallest or wide > width + 0.01:
            continue
        x, number = column * width / columns, len(told) + 1
        items.append(
            Label(
                at=(x + 0.5, y + 3),
                text=f"{number}",
                size=12.0,
                anchor="start",
                bold=True,
                accent=True,
            )
        )
        items += [
            Label(at=(x + 6.0, y + 3 + 4.0 * i), text=line, size=9.0, anchor="start")
            for i, line in enumerate(lines)
        ]
        shift = (x + allowance + 6 - left, y + head + allowance + 2 - top)
        items += _drawn(tuple(plus(p, shift) for p in exercise.path), allowance)
        told.append(phrase("{n}: {words}", n=number, words=exercise.words))
        high, column = max(high, needs), column + span
    title = phrase("Practice sheet")
    scene = Scene.of(
        f"{size.size.id}-practice",
        (width, y + high),
        items,
        title,
        listing((phrase("Seams to practice on."), *told), "sentences"),
    )
    caption = phrase("Dashed: sew here. Fine lines: the cut edges. Print at 100 percent.")
    return figure(scene, caption, true_size=True)


def _exercises(size: SizePlan, column: float, allowance: float, roomy: bool) -> Iterator[_Exercise]:
    """The exercises in order, the first two no wider than a column of so many mm."""
    length = min(column - 2 * allowance - 8, 76.2)
    yield _Exercise(
        phrase("From dot to dot. Backstitch at both ends; never past the bar."),
        ((0.0, 0.0), (length, 0.0)),
    )
    yield _Exercise(
        phrase("Round one corner on one thread: needle down at 2, turn, go on."),
        _corner(length * (0.55 if roomy else 0.38)),
    )
    for title, path in _own(size):
        yield _Exercise(phrase("The seam of “{title}”, true to size.", title=title), path)


def _corner(arm: float) -> tuple[Point, ...]:
    """Two arms that meet at 120 degrees."""
    ahead = vector(60)
    return (
        (0.0, 0.0),
        plus((0.0, 0.0), vector(120), arm),
        plus(plus((0.0, 0.0), vector(120), arm), ahead, arm),
    )


def _own(size: SizePlan) -> Iterator[tuple[Text, tuple[Point, ...]]]:
    """The runs of the pattern that turn, each shape once, in mm, and the titles of their cards."""
    seen = set()
    for block in size.blocks:
        for card in block.cards:
            for run in card.step.runs:
                if run.turns and (shape := _shape(run.points)) not in seen:
                    seen.add(shape)
                    yield (
                        card.title,
                        tuple((x * INCH_MM, y * INCH_MM) for x, y in run.points),
                    )


def _shape(path: Sequence[Point]) -> tuple[float, ...]:
    """What tells the shape of a run from others: the distances between its points, from either end; a mirror image
    is the same."""
    ways = (
        tuple(round(math.dist(p, q), 2) for p, q in itertools.combinations(points, 2))
        for points in (path, path[::-1])
    )
    return min(ways)


def _drawn(path: tuple[Point, ...], allowance: float) -> list[Item]:
    """The seam to sew, the cut edges beside it, dots, bars and numbers."""
    items: list[Item] = [
        Line(points=_beside(path, allowance), ink=Ink.CUT),
        Line(points=_beside(path, -allowance), ink=Ink.CUT),
        Line(points=path, ink=Ink.HAND),
    ]
    signs = []
    for i, p in enumerate(path):
        ends = i in (0, len(path) - 1)
        other = path[1] if i == 0 else path[i - 1]
        signs.append(Sign(p, Mark.STOP if ends else Mark.DOT, bearing(direction(p, other))))
    bars = [stroke for sign in signs for stroke in sign_strokes(sign)]
    desk = Desk([*itertools.pairwise(path), *bars], dots=path)
    numbers = [desk.named(p, str(i), 9.0, (0.0, -1.0)) for i, p in enumerate(path, 1)]
    return [*items, *signs, *itertools.chain.from_iterable(numbers)]


def _beside(path: tuple[Point, ...], by: float) -> tuple[Point, ...]:
    """A line beside a path, mitred at its corners and carried on past its ends."""
    d = [direction(a, b) for a, b in itertools.pairwise(path)]
    moved = [plus(plus(path[0], d[0], -abs(by)), right_of(d[0]), by)]
    for i in range(1, len(path) - 1):
        n, m = right_of(d[i - 1]), right_of(d[i])
        scale = 1 + n[0] * m[0] + n[1] * m[1]
        moved.append(plus(path[i], (n[0] + m[0], n[1] + m[1]), by / max(scale, 0.2)))
    moved.append(plus(plus(path[-1], d[-1], abs(by)), right_of(d[-1]), by))
    return tuple(moved)
