"""How the time to order a block grows with its pieces. Prints seconds and ratios; no test.

PYTHONPATH=tests python tests/benchmarks/sewing.py
"""

from __future__ import annotations

import math
import time

from builders import block_of, pattern_of, piece, sewing_of
from sewing_blocks import grid, guillotine, hand_sewing

from booklet.geometry import lay_out
from booklet.sewing import assemble_block


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


def main() -> None:
    """Print a table."""
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
