"""Floor 5: which side a strand would rather lie on, as whole-number costs.

Toward the darker fabric by its luminance (relative luminance of the sRGB colour), so that no dark
allowance shows through a light patch; away from bulk, toward the side from which fewer seams end on the
strand; and, all else equal, clockwise seen from the back at a point that can be fanned.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from booklet.kit.colour import luminance
from booklet.pattern import Fabric
from booklet.pressing.meetings.crossings import Crossing, Meeting
from booklet.pressing.strands import Strand, Strands, ray
from booklet.sewing.assembly import Assembly

DARK = 1000  # for one inch of seam between black and white
BULK = 100  # for one seam ending on the strand
ROUND = 1
CONTRAST = 0.02  # a smaller difference of luminance is none
UNKNOWN = 0.5  # of a cloth that is not among the fabrics


def darkness(assembly: Assembly, strands: Strands, fabrics: Mapping[str, Fabric]) -> list[int]:
    """For each strand how much darker its right side is (negative: its left), in DARK per inch."""
    light = {
        piece.id: luminance(fabrics[piece.fabric].colour) if piece.fabric in fabrics else UNKNOWN
        for piece in assembly.tiling.pieces
    }
    return [_darker_right(strands, strand, light) for strand in strands.strands]


def _darker_right(strands: Strands, strand: Strand, light: Mapping[str, float]) -> int:
    total = 0
    for name, forward in zip(strand.seams, strand.forward, strict=True):
        seam = strands.seams[name]
        right, left = seam.between if forward else seam.between[::-1]
        difference = light[left] - light[right]
        if abs(difference) >= CONTRAST:
            total += round(DARK * seam.length * difference)
    return total


def bulk(strands: Strands, crossings: tuple[Crossing, ...]) -> list[int]:
    """For each strand how many more seams end on it from its left than from its right."""
    found = [0] * len(strands.strands)
    for crossing in crossings:
        if len(crossing.line) != 2 or crossing.meeting is Meeting.BEND:
            continue
        seam = strands.seams[crossing.line[0]]
        index, forward = strands.of[seam.id]
        if strands.of[crossing.line[1]][0] != index:
            continue
        along = ray(seam, crossing.at)
        with_strand = forward == (seam.start == crossing.at)
        for arm in crossing.arms:
            r = ray(strands.seams[arm], crossing.at)
            right = (along[0] * r[1] - along[1] * r[0] > 0) == with_strand
            found[index] += -1 if right else 1
    return found


def preferences(
    strands: Strands, crossings: tuple[Crossing, ...], dark_right: Sequence[int]
) -> tuple[tuple[int, int], ...]:
    """The costs of pressing each strand to the left and to the right; `dark_right` as `darkness`."""
    costs = []
    for dark, crowd in zip(dark_right, bulk(strands, crossings), strict=True):
        right_is_better = dark + BULK * crowd
        costs.append([max(0, right_is_better), max(0, -right_is_better)])
    for crossing in crossings:
        if crossing.meeting is Meeting.POINT:
            for seam in crossing.seams:
                index, value = strands.literal(seam, crossing.at)
                costs[index][1 if value else 0] += (
                    ROUND  # clockwise on the page is not so from the back
                )
    return tuple((left, right) for left, right in costs)
