"""Layers of cloth by exact folding: values to check by hand, and what no folding can change."""

import math
from pathlib import Path

import pytest
from hypothesis import given, settings, strategies as st
from sampling import examples

from booklet.geometry.overlay import area, offset
from booklet.pattern import By
from booklet.pressing import bulk_map
from booklet.pressing.layers.folding import between, cut, fold
from booklet.pressing.layers.thickness import LONGEST, folded
from booklet.recipe import compiler
from tests.pressing_helpers import (
    assembly,
    four_patch,
    layered_area,
    pairs_then_halves,
    patch,
    pressed,
    sew,
    sewn as sewn_pattern,
    square,
)

W = 0.25
PEEL = Path(__file__).parent / "patterns" / "orange_peel"
SAME = ("ink",) * 4


def wedges(k: int, radius: float = 2.0):
    """k patches that meet in a point, clockwise from the top."""
    rim = [
        (radius * math.sin(2 * math.pi * i / k), -radius * math.cos(2 * math.pi * i / k))
        for i in range(k)
    ]
    return [patch(f"w{i + 1}", [(0, 0), rim[i], rim[(i + 1) % k]]) for i in range(k)]


def two_by_two(k: int, press: str | None = None):
    """Pairs, pairs of pairs, … of k = 2, 4, 8, 16 wedges; `press` or toward the later half."""
    units = [f"w{i + 1}" for i in range(k)]
    steps = []
    while len(units) > 1:
        joined = []
        for one, other in zip(units[::2], units[1::2], strict=True):
            make = "b" if len(units) == 2 else f"{one}_{other}"
            steps.append(sew(make, one, other, press=press or f"toward {other}"))
            joined.append(make)
        units = joined
    return steps


@pytest.mark.parametrize(
    ("top", "low", "middle", "layers"),
    [
        ("toward a", "toward d", "toward low", 7),  # opposed: they nest
        ("toward b", "toward c", "toward top", 7),
        ("toward a", "toward c", "toward low", 9),  # to the same side
        (
            "open",
            "open",
            "open",
            4,
        ),  # 16 w² of cloth on the 2w x 2w of the crossing: no less is possible
        ("open", "open", "toward low", 6),
    ],
)
def test_layers_of_a_four_patch(top, low, middle, layers):
    from booklet.pressing import press

    block = sewn_pattern(four_patch(*SAME), pairs_then_halves(top, low, middle))
    result = press(block).value
    assert result is not None
    assert [j.layers for j in result.pressings["s", "b"].junctions] == [layers]


@pytest.mark.parametrize("k", [4, 8])
def test_wedges_pressed_open_lie_in_as_many_layers(k):
    pressing = pressed(wedges(k), two_by_two(k, "open"))
    assert [j.layers for j in pressing.junctions] == [k]


def pairs_first(k: int):
    """Every second seam, then the pairs to each other: the centre is turned, never sewn across."""
    steps = [sew(f"p{i}", f"w{i}", f"w{i + 1}", press="open") for i in range(1, k, 2)]
    unit = "p1"
    for i in range(3, k, 2):
        make = "b" if i == k - 1 else f"u{i}"
        steps.append(sew(make, unit, f"p{i}", press="open"))
        unit = make
    return steps


@pytest.mark.parametrize("k", [4, 6, 8, 10])
@pytest.mark.parametrize("by", [By.HAND, By.MACHINE])
def test_wedges_pressed_open_every_second_seam_first_lie_in_as_many_layers(k, by):
    # 4 times in its own sector, twice in k/2 - 2 others: 4 + 2 (k/2 - 2) = k
    assert [j.layers for j in pressed(wedges(k), pairs_first(k), by=by).junctions] == [k]


def in_threes():
    """Six wedges as two straight halves of three, then the long seam."""
    halves = [("w1", "w2", "w3"), ("w4", "w5", "w6")]
    pairs = [sew(f"p{a}", a, b, press="open") for a, b, _ in halves]
    threes = [sew(f"h{a}", f"p{a}", c, press="open") for a, _, c in halves]
    return [*pairs, *threes, sew("b", "hw1", "hw4", press="open")]


def test_two_halves_of_three_wedges_cannot_lie_evenly():
    # the pair w1 w2 lies 2-fold all round; folded at its edge with w3 4-fold on its half turn, w3 2-fold on
    # the other. The long seam folds 4 x 60 and 2 x 60 degrees over: 4 + 4, 4 + 2, 2 + 2 = 8, 6, 4
    pressing = pressed(wedges(6), in_threes())
    assert [j.layers for j in pressing.junctions] == [8]
    toward = dict.fromkeys(pressing.pressed)
    cloth = folded(pressing.assembly, toward, frozenset(), W)
    polygons = [p for parts in cloth.values() for p in parts]
    found = []
    for i in range(6):  # close to the centre, in the middle of each sector
        turn = math.radians(60 * i + 30)
        at = (0.01 * math.sin(turn), -0.01 * math.cos(turn))
        found.append(sum(_covers(p, at) for p in polygons))
    assert sorted(found) == [4, 4, 6, 6, 8, 8]
    assert sum(found) == 6 * 6  # each of 6 wedges covers the whole turn once


def test_eight_wedges_pressed_to_one_side():
    pressing = pressed(wedges(8), two_by_two(8))
    assert [j.layers for j in pressing.junctions] == [15]


def test_a_fanned_four_patch_is_as_flat_as_an_open_one():
    pressing = pressed(four_patch(), pairs_then_halves(), by=By.HAND)
    assert [j.kind.value for j in pressing.junctions] == ["fan"]
    assert [j.layers for j in pressing.junctions] == [4]  # 16 w² / (2w)²


def test_two_squares_with_one_seam_have_three_layers_beside_it_or_two_when_open():
    # two 4 x 4 squares, cut 4 1/2 x 4 1/2: the strip beside the seam is 1/4 x 4 1/2
    block = assembly([square("a", 0, 0), square("b", 1, 0)], [sew("b_", "a", "b")])
    seam = block.tiling.seams[0].id
    for toward, expected in (("b", 3), (None, 2)):
        cloth = folded(block, {seam: toward}, frozenset(), W)
        polygons = [p for parts in cloth.values() for p in parts]
        x = 4 + W / 2
        over = [p for p in polygons if _covers(p, (x, 2.0))]
        assert len(over) == expected


def _covers(polygon, point):
    inside = [
        between(a, b).depth(point) for a, b in zip(polygon, polygon[1:] + polygon[:1], strict=True)
    ]
    return all(d > 0 for d in inside) or all(d < 0 for d in inside)


@settings(max_examples=examples(60), deadline=None)
@given(
    st.lists(st.sampled_from(["a", "b", "open"]), min_size=8, max_size=8),
    st.integers(0, 2),
    st.booleans(),
)
def test_folding_never_changes_how_much_cloth_there_is(choices, shape, hand):
    by = By.HAND if hand else By.MACHINE
    if shape == 0:
        block = assembly(wedges(8), two_by_two(8), by=by)
    elif shape == 1:
        block = assembly(four_patch(), pairs_then_halves(), by=by)
    else:  # an L round a square: an inward corner
        notched = patch("l", [(0, 0), (2, 0), (2, 1), (1, 1), (1, 2), (0, 2)])
        block = assembly([notched, square("s", 1, 1)], [sew("b", "l", "s")], by=by)
    toward = {
        seam.id: {"a": seam.between[0], "b": seam.between[1], "open": None}[choices[k % 8]]
        for k, seam in enumerate(block.tiling.seams)
    }
    cloth = folded(block, toward, frozenset(), W)
    cut_area = sum(area(offset(piece.outline.points, W, LONGEST)) for piece in block.tiling.pieces)
    assert sum(area(p) for parts in cloth.values() for p in parts) == pytest.approx(
        cut_area, abs=1e-9
    )
    assert layered_area(cloth) == pytest.approx(cut_area, abs=1e-8)


def test_a_fold_keeps_what_lies_outside_and_mirrors_what_lies_inside():
    unit = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))
    line = between(
        (0.75, 0.0), (0.75, 1.0)
    )  # walking down the page: the right hand is the left side
    inside, outside = cut(unit, line)
    assert inside is not None and outside is not None
    assert area(inside) == 0.75 and area(outside) == 0.25
    flat = fold([unit], line.other)  # the quarter right of the line comes over to 0.5 .. 0.75
    assert sorted(x for p in flat for x, _ in p) == [0, 0, 0.5, 0.5, 0.75, 0.75, 0.75, 0.75]


def test_a_mirrored_block_has_the_same_layers():
    straight = pressed(wedges(8), two_by_two(8))
    mirrored = [
        patch(p.id, [(-float(x.value), float(y.value)) for x, y in p.shape.corners][::-1])
        for p in wedges(8)
    ]
    assert [j.layers for j in pressed(mirrored, two_by_two(8)).junctions] == [
        j.layers for j in straight.junctions
    ]


def test_the_bulk_map_holds_every_layer_of_cloth():
    pressing = pressed(four_patch(), pairs_then_halves())
    cells = bulk_map(pressing, W)
    assert max(layers for _, layers in cells) == 7
    # four patches of 4 x 4, cut 4 1/2 x 4 1/2
    assert sum(area(cell) * n for cell, n in cells) == pytest.approx(4 * 4.5**2, abs=1e-4)


def test_a_curve_that_ends_along_a_side_leaves_no_cloth_yards_away():
    pressing = compiler.plan(compiler.check(PEEL).value).sizes[0].blocks[0].pressing
    points = [p for cell, _ in bulk_map(pressing, 0.375) for p in cell]
    # 6 in, and at most six allowances of 3/8 in beyond the tips, a hair more as chords lean
    assert all(-2.27 < v < 8.27 for p in points for v in p)
