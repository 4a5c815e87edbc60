"""Floor 11: an edition as an EPUB 3 for e-readers: a chapter for each of its parts, with its style, fonts and pictures.

The structure is that of the EPUB 3.3 and Open Container Format texts of the W3C. The same pattern gives the same bytes:
dates are the author's, never the clock's.
"""

from __future__ import annotations

import io
import re
import uuid
from collections.abc import Iterator, Mapping
from datetime import date
from xml.sax.saxutils import escape, quoteattr
from zipfile import ZIP_DEFLATED, ZIP_STORED, ZipFile, ZipInfo

from booklet.exports.chapters.chapters import BookChapter, FilesBeside, chapter, homes_of, linked
from booklet.exports.chapters.epub_page import navigation, written
from booklet.kit.records import replace
from booklet.kit.words import phrase, words_of
from booklet.pages.document import Document
from booklet.pages.style_sheets import spelled_out
from booklet.pattern import Pattern

_EPOCH = (1980, 1, 1, 0, 0, 0)  # the earliest time that a ZIP file can tell
_HOME = uuid.UUID(
    "6f1c1b3e-5f0e-5f57-9d2b-0c9a7c1d5e42"
)  # ours, so that names of editions become numbers
_SIDES = re.compile(r"@page[^{]*\{(?:[^{}]|\{[^}]*\})*\}")  # an e-reader has pages of its own
_KINDS = {"css": "text/css", "woff": "font/woff", "xhtml": "application/xhtml+xml", "png": "image/png", "jpg": "image/jpeg", "svg": "image/svg+xml"}  # fmt: skip
_WHOLE_WORDS = "\nth, td { overflow-wrap: normal; }\n"  # the narrowest columns hold one
_CONTAINER = b"""<?xml version="1.0" encoding="utf-8"?>
<container version="1.0" xmlns="urn:oasis:names:tc:opendocument:xmlns:container">
<rootfiles><rootfile full-path="book/book.opf" media-type="application/oebps-package+xml"/></rootfiles>
</container>
"""


def epub(document: Document, pattern: Pattern) -> bytes:
    """The EPUB of an edition that was composed as a web page in parts."""
    speaker = words_of(pattern.tongue)
    said = {key: str(speaker.say(text)) for key, text in _SAID.items()}
    chapters = tuple(_chapters(document, said["opening"]))
    homes, beside = homes_of(chapters), FilesBeside()
    pages = {each.file: written(_led(each, homes, beside), pattern.language) for each in chapters}
    drawn = frozenset(file for file, (_, is_drawn) in pages.items() if is_drawn)
    files = {file: page for file, (page, _) in pages.items()}
    files["contents.xhtml"] = navigation(chapters, said["contents"], pattern.language)
    files["style.css"] = _style(beside.without_data(document.style))
    files |= beside.files
    package = _package(document, pattern, chapters, files, drawn, said)
    return _zipped(
        {"book/book.opf": package} | {f"book/{name}": data for name, data in files.items()}
    )


_SAID = {
    "opening": phrase("Title", context="page"),
    "contents": phrase("Contents"),
    "access": phrase(
        "All pictures are described in words; all tables have headings; chapters can be reached from the contents."
    ),
}


def _chapters(document: Document, opening: str) -> Iterator[BookChapter]:
    """The parts of the page but for its contents, which an e-reader shows itself."""
    for number, (name, html) in enumerate(document.parts):
        if name != "contents" and html.strip():
            yield chapter(f"c{number:03d}.xhtml", str(html), opening)


def _led(each: BookChapter, homes: Mapping[str, str], beside: FilesBeside) -> BookChapter:
    """A chapter whose links lead to the others, with its pictures beside it."""
    return replace(each, markup=beside.without_data(linked(each.markup, each.file, homes)))


def _style(css: str) -> bytes:
    """The style sheet as e-readers understand it, older ones too, which do not know `:is()`."""
    return spelled_out(_SIDES.sub("", css) + _WHOLE_WORDS).encode("utf-8")


def _package(
    document: Document,
    pattern: Pattern,
    chapters: tuple[BookChapter, ...],
    files: Mapping[str, bytes],
    drawn: frozenset[str],
    said: Mapping[str, str],
) -> bytes:
    """What the book is, which files it has, and in which order they are read."""
    number = uuid.uuid5(_HOME, f"{pattern.title}\n{document.edition}\n{pattern.language}")
    day = pattern.date if isinstance(pattern.date, date) else date(*_EPOCH[:3])
    lines = [
        '<?xml version="1.0" encoding="utf-8"?>',
        f'<package xmlns="http://www.idpf.org/2007/opf" version="3.0" unique-identifier="id" xml:lang={quoteattr(pattern.language)}>',
        '<metadata xmlns:dc="http://purl.org/dc/elements/1.1/">',
        f'<dc:identifier id="id">urn:uuid:{number}</dc:identifier>',
        f"<dc:title>{escape(document.title)}</dc:title>",
        f"<dc:language>{escape(pattern.language)}</dc:language>",
        *([f"<dc:creator>{escape(pattern.designer)}</dc:creator>"] if pattern.designer else ()),
        *(
            [f"<dc:description>{escape(pattern.summary)}</dc:description>"]
            if pattern.summary
            else ()
        ),
        f'<meta property="dcterms:modified">{day.isoformat()}T00:00:00Z</meta>',
        *(f'<meta property="schema:{key}">{value}</meta>' for key, value in _ACCESS),
        f'<meta property="schema:accessibilitySummary">{escape(said["access"])}</meta>',
        "</metadata>",
        "<manifest>",
        *(_item(name, "svg" if name in drawn else "") for name in sorted(files)),
        "</manifest>",
        "<spine>",
        *(f'<itemref idref="{_id(name)}"/>' for name in _order(chapters)),
        "</spine>",
        "</package>",
    ]
    return "\n".join(lines).encode("utf-8")


_ACCESS = (
    ("accessMode", "textual"),
    ("accessMode", "visual"),
    ("accessModeSufficient", "textual"),
    ("accessibilityFeature", "alternativeText"),
    ("accessibilityFeature", "structuralNavigation"),
    ("accessibilityFeature", "tableOfContents"),
    ("accessibilityHazard", "none"),
)  # words of schema.org


def _order(chapters: tuple[BookChapter, ...]) -> Iterator[str]:
    """The files in reading order: the title, the contents, the rest."""
    first, *rest = (each.file for each in chapters)
    yield from (first, "contents.xhtml", *rest)


def _item(name: str, has: str) -> str:
    wanted = "nav" if name == "contents.xhtml" else has
    told = f' properties="{wanted}"' if wanted else ""
    kind = _KINDS[name.rpartition(".")[2]]
    return f'<item id="{_id(name)}" href="{name}" media-type="{kind}"{told}/>'


def _id(name: str) -> str:
    return name.replace(".", "-")


def _zipped(files: Mapping[str, bytes]) -> bytes:
    """The container: its kind first and unpacked, as readers look for it."""
    out = io.BytesIO()
    with ZipFile(out, "w") as book:
        book.writestr(ZipInfo("mimetype", _EPOCH), b"application/epub+zip", ZIP_STORED)
        for name, data in {"META-INF/container.xml": _CONTAINER, **files}.items():
            book.writestr(ZipInfo(name, _EPOCH), data, ZIP_DEFLATED)
    return out.getvalue()
