"""The ways of a cloth against planning every one of them, in one run. Run: python tests/benchmarks/ways.py [FOLDER …]

For each size of some patterns and of quilts whose back, border, binding, sashes and sleeve are all of one cloth: how many ways
there are, how many are planned at all, and the processor time of all that is cut, as it is, with every way planned
to its end, and in the plain way alone (which may buy more). Every answer is held to that of all ways.
"""

from __future__ import annotations

import random
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from tempfile import TemporaryDirectory

from cutting_helpers import cut_text
from test_cutting_every_way import TEXT

from booklet.cutting import stage, ways
from booklet.cutting.cloth.one_cloth import plan_cloth
from booklet.kit.records import replace
from booklet.recipe import compiler

HERE = Path(__file__).resolve().parents[1]
NAMED = ("market_day", "irish_chain", "borders_of_two_widths", "wide_backs")
ROUNDS = 2
QUILTS = 6


def quilt(number):
    """A quilt of which nearly all is of one cloth."""
    rng = random.Random(number)
    return TEXT.format(
        units="inch", unit=rng.choice(["1 in", "2 in"]), blocks=f"{rng.randint(3, 12)} x {rng.randint(3, 14)}",
        kits=rng.choice([1, 1, 4]), width=rng.choice(["42 in", "60 in", "108 in"]), direction="any", sail="w", sashes="w",
        sash="2 in", border=rng.choice(["3 in", "6 in"]), corners="mitred", extra="4 in", binding="w", strip="2 1/2 in", sleeve="w",
    )  # fmt: skip


def every_way(tries, ruler, ask):
    """Each way planned to its end."""
    found = [ways.Worked(t, ask(plan_cloth, t.job, ruler.units, ruler.planned)) for t in tries]
    best = min(found, key=lambda worked: worked.cost)
    bound = min(worked.plan.lower_bound for worked in found)
    return replace(best, plan=replace(best.plan, lower_bound=bound))


def plain_way(tries, ruler, ask):
    """The first alone."""
    return every_way([next(iter(tries))], ruler, ask)


class Counted:
    """The ways there are, and those that are planned."""

    def __init__(self):
        self.ways = self.planned = 0

    def best_of(self, tries, ruler, ask):
        tries = list(tries)
        self.ways += len(tries)

        def asked(question, *read):
            self.planned += 1
            return ask(question, *read)

        return ways.best_of(tries, ruler, asked)


def timed(work, best_of):
    """Seconds of the processor in cutting, the least of some rounds, and what came of it."""
    took, cut_cloths = [], stage.cut_cloths

    def clocked(*read):
        began = time.process_time()
        try:
            return cut_cloths(*read)
        finally:
            took[-1] += time.process_time() - began

    stage.best_of, stage.cut_cloths = best_of, clocked
    try:
        for _ in range(ROUNDS):
            took.append(0.0)
            cuts = work().value.cuts
    finally:
        stage.best_of, stage.cut_cloths = ways.best_of, cut_cloths
    return min(took), cuts


def measured(name, work):
    """A line of the table."""
    count = Counted()
    timed(work, count.best_of)
    every, wanted = timed(work, every_way)
    now, cuts = timed(work, ways.best_of)
    plain, _ = timed(work, plain_way)
    assert cuts == wanted, f"{name}: not what every way gives"
    print(
        f"{name:24} {count.ways // ROUNDS:5} {count.planned // ROUNDS:8} {now:8.3f} {every:8.3f} {plain:8.3f} {now / every:9.2f} {now / plain:9.2f}"
    )
    return now, every, plain


def main(folders):
    print(
        f"{'':24} {'ways':>5} {'planned':>8} {'now s':>8} {'every':>8} {'plain':>8} {'of every':>9} {'of plain':>9}"
    )
    sums = []
    for folder in folders:
        sums.append(measured(folder.name, lambda folder=folder: compiler.check(folder)))
    with TemporaryDirectory() as place:
        for number in range(QUILTS if not sys.argv[1:] else 0):
            sums.append(measured(f"quilt {number}", lambda: cut_text(Path(place), quilt(number))))  # noqa: B023
    now, every, plain = (sum(column) for column in zip(*sums, strict=True))
    print(f"in all: {now / every:.2f} of every way, {now / plain:.2f} of the plain way alone")


if __name__ == "__main__":
    given = [Path(folder) for folder in sys.argv[1:]]
    main(given or [HERE / "patterns" / name for name in NAMED])
