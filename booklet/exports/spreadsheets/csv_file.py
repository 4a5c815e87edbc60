"""Floor 11: a table as CSV (RFC 4180): commas, points in numbers, lines that end with CR LF.

The file begins with the UTF-8 mark, without which spreadsheets on Windows misread accents; programs read
it as `utf-8-sig`. A text of the pattern that a spreadsheet could take for a formula gets an apostrophe
before it (as the OWASP guide to CSV injection advises), also in the midst of a text after a sign at which
some spreadsheets part cells (`x;=1+1`): they do so before they read the quotation marks.
"""

from __future__ import annotations

import csv
import io
import re

from booklet.exports.spreadsheets.tables import Cell, ExportTable

_STARTS = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠", "|", "%")
_PARTED = re.compile(rf"([;,\t\r\n|])(?=[\s\"']*[{re.escape(''.join(_STARTS))}])")


def csv_of(table: ExportTable) -> bytes:
    """The bytes of a table as CSV."""
    stream = io.StringIO(newline="")
    writer = csv.writer(stream, lineterminator="\r\n")
    writer.writerow([_safe(head) for head in table.heads])
    writer.writerows([[_safe(cell) for cell in row] for row in table.rows])
    return b"\xef\xbb\xbf" + stream.getvalue().encode("utf-8")


def _safe(cell: Cell) -> str:
    """A cell as text that no spreadsheet runs."""
    if cell is None:
        return ""
    if isinstance(cell, str):
        apart = _PARTED.sub(r"\1'", cell)
        return f"'{apart}" if cell.lstrip(" \u00a0").startswith(_STARTS) else apart
    return f"{cell:.10g}"
