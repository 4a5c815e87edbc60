"""How long the planner takes (of the processor), how near it comes to the proven bound, and how much memory it needs.

PYTHONPATH=tests python tests/benchmarks/planner.py [MOST]      blocks of up to MOST pieces (default 300; the table goes to 1000)
PYTHONPATH=tests python tests/benchmarks/planner.py seeds [N]   20 random blocks of N pieces (default 300), each of squares and of triangles
"""

from __future__ import annotations

import math
import random
import resource
import sys
import time
from collections.abc import Iterator
from itertools import pairwise

from planner_mosaics import (
    alike_by_place,
    mosaic_from,
    square_cells,
    tidy,
    triangle_cells,
    united,
)

from booklet.sewing.mosaic.trees import sums
from booklet.sewing.planner.best_order import best_order

SIZES = (10, 20, 50, 100, 200, 300, 600, 1000)


def merged_quickly(cells, count: int, seed: int):
    """Cells joined at random in rounds until `count` polygons are left."""
    chance = random.Random(seed)
    parts = {k: list(cell) for k, cell in enumerate(cells)}
    for _ in range(400):
        if len(parts) <= count:
            break
        sides = {
            (p, q): k
            for k, there in parts.items()
            for p, q in zip(there, there[1:] + there[:1], strict=True)
        }
        twos = sorted(
            {
                (min(k, sides[q, p]), max(k, sides[q, p]))
                for (p, q), k in sides.items()
                if (q, p) in sides
            }
        )
        chance.shuffle(twos)
        used: set[int] = set()
        for i, j in twos:
            if len(parts) <= count or len(used) > len(parts) // 3:
                break
            whole = united(parts[i], parts[j]) if i != j and not {i, j} & used else None
            if whole:
                parts[i] = whole
                del parts[j]
                used |= {i, j}
    return [tidy(polygon) for polygon in parts.values()]


def grown_from_squares(n: int):
    return merged_quickly(square_cells(max(2, round(math.sqrt(2 * n)))), n, 1)


def grown_from_triangles(n: int):
    return merged_quickly(triangle_cells(max(2, round(math.sqrt(0.8 * n)))), n, 1)


def chequer(n: int):
    return square_cells(max(2, round(math.sqrt(n))))


def bricks(n: int):
    """Rows of bricks 4 x 2, every second row shifted by half a brick and ended by halves."""
    side = max(2, round(math.sqrt(n)))
    found = []
    for row in range(side):
        stops = (
            [0, *range(2, 4 * side, 4), 4 * side] if row % 2 else list(range(0, 4 * side + 1, 4))
        )
        for a, b in pairwise(stops):
            found.append([(a, 2 * row), (b, 2 * row), (b, 2 * row + 2), (a, 2 * row + 2)])
    return found


def rosette(n: int):
    """Elongated hexagons in rings round one, on whole coordinates: all inner points are three-way."""
    rings = max(1, round((-3 + math.sqrt(9 - 12 * (1 - n))) / 6))
    corners = [(-2, -1), (0, -2), (2, -1), (2, 1), (0, 2), (-2, 1)]
    found = []
    for a in range(-rings, rings + 1):
        for b in range(max(-rings, -a - rings), min(rings, -a + rings) + 1):
            x, y = 4 * b + 2 * a, 3 * a
            found.append([(x + u, y + v) for u, v in corners])
    return found


def wheels(n: int):
    """A square of wheels of five, side by side."""
    side = max(1, round(math.sqrt(n / 5)))
    five = [(1, 1, 2, 2), (0, 0, 2, 1), (2, 0, 3, 2), (1, 2, 3, 3), (0, 1, 1, 3)]
    return [
        [
            (3 * i + a, 3 * j + b),
            (3 * i + c, 3 * j + b),
            (3 * i + c, 3 * j + d),
            (3 * i + a, 3 * j + d),
        ]
        for i in range(side)
        for j in range(side)
        for a, b, c, d in five
    ]


KINDS = {
    "chequer": chequer,
    "bricks": bricks,
    "wheels": wheels,
    "rosette": rosette,
    "merged triangles": grown_from_triangles,
    "merged squares": grown_from_squares,
}


def rows(most: int) -> Iterator[str]:
    """A line for every kind and size."""
    for name, make in KINDS.items():
        before = 0.0
        for n in SIZES:
            if n > most:
                break
            polygons = make(n)
            mosaic, looks = mosaic_from(polygons), alike_by_place(polygons)
            start = time.process_time()
            order = best_order(mosaic, looks)
            took = time.process_time() - start
            ratio = f"x {took / before:5.1f}" if before > 0.005 else " " * 7
            before = took
            memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
            partial = f" + {len(order.partials)} partial" if order.partials else ""
            yield (
                f"{name:17}{len(polygons):5} pieces {took:7.2f} s {ratio}  cost {order.cost:5g} of at "
                f"least {order.bound:5g}, gap {order.gap:5.1%}  {sums(mosaic, order.tree).set_ins:3} set-ins"
                f"{partial}  {'; '.join(order.methods)}  peak {memory:.0f} MiB"
            )


def of_seeds(n: int) -> Iterator[str]:
    """A line for every random block of about n pieces, and one for the worst of them."""
    worst_gap, worst_time = 0.0, 0.0
    kinds = {
        "squares": square_cells(round(math.sqrt(2 * n))),
        "triangles": triangle_cells(round(math.sqrt(1.2 * n))),
    }
    for name, cells in kinds.items():
        for seed in range(20):
            polygons = merged_quickly(cells, n, seed)
            mosaic, looks = mosaic_from(polygons), alike_by_place(polygons)
            start = time.process_time()
            order = best_order(mosaic, looks)
            took = time.process_time() - start
            worst_gap, worst_time = max(worst_gap, order.gap), max(worst_time, took)
            yield (
                f"{name:10} seed {seed:2} {len(polygons):5} pieces {took:7.2f} s  cost {order.cost:5g} "
                f"of at least {order.bound:5g}, gap {order.gap:5.1%}"
            )
    memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    yield f"worst gap {worst_gap:.1%}, longest {worst_time:.2f} s, peak {memory:.0f} MiB"


def main() -> None:
    """Print the table."""
    if sys.argv[1:2] == ["seeds"]:
        for line in of_seeds(int(sys.argv[2]) if len(sys.argv) > 2 else 300):
            print(line, flush=True)
        return
    for line in rows(int(sys.argv[1]) if len(sys.argv) > 1 else 300):
        print(line, flush=True)


if __name__ == "__main__":
    main()
