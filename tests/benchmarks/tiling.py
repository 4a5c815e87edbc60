"""How long lay_out takes on blocks of many pieces, beside shapely's own check of the same coverage.

Run: python tests/benchmarks/tiling.py [PIECES]. `coverage_is_valid` is not a whole check (it lets holes
pass), so it stands for the least that any check must do. Garbage is collected as in the program; of five runs of both checks
the shortest are told.
"""

from __future__ import annotations

import gc
import math
import sys
import time
from collections.abc import Callable
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

import shapely  # a benchmark may look behind the door
from builders import Piece, pattern_of, piece, shape

from booklet.geometry import lay_out
from booklet.geometry.placing.placing import place_pieces
from booklet.geometry.soundness.subdivision import subdivide


def bricks(rows: int) -> list[Piece]:
    """Rows of 2 x 1 bricks, every other one moved by half a brick: T-junctions everywhere."""
    brick = shape("rectangle", width=2, height=1)
    return [
        piece(f"r{r}c{c}", brick, at=(2 * c + 1 + r % 2, r + 0.5))
        for r in range(rows)
        for c in range(rows)
    ]


def triangles(rows: int) -> list[Piece]:
    """Squares cut into half-square triangles."""
    half = shape("half-square triangle", side=1)
    return [
        piece(f"r{r}c{c}{turn}", half, at=(c + 0.5, r + 0.5), turn=turn)
        for r in range(rows)
        for c in range(rows)
        for turn in (0, 180)
    ]


def hexagons(rows: int) -> list[Piece]:
    """Hexagons, every corner of which is worked out three times, each time with other last digits."""
    hexagon = shape("hexagon", side=1)
    return [
        piece(f"r{r}c{c}", hexagon, at=(math.sqrt(3) * (c + r % 2 / 2), 1.5 * r))
        for r in range(rows)
        for c in range(rows)
    ]


def shortest(asked: Callable[[], bool]) -> tuple[float, bool]:
    """The seconds of the shortest of five runs, and the answer."""
    times = []
    for _ in range(5):
        begin = time.perf_counter()
        answer = asked()
        times.append(time.perf_counter() - begin)
    return min(times), answer


def run(name: str, pieces: list[Piece]) -> None:
    """Print the times of one block."""
    pattern = pattern_of(pieces=pieces)
    begin = time.perf_counter()
    outcome = lay_out(pattern)
    whole = time.perf_counter() - begin
    assert not outcome.diagnostics, outcome.diagnostics[:2]
    laid, _ = place_pieces(pattern.blocks[0], pattern.sizes[0].unit, "inch")
    check, sound = shortest(lambda: subdivide([p.outline for p in laid]).is_sound())
    polygons = [shapely.Polygon(p.outline.points) for p in laid]
    theirs, valid = shortest(lambda: bool(shapely.coverage_is_valid(polygons)))
    print(
        f"{name:10} {len(pieces):6} pieces  lay_out {whole:6.2f} s  check {check:6.2f} s ({sound})  "
        f"coverage_is_valid {theirs:6.2f} s ({valid})  check / coverage {check / theirs:5.1f}"
    )


if __name__ == "__main__":
    gc.set_threshold(200_000, 20, 100)
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 10_000
    for n in (count // 100, count // 10, count):
        run("hexagons", hexagons(round(math.sqrt(n))))
        run("bricks", bricks(round(math.sqrt(n))))
        run("triangles", triangles(round(math.sqrt(n / 2))))
