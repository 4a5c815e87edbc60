"""Floor 11: pages. The plan and its figures become HTML, and HTML becomes PDF."""

from typing import TYPE_CHECKING

from booklet.later import later

if TYPE_CHECKING:
    from booklet.pages.composing import compose
    from booklet.pages.document import Document, copies_of
    from booklet.pages.naming import chosen_sizes
    from booklet.pages.pictures.album import drawn
    from booklet.pages.pictures.figures import Album, Figures, FigureSource, Room
    from booklet.pages.prepress.pdf import Pdf, make_pdf, make_pdfs, write_pdf
    from booklet.pages.sections import PAGE_NAMES
    from booklet.pages.style.alone import compose_alone
    from booklet.pages.style.fonts import boxed
    from booklet.pages.style.paper import Sheet, sheet_of
    from booklet.pages.texts.text_faults import text_faults

__all__ = [
    "PAGE_NAMES", "Album", "Document", "FigureSource", "Figures", "Pdf", "Room", "Sheet",
    "boxed", "chosen_sizes", "compose", "compose_alone", "copies_of", "drawn", "make_pdf", "make_pdfs", "sheet_of", "text_faults", "write_pdf",
]  # fmt: skip

__getattr__ = later(
    __name__,
    {
        "style.alone": "compose_alone",
        "composing": "compose",
        "document": "Document copies_of",
        "naming": "chosen_sizes",
        "pictures.album": "drawn",
        "pictures.figures": "Album Figures FigureSource Room",
        "style.fonts": "boxed",
        "style.paper": "Sheet sheet_of",
        "prepress.pdf": "Pdf make_pdf make_pdfs write_pdf",
        "sections": "PAGE_NAMES",
        "texts.text_faults": "text_faults",
    },
)
