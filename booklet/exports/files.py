"""Floor 11: the files for other programs that stand beside the booklet, each with its name.

For each size its templates and foundations as SVG and DXF; for all sizes the materials and the cutting as CSV and XLSX.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.exports.machines.dxf_file import dxf_of
from booklet.exports.machines.flat import flat_sheet, foundation_sheet
from booklet.exports.machines.svg_file import svg_of
from booklet.exports.spreadsheets.csv_file import csv_of
from booklet.exports.spreadsheets.tables import tables
from booklet.exports.spreadsheets.workbook import workbook_of
from booklet.pattern import BETWEEN, Pattern
from booklet.plan import Plan
from booklet.source.values.names import file_part


def exported(plan: Plan, sizes: tuple[str, ...] = ()) -> Iterator[tuple[str, bytes]]:
    """Names and bytes: the templates of the sizes named (or of all), and the tables of all sizes. In a colourway or layout
    the names tell it."""
    pattern = plan.pattern
    book = _book(pattern)
    for size in plan.sizes:
        if sizes and size.size.id not in sizes:
            continue
        for kind, sheet in (
            ("templates", flat_sheet(size)),
            ("foundations", foundation_sheet(size)),
        ):
            if sheet.templates:
                stem = f"{book}-{kind}-{file_part(size.size.id)}"
                yield f"{stem}.svg", svg_of(sheet)
                yield f"{stem}.dxf", dxf_of(sheet)
    yield from exported_tables(plan)


def exported_tables(plan: Plan, language: str = "") -> Iterator[tuple[str, bytes]]:
    """Names and bytes of the tables of all sizes, in the language of a plan, which the names tell where it is given."""
    pattern = plan.pattern
    book, ending = _book(pattern), f"-{file_part(language)}" if language else ""
    made = tables(plan)
    for table in made:
        yield f"{book}-{table.name}{ending}.csv", csv_of(table)
    told = pattern.title, pattern.designer, pattern.date
    yield f"{book}-tables{ending}.xlsx", workbook_of(made, *told)


def _book(pattern: Pattern) -> str:
    """What all names begin with."""
    told = map(file_part, pattern.alternative.split(BETWEEN) if pattern.alternative else ())
    return "-".join((file_part(pattern.files_title or pattern.title), *told))
