"""Floor 12: the recipe. A folder goes in; booklets come out, or every fault that was found (`checking.py`)."""

from __future__ import annotations

import gzip
from collections import deque
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import Future
from contextlib import closing
from functools import partial
from itertools import groupby, product, zip_longest

from booklet.checks.checked import CheckedPattern
from booklet.exports.files import exported, exported_tables
from booklet.exports.press.printed import PrintedFiles, PrintJob
from booklet.exports.press.printing import PLAIN, Printing
from booklet.facts import facts_text
from booklet.kit.bounds import MOST_PAGE
from booklet.kit.records import Mutable, Record, replace
from booklet.kit.remembered.memory import Ask, Memory, plainly
from booklet.layouts import Layouts
from booklet.pages.class_letter import letters_of
from booklet.pages.composing import compose
from booklet.pages.document import Document, copies_of
from booklet.pages.naming import chosen_sizes
from booklet.pages.pictures.album import drawn
from booklet.pages.pictures.figures import FigureSource
from booklet.pages.prepress.copies import READER
from booklet.pages.prepress.variants import Attached
from booklet.pages.screen.page import Link, ScreenBook, ScreenView, gathered, one_file
from booklet.pattern import Edition, Paper, Pattern, Voice
from booklet.pattern.spoken import voice_of
from booklet.plan import Plan, make_plan
from booklet.recipe.checking import (
    check as check,
    check_pattern as check_pattern,
    in_voice,
    lay_out_folder as lay_out_folder,
    pattern_of as pattern_of,
    read_texts as read_texts,
)
from booklet.recipe.choices import key_of, views
from booklet.recipe.links import links_between
from booklet.recipe.output import SITE_END
from booklet.source.editions.edition_keys import made_in, may_be_made_in

PAPERS = (Paper.LETTER, Paper.A4)
FOLDING_PAPERS = (Paper.HALF_LETTER, Paper.A5)  # two pages of these fit a sheet of the others

Write = Callable[[str, bytes], None]
Say = Callable[[str], None]


def plan(checked: CheckedPattern, sizes: Sequence[str] | None = None, ask: Ask = plainly) -> Plan:
    """The plan of the sizes asked for, or of all."""
    return make_plan(checked, sizes, ask)


def build(
    checked: CheckedPattern,
    write: Write,
    sizes: Sequence[str] | None = None,
    editions: Sequence[str] | None = None,
    languages: Sequence[str] | None = None,
    papers: Sequence[Paper] | None = None,
    alternatives: Sequence[str] | None = None,
    say: Say = lambda text: None,
    printing: Printing = PLAIN,
    beside: bool = True,
    web: bool = True,
    pdf: bool = True,
    books: bool = False,
    sites: bool = False,
    large: bool = False,
) -> None:
    """Write the web page (`web`), the PDFs (`pdf`), the book for e-readers (`books`) and the site (`sites`) of every
    edition, language, size and paper asked for (default: all), and `beside` them the templates and tables for other
    programs. `alternatives` are colourways, layouts, or pairs of both (their names BETWEEN them) in which editions are made
    that are in no other; those that are in others of their own are made in these, where that is asked for.

    `write` takes a file name and its bytes; `say` is told the name of each before it is made, and
    what the PDF maker complains of: nothing, or a bug of ours. Raises PrintingError for a booklet that
    cannot be printed as asked, and WallError for one that would not be laid out within the limits.
    """
    own = plan(checked)  # of all sizes: tables compare them
    if printing.attached:
        facts = Attached("facts.json", facts_text(own).encode("utf-8"), "Data")
        printing = replace(printing, attached=(*printing.attached, facts))
    chosen = _chosen(own.pattern, editions, languages, alternatives)
    layouts_made = frozenset(each.alternative for each in chosen)
    voices = _Voices(checked, own, printing.low_ink, layouts_made, tuple(sizes or ()), say)
    made = [
        voices.of(edition, links_between(own.pattern, edition, chosen, sizes)) for edition in chosen
    ]
    papers = tuple(dict.fromkeys(papers or _papers(own.pattern, printing))) if pdf else ()
    counts = [len(chosen_sizes(own, edition, tuple(sizes or ()))) for edition in chosen]
    copies = [max(1, len(edition.names)) for edition in chosen]
    prints = sum(count * len(papers) * each for count, each in zip(counts, copies, strict=True))
    total = prints + (sum(map(bool, counts)) if web else 0)
    with closing(Layouts(prints)) as layouts:
        waiting: deque[_Handed] = deque()
        number = 0
        for said, following in zip_longest(made, made[1:]):
            book = said.screen() if web or sites else None
            if following is None or following.screens is not said.screens:
                said.screens.let_go()
            page = said.screens.page(book) if book is not None and web else None
            for name, data in _site(book, say) if sites else ():
                write(name, data)
            book = None
            made_of = documents(
                said.plan,
                said.edition,
                papers,
                sizes,
                said.figures,
                said.on_paper,
                web,
                page,
                large,
            )
            page = None
            for _, alike in groupby(made_of, key=lambda d: d.base or d.name):
                handed = _handed(tuple(alike), printing, layouts)
                places = range(number + 1, number + len(handed.documents) + 1)
                number += len(places)
                waiting.append(replace(handed, places=tuple(f"{n} of {total}" for n in places)))
                while len(waiting) > layouts.ahead:
                    _finish(waiting.popleft(), write, say)
        while waiting:
            _finish(waiting.popleft(), write, say)
    if books:
        for said in made:
            if (reader := _book(said.plan, said.edition, sizes, said.figures)) is not None:
                say(f"making {reader[0]}")
                write(*reader)
    if beside:
        for said in made:
            for name, data in letters_of(said.plan, said.edition, tuple(sizes or ())):
                say(f"making {name}")
                write(name, data)
        say("making templates and tables for other programs")
        for taken in dict.fromkeys(own.pattern.alternative_name(e.alternative) for e in chosen):
            for name, data in exported(own.taken_as(taken), tuple(sizes or ())):
                write(name, data)
        for language, taken, other in _in_other_languages(own.pattern, made):
            for name, data in exported_tables(other.taken_as(taken), language):
                write(name, data)


def _in_other_languages(pattern: Pattern, made: Sequence[_Said]) -> Iterator[tuple[str, str, Plan]]:
    """The plans in other languages than the pattern's, each once with its language and its colourway or layout: tables
    hold both units, so that one of a language will do."""
    told: set[tuple[str, str]] = set()
    for said in made:
        language = said.plan.pattern.language
        taken = pattern.alternative_name(said.edition.alternative)
        if language != pattern.language and (language, taken) not in told:
            told.add((language, taken))
            yield language, taken, said.plan


def _chosen(
    pattern: Pattern,
    editions: Sequence[str] | None,
    languages: Sequence[str] | None,
    alternatives: Sequence[str] | None,
) -> list[Edition]:
    """The editions asked for, or all; those of one voice follow each other, for each is worked out once."""
    asked = [
        edition
        for each in pattern.booklet.editions
        for edition in _taken(pattern, each, alternatives)
        if (not editions or edition.id in editions)
        and (not languages or voice_of(pattern, edition).language in languages)
    ]
    voices = list(dict.fromkeys(voice_of(pattern, edition) for edition in asked))
    return sorted(asked, key=lambda edition: voices.index(voice_of(pattern, edition)))


def _taken(
    pattern: Pattern, edition: Edition, alternatives: Sequence[str] | None
) -> Iterator[Edition]:
    """An edition in the colourways and layouts asked for, but for those that are others than its own."""
    if not alternatives:
        yield edition
        return
    own = pattern.alternative_name(edition.alternative)
    asked = {pattern.alternative_name(name): name for name in reversed(alternatives)}
    for name, said in reversed(asked.items()):
        if own == name:
            yield edition
        elif may_be_made_in(edition, said):
            yield made_in(edition, name)


class _Said(Record, kw_only=True):
    """A pattern as it is said in the voice of an edition: its plan, its pictures, its web pages, the last with what
    tells it from others (`key`) and `links` to those that go with it."""

    edition: Edition
    plan: Plan
    figures: FigureSource
    on_paper: FigureSource
    screens: _Screens
    key: str = ""
    links: tuple[Link, ...] = ()

    def screen(self) -> ScreenBook | None:
        """The edition in all ways in which a reader may have it shown."""
        return self.screens.of(self.edition, self.key, self.links)


class _Voices:
    """A pattern in the voices of its editions. What does not depend on the voice is worked out once."""

    def __init__(
        self,
        checked: CheckedPattern,
        own: Plan,
        low_ink: bool,
        layouts: frozenset[str],
        sizes: tuple[str, ...],
        say: Say,
    ) -> None:
        self._checked, self._own, self._low_ink = checked, own, low_ink
        self._layouts, self._sizes, self._say = layouts, sizes, say
        self._memory = Memory()
        self._known: dict[Voice, _Said] = {}

    def of(self, edition: Edition, links: tuple[Link, ...]) -> _Said:
        """What is said in the voice of an edition of the pattern."""
        pattern = self._own.pattern
        voice = voice_of(pattern, edition)
        if voice not in self._known:
            self._known[voice] = self._made(edition, voice)
        said = self._known[voice]
        told = said.plan.pattern.booklet.editions[_place(pattern, edition)]
        told = replace(
            told, alternative=edition.alternative, tell_alternative=edition.tell_alternative
        )
        return replace(said, edition=told, key=key_of(pattern, edition), links=links)

    def _made(self, edition: Edition, voice: Voice) -> _Said:
        is_own = voice == self._own.pattern.voice
        checked = in_voice(self._checked, voice, self._memory.ask)
        made = self._own if is_own else plan(checked)
        figures = drawn(made)
        on_paper = drawn(made, low_ink=True) if self._low_ink else figures
        ways = partial(views, checked, made, figures, self._memory.ask, self._layouts)
        screens = _Screens(made=made, sizes=self._sizes, say=self._say, views=ways)
        return _Said(
            edition=edition, plan=made, figures=figures, on_paper=on_paper, screens=screens
        )


def _place(pattern: Pattern, edition: Edition) -> int:
    """The place of an edition among those of the pattern, in whichever colourway or layout it is made."""
    editions = pattern.booklet.editions
    if edition in editions:
        return editions.index(edition)
    taken, told = edition.alternative, edition.tell_alternative
    alike = [replace(each, alternative=taken, tell_alternative=told) for each in editions]
    return alike.index(edition)


class _Handed(Record):
    """Documents on their way that one layout gives, the copies of a class: their places in the row, and for print
    what a worker makes of them."""

    documents: tuple[Document, ...]
    print: Future[tuple[PrintedFiles, ...]] | None = None
    is_archived: bool = False
    places: tuple[str, ...] = ()


def _handed(alike: tuple[Document, ...], printing: Printing, layouts: Layouts) -> _Handed:
    """Documents of one layout, handed to a worker where they are for print; what they say is then no more held."""
    first = alike[0]
    if first.paper is None:
        return _Handed(tuple(replace(each, parts=(), frame={}) for each in alike))
    readers = tuple(document.reader for document in alike if document.base)
    job = PrintJob(first.base or first.html, first.paper, printing, readers)
    made = layouts.submit(job, first.called, kin=" ".join(first.sizes))
    names = tuple(replace(each, html="", base="", parts=(), pieces={}, frame={}) for each in alike)
    return _Handed(names, made, bool(printing.attached))


def _finish(handed: _Handed, write: Write, say: Say) -> None:
    """Write the files of documents once they are made. Documents end in the order they began."""
    made = (None,) * len(handed.documents) if handed.print is None else handed.print.result()
    for place, document, printed in zip(handed.places, handed.documents, made, strict=True):
        say(f"making {place}: {document.name}")
        if printed is None:
            write(document.name, document.html.encode("utf-8"))
            continue
        for ending, data in printed.files:
            write(document.name.removesuffix(".pdf") + ending, data)
        for line in printed.said:
            say(line)
    whole = "" if handed.is_archived else handed.documents[0].whole
    if whole and len(handed.documents) > 1:
        for name, data in _bound(whole, made):
            say(f"making {name}")
            write(name, data)


def _bound(whole: str, made: tuple[PrintedFiles | None, ...]) -> Iterator[tuple[str, bytes]]:
    """The files of all copies of a class in one of each kind, in the order of the copies."""
    from booklet.exports.press.sheets import bound_together

    files = [printed.files for printed in made if printed is not None]
    for kind in zip(*files, strict=True):
        yield whole.removesuffix(".pdf") + kind[0][0], bound_together([data for _, data in kind])


def _book(
    made: Plan, edition: Edition, sizes: Sequence[str] | None, figures: FigureSource
) -> tuple[str, bytes] | None:
    """An edition as a book for e-readers: the name of its file, and its bytes; None where it has none of the sizes."""
    from booklet.exports.chapters.epub import epub  # its parser is needed for this only

    shown = tuple(s.size.id for s in chosen_sizes(made, edition, tuple(sizes or ())))
    if not shown:
        return None
    document = compose(made, edition, figures, None, shown)
    return document.name.removesuffix(".html") + ".epub", epub(document, made.pattern)


class _Screens(Mutable, kw_only=True):
    """The editions of a plan in all ways in which a reader may have them shown. The ways are worked out when the first edition
    is asked for. What is made in a layout has all colourways as well."""

    made: Plan
    sizes: tuple[str, ...]
    say: Say
    views: Callable[[], Sequence[ScreenView]]
    ways: Sequence[ScreenView] = ()

    def of(self, edition: Edition, key: str, links: tuple[Link, ...]) -> ScreenBook | None:
        """An edition; None for one that has none of the sizes."""
        shown = tuple(s.size.id for s in chosen_sizes(self.made, edition, self.sizes))
        if not shown:
            return None
        self.ways = self.ways or self.views()
        return gathered(self.ways, edition, shown, key, links)

    def let_go(self) -> None:
        """No edition is asked for any more: the ways, with all that was drawn for them, are held no longer."""
        self.ways = ()

    def page(self, book: ScreenBook) -> Document:
        """A book in one file, in all its colourways, unless that would take too long to fetch: then in one, which is said."""
        page = one_file(book)
        taken = len(gzip.compress(page.html.encode("utf-8"), 9)) if book.is_dyed else 0
        if taken <= MOST_PAGE:
            return page
        self.say(
            f"{page.name} shows one colourway: with all of them it would take {taken // 1000} KB to fetch, more than "
            f"{MOST_PAGE // 1000}. Make pages that lead to each other: `colourway: [...]` in edition `{book.edition.id}`, or a site with `--site`"
        )
        return one_file(book.in_one_colourway())


def _site(book: ScreenBook | None, say: Say) -> Iterator[tuple[str, bytes]]:
    """The files of an edition as a site, in a folder of its own; none where it has none of the sizes."""
    from booklet.exports.chapters.site import site

    if book is None:
        return
    folder = _site_folder(book.base.name)
    say(f"making {folder}")
    links = tuple(
        replace(link, file=f"../{_site_folder(link.file)}/index.html") for link in book.links
    )
    for name, data in site(replace(book, links=links)).items():
        yield f"{folder}/{name}", data


def _site_folder(page: str) -> str:
    """The folder of the site of an edition, beside its web page."""
    return page.removesuffix(".html") + SITE_END


def documents(
    made: Plan,
    edition: Edition,
    papers: Sequence[Paper],
    sizes: Sequence[str] | None = None,
    figures: FigureSource | None = None,
    on_paper: FigureSource | None = None,
    web: bool = True,
    page: Document | None = None,
    large: bool = False,
) -> Iterator[Document]:
    """The documents of an edition: one web page (if `web`), then a print page for each size and paper asked for,
    and for each name of the edition.

    `figures` are pictures drawn before; left out, they are drawn. `on_paper` are those for print, where
    they differ. The web page is the `page` made before; left out, the edition is set in its own way.
    """
    figures = figures or drawn(made)
    chosen = tuple(s.size.id for s in chosen_sizes(made, edition, tuple(sizes or ())))
    if not chosen:
        return
    if web:
        if page is None:
            own = ScreenView(units=made.pattern.units, cloth=None, plan=made, figures=figures)
            page = one_file(gathered((own,), edition, chosen, key_of(made.pattern, edition)))
        yield page
        page = None
    reader = READER if edition.names else ""
    for size, paper in product(chosen, papers):
        one = compose(made, edition, on_paper or figures, paper, (size,), reader, large=large)
        yield from copies_of(one, edition) if reader else (one,)
        del one  # while the next is composed it is held no more


def _papers(pattern: Pattern, printing: Printing) -> tuple[Paper, ...]:
    """The author's paper first, then letter and A4; to fold and staple, their halves."""
    if printing.imposed:
        return FOLDING_PAPERS
    return tuple(dict.fromkeys((pattern.booklet.paper, *PAPERS)))
