"""Floor 10: the seams of a step on its parts as they stand apart: lines, guides, signs and numbers."""

from __future__ import annotations

import itertools
import math
from collections.abc import Mapping, Sequence

from booklet.drawing.scene import Ink, Line, Mark, Sign
from booklet.drawing.steps.units import StepPart
from booklet.drawing.viewport import View
from booklet.geometry.patches.curve_marks import curve_marks
from booklet.geometry.tiling import Seam
from booklet.kit.outlines.plane import (
    Point,
    bearing,
    direction,
    inward_corners,
    middle,
    plus,
    right_of,
    to_segment,
    unit,
)
from booklet.kit.outlines.polygon import roomiest
from booklet.kit.records import Record
from booklet.kit.words import Speaker, phrase
from booklet.pattern import By
from booklet.plan import BlockPlan
from booklet.plan.cards.frames import MOST_FRAMES, Stage, stages
from booklet.plan.cards.routes import clipped_at, opened_along
from booklet.plan.cards.sentences import dot_points, dots_named
from booklet.sewing.assembly import End, Run, Step

ORDINALS = (
    phrase("first", context="seam"),
    phrase("last", context="seam"),
)

MOST_NUMBERED = MOST_FRAMES  # runs in one picture of which each has its dots numbered; of more the first of each way of sewing
CLEARLY = 1.0  # mm: so much farther off is farther
MOST_GUIDED = 16  # points of a run: of more the dashes between the parts would be a hatch


class Number(Record):
    """A number or word at a place, the way it would best lie, and the places of the dot it names."""

    at: Point
    text: str
    toward: Point
    of: tuple[Point, ...] = ()


class DrawnSeams(Record):
    """What is drawn of the seams of a step."""

    guides: tuple[Line, ...]
    seams: tuple[Line, ...]
    signs: tuple[Sign, ...]
    numbers: tuple[Number, ...]


def _with_numbers(runs: Sequence[Run]) -> set[int]:
    """The runs whose dots bear numbers: all, but of very many the first of each way of sewing."""
    if len(runs) <= MOST_NUMBERED:
        return set(range(len(runs)))
    ways = [(run.by, len(run.points), run.turns, run.begun) for run in runs]
    return {ways.index(way) for way in ways}


class StepSeams:
    """The lines, guides and signs of a step's runs on the parts as they stand apart; of a step that is
    drawn run by run those of one `stage`."""

    def __init__(
        self,
        block: BlockPlan,
        step: Step,
        home: Mapping[str, StepPart],
        view: View,
        allowance: float,
        *,
        speaker: Speaker,
        stage: Stage | None,
    ) -> None:
        self.speaker, self.stage = speaker, stage
        self.block, self.step, self.home, self.view = block, step, home, view
        self.allowance = min(max(allowance, 1.6), 4.5)
        self.guides: dict[tuple[Point, Point], Line] = {}
        self.seams: list[Line] = []
        self.signs: dict[tuple[Point, Mark], Sign] = {}
        self.numbers: list[Number] = []
        self.numbered = {stage.number} if stage else _with_numbers(step.runs)

    def drawn(self) -> DrawnSeams:
        """Guides, seam lines, signs, and numbers."""
        whole = stages(self.step, self.block.assembly) if self.stage is None else (self.stage,)
        for stage in whole:
            self.run(stage)
        return DrawnSeams(
            tuple(self.guides.values()),
            tuple(self.seams),
            tuple(self.signs.values()),
            tuple(self.numbers),
        )

    def run(self, stage: Stage) -> None:
        """The run of a stage: its seams on both sides, its points, and its numbers."""
        run, number = stage.run, stage.number
        ink = Ink.HAND if run.by is By.HAND else Ink.MACHINE
        seams = [self.block.tiling.seam(id) for id in run.seams]
        partial = self.step.leave is not None or self.step.finish
        sides = (0, 1) if len({self.home[id].away for s in seams for id in s.between}) > 1 else (0,)
        for place, seam in enumerate(seams):
            ahead = seam.start == run.points[place]
            path = seam.path if ahead else seam.path[::-1]
            for side in sides:
                self.line(run, seam, path, side, ink, partial)
            self.marks(seam, sides)
        self.points(stage, seams, sides, number in self.numbered)
        if self.stage is None and len(self.step.runs) > 1 and not self.step.section:
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
            self.seams.append(
                Line(points=self.carried(run, seam, path, points), ink=ink, halo=True)
            )

    def marks(self, seam: Seam, sides: tuple[int, ...]) -> None:
        """The marks along a curved seam, on both sides of the gap, and the dashes between them."""
        for mark in curve_marks(seam):
            a, b = min(itertools.pairwise(seam.path), key=lambda edge: to_segment(mark, *edge))
            angle = bearing(direction(a, b))
            places = [self.view.at(mark, self.home[seam.between[side]].away) for side in sides]
            self.guide(places)
            for place in places:
                self.signs[(place, Mark.MIDDLE)] = Sign(place, Mark.MIDDLE, angle)

    def partial(
        self, run: Run, seam: Seam, path: tuple[Point, ...], points: list[Point], ink: Ink
    ) -> None:
        """A partial seam: half of it sewn and the rest open; or the rest of it, to finish it."""
        if self.step.finish and not self.left_open(seam):
            self.seams.append(
                Line(points=self.carried(run, seam, path, points), ink=ink, halo=True)
            )
            return
        stop = middle(points)
        self.signs[(stop, Mark.OPEN)] = Sign(stop, Mark.OPEN)
        if self.step.finish:
            self.seams.append(
                Line(points=(stop, self.carried(run, seam, path, points)[-1]), ink=ink, halo=True)
            )
            return
        self.seams.append(
            Line(points=(self.carried(run, seam, path, points)[0], stop), ink=ink, halo=True)
        )
        self.seams.append(Line(points=(stop, points[-1]), ink=Ink.LATER, halo=True))
        later = self.speaker.say(phrase("later", context="seam"))
        if not any(number.text == later for number in self.numbers):
            out = direction(stop, points[-1])
            self.numbers.append(Number(middle((stop, points[-1])), later, right_of(out)))

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

    def points(
        self, stage: Stage, seams: list[Seam], sides: tuple[int, ...], has_numbers: bool
    ) -> None:
        """Signs and guides at the matching points of a stage's run; numbers where it turns, if it has any."""
        run = stage.run
        stops = list(dot_points(run))
        named = dots_named(run, self.step, self.block.assembly) if has_numbers else ()
        partial = self.step.leave is not None or self.step.finish
        few = len(run.points) <= MOST_GUIDED
        of, papers = (self.block.assembly, self.step, stage), self.block.over_papers
        opened = {} if papers else opened_along(*of)
        for at, patches in () if papers else clipped_at(*of).items():
            for patch in patches:
                place = self.view.at(at, self.home[patch.id].away)
                angle = inward_corners(patch.outline.points)[at]
                self.signs[(place, Mark.CLIP)] = Sign(place, Mark.CLIP, angle)
        for i, at in enumerate(run.points):
            near = [seams[k] for k in (i - 1, i) if 0 <= k < len(seams)]
            places = [
                self.view.at(at, self.home[seam.between[side]].away)
                for seam in near
                for side in sides
            ]
            if len(places) > 1 and (few or i in (0, len(run.points) - 1)):
                self.guide(places)
            if partial and (i == (0 if self.step.finish else len(run.points) - 1)):
                continue  # the open circle stands for this end
            self.opened(at, opened.get(at, ()))
            self.sign(run, near[0], at, i, places)
            if run.turns and i in stops and stops.index(i) + 1 in named:
                toward = self.outward(at, near, run)
                text = self.number(run, i, stops)
                self.numbers.append(Number(places[0], text, toward, tuple(places)))

    def number(self, run: Run, i: int, stops: list[int]) -> str:
        """The number of a stop along a run that turns."""
        return str(stops.index(i) + 1)

    def outward(self, at: Point, near: list[Seam], run: Run) -> Point:
        """The way from a point over the part that stays, where its number is clear of the gap."""
        pieces = {id for seam in near for id in seam.between}
        still = [id for id in sorted(pieces) if self.home[id].away == (0.0, 0.0)] or sorted(pieces)
        centre = roomiest(self.block.tiling.piece(still[0]).outline.points)[0]
        return unit(direction(at, centre))

    def opened(self, at: Point, seams: Sequence[tuple[Seam, bool]]) -> None:
        """The ends of earlier seams at a turn, whose allowances are spread to let the corner in."""
        for seam, at_start in seams:
            place = self.view.at(at, self.home[seam.between[0]].away)
            path = seam.path if at_start else seam.path[::-1]
            angle = bearing(direction(path[0], path[1]))
            self.signs[(place, Mark.OPENED)] = Sign(place, Mark.OPENED, angle)

    def guide(self, places: list[Point]) -> None:
        """Thin dashes between the places of one matching point."""
        spread = [p for i, p in enumerate(places) if all(math.dist(p, q) > 0.5 for q in places[:i])]
        for a, b in itertools.pairwise(spread):
            self.guides[(a, b)] = Line(points=(a, b), ink=Ink.GUIDE)

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
        """Which of several runs comes first, and which last: said where the first begins and where the last
        ends; of seams that run off both edges, at the end that is farther from the other."""
        if 0 < number < len(self.step.runs) - 1:
            return
        word = self.speaker.say(ORDINALS[number > 0])
        ends = (self.end(seams[0], run.points[0]), self.end(seams[-1], run.points[-1]))
        other = self.step.runs[-1 if number == 0 else 0]
        at_start = (
            number == 0 if End.POINT in ends else self.starts_farther_off(run.points, other.points)
        )
        seam, points = (seams[0], run.points[::-1]) if at_start else (seams[-1], run.points)
        parts = [self.home[id] for id in seam.between]
        (ax, ay), (bx, by) = (self.view.at(points[-1], part.away) for part in parts)
        out = direction(self.view.at(points[-2], parts[0].away), (ax, ay))
        at = ((ax + bx) / 2, (ay + by) / 2)
        of = ((ax, ay), (bx, by)) if (ends[0] if at_start else ends[1]) is End.POINT else ()
        self.numbers.append(Number(plus(at, out, self.allowance), word, out, of))

    def starts_farther_off(self, points: Sequence[Point], other: Sequence[Point]) -> bool:
        """Whether a run starts farther from another than it ends, so that a word there is not taken for that of the other."""
        start, end = (
            min(to_segment(p, a, b) for a, b in itertools.pairwise(other))
            for p in (points[0], points[-1])
        )
        return (start - end) * self.view.scale > CLEARLY
