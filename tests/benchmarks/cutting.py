"""Cutting plans against bounds and against rectpack's strips, in one run. Run: python tests/benchmarks/cutting.py

Random jobs on 40 in cloth in steps of 1/8 in: 2 to 20 kinds of rectangles of 1 to 12 in, 50 to 800 pieces, six in
ten of prints that may be turned. Every plan is cut again. `rectpack` fills one strip after another: a strip is a
bin as high as the piece that begins it, the pieces laid low or laid high (the shorter result counts), no stacking.
"""

from __future__ import annotations

import random
import statistics
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from cutting_helpers import box_item, cut_again, first_fit_height, mixture_cost

from booklet.cutting.strips.shortest import best_plan

WIDTH = 320
SHOWN = [(8, 20, 1), (9, 100, 0), (9, 100, 1), (14, 100, 1), (19, 100, 0), (9, 500, 1), (14, 500, 0),
         (17, 500, 1), (16, 2000, 1), (20, 2000, 1), (20, 2000, 0)]  # fmt: skip


def job(rng, types, pieces, may_turn):
    """`types` kinds of rectangles of 1 to 12 in, about `pieces` in all."""
    shares = [rng.random() + 0.1 for _ in range(types)]
    items = []
    for number, share in enumerate(shares):
        demand = max(1, round(pieces * share / sum(shares)))
        size = rng.randint(8, 96) / 8, rng.randint(8, 96) / 8
        items.append(box_item(f"r{number}", *size, demand, 40, may_turn))
    return tuple(items)


def random_job(number):
    """One of the many: its print may be turned or not."""
    rng = random.Random(number)
    turn = rng.random() < 0.6
    return job(rng, rng.randint(2, 20), rng.choice([50, 100, 200, 400, 800]), turn), turn


def strips_of_rectpack(items, low):
    """The length of cloth when rectpack fills the strips."""
    import rectpack

    pieces = []
    for item in items:
        pick = min if low else max
        variant = pick(item.variants, key=lambda v: v.height)
        pieces += [(variant.height, variant.lengths[0])] * item.demand
    strips = []
    for height, length in sorted(pieces, reverse=True):
        for high, strip in strips:
            if strip.add_rect(length, high) is not None:
                break
        else:
            strip = rectpack.GuillotineBssfSas(WIDTH, height, rot=False)
            assert strip.add_rect(length, height) is not None
            strips.append((height, strip))
    return sum(height for height, _ in strips)


def measured(items):
    """The best plan, cut again and checked against its bounds, the seconds it took, and beside it the linear programme
    and first fit."""
    began = time.process_time()
    best = best_plan(items, WIDTH)
    took = time.process_time() - began
    cut_again(items, best, WIDTH)
    relaxed, first = mixture_cost(items, WIDTH), first_fit_height(items, WIDTH)
    assert relaxed <= best.bound + 1e-5
    assert best.bound <= best.height <= first
    return best, took, relaxed, first


FAR = 4.0  # percent


def gap(best, to):
    """How much longer than a bound the plan is, in percent."""
    return 100 * (best.height / to - 1)


def spread(name, values):
    """A line: median, 95th percentile, greatest."""
    ordered = sorted(values)
    late = ordered[min(len(ordered) - 1, int(0.95 * len(ordered)))]
    print(
        f"{name:44} median {statistics.median(ordered):6.2f}  95th {late:6.2f}  greatest {ordered[-1]:6.2f}"
    )


def main(jobs=300):
    """Print a table of single jobs, then the spread over many."""
    print(
        "types pieces turn |     LP  bound   plan  first-fit rectpack | to LP % to bound % seconds"
    )
    for types, pieces, turn in SHOWN:
        items = job(random.Random(types * pieces), types, pieces, bool(turn))
        best, took, relaxed, first = measured(items)
        other = min(strips_of_rectpack(items, low) for low in (True, False))
        print(
            f"{types:5} {pieces:6} {turn:4} | {relaxed / 8:6.1f}"
            f" {best.bound / 8:6.1f} {best.height / 8:6.1f} {first / 8:10.1f} {other / 8:8.1f}"
            f" | {gap(best, relaxed):7.2f} {gap(best, best.bound):10.2f} {took:7.2f}",
            flush=True,
        )
    to_lp, to_bound, firsts, others, times, shorter = [], [], [], [], [], 0
    bound_to_lp, closer = [], []
    for number in range(jobs):
        items, _ = random_job(number)
        best, took, relaxed, first = measured(items)
        other = min(strips_of_rectpack(items, low) for low in (True, False))
        shorter += other < best.height
        times.append(took)
        to_lp.append(gap(best, relaxed))
        to_bound.append(gap(best, best.bound))
        bound_to_lp.append(100 * (best.bound / relaxed - 1))
        if bound_to_lp[-1] <= FAR:
            closer.append(to_lp[-1])
        firsts.append(100 * (first / best.bound - 1))
        others.append(100 * (other / best.bound - 1))
    print(f"{jobs} random jobs, each cut again; percent above the proven bound unless said")
    spread("plan", to_bound)
    spread("plan, above the linear programme", to_lp)
    spread("proven bound, above the linear programme", bound_to_lp)
    far = sum(value > FAR for value in bound_to_lp)
    print(
        f"no plan within {FAR} % of the linear programme: proven for {far} of {jobs} jobs; the other jobs:"
    )
    spread("plan, above the linear programme", closer)
    spread("first fit", firsts)
    spread("rectpack's strips", others)
    spread("seconds of processor time", times)
    print(f"proven shortest: {sum(g == 0 for g in to_bound)}; rectpack shorter: {shorter}")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 300)
