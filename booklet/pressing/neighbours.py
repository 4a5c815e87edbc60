"""Floor 5: block against block. Which points of the rims coincide in the quilt's arrangement.

Blocks of a straight set without sashing lie edge to edge. A seam end on a block's rim meets one of its
neighbour's where both lie at the same place of the common edge; their allowances nest when both lie
the same way round that point. The arrangement repeats, so each kind of meeting is found once and
counted.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from booklet.geometry.tiling import BlockKey, Junction, Point, Tiling
from booklet.pattern import SetKind, Setting, Size
from booklet.pressing.crossings import Sense, agree
from booklet.pressing.pressing import Pressing

TOUCH = 1e-5  # inches


@dataclass(frozen=True, slots=True)
class RimEnd:
    """A matching point on a block's rim, in the block's own frame, with the seams that end there."""

    block: str
    turn: int
    at: Point
    seams: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class RimMeeting:
    """Two rim points that coincide, `first` left of or above `second`, `count` times in the quilt."""

    first: RimEnd
    second: RimEnd
    count: int


def rim_meetings(size: Size, tilings: Mapping[str, Tiling]) -> tuple[RimMeeting, ...]:
    """All meetings of rim points in a size's arrangement; none without a straight set edge to edge."""
    quilt = size.quilt
    if quilt is None or quilt.set is not SetKind.STRAIGHT or quilt.sashing is not None:
        return ()
    rows = [row for row in quilt.arrange if row]
    found: dict[tuple[RimEnd, RimEnd], int] = {}
    for i, row in enumerate(rows):
        below = rows[(i + 1) % len(rows)]
        for j, here in enumerate(row):
            beside = row[(j + 1) % len(row)]
            times = _times(i, len(rows), size.down) * _times(j, len(row), size.across - 1)
            _meet(found, tilings, here, beside, times, across=True)
            for k in range(len(below)):
                times = _times(i, len(rows), size.down - 1)
                times *= _both(j, len(row), k, len(below), size.across)
                _meet(found, tilings, here, below[k], times, across=False)
    return tuple(RimMeeting(one, other, count) for (one, other), count in found.items())


def block_counts(size: Size) -> Mapping[str, int]:
    """How many of each block the size's arrangement holds; without a quilt nothing is known."""
    counts: dict[str, int] = {}
    rows = [row for row in size.quilt.arrange if row] if size.quilt is not None else []
    for i, row in enumerate(rows):
        for j, setting in enumerate(row):
            times = _times(i, len(rows), size.down) * _times(j, len(row), size.across)
            counts[setting.block] = counts.get(setting.block, 0) + times
    return counts


def rim_clashes(size: Size, pressings: Mapping[BlockKey, Pressing]) -> tuple[bool, int]:
    """(whether all joins between blocks nest, how many meetings clash) in one size's quilt."""
    tilings = {
        block: pressing.assembly.tiling
        for (size_id, block), pressing in pressings.items()
        if size_id == size.id
    }
    clashes = sum(
        meeting.count
        for meeting in rim_meetings(size, tilings)
        if not agree(meeting_senses(size, meeting, pressings))
    )
    return clashes == 0, clashes


def meeting_senses(
    size: Size, meeting: RimMeeting, pressings: Mapping[BlockKey, Pressing]
) -> list[Sense]:
    """The sense round the shared point of every seam that ends there, both blocks' seams."""
    return [
        sense_of(pressings[size.id, end.block], seam, end.at)
        for end in (meeting.first, meeting.second)
        for seam in end.seams
    ]


def sense_of(pressing: Pressing, seam_id: str, at: Point) -> Sense:
    """Whether a seam's allowance lies clockwise, on the page, round its end `at`; None if open."""
    seam = pressing.assembly.tiling.seam(seam_id)
    toward = pressing.pressed[seam_id].toward
    if toward is None:
        return None
    return (toward == seam.between[0]) == (seam.start == at)


def _times(place: int, period: int, length: int) -> int:
    """How often `place` of a pattern of `period` places comes in the first `length`."""
    return max(0, (length - place + period - 1) // period)


def _both(a: int, m: int, b: int, n: int, length: int) -> int:
    """How many columns below `length` are a modulo m and b modulo n."""
    if m == n:
        return _times(a, m, length) if a == b else 0
    return sum(1 for column in range(a, length, m) if column % n == b)


def _meet(
    found: dict[tuple[RimEnd, RimEnd], int],
    tilings: Mapping[str, Tiling],
    here: Setting,
    there: Setting,
    times: int,
    *,
    across: bool,
) -> None:
    """Count the meetings of one block with its right-hand (`across`) or lower neighbour."""
    if times <= 0 or here.block not in tilings or there.block not in tilings:
        return
    ends = _edge(tilings[here.block], here, far=True, across=across)
    for place, one in ends:
        for other_place, other in _edge(tilings[there.block], there, far=False, across=across):
            if abs(place - other_place) <= TOUCH:
                found[one, other] = found.get((one, other), 0) + times


def _edge(
    tiling: Tiling, setting: Setting, *, far: bool, across: bool
) -> list[tuple[float, RimEnd]]:
    """The rim points on one edge of a turned block with their place along it.

    With `across` the right (`far`) or left edge, from its top; else the lower or upper, from its left.
    """
    xs = [p[0] for p in tiling.outline.points]
    ys = [p[1] for p in tiling.outline.points]
    left, top = min(xs), min(ys)
    box = (max(xs) - left, max(ys) - top)
    axis = 0 if across else 1
    turned_box = box if setting.turn % 180 == 0 else box[::-1]
    edge = turned_box[axis] if far else 0.0
    ends = []
    for junction in tiling.junctions:
        if junction.inside or not junction.seams:
            continue
        place = turned((junction.at[0] - left, junction.at[1] - top), box, setting.turn)
        if abs(place[axis] - edge) <= TOUCH:
            ends.append((place[1 - axis], _end(setting, junction)))
    return ends


def _end(setting: Setting, junction: Junction) -> RimEnd:
    return RimEnd(setting.block, setting.turn % 360, junction.at, junction.seams)


def turned(point: Point, box: Point, turn: int) -> Point:
    """A point of a width x height box once the box is turned clockwise and moved back to (0, 0)."""
    x, y = point
    width, height = box
    return {
        0: (x, y),
        90: (height - y, x),
        180: (width - x, height - y),
        270: (y, width - x),
    }[turn % 360]
