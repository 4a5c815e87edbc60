"""Floor 12: the recipe. A folder goes in; booklets come out, or every fault that was found (`checking.py`)."""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import Future
from contextlib import closing
from dataclasses import dataclass
from itertools import product

from booklet.checking import check, check_pattern, lay_out_folder, pattern_of, read_texts
from booklet.checks import CheckedPattern
from booklet.exports import PLAIN, Printing, exported
from booklet.exports.printed import Job, Printed
from booklet.layouts import Layouts
from booklet.memory import Ask, plainly
from booklet.pages import Document, chosen_sizes, compose
from booklet.pages.album import drawn
from booklet.pages.figures import FigureSource
from booklet.pattern import Edition, Paper, Pattern
from booklet.plan import Plan, make_plan

__all__ = [
    "build", "check", "check_pattern", "documents", "lay_out_folder", "pattern_of", "plan", "read_texts",
]  # fmt: skip

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
    papers: Sequence[Paper] | None = None,
    say: Say = lambda text: None,
    printing: Printing = PLAIN,
    beside: bool = True,
    web: bool = True,
    pdf: bool = True,
) -> None:
    """Write the web page (`web`) and the PDFs (`pdf`) of every edition, size and paper asked for (default:
    all), and `beside` them the templates and tables for other programs.

    `write` takes a file name and its bytes; `say` is told the name of each before it is made, and
    what the PDF maker complains of: nothing, or a bug of ours. Raises PrintingError for a booklet that
    cannot be printed as asked, and WallError for one that would not be laid out within the limits.
    """
    made = plan(checked)  # of all sizes: tables compare them
    figures = drawn(made)
    on_paper = drawn(made, low_ink=True) if printing.low_ink else figures
    chosen = [e for e in made.pattern.booklet.editions if not editions or e.id in editions]
    papers = tuple(dict.fromkeys(papers or _papers(made.pattern, printing))) if pdf else ()
    counts = [len(chosen_sizes(made, edition, tuple(sizes or ()))) for edition in chosen]
    copies = [max(1, len(edition.names)) for edition in chosen]
    prints = sum(count * len(papers) * each for count, each in zip(counts, copies, strict=True))
    total = prints + (sum(map(bool, counts)) if web else 0)
    with closing(Layouts(prints)) as layouts:
        waiting: deque[_Handed] = deque()
        number = 0
        for edition in chosen:
            for document in documents(made, edition, papers, sizes, figures, on_paper, web):
                number += 1
                handed = _handed(f"{number} of {total}", document, printing, layouts)
                waiting.append(handed)
                while len(waiting) > layouts.ahead:
                    _finish(waiting.popleft(), write, say)
        while waiting:
            _finish(waiting.popleft(), write, say)
    if beside:
        say("making templates and tables for other programs")
        for name, data in exported(made, tuple(sizes or ())):
            write(name, data)


@dataclass(frozen=True, slots=True)
class _Handed:
    """A document on its way: its place in the row, and for print what a worker makes of it."""

    place: str
    document: Document
    print: Future[Printed] | None


def _handed(place: str, document: Document, printing: Printing, layouts: Layouts) -> _Handed:
    """A document, handed to a worker where it is for print."""
    if document.paper is None:
        return _Handed(place, document, None)
    job = Job(document.html, document.paper, printing)
    return _Handed(place, document, layouts.submit(job, document.called))


def _finish(handed: _Handed, write: Write, say: Say) -> None:
    """Write the files of a document once they are made. Documents end in the order they began."""
    document = handed.document
    say(f"making {handed.place}: {document.name}")
    if handed.print is None:
        write(document.name, document.html.encode("utf-8"))
        return
    made = handed.print.result()
    for ending, data in made.files:
        write(document.name.removesuffix(".pdf") + ending, data)
    for line in made.said:
        say(line)


def documents(
    made: Plan,
    edition: Edition,
    papers: Sequence[Paper],
    sizes: Sequence[str] | None = None,
    figures: FigureSource | None = None,
    on_paper: FigureSource | None = None,
    web: bool = True,
) -> Iterator[Document]:
    """The documents of an edition: one web page (if `web`), then a print page for each size and paper asked for,
    and for each name of the edition.

    `figures` are pictures drawn before; left out, they are drawn. `on_paper` are those for print, where
    they differ.
    """
    figures = figures or drawn(made)
    chosen = tuple(s.size.id for s in chosen_sizes(made, edition, tuple(sizes or ())))
    if not chosen:
        return
    if web:
        yield compose(made, edition, sizes=chosen, figures=figures)
    copies = range(1, len(edition.names) + 1) or (0,)
    for size, paper, copy in product(chosen, papers, copies):
        yield compose(made, edition, on_paper or figures, paper, (size,), copy)


def _papers(pattern: Pattern, printing: Printing) -> tuple[Paper, ...]:
    """The author's paper first, then letter and A4; to fold and staple, their halves."""
    if printing.imposed:
        return FOLDING_PAPERS
    return tuple(dict.fromkeys((pattern.booklet.paper, *PAPERS)))
