"""Floor 7: ends of settled strips. What borders, binding and panels leave unused is cut into smaller pieces
before a new strip is begun."""

from __future__ import annotations

import math
from fractions import Fraction

from booklet.cutting.cloth.jobs import Job
from booklet.cutting.strips.items import Remnant
from booklet.kit.measure import Length
from booklet.kit.outlines.near import WHOLE

MOST = 8
"""Remnants used at most, the largest: more would only slow the plan down."""


def remnants_of(
    job: Job, width: Length, step: Fraction
) -> tuple[tuple[Remnant, ...], tuple[tuple[int, int], ...]]:
    """The ends of settled strips that some item fits in, and for each the group and strip it ends."""
    found = []
    for group, strips in enumerate(job.settled):
        for index, strip in enumerate(strips):
            until = float(width) if strip.until is None else strip.until
            room = math.floor((until - strip.used) / float(step) + WHOLE)
            remnant = Remnant(room, math.floor(strip.height.inches / step))
            if strip.free and _holds_any(job, remnant):
                found.append((-remnant.width * remnant.height, group, index, remnant))
    largest = sorted(found, key=lambda entry: entry[:3])[:MOST]
    in_order = sorted(largest, key=lambda entry: entry[1:3])
    return tuple(e[3] for e in in_order), tuple((e[1], e[2]) for e in in_order)


def _holds_any(job: Job, remnant: Remnant) -> bool:
    return any(
        variant.lengths[0] <= remnant.width and variant.height <= remnant.height
        for item in job.items
        for variant in item.variants
    )
