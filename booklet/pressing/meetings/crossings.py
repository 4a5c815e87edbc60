"""Floor 5, second step: what kind of meeting every matching point inside the block is.

- crossing: a line is sewn through the point and other seams (its arms) end at it from both sides.
  Arms that face each other across the line nest when they lie the same way round the point: their
  allowances then lie opposite ways and lock.
- tee: a line, sewn through or along one straight side of a patch, with arms from one side only.
  Nothing lies against the arm, so it never clashes.
- point: seams that all end here (a Y-point, a hand-sewn crossing). They can be fanned.
- bend: two seams between the same two patches, where an outline turns.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from enum import Enum
from itertools import combinations

from booklet.geometry.tiling import Junction
from booklet.kit.outlines.plane import Point
from booklet.kit.records import Record
from booklet.pressing.meetings.facing import Ray, facing
from booklet.pressing.pressing import JunctionKind
from booklet.pressing.strands import Strands, in_line, ray, share_side, stops
from booklet.sewing.assembly import Assembly

Sense = bool | None  # clockwise on the page, anticlockwise, or open


class Meeting(Enum):
    """The kinds of meeting above."""

    CROSSING = "crossing"
    TEE = "tee"
    POINT = "point"
    BEND = "bend"


class Crossing(Record, kw_only=True):
    """A matching point inside the block: its seams clockwise, the line through it (two seams, or
    none), the arms that end at it, and the pairs of arms that face each other across the line.
    `fannable`: every seam stops at the point."""

    at: Point
    seams: tuple[str, ...]
    meeting: Meeting
    line: tuple[str, ...]
    arms: tuple[str, ...]
    facing: tuple[tuple[str, str], ...]
    fannable: bool


def crossings_of(
    assembly: Assembly, strands: Strands, released: frozenset[Point] = frozenset()
) -> tuple[Crossing, ...]:
    """Every matching point inside the block at which two or more seams end, in the tiling's order."""
    return tuple(
        _crossing(assembly, strands, junction, junction.at in released)
        for junction in assembly.tiling.junctions
        if junction.inside and len(junction.seams) >= 2
    )


def _crossing(assembly: Assembly, strands: Strands, junction: Junction, freed: bool) -> Crossing:
    at, seams = junction.at, junction.seams
    fannable = freed or all(stops(assembly, strands.seams[s], at) for s in seams)
    line = _line(strands, seams, at)
    arms = tuple(s for s in seams if s not in line)
    pairs = _facing(strands, line, arms, at) if line else ()
    if len(set(seams)) == 2:
        meeting = Meeting.BEND
    elif not line:
        meeting = Meeting.POINT
    else:
        meeting = Meeting.CROSSING if pairs else Meeting.TEE
    return Crossing(
        at=at, seams=seams, meeting=meeting, line=line, arms=arms, facing=pairs, fannable=fannable
    )


def _line(strands: Strands, seams: tuple[str, ...], at: Point) -> tuple[str, ...]:
    """The two seams that are one line at a point: one strand, or one straight side of a patch."""
    pairs = [(a, b) for k, a in enumerate(seams) for b in seams[k + 1 :]]
    for a, b in pairs:
        if strands.of[a][0] == strands.of[b][0]:
            return (a, b)
    for a, b in pairs:
        if share_side(strands.seams[a], strands.seams[b], at):
            return (a, b)
    return ()


def _facing(
    strands: Strands, line: tuple[str, ...], arms: tuple[str, ...], at: Point
) -> tuple[tuple[str, str], ...]:
    """The pairs of arms that face each other across the line; none where all are on one side."""
    along = ray(strands.seams[line[0]], at)
    sides: dict[bool, list[Ray]] = {False: [], True: []}
    for arm in arms:
        x, y = ray(strands.seams[arm], at)
        sides[along[0] * y - along[1] * x > 0].append((arm, (x, y)))
    return facing(along, sides[False], sides[True])


def kind_of(crossing: Crossing, sense: Mapping[str, Sense], strands: Strands) -> JunctionKind:
    """How the allowances meet at a point, from each seam's sense round it.

    open: all open, or those that could lie against each other are kept apart by an open one; fan: all
    lie the same way round; clash: arms that face each other across a line lie to the same side, or a
    point that could have been fanned is not; nest: arms across a line lie opposite ways; free: nothing
    lies against anything, as where arms end on one side only.
    """
    senses = [sense[seam] for seam in crossing.seams]
    if all(s is None for s in senses):
        return JunctionKind.OPEN
    if agree(senses) and None not in senses:
        return JunctionKind.FAN
    if crossing.meeting in (Meeting.BEND, Meeting.TEE):
        return JunctionKind.FREE
    if crossing.meeting is Meeting.CROSSING:
        return _across([(sense[a], sense[b]) for a, b in crossing.facing])
    return _at_point(crossing, senses, strands)


def _across(pairs: Sequence[tuple[Sense, Sense]]) -> JunctionKind:
    """The kind of a crossing from the senses of the arms that face each other."""
    if not all(agree(pair) for pair in pairs):
        return JunctionKind.CLASH
    return JunctionKind.OPEN if any(None in pair for pair in pairs) else JunctionKind.NEST


def _at_point(crossing: Crossing, senses: Sequence[Sense], strands: Strands) -> JunctionKind:
    """The kind of a point that is not fanned: seams in line may nest like a machine-sewn crossing."""
    if agree(senses):
        return JunctionKind.OPEN
    if not crossing.fannable:
        return JunctionKind.FREE
    sense = dict(zip(crossing.seams, senses, strict=True))
    nests = any(agree([sense[seam] for seam in rest]) for rest in others(crossing, strands))
    return JunctionKind.NEST if nests else JunctionKind.CLASH


def others(crossing: Crossing, strands: Strands) -> tuple[tuple[str, ...], ...]:
    """For a point that is not fanned: the seams that have to lie the same way round, beside any two in
    line, for nothing to clash. None at all (once) where it could not have been fanned."""
    if not crossing.fannable:
        return ((),)
    pairs = combinations(crossing.seams, 2)
    rests = [
        tuple(seam for seam in crossing.seams if seam not in pair)
        for pair in pairs
        if in_line(strands.seams[pair[0]], strands.seams[pair[1]], crossing.at)
    ]
    return tuple(rest for rest in rests if len(rest) > 1)


def agree(senses: Sequence[Sense]) -> bool:
    """Whether all allowances that are not open lie the same way round."""
    return len({s for s in senses if s is not None}) < 2
