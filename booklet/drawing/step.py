"""Floor 10: the picture of a step: what to do at the left, what comes of it at the right.

Both at one scale and the same way up. Parts stand apart at right angles to their seam; the seam of the
step is the heaviest line; what is only context is tinted.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Mapping

from booklet.drawing.block import piece_letter
from booklet.drawing.fills import Looks, tinted
from booklet.drawing.labels import Desk, letter_in
from booklet.drawing.plane import (
    Box,
    around,
    bearing,
    box_of,
    direction,
    middle,
    plus,
    right_of,
    roomiest,
    to_segment,
    unit,
)
from booklet.drawing.scales import Scale, nearest_scale
from booklet.drawing.scene import Area, Figure, Ink, Item, Label, Line, Mark, Point, Scene, Sign
from booklet.drawing.svg import figure
from booklet.drawing.told import told_step
from booklet.drawing.units import Part, exploded, parts_of, shorter_side, unit_outlines
from booklet.drawing.views import View
from booklet.geometry.tiling import Seam
from booklet.pattern import By
from booklet.plan import BlockPlan, StepCard
from booklet.sewing.assembly import End, Run, Step

MARGIN = 5.0  # mm about either half, for numbers and runs into the allowance
BETWEEN = 5.0  # mm between action and result
LEAST_GAP = 4.6  # mm between parts that stand apart
ORDINALS = ("first", "then", "last")


def step_figure(
    block: BlockPlan,
    card: StepCard,
    looks: Looks,
    width: float = 85.0,
    allowance: float = 0.25,
    tallest: float = 75.0,
) -> Figure:
    """The picture of a card, at most `width` mm wide and `tallest` mm high. `allowance` in inches."""
    step = card.step
    scale = _fitting(block, step, width, tallest)
    gap = _gap(block, step, scale.mm_per_inch)
    parts = exploded(block.assembly, step, gap)
    whole = len(parts) == 1
    left = _box(block, parts, scale.mm_per_inch)
    right = _box(block, (Part("", step.pieces, (0.0, 0.0), False),), scale.mm_per_inch)
    height = max(left[3] - left[1], right[3] - right[1]) + 2 * MARGIN
    used = (left[2] - left[0]) + (right[2] - right[0]) + 4 * MARGIN + BETWEEN
    pad = max(0.0, (width - used) / 4)
    x = MARGIN + pad
    action = View(scale.mm_per_inch, (x - left[0], (height - left[1] - left[3]) / 2))
    edge = x + left[2] - left[0] + MARGIN + pad
    x = edge + BETWEEN + MARGIN + pad
    result = View(scale.mm_per_inch, (x - right[0], (height - right[1] - right[3]) / 2))
    allowance_mm = allowance * scale.mm_per_inch
    items = [
        *_action(block, step, parts, looks, action, allowance_mm, (0.5, 0.5, edge, height - 0.5)),
        Sign((edge + BETWEEN / 2, height / 2), Mark.CHEVRON, 90),
        *_result(block, step, looks, result, whole),
    ]
    if card.make > 1:
        corner = (width - 0.8, height - 2.2)
        items.append(Label(corner, f"× {card.make}", 9.0, "end", bold=True))
    name = f"{block.tiling.size}-{block.tiling.block}-step-{card.n}"
    told = told_step(block, card)
    scene = Scene(name, width, height, tuple(items), f"Step {card.n}: {card.title}", told)
    return figure(scene, f"Step {card.n}. {scale.caption}")


def wants_wide(
    block: BlockPlan, card: StepCard, width: float = 85.0, tallest: float = 75.0
) -> bool:
    """Whether a card's picture needs the whole width of a page: its runs turn more often or its
    seams come out shorter on paper than can be read in a column of `width` mm."""
    scale = _fitting(block, card.step, width, tallest).mm_per_inch
    seams = [block.tiling.seam(id) for run in card.step.runs for id in run.seams]
    shortest = min((seam.length * scale for seam in seams), default=width)
    return shortest < 9.0 and len(seams) > 2


def _fitting(block: BlockPlan, step: Step, width: float, tallest: float) -> Scale:
    """The largest scale of the ladder at which both halves fit."""

    def fits(scale: float) -> bool:
        parts = exploded(block.assembly, step, _gap(block, step, scale))
        left = _box(block, parts, scale)
        right = _box(block, (Part("", step.pieces, (0.0, 0.0), False),), scale)
        across = (left[2] - left[0]) + (right[2] - right[0]) + 4 * MARGIN + BETWEEN
        down = max(left[3] - left[1], right[3] - right[1]) + 2 * MARGIN
        return across <= width and down <= tallest

    return nearest_scale(fits)


def _gap(block: BlockPlan, step: Step, scale: float) -> float:
    """The gap in inches: 0.16 of the shorter side of the smaller part, at least LEAST_GAP on paper."""
    sides = [shorter_side(block.tiling, pieces) for _, pieces in parts_of(block.assembly, step)]
    return min(max(0.16 * min(sides) * scale, LEAST_GAP), 12.0) / scale


def _box(block: BlockPlan, parts: tuple[Part, ...], scale: float) -> Box:
    """The box on paper about parts where they stand."""
    view = View(scale, (0.0, 0.0))
    return around(
        box_of(
            [
                view.at(p, part.away)
                for id in part.pieces
                for p in block.tiling.piece(id).outline.points
            ]
        )
        for part in parts
    )


def _action(
    block: BlockPlan,
    step: Step,
    parts: tuple[Part, ...],
    looks: Looks,
    view: View,
    allowance: float,
    frame: Box,
) -> list[Item]:
    """The parts apart, guides, and the seam of the step on both sides of the gap."""
    home = {id: part for part in parts for id in part.pieces}
    items: list[Item] = []
    for part in sorted(parts, key=lambda p: not p.context):
        items += _unit(block, part, looks, view)
    guides, seams, signs, numbers = _Seams(block, step, home, view, allowance).drawn()
    letters = _letters(block, parts, view, [line.points for line in seams])
    strokes = [(a, b) for line in seams for a, b in zip(line.points, line.points[1:], strict=False)]
    strokes += [(line.points[0], line.points[1]) for line in guides]
    areas = [
        tuple(view.at(p, part.away) for p in loop)
        for part in parts for loop in unit_outlines(block.tiling, part.pieces)
    ]  # fmt: skip
    desk = Desk(strokes, areas, frame)
    desk.keep(letters)
    labels = [desk.beside(at, text, 8.5, toward) for at, text, toward in numbers]
    return [*items, *letters, *guides, *seams, *signs, *labels]


def _unit(block: BlockPlan, part: Part, looks: Looks, view: View) -> list[Item]:
    """The pieces of a part, and a firmer line about the whole of it."""
    items: list[Item] = []
    for id in part.pieces:
        piece = block.tiling.piece(id)
        fill = looks[piece.fabric]
        points = tuple(view.at(p, part.away) for p in piece.outline.points)
        ink = Ink.CONTEXT if part.context else Ink.PATCH
        items.append(Area(points, tinted(fill) if part.context else fill, ink))
    return items


def _letters(
    block: BlockPlan, parts: tuple[Part, ...], view: View, seams: list[tuple[Point, ...]]
) -> list[Label]:
    """A patch letter in every piece where it fits clear of the seam; alike context pieces once each."""
    letters = []
    for part in parts:
        for id in part.pieces:
            piece = block.tiling.piece(id)
            points = [view.at(p, part.away) for p in piece.outline.points]
            label = letter_in(points, piece_letter(piece), 9.0, part.context, 0.25)
            if label is not None and not any(_near(label.at, seam, 2.4) for seam in seams):
                letters.append(label)
    return letters


def _near(at: Point, points: tuple[Point, ...], least: float) -> bool:
    return any(to_segment(at, a, b) < least for a, b in itertools.pairwise(points))


class _Seams:
    """The lines, guides and signs of a step's runs on the parts as they stand apart."""

    def __init__(
        self, block: BlockPlan, step: Step, home: Mapping[str, Part], view: View, allowance: float
    ) -> None:
        self.block, self.step, self.home, self.view = block, step, home, view
        self.allowance = min(max(allowance, 1.6), 4.5)
        self.guides: dict[tuple[Point, Point], Line] = {}
        self.seams: list[Line] = []
        self.signs: dict[tuple[Point, Mark], Sign] = {}
        self.numbers: list[tuple[Point, str, Point]] = []

    def drawn(self) -> tuple[list[Line], list[Line], list[Sign], list[tuple[Point, str, Point]]]:
        """Guides, seam lines, signs, and the numbers with the way they would best lie."""
        for number, run in enumerate(self.step.runs):
            self.run(run, number)
        return list(self.guides.values()), self.seams, list(self.signs.values()), self.numbers

    def run(self, run: Run, number: int) -> None:
        """One run: its seams on both sides, its points, and its numbers."""
        ink = Ink.HAND if run.by is By.HAND else Ink.MACHINE
        seams = [self.block.tiling.seam(id) for id in run.seams]
        partial = self.step.leave is not None or self.step.finish
        sides = (0, 1) if len({self.home[id].away for s in seams for id in s.between}) > 1 else (0,)
        for place, seam in enumerate(seams):
            ahead = seam.start == run.points[place]
            path = seam.path if ahead else seam.path[::-1]
            for side in sides:
                self.line(run, seam, path, side, ink, partial)
        self.points(run, seams, sides)
        if len(self.step.runs) > 1:
            self.order(run, seams, number)

    def line(
        self, run: Run, seam: Seam, path: tuple[Point, ...], side: int, ink: Ink, partial: bool
    ) -> None:
        """One seam on one side of the gap, carried into the allowance where it runs to the edge."""
        away = self.home[seam.between[side]].away
        points = [self.view.at(p, away) for p in path]
        if partial:
            self.partial(run, seam, path, points, ink)
        else:
            self.seams.append(Line(self.carried(run, seam, path, points), ink, halo=True))

    def partial(
        self, run: Run, seam: Seam, path: tuple[Point, ...], points: list[Point], ink: Ink
    ) -> None:
        """A partial seam: half of it sewn and the rest open; or the rest of it, to finish it."""
        if self.step.finish and not self.left_open(seam):
            self.seams.append(Line(self.carried(run, seam, path, points), ink, halo=True))
            return
        stop = middle(points)
        self.signs[(stop, Mark.OPEN)] = Sign(stop, Mark.OPEN)
        if self.step.finish:
            self.seams.append(
                Line((stop, self.carried(run, seam, path, points)[-1]), ink, halo=True)
            )
            return
        self.seams.append(Line((self.carried(run, seam, path, points)[0], stop), ink, halo=True))
        self.seams.append(Line((stop, points[-1]), Ink.LATER, halo=True))
        if not any(text == "later" for _, text, _ in self.numbers):
            out = direction(stop, points[-1])
            self.numbers.append((middle((stop, points[-1])), "later", right_of(out)))

    def left_open(self, seam: Seam) -> bool:
        """Whether an earlier step sewed part of this seam."""
        earlier = (step for step in self.block.assembly.steps if step.leave is not None)
        return any(seam.id in run.seams for step in earlier for run in step.runs)

    def carried(
        self, run: Run, seam: Seam, path: tuple[Point, ...], points: list[Point]
    ) -> tuple[Point, ...]:
        """A seam on paper, carried into the allowance where the run goes off the edge."""
        points = list(points)
        if path[0] == run.points[0] and self.end(seam, path[0]) is End.EDGE:
            points[0] = plus(points[0], direction(points[1], points[0]), self.allowance)
        if path[-1] == run.points[-1] and self.end(seam, path[-1]) is End.EDGE:
            points[-1] = plus(points[-1], direction(points[-2], points[-1]), self.allowance)
        return tuple(points)

    def end(self, seam: Seam, at: Point) -> End:
        """Whether a seam ends at the point or runs to the edge there."""
        ends = self.block.assembly.sewn[seam.id].ends
        return ends[0] if seam.start == at else ends[1]

    def points(self, run: Run, seams: list[Seam], sides: tuple[int, ...]) -> None:
        """Signs and guides at the matching points of a run; numbers where it turns."""
        stops = [0, *run.turns, len(run.points) - 1]
        partial = self.step.leave is not None or self.step.finish
        for i, at in enumerate(run.points):
            near = [seams[k] for k in (i - 1, i) if 0 <= k < len(seams)]
            places = [
                self.view.at(at, self.home[seam.between[side]].away)
                for seam in near
                for side in sides
            ]
            if len(places) > 1:
                self.guide(places)
            if partial and (i == (0 if self.step.finish else len(run.points) - 1)):
                continue  # the open circle stands for this end
            self.sign(run, near[0], at, i, places)
            if run.turns and i in stops:
                self.numbers.append(
                    (places[0], self.number(run, i, stops), self.outward(at, near, run))
                )

    def number(self, run: Run, i: int, stops: list[int]) -> str:
        """The number of a stop along a run that turns."""
        return str(stops.index(i) + 1)

    def outward(self, at: Point, near: list[Seam], run: Run) -> Point:
        """The way from a point over the part that stays, where its number is clear of the gap."""
        pieces = {id for seam in near for id in seam.between}
        still = [id for id in sorted(pieces) if self.home[id].away == (0.0, 0.0)] or sorted(pieces)
        centre = roomiest(self.block.tiling.piece(still[0]).outline.points)[0]
        return unit(direction(at, centre))

    def guide(self, places: list[Point]) -> None:
        """Thin dashes between the places of one matching point."""
        spread = [p for i, p in enumerate(places) if all(math.dist(p, q) > 0.5 for q in places[:i])]
        for a, b in itertools.pairwise(spread):
            self.guides[(a, b)] = Line((a, b), Ink.GUIDE)

    def sign(self, run: Run, seam: Seam, at: Point, i: int, places: list[Point]) -> None:
        """The sign at one point of a run: dot with a bar where it stops, dot where it turns."""
        last = len(run.points) - 1
        if i in (0, last):
            if self.end(seam, at) is End.EDGE:
                return
            mark = Mark.STOP
        else:
            mark = Mark.DOT if i in run.turns else Mark.SMALL
        other = run.points[1] if i == 0 else run.points[i - 1]
        angle = bearing(direction(at, other))
        still = self.view.at(at)
        for place in places:
            moved = mark is Mark.STOP and still in places and place != still
            shown = Mark.DOT if moved else mark
            self.signs.setdefault((place, shown), Sign(place, shown, angle))

    def order(self, run: Run, seams: list[Seam], number: int) -> None:
        """Which of several runs comes first."""
        seam = seams[len(seams) // 2]
        word = ORDINALS[min(number, 1)] if number < len(self.step.runs) - 1 else ORDINALS[2]
        parts = [self.home[id] for id in seam.between]
        ends = [self.view.at(run.points[-1], part.away) for part in parts]
        before = self.view.at(run.points[-2], parts[0].away)
        out = direction(before, ends[0])
        at = ((ends[0][0] + ends[1][0]) / 2, (ends[0][1] + ends[1][1]) / 2)
        self.numbers.append((plus(at, out, self.allowance), word, out))


def _result(block: BlockPlan, step: Step, looks: Looks, view: View, whole: bool) -> list[Item]:
    """The unit made, with the seam just sewn and which way it is pressed."""
    part = Part("", step.pieces, (0.0, 0.0), False)
    items = _unit(block, part, looks, view)
    for run in step.runs:
        ink = Ink.HAND if run.by is By.HAND else Ink.MACHINE
        for id in run.seams:
            path = block.tiling.seam(id).path
            points = tuple(view.at(p) for p in path)
            if step.leave is not None:
                half = middle(points)
                near = points[0] if path[0] == run.points[0] else points[-1]
                items += [Line((near, half), ink), Sign(half, Mark.OPEN)]
            else:
                items.append(Line(points, ink, halo=True))
    for rim in unit_outlines(block.tiling, step.pieces):
        items.append(Area(tuple(view.at(p) for p in rim), None, Ink.PATCH))
    items += press_arrows(block, step, view)
    return items


def press_arrows(block: BlockPlan, step: Step, view: View) -> list[Item]:
    """Arrows across the seams that are pressed after this step, one for each straight stretch."""
    items: list[Item] = []
    for run in step.runs:
        longest: dict[tuple[str, Point], Seam] = {}
        for id in run.seams:
            seam, pressed = block.tiling.seam(id), block.pressing.pressed.get(id)
            if pressed is None or block.pressing.after.get(id) != step.n or step.leave is not None:
                continue
            across = right_of(direction(seam.start, seam.end))
            if pressed.toward == seam.between[1]:
                across = (-across[0], -across[1])
            open_ = pressed.toward is None
            key = ("open" if open_ else "side", (round(across[0], 3), round(across[1], 3)))
            if key not in longest or seam.length > longest[key].length + 1e-9:
                longest[key] = seam
        for (kind, across), seam in longest.items():
            items.append(_press_arrow(block, seam, across, kind == "open", view))
    return items


def _press_arrow(block: BlockPlan, seam: Seam, across: Point, open_: bool, view: View) -> Line:
    """The arrow at the middle of a seam, short enough for the patches it lies on."""
    at = middle([view.at(p) for p in seam.path])
    rooms = [roomiest(block.tiling.piece(id).outline.points)[1] * view.scale for id in seam.between]
    reach = min(max(1.2 * min(rooms), 2.4), 4.0)
    back = reach if open_ else 0.55 * reach
    ends = (plus(at, across, -back), plus(at, across, reach))
    return Line(ends, Ink.ARROW, start_arrow=open_, end_arrow=True, halo=True)
