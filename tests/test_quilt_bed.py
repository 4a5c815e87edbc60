"""Beds: the size wanted and the layout that comes nearest."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st
from quilt_helpers import inches

from booklet.kit.measure import ZERO
from booklet.quilt.beds.bed import US_MATTRESSES, propose, quilt_for, smallest_batting

TWELVE = inches(12), inches(12)


def test_queen_bed_with_12_in_blocks():
    target = quilt_for(US_MATTRESSES["queen"], inches(12))  # 84 x 92
    got = propose(target, TWELVE, widest_border=inches(6))
    assert (got.across, got.down, got.border) == (6, 7, inches(5))
    assert got.finished == (inches(82), inches(94))  # 6 * 12 + 2 * 5, 7 * 12 + 2 * 5
    assert got.off(target) == (inches(-2), inches(2))


def test_exact_layout_with_sashing():
    # 5 * 12 + 4 * 3 = 72, 6 * 12 + 5 * 3 = 87
    got = propose((inches(72), inches(87)), TWELVE, sashing=inches(3))
    assert (got.across, got.down, got.border) == (5, 6, ZERO)


@given(st.integers(10, 60), st.integers(10, 60), st.integers(3, 14), st.integers(0, 3))
def test_proposal_is_the_nearest_by_brute_force(width, height, side, sash):
    target, block = (inches(width), inches(height)), (inches(side), inches(side))
    got = propose(target, block, inches(sash), inches(3), inches("1/2"))
    best = min(
        abs(a * side + (a - 1) * sash + b - width) + abs(d * side + (d - 1) * sash + b - height)
        for a in range(1, 22)
        for d in range(1, 22)
        for b in range(7)  # twice the border of 0, 1/2 … 3 in
    )
    assert sum(abs(float(x)) for x in got.off(target)) == pytest.approx(best)


def test_tiny_blocks_are_refused():
    with pytest.raises(ValueError, match="smaller"):
        propose(TWELVE, (ZERO, ZERO))


def test_no_batting_is_large_enough():
    assert smallest_batting((inches(130), inches(100))) is None
    assert smallest_batting((inches(70), inches(80))) == "twin"
