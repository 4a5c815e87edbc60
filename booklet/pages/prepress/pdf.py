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
import re
import warnings
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager, redirect_stdout
from datetime import datetime
from functools import cache, lru_cache
from html import escape
from typing import Any

from booklet.kit.records import Mutable, Record
from booklet.pages.prepress.copies import READER, Copies, signs_of
from booklet.pages.prepress.form_objects import FormObjects, set_aside
from booklet.pages.prepress.inks import Inks, print_with
from booklet.pages.prepress.packing import pack
from booklet.pages.prepress.tagging import link_words, set_right
from booklet.pages.prepress.variants import (
    SCREEN,
    UNDATED,
    PdfKind,
    also_read_aloud,
    set_identifier,
    strip_links,
)
from booklet.pages.style.fonts import font_rules
from booklet.pages.style.own_sheet import FIXED
from booklet.pages.texts.slots import SCHEMES

_FONT = re.compile(r"(?<=url\()data:[^)]*(?=\))")
_STYLE = re.compile(r"<style>\n?(.*?)</style>\n?", re.DOTALL)
SHEETS_KEPT = 8
"""Style sheets that are held read: two of each paper and kind of print that a build makes."""

MANY_PAGES = 100
"""Pages that leave so much behind that it is collected: a fifth of a megabyte each. Collecting looks at all that is there, and
takes a twentieth of what setting a document takes."""


_NOTES = re.compile(
    r"footnote|\bnote\(|\\0{0,4}[4-7][0-9a-f](?![0-9a-f])|\\[g-z]", re.IGNORECASE
)  # what makes a note of an element, in a style sheet; letters of it may be written by their numbers
_NOTE_RULE = re.compile(r"(?m)^::(?:foot)?note-[a-z]+ \{[^}]*\}$")  # of WeasyPrint's own sheet


class NoPdf(Exception):
    """The machine lacks what PDF files are made with; the message is a sentence for the reader."""


class Pdf(Record):
    """A PDF, its number of pages, and what WeasyPrint complained of (nothing, or a bug of ours)."""

    data: bytes
    pages: int
    complaints: tuple[str, ...]


class _Left(Mutable):
    """What documents left behind since it was last collected, in pages."""

    pages: int = 0


_left = _Left()


def let_go(pages: int = 0) -> None:
    """Collect what documents left behind where it is much, with the `pages` that are laid out and not drawn yet."""
    if _left.pages + pages > MANY_PAGES:
        gc.collect()
        _left.pages = 0


@cache
def _maker() -> tuple[Any, Any, Any, Any, FormObjects]:
    """The class that sets a page, what fetches its addresses (`data:` and no other), our fonts as a
    style sheet read once for all documents, where the fonts are kept, and the pictures drawn.

    Loaded when the first PDF is made: only then is the machine's library Pango needed. Raises NoPdf.
    """
    try:
        with redirect_stdout(io.StringIO()):  # it prints a page of advice there
            from weasyprint import CSS, HTML
            from weasyprint.html import UA, UA_COUNTER_STYLE
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
        """Refuses every address but `data:`, and those that stand for one in `pictures`."""

        def __init__(self, pictures: Mapping[str, str] | None = None) -> None:
            super().__init__()
            self._pictures = pictures or {}

        def fetch(self, url: str, headers: dict[str, str] | None = None) -> Any:
            """The response of a data address; ValueError for any other."""
            url = self._pictures.get(url, url)
            if not url.startswith("data:"):
                raise ValueError("a page may carry only what is inside it")
            return super().fetch(url, headers)

    plain = CSS(string=_NOTE_RULE.sub("", UA), counter_style=UA_COUNTER_STYLE)

    class PrintPage(HTML):  # type: ignore[misc]
        """A page; without notes at its feet it has no style for those of each element, which would be most of all styles."""

        has_notes = True

        def _ua_stylesheets(self, forms: bool) -> list[Any]:
            sheets: list[Any] = super()._ua_stylesheets(forms)
            return sheets if self.has_notes else [plain, *sheets[1:]]

    fonts = FontConfiguration()
    rules, ours = _fonts_aside(font_rules())
    faces = CSS(string=rules, url_fetcher=OnlyData(ours), font_config=fonts)
    return PrintPage, OnlyData, faces, fonts, FormObjects()


def _fonts_aside(rules: str) -> tuple[str, dict[str, str]]:
    """Rules of faces under short addresses, and their own addresses by these: reading two million letters of base64 as
    CSS takes longer than all else that is read before the first page."""
    fonts: dict[str, str] = {}

    def short(found: re.Match[str]) -> str:
        name = f"data:font;aside,{len(fonts)}"
        fonts[name] = found[0]
        return name

    return _FONT.sub(short, rules), fonts


def load() -> None:
    """Load what sets pages and its fonts, so that nothing more need be read. Raises NoPdf."""
    with _collected():
        _maker()


@atexit.register
def _release() -> None:
    """Let go of the fonts while the modules that free them are still there."""
    if _maker.cache_info().currsize:
        _house_sheet.cache_clear()
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


def make_pdf(html: str, variant: PdfKind = SCREEN) -> Pdf:
    """The PDF of a print page, with its pages counted and complaints collected. Raises NoPdf and ProfileError."""
    with _laid_out(html) as (document, complaints):
        words = link_words(html)
        name = _identifier(html)
        _set_intent(document, variant)

        def finish(document: Any, pdf: Any) -> None:
            _finish(pdf, words, variant, name)
            pack(pdf)

        data = document.write_pdf(
            finisher=finish,
            pdf_variant=variant.name,
            pdf_version=variant.version,
            pdf_identifier=name,
            optimize_images=False,
            attachments=_attachments(variant),
        )
    assert data is not None
    return Pdf(data, len(document.pages), tuple(complaints))


def make_pdfs(html: str, readers: Sequence[str], variant: PdfKind = SCREEN) -> tuple[Pdf, ...]:
    """The PDF of a print page, or of each of its copies: laid out once with the names put in where that can be,
    else one after the other. Raises NoPdf and ProfileError."""
    if not readers:
        return (make_pdf(html, variant),)
    signs = signs_of(readers)
    made = () if signs is None else _made_together(html, readers, signs, variant)
    return made or tuple(make_pdf(html.replace(READER, escape(name)), variant) for name in readers)


def _made_together(
    html: str, readers: Sequence[str], signs: str, variant: PdfKind
) -> tuple[Pdf, ...]:
    """The PDF of each copy from one layout; none where the place of the name was not found."""
    made: list[bytes] = []
    page = html.replace(READER, escape(signs))
    with _laid_out(page) as (document, complaints):
        words = link_words(page)
        _set_intent(document, variant)

        def finish(document: Any, pdf: Any) -> None:
            _finish(pdf, words, variant, _identifier(page))
            copies = Copies(pdf, tuple(document.fonts.values()), signs)
            pack(pdf, copies.streams)
            for name in readers if copies.can else ():
                copies.put(name)
                output = io.BytesIO()
                named = _identifier(html.replace(READER, name))
                pdf.write(output, variant.version, named, True)
                made.append(output.getvalue())
            del pdf.objects[1:]  # it is written once more, for nobody

        document.write_pdf(
            finisher=finish,
            pdf_variant=variant.name,
            optimize_images=False,
            attachments=_attachments(variant),
        )
        pages = len(document.pages)
    return tuple(Pdf(data, pages, tuple(complaints)) for data in made)


def _set_intent(document: Any, variant: PdfKind) -> None:
    """Let a document know the inks of its press, and its date where it must have one. Raises ProfileError."""
    if variant is SCREEN:
        return
    from weasyprint.css import ColorProfile

    told = document.metadata
    told.created = told.created or UNDATED
    told.modified = told.modified or told.created
    if variant.profile:
        parts = tuple((part,) for part in Inks(variant.profile).parts)
        profile = ColorProfile(
            io.BytesIO(variant.profile), "profile.icc", "relative-colorimetric", parts
        )
        document.color_profiles["--press"], document.output_intent = profile, "--press"


def _attachments(variant: PdfKind) -> list[Any]:
    """The files that a PDF carries, as WeasyPrint takes them."""
    from weasyprint import Attachment

    dated = datetime.fromisoformat(UNDATED)
    return [
        Attachment(
            file_obj=io.BytesIO(each.data),
            name=each.name,
            description=each.name,
            created=dated,
            modified=dated,
            relationship=each.relation,
        )
        for each in variant.attached
    ]


def _identifier(html: str) -> bytes:
    return hashlib.sha256(html.encode("utf-8")).hexdigest()[:32].encode("ascii")


def _sheets_out(html: str) -> tuple[str, list[str]]:
    """A page without the style sheets of its head, and these."""
    head, end, rest = html.partition("</head>")
    return (_STYLE.sub("", head) + end + rest, _STYLE.findall(head)) if end else (html, [])


@lru_cache(SHEETS_KEPT)
def _house_sheet(rules: str) -> Any:
    """A style sheet of ours, read."""
    from weasyprint import CSS

    _, only_data, _, fonts, _ = _maker()
    return CSS(string=rules, url_fetcher=only_data(), font_config=fonts)


def _rendered(page: Any, sheets: Sequence[str], images: dict[str, Any]) -> Any:
    """A page laid out by its style sheets, of which the last is its own: what that one declares of fonts, colours and
    counters holds for this page.
    All are of one origin, and follow each other as in the page."""
    from weasyprint import CSS
    from weasyprint.css.counters import CounterStyle

    class OwnCounters(CounterStyle):  # type: ignore[misc]
        """Of these names the styles stay: WeasyPrint puts its usual ones in after the sheet is read."""

        own: frozenset[str] = frozenset()

        def __setitem__(self, name: str, style: Any) -> None:
            if name not in self.own:
                super().__setitem__(name, style)

    _, only_data, faces, fonts, _ = _maker()
    counters, profiles = OwnCounters(), dict[str, Any]()
    own = [
        CSS(
            string=rules,
            url_fetcher=only_data(),
            font_config=fonts,
            counter_style=counters,
            color_profiles=profiles,
        )
        for rules in sheets[-1:]
    ]
    counters.own = frozenset(counters) - frozenset(FIXED)
    return page.render(
        font_config=fonts,
        stylesheets=[*map(_house_sheet, sheets[:-1]), *own, faces],
        counter_style=counters,
        color_profiles=profiles,
        cache=images,
    )


@contextmanager
def _laid_out(html: str) -> Iterator[tuple[Any, list[str]]]:
    """WeasyPrint's pages of a print page, and the complaints, which go on being collected meanwhile."""
    load()
    setter, only_data, _, _, forms = _maker()
    with _collected() as complaints, warnings.catch_warnings():
        warnings.simplefilter(
            "ignore"
        )  # of pictures: what they carry beside their pixels is not read
        shorter, pictures = set_aside(html)
        bare, sheets = _sheets_out(shorter)
        page = setter(string=bare, url_fetcher=only_data(pictures), media_type="print")
        page.has_notes = _NOTES.search(shorter) is not None
        document = _rendered(page, sheets, forms.images(pictures))
        document._html = None  # the parsed page: what is drawn is in the boxes
        del page
        let_go(len(document.pages))
        yield document, complaints
        _left.pages += len(document.pages)


def _finish(pdf: Any, words: Mapping[str, str], variant: PdfKind, identifier: bytes) -> None:
    """Set the tags right, keep safe links only, and ask printers for true size: templates must not be
    fitted to a page. What is for a press has its inks and no links."""
    if variant.is_tagged:
        set_right(pdf, words)
    else:
        strip_links(pdf)
        set_identifier(pdf, identifier)
        print_with(pdf, Inks(variant.profile))
    if variant.attached:
        also_read_aloud(pdf)
    for each in pdf.objects:
        if isinstance(each, dict) and each.get("Subtype") == "/Link" and "A" in each:
            address = str(each["A"]["URI"].string)
            if address.partition(":")[0].lower() not in SCHEMES:
                del each["A"]  # a style sheet can make links, too
    if "ViewerPreferences" not in pdf.catalog:
        pdf.catalog["ViewerPreferences"] = type(pdf.catalog)()
    pdf.catalog["ViewerPreferences"]["PrintScaling"] = "/None"
