"""Floor 12: the recipe. A folder goes in; booklets come out, or every fault that was found (`checking.py`)."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator, Sequence
from contextlib import closing
from itertools import chain, groupby, product, zip_longest

from booklet.checks.checked import CheckedPattern
from booklet.exports.files import exported, exported_tables
from booklet.facts import facts_text
from booklet.kit.records import replace
from booklet.kit.remembered.memory import Ask, plainly
from booklet.layouts import Layouts
from booklet.pages.class_letter import letters_of
from booklet.pages.composing import SetSo, compose
from booklet.pages.document import Document, copies_of
from booklet.pages.naming import chosen_sizes
from booklet.pages.pictures.figures import FigureSource
from booklet.pages.prepress.copies import READER
from booklet.pages.prepress.variants import Attached
from booklet.pages.screen.page import ScreenBook
from booklet.pattern import Edition, Paper, Pattern
from booklet.plan import Plan, make_plan
from booklet.recipe.build_options import BuildOptions as BuildOptions
from booklet.recipe.checking import (
    check as check,
    check_pattern as check_pattern,
    lay_out_folder as lay_out_folder,
    pattern_of as pattern_of,
    read_texts as read_texts,
)
from booklet.recipe.handing import Handed, Write as Write, finish, handed
from booklet.recipe.links import links_between
from booklet.recipe.output import SITE_END
from booklet.recipe.voices import Said, Say, Voices


def plan(checked: CheckedPattern, sizes: Sequence[str] | None = None, ask: Ask = plainly) -> Plan:
    """The plan of the sizes asked for, or of all."""
    return make_plan(checked, sizes, ask)


def build(
    checked: CheckedPattern, wanted: BuildOptions, write: Write, say: Say = lambda text: None
) -> None:
    """Make all that is wanted of a pattern.

    `write` takes a file name and its bytes; `say` is told the name of each before it is made, and
    what the PDF maker complains of: nothing, or a bug of ours. Raises PrintingError for a booklet that
    cannot be printed as asked, and WallError for one that would not be laid out within the limits.
    """
    own = plan(checked)  # of all sizes: tables compare them
    wanted = _with_facts(wanted, own)
    editions = wanted.editions_of(own.pattern)
    voices = Voices(checked, own, wanted, frozenset(each.alternative for each in editions), say)
    made = [
        voices.of(edition, links_between(own.pattern, edition, editions, wanted.sizes))
        for edition in editions
    ]
    _pages(own.pattern, made, wanted, write, say)
    if wanted.books:
        for said in made:
            if (reader := _book(said, wanted.sizes)) is not None:
                say(f"making {reader[0]}")
                write(*reader)
    if wanted.beside:
        for said in made:
            for name, data in letters_of(said.plan, said.edition, wanted.sizes):
                say(f"making {name}")
                write(name, data)
        say("making templates and tables for other programs")
        for name, data in _for_other_programs(own, made, wanted.sizes):
            write(name, data)


def _with_facts(wanted: BuildOptions, made: Plan) -> BuildOptions:
    """An archived booklet carries its facts beside its source."""
    printing = wanted.printing
    if not printing.attached:
        return wanted
    facts = Attached("facts.json", facts_text(made).encode("utf-8"), "Data")
    return replace(wanted, printing=replace(printing, attached=(*printing.attached, facts)))


def _pages(
    pattern: Pattern, made: Sequence[Said], wanted: BuildOptions, write: Write, say: Say
) -> None:
    """Make the web pages, the sites and the PDFs of the editions, in their order. What an edition was drawn from is held no
    longer than the next needs it."""
    papers = wanted.papers_of(pattern)
    counts = [len(chosen_sizes(said.plan, said.edition, wanted.sizes)) for said in made]
    copies = [max(1, len(said.edition.names)) for said in made]
    prints = sum(count * len(papers) * each for count, each in zip(counts, copies, strict=True))
    total = prints + (sum(map(bool, counts)) if wanted.web else 0)
    with closing(Layouts(prints)) as layouts:
        waiting: deque[Handed] = deque()
        number = 0
        for said, following in zip_longest(made, made[1:]):
            book = said.screen() if wanted.web or wanted.sites else None
            if following is None or following.screens is not said.screens:
                said.screens.let_go()
            page = said.screens.page(book) if book is not None and wanted.web else None
            for name, data in _site(book, say) if wanted.sites else ():
                write(name, data)
            book = None
            prints_of = print_pages(
                said.plan, said.edition, said.on_paper, papers, wanted.sizes, wanted.large
            )
            made_of = chain(filter(None, [page]), prints_of)
            page = None
            for _, alike in groupby(made_of, key=lambda d: d.base or d.name):
                some = handed(tuple(alike), wanted.printing, layouts)
                places = range(number + 1, number + len(some.documents) + 1)
                number += len(places)
                waiting.append(replace(some, places=tuple(f"{n} of {total}" for n in places)))
                while len(waiting) > layouts.ahead:
                    finish(waiting.popleft(), write, say)
        while waiting:
            finish(waiting.popleft(), write, say)


def _for_other_programs(
    own: Plan, made: Sequence[Said], sizes: tuple[str, ...]
) -> Iterator[tuple[str, bytes]]:
    """The templates and tables of every colourway and layout that is made, and the tables in its other languages."""
    pattern = own.pattern
    for taken in dict.fromkeys(pattern.alternative_name(said.edition.alternative) for said in made):
        yield from exported(own.taken_as(taken), sizes)
    for language, taken, other in _in_other_languages(pattern, made):
        yield from exported_tables(other.taken_as(taken), language)


def _in_other_languages(pattern: Pattern, made: Sequence[Said]) -> Iterator[tuple[str, str, Plan]]:
    """The plans in other languages than the pattern's, each once with its language and its colourway or layout: tables
    hold both units, so that one of a language will do."""
    told: set[tuple[str, str]] = set()
    for said in made:
        language = said.plan.pattern.language
        taken = pattern.alternative_name(said.edition.alternative)
        if language != pattern.language and (language, taken) not in told:
            told.add((language, taken))
            yield language, taken, said.plan


def _book(said: Said, sizes: Sequence[str]) -> tuple[str, bytes] | None:
    """An edition as a book for e-readers: the name of its file, and its bytes; None where it has none of the sizes."""
    from booklet.exports.chapters.epub import epub  # its parser is needed for this only

    shown = tuple(s.size.id for s in chosen_sizes(said.plan, said.edition, tuple(sizes)))
    if not shown:
        return None
    document = compose(said.plan, said.edition, said.figures, None, shown)
    return document.name.removesuffix(".html") + ".epub", epub(document, said.plan.pattern)


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


def print_pages(
    plan: Plan,
    edition: Edition,
    figures: FigureSource,
    papers: Sequence[Paper],
    sizes: tuple[str, ...] = (),
    large: bool = False,
) -> Iterator[Document]:
    """The pages of an edition for print: one for each size and paper asked for, and for each name of the edition."""
    so = SetSo(reader=READER if edition.names else "", large=large)
    for size, paper in product(chosen_sizes(plan, edition, sizes), papers):
        one = compose(plan, edition, figures, paper, (size.size.id,), so)
        yield from copies_of(one, edition) if so.reader else (one,)
        del one  # while the next is composed it is held no more
