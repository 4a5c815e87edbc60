"""Floor 4, the ways to build: the order of joining that costs least together with its routes.

The order with the fewest turns is set beside others that turn no more: the ways teachers tell apart, and of small blocks
every order there is. What each costs is worked out from its steps as they are sewn. Of equal ones that with the
fewest turns as it was found stays: it has the fewest cards.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import islice

from booklet.geometry.tiling import Tiling
from booklet.kit.outlines.near import WHOLE
from booklet.kit.records import Record, replace
from booklet.pattern import By, DeclaredStep, Fabric, Sewing
from booklet.sewing.alike import cards
from booklet.sewing.auto.every_way import MOST, every_way
from booklet.sewing.auto.moved_joins import MovedJoins
from booklet.sewing.auto.rings import BuildKind, patch_by_patch, ring_first, rings_of, set_by_set
from booklet.sewing.auto.unit_bench import UnitBench, by_choice, turn_worth
from booklet.sewing.drafts import Draft
from booklet.sewing.mosaic.joining import Joins
from booklet.sewing.mosaic.likeness import Likeness, likeness_of, shapes_of
from booklet.sewing.mosaic.mosaic import mosaic_of
from booklet.sewing.mosaic.trees import Tree
from booklet.sewing.order.ends import blocked_set_ins, sew_ends
from booklet.sewing.order.joins import draft_steps
from booklet.sewing.order.machine_or_hand import is_short
from booklet.sewing.planner import Order, steps_of, with_tree
from booklet.sewing.routes.hanging import legs_of
from booklet.sewing.routes.least import least_cost
from booklet.sewing.routes.threads import edge_of, hand_runs, route_of_order
from booklet.sewing.searches.joined_rows import with_rows

WIDTH, NARROW = 400, 6  # states of a unit, where all orders are looked at and where rings are begun
MOVING_WIDTH = 8
EFFORT = (
    10_000  # ways to sew a run that are looked at while joins are moved, in all blocks of all sizes
)
BUDGET = 3_000  # ways that are weighed, times their pieces, in all blocks of all sizes: about 4 ms for each
MOST_PIECES = 61  # a rosette of four rings: of more only the order with the fewest turns is routed


class Weighed(Record, kw_only=True):
    """An order with what it costs in inches of seam, its turns taken in, and what that is made of: turns, threads,
    inches gone back over seam, inches of loose thread, cards."""

    kind: BuildKind
    order: Order
    steps: tuple[DeclaredStep, ...]
    cost: float
    route: float  # what of it the threads cost
    turns: int
    threads: int
    gone_back: float
    loose: float
    cards: int
    worth: float  # the cost, and what its cards cost: by this ways are compared
    all_by_hand: bool


class Chosen(Record, kw_only=True):
    """The cheapest order and routes, the cheapest of every kind, and what no order and route costs less than in
    inches of seam; `proven` that the best costs no more."""

    best: Weighed
    ways: tuple[Weighed, ...]
    bound: float | None  # None where the machine could sew a part: nothing is known then
    proven: bool


def weighed(
    kind: BuildKind,
    order: Order,
    tiling: Tiling,
    sewing: Sewing,
    fabrics: Mapping[str, Fabric],
) -> Weighed | None:
    """What an order costs with its routes; None where it cannot be sewn."""
    steps = _by_one_hand(steps_of(order, tiling), tiling, sewing)
    return weighed_steps(kind, order, steps, tiling, sewing, fabrics)


def _by_one_hand(
    steps: tuple[DeclaredStep, ...], tiling: Tiling, sewing: Sewing
) -> tuple[DeclaredStep, ...]:
    """The steps, each that is sewn by hand in part sewn so as a whole: nobody goes to the machine for one seam of
    a round."""
    drafts, _, faults = draft_steps(tiling, steps, sewing, tiling.pieces[0].span)
    if faults:
        return steps
    mixed = {draft.n for draft in drafts if len(set(draft.by)) > 1}
    return tuple(
        replace(step, by=By.HAND) if n in mixed else step for n, step in enumerate(steps, 1)
    )


def weighed_steps(
    kind: BuildKind,
    order: Order,
    steps: tuple[DeclaredStep, ...],
    tiling: Tiling,
    sewing: Sewing,
    fabrics: Mapping[str, Fabric],
) -> Weighed | None:
    """What some steps cost with their routes; None where they cannot be sewn."""
    drafts, _, faults = draft_steps(tiling, steps, sewing, tiling.pieces[0].span)
    if faults or list(blocked_set_ins(drafts, tiling, sewing)):
        return None
    sewn = sew_ends(drafts, tiling, sewing)
    runs = hand_runs(drafts, sewn, tiling)
    state = route_of_order(drafts, runs, sewn, tiling, sewing)
    legs = [leg for thread in legs_of(state).values() for leg in thread] if state else []
    passed = [leg.passage for leg in legs if leg.passage]
    by_hand = [edge.id for run in runs for edge in run.edges]
    route = state.cost if state else 0.0
    cost = _turned(drafts, sewing) + by_choice(by_hand, tiling, sewing) + route
    told = len(set(cards(drafts, tiling, fabrics)[0].values()))
    return Weighed(
        kind=kind,
        order=order,
        steps=steps,
        cost=cost,
        route=route,
        turns=sum(draft.turns for draft in drafts),
        threads=len(legs_of(state)) if state else 0,
        gone_back=sum(p.length for p in passed if not p.loose) + sum(leg.way.back for leg in legs),
        loose=sum(p.length for p in passed if p.loose),
        cards=told,
        worth=cost + told * float(sewing.route_costs.card),
        all_by_hand=len(by_hand) == len(tiling.seams),
    )


def _turned(drafts: tuple[Draft, ...], sewing: Sewing) -> float:
    """What the turns and partial seams of an order cost, in inches of seam."""
    costs = sewing.costs
    turns = sum(
        len(run.turns) * (costs.hand if by is By.HAND else costs.machine)
        for draft in drafts
        for run, by in zip(draft.stretches, draft.by, strict=True)
    )
    partials = sum(draft.declared.leave is not None for draft in drafts)
    return (turns + partials * costs.partial) * turn_worth(sewing)


def chosen(
    tiling: Tiling,
    sewing: Sewing,
    fabrics: Mapping[str, Fabric],
    order: Order,
    steps: tuple[DeclaredStep, ...],
    share: float = 1.0,
) -> Chosen | None:
    """The best order with its routes, beside `order`, which has the fewest turns; None where nothing is sewn by hand
    in that or it cannot be sewn. `share` is this block's part of the effort that a whole pattern may cost.

    Where the machine sews a part, only the ways that teachers tell apart are tried, and none is taken that has more
    cards: what is chained is worth more than a thread.
    """
    found = weighed_steps(BuildKind.FOUND, order, steps, tiling, sewing, fabrics)
    if found is None or not found.threads:
        return None
    ways = [found]
    if len(tiling.pieces) <= MOST_PIECES:
        ways += _others(tiling, sewing, fabrics, order, int(BUDGET * share / len(tiling.pieces)))
        if found.all_by_hand:
            ways += _moved(tiling, sewing, fabrics, _best(_fit(ways, found)), share)
    bound = _bound(tiling, sewing, order)
    proven = min(way.cost for way in ways) <= bound + WHOLE
    if len(tiling.pieces) <= MOST and not proven and not _machine_could(tiling, sewing):
        every = _every(tiling, sewing, fabrics, order, ways, share)
        ways += [every[0]] if every[0] else []
        bound = max(bound, min(way.cost for way in ways)) if every[1] else bound
    best = _best(_fit(ways, found))
    proven = best.cost <= bound + WHOLE
    known = None if _machine_could(tiling, sewing) else bound
    return Chosen(best=best, ways=tuple(_of_each_kind(ways)), bound=known, proven=proven)


def _fit(ways: list[Weighed], found: Weighed) -> list[Weighed]:
    """The order found and those that may take its place: better ones that close no ring which it does not close, and
    where the machine sews a part have no more cards."""
    better = [
        w for w in ways if w.worth < found.worth - WHOLE and w.order.rings <= found.order.rings
    ]
    return [found, *(w for w in better if found.all_by_hand or w.cards <= found.cards)]


def _moved(
    tiling: Tiling, sewing: Sewing, fabrics: Mapping[str, Fabric], best: Weighed, share: float
) -> Iterator[Weighed]:
    """The best order known, bettered join by join."""
    order = best.order
    mosaic = mosaic_of(tiling, sewing, order.costs)
    looks = Likeness(likeness_of(tiling, fabrics).looks)
    bench = UnitBench(tiling, sewing, mosaic, MOVING_WIDTH)
    joins = MovedJoins(bench, looks, int(EFFORT * share), closes_rings=order.rings > 0)
    tree = joins.bettered(order.tree)
    rowed = with_rows(Joins(mosaic), looks, tree, tree)
    made = weighed(BuildKind.MOVED, with_tree(order, rowed), tiling, sewing, fabrics)
    if made and made.worth < best.worth - WHOLE:
        yield made


def _every(
    tiling: Tiling,
    sewing: Sewing,
    fabrics: Mapping[str, Fabric],
    order: Order,
    ways: list[Weighed],
    share: float,
) -> tuple[Weighed | None, bool]:
    """The cheapest of all orders where that is cheaper than those known, and whether all were looked at."""
    mosaic = mosaic_of(tiling, sewing, order.costs)
    most = min(way.cost for way in ways)
    every = every_way(UnitBench(tiling, sewing, mosaic, WIDTH), mosaic.whole, most, share)
    if every.tree is None or every.cost >= most - WHOLE:
        return None, every.proven
    made = weighed(BuildKind.EVERY, with_tree(order, every.tree), tiling, sewing, fabrics)
    return made, every.proven


def _best(ways: list[Weighed]) -> Weighed:
    """The cheapest way; of equal ones the first, for that has the fewest cards."""
    best = ways[0]
    for way in ways[1:]:
        if way.worth < best.worth - WHOLE:
            best = way
    return best


def _of_each_kind(ways: list[Weighed]) -> Iterator[Weighed]:
    """The cheapest way of each kind, in the order of the kinds."""
    for kind in BuildKind:
        mine = [way for way in ways if way.kind is kind]
        if mine:
            yield _best(mine)


def _others(
    tiling: Tiling, sewing: Sewing, fabrics: Mapping[str, Fabric], order: Order, most: int
) -> Iterator[Weighed]:
    """The ways that teachers tell apart, as far as the block has them, `most` of them at most."""
    mosaic = mosaic_of(tiling, sewing, order.costs)
    looks = Likeness(shapes_of(tiling).looks)
    for kind, tree in islice(
        _trees(tiling, fabrics, UnitBench(tiling, sewing, mosaic, NARROW), looks), most
    ):
        made = weighed(kind, with_tree(order, tree), tiling, sewing, fabrics)
        if made:
            yield made


def _trees(
    tiling: Tiling, fabrics: Mapping[str, Fabric], bench: UnitBench, looks: Likeness
) -> Iterator[tuple[BuildKind, Tree]]:
    """The orders of those ways, patch by patch first."""
    rings = rings_of(bench.mosaic, looks)
    if rings is not None:
        tree = patch_by_patch(bench, rings)
        if tree is not None:
            yield BuildKind.PATCHES, tree
        tree = ring_first(bench.mosaic, rings)
        if tree is not None:
            yield BuildKind.RING, tree
    found = False
    for alike in (Likeness(likeness_of(tiling, fabrics).looks), looks):
        for tree in set_by_set(bench, alike, rings):
            found = True
            yield BuildKind.SETS, tree
        if found:
            return


def _bound(tiling: Tiling, sewing: Sewing, order: Order) -> float:
    """What every order with its routes costs at least, in inches of seam: the fewest turns, and the threads through
    all seams; where the machine sews some of them, of those too short for it alone nothing is known."""
    turns = order.bound if order.proven or order.costs.count_turns else 0.0
    if _machine_could(tiling, sewing):
        return turns * turn_worth(sewing)
    edges = [edge_of(seam) for seam in tiling.seams]
    bench = UnitBench(tiling, sewing, order.mosaic, 1)
    return turns * turn_worth(sewing) + least_cost(edges, bench.rates)


def _machine_could(tiling: Tiling, sewing: Sewing) -> bool:
    """Whether some seam is long enough for the machine."""
    return not all(is_short(seam, sewing) for seam in tiling.seams)
