"""Plans: every random one is cut again with scissors of its own, and compared with brute force."""

from __future__ import annotations

import random
from functools import cache

import pytest
from builders import METHODS
from cutting_helpers import a_fabric, box_item, cut_again, first_fit_height, mixture_cost

from booklet.crafts.rotary.nesting import row_of
from booklet.cutting.cloth.jobs import Job, Owner
from booklet.cutting.cloth.one_cloth import plan_cloth
from booklet.cutting.strips.first_fit import first_fit
from booklet.cutting.strips.items import Item, made, total_height, variant_of
from booklet.cutting.strips.shortest import best_plan
from booklet.kit.measure import EIGHTH, Length

from shapely import Polygon  # isort: skip


def random_job(rng: random.Random, types: int, pieces: int, may_turn: bool) -> tuple[Item, ...]:
    """Rectangles of 1 to 12 in, in eighths; some trapezoids that nest."""
    items = []
    for number in range(types):
        width, height = rng.randint(8, 96) / 8, rng.randint(8, 96) / 8
        demand = rng.randint(1, max(1, 2 * pieces // types))
        if rng.random() < 0.2 and width > 2 and height > 1:
            cut = min(width, height) / 3
            shape = ((cut, 0), (width - cut, 0), (width, height), (0, height))
            variant = variant_of(row_of(shape, may_turn), 0.125, 320, demand)
            items.append(Item(f"t{number}", demand, (variant,), (width - cut) * height * 64))
        else:
            items.append(box_item(f"r{number}", width, height, demand, 40, may_turn))
    return tuple(items)


def checked(items, best, width):
    """The chain of bounds, the demand, and every strip no longer than the cloth is wide."""
    area = sum(item.area * item.demand for item in items) / width
    assert area <= best.bound + 1e-5
    assert best.bound <= best.height <= first_fit_height(items, width)
    assert made(items, best.plan) == [item.demand for item in items]
    for fill in best.plan:
        used = 0
        for share in fill.shares:
            variant = items[share.item].variants[share.variant]
            assert variant.height <= fill.height
            used += variant.lengths[share.count - 1]
        assert used <= width


@pytest.mark.parametrize("number", range(30))
def test_random_jobs(number):
    rng = random.Random(number)
    items = random_job(rng, rng.randint(1, 8), rng.randint(3, 80), rng.random() < 0.6)
    checked(items, best_plan(items, 320), 320)


@pytest.mark.parametrize("number", range(15))
def test_random_jobs_cut_again(number):
    """Re-cut from the drawing alone: inside the cloth, no overlap, all pieces there, no print turned."""
    rng = random.Random(1000 + number)
    one_way = rng.random() < 0.5
    job = Job(fabric=a_fabric())
    for item in random_job(rng, rng.randint(1, 5), rng.randint(3, 40), not one_way):
        job.items.append(item)
        job.owners.append(Owner(item.name, METHODS["square"], ((),) * item.demand))
    plan = plan_cloth(job, "inch", EIGHTH)
    recut(plan, 40.0)
    counts: dict[str, int] = {}
    for strip in plan.strips:
        for use in strip.uses:
            counts[use.name] = counts.get(use.name, 0) + use.pieces
    assert counts == {item.name: item.demand for item in job.items}
    if one_way:
        upright = {item.name: item.variants[0].row.shapes[0] for item in job.items}
        for strip in plan.strips:
            for layout in strip.layouts:
                for placed in layout:
                    left = min(x for x, _ in placed.outline)
                    top = min(y for _, y in placed.outline)
                    at_origin = [(x - left, y - top) for x, y in placed.outline]
                    assert at_origin == [pytest.approx(p) for p in upright[placed.name]]


def recut(plan, width):
    """Every piece lies in its strip and in the cloth; no two overlap; strips lie one below the other."""
    end = 0.0
    for strip in plan.strips:
        for start, layout in zip(strip.starts, strip.layouts, strict=True):
            assert start == pytest.approx(end)
            end = start + float(strip.width)
            shapes = [Polygon(placed.outline) for placed in layout]
            for shape in shapes:
                left, top, right, bottom = shape.bounds
                assert left >= -1e-6 and right <= width + 1e-6
                assert top >= start - 1e-6 and bottom <= end + 1e-6
            for i, one in enumerate(shapes):
                for other in shapes[i + 1 :]:
                    assert one.intersection(other).area < 1e-6
    assert end + 0.5 == pytest.approx(float(plan.length))  # 1/2 in for straightening


def shortest(sizes, width):
    """The least total height by trying everything: strips filled one after another."""

    @cache
    def rest(left):
        if not left:
            return 0
        best = None
        first = left[0]
        others = left[1:]
        for lying in {first, first[::-1]}:
            for mask in range(1 << len(others)):
                chosen = [others[i] for i in range(len(others)) if mask >> i & 1]
                for height in ways(chosen, lying, width):
                    remaining = tuple(others[i] for i in range(len(others)) if not mask >> i & 1)
                    total = height + rest(remaining)
                    best = total if best is None else min(best, total)
        return best

    return rest(tuple(sorted(sizes, reverse=True)))


def ways(chosen, first, width):
    """The heights of a strip that holds `first` as it lies and the chosen, each lying or standing."""
    found = set()

    def lay(index, used, height):
        if used > width:
            return
        if index == len(chosen):
            found.add(height)
            return
        for w, h in {chosen[index], chosen[index][::-1]}:
            lay(index + 1, used + w, max(height, h))

    if first[0] <= width:
        lay(0, first[0], first[1])
    return found


@pytest.mark.parametrize("number", range(40))
def test_small_jobs_by_brute_force(number):
    rng = random.Random(2000 + number)
    sizes = [(rng.randint(2, 10), rng.randint(2, 10)) for _ in range(rng.randint(1, 3))]
    demands = [rng.randint(1, 2) for _ in sizes]
    items = tuple(
        box_item(f"r{i}", w / 8, h / 8, d, 12 / 8, True)
        for i, ((w, h), d) in enumerate(zip(sizes, demands, strict=True))
    )
    everything = [size for size, d in zip(sizes, demands, strict=True) for _ in range(d)]
    best = best_plan(items, 12)
    checked(items, best, 12)
    assert best.height == shortest(everything, 12)


def test_whole_counts_of_strips_prove_what_the_mixture_cannot():
    # 40 in: 3 of 12 in lie in a strip. 4 squares of 12 and 4 strips' worth of 9 x 12: mixtures cut 4/3 strips
    # 12 in high and, the rest of it filled up, less of those 9 in high; whole strips are 2 high and 1 low
    items = (box_item("A", 12, 12, 4, 40), box_item("B", 12, 9, 4, 40))
    best = best_plan(items, 320)
    assert best.height == best.bound == (12 + 12 + 9) * 8  # 3 A; 1 A and 2 B; 2 B
    assert mixture_cost(items, 320) < best.bound


def test_whole_strips_are_mixed_where_first_fit_leaves_ends():
    # 40 in, all 6 in high. First fit: 20 + 20, 16 + 16, 12 + 12 + 12, 12. Without ends: 20 + 20, and twice
    # 16 + 12 + 12. Nothing is shorter: 2 x 20 + 2 x 16 + 4 x 12 = 120 = 3 x 40
    items = (box_item("A", 20, 6, 2, 40), box_item("B", 16, 6, 2, 40), box_item("C", 12, 6, 4, 40))
    best = best_plan(items, 320)
    assert first_fit_height(items, 320) == 4 * 6 * 8
    assert best.height == best.bound == 3 * 6 * 8


@pytest.mark.parametrize("number", range(8))
def test_larger_random_jobs_come_near_their_bound(number):
    rng = random.Random(3000 + number)
    items = tuple(
        box_item(f"r{i}", rng.randint(8, 96) / 8, rng.randint(8, 96) / 8, rng.randint(10, 60), 40, number % 2 == 0)
        for i in range(6)
    )  # fmt: skip
    best = best_plan(items, 320)
    cut_again(items, best, 320)
    assert best.height <= 1.02 * best.bound


def test_first_fit_fills_a_higher_strip_before_it_begins_another():
    # 40 in: two 15 in squares leave 10 in; three 3 in squares go beside them
    items = (box_item("A", 15, 15, 2, 40), box_item("B", 3, 3, 3, 40))
    plan = first_fit(items, 320)
    assert total_height(plan) == 15 * 8


def test_the_plan_beats_first_fit():
    # 1 of 30 x 6, 1 of 20 x 5, 2 of 10 x 5: first fit 6 + 5; nothing better. With 2 of 20 x 6:
    # first fit: 30x6+10x5, 20x6+20x6, 10x5 alone? it goes beside: order is by height
    items = (box_item("A", 5, 8, 3, 20, True), box_item("B", 8, 5, 2, 20, True))
    best = best_plan(items, 160)
    assert (
        best.height / 8 <= 13
    )  # lying, 8 x 5: two in a strip, 5 pieces: 15; standing 5 x 8: 4, 1 left


def test_a_row_of_nested_pieces_is_shorter_than_boxes():
    shape = ((1, 0), (3, 0), (4, 1), (0, 1))
    variant = variant_of(row_of(shape, True), 0.125, 320, 40)
    assert variant.most == 13  # 4 + 12 * 3 = 40 in; boxes: 10


def test_the_same_job_gives_the_same_plan_in_any_order():
    items = random_job(random.Random(7), 6, 60, True)
    heights = {best_plan(tuple(order), 320).height for order in (items, items[::-1])}
    assert len(heights) == 1


def test_nothing_to_cut():
    assert best_plan((), 320).height == 0


def test_length_and_bound_of_a_cloth():
    job = Job(fabric=a_fabric())
    job.items.append(box_item("A", 2.5, 2.5, 20, 40))
    job.owners.append(Owner("A", METHODS["square"], ((),) * 20))
    plan = plan_cloth(job, "inch", EIGHTH)
    assert plan.length == Length.of("5 1/2")  # 16 in a strip: 2 strips of 2 1/2, 1/2 straightening
    assert plan.lower_bound <= plan.length
    assert plan.buy.yards_text == "1/4"
