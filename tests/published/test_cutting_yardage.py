"""Published figures for yardage. Squares from cloth are counted by the plan itself: n fit, n + 1 do not."""

from __future__ import annotations

from fractions import Fraction

import pytest
from cutting_helpers import a_fabric, box_item, cloth_for

from booklet.cutting.cloth.yardage import EIGHTH_YARD, amount, sold, to_buy
from booklet.kit.measure import ZERO, Length, Rounding
from booklet.kit.trade import FAT_QUARTER, STRAIGHTENING
from booklet.quilt.finishing.binding import strips_for_length

L = Length.of


def holds(cut, count, width, length):
    """Whether the plan gets that many squares out of the cloth, and not one more."""
    enough = cloth_for([box_item("A", cut, cut, count, width)], width) <= length
    return enough and cloth_for([box_item("A", cut, cut, count + 1, width)], width) > length


CACHE = "Quilter's Cache, Math charts, 2002"  # its head says 42 x 36, its figures fit 44 x 36


@pytest.mark.parametrize(
    ("cut", "squares"),
    [
        (1, 1584), (2, 396), (3, 168), (3.875, 99), (4, 99), (4.5, 72), (4.875, 63), (5.5, 48),
        (6, 42), (7.5, 20), (7.875, 20), (8, 20), (8.5, 20), (9, 16), (9.875, 12), (10.5, 12),
        (11, 12), (11.5, 9), (11.875, 9), (12, 9), (12.875, 6),
    ],
)  # fmt: skip
def test_squares_from_a_yard(cut, squares):
    # sqyd-*, Quilter's Cache
    assert holds(cut, squares, 44, 36), CACHE


@pytest.mark.parametrize(
    ("cut", "squares"),
    [(2, 99), (3.5, 30), (4, 20), (4.5, 16), (5, 12), (5.875, 9), (6.5, 6), (6.875, 6)],
)
def test_squares_from_a_fat_quarter(cut, squares):
    # fq-*, Quilter's Cache: 18 x 22 in
    assert holds(cut, squares, 22, 18), CACHE


@pytest.mark.parametrize(("cut", "squares"), [(2, 90), (4, 20), (5, 12), (6, 9)])
def test_squares_from_the_least_fat_quarter(cut, squares):
    # fq21-*, Langley Quilters Guild: 18 x 21 in, our default
    across, along = (float(side) for side in FAT_QUARTER)
    assert holds(cut, squares, across, along)


CHART = (
    "quilt-shop chart, Yardage - Fabric Cutting Chart"  # fits 43 1/2 in, 1/4 in lost of the length
)


@pytest.mark.parametrize(
    ("cut", "squares", "yards"),
    [
        (1, 731, "1/2"), (1.5, 667, "1"), (2, 168, "1/2"), (2.5, 51, "1/4"), (2.5, 119, "1/2"),
        (2.5, 238, "1"), (3, 28, "1/4"), (3, 154, "1"), (3.5, 24, "1/4"), (3.5, 60, "1/2"),
        (3.5, 120, "1"), (4, 20, "1/4"), (4, 40, "1/2"), (4, 80, "1"), (4.5, 9, "1/4"),
        (4.5, 27, "1/2"), (4.5, 63, "1"), (5, 24, "1/2"), (5, 56, "1"), (5.5, 42, "1"),
        (6, 7, "1/4"), (6, 14, "1/2"), (6.5, 6, "1/4"), (6.5, 30, "1"),
    ],
)  # fmt: skip
def test_squares_from_washed_cloth(cut, squares, yards):
    # syl-*: the length is a part of a yard less what straightening takes
    for lost in (0.25, float(STRAIGHTENING.inch)):
        assert holds(cut, squares, 43.5, float(Fraction(yards)) * 36 - lost), CHART


@pytest.mark.parametrize(
    ("width", "cut", "squares"),
    [
        (36, 3, 144), (36, 4, 81), (36, 5, 49), (36, 6, 36), (36, 8, 16), (36, 9, 16),
        (36, 10, 9), (36, 12, 9), (45, 4, 99), (45, 5, 63), (45, 7, 30), (45, 9, 20),
    ],
)  # fmt: skip
def test_squares_from_a_yard_of_other_widths(width, cut, squares):
    # qv-*, Quiltville blog, 2005
    assert holds(cut, squares, width, 36)


@pytest.mark.parametrize(
    ("cut", "width", "length", "printed", "ours", "source"),
    [
        (7, 44, 36, 35, 30, "sqyd-7, Quilter's Cache: 6 x 5 is all there is"),
        (2.5, 22, 18, 55, 56, "err-fq-qr-2.5, Quilter's Resources: 8 x 7"),
        (1.5, 43.5, 17.5, 219, 319, "syl-1.5-1_2, quilt-shop chart: 29 x 11"),
        (12, 45, 36, 12, 9, "qv-45-12, Quiltville: 3 x 3"),
        (15, 45, 36, 4, 6, "qv-45-15, Quiltville: 3 x 2"),
    ],
)
def test_errata(cut, width, length, printed, ours, source):
    assert holds(cut, ours, width, length) and ours != printed, source


def test_80_squares():
    # yd-80sq, Feathered Star Productions: 16 a strip, 5 strips, 12 1/2 in, x 1.06 = 13 1/4, 3/8 yd
    item = box_item("A", 2.5, 2.5, 80, 40)
    assert item.variants[0].most == 16
    assert cloth_for([item], 40) == 12.5
    more = L(12.5) * Fraction(106, 100)
    assert more == L("13 1/4")
    assert more.rounded(EIGHTH_YARD.inches, Rounding.UP) == L("13 1/2")  # 3/8 yd
    assert sold(L(12.5), a_fabric(extra_share=Fraction(6, 100))) == L("13 1/2")


def test_56_squares():
    # yd-56sq, Karen Childress: 6 a strip, 10 strips, 65 in, 1 7/8 yd; with straightening it is the same
    item = box_item("A", 6.5, 6.5, 56, 42)
    assert (item.variants[0].most, cloth_for([item], 42)) == (6, 65)
    found = amount(((10, L("6 1/2")),), a_fabric(), "inch")
    assert found.buy.yards_text == "1 7/8"


def test_200_squares():
    # yd-200sq, Quiltfrenzy archive: 12 a strip, 17 strips
    item = box_item("A", 3.5, 3.5, 200, 44)
    assert (item.variants[0].most, cloth_for([item], 44) / 3.5) == (12, 17)


def test_two_sizes_of_squares():
    # yd-52-20, Quilting Board thread: 52 of 4 in and 20 of 3 in from 44 in cloth take 26 in
    items = [box_item("A", 4, 4, 52, 44), box_item("B", 3, 3, 20, 44)]
    assert cloth_for(items, 44) <= 26
    # 5 strips of 11 fours (one with 8) and 2 of 14 threes: 20 + 6; some threes lie beside the fours


def test_84_squares_beside_borders():
    # yd-84, Quilting Board post, 2010: 105 x 20 in gives 84 squares of 5 in
    assert holds(5, 84, 105, 20)


def test_squares_needed():
    # yd-trad66, yd-rag, Patternmart blog, 2008
    assert [int(x / (6.5 - 0.5)) for x in (48, 66)] == [8, 11]
    assert [int(x / (6 - 1)) for x in (50, 65)] == [10, 13]


@pytest.mark.parametrize(("yards", "inches"), [("3/4", 27), ("1/2", 18), ("3/8", "13 1/2")])
def test_yards_in_inches(yards, inches):
    # ydin-*, Quilter's Resources
    assert L(f"{yards} yd") == L(inches)


def test_widths():
    # width-40 (Feathered Star, rule), width-42 (BellaOnline, contradiction): width is a parameter
    for width in (40, 42):
        assert a_fabric(width=L(width)).width == L(width)
    # width-1067, The Quilter's Bible; width-2: about 2 in (5 cm) for the selvedges
    assert L(42).mm == pytest.approx(1067, abs=0.5)
    assert L(44) - L(2) == L(42)


def test_metric_fat_quarter():
    # fq-metric, fq-12x5, Gone to Earth: half a metre of 110 cm cloth halved: 50 x 55 cm, 12 5 in squares
    assert (L("1 m") / 2, L("110 cm") / 2) == (L("50 cm"), L("55 cm"))
    assert holds(5, 12, float(L("55 cm")), float(L("50 cm")))
    assert holds(5, 12, *(float(side) for side in FAT_QUARTER))


@pytest.mark.parametrize(
    ("changes", "expected", "source"),
    [
        ({"extra_share": Fraction(6, 100)}, "38.16", "shr-106, Feathered Star blog"),
        ({"extra": L(9)}, "45", "shr-ins, Quilting Board article 32: 1/4 yd"),
        ({"shrinks": Fraction(6, 100)}, 36 / 0.94, "shr-2-6, All About Quilts: 6 %"),
        ({"extra": L(18)}, "54", "shr-back, quick answer page: 1/2 yd on backing"),
    ],
)
def test_allowances_for_shrinkage_disagree(changes, expected, source):
    assert float(to_buy(L(36), a_fabric(**changes))) == pytest.approx(float(expected)), source


@pytest.mark.parametrize(
    ("usable", "source"),
    [
        (44 - 2, "shr-2in, Quilting Board post, 2012: up to 2 in, of the width only"),
        (44 * 0.9, "shr-10w, Sewing PatternReview tip 1810: about a tenth of the width"),
    ],
)
def test_shrinking_across_is_a_usable_width(usable, source):
    # what shrinks across is no matter of length: the author gives the width that is left, and strips follow
    item = box_item("A", 4, 4, 40, usable)
    assert item.variants[0].most == int(usable / 4), source
    assert cloth_for([item], usable) == -(-40 // int(usable / 4)) * 4


# shr-cotinc (Cotton technical bulletin ISP 1009, 2004) gives no figure, so there is nothing to compare.


def test_binding_of_a_double_bed():
    # bind-bible, The Quilter's Bible: 270 in of 2 1/2 in take 1/2 yd: 7 strips of 40 in, 17 1/2 in; with
    # 1/2 in for straightening it is 18 in, 1/2 yd to the inch
    strips = strips_for_length(L(270), L(40))
    assert strips == 7
    assert amount(((strips, L("2 1/2")),), a_fabric(), "inch").buy.yards_text == "1/2"


def test_shrinkage_identity():
    # id3-shr (derived): 3 yd after 5 % take 3 / 0.95 = 3.1579 yd, not 3 x 1.05 = 3.15
    bought = to_buy(L("3 yd"), a_fabric(shrinks=Fraction(5, 100)))
    assert float(bought) / 36 == pytest.approx(3.1579, abs=1e-4)
    assert bought > L("3 yd") * Fraction(105, 100)


def test_area_is_no_estimate():
    # bf-57, Quilting Board thread: 36 x 42 = 1512 sq in a yard; the area under-counts what strips need
    item = box_item("A", 6.5, 6.5, 56, 42)
    by_area = 56 * 6.5**2 / 1512 * 36
    assert by_area < cloth_for([item], 42)


def test_lengthwise_border():
    # bord-len, Quilting Board post, 2009: 80 + 10 in is 2 1/2 yd; four 12 in widths are 48 in: more than one
    # length of 42 in cloth holds, so `cut: lengthwise` takes two lengths there (see test_cutting_ways)
    assert (L(80) + L(10)).rounded(EIGHTH_YARD.inches, Rounding.UP) == L("2 1/2 yd")
    assert 4 * L(12) == L(48) > L(42)


def test_nothing_extra_by_default():
    assert to_buy(L(36), a_fabric()) == L(36) + ZERO
