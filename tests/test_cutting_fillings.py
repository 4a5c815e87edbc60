"""The fillings of a strip that may matter, and the plan in whole strips: sums by hand, and every filling by brute force."""

from __future__ import annotations

import random
from itertools import product

import pytest
from cutting_helpers import box_item

from booklet.cutting.strips import fillings, mixing, whole_strips
from booklet.cutting.strips.fillings import near_fillings
from booklet.cutting.strips.items import ItemShare, Remnant, StripFill, fill_of
from booklet.cutting.strips.mixing import Mixture, mixed
from booklet.cutting.strips.whole_strips import ShortestPlan, in_whole_strips


def item(name, width, height, demand, cloth):
    """A rectangle in steps that may not be turned."""
    return box_item(name, width, height, demand, cloth, step=1)


# cloth 10 wide: A 3 wide and B 4 wide, both 2 high; a strip costs 2 steps. By their prices, 0.6 and 0.8,
# 2 A and B (10 wide) are worth 2.0, 3 A (9 wide) 1.8, 2 B (8 wide) 1.6, and A and two B (11) do not fit
A_B = (item("A", 3, 2, 5, 10), item("B", 4, 2, 5, 10))
PRICES = Mixture(cost=4.0, prices=(0.6, 0.8), rents=(), fills=())
TWO_A_ONE_B = StripFill(2, (ItemShare(0, 0, 2), ItemShare(1, 0, 1)))
THREE_A, TWO_B = StripFill(2, (ItemShare(0, 0, 3),)), StripFill(2, (ItemShare(1, 0, 2),))


def near(slack, items=A_B):
    found, within = near_fillings(items, 10, (), PRICES, slack)
    return set(found), within


def test_a_filling_that_costs_just_as_much_more_as_may_be_is_among_them():
    assert near(0.1) == ({TWO_A_ONE_B}, 0.1)
    assert near(0.2) == ({TWO_A_ONE_B, THREE_A}, 0.2)  # 2 - 1.8
    assert near(0.4) == ({TWO_A_ONE_B, THREE_A, TWO_B}, 0.4)  # 2 - 1.6


def test_no_more_pieces_are_in_a_strip_than_are_wanted():
    few = (item("A", 3, 2, 1, 10), A_B[1])
    # one A alone: A and B (7 wide) are worth 1.4, 2 B 1.6
    assert near(0.4, few) == ({TWO_B}, 0.4)
    assert near(0.6, few)[0] == {TWO_B, StripFill(2, (ItemShare(0, 0, 1), ItemShare(1, 0, 1)))}


def test_where_fillings_are_too_many_those_that_cost_less_are_taken_whole(monkeypatch):
    monkeypatch.setattr(fillings, "KEPT", 1)
    # the search stops when it goes on with more than KEPT: 0.4 lets three in, 0.4 x 0.6 = 0.24 one and the last
    assert near(0.4) == ({TWO_A_ONE_B, THREE_A}, 0.4 * 0.6)


def test_a_search_that_gives_up_proves_nothing(monkeypatch):
    monkeypatch.setattr(fillings, "VISITS", 0)
    assert near(0.4) == (set(), 0.0)


@pytest.mark.parametrize("number", range(40))
def test_every_filling_within_the_slack_is_in_one_of_those_found(number):
    rng = random.Random(number)
    width, end = 12, Remnant(7, 5)
    sizes = [(rng.randint(2, 8), rng.randint(1, 6)) for _ in range(3)]
    items = tuple(item(f"i{k}", w, h, rng.randint(1, 4), width) for k, (w, h) in enumerate(sizes))
    # about their area, so that full strips are nearly worth their height
    prices = tuple(rng.uniform(0.7, 1.0) * w * h / width for w, h in sizes)
    mixture = Mixture(cost=0.0, prices=prices, rents=(0.5,), fills=())
    slack = rng.uniform(0.2, 2.0)
    found, within = near_fillings(items, width, (end,), mixture, slack)
    assert within == slack
    for fill in found:
        room = end.width if fill.cloth else width
        assert sum(sizes[s.item][0] * s.count for s in fill.shares) <= room
        assert fill.height == max(sizes[s.item][1] for s in fill.shares)
        assert all(s.count <= items[s.item].demand for s in fill.shares)
        assert mixture.beyond(fill) <= slack + 1e-5
    for cloth, room, high in ((0, width, 99), (1, end.width, end.height)):
        for counts in product(*(range(each.demand + 1) for each in items)):
            wide = sum(size[0] * n for size, n in zip(sizes, counts, strict=True))
            tall = max((size[1] for size, n in zip(sizes, counts, strict=True) if n), default=99)
            if not any(counts) or wide > room or tall > high:
                continue
            shares = [ItemShare(k, 0, n) for k, n in enumerate(counts) if n]
            if mixture.beyond(fill_of(items, shares, cloth)) <= slack:
                assert any(holds(other, counts, cloth, tall) for other in found), counts


def holds(fill, counts, cloth, tall):
    """Whether a filling of the same cloth and height has as many of each item, or more."""
    has = {share.item: share.count for share in fill.shares}
    more = all(has.get(k, 0) >= n for k, n in enumerate(counts))
    return (fill.cloth, fill.height) == (cloth, tall) and more


def test_a_plan_that_makes_just_what_is_wanted_in_just_the_steps_allowed():
    # 4 A and 2 B: two strips of 2 A and B, 2 + 2 = 4 steps; their area 4 x 6 + 2 x 8 = 40 is all of 4 x 10
    wanted = (item("A", 3, 2, 4, 10), item("B", 4, 2, 2, 10))
    made = in_whole_strips(wanted, 10, (), PRICES, 4)
    assert made == ShortestPlan((TWO_A_ONE_B, TWO_A_ONE_B), 4)


def test_where_no_plan_is_so_short_the_bound_says_so():
    wanted = (item("A", 3, 2, 4, 10), item("B", 4, 2, 2, 10))
    found = Mixture(cost=4.0, prices=PRICES.prices, rents=(), fills=(TWO_A_ONE_B,))
    assert in_whole_strips(wanted, 10, (), found, 3) == ShortestPlan(None, 4)


def test_more_steps_than_needed_prove_no_less():
    # the same strips where 6 steps may be taken: 4 are the fewest still
    wanted = (item("A", 3, 2, 4, 10), item("B", 4, 2, 2, 10))
    made = in_whole_strips(wanted, 10, (), PRICES, 6)
    assert made == ShortestPlan((TWO_A_ONE_B, TWO_A_ONE_B), 4)


def test_no_part_of_a_strip_is_cut():
    # 4 A and 3 B: 4 x 3 + 3 x 4 = 24 of a strip 10 wide, 2.4 strips in parts, so three: 2 A + B twice, and one B
    made = in_whole_strips((item("A", 3, 2, 4, 10), item("B", 4, 2, 3, 10)), 10, (), PRICES, 6)
    assert (sum(fill.height for fill in made.plan), made.bound) == (6, 6)
    assert counts(made.plan) == {0: 4, 1: 3}


def counts(plan):
    """How many of each item a plan makes."""
    made = {}
    for share in (share for fill in plan for share in fill.shares):
        made[share.item] = made.get(share.item, 0) + share.count
    return made


def test_what_a_remnant_holds_takes_no_cloth_and_no_more_lies_there_than_has_room():
    # the second of the two strips fills the remnant: 2 steps of cloth, 4 x 0.6 + 2 x 0.8 less the rent 2 x 1.0
    wanted = (item("A", 3, 2, 4, 10), item("B", 4, 2, 2, 10))
    found = Mixture(cost=2.0, prices=PRICES.prices, rents=(1.0,), fills=())
    made = in_whole_strips(wanted, 10, (Remnant(10, 2),), found, 2)
    there = StripFill(2, TWO_A_ONE_B.shares, 1)
    assert set(made.plan) == {TWO_A_ONE_B, there} and len(made.plan) == 2
    assert made.bound == 2


def test_a_mixture_pays_nothing_for_strips_of_a_remnant():
    # 4 A and 2 B take two strips of 2 A and B: one in the remnant, which is there, and 2 steps of cloth
    wanted = (item("A", 3, 2, 4, 10), item("B", 4, 2, 2, 10))
    assert mixed(wanted, 10, (), (TWO_A_ONE_B,)).cost == pytest.approx(4)
    assert mixed(wanted, 10, (Remnant(10, 2),), (TWO_A_ONE_B,)).cost == pytest.approx(2)


def test_a_mixture_that_is_not_at_an_end_proves_no_length(monkeypatch):
    monkeypatch.setattr(mixing, "ROUNDS", 0)
    found = mixed(A_B, 10, (Remnant(10, 2),), (TWO_A_ONE_B,))
    assert (found.cost, found.prices, found.rents) == (0, (0, 0), (0,))
    assert TWO_A_ONE_B in found.fills


def test_what_is_left_of_remnants_holds_what_is_worth_most_first():
    # B is 2 high and worth more than E, 3 high. Of a remnant 7 long a strip has taken 2: two B lie in the other 5, the 1 left is
    # too little for E. The second, 3 long, holds one B (or E, worth less)
    worth = Mixture(cost=9.0, prices=(0.2, 0.1), rents=(0.0, 0.0), fills=())
    b, e = (
        [StripFill(high, (ItemShare(k, 0, 1),), cloth) for cloth in range(3)]
        for k, high in ((0, 2), (1, 3))
    )
    ends = (Remnant(4, 7), Remnant(4, 3))
    left = whole_strips._left_in_remnants(ends, [*e, *b], [b[0], b[1]], worth)
    assert left == [b[1], b[1], b[2]]
    assert whole_strips._left_in_remnants(ends[:1], [*e, *b], [e[0]], worth) == 3 * [b[1]]


def test_a_search_that_ends_too_soon_proves_no_length(monkeypatch):
    def ends(*asked, gap=None):
        return solved(*asked) if gap is None else None

    solved = whole_strips.minimise
    monkeypatch.setattr(whole_strips, "minimise", ends)
    assert in_whole_strips(A_B, 10, (), PRICES, 8) == ShortestPlan(None, 0)
