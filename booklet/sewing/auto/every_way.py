"""Floor 4, the ways to build: of small blocks every order of joining with every route of its threads.

A unit is any part of the block that hangs together. It comes of any two that make it up, and has a state for
every way its threads may hang that is worth keeping. So each part is worked out once, whatever order led to it.

What it is for: of 69 orders of the test patterns that are sewn by hand 4 more are proven the cheapest, and one of these is
found by it alone.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.kit.outlines.near import NOISE
from booklet.kit.records import Record
from booklet.sewing.auto.unit_bench import HandUnit, UnitBench, is_hollow, tree_of, turn_worth
from booklet.sewing.mosaic.mosaic import Faces, Mosaic
from booklet.sewing.mosaic.trees import Tree

MOST = 9  # pieces
EFFORT = 20_000  # ways looked at
LEAST_EFFORT = 1_000  # enough for nearly every block of five pieces


class Every(Record):
    """The cheapest of all orders and routes, what it costs in inches of seam, and whether all were looked at."""

    tree: Tree | None
    cost: float
    proven: bool


def every_way(bench: UnitBench, region: Faces, most: float, share: float = 1.0) -> Every:
    """The cheapest order of a region with its routes, of those that cost no more than `most`: no tree where there is
    none, or where looking at all of them would take more than this share of the effort."""
    mosaic = bench.mosaic
    worth = turn_worth(bench.sewing)
    costs = bench.sewing.costs
    scale = worth if costs.machine == costs.hand == 1.0 else 0.0
    whole = mosaic.least_turns(region) * scale
    before = bench.sewer.effort
    units: dict[Faces, HandUnit] = {}
    for part in _parts(mosaic, region):
        if part.bit_count() == 1:
            units[part] = bench.patch(part.bit_length() - 1)
            continue
        spare = most - (whole - mosaic.least_turns(part) * scale) + NOISE
        ways = (bench.joined(units[a], units[b], spare) for a, b in _splits(part, units))
        units[part] = bench.best(part, ways)
        if bench.sewer.effort > before + max(LEAST_EFFORT, share * EFFORT):
            return Every(None, most, False)
    states = units[region].states
    proven = not bench.sewer.cut_short
    if not states:
        return Every(None, most, proven)
    return Every(tree_of(states[0].made), states[0].cost, proven)


def _parts(mosaic: Mosaic, region: Faces) -> Iterator[Faces]:
    """All parts of a region that hang together, small ones first."""
    found = []
    part = region
    while part:
        if mosaic.is_connected(part) and not is_hollow(mosaic, part):
            found.append(part)
        part = (part - 1) & region
    yield from sorted(found, key=lambda p: (p.bit_count(), p))


def _splits(part: Faces, units: dict[Faces, HandUnit]) -> Iterator[tuple[Faces, Faces]]:
    """The pairs of parts that make a part up."""
    first = part & -part
    rest = part ^ first
    other = rest
    while other:
        one = part ^ other
        if one in units and other in units and units[one].states and units[other].states:
            yield one, other
        other = (other - 1) & rest
