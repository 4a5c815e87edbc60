"""How long pressing takes: `python -m tests.benchmarks.pressing`. Prints seconds of work (of the
processor, so that a busy machine does not count), seconds by the clock on the wall, limits and ratios.

A block is a grid of n x n squares sewn in rows; it has 2 n (n - 1) seams between matching points.
"""

from __future__ import annotations

import random
import time

from booklet.kit.measure import Extent
from booklet.kit.records import replace
from booklet.pattern import By, Quilt, SetKind, Setting
from booklet.pressing import press
from booklet.pressing.equations.model import Model, Term
from booklet.pressing.equations.solve import solve
from tests.builders import block_of, span
from tests.pressing_helpers import patch, sew, sewn_blocks, square
from tests.pressing_milp import by_milp

COLOURS = ("ink", "sand", "red", "white")


def grid_block(n: int, id: str = "b", seed: int = 1):
    """n x n squares in random colours, sewn in rows, then row by row."""
    pick = random.Random(seed)
    pieces = [square(f"r{r}c{c}", c, r, pick.choice(COLOURS)) for r in range(n) for c in range(n)]
    steps = [sew(f"row{r}", *[f"r{r}c{c}" for c in range(n)]) for r in range(n)]
    steps.append(sew(id, *[f"row{r}" for r in range(n)]))
    return block_of(pieces, id=id, steps=steps)


def triangle_block(n: int, id: str = "b"):
    """n x n squares of two triangles each, sewn by hand: all points want to fan, and cannot."""
    pieces = []
    for x in range(n):
        for y in range(n):
            a, b, c, d = (x, y), (x + 1, y), (x + 1, y + 1), (x, y + 1)
            halves = ([a, b, c], [a, c, d]) if (x + y) % 2 else ([a, b, d], [b, c, d])
            pieces += [patch(f"p{x}_{y}_{k}", half) for k, half in enumerate(halves)]
    return block_of(pieces, id=id, steps=None)


def quilt_of(*rows):
    """A straight set of blocks by id and turn."""
    arrange = tuple(tuple(Setting(block, turn, span()) for block, turn in row) for row in rows)
    return Quilt(set=SetKind.STRAIGHT, arrange=arrange, span=span())


def timed(what: str, limit: float | None, function, *args):
    start, clock = time.process_time(), time.perf_counter()
    result = function(*args)
    seconds, wall = time.process_time() - start, time.perf_counter() - clock
    told = f"   limit {limit} s" if limit else ""
    print(f"{what:58} {seconds:7.3f} s, wall {wall:7.3f} s{told}")
    return result, seconds


def random_model(n: int, pairs: int, seed: int) -> Model:
    """Near neighbours tied at random: not a forest, width about 10."""
    pick = random.Random(seed)
    prefer = tuple((pick.randrange(50), pick.randrange(50)) for _ in range(n))
    terms = []
    for _ in range(pairs):
        x = pick.randrange(n)
        y = min(n - 1, max(0, x + pick.choice((-7, -3, -1, 1, 3, 7))))
        if x != y:
            terms.append(Term(((x, pick.random() < 0.5), (y, pick.random() < 0.5)), 1000))
    return Model(prefer, tuple(terms))


def main() -> None:
    for n in (5, 8, 13, 18, 25, 36):
        assembled = sewn_blocks([grid_block(n)], unit="1 in")
        limit = 1.0 if n == 13 else None
        outcome, _ = timed(f"block of {2 * n * (n - 1)} seams", limit, press, assembled)
        assert not outcome.diagnostics
    for n in (4, 6, 8, 10, 12, 16):
        assembled = sewn_blocks([triangle_block(n)], by=By.HAND)
        seams = 3 * n * n - 2 * n
        outcome, _ = timed(
            f"triangles, {seams} seams, all tangled", 1.0 if n == 10 else None, press, assembled
        )
        fans = outcome.value.pressings["s", "b"].fans
        print(
            f"  {len(fans.unfanned)} points of {(n - 1) ** 2} unfanned, at least {fans.least} (proved)"
        )
    for side in (5, 10, 20):
        steps = (Extent(6, True), Extent(0, True)), (Extent(0, True), Extent(6, True))
        quilt = replace(quilt_of([("b", 0)]), set=SetKind.LATTICE, lattice=steps)
        assembled = sewn_blocks([grid_block(6)], unit="1 in", across=side, down=side, quilt=quilt)
        timed(f"lattice of {side * side} blocks, 60 seams each", None, press, assembled)
    blocks = [grid_block(6, f"b{k}", k) for k in range(4)]
    quilt = quilt_of(
        [("b0", 0), ("b1", 90), ("b2", 0), ("b3", 270)],
        [("b1", 180), ("b0", 0), ("b3", 0), ("b2", 90)],
    )
    assembled = sewn_blocks(blocks, unit="1 in", across=10, down=10, quilt=quilt)
    timed("quilt of 100 blocks, 60 seams each, 4 kinds", 5.0, press, assembled)
    blocks = [grid_block(6, f"b{k}", k) for k in range(100)]
    quilt = quilt_of(*[[(f"b{10 * r + c}", 0) for c in range(10)] for r in range(10)])
    assembled = sewn_blocks(blocks, unit="1 in", across=10, down=10, quilt=quilt)
    timed("quilt of 100 different blocks, 60 seams each", 5.0, press, assembled)
    for kinds in (1, 4, 100):  # all tangled, and what clashes at the rims has its ways out tried
        blocks = [triangle_block(5, f"b{k}") for k in range(kinds)]
        rows = [[(f"b{(10 * r + c) % kinds}", 0) for c in range(10)] for r in range(10)]
        assembled = sewn_blocks(
            blocks, by=By.HAND, unit="1 in", across=10, down=10, quilt=quilt_of(*rows)
        )
        what = f"quilt of 100 blocks, 65 seams each, tangled, {kinds} kinds"
        timed(what, 5.0, press, assembled)
    for n in (250, 500, 1000, 2000):
        model = random_model(n, n, n)
        ours, t = timed(f"random ties, {n} unknowns", None, solve, model)
        theirs, u = timed("  the same by HiGHS alone", None, by_milp, model)
        assert ours.cost == theirs.cost
        print(f"  ratio {t / u:.2f}")


if __name__ == "__main__":
    main()
