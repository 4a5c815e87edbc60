"""Published figures for beds: mattresses, drops, pillow tucks.

Not compared: mat-crib-min (EngineerFix: a crib mattress is at least 27 1/4 x 51 5/8 in) is a least size, and mat-ispa (International Sleep
Products Association, from memory) was not seen; any mattress can be given by its size.
"""

from __future__ import annotations

import pytest

from booklet.kit.measure import ZERO, Length
from booklet.quilt.beds.bed import UK_MATTRESSES, US_MATTRESSES, fit, quilt_for

L = Length.of


def size(width, height, unit="in"):
    return L(f"{width} {unit}"), L(f"{height} {unit}")


@pytest.mark.parametrize(
    ("name", "wide", "long"),
    [
        ("crib", 28, 52),
        ("twin", 39, 75),
        ("twin xl", 39, 80),
        ("full", 54, 75),
        ("queen", 60, 80),
        ("king", 76, 80),
        ("cal king", 72, 84),
    ],
    # mat-crib, mat-twin, mat-twin_xl, mat-full, mat-queen, mat-king, mat-cal_king,
    # The Spruce Crafts, Quick Reference Chart for Standard Mattress Sizes
)
def test_mattresses_us(name, wide, long):
    assert US_MATTRESSES[name] == size(wide, long)


@pytest.mark.parametrize(
    ("name", "wide", "long"),
    [
        ("small single", 75, 190),
        ("single", 90, 190),
        ("small double", 120, 190),
        ("double", 135, 190),
        ("king", 150, 200),
        ("super king", 180, 200),
    ],
    # uk-small_single, uk-single, uk-small_double, uk-double, uk-king, uk-super_king,
    # UK bed retailer size guides (four agree)
)
def test_mattresses_uk(name, wide, long):
    assert UK_MATTRESSES[name] == size(wide, long, "cm")


def test_crib_is_within_the_rule_for_cribs():
    # mat-cfr, EngineerFix citing 16 CFR part 1219: 28 x 52 3/8 ± 5/8 in inside
    wide, long = US_MATTRESSES["crib"]
    assert abs(wide.inches - 28) <= L("5/8").inches
    assert abs(long.inches - L("52 3/8").inches) <= L("5/8").inches


# mat-c1, mat-c2, mat-c3, mat-c4: sources disagree on mattresses by an inch or two; any size can be given.
@pytest.mark.parametrize(
    ("mattress", "source"),
    [
        ((38, 75), "reference.com answers, twin"),
        ((53, 75), "reference.com answers, full"),
        ((38, 74.5), "furniture retailer page, twin"),
        ((60, 79.5), "furniture retailer page, queen"),
        ((36, 80), "About.com Quilting, long twin"),
        ((78, 80), "Pamela Hill Quilts, king"),
    ],
)
def test_other_mattresses(mattress, source):
    got = quilt_for(size(*mattress), L(12))
    assert got == size(mattress[0] + 24, mattress[1] + 12), source
    assert fit(got, size(*mattress)) == (L(12), ZERO)


# drop14-twin, drop14-long_twin, drop21-long_twin, drop21-full, drop14-long_double, drop21-long_double,
# drop14-queen, drop21-queen, drop14-cal_king, Koolbeenz blog (Dhahran guild handout), New sizes for quilts, 2012: drop on three sides
@pytest.mark.parametrize(
    ("mattress", "drop", "tuck", "printed"),
    [
        ((38, 75), 14, 0, (66, 89)),
        ((38, 80), 14, 0, (66, 94)),
        ((38, 80), 21, 12, (80, 113)),
        ((54, 75), 21, 12, (96, 108)),
        ((54, 80), 14, 0, (82, 94)),
        ((54, 80), 21, 12, (96, 113)),
        ((60, 80), 14, 0, (88, 94)),
        ((60, 80), 21, 12, (102, 113)),
        ((72, 84), 14, 0, (100, 98)),
    ],
)
def test_drops(mattress, drop, tuck, printed):
    assert quilt_for(size(*mattress), L(drop), L(tuck)) == size(*printed)


def test_twin_with_12_in_drop():
    # drop12-twin, slide12-twin, Cia's Palette, Standard Mattress Sizes; the same in school slides on yardage
    assert quilt_for(US_MATTRESSES["twin"], L(12)) == size(63, 87)


def test_fit_of_a_large_quilt_on_a_queen_bed():
    # fit-queen, Pamela Hill Quilts, technical page: 104 x 122 on 60 x 80: 22 in drop, 20 in left
    assert fit(size(104, 122), US_MATTRESSES["queen"]) == (L(22), L(20))


# tuck-14, tuck-10, pillow tuck: 14 in (Quilter's Resources), 10 in (Sew Nana, 2010), 12 in (Dhahran handout)
@pytest.mark.parametrize("tuck", [10, 12, 14])
def test_pillow_tucks(tuck):
    assert quilt_for(size(60, 80), L(21), L(tuck)) == size(102, 101 + tuck)
