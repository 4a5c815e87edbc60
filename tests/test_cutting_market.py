"""A pattern with everything that cutting can meet: two blocks, fabrics dealt out, a half drop, precuts, mirrored
pairs, borders left out, across and lengthwise, sizes with blocks and units of their own."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest
from builders import METHODS
from cutting_helpers import inches
from test_cutting_ways import inside

from booklet.cutting import cut
from booklet.geometry import lay_out
from booklet.pressing import press
from booklet.quilt import set_quilts
from booklet.sewing import assemble
from booklet.source.reader import read_folder

FOLDER = Path(__file__).parent / "patterns" / "market_day"


@cache
def plans():
    read = read_folder(FOLDER)
    outcome = read.then(lay_out).then(assemble).then(press).then(set_quilts).then(cut)
    assert outcome.value is not None and not any(d.is_error for d in outcome.diagnostics), (
        outcome.diagnostics
    )
    return outcome.value.cuts


def cloth(size, fabric):
    return next(plan for plan in plans()[size].fabrics if plan.fabric == fabric)


def pieces(size, fabric, letter_of):
    """How many pieces of cloth of a fabric are cut for the patch that is so large, cut."""
    lines = [p for p in plans()[size].patches if p.fabric == fabric and p.cut[0] == letter_of]
    return sum(p.pieces for p in lines)


@pytest.mark.parametrize(
    ("size", "stalls", "tile"),
    [("runner", 3, "2 1/2"), ("throw", 18, "2 1/2"), ("bed", 28, "3 1/2")],
)
def test_fabrics_are_dealt_out(size, stalls, tile):
    # a: plum, pear, rust, plum; c: rust, pear, rust, pear; b: four of cream. 5 x 7 blocks: 18 stalls
    side = inches(tile)
    assert pieces(size, "plum", side) == 2 * stalls
    assert pieces(size, "pear", side) == 3 * stalls
    assert pieces(size, "rust", side) == 3 * stalls


@pytest.mark.parametrize(
    ("size", "fabric", "count"),
    [
        ("throw", "plum", 1),  # 36 of 2 1/2 in; 8 x 7 from 21 x 18 in
        ("throw", "pear", 1),  # 54 of 56
        ("throw", "rust", 4),  # 54, 16 from each
        ("bed", "plum", 2),  # 56 of 3 1/2 in; 6 x 5 from each
        ("bed", "pear", 3),  # 84
        ("bed", "rust", 21),  # 84, 4 from each: 2 x 3 1/2 = 7 of 10 in
    ],
)
def test_precuts(size, fabric, count):
    plan = cloth(size, fabric)
    assert (plan.buy.count, plan.least_stock) == (count, count)


def test_motifs_of_a_half_drop():
    # bed: 6 1/2 in squares, motifs 6 x 6 dropped by 3: columns 12 apart, (40 - 6 1/2 - 6) / 12 = 2.3: 3 or,
    # shifted by a column of the print, 2; rows 9 apart. 28 pieces: 3 2 3 2 … 11 rows and 1
    plan = cloth("bed", "rose")
    assert sum(use.pieces for strip in plan.strips for use in strip.uses) == 28
    assert plan.lower_bound <= plan.length
    assert plan.length == inches("103")  # 10 * 9 + 6 1/2, a repeat of 6, 1/2 for straightening
    inside(plan)


def test_pairs_and_upright_prints():
    for fabric in ("sky", "reed"):
        sails = [p for p in plans()["throw"].patches if p.fabric == fabric and p.outline]
        assert sum(p.pieces for p in sails) == 34  # 17 boats
        assert all(p.pairs == 17 for p in sails)


def test_borders_of_each_size():
    names = {size: [p.name for p in plan.patches] for size, plan in plans().items()}
    assert not any(name.startswith("border") for name in names["runner"])
    assert "border 1 sides" in names["throw"]
    along = [
        p.name for p in plans()["bed"].patches if p.method == METHODS["strip along the selvedge"]
    ]
    assert along == ["border 1 top and bottom", "border 1 sides", "binding"]


def test_a_larger_quilt_never_takes_less():
    for fabric in ("cream", "rose", "sky", "reed"):
        amounts = [cloth(size, fabric).buy.yards for size in ("runner", "throw", "bed")]
        assert amounts == sorted(amounts)


def test_every_cut_lies_in_its_strip():
    for plan in plans().values():
        for fabric in plan.fabrics:
            inside(fabric)
            assert fabric.lower_bound <= fabric.length
