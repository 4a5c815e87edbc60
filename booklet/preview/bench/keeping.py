"""Floor 13, keeping: parts of a page set for the states before that still hold.

A part holds where all that it read of its plan, all that it had from the document before it, and its pictures are the same.
"""

from __future__ import annotations

from markupsafe import Markup

from booklet.kit.records import Record
from booklet.kit.remembered.memory import ROUNDS
from booklet.kit.remembered.recent import Recent
from booklet.pages.pictures.page_parts import PagePart, PartReads
from booklet.preview.bench.remembering import Remembering


class _Set(Record):
    """A part as it was set, and what it was told."""

    markup: Markup
    reads: PartReads


class Parts:
    """Parts of pages by what they read. For one thread."""

    def __init__(self, remembering: Remembering, rounds: int = ROUNDS) -> None:
        self._remembering = remembering
        self._known: Recent[bytes, _Set] = Recent(rounds)

    def next_round(self) -> None:
        """Begin a look at another state: what is long out of use is forgotten."""
        self._known.next_round()

    def __call__(self, part: PagePart) -> Markup:
        """The markup of a part: as it was, or set anew."""
        template, course = part.values[0], part.course
        values = (part.name, part.values, course.figures, part.records)
        known = self._known.get(self._remembering.key(template, values))
        if known is not None and known.reads.holds(course, part.album):
            return known.markup
        course.reads, before = PartReads(), course.reads
        try:
            with self._remembering.noting(template):
                made = _Set(part.set(), course.reads)
        finally:
            course.reads = before
        self._known.keep(self._remembering.key(template, values), made)
        return made.markup
