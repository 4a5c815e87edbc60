"""Floor 11, papers: the measures of each page, in points (72 points are 1 in)."""

from __future__ import annotations

from dataclasses import dataclass

from booklet.pattern import Paper

LINE = 13.5  # the baseline grid
MM_PER_POINT = 25.4 / 72


@dataclass(frozen=True, slots=True)
class Sheet:
    """A page: its size, margins and columns. `inner` is the margin at the fold or the holes."""

    paper: Paper
    css: str
    width: float
    height: float
    top: float
    bottom: float
    inner: float
    outer: float
    step_columns: int
    bare: float  # the margin of a page of templates

    @property
    def measure(self) -> float:
        """The width of the type area in points."""
        return self.width - self.inner - self.outer

    @property
    def depth(self) -> float:
        """The height of the type area in points."""
        return self.height - self.top - self.bottom

    @property
    def template_area_mm(self) -> tuple[float, float]:
        """The room for templates on one page: width and height in mm."""
        width = self.width - 2 * self.bare
        height = self.height - 2 * self.bare - 2 * LINE  # a foot line
        return (width * MM_PER_POINT, height * MM_PER_POINT)

    @property
    def is_small(self) -> bool:
        """Whether steps stand in one column."""
        return self.step_columns == 1


_MM = 72 / 25.4
SHEETS = {
    Paper.LETTER: Sheet(Paper.LETTER, "8.5in 11in", 612, 792, 67.5, 72, 67.5, 54, 2, 30),
    Paper.A4: Sheet(Paper.A4, "210mm 297mm", 210 * _MM, 297 * _MM, 67.5, 76.5, 67.5, 51, 2, 30),
    Paper.HALF_LETTER: Sheet(Paper.HALF_LETTER, "5.5in 8.5in", 396, 612, 49.5, 54, 49.5, 36, 1, 24),
    Paper.A5: Sheet(Paper.A5, "148mm 210mm", 148 * _MM, 210 * _MM, 49.5, 54, 51, 38, 1, 24),
}


def sheet_of(paper: Paper) -> Sheet:
    """The measures of a paper."""
    return SHEETS[paper]
