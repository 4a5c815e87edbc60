"""Sittings: what to sew each time you sit down, with the sums beside the numbers."""

from pathlib import Path

import corpus
import pytest

from booklet.kit.measure import Length
from booklet.kit.records import replace
from booklet.kit.words import words_of
from booklet.pages.tables.methods import sitting_lines
from booklet.pages.texts.words import Words
from booklet.pattern import By, Pace
from booklet.plan import Portion, Sitting, in_ranges, methods, other_orders
from booklet.plan.workshop.sittings import sittings

EXAMPLE = Path(__file__).parent.parent / "example_pattern"
PATTERNS = Path(__file__).parent / "patterns"


def plan_of(folder: Path):
    return corpus.plan_of(folder)


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
    # throw: 120 units of step 1, each 2 √2 in of seam at 10 in a minute and a minute for either of its two
    # joins: 2.283 min, so 39 fit into 90 minutes (89.0); three sittings of 39, and 3 are left for the next
    throw = plan_of(EXAMPLE).sizes[1]
    first, second = throw.sittings[:2]
    assert [(p.count, p.chain, p.by) for p in first.portions] == [(39, True, By.MACHINE)]
    assert (first.first, first.last) == (1, 3)
    assert abs(first.minutes - 39 * (0.2 * 2**0.5 + 2)) < 1e-6
    assert second.portions[0].count == 120 - 3 * 39


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


@pytest.mark.parametrize("name", ["star_8", "hexagon_rosette_2", "wheel_of_five", "elongated_ring"])
def test_methods_are_those_of_the_seams(name):
    plan = plan_of(PATTERNS / name)
    rows = methods(plan.sizes)
    assert [(m.size, m.block) for m in rows] == [
        (s.size.title, b.block.title) for s in plan.sizes for b in s.blocks if b.cards
    ]
    for row, block in zip(rows, [b for s in plan.sizes for b in s.blocks if b.cards], strict=True):
        inches = dict.fromkeys(By, 0.0)
        for seam in block.tiling.seams:
            inches[block.assembly.sewn[seam.id].by] += seam.length
        assert (row.machine_in, row.hand_in) == pytest.approx((inches[By.MACHINE], inches[By.HAND]))
        assert row.threads == len(block.assembly.threads)
        # every card stands in one column
        assert sorted(row.machine + row.hand + row.both) == [card.n for card in block.cards]
    assert rows[-1].machine_in < rows[0].machine_in  # short seams are sewn by hand


def test_blocks_sewn_in_another_order_in_another_size_are_named():
    # the large wheel is sewn by machine with a partial seam, the small one by hand with a turn
    (title,) = {b.block.title for s in plan_of(PATTERNS / "wheel_of_five").sizes for b in s.blocks}
    assert other_orders(plan_of(PATTERNS / "wheel_of_five").sizes) == (title,)
    # the small star is sewn by hand on few threads, the large one by machine
    (star,) = {b.block.title for s in plan_of(PATTERNS / "star_8").sizes for b in s.blocks}
    assert other_orders(plan_of(PATTERNS / "star_8").sizes) == (star,)
    assert other_orders(plan_of(PATTERNS / "three_sizes").sizes) == ()


def portion(card: int, count: int, *, chain: bool = True, block: str = "Star") -> Portion:
    return Portion(
        block=block,
        cards=(card,),
        title=f"Sew {card}",
        by=By.MACHINE,
        chain=chain,
        count=count,
        minutes=2.0 * count,
    )


def told(portions) -> list[tuple[str, str]]:
    throw = plan_of(EXAMPLE).sizes[1]
    sitting = Sitting(1, 2, tuple(portions))
    lines = sitting_lines(replace(throw, sittings=(sitting,)), Words(words_of("en")))
    return [(str(line.what), str(line.count)) for line in lines]


def test_many_small_tasks_of_a_sitting_are_told_by_kind():
    # seven steps in a chain, then one that turns: 1 + 2 + 3 + 4 + 5 + 6 + 7 = 28 of the first kind
    many = [*(portion(n, n) for n in range(1, 8)), portion(8, 2, chain=False)]
    assert told(many) == [
        ("Chain steps 1–7, one after the other", "28"),
        ("Step 8 by machine: Sew 8", "2"),
    ]
    # few are told one by one
    assert told(many[5:]) == [
        ("Chain step 6: Sew 6", "6"),
        ("Chain step 7: Sew 7", "7"),
        ("Step 8 by machine: Sew 8", "2"),
    ]


def test_what_is_laid_on_is_counted_in_blocks_however_many_steps_are_told_together():
    """Seven shapes laid one on the other, the last on two of three blocks: it is not 20 blocks."""
    counts = [3] * 6 + [2]
    many = [
        replace(portion(n, count, chain=False), by=By.HAND, laid=True)
        for n, count in enumerate(counts, 1)
    ]
    assert told(many) == [
        ("Steps 1–6 by hand, block by block", "in 3 blocks"),
        ("Step 7 by hand, block by block", "in 2 blocks"),
    ]


def test_joins_of_a_sitting_are_told_together_where_they_are_many():
    joins = [replace(portion(n, 1, chain=False, block="Top"), joins=True) for n in range(1, 20)]
    assert told(joins) == [("Top: steps 1–19", "19 joins")]


def test_what_a_thread_goes_back_over_takes_time():
    """A rosette of 7 on one thread: 12 seams of 3/4 in, 9 in at 1 in a minute; the five petals that close a corner are each
    reached by going back over one seam, 3 3/4 in; six joins of a minute. 9 + 3 3/4 + 6 = 18 3/4 minutes."""
    (folder,) = (folder for folder in corpus.FOLDERS if folder.name == "rosette_petal_by_petal")
    (size,) = corpus.plan_of(folder).sizes
    ((portion,),) = (sitting.portions for sitting in size.sittings)
    assert portion.minutes == pytest.approx(18.75)
