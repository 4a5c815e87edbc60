"""Floor 7: ends of settled strips. What borders, binding and panels leave unused is cut into smaller pieces
before a new strip is begun."""

from __future__ import annotations

import math
from fractions import Fraction

from booklet.cutting.cloth.jobs import Job
from booklet.cutting.strips.items import Remnant
from booklet.kit.measure import Length
from booklet.kit.outlines.near import WHOLE
from booklet.kit.records import replace

MOST = 8
"""Kinds of remnants used at most, the largest: more would only slow the plan down."""

Ends = tuple[tuple[int, int], ...]
"""Which strip of which group alike remnants are the ends of, one for each piece."""


def remnants_of(
    job: Job, width: Length, step: Fraction
) -> tuple[tuple[Remnant, ...], tuple[Ends, ...]]:
    """The ends of settled strips that some item fits in, alike ones as one kind, and for each the groups and strips they
    end."""
    found: dict[Remnant, list[tuple[int, int]]] = {}
    for group, strips in enumerate(job.settled):
        for index, strip in enumerate(strips):
            until = float(width) if strip.until is None else strip.until
            room = math.floor((until - strip.used) / float(step) + WHOLE)
            remnant = Remnant(room, math.floor(strip.height.inches / step))
            if strip.free and _holds_any(job, remnant):
                found.setdefault(remnant, []).append((group, index))
    kinds = [(replace(each, count=len(ends)), tuple(ends)) for each, ends in found.items()]
    largest = sorted(kinds, key=lambda kind: (-_area(kind[0]), kind[1]))[:MOST]
    in_order = sorted(largest, key=lambda kind: kind[1])
    return tuple(remnant for remnant, _ in in_order), tuple(ends for _, ends in in_order)


def _area(remnant: Remnant) -> int:
    """All pieces of it together, in square steps."""
    return remnant.width * remnant.height * remnant.count


def _holds_any(job: Job, remnant: Remnant) -> bool:
    return any(
        variant.lengths[0] <= remnant.width and variant.height <= remnant.height
        for item in job.items
        for variant in item.variants
    )
