"""Floor 12: documents handed to the workers that lay them out, and their files once they are made."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from concurrent.futures import Future

from booklet.exports.press.printed import PrintedFiles, PrintJob
from booklet.exports.press.printing import Printing
from booklet.kit.records import Record, replace
from booklet.layouts import Layouts
from booklet.pages.document import Document
from booklet.recipe.voices import Say

Write = Callable[[str, bytes], None]


class Handed(Record):
    """Documents on their way that one layout gives, the copies of a class: their places in the row, and for print
    what a worker makes of them."""

    documents: tuple[Document, ...]
    print: Future[tuple[PrintedFiles, ...]] | None = None
    is_archived: bool = False
    places: tuple[str, ...] = ()


def handed(alike: tuple[Document, ...], printing: Printing, layouts: Layouts) -> Handed:
    """Documents of one layout, handed to a worker where they are for print; what they say is then no more held."""
    first = alike[0]
    if first.paper is None:
        return Handed(tuple(replace(each, parts=(), frame={}) for each in alike))
    readers = tuple(document.reader for document in alike if document.base)
    job = PrintJob(first.base or first.html, first.paper, printing, readers)
    made = layouts.submit(job, first.called, kin=" ".join(first.sizes))
    names = tuple(replace(each, html="", base="", parts=(), pieces={}, frame={}) for each in alike)
    return Handed(names, made, bool(printing.attached))


def finish(handed: Handed, write: Write, say: Say) -> None:
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
