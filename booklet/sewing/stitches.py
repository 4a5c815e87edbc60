"""Floor 4: the stitch length that fills equal seams with whole stitches.

A seam that ends at its points must not be sewn past them, so a whole number of stitches should fill
it or fall a hair short. Common practice: at a 2.5 mm setting a 1 in seam takes 10 stitches, 25.0 of
25.4 mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterable

from booklet.kit.measure import MM_PER_INCH
from booklet.kit.outlines.near import WHOLE

TENTHS = range(20, 31)  # the settings 2.0, 2.1, … 3.0 mm
LARGEST_SHORTFALL_MM = 0.6


def stitches(length_mm: float, setting_mm: float) -> int:
    """How many whole stitches of a setting fit into a seam; both in millimetres."""
    return math.floor(length_mm / setting_mm + WHOLE)


def shortfall(length_mm: float, setting_mm: float) -> float:
    """How many millimetres of a seam are left after its whole stitches."""
    return max(0.0, length_mm - stitches(length_mm, setting_mm) * setting_mm)


def best_setting(lengths_in: Iterable[float]) -> float | None:
    """The stitch length in mm that leaves at most 0.6 mm of every seam (given in inches) unfilled.

    Of those that do, the one nearest to 2.5 mm; of two equally near, the smaller shortfall. None if
    no setting from 2.0 to 3.0 mm serves all the seams, or there are none.
    """
    seams = sorted({round(length * float(MM_PER_INCH), 4) for length in lengths_in})
    good = [
        (abs(tenths - 25), worst, tenths / 10)
        for tenths in TENTHS
        if seams
        and (worst := max(shortfall(s, tenths / 10) for s in seams)) <= LARGEST_SHORTFALL_MM + WHOLE
    ]
    return min(good)[2] if good else None
