"""Floor 10: how numbers and paths are written in every picture: one spelling for each."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from booklet.kit.outlines.plane import Point


@lru_cache(maxsize=1 << 15)
def number(value: float) -> str:
    """A number as written in every picture: to 1/100 mm, no trailing zeros, never '-0'."""
    text = f"{value:.2f}"
    if text[-1] != "0":
        return text  # most are so
    text = text.rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def path_data(polygons: Sequence[Sequence[Point]], closed: bool) -> str:
    """The path through the points of each polygon or line."""
    parts = []
    for points in polygons:
        spelled = [f"{number(x)} {number(y)}" for x, y in points]
        parts.append("M" + "L".join(spelled) + ("Z" if closed else ""))
    return "".join(parts)
