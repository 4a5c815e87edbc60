"""Floor 4, the planner: the order of the pieces within a section, with the fewest turns of the paper.

The paper is turned where the next line runs in another direction. Taking the section apart from its end, all pieces whose
lines run one way are best taken off together: no piece hinders another, so what is left does not depend on their order.
So only the order of directions is searched, breadth first, and the first that leaves one piece turns least.
"""

from __future__ import annotations

import math

from booklet.kit.outlines.alike import same_angle
from booklet.kit.outlines.plane import angle_up
from booklet.sewing.mosaic.mosaic import Faces, first_face
from booklet.sewing.mosaic.straight_lines import StraightLine
from booklet.sewing.planner.paper_sections import Sections

SAME_WAY = 1.0  # degrees: nobody turns the paper for less
MOST_STATES = (
    400  # what is left of a section that is looked at; beyond it the first way on is taken
)


def in_order(sections: Sections, region: Faces) -> tuple[int, ...]:
    """The faces of a section in the order in which they are sewn, the first one first."""
    states: list[tuple[Faces, tuple[int, ...]]] = [(region, ())]
    seen = {region}
    while states:
        ahead: list[tuple[Faces, tuple[int, ...]]] = []
        for left, off in states:
            if not left & (left - 1):
                return (first_face(left), *reversed(off))
            for rest, taken in _taken_off(sections, left):
                if rest not in seen:
                    seen.add(rest)
                    ahead.append((rest, (*off, *taken)))
        states = ahead if len(seen) < MOST_STATES else ahead[:1]
    raise AssertionError("a section comes apart piece by piece")


def _taken_off(sections: Sections, region: Faces) -> list[tuple[Faces, tuple[int, ...]]]:
    """For each direction of lines along which pieces come off: what is left when all have, and these."""
    ways: list[float] = []
    for _, line in sections.last_pieces(region):
        way = _way(sections, line)
        if not any(same_angle(way, other, 180, SAME_WAY) for other in ways):
            ways.append(way)
    return [_all_along(sections, region, way) for way in sorted(ways)]


def _all_along(sections: Sections, region: Faces, way: float) -> tuple[Faces, tuple[int, ...]]:
    """The region without all pieces that come off along lines of one direction: from the right, else from below."""
    off: list[int] = []
    while found := [
        one
        for one, line in sections.last_pieces(region)
        if same_angle(_way(sections, line), way, 180, SAME_WAY)
    ]:
        last = max(found, key=lambda one: _place(sections, one))
        off.append(first_face(last))
        region &= ~last
    return region, tuple(off)


def _way(sections: Sections, line: StraightLine) -> float:
    """The direction of a line, in degrees below 180."""
    a, b = (sections.tiling.junctions[end].at for end in line.ends)
    return angle_up(a, b) % 180


def _place(sections: Sections, one: Faces) -> tuple[float, float, int]:
    """Where a piece lies: what lies farther right, then lower, comes later."""
    points = sections.tiling.pieces[first_face(one)].outline.points
    x = math.fsum(p[0] for p in points) / len(points)
    y = math.fsum(p[1] for p in points) / len(points)
    return round(x, 4), round(y, 4), first_face(one)
