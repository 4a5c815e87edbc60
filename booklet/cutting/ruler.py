"""Floor 7: how one thing is cut, the records. The ruler that rounds figures up, and the rows that cuts form."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction

from booklet.cutting.cutting_plan import Method
from booklet.cutting.demand import Want
from booklet.cutting.marks import (
    NO_GRADES,
    SLANT,
    By,
    Grade,
    Grown,
    grain_of,
    marked,
    on_mark,
    ruler_step,
)
from booklet.cutting.patches.nesting import Row, row_of
from booklet.cutting.patches.rotary_sums import (
    up,
)
from booklet.cutting.patches.wedges import Gives, Wedge, wedge_cuts
from booklet.kit.near import NOISE
from booklet.kit.plane import Point, rectangle
from booklet.measure import SNAP, ZERO, Length, Rounding, UnitSystem

Points = tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Ruler:
    """What the figures are printed in: the allowance, the units, the step they are rounded up to."""

    allowance: Length
    units: UnitSystem
    trim: Length = ZERO  # what is cut more for triangles, to trim the sewn unit
    asked: Length | None = None  # how far its marks lie apart, as the author wrote it
    grades: Mapping[str, Grade] = field(default_factory=lambda: NO_GRADES)  # by patch letter
    grain: Fraction = ZERO.inches  # the step in which cloth is planned; 0 for that of the figures

    @property
    def s(self) -> float:
        """The allowance in inches."""
        return float(self.allowance)

    @property
    def step(self) -> Fraction:
        """How far the marks lie apart: 1/8 in, or 1 mm in patterns in centimetres, unless asked for otherwise."""
        return ruler_step(self.asked, self.units)

    @property
    def planned(self) -> Fraction:
        """The step in which cloth is planned, fine enough for every figure."""
        return self.grain or grain_of((), self.step, self.units)

    def up(self, value: float) -> Length:
        """A figure rounded up to a mark."""
        return up(value, self.step)

    def room(self, value: float) -> Length:
        """What a strip must be high to hold a piece: its figure where that is planned for, else up to a mark."""
        figure = Length.of(value).rounded(self.planned, Rounding.NEAREST)
        return figure if abs(float(figure) - value) <= SNAP else self.up(value)

    def straight(self, *exact: float) -> tuple[By, tuple[Length, ...]]:
        """By what squares, rectangles and strips are cut, and their figures: never rounded, so by template
        where they lie between half marks; then the figures are those of the cloth it is laid on."""
        return marked(exact, self.step) or (By.TEMPLATE, tuple(map(self.up, exact)))

    def slanted(self, *exact: float) -> tuple[By, tuple[Length, ...]]:
        """The same of pieces from a strip cut across at an angle."""
        return marked(exact, self.step, SLANT) or (By.TEMPLATE, tuple(map(self.up, exact)))

    def halved(
        self, letter: str, exact: tuple[float, ...], grows: Callable[[tuple[float, ...]], Grown]
    ) -> tuple[By, tuple[Length, ...], Grown]:
        """By what triangles from squares and rectangles are cut: rounded up as their letter's grade says."""
        grade = self.grade(letter)
        if grade is Grade.TEMPLATE:
            return By.TEMPLATE, tuple(map(self.up, exact)), ()
        step = self.step / 2 if grade is Grade.HALF else self.step
        cut = tuple(up(value, step) for value in exact)
        by = By.RULER if all(on_mark(float(c), self.step) for c in cut) else By.HALF
        return by, cut, grows(tuple(float(c) - e for c, e in zip(cut, exact, strict=True)))

    def grade(self, letter: str) -> Grade:
        """How finely the pieces of a patch letter are cut."""
        return self.grades.get(letter, Grade.LARGE if self.trim > ZERO else Grade.RULER)

    def margin(self, letter: str) -> Length:
        """What triangles of a patch letter are cut more, to trim the sewn unit."""
        return self.trim if self.grade(letter) is Grade.LARGE else ZERO


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
    by: By = By.RULER
    grown: Grown = ()

    @property
    def cuts(self) -> int:
        """How many of the cut figures it takes."""
        return sum(lay.cuts for lay in self.lays)


def box_rows(width: float, height: float, may_turn: bool) -> tuple[Row, ...]:
    """The rows of a rectangle: lying, and standing where it may be turned."""
    rows = [row_of(rectangle(0.0, 0.0, width, height), False)]
    if may_turn and abs(width - height) > NOISE:
        rows.append(replace(row_of(rectangle(0.0, 0.0, height, width), False), turned=True))
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
