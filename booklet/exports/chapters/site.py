"""Floor 11, the site: an edition as a folder of pages, one for each chapter, that works from any sub-folder of a web host and,
after one visit, without a network.

The chapters are those of the web page, in the same views, with the same script. Its style sheet, script, fonts and photographs are
files beside them, each once; drawings stand in the pages, where they can be walked through and enlarged. A list of
all files with their digests is the heart of the service worker: what has changed is fetched anew, and nothing else.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator, Mapping

from markupsafe import Markup

from booklet.exports.chapters.chapters import BookChapter, FilesBeside, chapter, homes_of, linked
from booklet.exports.chapters.icon import FAR, NEAR, icon
from booklet.exports.chapters.site_places import places_of, told_once
from booklet.kit.records import Record, replace
from booklet.kit.words import Phrase, phrase
from booklet.pages.screen.differences import Differences
from booklet.pages.screen.page import Grounds, ScreenBook, style_sheet
from booklet.pages.screen.script import MODULES, minified, script
from booklet.pages.texts.templating import filled, template_text

HOME, STYLE, SCRIPT, PLACES, MANIFEST, WORKER = (
    "index.html", "style.css", "table.js", "places.js", "manifest.webmanifest", "worker.js",
)  # fmt: skip
_STORE, _PACK, _FILES = "<!--store-->", "<!--pack-->", "{/* files */}"
_SEWN = ('class="card"', 'class="press-block', 'class="route', " data-v=")
"""What a chapter shows at the table."""
_AT_TABLE = ("piecing", "pressing", "quilt")

SAYINGS: dict[str, Phrase] = {
    "renewed": phrase("This booklet was renewed. Show it as it is now"),
}
"""What the script of a site says beside all that the script of a page says."""


class SiteChapter(Record):
    """A chapter of the site: the parts of the page that it holds, and what differs there in other views."""

    names: tuple[str, ...]
    text: BookChapter
    differences: Differences

    @property
    def is_sewn(self) -> bool:
        """Whether it has something to show at the table."""
        return self.names[0] in _AT_TABLE and any(sign in self.text.markup for sign in _SEWN)


def site(book: ScreenBook) -> dict[str, bytes]:
    """The files of a site, by name. The same pattern gives the same bytes."""
    chapters = tuple(_chapters(book))
    beside, grounds = FilesBeside(), Grounds()
    pages = list(_pages(book, chapters, grounds))
    texts = [text for page, differences in pages for text in (page, *differences.markup())]
    style = beside.without_data(style_sheet(book, texts, grounds))
    files = {
        each.text.file: beside.without_data(_packed(page, differences, beside)).encode("utf-8")
        for each, (page, differences) in zip(chapters, pages, strict=True)
    }
    size = book.plan.sizes[0]
    files |= {
        STYLE: style.encode("utf-8"),
        SCRIPT: script((*MODULES, "chapters")).encode("utf-8"),
        PLACES: _places(book, chapters),
        MANIFEST: _manifest(book),
        "icon.svg": icon(size, NEAR),
        "icon-mask.svg": icon(size, FAR),
    }
    files |= beside.files
    return files | {WORKER: _worker(files)}


def _chapters(book: ScreenBook) -> Iterator[SiteChapter]:
    """The opening with the contents, then each section."""
    others = [name for name, _ in book.base.parts if name not in ("opening", "contents")]
    title = str(book.base.frame["document_title"])
    for names in (("opening", "contents"), *((name,) for name in others)):
        differences = book.differences()
        file = HOME if names[0] == "opening" else f"{names[0]}.html"
        markup = [book.part(name, differences) for name in names]
        text = chapter(file, "\n".join(markup), title)
        if file == HOME:
            text = replace(text, markup=f"{markup[0]}\n<main>\n{markup[1]}\n</main>")
        yield SiteChapter(names, text, differences)


def _pages(
    book: ScreenBook, chapters: tuple[SiteChapter, ...], grounds: Grounds
) -> Iterator[tuple[str, Differences]]:
    """Each chapter as a page, but for what differs in its other views, which is still to be packed."""
    homes = homes_of(each.text for each in chapters)
    sewn = [number for number, each in enumerate(chapters) if each.is_sewn]
    for number, each in enumerate(chapters):
        each.differences.renew(
            [linked(m, each.text.file, homes) for m in each.differences.markup()]
        )
        body = linked(each.text.markup, each.text.file, homes)
        page = grounds.named(_page(book, chapters, number, body, sewn), each.differences)
        yield page.replace(_STORE, book.pictures.store(), 1), each.differences


def _page(
    book: ScreenBook, chapters: tuple[SiteChapter, ...], number: int, body: str, sewn: list[int]
) -> str:
    """A chapter in its frame."""
    frame = book.frame()
    listed = [each.text for each in chapters]
    turns = {"before": listed[number - 1] if number else None, "after": dict(enumerate(listed)).get(number + 1)}  # fmt: skip
    before = next((n for n in reversed(sewn) if n < number), None)
    after = next((n for n in sewn if n > number), None)
    first = next(iter(sewn), None)
    ways = {
        "before": "" if before is None else f"{listed[before].file}#at-table-end",
        "after": "" if after is None else f"{listed[after].file}#at-table",
        "first": "" if first is None else f"{listed[first].file}#at-table",
    }
    says = {name: book.words.speaker.wording(said) for name, said in SAYINGS.items()}
    own = frame | turns | {
        "chapters": listed,
        "chapter": listed[number],
        "chooser": filled("chooser.html", **frame, chapters=listed, chapter=listed[number]),
        "body": Markup(body),
        "home": listed[0],
        "links": book.links if number == 0 else (),
        "title": str(book.plan.pattern.title),
        "said": book.said(chapter=number, ways=ways, says=says),
    }  # fmt: skip
    return str(filled("chapter.html", **own))


def _packed(page: str, differences: Differences, beside: FilesBeside) -> str:
    """A page with what differs in its other views."""
    differences.renew([beside.without_data(markup) for markup in differences.markup()])
    return page.replace(_PACK, differences.packed(), 1)


def _places(book: ScreenBook, chapters: tuple[SiteChapter, ...]) -> bytes:
    """What each chapter holds that others lead to, as a script that only keeps it."""
    parts = dict(book.base.parts)
    found = [[places_of(parts[name]) for name in each.names] for each in chapters]
    told = {m: places_of(m).ticks for view in book.documents for _, m in view.parts if _is_kept(m)}
    views = [[tick for _, m in view.parts for tick in told.get(m, ())] for view in book.documents]
    ticks, of_view = told_once(views)
    pieces: dict[str, list[tuple[int, str]]] = {}
    words: list[tuple[int, str, str]] = []
    for number, held in enumerate(found):
        for places in held:
            words += [(number, sizes, text) for sizes, text in places.texts]
            for letter, sizes in places.pieces:
                pieces.setdefault(letter, []).append((number, sizes))
    known = {
        "titles": [(each.text.file, each.text.title) for each in chapters],
        "ticks": ticks,
        "views": of_view,
        "pieces": pieces,
        "words": words,
    }
    return f"globalThis.booklet={_json(known)};\n".encode()


def _is_kept(part: str) -> bool:
    """Whether something is ticked or counted in a part."""
    return "tick/" in part or "count/" in part


def _manifest(book: ScreenBook) -> bytes:
    """What a device needs to know to keep the booklet like a program of its own."""
    pattern = book.plan.pattern
    icons = [
        {"src": "icon.svg", "sizes": "any", "type": "image/svg+xml", "purpose": "any"},
        {"src": "icon-mask.svg", "sizes": "any", "type": "image/svg+xml", "purpose": "maskable"},
    ]
    told = {
        "name": book.base.title,
        "short_name": pattern.title,
        "description": str(book.base.frame["summary"]),
        "lang": pattern.language,
        "start_url": HOME,
        "scope": "./",
        "display": "standalone",
        "background_color": "#ffffff",
        "theme_color": "#ffffff",
        "icons": icons,
    }
    return (_json({key: value for key, value in told.items() if value}) + "\n").encode("utf-8")


def _worker(files: Mapping[str, bytes]) -> bytes:
    """The service worker with the list of all files."""
    digests = {name: hashlib.sha256(data).hexdigest() for name, data in sorted(files.items())}
    text = template_text("table/worker/worker.js") or ""
    assert _FILES in text
    return minified(text.replace(_FILES, _json(digests), 1)).encode("utf-8")


def _json(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"))
