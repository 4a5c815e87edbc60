"""Floor 1, crafts: the measures by which forms are written, and reading them in inches."""

from __future__ import annotations

import math
from collections.abc import Mapping
from enum import Enum

from booklet.kit.measure import Extent, Length, Number
from booklet.kit.records import Record

SMALLEST = 1e-3  # inches: no side and no measure of a patch is shorter


class Takes(Enum):
    """What a measure takes."""

    LENGTH = "a length greater than nothing"
    SHIFT = "a length that may be nothing or negative"
    ANGLE = "an angle in degrees"
    COUNT = "a whole number"
    POINTS = "a list of points"
    PATH = "path data"


class Measure(Record):
    """One key of a form: its name in the source, what it means, what it takes."""

    name: str
    doc: str
    takes: Takes = Takes.LENGTH


SIDE = Measure("side", "The finished length of a side.")
WIDTH = Measure("width", "The finished width.")
HEIGHT = Measure("height", "The finished height.")
BASE = Measure("base", "The finished length of the bottom side.")
TOP = Measure("top", "The finished length of the top side.")
SHIFT = Measure(
    "shift", "How far the top side is moved to the right of the bottom side.", Takes.SHIFT
)
MIDDLE = Measure(
    "middle",
    "The two sides along the long axis of an elongated hexagon; as long as `side` if left out.",
)
LENGTH = Measure("length", "The finished length from the top point to the bottom point.")
CROSS = Measure("cross", "How far the widest line of the kite lies below its top.")
ANGLE = Measure("angle", "The angle in degrees.", Takes.ANGLE)
SIDES = Measure("sides", "How many sides the regular polygon has.", Takes.COUNT)
CORNERS = Measure("corners", "The corners, clockwise, as points [across, down].", Takes.POINTS)
OUTLINE = Measure(
    "outline",
    "The outline as path data with M, L, H, V, A, Q, C and Z, for curved seams.",
    Takes.PATH,
)
IN_ORDER = (
    SIDE, WIDTH, HEIGHT, BASE, TOP, SHIFT, MIDDLE, LENGTH, CROSS, ANGLE, SIDES, CORNERS, OUTLINE,
)  # fmt: skip
"""As the reference lists them; a measure that only one new form has may stand in its file."""


class ShapeError(ValueError):
    """Measures that make no shape; the message is a lower-case sentence for the reader."""


Sizes = Mapping[str, Extent | Number]
"""What measures are, by their names: lengths, or plain numbers."""


class Measures(Record):
    """The measures of one shape of a form, for a length of the design unit; a missing or impossible one is a
    ShapeError."""

    form: str
    sizes: Sizes
    unit: Length

    def length(self, measure: Measure) -> float:
        """A length greater than nothing, in inches."""
        value = self._inches(measure)
        if not SMALLEST <= value < math.inf:
            raise ShapeError(f"the `{measure.name}` of a {self.form} must be greater than 0")
        return value

    def shift(self, measure: Measure) -> float:
        """A length that may be nothing or negative, in inches; nothing if left out."""
        return self._inches(measure) if measure.name in self.sizes else 0.0

    def angle(self) -> float:
        """The angle of the shape, between 0 and 180 degrees."""
        value = self._number(ANGLE)
        if not 0 < value < 180:
            raise ShapeError(
                f"the `angle` of a {self.form} must lie between 0 and 180 degrees, not {value:g}"
            )
        return value

    def count(self) -> int:
        """The number of sides."""
        value = self._number(SIDES)
        if value != int(value) or not 3 <= value <= 360:
            raise ShapeError(
                f"the `sides` of a {self.form} are a whole number from 3, not {value:g}"
            )
        return int(value)

    def _inches(self, measure: Measure) -> float:
        size = self.sizes.get(measure.name)
        if not isinstance(size, Extent):
            raise ShapeError(f"a {self.form} needs `{measure.name}`")
        return size.inches(self.unit)

    def _number(self, measure: Measure) -> float:
        size = self.sizes.get(measure.name)
        if size is None or isinstance(size, Extent):
            raise ShapeError(f"a {self.form} needs `{measure.name}`")
        return float(size)
