"""Floor 11: the tables as one workbook (XLSX), a sheet each; the only door to XlsxWriter.

Texts are written as texts, never as formulas or links. The date inside is the pattern's, so that the same
plan gives the same bytes.
"""

from __future__ import annotations

import io
from collections.abc import Sequence
from datetime import date, datetime
from typing import Any

from booklet.exports.spreadsheets.tables import ExportTable

_NO_DATE = date(2000, 1, 1)
_WIDEST = 60  # characters
_SAFE = {
    "in_memory": True,
    "strings_to_formulas": False,
    "strings_to_urls": False,
    "strings_to_numbers": False,
}


def workbook_of(tables: Sequence[ExportTable], title: str, author: str, made: date | None) -> bytes:
    """The bytes of a workbook; `made` is the date it shows."""
    from xlsxwriter import Workbook

    stream = io.BytesIO()
    book = Workbook(stream, _SAFE)
    day = made or _NO_DATE
    book.set_properties(
        {"title": title, "author": author, "created": datetime(day.year, day.month, day.day)}
    )
    head = book.add_format({"bold": True, "text_wrap": True, "valign": "top", "bottom": 1})
    for table in tables:
        _fill(book.add_worksheet(_sheet_name(table.title)), table, head)
    book.close()
    return stream.getvalue()


def _fill(sheet: Any, table: ExportTable, head: Any) -> None:
    """Write a table into its sheet: the head stays in sight and can sort and filter."""
    for column, text in enumerate(table.heads):
        sheet.write_string(0, column, text, head)
    for number, row in enumerate(table.rows, 1):
        for column, cell in enumerate(row):
            if isinstance(cell, str):
                sheet.write_string(number, column, cell)
            elif cell is not None:
                sheet.write_number(number, column, cell)
    for column in range(len(table.heads)):
        longest = max((len(str(row[column] or "")) for row in table.rows), default=0)
        sheet.set_column(column, column, min(max(9, longest + 1), _WIDEST))
    sheet.freeze_panes(1, 0)
    sheet.autofilter(0, 0, max(1, len(table.rows)), len(table.heads) - 1)
    sheet.repeat_rows(0)
    sheet.set_landscape()
    sheet.fit_to_pages(1, 0)


def _sheet_name(title: str) -> str:
    """A title as a sheet may be called: at most 31 signs and none of [ ] : * ? / \\ in it."""
    return "".join(c for c in title if c not in "[]:*?/\\'")[:31]
