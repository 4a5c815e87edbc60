"""Layers of cloth by exact folding: values to check by hand, and what no folding can change."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from booklet.geometry.plane import area, offset
from booklet.pattern import By
from booklet.pressing import bulk_map
from booklet.pressing.folding import between, cut, fold
from booklet.pressing.layers import areas, folded
from tests.pressing_helpers import (
    assembly,
    four_patch,
    pairs_then_halves,
    patch,
    pressed,
    sew,
    square,
)
from tests.pressing_helpers import sewn as sewn_pattern

W = 0.25
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


@settings(max_examples=60, deadline=None)
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
    cut_area = sum(area(offset(piece.outline.points, W)) for piece in block.tiling.pieces)
    assert sum(area(p) for parts in cloth.values() for p in parts) == pytest.approx(
        cut_area, abs=1e-9
    )
    before, after = areas(block, cloth, W)
    assert before == pytest.approx(cut_area, abs=1e-8)
    assert after == pytest.approx(cut_area, abs=1e-8)


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
