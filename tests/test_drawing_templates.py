"""Templates are true to size, lie within the page, never overlap, and say what they are."""

import math

import pytest
import shapely
from builders import ENGLISH
from hypothesis import given, settings, strategies as st
from sampling import examples

from booklet.drawing.lettering.text_widths import text_width
from booklet.drawing.scene import Area, Ink, Line
from booklet.drawing.templates import template_pages as templates
from booklet.drawing.templates.template_layout import HEAD, SPACE, SQUARES, WORDS, Template, placed
from booklet.drawing.templates.template_nest import nested
from booklet.drawing.templates.template_parts import tiles
from booklet.drawing.templates.template_tiles import tiled
from booklet.kit.records import replace


def template(wide, high, letter="A", grain=0.0):
    cut = ((0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high))
    w = min(6.35, wide / 4, high / 4)
    seam = ((w, w), (wide - w, w), (wide - w, high - w), (w, high - w))
    return Template(
        letter=letter,
        lines=("A square",),
        seam=seam,
        cut=cut,
        points=seam,
        grain=grain,
        motif=False,
    )


sizes = st.lists(st.tuples(st.floats(12, 160), st.floats(12, 160)), min_size=1, max_size=25)


@settings(deadline=None, max_examples=examples(25))
@given(sizes)
def test_templates_lie_on_the_page_and_apart(sides):
    pages, large = nested([template(w, h, f"L{i:02}") for i, (w, h) in enumerate(sides)], 190, 230)
    assert sum(len(page) for page in pages) + len(large) == len(sides)
    for page in pages:
        boxes = [
            (s.at[0], s.at[1], s.at[0] + s.template.width, s.at[1] + s.template.height)
            for s in page
        ]
        for i, a in enumerate(boxes):
            assert a[0] >= 0 and a[1] >= 0 and a[2] <= 190.001 and a[3] <= 230.001
            for b in boxes[:i]:
                gap = math.hypot(
                    max(a[0] - b[2], b[0] - a[2], 0.0), max(a[1] - b[3], b[1] - a[3], 0.0)
                )
                assert gap >= SPACE - 1e-6


def test_words_stand_inside_only_where_all_of_them_have_room():
    """On the middle of a square of cloth; 0.8 mm are left free between them and the seam line."""
    line = "for one “Quay”: 4 Ink"
    wide = text_width(line, WORDS)  # its letter stands 6.5 mm high above it, the line takes 3.5 mm
    for lines in (1, 2, 5):
        high = 6.5 + 3.5 * lines
        side = max(wide, high) + 2 * 0.8
        for more, inside in ((0.2, True), (-0.2, False)):
            at = 3.0 + side + more
            seam = ((3.0, 3.0), (at, 3.0), (at, at), (3.0, at))
            cut = ((0.0, 0.0), (at + 3, 0.0), (at + 3, at + 3), (0.0, at + 3))
            one = Template(
                letter="A",
                lines=(line,) * lines,
                seam=seam,
                cut=cut,
                points=(),
                grain=0.0,
                motif=False,
            )
            assert one.words_inside == inside
            assert one.width == pytest.approx(at + 3 if inside else max(at + 3, wide))
            assert one.height == pytest.approx(at + 3 + (0 if inside else 3.5 * lines + 1.5))
            left, top, right, low = one.words_box((20.0, 20.0))
            assert (right - left, low - top) == pytest.approx((wide, high))
            assert ((left + right) / 2, (top + low) / 2) == pytest.approx((20, 20))
            assert not replace(one, motif=True).words_inside  # a window is left open


def triangle(side, letter):
    cut = ((0.0, 0.0), (side, 0.0), (0.0, side))
    return Template(letter=letter, lines=("A",), seam=((6.0, 6.0), (side - 21, 6.0), (6.0, side - 21)), cut=cut, points=(), grain=0.0, motif=False)  # fmt: skip


def test_triangles_are_nested():
    # two right triangles of 150 mm make a square and a gap: 150 + 6 * √2 = 158.5 mm; side by side
    # their boxes would need 306 mm
    pages, large = nested([triangle(150.0, "A"), triangle(150.0, "B")], 165, 165)
    assert large == () and [len(page) for page in pages] == [2]
    one, two = (
        shapely.Polygon([(x + s.at[0], y + s.at[1]) for x, y in s.template.cut]) for s in pages[0]
    )
    assert one.distance(two) >= SPACE
    assert {s.template.grain for s in pages[0]} in ({0.0, 180.0}, {90.0, 270.0})


def test_what_is_larger_than_the_page_is_handed_back_in_order():
    pages, large = nested([template(300, 300, "B"), template(20, 20, "A"), template(200, 400, "C")], 190, 230)  # fmt: skip
    assert [t.letter for t in large] == ["B", "C"] and len(pages) == 1


def test_a_quarter_turn_takes_the_grain_with_it():
    turned = template(40.0, 100.0, grain=30.0).turned()
    assert (round(turned.width, 6), round(turned.height, 6)) == (100.0, 40.0)
    assert turned.grain == 120.0  # 30 + 90


def edge_lengths(t):
    ring = zip(t.cut, (*t.cut[1:], t.cut[0]), strict=True)
    return sorted(round(math.dist(a, b), 6) for a, b in ring)


def test_a_turned_template_keeps_its_measures():
    one = template(40.0, 100.0)
    two = one.turned()
    assert edge_lengths(one) == edge_lengths(two)


def test_the_test_squares_are_an_inch_and_two_centimetres():
    areas = [
        item for item in templates.test_squares(190, 250, speaker=ENGLISH) if isinstance(item, Area)
    ]
    sides = [a.points[1][0] - a.points[0][0] for a in areas]
    assert [round(side, 6) for side in sides] == [25.4, 20.0]


def test_a_template_larger_than_the_page_is_drawn_in_tiles_that_overlap():
    # 400 mm in tiles of at most 189 mm that share 12: (400 - 12) / 177 = 2.2, three; turned, it would
    # take (400 - 12) / (250 - 12 - 29 - 12 = 197) = 1.97, two
    large = template(400.0, 100.0)
    found = tiles(large, 190.0, 250.0)
    assert [(part, of) for part, of, _ in found] == [(1, 2), (2, 2)]
    drawn = [
        line
        for _, _, items in found
        for line in items
        if isinstance(line, Line) and line.ink is Ink.CUT
    ]
    upright = [ln for ln in drawn if ln.points[0][0] == pytest.approx(ln.points[1][0])]
    # both long edges, and 12 mm of each twice
    assert sum(math.dist(*ln.points) for ln in upright) == pytest.approx(2 * (400 + 12))


shapes = st.lists(st.tuples(st.floats(0, 700), st.floats(0, 700)), min_size=3, max_size=9)


@settings(deadline=None, max_examples=examples(40))
@given(shapes, st.floats(120, 200), st.floats(190, 270))
def test_tiles_hold_every_line_in_their_frames_and_meet_at_their_crosses(points, width, height):
    hull = shapely.MultiPoint(points).convex_hull
    if hull.geom_type != "Polygon" or hull.area < 100:
        return
    cut = tuple(hull.exterior.coords)[:-1]
    whole = placed(template(50.0, 50.0), cut, cut, cut, 0.0)
    tiling = tiled(whole, width, height)
    boxes = [shapely.box(*tile.box) for tile in tiling.tiles]
    outline = shapely.Polygon(tiling.template.cut)
    assert shapely.union_all(boxes).buffer(1e-6).covers(outline.exterior)
    for tile in tiling.tiles:
        left, top, right, low = tile.box
        assert right - left <= width - 1 + 1e-6 and low - top <= height - HEAD - SQUARES + 1e-6
    for cross in tiling.crosses():  # each on exactly the two tiles it joins, or on four at a corner
        on = sum(box.buffer(1e-9).covers(shapely.Point(cross)) for box in boxes)
        assert on >= 2
    together = shapely.union_all(boxes)
    assert together.geom_type == "Polygon"  # every tile has a neighbour
    plain = tuple(b for b in (tiled(whole, width, height), tiled(whole.turned(), width, height)))
    assert len(plain[0].tiles) == len(plain[1].tiles)


def test_an_empty_tile_is_left_out():
    # a right triangle of 300 x 500 mm on letter: 2 x 3 tiles, and one lies outside the long side
    cut = ((0.0, 0.0), (0.0, 500.0), (300.0, 500.0))
    tiling = tiled(placed(template(50.0, 50.0), cut, cut, cut, 0.0), 194.0, 250.0)
    assert len(tiling.tiles) == 5
