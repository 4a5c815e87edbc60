"""Floor 11, sheets: finished PDF pages put onto sheets to fold, or given crop marks; the only door to pypdf.

Pages are moved and never scaled, so that templates stay true to size. A PDF with crop marks keeps its tags;
sheets of two pages do not: they are for a printer and nobody reads them.
"""

from __future__ import annotations

import hashlib
import io
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from booklet.exports.imposition import Face, faces, shift
from booklet.exports.printing import Printing, PrintingError
from booklet.measure import Length
from booklet.pages.paper import sheet_of
from booklet.pattern import Paper

POINTS_PER_MM = 72 / 25.4
MARK_LENGTH = 5.0 * POINTS_PER_MM
MARK_GAP = 3.0 * POINTS_PER_MM  # from the trimmed page to its marks
AROUND = MARK_LENGTH + MARK_GAP + 2.0 * POINTS_PER_MM
MOST_SHEETS = 16
"""Sheets a stapler takes: 64 pages are about the most for saddle stitch (common practice)."""


@dataclass(frozen=True, slots=True)
class Folded:
    """The sheet that two pages of a paper share: its name and its width and height in points."""

    name: str
    width: float
    height: float


_A4 = (210 * POINTS_PER_MM, 297 * POINTS_PER_MM)
FOLDED_ON = {
    Paper.HALF_LETTER: Folded("letter", 792.0, 612.0),
    Paper.A5: Folded("A4", _A4[1], _A4[0]),
    Paper.LETTER: Folded("tabloid", 1224.0, 792.0),
    Paper.A4: Folded("A3", 2 * _A4[0], _A4[1]),
}


def press_ready(pdf: bytes, paper: Paper, printing: Printing) -> bytes:
    """The PDF with crop marks, or as it came where none are asked for."""
    return with_crop_marks(pdf) if printing.crop_marks else pdf


def with_crop_marks(pdf: bytes) -> bytes:
    """The same pages with room about them and two short lines outside each corner.

    The trim box is the page as it was (bleed 0); structure, bookmarks and links stay.
    """
    from pypdf import PdfReader, PdfWriter
    from pypdf.generic import RectangleObject

    writer = PdfWriter(clone_from=PdfReader(io.BytesIO(pdf)))
    for page in writer.pages:
        left, low, right, top = (float(side) for side in page.mediabox)
        trim = RectangleObject((left, low, right, top))
        room = RectangleObject((left - AROUND, low - AROUND, right + AROUND, top + AROUND))
        page.mediabox = page.cropbox = page.bleedbox = room
        page.trimbox = page.bleedbox = trim
        _append(writer, page, _marks((left, low, right, top)))
    return _written(writer, pdf, "crop marks")


def imposed(pdf: bytes, paper: Paper, printing: Printing) -> tuple[bytes, int]:
    """The sheets of a booklet to fold and staple, two pages to a side, and how many sheets they are.

    `pdf` has pages of `paper`. Raises PrintingError where the creep would push pages over their margin.
    """
    from pypdf import PageObject, PdfReader, PdfWriter, Transformation

    pages = list(PdfReader(io.BytesIO(pdf)).pages)
    sides = faces(len(pages))
    _check_creep(len(sides) // 2, paper, printing.creep)
    sheet = FOLDED_ON[paper]
    around = AROUND if printing.crop_marks else 0.0
    writer = PdfWriter()
    for face in sides:
        side = PageObject.create_blank_page(
            width=sheet.width + 2 * around, height=sheet.height + 2 * around
        )
        for number, x, y in places(face, sheet, paper, printing.creep):
            page = pages[number - 1]
            side.merge_transformed_page(page, Transformation().translate(x + around, y + around))
        side = writer.add_page(side)
        _append(writer, side, _fold(sheet, around))
        if printing.crop_marks:
            _append(writer, side, _marks(_trim(sheet, paper, around)))
    writer.add_metadata(_metadata(pdf))
    return _written(writer, pdf, f"imposed {printing.creep} {printing.crop_marks}"), len(sides) // 2


def places(
    face: Face, sheet: Folded, paper: Paper, creep: Length
) -> tuple[tuple[int, float, float], ...]:
    """(page, x, y) of the pages on a side: where their lower left corners lie, in points.

    Both pages touch the fold, less the creep; a sheet a little larger than two pages leaves the rest
    outside.
    """
    size = sheet_of(paper)
    inward = shift(face.depth, creep.mm * POINTS_PER_MM)
    low = (sheet.height - size.height) / 2
    found = []
    if face.left is not None:
        found.append((face.left, sheet.width / 2 - size.width + inward, low))
    if face.right is not None:
        found.append((face.right, sheet.width / 2 - inward, low))
    return tuple(found)


def _check_creep(sheets: int, paper: Paper, creep: Length) -> None:
    """PrintingError where the innermost pages would be moved past half the margin at the fold."""
    most = sheet_of(paper).inner / 2
    moved = shift(sheets - 1, creep.mm * POINTS_PER_MM)
    if moved > most:
        raise PrintingError(
            f"with a creep of {creep.mm:.2f} mm the innermost of {sheets} sheets would be moved by "
            f"{moved / POINTS_PER_MM:.1f} mm, and the margin at the fold leaves {most / POINTS_PER_MM:.1f} "
            "mm; give the thickness of one sheet, as `--creep 0.1 mm`, or impose fewer pages"
        )
