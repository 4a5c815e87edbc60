"""Floor 4: partial seams. One is sewn short of a point, a later unit comes there, and it is finished.

A unit joined past the open point is sewn up to the point; what continues the open seam beyond it
waits for the finish, which sews the rest of the seam and what waited in one go.
"""

from __future__ import annotations

from collections.abc import Iterable

from booklet.geometry.patches.headings import change, turns
from booklet.geometry.tiling import Seam, Tiling
from booklet.kit.outlines.plane import Point
from booklet.kit.records import replace
from booklet.sewing.order.stretches import Stretch, along
from booklet.sewing.order.table import OpenSeam


def toward_open(stretch: Stretch, leave: frozenset[str], tiling: Tiling) -> Stretch | None:
    """The stretch turned so that it ends where `leave` will come; None if `leave` touches no end.

    Where it comes at both ends, the end whose last seam goes straight on along `leave`.
    """
    if stretch.closed:
        return None
    ways = [way for way in (stretch, stretch.reversed()) if _beyond(way, leave, tiling)]
    return min(ways, key=lambda way: _rough(_bend_beyond(way, leave, tiling)), default=None)


def _beyond(stretch: Stretch, leave: frozenset[str], tiling: Tiling) -> tuple[Seam, ...]:
    """The seams of `leave` at the end of the stretch."""
    end, own = stretch.points[-1], stretch.seams[-1]
    return tuple(
        seam
        for seam in tiling.seams
        if end in (seam.start, seam.end) and seam.id != own and leave & set(seam.between)
    )


def _bend_beyond(stretch: Stretch, leave: frozenset[str], tiling: Tiling) -> float:
    """The least change of direction from the stretch's last seam to one of `leave`."""
    last = tiling.seam(stretch.seams[-1])
    return min(change(last, seam, stretch.points[-1]) for seam in _beyond(stretch, leave, tiling))


def hold_back(
    stretch: Stretch, waiting: Iterable[OpenSeam], a: frozenset[str], tiling: Tiling
) -> tuple[Stretch | None, tuple[OpenSeam, ...]]:
    """What of a stretch is sewn now, and the open seams with what now waits for their finish."""
    changed: list[OpenSeam] = []
    now: Stretch | None = stretch
    for gap in waiting:
        if now is not None and gap.at in now.points:
            now, held = _split(now, gap, a, tiling)
            gap = replace(gap, deferred=gap.deferred + held)
        changed.append(gap)
    return now, tuple(changed)


def _split(
    stretch: Stretch, gap: OpenSeam, a: frozenset[str], tiling: Tiling
) -> tuple[Stretch | None, tuple[Seam, ...]]:
    """Cut a stretch at the open point: the part sewn now, and the part that goes on from the gap."""
    seams = [tiling.seam(id) for id in stretch.seams]
    if stretch.closed:
        return _cut_open(stretch, seams, gap, a)
    where = stretch.points.index(gap.at)
    before, after = seams[:where], seams[where:]
    if not before or not after:
        return stretch, ()
    if _rough(change(gap.seam, after[0], gap.at)) <= _rough(change(gap.seam, before[-1], gap.at)):
        return along(before, stretch.points[0], a), tuple(after)
    return along(after, gap.at, a), tuple(reversed(before))


def _cut_open(
    stretch: Stretch, seams: list[Seam], gap: OpenSeam, a: frozenset[str]
) -> tuple[Stretch | None, tuple[Seam, ...]]:
    """Cut a closed stretch at the open point: what goes straight on from the gap waits."""
    where = stretch.points.index(gap.at)
    round_ = seams[where:] + seams[:where]
    if _rough(change(gap.seam, round_[-1], gap.at)) < _rough(change(gap.seam, round_[0], gap.at)):
        round_.reverse()
    held = 1
    point = round_[0].end if round_[0].start == gap.at else round_[0].start
    while held < len(round_) and not turns(round_[held - 1], round_[held], point):
        point = round_[held].end if round_[held].start == point else round_[held].start
        held += 1
    rest = round_[held:]
    return (along(rest, point, a) if rest else None), tuple(round_[:held])


def _rough(angle: float) -> float:
    """An angle without the noise in which two sizes of a block differ, so that equal ones are equal in both."""
    return round(angle, 6)


def finishing(gap: OpenSeam) -> Stretch:
    """The stretch of a finish: the open seam once more, and what waited beyond its open end."""
    start: Point = gap.seam.end if gap.seam.start == gap.at else gap.seam.start
    seams = (gap.seam, *gap.deferred)
    return along(seams, start, _on_one_hand(seams, start, gap.first))


def _on_one_hand(seams: Iterable[Seam], start: Point, first: frozenset[str]) -> frozenset[str]:
    """The pieces that lie on that hand of a walk along seams on which the first unit lies at its beginning: what came later
    lies on either, whichever unit it was joined to."""
    hands: list[tuple[str, str]] = []
    for seam in seams:
        along_path = seam.start == start
        hands.append(seam.between if along_path else (seam.between[1], seam.between[0]))
        start = seam.end if along_path else seam.start
    right = hands[0][0] in first
    return frozenset(pair[0] if right else pair[1] for pair in hands)
