"""Floor 11: one document on paper: its PDF, with crop marks or as sheets to fold where they are asked for."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.exports.press.printing import Printing, PrintingError, with_bleed
from booklet.exports.press.sheets import MOST_SHEETS, imposed, with_crop_marks
from booklet.kit.records import Record
from booklet.pages.prepress.inks import ProfileError
from booklet.pages.prepress.pdf import Pdf, make_pdfs
from booklet.pages.prepress.variants import SCREEN, PdfKind, for_archive, for_press
from booklet.pages.sections import BACK
from booklet.pages.style.fonts import boxed
from booklet.pattern import Paper


class PrintJob(Record):
    """A page to set on a paper, and how it is printed."""

    html: str
    paper: Paper
    printing: Printing
    readers: tuple[str, ...] = ()  # the names of copies, each put in where the page says READER


class PrintedFiles(Record):
    """The files made of one document or copy, each by the end of its name, and what is to be said of them."""

    files: tuple[tuple[str, bytes], ...]
    said: tuple[str, ...]


def printed(job: PrintJob) -> tuple[PrintedFiles, ...]:
    """The files of a job, copy by copy. Raises NoPdf and PrintingError."""
    html, asked = job.html, job.printing
    if asked.low_ink:
        html = html.replace('<html lang="', '<html data-ink="low" lang="', 1)
    if asked.profile:
        html = with_bleed(html, job.paper)
    try:
        made = make_pdfs(boxed(html), job.readers, _variant(asked))
    except ProfileError as fault:
        raise PrintingError(f"{fault}; give another with `--profile`") from None
    return tuple(_printed(job, pdf) for pdf in made)


def _variant(asked: Printing) -> PdfKind:
    """The kind of PDF that is asked for."""
    if asked.profile:
        return for_press(asked.profile)
    return for_archive(asked.attached) if asked.attached else SCREEN


def _printed(job: PrintJob, pdf: Pdf) -> PrintedFiles:
    """The files of one PDF."""
    asked = job.printing
    said = [f"  the PDF maker complains: {' '.join(c.split())[:200]}" for c in pdf.complaints]
    ink = "-low-ink" if asked.low_ink else ""
    marks = "-crop-marks" if asked.crop_marks else ""
    kind = "-press" if asked.profile else "-archive" if asked.attached else ""
    files = [(f"{ink}{kind}{marks}.pdf", with_crop_marks(pdf.data) if marks else pdf.data)]
    if asked.imposed:
        sheets = imposed(pdf.data, job.paper, asked, f'id="{BACK}"' in job.html)
        files.append((f"{ink}-imposed{marks}.pdf", sheets.data))
        said += _sheets_said(sheets.sheets, sheets.paper)
    return PrintedFiles(tuple(files), tuple(said))


def _sheets_said(count: int, paper: str) -> Iterator[str]:
    """How many sheets there are to fold."""
    many = f"; a stapler takes about {MOST_SHEETS}" if count > MOST_SHEETS else ""
    yield f"  to fold and staple: {count} sheet{'' if count == 1 else 's'} of {paper}{many}"
