"""Floor 10: the exercise sheet of a handout: seams to sew from point to point, true to size."""

from __future__ import annotations

import itertools

from booklet.drawing.ink.svg import figure
from booklet.drawing.lettering.labels import Desk
from booklet.drawing.lettering.strokes import sign_strokes
from booklet.drawing.lettering.text_widths import wrapped
from booklet.drawing.scales import MM_PER_INCH
from booklet.drawing.scene import Figure, Ink, Item, Label, Line, Mark, Scene, Sign
from booklet.kit.plane import Point, bearing, box_of, direction, plus, right_of, vector
from booklet.plan import SizePlan
from booklet.words import Text, listing, phrase, words_of

HEAD = 9.0  # mm for the words over an exercise
ROOMY = 160.0  # mm: less is a small page, where all exercises and their ticks share one


def practice_figure(size: SizePlan, width: float = 170.0, tallest: float = 210.0) -> Figure:
    """Lines to sew through paper and cloth: straight, round a corner, and the pattern's own set-in."""
    allowance = float(size.pattern.allowance) * MM_PER_INCH
    length = min(width - 2 * allowance - 8, 76.2)
    roomy = tallest > ROOMY
    arm, gap = length * (0.55 if roomy else 0.38), 9.0 if roomy else 5.0
    exercises: list[tuple[Text, tuple[Point, ...]]] = [
        (
            phrase("From dot to dot. Backstitch at both ends; never past the bar."),
            ((0.0, 0.0), (length, 0.0)),
        ),
        (
            phrase("Round one corner on one thread: needle down at 2, turn, go on."),
            _corner(arm),
        ),
    ]
    own = _own(size)
    if own is not None:
        title, path = own
        exercises.append((phrase("The seam of “{title}”, true to size.", title=title), path))
    items: list[Item] = []
    y = 1.0
    told: list[Text] = []
    say = words_of(size.pattern.tongue).say
    for number, (words, path) in enumerate(exercises, 1):
        left, top, right, bottom = box_of(path)
        lines = wrapped(say(words), 9.0, width - 7)
        head = HEAD + 4.0 * (len(lines) - 1)
        high = bottom - top + 2 * allowance + head + gap
        if y + high > tallest or right - left + 2 * allowance + 8 > width:
            continue
        items.append(
            Label(
                at=(0.5, y + 3), text=f"{number}", size=12.0, anchor="start", bold=True, accent=True
            )
        )
        items += [
            Label(at=(6.0, y + 3 + 4.0 * i), text=line, size=9.0, anchor="start")
            for i, line in enumerate(lines)
        ]
        shift = (allowance + 6 - left, y + head + allowance + 2 - top)
        items += _exercise(tuple(plus(p, shift) for p in path), allowance)
        told.append(phrase("{n}: {words}", n=number, words=words))
        y += high
    title = phrase("Practice sheet")
    scene = Scene(
        name=f"{size.size.id}-practice",
        width=width,
        height=y,
        items=tuple(items),
        title=title,
        alt=listing((phrase("Seams to practice on."), *told), "sentences"),
    )
    caption = phrase("Dashed: sew here. Fine lines: the cut edges. Print at 100 percent.")
    return figure(scene, caption, true_size=True)


def _corner(arm: float) -> tuple[Point, ...]:
    """Two arms that meet at 120 degrees."""
    ahead = vector(60)
    return (
        (0.0, 0.0),
        plus((0.0, 0.0), vector(120), arm),
        plus(plus((0.0, 0.0), vector(120), arm), ahead, arm),
    )


def _own(size: SizePlan) -> tuple[Text, tuple[Point, ...]] | None:
    """The first run of the pattern that turns, in mm, and the title of its card."""
    for block in size.blocks:
        for card in block.cards:
            for run in card.step.runs:
                if run.turns:
                    mm = tuple((x * MM_PER_INCH, y * MM_PER_INCH) for x, y in run.points)
                    return card.title, mm
    return None


def _exercise(path: tuple[Point, ...], allowance: float) -> list[Item]:
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
