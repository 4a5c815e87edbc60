"""Floor 4: the corners that a step leaves open, for what will be set in there later."""

from __future__ import annotations

from itertools import combinations

from booklet.geometry.patches.headings import turns
from booklet.geometry.tiling import Tiling
from booklet.kit.outlines.plane import Point
from booklet.sewing.drafts import Draft
from booklet.sewing.touched.begun import Begun


def corners_left_open(begun: Begun, draft: Draft) -> tuple[Point, ...]:
    """The ends of a step's seams at which every seam to come has to turn: its own must stop there.

    At a point inside the block the last join sews along two of the seams that are still to come. Where no two of these
    go straight on it turns, in whatever order the rest is sewn. Points at which a partial seam waits are left out: there
    nothing is certain.
    """
    waiting = {gap.at for gap in begun.open}
    ends = dict.fromkeys(p for stretch in draft.stretches for p in stretch.points)
    return tuple(p for p in ends if p not in waiting and must_turn(begun.tiling, begun.unsewn, p))


def must_turn(tiling: Tiling, unsewn: frozenset[str], at: Point) -> bool:
    """Whether the last of the seams still to come at an inner point turns there, whichever it is."""
    point = next(junction for junction in tiling.junctions if junction.at == at)
    ahead = [tiling.seam(id) for id in point.seams if id in unsewn]
    if not point.inside or len(ahead) < 2:
        return False
    return all(turns(one, other, at) for one, other in combinations(ahead, 2))
