"""Floor 1, crafts: the ruler that rounds figures up, as finely as each letter asks for."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction

from booklet.crafts.rotary.marks import (
    NO_GRADES,
    SLANT,
    CutBy,
    Grade,
    Grown,
    grain_of,
    marked,
    on_mark,
    ruler_step,
)
from booklet.crafts.rotary.rotary_sums import up
from booklet.kit.measure import ZERO, Length, Rounding, UnitSystem
from booklet.kit.outlines.near import SNAP
from booklet.kit.records import Record, field, replace


class Ruler(Record, kw_only=True):
    """What the figures are printed in: the allowance, the units, the step they are rounded up to."""

    allowance: Length
    units: UnitSystem
    trim: Length = ZERO  # what is cut more for triangles, to trim the sewn unit
    asked: Length | None = None  # how far its marks lie apart, as the author wrote it
    grades: Mapping[str, Grade] = field(default_factory=lambda: NO_GRADES)  # by patch letter
    papers: Length | None = (
        None  # what is added to patches instead, where they are basted over papers
    )
    grain: Fraction = ZERO.inches  # the step in which cloth is planned; 0 for that of the figures

    @property
    def of_patches(self) -> Ruler:
        """The ruler for patches: with what is folded over papers in place of a seam's allowance."""
        return self if self.papers is None else replace(self, allowance=self.papers, papers=None)

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

    def straight(self, *exact: float) -> tuple[CutBy, tuple[Length, ...]]:
        """By what squares, rectangles and strips are cut, and their figures: never rounded, so by template
        where they lie between half marks; then the figures are those of the cloth it is laid on."""
        return marked(exact, self.step) or (CutBy.TEMPLATE, tuple(map(self.up, exact)))

    def slanted(self, *exact: float) -> tuple[CutBy, tuple[Length, ...]]:
        """The same of pieces from a strip cut across at an angle."""
        return marked(exact, self.step, SLANT) or (CutBy.TEMPLATE, tuple(map(self.up, exact)))

    def halved(
        self, letter: str, exact: tuple[float, ...], grows: Callable[[tuple[float, ...]], Grown]
    ) -> tuple[CutBy, tuple[Length, ...], Grown]:
        """By what triangles from squares and rectangles are cut: rounded up as their letter's grade says."""
        grade = self.grade(letter)
        if grade is Grade.TEMPLATE:
            return CutBy.TEMPLATE, tuple(map(self.up, exact)), ()
        step = self.step / 2 if grade is Grade.HALF else self.step
        cut = tuple(up(value, step) for value in exact)
        by = CutBy.RULER if all(on_mark(float(c), self.step) for c in cut) else CutBy.HALF
        return by, cut, grows(tuple(float(c) - e for c, e in zip(cut, exact, strict=True)))

    def grade(self, letter: str) -> Grade:
        """How finely the pieces of a patch letter are cut."""
        return self.grades.get(letter, Grade.LARGE if self.trim > ZERO else Grade.RULER)

    def margin(self, letter: str) -> Length:
        """What triangles of a patch letter are cut more, to trim the sewn unit."""
        return self.trim if self.grade(letter) is Grade.LARGE else ZERO
