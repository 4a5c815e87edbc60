"""Floor 7: how one thing is cut, the records. The ruler that rounds figures up, and the rows that cuts form."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction

from booklet.cutting.cutting_plan import Method
from booklet.cutting.demand import Want
from booklet.cutting.methods import (
    up,
)
from booklet.cutting.nesting import Row, row_of
from booklet.cutting.wedges import Gives, Wedge, wedge_cuts
from booklet.geometry.tiling import Point
from booklet.measure import EIGHTH, MILLIMETRE, ZERO, Length, UnitSystem

Points = tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Ruler:
    """What the figures are printed in: the allowance, the units, the step they are rounded up to."""

    allowance: Length
    units: UnitSystem
    trim: Length = ZERO  # what is cut more for triangles, to trim the sewn unit

    @property
    def s(self) -> float:
        """The allowance in inches."""
        return float(self.allowance)

    @property
    def step(self) -> Fraction:
        """1/8 in, or 1 mm in patterns in centimetres."""
        return EIGHTH if self.units == "inch" else MILLIMETRE

    def up(self, value: float) -> Length:
        """A figure rounded up to the step."""
        return up(value, self.step)


@dataclass(frozen=True, slots=True)
class Lay:
    """Cuts that lie in rows alike: the rows they may form (one for each way of lying), the triangles that
    each gives (none where it is the piece), and whether the pieces are mirrored."""

    rows: tuple[Row, ...]
    gives: Gives
    reversed: bool = False

    @property
    def cuts(self) -> int:
        """How many cuts there are."""
        return len(self.gives)


@dataclass(frozen=True, slots=True)
class Rotary:
    """How a want is cut; the fields are those of a CutPatch. `grain` in the patch's frame."""

    method: Method
    cut: tuple[Length, Length]
    exact: tuple[float, float]
    per_cut: int
    sum: str
    angle: float | None
    grain: float
    lays: tuple[Lay, ...]
    wedges: Mapping[Wedge, int] = field(default_factory=dict)
    """How many are wanted of each triangle of the cut; wants of one letter may come from the same cuts."""
    mirrored: frozenset[Wedge] = frozenset()  # those of them that are reversed

    @property
    def cuts(self) -> int:
        """How many of the cut figures it takes."""
        return sum(lay.cuts for lay in self.lays)


def _box(width: float, height: float) -> Points:
    return ((0.0, 0.0), (width, 0.0), (width, height), (0.0, height))


def box_rows(width: float, height: float, may_turn: bool) -> tuple[Row, ...]:
    """The rows of a rectangle: lying, and standing where it may be turned."""
    rows = [row_of(_box(width, height), False)]
    if may_turn and abs(width - height) > 1e-9:
        rows.append(replace(row_of(_box(height, width), False), turned=True))
    return tuple(rows)


def singly(cuts: int, rows: tuple[Row, ...], reversed: bool = False) -> Lay:
    """So many cuts each of which is a piece."""
    return Lay(rows, ((),) * cuts, reversed)


def gives_of(lays: Iterable[Lay]) -> tuple[tuple[tuple[Wedge, ...], int], ...]:
    """The triangles that cuts give, and how many cuts give those; nothing of cuts that are pieces."""
    return tuple(Counter(gives for lay in lays for gives in lay.gives if gives).items())


def wedge_lays(
    wanted: Mapping[Wedge, int],
    turns: int,
    rows: tuple[Row, ...],
    mirrored: frozenset[Wedge] = frozenset(),
) -> tuple[Lay, ...]:
    """The cuts that give triangles, a lay for each second cut; see `wedge_cuts`."""
    found = wedge_cuts(wanted, turns).values()
    return tuple(Lay(rows, gives, not mirrored.isdisjoint(gives[0])) for gives in found)


def given_grain(want: Want, way: float) -> float:
    """The grain that the method gives, in the patch's frame: what was asked for, else along the strip."""
    return want.grain if want.wished or want.laid is not None else way % 180
