"""Floor 11, sheets: finished PDF pages put onto sheets to fold, or given crop marks; the only door to pypdf.

Pages are moved and never scaled, so that templates stay true to size. A PDF with crop marks keeps its tags;
sheets of two pages do not: they are for a printer and nobody reads them.
"""

from __future__ import annotations

import hashlib
import io
from collections.abc import Sequence
from typing import Any

from booklet.exports.press.imposition import SheetSide, faces, shift
from booklet.exports.press.printing import Printing, PrintingError
from booklet.kit.measure import INCH_MM, Length
from booklet.kit.outlines.plane import Point
from booklet.kit.records import Record
from booklet.pages.style.paper import sheet_of
from booklet.pattern import Paper

NOTE_LINE = 27.0  # points, as on the page of notes
MOST_SHEETS = 16
"""Sheets a stapler takes: 64 pages are about the most for saddle stitch (common practice)."""


class FoldedSheet(Record):
    """The sheet that two pages of a paper share: its name and its width and height in points."""

    name: str
    width: float
    height: float


class Imposed(Record):
    """The sheets as PDF, how many there are, and the name of their paper."""

    data: bytes
    sheets: int
    paper: str


_POINTS_PER_MM = 72 / INCH_MM
_MARK_LENGTH = 5.0 * _POINTS_PER_MM
_MARK_GAP = 3.5 * _POINTS_PER_MM  # from the trimmed page to its marks: outside the bleed
_FOLD_MARK = 4.0 * _POINTS_PER_MM
AROUND = _MARK_LENGTH + _MARK_GAP + 2.0 * _POINTS_PER_MM
"""The room about a page that has crop marks."""

_Stroke = tuple[Point, Point]
_Box = tuple[float, ...]  # left, low, right, top
_A4 = (210 * _POINTS_PER_MM, 297 * _POINTS_PER_MM)
FOLDED_ON = {
    Paper.HALF_LETTER: FoldedSheet("letter", 792.0, 612.0),
    Paper.A5: FoldedSheet("A4", _A4[1], _A4[0]),
    Paper.LETTER: FoldedSheet("tabloid", 1224.0, 792.0),
    Paper.A4: FoldedSheet("A3", 2 * _A4[0], _A4[1]),
}


def with_crop_marks(pdf: bytes) -> bytes:
    """The same pages with room about them and two short lines outside each corner.

    The trim box is the page as it was, the bleed box as well where it has no bleed; structure, bookmarks and links stay.
    """
    from pypdf import PdfReader, PdfWriter
    from pypdf.generic import RectangleObject

    reader = PdfReader(io.BytesIO(pdf))
    writer = PdfWriter(clone_from=reader)
    writer.pdf_header = reader.pdf_header
    for page in writer.pages:
        trim = tuple(float(side) for side in page.trimbox)
        bleed = RectangleObject(tuple(float(side) for side in page.bleedbox))
        left, low, right, top = trim
        room = RectangleObject((left - AROUND, low - AROUND, right + AROUND, top + AROUND))
        page.mediabox = page.cropbox = room
        page.bleedbox, page.trimbox = bleed, RectangleObject(trim)
        _draw_over(writer, page, _crop_lines(trim))
    return _written(writer, pdf, "crop marks")


def bound_together(pdfs: Sequence[bytes]) -> bytes:
    """Copies one after the other in one PDF, each beginning on the front of a sheet: after a copy with an odd number of pages
    comes an empty one. What is alike in the copies is held once. It is for a printer, and has no tags."""
    from pypdf import PdfReader, PdfWriter
    from pypdf.generic import NameObject

    writer, readers = PdfWriter(), [PdfReader(io.BytesIO(pdf)) for pdf in pdfs]
    for reader in readers:
        for page in reader.pages:
            page.pop(NameObject("/StructParents"), None)
            page.pop(NameObject("/Annots"), None)
            writer.add_page(page)
        if len(writer.pages) % 2:
            last, empty = writer.pages[-1], writer.add_blank_page()
            for box in ("/MediaBox", "/CropBox", "/BleedBox", "/TrimBox"):
                if box in last:
                    empty[NameObject(box)] = last[box]
    root: Any = readers[0].trailer["/Root"]
    if "/OutputIntents" in root:  # for a press: what it is for is said once
        writer.pdf_header = readers[0].pdf_header
        writer.add_metadata(dict(readers[0].metadata or {}))
        for key in ("/OutputIntents", "/Metadata", "/ViewerPreferences"):
            writer.root_object[NameObject(key)] = root.raw_get(key).clone(writer)
    writer.compress_identical_objects()
    return _written(writer, b"".join(pdfs), "whole class")


def imposed(pdf: bytes, paper: Paper, printing: Printing, has_back: bool = False) -> Imposed:
    """The sheets of a booklet to fold and staple, two pages to a side; `pdf` has pages of `paper`, the last a back cover
    where it `has_back`. On pages that would be blank stand lines for notes.

    Raises PrintingError where the creep would push pages over their margin.
    """
    from pypdf import PageObject, PdfReader, PdfWriter
    from pypdf.generic import DictionaryObject, NameObject, RectangleObject

    reader = PdfReader(io.BytesIO(pdf))
    sides = faces(len(reader.pages), has_back)
    _check_creep(len(sides) // 2, paper, printing.creep)
    sheet = FOLDED_ON[paper]
    around = AROUND if printing.crop_marks else 0.0
    writer = PdfWriter()
    writer.pdf_header = reader.pdf_header
    writer.add_metadata({k: v for k, v in (reader.metadata or {}).items() if isinstance(v, str)})
    writer.root_object[NameObject("/ViewerPreferences")] = DictionaryObject(
        {
            NameObject("/PrintScaling"): NameObject("/None"),  # a dialogue then offers true size
            NameObject("/Duplex"): NameObject("/DuplexFlipShortEdge"),
        }
    )
    forms = [_form(writer, page) for page in reader.pages]
    for face in sides:
        side = PageObject.create_blank_page(
            writer, sheet.width + 2 * around, sheet.height + 2 * around
        )
        side = writer.add_page(side)
        drawing = []
        names = DictionaryObject()
        for number, x, y in places(face, sheet, paper, printing.creep):
            names[NameObject(f"/Page{number}")] = forms[number - 1]
            drawing.append(f"q 1 0 0 1 {x + around:.4f} {y + around:.4f} cm /Page{number} Do Q")
        side[NameObject("/Resources")] = DictionaryObject({NameObject("/XObject"): names})
        trim = _trim(sheet, paper, around)
        side.trimbox = RectangleObject(trim)
        lines = note_lines(face, sheet, paper, printing.creep, around)
        lines += _fold_lines(sheet.width, sheet.height, around)
        if printing.crop_marks:
            lines += _crop_lines(trim)
        _draw_over(writer, side, lines, " ".join(drawing))
    return Imposed(_written(writer, pdf, f"imposed {printing}"), len(sides) // 2, sheet.name)


def _form(writer: Any, page: Any) -> Any:
    """A page as a picture that may be placed; pages share their fonts as before."""
    from pypdf.generic import ArrayObject, FloatObject, NameObject, StreamObject

    form = StreamObject()
    form.set_data(page.get_contents().get_data())
    form[NameObject("/Type")] = NameObject("/XObject")
    form[NameObject("/Subtype")] = NameObject("/Form")
    form[NameObject("/BBox")] = ArrayObject(FloatObject(side) for side in page.mediabox)
    form[NameObject("/Resources")] = page["/Resources"].clone(writer)
    if "/Group" in page:
        form[NameObject("/Group")] = page["/Group"].clone(writer)
    return writer._add_object(form.flate_encode())


def note_lines(
    face: SheetSide, sheet: FoldedSheet, paper: Paper, creep: Length, around: float
) -> list[_Stroke]:
    """Lines to write on where a side has no page, 27 points apart, within the margins of a page."""
    size = sheet_of(paper)
    inward = shift(face.depth, creep.mm * _POINTS_PER_MM)
    low = around + (sheet.height - size.height) / 2
    fold = around + sheet.width / 2
    found: list[_Stroke] = []
    for page, left, right in (
        (face.left, fold - size.width + size.outer + inward, fold - size.inner + inward),
        (face.right, fold + size.inner - inward, fold + size.width - size.outer - inward),
    ):
        if page is None:
            count = int(size.depth // NOTE_LINE)
            heights = (low + size.height - size.top - n * NOTE_LINE for n in range(1, count + 1))
            found += (((left, y), (right, y)) for y in heights)
    return found


def places(
    face: SheetSide, sheet: FoldedSheet, paper: Paper, creep: Length
) -> tuple[tuple[int, float, float], ...]:
    """(page, x, y) of the pages on a side: where their lower left corners lie, in points.

    Both pages touch the fold, less the creep; a sheet a little larger than two pages leaves the rest
    outside.
    """
    size = sheet_of(paper)
    inward = shift(face.depth, creep.mm * _POINTS_PER_MM)
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
    moved = shift(sheets - 1, creep.mm * _POINTS_PER_MM)
    if moved > most:
        raise PrintingError(
            f"with a creep of {creep.mm:.2f} mm the innermost of {sheets} sheets would be moved by "
            f"{moved / _POINTS_PER_MM:.1f} mm, and the margin at the fold leaves {most / _POINTS_PER_MM:.1f} "
            "mm; give the thickness of one sheet, as `--creep 0.1 mm`, or impose fewer pages"
        )


def _trim(sheet: FoldedSheet, paper: Paper, around: float) -> _Box:
    """What is left of a sheet when it is trimmed to two pages."""
    size = sheet_of(paper)
    left = around + sheet.width / 2 - size.width
    low = around + (sheet.height - size.height) / 2
    return left, low, left + 2 * size.width, low + size.height


def _draw_over(writer: Any, page: Any, lines: Sequence[_Stroke], first: str = "") -> None:
    """Add `first` and then thin black lines to a page, told to readers as decoration."""
    from pypdf.generic import ArrayObject, NameObject, StreamObject

    strokes = " ".join(f"{a[0]:.4f} {a[1]:.4f} m {b[0]:.4f} {b[1]:.4f} l S" for a, b in lines)
    made = StreamObject()
    made.set_data(f"{first} /Artifact BMC q 0.25 w 0 G {strokes} Q EMC".encode("ascii"))
    before = page.get("/Contents")
    parts = ArrayObject() if before is None else _saved(writer, before)
    parts.append(writer._add_object(made))
    page[NameObject("/Contents")] = parts


def _saved(writer: Any, contents: Any) -> Any:
    """What a page shows, between a save and a restore of the pen."""
    from pypdf.generic import ArrayObject, StreamObject

    begin, end = StreamObject(), StreamObject()
    begin.set_data(b"q ")
    end.set_data(b" Q")
    found = contents.get_object()
    middle = list(found) if isinstance(found, ArrayObject) else [contents]
    return ArrayObject([writer._add_object(begin), *middle, writer._add_object(end)])


def _written(writer: Any, pdf: bytes, kind: str) -> bytes:
    """The bytes of a PDF; its identifier comes of the one it was made from."""
    from pypdf.generic import ArrayObject, ByteStringObject

    name = hashlib.sha256(pdf + kind.encode("utf-8")).digest()[:16]
    writer._ID = ArrayObject([ByteStringObject(name), ByteStringObject(name)])
    stream = io.BytesIO()
    writer.write(stream)
    return stream.getvalue()


def _crop_lines(trim: _Box) -> list[_Stroke]:
    """Two lines outside each corner of a box, in line with its sides."""
    left, low, right, top = trim
    made = []
    for x, outward in ((left, -1), (right, 1)):
        for y, upward in ((low, -1), (top, 1)):
            near, far = _MARK_GAP, _MARK_GAP + _MARK_LENGTH
            made.append(((x + outward * near, y), (x + outward * far, y)))
            made.append(((x, y + upward * near), (x, y + upward * far)))
    return made


def _fold_lines(width: float, height: float, around: float) -> list[_Stroke]:
    """A short line at the top and at the foot where a sheet with room `around` it is folded."""
    x, top = around + width / 2, height + 2 * around
    return [((x, 0.0), (x, _FOLD_MARK)), ((x, top - _FOLD_MARK), (x, top))]
