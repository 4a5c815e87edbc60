"""Floor 12: what of a pattern is made: which sizes, editions, languages and papers, and as what."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.exports.press.printing import PLAIN, Printing
from booklet.kit.records import Record
from booklet.pattern import Edition, Paper, Pattern
from booklet.pattern.spoken import voice_of
from booklet.source.editions.edition_keys import made_in, may_be_made_in

PAPERS = (Paper.LETTER, Paper.A4)
FOLDING_PAPERS = (Paper.HALF_LETTER, Paper.A5)  # two pages of these fit a sheet of the others


class BuildOptions(Record, kw_only=True):
    """What is asked for; of what is left empty, all. `alternatives` are colourways, layouts, or pairs of both (their names
    BETWEEN them) in which editions are made that are in no other; those that are in others of their own are made in these,
    where that is asked for.

    Each edition is made as a web page (`web`), as PDFs (`pdf`), as a book for e-readers (`books`) and as a site (`sites`),
    and `beside` them are templates and tables for other programs.
    """

    sizes: tuple[str, ...] = ()
    editions: tuple[str, ...] = ()
    languages: tuple[str, ...] = ()
    papers: tuple[Paper, ...] = ()
    alternatives: tuple[str, ...] = ()
    printing: Printing = PLAIN
    web: bool = True
    pdf: bool = True
    books: bool = False
    sites: bool = False
    beside: bool = True
    large: bool = False

    def editions_of(self, pattern: Pattern) -> tuple[Edition, ...]:
        """The editions asked for; those of one voice follow each other, for each is worked out once."""
        asked = [
            edition
            for each in pattern.booklet.editions
            for edition in self._taken(pattern, each)
            if (not self.editions or edition.id in self.editions)
            and (not self.languages or voice_of(pattern, edition).language in self.languages)
        ]
        voices = list(dict.fromkeys(voice_of(pattern, edition) for edition in asked))
        return tuple(sorted(asked, key=lambda edition: voices.index(voice_of(pattern, edition))))

    def _taken(self, pattern: Pattern, edition: Edition) -> Iterator[Edition]:
        """An edition in the colourways and layouts asked for, but for those that are others than its own."""
        if not self.alternatives:
            yield edition
            return
        own = pattern.alternative_name(edition.alternative)
        asked = {pattern.alternative_name(name): name for name in reversed(self.alternatives)}
        for name, said in reversed(asked.items()):
            if own == name:
                yield edition
            elif may_be_made_in(edition, said):
                yield made_in(edition, name)

    def papers_of(self, pattern: Pattern) -> tuple[Paper, ...]:
        """The papers asked for, or the author's first, then letter and A4; to fold and staple, their halves."""
        if not self.pdf:
            return ()
        if self.papers:
            return tuple(dict.fromkeys(self.papers))
        if self.printing.imposed:
            return FOLDING_PAPERS
        return tuple(dict.fromkeys((pattern.booklet.paper, *PAPERS)))
