"""Floor 9: the frames of a step: one run each, alike ones told once with how often and which way round.

A step of several runs is several actions. Each is a *stage*: what is there already, and what this run joins
to it. Stages that are equal up to a turn are drawn once; the last, which may close a ring, is always drawn.
A row of parts whose seams lie side by side is one action and stays one picture.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Hashable, Iterator, Sequence

from booklet.geometry.tiling import Seam, Tiling
from booklet.kit.outlines.near import DRAWN
from booklet.kit.outlines.plane import Point, cross
from booklet.kit.records import Record
from booklet.pattern import By
from booklet.quilt.assembling.joining import TOP
from booklet.sewing.assembly import Assembly, End, Run, Step

ROW = 2  # blocks of a part that is a row
MOST_FRAMES = 7  # of a step: more of them are too small to be read


class Stage(Record):
    """One run of a step: the number of the run from 0, and the parts it joins, the largest first; one part
    where its two sides hang together already. `earlier` are the seams the step sewed before."""

    number: int
    run: Run
    parts: tuple[tuple[str, ...], ...]
    earlier: frozenset[str]

    @property
    def pieces(self) -> tuple[str, ...]:
        """All pieces in hand at this stage."""
        return tuple(id for part in self.parts for id in part)


class StageFrame(Record):
    """Stages that are drawn one after the other, mostly one; how many `more` times the same is done with
    the next ones, and whether that goes round clockwise (None: neither way)."""

    stages: tuple[Stage, ...]
    more: int
    clockwise: bool | None = None


def stages(step: Step, assembly: Assembly) -> tuple[Stage, ...]:
    """The stages of a step, one for each run; all in one part where a step is one run or closes a seam left open."""
    groups = [tuple(assembly.units.get(name, (name,))) for name in step.join]
    if len(step.runs) == 1 or step.finish or step.leave is not None or _overlap(groups):
        return tuple(Stage(n, run, (step.pieces,), frozenset()) for n, run in enumerate(step.runs))
    joined, of_top = groups, assembly.tiling.block == TOP
    hanging = dict(enumerate(groups))  # together, by a number that grows with each run
    group_of = {id: n for n, group in hanging.items() for id in group}
    found: list[Stage] = []
    earlier: frozenset[str] = frozenset()
    for n, run in enumerate(step.runs):
        own = {id for side in run.sides for id in side}
        met = [hanging.pop(k) for k in sorted({group_of[id] for id in own if id in group_of})]
        met.sort(key=lambda group: -len(group))
        shown = tuple(_in_sight(group, joined, own) for group in met) if of_top else tuple(met)
        found.append(Stage(n, run, shown, earlier))
        together = tuple(itertools.chain.from_iterable(met))
        hanging[len(groups) + n] = together
        group_of.update(dict.fromkeys(together, len(groups) + n))
        earlier |= frozenset(run.seams)
    return tuple(found)


def _in_sight(
    group: tuple[str, ...], joined: Sequence[tuple[str, ...]], own: set[str]
) -> tuple[str, ...]:
    """What is drawn of a part of a top: of the blocks and rows joined before only those that a run touches,
    since all of them would leave no room for the seam."""
    rows = [part for part in joined if set(part) <= set(group) and own & set(part)]
    return tuple(id for part in rows for id in part)


def _overlap(groups: Sequence[tuple[str, ...]]) -> bool:
    return sum(map(len, groups)) > len({id for group in groups for id in group})


def is_framed(step: Step, assembly: Assembly) -> bool:
    """Whether a step is drawn run by run: several runs that turn, or hand seams that lie neither side by side
    nor, two of them, apart at either end of a part; so few actions that all can be read."""
    if len(step.runs) < 2 or step.finish or step.leave is not None:
        return False
    if is_in_place(step, assembly):
        return False
    if any(run.turns for run in step.runs):
        return True
    by_hand = any(run.by is By.HAND for run in step.runs)
    return by_hand and not _side_by_side(step, assembly) and not _at_either_end(step, assembly)


def is_in_place(step: Step, assembly: Assembly) -> bool:
    """Whether a step sets in one part after the other in too many ways to be drawn run by run, as where a ring of many cloths
    grows: it is drawn with all parts where they come to lie, the dots of each run numbered."""
    if len(step.runs) <= MOST_FRAMES or step.finish or step.leave is not None:
        return False
    if assembly.tiling.block == TOP or not any(run.turns for run in step.runs):
        return False
    kinds = kinds_of(stages(step, assembly)[:-1], assembly)
    return sum(span for _, span, _ in repeats(kinds)) >= MOST_FRAMES  # and the last


def _at_either_end(step: Step, assembly: Assembly) -> bool:
    """Whether a step has two runs that sew on a part each and share no dot."""
    if len(step.runs) != 2 or any(len(stage.parts) < 2 for stage in stages(step, assembly)):
        return False
    return not set(step.runs[0].points) & set(step.runs[1].points)


def _side_by_side(step: Step, assembly: Assembly) -> bool:
    """Whether all seams of a step run the same way, as in a row."""
    ways = [_way(run) for run in step.runs]
    joins = all(len(stage.parts) > 1 for stage in stages(step, assembly))
    return joins and all(abs(cross(ways[0], way)) < 0.02 for way in ways[1:])


def _way(run: Run) -> Point:
    """The direction of a run from its first to its last point."""
    (ax, ay), (bx, by) = run.points[0], run.points[-1]
    length = math.hypot(bx - ax, by - ay) or 1.0
    return (bx - ax) / length, (by - ay) / length


def frames(step: Step, assembly: Assembly) -> tuple[StageFrame, ...]:
    """The frames of a step that is drawn run by run. The last stage is always a frame of its own."""
    *before, last = stages(step, assembly)
    if assembly.tiling.block == TOP and rows_joined(step, assembly):
        return (
            StageFrame((before[0],), 0),
            StageFrame((last,), 0),
        )  # row to row is the same all the way
    kinds = kinds_of(before, assembly)
    found = []
    for at, span, more in repeats(kinds):
        way = clockwise(before[at : at + span * (more + 1)], assembly) if more else None
        found.append(StageFrame(tuple(before[at : at + span]), more, way))
    return (*found, StageFrame((last,), 0))


def repeats(kinds: Sequence[Hashable]) -> Iterator[tuple[int, int, int]]:
    """A row cut into repeats: where each begins, how many members it has, and how many more times they
    come. The span that takes in most is taken, of equal ones the shortest; members that do not repeat
    come singly."""
    at = 0
    while at < len(kinds):
        best = (1, 1, 0)  # taken in, span, more
        for span in range(1, (len(kinds) - at) // 2 + 1):
            more = _times(kinds, at, span)
            if more and span * (more + 1) > best[0]:
                best = (span * (more + 1), span, more)
        yield at, best[1], best[2]
        at += best[0]


def rows_joined(step: Step, assembly: Assembly) -> bool:
    """Whether a step of a top joins rows of blocks: most of its parts are more than one block."""
    rows = sum(len(assembly.units.get(name, (name,))) >= ROW for name in step.join)
    return len(step.join) > 2 and 2 * rows > len(step.join)


def _times(kinds: Sequence[Hashable], at: int, span: int) -> int:
    """How many more times the `span` members from `at` on come."""
    more, one = 0, kinds[at : at + span]
    while kinds[at + (more + 1) * span : at + (more + 2) * span] == one:
        more += 1
    return more


def kinds_of(row: Sequence[Stage], assembly: Assembly) -> list[int]:
    """A number for each stage, the same for stages that are equal up to a turn."""
    firsts: list[_Seen] = []
    kinds = []
    for stage in row:
        seen = _Seen.of(stage, assembly)
        kind = next((k for k, other in enumerate(firsts) if seen.like(other)), len(firsts))
        if kind == len(firsts):
            firsts.append(seen)
        kinds.append(kind)
    return kinds


class _Seen(Record):
    """A stage as seen by someone at the beginning of its run, looking along its first seam."""

    how: tuple[object, ...]  # by what, how it ends, where it turns
    points: tuple[Point, ...]
    cloth: tuple[tuple[object, Point], ...]  # what each piece is, and where its middle lies

    @classmethod
    def of(cls, stage: Stage, assembly: Assembly) -> _Seen:
        """The stage as it is seen."""
        run, tiling = stage.run, assembly.tiling
        ends = (_end(assembly, run, 0), _end(assembly, run, -1))
        moved = [tuple(part) for part in stage.parts[1:]]
        near = {id for side in run.sides for id in side} | {id for part in moved for id in part}
        cloth = []
        for id in sorted(near):
            piece = tiling.piece(id)
            corners = piece.outline.points
            centre = (
                sum(x for x, _ in corners) / len(corners),
                sum(y for _, y in corners) / len(corners),
            )
            cloth.append(((piece.patch, piece.fabric, piece.reversed), _from(run, tiling, centre)))
        how = (
            run.by,
            ends,
            run.turns,
            run.begun,
            len(stage.parts),
            run.points[0] == run.points[-1],
        )
        return cls(how, tuple(_from(run, tiling, p) for p in run.points), tuple(cloth))

    def like(self, other: _Seen) -> bool:
        """Whether two stages look the same."""
        if self.how != other.how or len(self.points) != len(other.points):
            return False
        if any(math.dist(a, b) > DRAWN for a, b in zip(self.points, other.points, strict=True)):
            return False
        return len(self.cloth) == len(other.cloth) and all(
            any(kind == own and math.dist(at, p) < DRAWN for own, p in other.cloth)
            for kind, at in self.cloth
        )


def _from(run: Run, tiling: Tiling, p: Point) -> Point:
    """Where a point lies, seen from the start of a run along its first seam."""
    here, then = run.points[0], run.points[1]
    length = math.dist(here, then) or 1.0
    c, s = (then[0] - here[0]) / length, (then[1] - here[1]) / length
    x, y = p[0] - here[0], p[1] - here[1]
    return x * c + y * s, y * c - x * s


def _end(assembly: Assembly, run: Run, which: int) -> End:
    """How a run begins (0) or ends (-1)."""
    seam: Seam = assembly.tiling.seam(run.seams[which])
    ends = assembly.sewn[seam.id].ends
    return ends[0] if seam.start == run.points[which] else ends[1]


def clockwise(row: Sequence[Stage], assembly: Assembly) -> bool | None:
    """Whether stages follow each other clockwise, as seen on the page, about the middle of all their
    parts; None where they go neither way round, as rows of a top do."""
    rows = any(len(part) >= ROW for stage in row for part in stage.parts[1:])
    if rows and assembly.tiling.block == TOP:
        return None
    pieces = {id for stage in row for id in stage.pieces}  # most are in hand again and again
    corners = [p for id in pieces for p in assembly.tiling.piece(id).outline.points]
    xs, ys = [p[0] for p in corners], [p[1] for p in corners]
    centre = ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)
    rays = [_ray(centre, stage.run) for stage in row]
    if any(math.hypot(*ray) < DRAWN for ray in rays):
        return None
    steps = [cross(a, b) / (math.hypot(*a) * math.hypot(*b)) for a, b in itertools.pairwise(rays)]
    if steps and all(step > 0.1 for step in steps):
        return True
    return False if steps and all(step < -0.1 for step in steps) else None


def _ray(centre: Point, run: Run) -> Point:
    """The way from a centre to the middle of a run."""
    x = sum(p[0] for p in run.points) / len(run.points)
    y = sum(p[1] for p in run.points) / len(run.points)
    return x - centre[0], y - centre[1]
