"""How the time to order a block grows with its pieces. Prints seconds and ratios; no test.

PYTHONPATH=tests python tests/benchmarks/sewing.py
"""

from __future__ import annotations

import math
import time

from builders import block_of, pattern_of, piece, sewing_of
from sewing_blocks import grid, guillotine, hand_sewing

from booklet.geometry import lay_out
from booklet.sewing.auto.finding import planned
from booklet.sewing.order.ends import sew_ends
from booklet.sewing.order.joins import draft_steps
from booklet.sewing.routes.threads import hand_routes
from booklet.sewing.stage import assemble_block


def hexagons(side: int):
    """side x side hexagons, every inner point a Y."""
    return [
        piece(f"h{r}x{c}", "hexagon", side=1, at=(math.sqrt(3) * (c + r % 2 / 2), 1.5 * r))
        for r in range(side)
        for c in range(side)
    ]


def seconds(pieces, sewing) -> float:
    """The time to order a block, geometry not counted."""
    pattern = pattern_of(blocks=[block_of(pieces)])
    tiling = lay_out(pattern).value.tilings["s", "b"]
    start = time.perf_counter()
    assert not assemble_block(tiling, pattern.blocks[0], sewing).diagnostics
    return time.perf_counter() - start


def hand_threads(side: int) -> str:
    """The threads of side x side hexagons sewn by hand, beside the proven bound, and the seconds."""
    pattern = pattern_of(blocks=[block_of(hexagons(side))])
    tiling = lay_out(pattern).value.tilings["s", "b"]
    steps = planned(tiling, hand_sewing(), {})[1]
    drafts, _, _ = draft_steps(tiling, steps, hand_sewing(), pattern.blocks[0].sew_span)
    sewn = sew_ends(drafts, tiling, hand_sewing())
    start = time.perf_counter()
    routes = hand_routes(drafts, sewn, tiling, hand_sewing())
    took = time.perf_counter() - start
    return (
        f"{len(tiling.seams):5} seams {len(routes.threads):4} threads (at least {routes.fewest}, "
        f"{routes.parted} if runs are parted) {took:6.2f} s"
    )


def main() -> None:
    """Print a table."""
    for side in (5, 10, 15, 20):
        print(f"hand threads, {side * side:3} hexagons {hand_threads(side)}")
    kinds = [
        ("grid", lambda n: grid(round(math.sqrt(n)), round(math.sqrt(n))), sewing_of()),
        ("straight cuts", lambda n: guillotine(n, 1), sewing_of()),
        ("hexagons, by hand", lambda n: hexagons(round(math.sqrt(n))), hand_sewing()),
    ]
    for name, make, sewing in kinds:
        before = 0.0
        for count in (25, 100, 225, 400):
            took = seconds(make(count), sewing)
            ratio = f"x {took / before:4.1f}" if before else ""
            print(f"{name:18} {count:4} pieces {took:7.2f} s {ratio}")
            before = took


if __name__ == "__main__":
    main()
