"""Floor 9: a border in words: how wide it is, and how its strips are added."""

from __future__ import annotations

from booklet.kit.measure import UnitSystem
from booklet.kit.words import Phrase, Text, phrase, with_unit
from booklet.pattern import Corners
from booklet.quilt.sized import BorderPlan


def border_width(border: BorderPlan, units: UnitSystem) -> Phrase:
    """How wide a border is finished: all round, or at its sides and at top and bottom."""
    sides, ends = with_unit(float(border.sides), units), with_unit(float(border.ends), units)
    if border.sides == border.ends:
        return phrase("{width} wide finished", width=sides)
    if not border.ends.inches:
        return phrase("{width} wide finished, at the sides only", width=sides)
    if not border.sides.inches:
        return phrase("{width} wide finished, at top and bottom only", width=ends)
    return phrase(
        "{sides} wide finished at the sides, {ends} at top and bottom", sides=sides, ends=ends
    )


def border_added(border: BorderPlan, sides: Text, ends: Text, units: UnitSystem) -> Phrase:
    """How the strips of a border are added, cut as long as `sides` and `ends` say."""
    if border.corners is Corners.MITRED and border.sides != border.ends:
        return phrase(
            "Center each strip on its side and sew from matching point to matching point. Mark the outer corner on the back of both strips at each corner: on those of top and bottom {side} past the matching point and {end} out, on those of the sides {end} past it and {side} out. Rule a line from the matching point through the mark to the edge, lay the two lines on each other, right sides together, and sew each corner along them. The strips are {sides} long for the sides, {ends} for top and bottom.",
            side=with_unit(float(border.sides), units),
            end=with_unit(float(border.ends), units),
            sides=sides,
            ends=ends,
        )
    if border.corners is Corners.MITRED:
        return phrase(
            "Center each strip on its side, sew from matching point to matching point, and sew each corner on the fold at 45 degrees. The strips are {sides} long for the sides, {ends} for top and bottom.",
            sides=sides,
            ends=ends,
        )
    if border.corners is Corners.SQUARES and border.sides != border.ends:
        return phrase(
            "Sew the two strips of {sides} to the sides. Sew a corner rectangle to both ends of each strip of {ends}, its edge as long as the strip is wide, then sew those to top and bottom.",
            sides=sides,
            ends=ends,
        )
    if border.corners is Corners.SQUARES:
        return phrase(
            "Sew the two strips of {sides} to the sides. Sew a corner square to both ends of each strip of {ends}, then sew those to top and bottom.",
            sides=sides,
            ends=ends,
        )
    if not border.ends.inches:
        return phrase(
            "Measure the top through its middle. Cut two strips of {sides} and sew them to the sides. Press outward.",
            sides=sides,
        )
    if not border.sides.inches:
        return phrase(
            "Measure the top through its middle. Cut two strips of {ends} and sew them to top and bottom. Press outward.",
            ends=ends,
        )
    return phrase(
        "Measure the top through its middle. Cut two strips of {sides} and sew them to the sides. Press outward. Then sew the two strips of {ends} to top and bottom.",
        sides=sides,
        ends=ends,
    )
