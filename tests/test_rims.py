"""Filled rims: part blocks counted by hand, frames that are tiled exactly, and the placement that wastes least."""

from __future__ import annotations

import itertools
import math
from collections import Counter
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
import shapely
from hypothesis import given, settings, strategies as st
from sampling import examples
from shapely import affinity

from booklet.__main__ import main
from booklet.geometry import lay_out
from booklet.pages.composing import compose
from booklet.pattern import Centre, Mirror
from booklet.plan import make_plan
from booklet.pressing.meetings.touching_rims import BlockInPlace
from booklet.recipe.checking import check
from booklet.source.reader import read_folder

HERE = Path(__file__).parent / "patterns"
ROOT_3 = math.sqrt(3)


def laid(text: str):
    """The laid-out pattern of a text."""
    with TemporaryDirectory() as folder:
        (Path(folder) / "pattern.yaml").write_text(text, "utf-8")
        outcome = read_folder(Path(folder)).then(lay_out)
    return outcome.value, outcome.diagnostics


@cache
def kept(name: str):
    outcome = read_folder(HERE / name).then(lay_out)
    assert outcome.value is not None
    return outcome.value


def sewn(made, size):
    """(fabric, polygon in the plane of the lattice) of every patch that is sewn for a size."""
    found = []
    for at in size.quilt.filled.laid:
        place = BlockInPlace(at.setting.block, at.setting.turn, at.origin).place
        for piece in made.tilings[size.id, at.setting.block].pieces:
            points = [place(p) for p in piece.outline.points]
            found.append((piece.fabric, shapely.Polygon(points)))
    return found


def frame_of(size):
    left, top, width, height = size.quilt.filled.frame
    return shapely.box(left, top, left + width, top + height)


# By hand, in units of the side of a hexagon whose point is up: rows of hexagons lie 1 1/2 apart, hexagons of a row √3.
# mini, 6√3 x 11, about the middle of an upright side: rows at 0, ±1.5, ±3, ±4.5 and ±6; of the rows at ±6 the tips
# show, 5 to 5.5, which are triangles. Rows at 0, ±3: 6 whole. Rows at ±1.5, ±4.5: 7, of which both ends are halves.
#   6 + 2 * 6 = 18 and 4 * 5 = 20 whole: 38; 4 * 2 = 8 halves; 2 * 6 = 12 tips
# cushion, 10√3 x 15.5, about the middle of a hexagon: rows at 0, ±3, ±6 of 11, both ends halves; rows at ±1.5, ±4.5
# of 10 whole; rows at ±7.5 of 10, cut at 7.75.
#   5 * 9 + 4 * 10 = 85 whole; 5 * 2 = 10 halves; 2 * 10 = 20 cut
# throw, 16.5√3 x 26, about the middle of an upright side: rows at 0, ±3 … ±12 of 18, whose ends show a quarter;
# rows at ±1.5, ±4.5 … ±10.5 of 17, whose ends show three quarters; of rows at ±13.5 the tips, 17, of which two are cut.
#   9 * 16 + 8 * 15 = 264 whole; 9 * 2 = 18 quarters; 8 * 2 = 16 three-quarters; 2 * 15 = 30 tips; 2 * 2 = 4 cut tips
SEVENS = {
    "mini": (Centre.GAP, (6 * ROOT_3, 11), [38, 12, 8]),
    "cushion": (Centre.BLOCK, (10 * ROOT_3, 15.5), [85, 20, 10]),
    "throw": (Centre.GAP, (16.5 * ROOT_3, 26), [264, 30, 18, 16, 4]),
}


@pytest.mark.parametrize("name", SEVENS)
def test_rosettes_of_seven_are_cut_to_the_edge(name):
    made = kept("seven_rosettes_filled")
    size = made.pattern.size(name)
    centre, sides, counts = SEVENS[name]
    rim, unit = size.quilt.filled, float(size.unit)
    assert rim.centre is centre and rim.alike == (Mirror.HALF_TURN,)
    assert [side / unit for side in rim.frame[2:]] == pytest.approx(sides)
    areas = Counter(round(patch.area / unit**2, 4) for _, patch in sewn(made, size))
    assert sorted(areas.values(), reverse=True) == counts
    assert max(areas) == pytest.approx(1.5 * ROOT_3, abs=1e-4)  # whole hexagons
    blocks = Counter(at.setting.block for at in rim.laid)
    area = sum(made.tilings[name, block].area * n for block, n in blocks.items())
    assert area == pytest.approx(rim.frame[2] * rim.frame[3]) == rim.sewn
    assert rim.cut_off == 0


HOURGLASS = (HERE / "half_blocks_at_the_edge" / "pattern.yaml").read_text("utf-8")


def test_a_corner_in_the_middle_leaves_halves():
    # 3 blocks of 4 in are 12 in; a seam in the middle: 2 in of a half, 4, 4, and 2 in of a half; 2 rows
    made, _ = laid(HOURGLASS)
    (size,) = made.pattern.sizes
    parts = [block for block in made.pattern.blocks if block.part]
    assert [block.title for block in parts] == ["Half Hourglass, left", "Half Hourglass, right"]
    # the side triangle whole, and halves of those above and below; sand has an up, so that none is turned
    assert all((b.part.patches, b.part.of_patches) == (3, 4) for b in parts)
    counts = Counter(at.setting.block for at in size.quilt.filled.laid)
    assert counts == {"hourglass": 4, parts[0].id: 2, parts[1].id: 2}
    halves = made.tilings["wall", parts[0].id]
    assert sorted(piece.outline.points.__len__() for piece in halves.pieces) == [3, 3, 3]
    assert halves.area == pytest.approx(2 * 4)


def test_what_may_be_turned_is_one_kind():
    made, _ = laid(HOURGLASS.replace(", direction: one-way", ""))
    (size,) = made.pattern.sizes
    (part,) = (block for block in made.pattern.blocks if block.part)
    assert part.title == "Half Hourglass, left and right"
    turns = Counter(at.setting.turn for at in size.quilt.filled.laid if at.setting.block == part.id)
    assert turns == {0: 2, 180: 2}


def test_mirror_images_are_kinds_of_their_own():
    # pinwheels are turned, never mirrored: a half, left and a half, right are alike when turned; with the
    # upper triangles in another cloth no turn lays one on the other
    text = HOURGLASS.replace(", direction: one-way", "")
    made, _ = laid(text.replace("[1, 1]], fabric: ink", "[1, 1]], fabric: sand", 1))
    assert len([block for block in made.pattern.blocks if block.part]) == 2


def test_whole_patches_hang_over_the_edge():
    # four triangles, cut through the middle: of each half the side one and both others show, 3 of 4
    made, _ = laid(HOURGLASS.replace("cut to size", "whole"))
    (size,) = made.pattern.sizes
    rim = size.quilt.filled
    # 12 x 8 in show; each of 4 halves hangs over with two halves of a triangle of 4 sq in
    assert rim.sewn == pytest.approx(96 + 4 * 4) and rim.cut_off == pytest.approx(16)
    assert rim.frame[2:] == pytest.approx((12, 8))


def test_the_path_lies_alike_on_all_sides():
    """The block of a rosette and its piece of the path is alike in no way; its lattice is."""
    made = kept("rosettes_with_path")
    for size in made.pattern.sizes:
        assert size.quilt.filled.alike == tuple(Mirror)
    doll = made.pattern.size("doll").quilt.filled
    middle = (doll.frame[0] + doll.frame[2] / 2, doll.frame[1] + doll.frame[3] / 2)
    origins = [at.origin for at in doll.laid if at.setting.block == "rosette"]
    assert any(
        math.dist(origin, middle) < 1e-6 for origin in origins
    )  # the heart lies at (0, 0) of its block


def test_alike_kinds_of_several_sizes_are_one_block():
    made = kept("rosettes_with_path")
    blocks = [block for block in made.pattern.blocks if block.part]
    shared = [b for b in blocks if sum(size.uses(b.id) for size in made.pattern.sizes) > 1]
    signs = {(str(b.title), tuple(piece.id for piece in b.pieces)) for b in blocks}
    assert shared and len(signs) == len(blocks)


def test_a_pattern_without_a_rim_is_as_it_was():
    text = HOURGLASS.replace("  rim: fill\n  rim patches: cut to size\n  centre: corner\n", "")
    made, faults = laid(text)
    assert faults == () and len(made.pattern.blocks) == 1
    assert made.pattern.sizes[0].quilt.filled is None


# random lattices -------------------------------------------------------------------------------------------------

SHAPES = ("brick", "hexagon", "chevron")


def lattice_text(shape, wide, high, lean, count, patches, cloths, split, centre=None):
    """A block of a left and a right half, perhaps split across, in a lattice of bricks, hexagons or chevrons."""
    w, h, d = wide, high, lean
    roof, floor = (-d, h + d) if shape == "hexagon" else (-d, h - d)
    if shape == "brick":
        roof, floor = 0, h
    m, mid = h / 2, (roof + floor) / 2
    if split:
        pieces = [
            [[0, 0], [w / 2, roof], [w / 2, mid], [0, m]],
            [[0, m], [w / 2, mid], [w / 2, floor], [0, h]],
            [[w / 2, roof], [w, 0], [w, h], [w / 2, floor]],
        ]
    else:
        pieces = [
            [[0, 0], [w / 2, roof], [w / 2, floor], [0, h]],
            [[w / 2, roof], [w, 0], [w, h], [w / 2, floor]],
        ]
    down = {"brick": [d, h], "hexagon": [w / 2, h + d], "chevron": [0, h]}[shape]
    lines = "".join(
        f"      - {{id: p{n}, corners: {p}, fabric: {cloths[n % len(cloths)]}}}\n"
        for n, p in enumerate(pieces)
    )
    middle = f"  centre: {centre}\n" if centre else ""
    return (
        f"title: Random\nunits: inch\nsizes:\n  s: {{unit: 1 in, blocks: {count[0]} x {count[1]}}}\n"
        'fabrics:\n  a: {colour: "#111111"}\n  b: {colour: "#eeeeee"}\n'
        f"blocks:\n  t:\n    pieces:\n{lines}"
        f"quilt:\n  set: lattice\n  arrange: [[t]]\n  lattice: {{across: [{w}, 0], down: {down}}}\n"
        f"  rim: fill\n  rim patches: {patches}\n{middle}"
    )


lattices = st.builds(
    lattice_text,
    shape=st.sampled_from(SHAPES),
    wide=st.sampled_from([2, 3, 4.5]),
    high=st.sampled_from([1, 2, 3.25]),
    lean=st.sampled_from([0.25, 0.5, 1.1]),
    count=st.tuples(st.integers(1, 4), st.integers(1, 4)),
    patches=st.sampled_from(["whole", "cut to size"]),
    cloths=st.sampled_from(["a", "ab", "ba"]),
    split=st.booleans(),
)


@settings(max_examples=examples(60), deadline=None)
@given(lattices)
def test_the_frame_is_tiled_exactly(text):
    made, faults = laid(text)
    assert [fault.message for fault in faults if fault.is_error] == []
    (size,) = made.pattern.sizes
    if size.quilt.filled is None:  # a rectangle by itself
        return
    rim, frame = size.quilt.filled, frame_of(size)
    patches = [patch for _, patch in sewn(made, size)]
    shown = [patch.intersection(frame).area for patch in patches]
    assert all(area > 1e-3 for area in shown)  # none is sewn that does not show
    assert sum(shown) == pytest.approx(frame.area, rel=1e-4)  # no two overlap, given that
    # on a grid: points that are a hair apart can lead a union astray
    assert shapely.union_all(patches, grid_size=1e-9).intersection(frame).area == pytest.approx(
        frame.area, rel=1e-4
    )
    whole = sum(patch.area for patch in patches)
    assert rim.sewn == pytest.approx(whole, rel=1e-4)
    assert rim.cut_off == pytest.approx(whole - frame.area, abs=1e-2)
    if "cut to size" in text:
        assert whole == pytest.approx(frame.area, rel=1e-4)


@settings(max_examples=examples(40), deadline=None)
@given(lattices)
def test_alike_part_blocks_are_one_kind(text):
    made, _ = laid(text)
    parts = [made.tilings["s", block.id] for block in made.pattern.blocks if block.part]
    for one, other in itertools.combinations(parts, 2):
        assert not any(same(one, other, turn) for turn in (0, 90, 180, 270))


def cloth_areas(tiling):
    """The cloths of a block as areas about the middle of the whole."""
    pieces = [(p.fabric, shapely.Polygon(p.outline.points)) for p in tiling.pieces]
    middle = shapely.union_all([area for _, area in pieces]).centroid
    return {
        (fabric, n): affinity.translate(area, -middle.x, -middle.y)
        for n, (fabric, area) in enumerate(sorted(pieces, key=lambda pair: pair[0]))
    }


def same(one, other, turn):
    """Whether a turn about the middle lays every patch of a block on one of another's of the same cloth."""
    first, second = cloth_areas(one), cloth_areas(other)
    if len(first) != len(second):
        return False
    return all(
        any(
            cloth == there
            and affinity.rotate(area, turn, origin=(0, 0)).symmetric_difference(target).area < 1e-4
            for (there, _), target in second.items()
        )
        for (cloth, _), area in first.items()
    )


# which placement wastes least ------------------------------------------------------------------------------------


def all_placements(text, made, size):
    """(ways in which the top is alike in cloths, in outlines; waste, patches) about every middle, half way and corner, by
    laying far more blocks than can show and looking at the areas themselves."""
    (ax, ay), (bx, by) = (
        tuple(extent.inches(size.unit) for extent in step) for step in size.quilt.lattice
    )
    pieces = [(p.fabric, shapely.Polygon(p.outline.points)) for p in made.tilings["s", "t"].pieces]
    block = shapely.union_all([area for _, area in pieces])
    cells = {
        (i, j): (i * ax + j * bx, i * ay + j * by) for i in range(-14, 15) for j in range(-12, 13)
    }
    outlines = {cell: affinity.translate(block, *at) for cell, at in cells.items()}
    every = [
        (fabric, affinity.translate(area, *at)) for at in cells.values() for fabric, area in pieces
    ]
    tree = shapely.STRtree([area for _, area in every])
    own = block.centroid
    points = [(own.x, own.y)]
    for (i, j), outline in outlines.items():
        near = (i, j) != (0, 0) and max(abs(i), abs(j)) < 4
        if near and block.buffer(1e-6).intersection(outline).area > 1e-7:
            points.append((own.x + cells[i, j][0] / 2, own.y + cells[i, j][1] / 2))
    width, height = size.quilt.filled.frame[2:]
    for x, y in points:
        frame = shapely.box(x - width / 2, y - height / 2, x + width / 2, y + height / 2)
        near = [every[n] for n in tree.query(frame)]
        shown = [(f, area) for f, area in near if area.intersection(frame).area > 1e-3]
        ways = []
        for sx, sy in ((-1, -1), (-1, 1), (1, -1)):
            moved = [(f, affinity.scale(area, sx, sy, origin=(x, y))) for f, area in shown]
            ways.append((is_same(moved, shown, True), is_same(moved, shown, False)))
        waste = sum(area.area for _, area in shown) - frame.area
        yield sum(a for a, _ in ways), sum(b for _, b in ways), waste, len(shown)


def is_same(moved, shown, cloths):
    tree = shapely.STRtree([area for _, area in shown])
    return all(
        any(
            (not cloths or shown[n][0] == fabric)
            and shown[n][1].symmetric_difference(area).area < 1e-6
            for n in tree.query(area)
        )
        for fabric, area in moved
    )


@settings(max_examples=examples(25), deadline=None)
@given(
    st.builds(
        lattice_text,
        shape=st.sampled_from(["brick", "chevron"]),
        wide=st.sampled_from([2, 3]),
        high=st.sampled_from([1, 2]),
        lean=st.sampled_from([0.25, 0.5]),
        count=st.tuples(st.integers(1, 3), st.integers(1, 3)),
        patches=st.sampled_from(["whole", "cut to size"]),
        cloths=st.sampled_from(["a", "ab"]),
        split=st.just(False),  # so that the middle of a block is the centre of its area
    )
)
def test_no_placement_is_more_alike_or_wastes_less(text):
    # bricks and chevrons have no corners (where lean is not 0), so middles and points half way are all there are
    made, _ = laid(text)
    (size,) = made.pattern.sizes
    rim = size.quilt.filled
    if rim is None or rim.centre is Centre.CORNER:
        return
    cut = "cut to size" in text
    found = list(all_placements(text, made, size))
    best = min((-a, -b, n if cut else round(waste, 6)) for a, b, waste, n in found)
    assert len(rim.alike) == -best[0]
    patches = sum(made.tilings["s", at.setting.block].pieces.__len__() for at in rim.laid)
    if cut:
        assert patches <= best[2]
    else:
        assert rim.cut_off == pytest.approx(best[2], abs=1e-4)


def test_part_blocks_are_named_in_the_language_of_the_pattern():
    checked = check(HERE / "flowers_over_papers_filled").value
    assert checked is not None
    made = make_plan(checked)
    page = compose(made, made.pattern.booklet.editions[0]).html
    assert "Blume, Teilblock aus 5 Teilen, oben" in page
    assert "Part of" not in page and "Single patch" not in page


def test_a_part_block_has_no_steps_to_write(tmp_path, capsys):
    text = (HERE / "seven_rosettes_filled" / "pattern.yaml").read_text("utf-8")
    (tmp_path / "pattern.yaml").write_text(text, "utf-8")
    assert main(["plan", str(tmp_path), "flower-rim-2", "--write"]) == 1
    assert "its order is found anew" in capsys.readouterr().err
    assert main(["plan", str(tmp_path), "--size", "mini", "--write"]) == 0
    written = (tmp_path / "pattern.yaml").read_text("utf-8")
    assert written.count("sew:") == 1 and "flower-rim" not in written
