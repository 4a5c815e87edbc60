"""Cutting plans against bounds and against rectpack's strips, in one run. Run: python tests/benchmarks/cutting.py

Random jobs on 40 in cloth in steps of 1/8 in. `shelf` is the best of rectpack's guillotine and shelf-like
packers with the same pieces on one long cloth, its result being the length used.
"""

from __future__ import annotations

import random
import statistics
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from cutting_helpers import box_item

from booklet.cutting.columns import best_plan

WIDTH = 320


def job(rng, types, pieces, may_turn):
    """`types` kinds of rectangles of 1 to 12 in, about `pieces` in all."""
    shares = [rng.random() + 0.1 for _ in range(types)]
    items = []
    for number, share in enumerate(shares):
        demand = max(1, round(pieces * share / sum(shares)))
        size = rng.randint(8, 96) / 8, rng.randint(8, 96) / 8
        items.append(box_item(f"r{number}", *size, demand, 40, may_turn))
    return tuple(items)


def by_rectpack(items, may_turn):
    """The least length that rectpack's guillotine packers use."""
    import rectpack
    from rectpack import guillotine

    best = None
    for algorithm in (guillotine.GuillotineBssfSas, guillotine.GuillotineBafSlas):
        packer = rectpack.newPacker(pack_algo=algorithm, rotation=may_turn)
        long = sum(max(v.height for v in i.variants) * i.demand for i in items)
        packer.add_bin(WIDTH, long)
        for item in items:
            variant = item.variants[0]
            for _ in range(item.demand):
                packer.add_rect(variant.lengths[0], variant.height)
        packer.pack()
        used = max((r.y + r.height for b in packer for r in b), default=0)
        best = used if best is None else min(best, used)
    return best


def main(jobs=100):
    """Print a table of single jobs, then the spread over many."""
    print("types pieces turn |   area     LP  bound   plan  first-fit rectpack |  gap %  seconds")
    rng = random.Random(1)
    shown = [(8, 20, 1), (9, 100, 0), (9, 100, 1), (14, 100, 1), (19, 100, 0), (9, 500, 1),
             (14, 500, 0), (17, 500, 1), (16, 2000, 1), (20, 2000, 1), (20, 2000, 0)]  # fmt: skip
    for types, pieces, turn in shown:
        items = job(rng, types, pieces, bool(turn))
        began = time.perf_counter()
        best = best_plan(items, WIDTH)
        took = time.perf_counter() - began
        other = by_rectpack(items, bool(turn)) if pieces <= 500 else 0
        gap = 100 * (best.height / best.relaxed - 1)
        print(
            f"{types:5} {pieces:6} {turn:4} | {best.area / 8:6.1f} {best.relaxed / 8:6.1f}"
            f" {best.bound / 8:6.1f} {best.height / 8:6.1f} {best.first_fit / 8:10.1f} {other / 8:8.1f}"
            f" | {gap:6.2f} {took:8.2f}",
            flush=True,
        )
    gaps, firsts, times = [], [], []
    for number in range(jobs):
        rng = random.Random(number)
        turn = rng.random() < 0.6
        items = job(rng, rng.randint(2, 20), rng.choice([50, 100, 200, 400, 800]), turn)
        began = time.perf_counter()
        best = best_plan(items, WIDTH)
        times.append(time.perf_counter() - began)
        gaps.append(100 * (best.height / best.relaxed - 1))
        firsts.append(100 * (best.first_fit / best.relaxed - 1))
    gaps.sort(), firsts.sort(), times.sort()
    print(f"{jobs} random jobs: gap to LP median {statistics.median(gaps):.2f} %,"
          f" 95th percentile {gaps[int(0.95 * jobs)]:.2f} %; first fit {statistics.median(firsts):.2f} %,"
          f" {firsts[int(0.95 * jobs)]:.2f} %")  # fmt: skip
    print(f"seconds: median {statistics.median(times):.2f}, greatest {times[-1]:.2f}")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 100)
