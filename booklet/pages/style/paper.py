"""Floor 11, papers: the measures of each page, in points (72 points are 1 in)."""

from __future__ import annotations

from booklet.kit.measure import INCH_MM, POINT_MM
from booklet.kit.records import Record
from booklet.pattern import Paper

LINE = 13.5  # the baseline grid
UNDER_WORDS = 0.72  # of a page that templates may take under the words about them


class Sheet(Record, kw_only=True):
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
        return (width * POINT_MM, height * POINT_MM)

    @property
    def under_words_mm(self) -> tuple[float, float] | None:
        """The room for templates under their introduction: the width of the text, and a part of its depth; none on a
        small page."""
        if self.is_small:
            return None
        return (self.measure * POINT_MM, self.depth * POINT_MM * UNDER_WORDS)

    @property
    def is_small(self) -> bool:
        """Whether steps stand in one column."""
        return self.step_columns == 1


_MM = 72 / INCH_MM
SHEETS = {
    sheet.paper: sheet
    for sheet in (
        Sheet(paper=Paper.LETTER, css="8.5in 11in", width=612, height=792,
              top=67.5, bottom=72, inner=67.5, outer=54, step_columns=2, bare=30),
        Sheet(paper=Paper.A4, css="210mm 297mm", width=210 * _MM, height=297 * _MM,
              top=67.5, bottom=76.5, inner=67.5, outer=51, step_columns=2, bare=30),
        Sheet(paper=Paper.HALF_LETTER, css="5.5in 8.5in", width=396, height=612,
              top=49.5, bottom=54, inner=49.5, outer=36, step_columns=1, bare=24),
        Sheet(paper=Paper.A5, css="148mm 210mm", width=148 * _MM, height=210 * _MM,
              top=49.5, bottom=54, inner=51, outer=38, step_columns=1, bare=24),
    )
}  # fmt: skip


def sheet_of(paper: Paper) -> Sheet:
    """The measures of a paper."""
    return SHEETS[paper]
