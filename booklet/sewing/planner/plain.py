"""Floor 4, the planner: an order of a region found quickly, whatever its units look like."""

from __future__ import annotations

from booklet.sewing.planner.cuts import through_lines
from booklet.sewing.planner.exact import cheapest
from booklet.sewing.planner.mosaic import Faces, Mosaic
from booklet.sewing.planner.paths import parting_paths
from booklet.sewing.planner.trees import Tree

FEW = 11  # up to so many faces all orders are looked at


def parted_plainly(mosaic: Mosaic, region: Faces) -> Tree:
    """An order of a region: cut along straight lines, else along the best path into halves as equal
    as can be, and small regions in the cheapest way of all."""
    if region & (region - 1) == 0:
        return Tree(region)
    lines = through_lines(mosaic, region)
    if lines:
        side = lines[0].side
    elif region.bit_count() <= FEW:
        return cheapest(mosaic, region)
    else:
        side = _half(mosaic, region)
    if not side:
        return cheapest(mosaic, region)
    rest = region & ~side
    return Tree(region, (parted_plainly(mosaic, side), parted_plainly(mosaic, rest)))


def _half(mosaic: Mosaic, region: Faces) -> Faces:
    """One side of the best parting path, 0 if there is none."""
    count = region.bit_count()
    paths = (
        (path.needless, abs(2 * path.side.bit_count() - count), path.turns, path.length, path.side)
        for path in parting_paths(mosaic, region)
    )
    best = min(paths, default=None)
    return best[-1] if best else 0
