"""Floor 11, the only door to WeasyPrint: a print page becomes a tagged PDF (PDF/UA-1).

Nothing is fetched: a page must carry everything in `data:` addresses. The same page gives the same
bytes: dates come from the caller, never from the clock. Lines WeasyPrint logs are bugs of ours and
are handed back.
"""

from __future__ import annotations

import atexit
import gc
import hashlib
import io
import logging
import warnings
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager, redirect_stdout
from dataclasses import dataclass
from functools import cache
from html import escape
from typing import Any

from booklet.pages.copies import READER, Copies, signs_of
from booklet.pages.fonts import font_rules
from booklet.pages.forms import Forms
from booklet.pages.slots import SCHEMES
from booklet.pages.tagging import link_words, set_right


class NoPdf(Exception):
    """The machine lacks what PDF files are made with; the message is a sentence for the reader."""


@dataclass(frozen=True, slots=True)
class Pdf:
    """A PDF, its number of pages, and what WeasyPrint complained of (nothing, or a bug of ours)."""

    data: bytes
    pages: int
    complaints: tuple[str, ...]


@cache
def _maker() -> tuple[Any, Any, Any, Any, Forms]:
    """The class that sets a page, what fetches its addresses (`data:` and no other), our fonts as a
    style sheet read once for all documents, where the fonts are kept, and the pictures drawn.

    Loaded when the first PDF is made: only then is the machine's library Pango needed. Raises NoPdf.
    """
    try:
        with redirect_stdout(io.StringIO()):  # it prints a page of advice there
            from weasyprint import CSS, HTML
            from weasyprint.text.fonts import FontConfiguration
            from weasyprint.urls import URLFetcher
    except OSError:
        raise NoPdf(
            "PDF files cannot be made: the library Pango is missing. Install it (Debian or Ubuntu: "
            "`sudo apt-get install libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0`; macOS: "
            "`brew install pango`; Windows: MSYS2, then `pacman -S mingw-w64-ucrt-x86_64-pango`) "
            "and try again"
        ) from None

    class OnlyData(URLFetcher):  # type: ignore[misc]
        """Refuses every address but `data:`."""

        def fetch(self, url: str, headers: dict[str, str] | None = None) -> Any:
            """The response of a data address; ValueError for any other."""
            if not url.startswith("data:"):
                raise ValueError("a page may carry only what is inside it")
            return super().fetch(url, headers)

    fonts = FontConfiguration()
    faces = CSS(string=font_rules(), url_fetcher=OnlyData(), font_config=fonts)
    return HTML, OnlyData, faces, fonts, Forms()


def load() -> None:
    """Load what sets pages and its fonts, so that nothing more need be read. Raises NoPdf."""
    with _collected():
        _maker()


@atexit.register
def _release() -> None:
    """Let go of the fonts while the modules that free them are still there."""
    if _maker.cache_info().currsize:
        _maker.cache_clear()
        gc.collect()


class _Collector(logging.Handler):
    """Keeps the lines that are logged."""

    def __init__(self) -> None:
        super().__init__(logging.WARNING)
        self.lines: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        """Keep one line."""
        self.lines.append(record.getMessage())


@contextmanager
def _collected() -> Iterator[list[str]]:
    """The lines WeasyPrint and fontTools log meanwhile; nothing of it reaches standard error."""
    collector = _Collector()
    loggers = [logging.getLogger(name) for name in ("weasyprint", "fontTools")]
    before = [(logger, logger.propagate, logger.level) for logger in loggers]
    for logger in loggers:
        logger.addHandler(collector)
        logger.propagate = False
        logger.setLevel(logging.WARNING)
    try:
        yield collector.lines
    finally:
        for logger, propagate, level in before:
            logger.removeHandler(collector)
            logger.propagate = propagate
            logger.setLevel(level)


def make_pdf(html: str) -> Pdf:
    """The PDF of a print page, with its pages counted and complaints collected. Raises NoPdf."""
    with _laid_out(html) as (document, complaints):
        words = link_words(html)
        data = document.write_pdf(
            finisher=lambda _, pdf: _finish(pdf, words),
            pdf_variant="pdf/ua-1",
            pdf_identifier=_identifier(html),
            optimize_images=False,
        )
    assert data is not None
    return Pdf(data, len(document.pages), tuple(complaints))


def make_pdfs(html: str, readers: Sequence[str] = ()) -> tuple[Pdf, ...]:
    """The PDF of a print page, or of each of its copies: laid out once with the names put in where that can be,
    else one after the other. Raises NoPdf."""
    if not readers:
        return (make_pdf(html),)
    signs = signs_of(readers)
    made = () if signs is None else _made_together(html, readers, signs)
    return made or tuple(make_pdf(html.replace(READER, escape(name))) for name in readers)


def _made_together(html: str, readers: Sequence[str], signs: str) -> tuple[Pdf, ...]:
    """The PDF of each copy from one layout; none where the place of the name was not found."""
    made: list[bytes] = []
    page = html.replace(READER, escape(signs))
    with _laid_out(page) as (document, complaints):
        words = link_words(page)

        def finish(document: Any, pdf: Any) -> None:
            _finish(pdf, words)
            copies = Copies(pdf, tuple(document.fonts.values()), signs)
            for name in readers if copies.can else ():
                copies.put(name)
                output = io.BytesIO()
                pdf.write(output, None, _identifier(html.replace(READER, name)), True)
                made.append(output.getvalue())

        document.write_pdf(finisher=finish, pdf_variant="pdf/ua-1", optimize_images=False)
        pages = len(document.pages)
    return tuple(Pdf(data, pages, tuple(complaints)) for data in made)


def _identifier(html: str) -> bytes:
    return hashlib.sha256(html.encode("utf-8")).hexdigest()[:32].encode("ascii")


def count_pages(html: str) -> tuple[int, tuple[str, ...]]:
    """How many pages a print page fills, and what WeasyPrint complains of; nothing is written. Raises NoPdf."""
    with _laid_out(html) as (document, complaints):
        return len(document.pages), tuple(complaints)


@contextmanager
def _laid_out(html: str) -> Iterator[tuple[Any, list[str]]]:
    """WeasyPrint's pages of a print page, and the complaints, which go on being collected meanwhile."""
    load()
    setter, only_data, faces, fonts, forms = _maker()
    with _collected() as complaints, warnings.catch_warnings():
        warnings.simplefilter(
            "ignore"
        )  # of pictures: what they carry beside their pixels is not read
        page = setter(string=html, url_fetcher=only_data(), media_type="print")
        images = forms.images()
        yield page.render(font_config=fonts, stylesheets=[faces], cache=images), complaints


def _finish(pdf: Any, words: Mapping[str, str]) -> None:
    """Set the tags right, keep safe links only, and ask printers for true size: templates must not be
    fitted to a page."""
    set_right(pdf, words)
    for each in pdf.objects:
        if isinstance(each, dict) and each.get("Subtype") == "/Link" and "A" in each:
            address = str(each["A"]["URI"].string)
            if address.partition(":")[0].lower() not in SCHEMES:
                del each["A"]  # a style sheet can make links, too
    pdf.catalog["ViewerPreferences"]["PrintScaling"] = "/None"


def write_pdf(html: str) -> bytes:
    """The bytes of a print page as PDF/UA-1."""
    return make_pdf(html).data
