"""Floor 11: pages. The plan and its figures become HTML, and HTML becomes PDF."""

from booklet.pages.compose import Document, chosen_sizes, compose
from booklet.pages.figures import EMPTY, Album, Figures, FigureSource, Room
from booklet.pages.paper import Sheet, sheet_of
from booklet.pages.pdf import Pdf, make_pdf, write_pdf
from booklet.pages.sections import PAGE_NAMES
from booklet.pages.texts import text_faults

__all__ = [
    "EMPTY", "PAGE_NAMES", "Album", "Document", "FigureSource", "Figures", "Pdf", "Room", "Sheet",
    "chosen_sizes", "compose", "make_pdf", "sheet_of", "text_faults", "write_pdf",
]  # fmt: skip
