"""Amounts: sums line by line, precuts, fussy cuts, long parts, and whole sizes."""

from __future__ import annotations

import itertools
from collections import Counter
from fractions import Fraction

import pytest
from cutting_helpers import a_fabric, inches, pattern_text, plan_of
from hypothesis import given, settings, strategies as st

from booklet.cutting.cloth.precuts import stock_of
from booklet.cutting.cloth.yardage import amount, sold, to_buy
from booklet.cutting.work.fussy_work import fussy_plan, least_length
from booklet.cutting.work.long_parts import joined_strips, stretches_of
from booklet.cutting.work.repeats import Repeat, plain_motifs
from booklet.kit.measure import Length
from booklet.kit.outlines.plane import rectangle
from booklet.kit.records import replace
from booklet.pattern import Sold, SoldAs

from shapely import Polygon  # isort: skip

L = inches
METRE = Sold(L("10 cm"), True)


def test_the_sum_is_shown_line_by_line():
    found = amount(((3, L("2 1/2")), (2, L(4))), a_fabric(), "inch")
    assert found.sum == (
        "3 strips, 2 1/2 in = 7 1/2 in",
        "2 strips, 4 in = 8 in",
        "straightening the edge: 1/2 in",
        "together 16 in",
        "rounded up to what is sold: 1/2 yd",  # 18 in
    )
    assert (found.buy.yards, found.buy.yards_text) == (Fraction(1, 2), "1/2")
    assert found.buy.metres == Fraction(5, 10)  # 16 in = 40.64 cm


def test_shrinkage_and_extra():
    fabric = a_fabric(shrinks=Fraction(1, 20), extra_share=Fraction(1, 10), extra=L(2))
    # 19 / 0.95 = 20; + 10 % = 22; + 2 = 24 in
    assert to_buy(L(19), fabric) == L(24)
    found = amount(((1, L("18 1/2")),), fabric, "inch")
    assert found.sum[2:] == (
        "together 19 in",
        "shrinking by 5 percent: divided by 0.95 = 20 in",
        "extra: 10 percent",
        "extra: 2 in",
        "in all 24 in",
        "rounded up to what is sold: 3/4 yd",  # 27 in
    )


def test_sold_by_the_metre():
    found = amount(((1, L("24 cm")),), a_fabric(sold=METRE), "cm", straightening=L("1 cm"))
    assert found.buy.metres == Fraction(3, 10)  # 25 cm
    assert found.buy.yards == Fraction(3, 8)  # 9.84 in; 1/4 yd is only 9
    assert found.sum[-1] == "rounded up to what is sold: 0.3 m"


@given(st.fractions(1, 400, max_denominator=8), st.fractions(0, 20, max_denominator=8))
def test_what_is_sold_is_enough_and_never_falls(length, more):
    fabric = a_fabric(shrinks=Fraction(3, 100))
    less, much = sold(Length(length), fabric), sold(Length(length + more), fabric)
    assert less.inches * Fraction(97, 100) >= length
    assert much >= less


@given(
    st.lists(st.fractions(1, 200, max_denominator=8), min_size=1, max_size=6),
    st.fractions(30, 44, max_denominator=4),
    st.sampled_from(["1/2", "3/4"]),
    st.sampled_from([0, 2, 6]),
)
def test_long_parts(lengths, usable, takes, least):
    """Cut and sewn by hand, as the strips say: every part gets its length, no strip is cut twice in one
    place, and no seam lies nearer an end than it may."""
    loss = L(takes)
    parts = [(f"p{i % 3}", Length(x)) for i, x in enumerate(lengths)]
    strips = joined_strips(parts, Length(usable), loss, L(least))
    for number, (_, length) in enumerate(parts):
        stretches = [s.length.inches for strip in strips for s in strip if s.part == number]
        sewn = stretches[0]
        for stretch in stretches[1:]:
            sewn = sewn + stretch - loss.inches  # one allowance of either
        assert sewn == length.inches
        assert len(stretches) == 1 or min(stretches) >= least
        assert (len(stretches) == 1) == (length.inches <= usable)
    for strip in strips:
        at = Fraction(0)
        for segment in strip:
            assert segment.start.inches == at
            at += segment.length.inches
        assert at <= usable


@pytest.mark.parametrize(
    ("length", "stretches"),
    [
        ("40", ["40"]),
        ("72 1/2", ["40", "33"]),  # 40 + 33 - 1/2
        ("40 1/2", ["39", "2"]),  # 40 + 1 - 1/2 would put a seam into the corner: 39 + 2 - 1/2
        ("112", ["40", "40", "33"]),  # 40 + 40 + 33 - 2 x 1/2
        ("80", ["40", "39", "2"]),  # 40 + 40 + 1 - 2 x 1/2; 40 + 39 + 2 - 1
    ],
)
def test_a_part_takes_whole_strips_and_an_end(length, stretches):
    assert stretches_of(L(length), L(40), L("1/2"), L(2)) == [L(x) for x in stretches]


def fewest(ends, usable):
    """The least number of strips that hold some ends, every way tried."""
    for count in range(1, len(ends) + 1):
        for ways in itertools.product(range(count), repeat=len(ends)):
            rooms = [
                sum(e for e, way in zip(ends, ways, strict=True) if way == k) for k in range(count)
            ]
            if max(rooms) <= usable:
                return count
    return 0


@settings(deadline=None)
@given(st.lists(st.integers(41, 130), min_size=2, max_size=5))
def test_the_strips_counted_are_enough_and_hardly_ever_one_too_many(lengths):
    """First fit of the ends, longest first, against all ways to lay them: never less than is needed, and
    of five ends at most one strip more."""
    parts = [("border", L(x)) for x in lengths]
    strips = joined_strips(parts, L(40), L("1/2"), L(2))
    ends = [stretches_of(L(x), L(40), L("1/2"), L(2))[-1].inches for x in lengths]
    whole = sum(len(stretches_of(L(x), L(40), L("1/2"), L(2))) - 1 for x in lengths)
    least = whole + fewest(ends, 40)
    assert least <= len(strips) <= least + 1


def oblong(width, height):
    return rectangle(0.0, 0.0, width, height)


def fussy(pieces, outline, across, along, drop=0.0, sure=True):
    """The plan of cloth 40 in wide; not `sure`, of cloth that begins with a motif where the first piece has it: as of cloth a
    repeat wider, and a repeat shorter."""
    repeat = Repeat(across, along, drop)
    if sure:
        return fussy_plan(pieces, outline, repeat, L(40))
    plan = fussy_plan(pieces, outline, repeat, L(40) + L(across))
    return replace(plan, length=plan.length - along)


def test_least_length_of_fussy_cuts():
    # 40 - 4 1/2 = 35 1/2 in hold motifs every 12 in: 2 + 1 columns; 7 pieces: 3 rows, 2 * 8 + 4 1/2
    assert least_length(7, oblong(4.5, 4.5), Repeat(12, 8), L(40)) == 20.5
    # dropped by half: 5 motifs to every 8 in... 3 columns, heights 0 4 0: 0 0 4 8 8 12 16: 16 + 4 1/2
    assert least_length(7, oblong(4.5, 4.5), Repeat(12, 8, 4), L(40)) == 20.5


@given(
    st.integers(1, 60),
    st.integers(1, 12),
    st.integers(1, 12),
    st.integers(2, 14),
    st.integers(2, 14),
    st.integers(0, 13),
)
def test_no_fussy_cuts_are_shorter_than_the_least(pieces, w, h, rx, ry, drop):
    least = least_length(pieces, oblong(w, h), Repeat(rx, ry, drop % ry), L(40))
    assert least <= fussy(pieces, oblong(w, h), rx, ry, drop % ry, sure=False).length + 1e-9


def test_fussy_rows():
    # own formula: 40 in cloth, 4 1/2 in pieces, repeat 12 x 8: (40 - 4 1/2) / 12 = 2.96: 3 in a row
    plan = fussy(7, oblong(4.5, 4.5), 12, 8, sure=False)
    assert ([len(row) for row in plan.rows()], plan.length) == ([3, 3, 1], 20.5)  # 8 + 8 + 4 1/2
    # the motif may stand anywhere: one fewer in a row, one repeat more
    sure = fussy(7, oblong(4.5, 4.5), 12, 8)
    assert ([len(row) for row in sure.rows()], sure.length) == (
        [2, 2, 2, 1],
        36.5,
    )  # 3 * 8 + 4 1/2 + 8


def test_a_piece_larger_than_the_repeat_skips_one():
    places = fussy(4, oblong(7, 9), 6, 8, sure=False).places
    assert places == ((0, 0), (12, 0), (24, 0), (0, 16))


def test_a_half_drop_lets_columns_interlock():
    # 7 in squares, motifs every 8 x 8 dropped by half: columns 8 apart, so the drop costs 4 in once
    plan = fussy(8, oblong(7, 7), 8, 8, 4, sure=False)
    # columns at 0 8 16 24 32, heights 0 4 0 4 0: three at 0, two at 4, three at 8: 8 + 7
    assert plan.length == 15
    assert len(plan.rows()) == 1  # no straight cut parts them


def test_diamonds_interlock_on_the_repeat():
    # diamonds 8 wide and 8 high on motifs every 4 in: upright boxes take 8 x 8, staggered ones half of it
    diamond = ((4.0, 0.0), (8.0, 4.0), (4.0, 8.0), (0.0, 4.0))
    plan = fussy(40, diamond, 4, 4, sure=False)
    heights = Counter(y for _, y in plan.places)
    assert heights == {**{4 * row: (5, 4)[row % 2] for row in range(8)}, 32: 4}
    # rows 4 in apart, 5 and 4 in turn: 40 in 9 rows, (9 - 1) * 4 + 8; boxes: 8 rows of 8 in
    assert plan.length == 40


@given(
    st.integers(1, 40),
    st.sampled_from(
        [
            rectangle(0.0, 0.0, 3.0, 5.0),
            ((4.0, 0.0), (8.0, 4.0), (4.0, 8.0), (0.0, 4.0)),
            ((0.0, 0.0), (6.0, 6.0), (0.0, 6.0)),
            ((2.0, 0.0), (6.0, 0.0), (4.0, 3.0), (0.0, 3.0)),
            ((1.0, 0.0), (3.0, 0.0), (4.0, 2.0), (3.0, 4.0), (1.0, 4.0), (0.0, 2.0)),
        ]
    ),
    st.integers(1, 9),
    st.integers(1, 9),
    st.integers(0, 8),
)
def test_fussy_cuts_lie_on_the_repeat_and_do_not_overlap(pieces, outline, rx, ry, drop):
    drop %= ry
    plan = fussy(pieces, outline, rx, ry, drop)
    assert len(plan.places) == pieces
    x0, y0 = plan.places[0]
    for x, y in plan.places:
        column = round((x - x0) / rx)
        assert abs((x - x0) / rx - column) < 1e-6
        off = (y - y0 - column * drop) / ry
        assert abs(off - round(off)) < 1e-6
    shapes = [Polygon([(x + px, y + py) for px, py in outline]) for x, y in plan.places]
    right = max(shape.bounds[2] for shape in shapes)
    assert right <= 40 - rx + 1e-6
    assert max(shape.bounds[3] for shape in shapes) == pytest.approx(plan.length - ry)
    for one, other in itertools.combinations(shapes[:25], 2):
        assert one.intersection(other).area < 1e-6


def test_staggered_fussy_cuts_never_take_more_than_level_rows():
    outline = ((2.0, 0.0), (6.0, 0.0), (4.0, 3.0), (0.0, 3.0))
    for rx, ry, drop in itertools.product((1, 2, 3), (1, 2, 3), (0, 1)):
        best = fussy(30, outline, rx, ry, drop % ry, sure=False)
        level = plain_motifs((6.0, 3.0), Repeat(rx, ry, drop % ry)).places(30, 34.0)
        assert best.length <= level[-1][1] + 3 + 1e-9


def test_stock():
    assert stock_of(a_fabric()) is None
    fat = stock_of(a_fabric(kind=SoldAs("fat quarter")))
    assert fat is not None and (fat.across, fat.along) == (L(21), L(18))
    eighth = stock_of(a_fabric(kind=SoldAs("fat eighth")))  # 9 x 20 to 22 in, common practice
    assert eighth is not None and (eighth.across, eighth.along) == (L(21), L(9))
    strip = stock_of(a_fabric(kind=SoldAs("strips 2 1/2 in")))
    assert strip is not None and (strip.across, strip.along) == (L(40), L("2 1/2"))
    square = stock_of(a_fabric(kind=SoldAs("squares 10 in")))
    assert square is not None and (square.across, square.along) == (L(10), L(10))


def precut(tmp_path, kind, side, count):
    fabric = f'  ink: {{name: Ink, colour: "#224466", kind: {kind}}}'
    piece = "      - {id: a, patch: p, fabric: ink, at: [3, 3]}"
    text = pattern_text(fabric, f"  p: {{shape: square, side: {side}}}", piece, str(count))
    return plan_of(tmp_path, text).fabrics[0]


@pytest.mark.parametrize(
    ("kind", "side", "count", "needed"),
    [
        ("fat quarter", "4 1/2", 13, 2),  # 5 in squares: 4 x 3 = 12 from 18 x 21
        ("fat quarter", "4 1/2", 12, 1),
        ("fat eighth", "4", 9, 2),  # 4 1/2 in squares: 4 x 2 = 8 from 9 x 21
        ("fat eighth", "4", 8, 1),
        ("strips 2 1/2 in", "2", 33, 3),  # 16 from a strip of 40
        ("squares 5 in", "2", 9, 3),  # four 2 1/2 in squares from each
        ("squares 10 in", "4 1/2", 5, 2),
    ],
)
def test_precuts_needed(tmp_path, kind, side, count, needed):
    plan = precut(tmp_path, kind, side, count)
    assert plan.buy.count == needed
    assert plan.lower_bound <= plan.length


def motif(tmp_path, kind):
    """Two pictures of 22 x 34 in finished, from a cloth that has one every 36 in."""
    fabric = (
        '  ink: {name: Ink, colour: "#224466", width: 43 in, repeat: {across: 43 in, along: 36 in}'
        f", direction: one-way, kind: {kind}}}"
    )
    piece = "      - {id: a, patch: p, fabric: ink, motif: yes, at: [11, 17]}"
    shape = "  p: {shape: rectangle, width: 22, height: 34}"
    return plan_of(tmp_path, pattern_text(fabric, shape, piece, "2")).fabrics[0].buy


def test_a_cloth_that_is_sold_by_the_panel_needs_no_more_than_its_pictures(tmp_path):
    """Of a cloth by the yard 36 + 34 1/2 in, one repeat more, since it may begin just below the top of a picture, and 1/2 in:
    107 in are 3 yd. Whoever buys two panels has two pictures."""
    assert motif(tmp_path, "yardage").yards_text == "3"
    panels = motif(tmp_path, "panel")
    assert (panels.count, str(panels.yards_text)) == (2, "2 panels")


QUILT = """\
quilt:
  set: straight
  borders: [{width: 3 in, fabric: ink}]
  binding: {width: 2 1/2 in, fabric: ink}
  backing: {extra: 4 in, fabric: back}
"""


def whole_quilt(tmp_path, blocks="5 x 6"):
    fabrics = """\
  ink: {name: Ink, colour: "#224466"}
  sand: {name: Sand, colour: "#eeddcc"}
  back: {name: Back, colour: "#cccccc"}"""
    pieces = """\
      - {id: a, patch: p, fabric: ink, at: [3, 3]}
      - {id: b, patch: p, fabric: sand, at: [9, 3]}
      - {id: c, patch: p, fabric: sand, at: [3, 9]}
      - {id: d, patch: p, fabric: ink, at: [9, 9]}"""
    text = pattern_text(fabrics, "  p: {shape: square, side: 6}", pieces, blocks, QUILT)
    return plan_of(tmp_path, text)


def test_a_whole_quilt(tmp_path):
    plan = whole_quilt(tmp_path)
    ink, sand, back = plan.fabrics
    # 5 x 6 blocks of 12 in: 60 x 72; borders 3 in: 66 x 78
    first, second, *rest = ink.strips
    assert (str(first.width), first.count) == (
        "3 1/2",
        8,
    )  # 2 x 72 1/2, 2 x 66 1/2: each 1 and an end
    assert second.uses[0].name == "binding"
    assert [str(s.width) for s in rest] == ["6 1/2"]
    squares = sum(u.pieces for s in rest for u in s.uses)
    assert squares == 60 == sum(u.pieces for s in sand.strips for u in s.uses)
    assert rest[0].count == 10  # 6 of 6 1/2 in from 40 in
    total = sum(s.count * s.width.inches for s in ink.strips)
    assert ink.length.inches == total + Fraction(1, 2)
    assert back.strips[0].uses[0].name == "backing"
    assert back.length >= L(66 + 8)


def test_borders_and_binding_come_first_and_more_blocks_never_take_less(tmp_path):
    amounts = []
    for blocks in ("2 x 2", "3 x 3", "4 x 5", "5 x 6"):
        plan = whole_quilt(tmp_path, blocks)
        amounts.append([float(f.buy.yards) for f in plan.fabrics])
    for before, after in itertools.pairwise(amounts):
        assert all(a <= b for a, b in zip(before, after, strict=True))
