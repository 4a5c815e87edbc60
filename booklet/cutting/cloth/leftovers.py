"""Floor 7: what is left over. Ends of strips that nothing is cut from, alike ones counted together."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from fractions import Fraction

from booklet.cutting.cloth.jobs import LaidStrip
from booklet.cutting.cutting_plan import Leftover
from booklet.kit.measure import Length, Rounding
from booklet.kit.outlines.near import NOISE
from booklet.kit.trade import LEAST_SCRAP


def leftovers_of(
    groups: Iterable[tuple[LaidStrip, ...]],
    width: Length,
    step: Fraction,
    uncut: Iterable[Length],
) -> tuple[Leftover, ...]:
    """The ends of strips, and lengths of cloth that are `uncut` right across, rounded down to what the
    ruler shows, the largest first."""
    found: Counter[tuple[Length, Length]] = Counter()
    for length in uncut:
        whole = length.rounded(step, Rounding.DOWN)
        if whole >= LEAST_SCRAP:
            found[width, whole] += 1
    for group in groups:
        for strip in group:
            until = float(width) if strip.until is None else strip.until
            across = Length.of(max(until - strip.used, 0.0) + NOISE).rounded(step, Rounding.DOWN)
            if across >= LEAST_SCRAP and strip.height >= LEAST_SCRAP:
                found[across, strip.height] += 1
    largest = sorted(found, key=lambda size: (-(size[0].inches * size[1].inches), size))
    return tuple(Leftover(*size, found[size]) for size in largest)
