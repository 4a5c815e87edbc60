"""Sittings: what to sew each time you sit down, with the sums beside the numbers."""

from dataclasses import replace
from pathlib import Path

from booklet import compiler
from booklet.measure import Length
from booklet.pattern import By, Pace
from booklet.plan import in_ranges, methods
from booklet.plan.sittings import sittings

EXAMPLE = Path(__file__).parent.parent / "example_pattern"


def plan_of(folder: Path):
    return compiler.plan(compiler.check(folder).value)


def test_every_step_of_the_quilt_falls_into_just_one_sitting():
    for size in plan_of(EXAMPLE).sizes:
        done = {}
        for sitting in size.sittings:
            times = sitting.last - sitting.first + 1
            for portion in sitting.portions:
                for card in portion.cards:
                    done[card] = done.get(card, 0) + times * portion.count
        (block,) = size.blocks
        for card in block.cards:  # by hand whole blocks are counted, by machine single steps
            assert done[card.n] in (card.total, block.count)
        assert [s.first for s in size.sittings[1:]] == [s.last + 1 for s in size.sittings[:-1]]


def test_a_chain_by_hand_sum():
    # throw: 120 units of step 1, each 2 √2 in of seam at 10 in a minute and a minute to handle:
    # 1.283 min, so 70 fit into 90 minutes (89.8) and 50 are left for the next sitting
    throw = plan_of(EXAMPLE).sizes[1]
    first, second = throw.sittings[:2]
    assert [(p.count, p.chain, p.by) for p in first.portions] == [(70, True, By.MACHINE)]
    assert abs(first.minutes - 70 * (0.2 * 2**0.5 + 1)) < 1e-6
    assert second.portions[0].count == 120 - 70


def test_twice_the_pace_takes_half_the_time():
    throw = plan_of(EXAMPLE).sizes[1]
    slow, fast = Pace(), Pace(Length.of(20), Length.of(2), handling=0.5)

    def total(pace):
        found = sittings(throw.blocks, pace)
        return sum(s.minutes * (s.last - s.first + 1) for s in found)

    assert abs(total(slow) - 2 * total(fast)) < 1e-6
    assert sittings(throw.blocks, replace(slow, sitting=1e6))[-1].last == 1


def test_methods_by_size():
    by_size = {m.size: m for m in methods(plan_of(EXAMPLE).sizes)}
    assert not by_size[
        "Hand-sewn cushion"
    ].machine  # its seams are all shorter than an inch or set in
    assert by_size["Throw"].machine and by_size["Throw"].hand


def test_numbers_in_ranges():
    assert in_ranges((1, 2, 3, 5)) == "1–3, 5"
