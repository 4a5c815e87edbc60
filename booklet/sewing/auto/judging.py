"""Floor 4, the ways to build: judges the threads of an author's order beside those of its block built patch by patch."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from booklet.kit.diagnostic import Diagnostic, warning
from booklet.kit.measure import UnitSystem
from booklet.kit.words import with_unit
from booklet.pattern import By, Fabric, Sewing
from booklet.sewing.assembly import Assembly
from booklet.sewing.auto.choosing import MOST_PIECES, NARROW, Weighed, weighed
from booklet.sewing.auto.rings import BuildKind, patch_by_patch, rings_of
from booklet.sewing.auto.unit_bench import UnitBench
from booklet.sewing.mosaic.likeness import Likeness, likeness_of, shapes_of
from booklet.sewing.mosaic.mosaic import mosaic_of
from booklet.sewing.planner import order_of
from booklet.sewing.planner.judge import count

# Routes are clearly longer where both are reached; how much each is, is our own choice.
WORSE_BY = 3  # new threads: in a small block one or two more are soon half as many again
WORSE_SHARE = 1.5  # times as much: in a large block three more are few among many


def longer_routes(
    assembly: Assembly, sewing: Sewing, fabrics: Mapping[str, Fabric], units: UnitSystem
) -> Iterator[Diagnostic]:
    """A warning where the routes of an order by hand are clearly longer than those of the block built patch by patch,
    which turns no more."""
    tiling = assembly.tiling
    by_hand = all(sewn.by is By.HAND for sewn in assembly.sewn.values())
    spare = WORSE_BY * float(sewing.new_thread)
    if not by_hand or not assembly.threads or len(tiling.pieces) > MOST_PIECES:
        return
    if assembly.route_gap < spare:
        return  # no order could save so much
    best = _patch_by_patch(assembly, sewing, fabrics)
    if best is None or best.turns > sum(step.turns for step in assembly.steps):
        return
    if assembly.route_cost < max(best.route + spare, WORSE_SHARE * best.route):
        return
    gone = sum(thread.gone_back for thread in assembly.threads)
    yield warning(
        "longer-routes-than-needed",
        f"the order of block `{tiling.block}` takes {_threads(len(assembly.threads), gone, units)}, where patch by patch "
        f"{_threads(best.threads, best.gone_back, units)} would do",
        assembly.steps[0].span,
        f"`booklet plan` with the folder and `{tiling.block}` sets the ways to build it beside each other",
    )


def _threads(threads: int, gone_back: float, units: UnitSystem) -> str:
    """So many threads, and how far they go back."""
    if not gone_back:
        return count(threads, "hand thread")
    return (
        f"{count(threads, 'hand thread')} and going back over {with_unit(gone_back, units)} of seam"
    )


def _patch_by_patch(
    assembly: Assembly, sewing: Sewing, fabrics: Mapping[str, Fabric]
) -> Weighed | None:
    """The block built patch by patch, None where it has no rings about a heart."""
    tiling = assembly.tiling
    mosaic = mosaic_of(tiling, sewing, sewing.costs)
    rings = rings_of(mosaic, Likeness(shapes_of(tiling).looks))
    if rings is None:
        return None
    tree = patch_by_patch(UnitBench(tiling, sewing, mosaic, NARROW), rings)
    if tree is None:
        return None
    order = order_of(mosaic, likeness_of(tiling, fabrics), tree, sewing.costs)
    return weighed(BuildKind.PATCHES, order, tiling, sewing, fabrics)
