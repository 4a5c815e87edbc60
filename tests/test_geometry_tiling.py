"""The check that pieces cover their block exactly once: sound tilings pass, spoilt ones are named."""

from __future__ import annotations

import math
import random
from itertools import pairwise

import pytest
import shapely  # an independent verdict
from builders import block_of, pattern_of, piece, shape, size_of
from hypothesis import given, settings, strategies as st
from sampling import examples
from tilings import tiling

from booklet.geometry import lay_out
from booklet.geometry.soundness.subdivision import clusters, subdivide
from booklet.geometry.vectors import backwards, outline_of
from booklet.kit.outlines.plane import turn_point
from booklet.kit.outlines.polygon import area_of
from booklet.pattern import Anchor, AnchorKind

seeds = st.integers(0, 100_000)


def laid(pieces, outline=None):
    made = [piece(f"p{i}", corners=corners) for i, corners in enumerate(pieces)]
    return lay_out(pattern_of(pieces=made, outline=outline))


def codes(outcome):
    return [d.code for d in outcome.diagnostics]


def is_sound(pieces, outline=None) -> bool:
    return not laid(pieces, outline).diagnostics


def shapely_verdict(pieces, outline=None) -> bool:
    """Sound by shapely alone: no area twice, no hole, all joined by sides, and the outline filled."""
    polygons = [shapely.Polygon(p) for p in pieces]
    if not all(p.is_valid for p in polygons):
        return False
    glued = shapely.union_all([p.buffer(1e-7, join_style="mitre") for p in polygons])
    holes = [ring for part in shapely.get_parts(glued) for ring in part.interiors]
    if any(shapely.Polygon(ring).area > 1e-6 for ring in holes):
        return False
    if abs(sum(p.area for p in polygons) - glued.area) > 2e-5 or not joined(polygons):
        return False
    return outline is None or glued.symmetric_difference(shapely.Polygon(outline)).area < 1e-4


def joined(polygons) -> bool:
    """Whether one can walk from piece to piece across sides (more than a hundredth of an inch)."""
    found, todo = {0}, [0]
    while todo:
        near = polygons[todo.pop()].boundary.buffer(1e-7)
        for j, other in enumerate(polygons):
            if j not in found and near.intersection(other.boundary).length > 1e-2:
                found.add(j)
                todo.append(j)
    return len(found) == len(polygons)


@settings(max_examples=examples(60), deadline=None)
@given(seeds)
def test_a_sound_tiling_passes_with_and_without_its_outline(seed):
    pieces, outline = tiling(seed)
    assert codes(laid(pieces, outline)) == []
    outcome = laid(pieces)
    assert codes(outcome) == []
    traced = outcome.value.tilings["s", "b"].outline
    assert area_of(traced.points) == pytest.approx(abs(area_of(outline)), abs=1e-6)
    assert len(traced.sides) == 4


def spoil(pieces, seed):
    """One spoilt copy of the pieces, the number of the piece and what was done."""
    rng = random.Random(seed)
    spoilt = [list(p) for p in pieces]
    i = rng.randrange(len(spoilt))
    what = rng.choice(("delete", "duplicate", "shift", "move a corner"))
    step = rng.choice((2e-3, 0.03, 0.4))
    if what == "delete":
        del spoilt[i]
    elif what == "duplicate":
        spoilt.append(list(spoilt[i]))
    elif what == "shift":
        spoilt[i] = [(x + step, y - step / 3) for x, y in spoilt[i]]
    else:
        k = rng.randrange(len(spoilt[i]))
        x, y = spoilt[i][k]
        spoilt[i][k] = (x + step, y - step * 0.7)
    return spoilt, i, what


@settings(max_examples=examples(120), deadline=None)
@given(seeds, st.booleans())
def test_a_spoilt_tiling_is_found_its_piece_named_and_the_verdict_that_of_an_independent_union(
    seed, with_outline
):
    pieces, outline = tiling(seed)
    spoilt, i, what = spoil(pieces, seed)
    border = outline if with_outline else None
    outcome = laid(spoilt, border)
    found = set(codes(outcome))
    assert found <= {"overlap", "gap", "outside-block", "too-close", "apart", "crossed-shape", "impossible-shape"}  # fmt: skip
    if with_outline:  # without, what is left may be sound
        assert found and not outcome.value.tilings, what
        if what != "delete":
            named = " ".join(d.message for d in outcome.diagnostics)
            assert f"`p{i}`" in named or f"`p{len(spoilt) - 1}`" in named or "gap" in found
    if found != {"too-close"}:  # stricter than any verdict, and meant to be
        assert (not found) == shapely_verdict(spoilt, border), what


@settings(max_examples=examples(40), deadline=None)
@given(seeds, st.integers(0, 23))
def test_turning_by_15_degrees_changes_no_verdict_and_no_count(seed, steps):
    pieces, _ = tiling(seed)
    turned = [[turn_point(p, 15 * steps, (1, 2)) for p in corners] for corners in pieces]
    one, other = (laid(p).value.tilings["s", "b"] for p in (pieces, turned))
    assert [s.between for s in one.seams] == [s.between for s in other.seams]
    assert [s.length for s in one.seams] == pytest.approx([s.length for s in other.seams], abs=1e-6)
    assert sum(j.inside for j in one.junctions) == sum(j.inside for j in other.junctions)
    assert [p.patch for p in one.pieces] == [p.patch for p in other.pieces]


@settings(max_examples=examples(40), deadline=None)
@given(seeds)
def test_the_order_of_pieces_and_their_first_corner_change_no_verdict(seed):
    pieces, outline = tiling(seed)
    spoilt, _, _ = spoil(pieces, seed)
    mixed = [p[1:] + p[:1] for p in spoilt[::-1]]
    assert is_sound(pieces[::-1], outline)
    assert is_sound(mixed, outline) == is_sound(spoilt, outline)


@settings(max_examples=examples(30), deadline=None)
@given(seeds)
def test_a_flipped_outline_fails_the_chain_test(seed):
    pieces, outline = tiling(seed)
    made = [outline_of(p) if area_of(p) > 0 else backwards(outline_of(p)) for p in pieces]
    border = outline_of(outline)
    assert subdivide(made, border).is_sound()
    made[seed % len(made)] = backwards(made[seed % len(made)])
    assert not subdivide(made, border).is_sound()


def test_noise_far_below_a_millionth_of_an_inch_does_no_harm():
    rng = random.Random(4)
    pieces, _ = tiling(12)
    noisy = [
        [(x + rng.uniform(-1e-9, 1e-9), y + rng.uniform(-1e-9, 1e-9)) for x, y in p] for p in pieces
    ]
    assert is_sound(noisy)


def test_equal_points_are_found_across_any_grid_line():
    # both points are nearer to each other than 1e-6 but round to different grid cells
    a, b = (0.4999999999, 1.0), (0.5000000001, 1.0)
    same = clusters([a, b, (2.0, 2.0)])
    assert same[a] == same[b] != same[2.0, 2.0]


def test_what_two_pieces_share_is_said_with_a_place_to_move_to():
    a = piece("a", "square", side=3, at=(1.5, 1.5))
    b = piece("b", "square", side=3, at=(3, 1.5), line=31)
    (fault,) = lay_out(pattern_of(pieces=[a, b])).diagnostics
    assert fault.code == "overlap"
    # 1 1/2 wide, 3 high
    assert (
        "`a` and `b` of block `b` overlap by 4 1/2 square inches around `[2.25, 1.5]`"
        in fault.message
    )
    assert fault.hint == "move `b` to `at: [4.5, 1.5]`, where it meets side 2 of `a`"
    assert fault.span.line == 31


def test_the_hint_is_true_and_in_units():
    pieces = [
        piece("a", "square", side=3, at=(1.5, 1.5)),
        piece("b", "square", side=3, at=(3, 1.5)),
    ]
    outcome = lay_out(pattern_of(pieces=pieces, unit="3/4 in"))
    assert "`at: [4.5, 1.5]`" in outcome.diagnostics[0].hint
    pieces[1] = piece("b", "square", side=3, at=(4.5, 1.5))
    assert not lay_out(pattern_of(pieces=pieces, unit="3/4 in")).diagnostics


def test_the_corners_offered_for_a_gap_fill_it():
    outline = [(0, 0), (6, 0), (6, 6), (0, 6)]
    pieces = [[(0, 0), (2**0.5, 0), (2**0.5, 6), (0, 6)], [(3, 0), (6, 0), (6, 6), (3, 6)]]
    (fault,) = laid(pieces, outline).diagnostics
    assert fault.code == "gap"
    text = fault.hint.split("corners: ")[1].split("`")[0]
    corners = [tuple(float(v) for v in c.split(", ")) for c in text[2:-2].split("], [")]
    assert is_sound([*pieces, corners], outline)


def test_a_fault_in_several_sizes_is_told_once():
    pieces = [piece("a", "square", side=2, at=(1, 1)), piece("b", "square", side=2, at=(2, 1))]
    sizes = [size_of("1 in", id="one"), size_of("2 in", id="two")]
    (fault,) = lay_out(pattern_of(pieces=pieces, sizes=sizes)).diagnostics
    assert "overlap by 2 square inches" in fault.message  # of the first size


def test_pairs_of_two_rings_are_told_once_and_many_faults_are_cut_short():
    ring = ((0, 0), 8)
    fat = [
        piece(
            "d",
            "diamond",
            side=2,
            angle=60,
            anchor=Anchor(AnchorKind("corner"), 3),
            at=(0, 0),
            ring=ring,
        )
    ]
    (fault,) = lay_out(pattern_of(pieces=fat)).diagnostics
    assert "and so do 7 more pairs of their copies" in fault.message
    heap = [piece(f"s{i}", "square", side=1, at=(i / 100, 0)) for i in range(60)]
    faults = lay_out(pattern_of(pieces=heap)).diagnostics
    assert len(faults) == 21
    assert any("more than 20 faults" in fault.message for fault in faults)


def test_pieces_that_touch_in_a_point_lie_apart():
    outcome = laid([[(0, 0), (1, 0), (1, 1), (0, 1)], [(1, 1), (2, 1), (2, 2), (1, 2)]])
    assert codes(outcome) == ["apart"]


def test_a_hole_that_touches_the_rim_in_a_point_is_a_gap():
    upper = [(0, 0), (4, 0), (4, 2), (3, 2), (2, 1), (0, 2)]
    lower = [(0, 4), (0, 2), (2, 3), (3, 2), (4, 2), (4, 4)]
    pieces = [upper, lower]  # they leave the kite (0, 2) (2, 1) (3, 2) (2, 3) open
    assert codes(laid(pieces)) == ["gap"]


def test_a_near_miss_is_too_close_to_tell():
    one = [(0, 0), (1, 0), (1, 1), (0, 1)]
    for miss in (2e-6, 1e-5, 4e-4):
        other = [(1 + miss, 0), (2, 0), (2, 1), (1 + miss, 1)]
        outcome = laid([one, other])
        assert codes(outcome) == ["too-close"], miss
    assert codes(laid([one, [(1 + 1e-8, 0), (2, 0), (2, 1), (1 + 1e-8, 1)]])) == []
    # rows of bricks that miss each other by half a thousandth
    rows = [[(0, 0), (1, 0), (1, 1), (0, 1)], [(1, 0), (2, 0), (2, 1), (1, 1)], [(0, 1), (1.0005, 1), (1.0005, 2), (0, 2)], [(1.0005, 1), (2, 1), (2, 2), (1.0005, 2)]]  # fmt: skip
    assert set(codes(laid(rows))) == {"too-close"}


def test_an_outline_that_crosses_itself_and_a_block_of_nothing():
    assert codes(laid([[(0, 0), (2, 2), (2, 0), (0, 3)]])) == ["crossed-shape"]
    assert codes(laid([[(0, 0), (1, 0), (1, 1), (0, 1)]], [(0, 0), (2, 2), (2, 0), (0, 3)])) == [
        "crossed-shape"
    ]
    assert codes(laid([])) == ["gap"]
    assert codes(laid([[(0, 0), (1, 1), (2, 2)]])) == ["impossible-shape"]


def test_a_patch_that_cannot_be_drawn_is_told_once():
    bad = shape("polygon", id="thin", corners=[(0, 0), (1, 1), (2, 2)])
    blocks = [block_of([piece("a", bad), piece("b", bad)], id=name) for name in ("x", "y")]
    (fault,) = lay_out(pattern_of(blocks=blocks)).diagnostics
    assert fault.message == "patch `thin` cannot be drawn: this outline has no area"


def test_how_far_a_piece_reaches_outside():
    outcome = laid([[(0, 0), (2.75, 0), (2.75, 1), (0, 1)]], [(0, 0), (2, 0), (2, 1), (0, 1)])
    (fault,) = outcome.diagnostics
    assert fault.message == "piece `p0` reaches 3/4 in beyond the edge of block `b`"


def test_a_piece_inside_another_is_an_overlap():
    assert codes(laid([[(0, 0), (3, 0), (3, 3), (0, 3)], [(1, 1), (2, 1), (2, 2), (1, 2)]])) == [
        "overlap"
    ]


def test_sound_blocks_are_handed_on_beside_faulty_ones():
    good = block_of([piece("a", "square", side=1, at=(0.5, 0.5))], id="good")
    bad = block_of(
        [piece("a", "square", side=1, at=(0.5, 0.5)), piece("b", "square", side=1, at=(1, 0.5))],
        id="bad",
    )
    outcome = lay_out(pattern_of(blocks=[good, bad]))
    assert codes(outcome) == ["overlap"]
    assert list(outcome.value.tilings) == [("s", "good")]


def test_noded_edges_of_neighbours_match():
    tiling_ = laid(tiling(7)[0]).value.tilings["s", "b"]
    edges = {e for ring in tiling_.noded.values() for e in pairwise((*ring, ring[0]))}
    assert sum((b, a) not in edges for a, b in edges) >= 4  # only the rim has no reverse
    rim = sum(
        ((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5 for a, b in edges if (b, a) not in edges
    )
    corners = tiling_.outline.corners
    around = sum(
        ((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5
        for a, b in pairwise((*corners, corners[0]))
    )
    assert rim == pytest.approx(around)


def test_a_heap_of_pieces_is_told_quickly():
    square = shape("square", side=1)
    heap = [piece(f"a{i}", square, at=(i / 1000, 0)) for i in range(1500)]
    outcome = lay_out(pattern_of(pieces=heap))
    assert set(codes(outcome)) == {"overlap"}
    assert len(outcome.diagnostics) == 21


def test_a_hundred_wedges_round_a_point_are_no_heap():
    wedge = shape(
        "isosceles triangle",
        base=2 * math.tan(math.pi / 100),
        height=1,
        anchor=Anchor(AnchorKind("corner"), 1),
    )
    outcome = lay_out(pattern_of(pieces=[piece("w", wedge, at=(0, 0), ring=((0, 0), 200))]))
    assert outcome.diagnostics  # each is twice too wide for 200 to go round
    fitting = lay_out(pattern_of(pieces=[piece("w", wedge, at=(0, 0), ring=((0, 0), 100))]))
    assert codes(fitting) == []


def test_a_curve_drawn_in_two_ways_is_told_as_such():
    quarter = shape("path", outline="M0 0 H2 C2 1.1045695 1.1045695 2 0 2 Z")
    around = shape("path", outline="M2 0 H3 V3 H0 V2 A2 2 0 0 0 2 0 Z")
    (fault,) = lay_out(pattern_of(pieces=[piece("q", quarter), piece("r", around)])).diagnostics
    assert fault.code == "too-close"
    assert "the curved sides of pieces `q` and `r` of block `b` miss each other" in fault.message
