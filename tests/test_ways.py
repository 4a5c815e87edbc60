"""Order of joining and routes planned together: against trying all, against planning one after the other."""

from pathlib import Path

import pytest
from hypothesis import given, settings, strategies as st
from planner_mosaics import merged, square_cells, triangle_cells
from sampling import examples
from sewing_blocks import hand_sewing, polygon, rosette, tiling_of
from trying_routes import Costs, cheapest, longest_run

from booklet.kit.measure import Length
from booklet.kit.records import replace
from booklet.pattern import RouteCosts
from booklet.sewing.auto.finding import ways_known
from booklet.sewing.auto.rings import BuildKind

PATTERNS = Path(__file__).parent / "patterns"
NO_CARDS = RouteCosts(card=Length.of(0))  # that a step more is to be read is not the route's cost


def block(seed, count, cells, scale):
    """A random block of a few patches."""
    pieces = merged(cells, count, seed)
    return tiling_of(
        [
            polygon(f"p{k}", *((x * scale, y * scale) for x, y in corners))
            for k, corners in enumerate(pieces, 1)
        ]
    )


@settings(max_examples=examples(60), deadline=None)
@given(
    seed=st.integers(0, 10_000),
    count=st.integers(2, 5),
    cells=st.sampled_from([square_cells, triangle_cells]),
    scale=st.sampled_from(["1/2", "1"]),
    limit=st.sampled_from([18.0, 4.0]),
)
def test_small_blocks_are_planned_as_well_as_trying_everything_finds(
    seed, count, cells, scale, limit
):
    factor = 0.5 if scale == "1/2" else 1.0
    tiling = block(seed, count, cells(2 if cells is square_cells else 3), factor)
    sewing = replace(hand_sewing(), route_costs=NO_CARDS, thread=Length.of(int(limit)))
    if len(tiling.pieces) < 2 or longest_run(tiling) > limit:
        return
    known = ways_known(tiling, sewing, {}, lambda question, *read: question(*read), 1.0)
    assert known.best.cost == pytest.approx(cheapest(tiling, Costs(limit=limit)))


def test_rosettes_in_part_are_planned_as_well_as_trying_everything_finds():
    # the heart and some of its petals, 1 in sides; a way back of 1 in costs less than a thread of 1 1/2 in
    whole = rosette()
    bettered = 0
    for petals in ((0, 1), (0, 1, 2), (0, 2), (0, 1, 3), (0, 1, 2, 3)):
        tiling = tiling_of([whole[0], *(whole[1 + k] for k in petals)])
        sewing = replace(hand_sewing(), route_costs=NO_CARDS)
        known = ways_known(tiling, sewing, {}, lambda question, *read: question(*read), 1.0)
        assert known.best.cost == pytest.approx(cheapest(tiling, Costs()))
        assert known.proven
        bettered += known.best.kind is not BuildKind.FOUND
    assert bettered >= 2  # where the fewest turns alone would have taken more thread
