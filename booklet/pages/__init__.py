"""Floor 11: pages. The plan and its figures become HTML, and HTML becomes PDF."""

from typing import TYPE_CHECKING

from booklet.kit.running.later import later

if TYPE_CHECKING:
    from booklet.pages.composing import compose
    from booklet.pages.document import Document, copies_of
    from booklet.pages.naming import chosen_sizes
    from booklet.pages.pictures.album import drawn
    from booklet.pages.prepress.pdf import Pdf, make_pdf, make_pdfs
    from booklet.pages.style.alone import compose_alone
    from booklet.pages.style.fonts import boxed
    from booklet.pages.style.paper import sheet_of

__all__ = [
    "Document", "Pdf", "boxed", "chosen_sizes", "compose", "compose_alone", "copies_of", "drawn", "make_pdf", "make_pdfs",
    "sheet_of",
]  # fmt: skip

__getattr__ = later(
    __name__,
    {
        "style.alone": "compose_alone",
        "composing": "compose",
        "document": "Document copies_of",
        "naming": "chosen_sizes",
        "pictures.album": "drawn",
        "style.fonts": "boxed",
        "style.paper": "sheet_of",
        "prepress.pdf": "Pdf make_pdf make_pdfs",
    },
)
