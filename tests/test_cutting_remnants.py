"""Ends of settled strips: what fits is cut from them, nothing lies twice in one place, all pieces are there."""

from __future__ import annotations

import itertools
import random

import pytest
from builders import METHODS
from cutting_helpers import a_fabric, box_item, inches, pattern_text, plan_of
from test_cutting_plan import recut, shortest

from booklet.cutting.cloth.jobs import Job, LaidStrip, Owner, level_strip
from booklet.cutting.cloth.one_cloth import plan_cloth, remnants_of
from booklet.cutting.strips.items import Remnant, lies_whole
from booklet.cutting.strips.shortest import best_plan
from booklet.kit.measure import EIGHTH
from booklet.quilt.finishing.binding import last_strip_sum
from booklet.recipe.checking import check


def a_job(*settled: LaidStrip) -> Job:
    job = Job(fabric=a_fabric())
    job.settled.append(settled)
    return job


def want(job: Job, name: str, width: float, height: float, count: int, turn: bool = False) -> None:
    job.items.append(box_item(name, width, height, count, 40, turn))
    job.owners.append(Owner(name, METHODS["square"], ((),) * count))


def test_squares_come_from_the_end_of_a_border():
    # a border strip 4 1/2 in wide, 28 in of it used: 12 in left hold 4 squares of 3 in
    job = a_job(level_strip("border", inches("4 1/2"), inches(28)))
    want(job, "A", 3, 3, 4)
    plan = plan_cloth(job, "inch", EIGHTH)
    assert plan.length == inches(5)  # 4 1/2, and 1/2 for straightening
    assert plan.lower_bound == plan.length
    assert [(use.name, use.pieces) for use in plan.strips[0].uses] == [("border", 1), ("A", 4)]
    recut(plan, 40.0)


def test_two_strips_lie_one_below_the_other_in_a_high_end():
    # a panel 10 in long, 20 of 40 in wide: two rows of 4 squares of 5 in
    job = a_job(level_strip("backing", inches(10), inches(20)))
    want(job, "A", 5, 5, 9)
    plan = plan_cloth(job, "inch", EIGHTH)
    assert plan.length == inches("15 1/2")  # 8 in the panel, one strip of 5 for the ninth
    recut(plan, 40.0)


def test_an_end_too_small_for_anything_is_left():
    job = a_job(level_strip("border", inches(2), inches(30)))
    want(job, "A", 3, 3, 4)
    assert remnants_of(job, inches(40), EIGHTH) == ((), ())


@pytest.mark.parametrize("number", range(25))
def test_random_jobs_with_ends(number):
    rng = random.Random(number)
    strips = [
        level_strip(f"s{i}", inches(rng.randint(2, 12)), inches(rng.randint(4, 39)))
        for i in range(rng.randint(1, 4))
    ]
    job = a_job(*sorted(strips, key=lambda s: s.height.inches))
    for index in range(rng.randint(1, 6)):
        turn = rng.random() < 0.5
        sides = rng.randint(8, 64) / 8, rng.randint(8, 64) / 8
        want(job, f"r{index}", *sides, rng.randint(1, 15), turn)
    plan = plan_cloth(job, "inch", EIGHTH)
    recut(plan, 40.0)
    assert plan.lower_bound <= plan.length
    counts: dict[str, int] = {}
    for strip in plan.strips:
        for use in strip.uses:
            counts[use.name] = counts.get(use.name, 0) + use.pieces
    assert counts == {
        **{strip.placed[0].name: 1 for strip in strips},
        **{item.name: item.demand for item in job.items},
    }


@pytest.mark.parametrize("number", range(12))
def test_an_end_never_makes_a_plan_longer(number):
    rng = random.Random(number)
    items = tuple(
        box_item(f"r{i}", rng.randint(8, 48) / 8, rng.randint(8, 48) / 8, rng.randint(1, 8), 40)
        for i in range(3)
    )
    ends = (Remnant(rng.randint(30, 200), rng.randint(20, 90)),)
    assert best_plan(items, 320, remnants=ends).height <= best_plan(items, 320).height


@pytest.mark.parametrize("number", range(20))
def test_small_jobs_with_an_end_by_brute_force(number):
    """Every set of pieces that can be cut from the end is tried, and the rest laid in every way."""
    rng = random.Random(4000 + number)
    sizes = [(rng.randint(2, 10), rng.randint(2, 10)) for _ in range(rng.randint(2, 3))]
    demands = [rng.randint(1, 2) for _ in sizes]
    end = Remnant(rng.randint(10, 12), rng.randint(2, 12))  # as wide as any piece is
    items = tuple(
        box_item(f"r{i}", w / 8, h / 8, d, 12 / 8, True)
        for i, ((w, h), d) in enumerate(zip(sizes, demands, strict=True))
    )
    pieces = [size for size, d in zip(sizes, demands, strict=True) for _ in range(d)]
    least = min(
        shortest([p for i, p in enumerate(pieces) if not mask >> i & 1], 12)
        for mask in range(1 << len(pieces))
        if shortest([p for i, p in enumerate(pieces) if mask >> i & 1], end.width) <= end.height
    )
    best = best_plan(items, 12, remnants=(end,))
    assert best.bound <= least == best.height


def test_the_ends_of_all_kits_are_used():
    """Twelve border strips 4 1/2 in wide, one for each kit, 28 of 40 in used: each end holds 4 squares of 3 in, all twelve
    48. So the cloth is 12 x 4 1/2 and 1/2 in long for straightening; from eight ends 32 squares would come, and two strips
    more, of 13 and 3 of the other 16."""
    job = a_job(*[level_strip("border", inches("4 1/2"), inches(28))] * 12)
    want(job, "A", 3, 3, 48)
    plan = plan_cloth(job, "inch", EIGHTH)
    assert plan.length == plan.lower_bound == inches("54 1/2")
    assert [(use.name, use.pieces) for use in plan.strips[0].uses] == [("border", 12), ("A", 48)]
    recut(plan, 40.0)


def test_no_strip_lies_half_in_one_end_and_half_in_another():
    """Two ends 5 in high are 10 in together, but hold no three rows of 3 in: of 12 squares of 3 in, four in a row of
    12 in, one row lies in each and one on the cloth."""
    job = a_job(*[level_strip("border", inches(5), inches(28))] * 2)
    want(job, "A", 3, 3, 12)
    plan = plan_cloth(job, "inch", EIGHTH)
    assert plan.length == inches("13 1/2")  # 2 x 5, 3 and 1/2
    recut(plan, 40.0)


@pytest.mark.parametrize("number", range(20))
def test_small_jobs_with_alike_ends_by_brute_force(number):
    """Every piece in every end or on the cloth is tried."""
    rng = random.Random(5000 + number)
    sizes = [(rng.randint(2, 10), rng.randint(2, 10)) for _ in range(rng.randint(2, 3))]
    demands = [rng.randint(1, 2) for _ in sizes]
    end = Remnant(rng.randint(10, 12), rng.randint(3, 12), count=rng.randint(2, 3))
    items = tuple(
        box_item(f"r{i}", w / 8, h / 8, d, 12 / 8, True)
        for i, ((w, h), d) in enumerate(zip(sizes, demands, strict=True))
    )
    pieces = [size for size, d in zip(sizes, demands, strict=True) for _ in range(d)]
    known: dict[tuple[tuple[int, int], ...], int] = {}

    def high(some: tuple[tuple[int, int], ...], wide: int) -> int:
        return known.setdefault((*some, (wide, 0)), shortest(list(some), wide))

    least = min(
        high(tuple(p for p, at in zip(pieces, places, strict=True) if not at), 12)
        for places in itertools.product(range(end.count + 1), repeat=len(pieces))
        if all(
            high(tuple(p for p, at in zip(pieces, places, strict=True) if at == k), end.width)
            <= end.height
            for k in range(1, end.count + 1)
        )
    )
    best = best_plan(items, 12, remnants=(end,))
    assert best.bound <= least == best.height
    assert lies_whole(best.plan, (end,))


QUILT = """quilt:
  set: straight
  backing: {extra: 4 in, fabric: ink}
"""


def test_patches_come_from_beside_the_last_width_of_the_back(tmp_path):
    # 8 x 6 blocks of 6 in: 48 x 36; back 56 x 44: two lengths of 44 (40 wide) run across it?
    # lengthwise 2 * 44 = 88; crosswise 2 * 56 = 112: lengthwise; 56 - 39 1/2 = 16 1/2 of the second
    text = pattern_text(
        "  ink: {name: Ink, colour: '#000000'}",
        "  tile: {shape: square, side: 6}",
        "      - {id: a, patch: tile, fabric: ink, at: [3, 3]}",
        "8 x 6",
        QUILT,
    )
    plan = plan_of(tmp_path, text)
    lines = {patch.name: patch for patch in plan.patches}
    assert lines["backing"].pieces == 1
    assert lines["backing last width"].cut == (inches(44), inches("16 1/2"))
    cloth = plan.fabrics[0]
    # beside it 23 1/2 x 44: 3 x 6 squares of 6 1/2; of the other 30, 6 in a strip: 5 strips
    assert cloth.length == inches("121")  # 88 + 5 * 6 1/2 + 1/2
    recut(cloth, 40.0)


def test_a_ring_dealt_out_over_fabrics_counts_each(tmp_path):
    # four copies from three fabrics in turn: ink, sand, ink, clay; 6 blocks: 12, 6, 6
    text = pattern_text(
        "\n".join(f"  {f}: {{name: {f}, colour: '#00000{i}'}}" for i, f in enumerate(("ink", "sand", "clay"))),
        "  tile: {shape: square, side: 3}",
        "      - {id: a, patch: tile, fabric: [ink, sand, ink, clay], at: [1.5, 1.5],"
        " ring: {centre: [3, 3], times: 4}}",
        "6",
    )  # fmt: skip
    plan = plan_of(tmp_path, text)
    assert {p.fabric: p.pieces for p in plan.patches} == {"ink": 12, "sand": 6, "clay": 6}


def test_what_is_left_of_a_strip_is_not_used(tmp_path):
    # 4 blocks of 10 in, bound: 4 * 20 + 10 = 90 in of strip 2 1/2 in wide, from 3 strips of 40 in joined on the slant,
    # which takes 2 1/2 in at each of 2 joins (the closing one is in the 10 in): 120 - 2 * 2.5 - 90 = 25 in are left of the last
    (tmp_path / "pattern.yaml").write_text(
        """
title: Plain
units: inch
sizes:
  s: {unit: 1 in, blocks: 2 x 2}
fabrics:
  ink: {colour: "#111111"}
  sand: {colour: "#eeeeee"}
blocks:
  b: {size: 10 x 10, grid: [[sand]], columns: [10], rows: [10]}
quilt: {set: straight, arrange: [[b]], binding: {fabric: ink, width: 2 1/2 in}}
""",
        "utf-8",
    )
    checked = check(tmp_path).value
    assert checked is not None
    (plan,) = (plan for plan in checked.cuts["s"].fabrics if plan.fabric == "ink")
    (left,) = plan.leftovers
    assert (float(left.across), float(left.along)) == (25, 2.5)
    assert plan.area_used == pytest.approx(3 * 40 * 2.5 - 25 * 2.5)
    (said,) = last_strip_sum(checked.quilts["s"].binding, inches("40"), "inch")
    assert said == "binding, of the last strip: 90 − 2 × (40 − 2 1/2 for the join) = 15 in"


def test_what_fits_in_a_remnant_only_standing_lies_there():
    """Logs of 1 1/2 in, 16 each of six lengths from 2 1/2 to 7 1/2 in, and an end of 30 1/2 x 2 1/2 in. Lying they are
    16 x 30 = 480 in long, 449 1/2 beside the end: 12 strips of 40 in, 18 in. With all 16 of the shortest standing in the end (24 in
    of it) 440 are left, and 433 1/2 with one of 6 1/2 in beside them: 11 strips, 16 1/2 in."""
    sides = ("2.5", "3.5", "4.5", "5.5", "6.5", "7.5")
    items = tuple(box_item(f"log {side}", float(side), 1.5, 16, 40, True) for side in sides)
    best = best_plan(items, 320, remnants=(Remnant(244, 20),))
    assert best.height / 8 == 16.5
