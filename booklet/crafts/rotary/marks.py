"""Floor 1, crafts: which figures a ruler can cut, and how a patch is cut whose size lies between its marks.

What is sewn raw edge to raw edge is never rounded: a square, a strip or a diamond is cut by the ruler only
where its exact size stands on a mark or half way between two. The squares of triangles, which no ruler shows
since a root of two is in them, are rounded up as the trade's charts do it, as far as the seams still fit
(`FIT`) or what is too much is trimmed off before it matters (`fitting.py`). All else is cut by template,
which is exact.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from enum import Enum, IntEnum
from fractions import Fraction

from booklet.kit.measure import EIGHTH, MILLIMETRE, Length, Rounding, UnitSystem

FIT = 1 / 32
"""How much the two sides of a seam may differ, inches: 0.8 mm, what pins and fingers take up. A charted
half square (+ 7/8 in for 0.854) is 0.021 in too long in the leg and 0.030 in the long side."""

HAIR = Fraction(1, 1000)
"""A size this near a mark, in inches, lies on it: thirty in a row are still within `FIT`."""


SLANT = Fraction(1, 200)
"""The same of a figure across a slant, which no ruler shows exactly: 0.13 mm, the width of a blade's cut. A
star of eight diamonds is then still within `FIT`."""


class CutBy(Enum):
    """By what a patch or part is cut; the value is the word in facts."""

    RULER = "ruler"
    HALF = "half mark"  # half way between two marks of the ruler
    FINE = "between marks"  # a strip that no template can give: its figure is printed as it is
    TEMPLATE = "template"


class Grade(IntEnum):
    """How finely the triangles of a patch letter are cut, the easiest for the reader first."""

    LARGE = 0  # with the margin that the author asks for
    RULER = 1
    HALF = 2
    TEMPLATE = 3


Grown = tuple[tuple[float, float], ...]
"""How much longer the sides of a patch are as cut and sewn: (finished length, so much more), inches."""


def ruler_step(asked: Length | None, units: UnitSystem) -> Fraction:
    """How far the marks of the ruler lie apart, inches: as asked for, else 1/8 in, or 1 mm in centimetres."""
    return asked.inches if asked else EIGHTH if units == "inch" else MILLIMETRE


def on_mark(value: float, step: Fraction, near: Fraction = HAIR) -> Length | None:
    """The mark that a figure lies on, if any."""
    mark = Length.of(value).rounded(step, Rounding.NEAREST)
    return mark if abs(float(mark) - value) <= near else None


def marked(
    values: Sequence[float], step: Fraction, near: Fraction = HAIR
) -> tuple[CutBy, tuple[Length, ...]] | None:
    """By what figures are cut of which each lies on a mark or half way between two; None if one does not."""
    for by, apart in ((CutBy.RULER, step), (CutBy.HALF, step / 2)):
        marks = [mark for value in values if (mark := on_mark(value, apart, near)) is not None]
        if len(marks) == len(values):
            return by, tuple(marks)
    return None


def by_of(lengths: Iterable[Length], step: Fraction) -> CutBy:
    """By what a strip or a part of a quilt is cut whose figures are printed as they are."""
    found = marked([float(length) for length in lengths], step)
    return found[0] if found else CutBy.FINE


def grain_of(figures: Iterable[Length], step: Fraction, units: UnitSystem) -> Fraction:
    """The step in which the cutting of cloth is planned: 1/8 in or 1 mm, halved while a figure is finer,
    at most three times."""
    grain = min(step, EIGHTH if units == "inch" else MILLIMETRE)
    every = {figure.inches for figure in figures}
    for _ in range(3):
        if all((figure / grain).denominator == 1 for figure in every):
            break
        grain /= 2
    return grain


NO_GRADES: Mapping[str, Grade] = {}
