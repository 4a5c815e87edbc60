"""Cloth sold ready cut: as few pieces of stock as will hold everything, compared with brute force."""

from __future__ import annotations

import random
from functools import cache

import pytest
from cutting_helpers import box_item, inches, pattern_text, plan_of
from test_cutting_plan import shortest

from booklet.cutting.cloth.stocking import least_stock, stocked
from booklet.cutting.strips.shortest import best_plan

L = inches


def planned(items, width, along, settled=()):
    best = best_plan(tuple(items), width)
    return stocked(tuple(items), settled, width, along, best.plan, best.bound)


def checked(items, found, width, along, settled=()):
    """Every piece of stock holds what it is said to, and all that is wanted is there."""
    counts = [0] * len(items)
    seen: list[int] = []
    for numbers, plan in found.pieces:
        assert sum(settled[n] for n in numbers) + sum(f.height for f in plan) <= along
        seen += numbers
        for fill in plan:
            used = 0
            for share in fill.shares:
                variant = items[share.item].variants[share.variant]
                assert variant.height <= fill.height
                used += variant.lengths[share.count - 1]
                counts[share.item] += share.count
            assert used <= width
    assert sorted(seen) == list(range(len(settled)))
    assert counts == [item.demand for item in items]
    assert found.least <= len(found.pieces)


def fewest(sizes, width, along):
    """The fewest pieces of stock by trying every way to share the pieces out."""

    @cache
    def fits(some):
        return shortest(some, width) <= along

    best = len(sizes)

    def share(index, bins):
        nonlocal best
        if len(bins) >= best:
            return
        if index == len(sizes):
            best = len(bins)
            return
        for number in range(len(bins)):
            more = tuple(sorted((*bins[number], sizes[index])))
            if fits(more):
                share(index + 1, [*bins[:number], more, *bins[number + 1 :]])
        share(index + 1, [*bins, (sizes[index],)])

    share(0, [])
    return best


@pytest.mark.parametrize("number", range(60))
def test_few_pieces_by_brute_force(number):
    rng = random.Random(4000 + number)
    sizes = [(rng.randint(3, 10), rng.randint(3, 9)) for _ in range(rng.randint(2, 6))]
    items = [box_item(f"r{i}", w / 8, h / 8, 1, 12 / 8, True) for i, (w, h) in enumerate(sizes)]
    found = planned(items, 12, 11)
    checked(items, found, 12, 11)
    assert found.least <= fewest(tuple(sizes), 12, 11) == len(found.pieces)


@pytest.mark.parametrize("number", range(30))
def test_random_fat_quarters(number):
    rng = random.Random(5000 + number)
    items = [
        box_item(f"r{i}", rng.randint(8, 72) / 8, rng.randint(8, 72) / 8, rng.randint(1, 20), 21, True)
        for i in range(rng.randint(1, 6))
    ]  # fmt: skip
    settled = tuple(rng.choice((20, 28)) for _ in range(rng.randint(0, 4)))
    found = planned(items, 168, 144, settled)
    checked(items, found, 168, 144, settled)


def test_large_pieces_need_a_piece_of_stock_each():
    # 11 x 10 in of 21 x 18 in: two side by side take 22 in, two below each other 20
    items = (box_item("A", 11, 10, 5, 21),)
    assert least_stock(items, (), 168, 144, 0) == 5
    assert len(planned(items, 168, 144).pieces) == 5


def test_each_piece_of_stock_has_its_own_strips(tmp_path):
    # 5 in squares: 4 across 21 in, 3 strips in 18 in: 12 from a fat quarter; 30 take 3
    fat = '  ink: {name: Ink, colour: "#224466", kind: fat quarter}'
    piece = "      - {id: a, patch: p, fabric: ink, at: [3, 3]}"
    text = pattern_text(fat, "  p: {shape: square, side: 4 1/2}", piece, "30")
    (cloth,) = plan_of(tmp_path, text).fabrics
    assert (cloth.buy.count, cloth.least_stock) == (3, 3)
    assert cloth.stock == (L(21), L(18))
    assert [strip.stock for strip in cloth.strips] == [1, 2, 3]
    for strip in cloth.strips:
        top = (strip.stock - 1) * 18
        assert all(top <= y <= top + 18 for c in strip.layouts for p in c for _, y in p.outline)
    assert sum(use.pieces for strip in cloth.strips for use in strip.uses) == 30


def test_two_kinds_share_a_fat_quarter(tmp_path):
    # two 8 1/2 in squares and a 2 1/2 in square in one strip, 19 1/2 of 21 in; so twice: 17 of 18 in
    fat = '  ink: {name: Ink, colour: "#224466", kind: fat quarter}'
    pieces = (
        "      - {id: a, patch: p, fabric: ink, at: [4, 4]}\n"
        "      - {id: b, patch: s, fabric: ink, at: [9, 1]}"
    )
    shapes = "  p: {shape: square, side: 8}\n  s: {shape: square, side: 2}"
    (cloth,) = plan_of(tmp_path, pattern_text(fat, shapes, pieces, "2")).fabrics
    assert cloth.buy.count == 1
