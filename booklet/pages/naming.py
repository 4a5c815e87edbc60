"""Floor 11, composing: what a document is called: its title, the line at its foot, the name of its file."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from booklet.kit.records import Record
from booklet.kit.words import Phrase, listing, phrase
from booklet.pages.sections import EDITION_TITLES
from booklet.pages.texts.words import Words
from booklet.pattern import AlternativeKind, Edition, Paper, Pattern
from booklet.plan import Plan, SizePlan
from booklet.source.editions.edition_keys import named_by
from booklet.source.values.names import file_part


def chosen_sizes(plan: Plan, edition: Edition, sizes: tuple[str, ...] = ()) -> tuple[SizePlan, ...]:
    """The sizes of an edition, or those of them that are asked for, in the plan's order; of an edition for the class
    as the class makes them."""
    shown = plan.shown_by(edition).sizes
    wanted = [s for s in shown if not edition.sizes or s.size.id in edition.sizes]
    return tuple(s for s in wanted if not sizes or s.size.id in sizes)


class DocumentName(Record, kw_only=True):
    """Names one document: an edition of a pattern for some `sizes` of those it has (`listed`)."""

    pattern: Pattern
    edition: Edition
    sizes: tuple[SizePlan, ...]
    listed: tuple[SizePlan, ...]
    words: Words
    reader: str = ""

    @property
    def is_part(self) -> bool:
        """Whether the document shows only some of the sizes of its edition."""
        return len(self.sizes) < len(self.listed)

    @property
    def one_size(self) -> str:
        """The title of the only size, or nothing."""
        return self.sizes[0].size.title if len(self.sizes) == 1 else ""

    def title(self) -> str:
        """The title of the document: pattern, edition, size."""
        titles = [size.size.title for size in self.sizes]
        named = listing(titles) if len(titles) == 1 or self.is_part else phrase("all sizes")
        reader = f", {self.reader}" if self.reader else ""
        told = phrase(
            "{pattern}: {edition}, {sizes}",
            pattern=self.pattern.title,
            edition=self.edition_title,
            sizes=named,
        )
        return self.words.text(told) + reader

    def file_name(self, paper: Paper | None, large: bool) -> str:
        """The file name. A page of some of the edition's sizes names them after two hyphens, which no other
        name has: it never takes the place of a page that shows more."""
        if paper is None:
            shown = [size.size.id for size in self.sizes] if self.is_part else []
            return _web_name(self.pattern, self.edition, shown)
        parts = name_parts(self.pattern, self.edition)
        parts.append(file_part(self.sizes[0].size.id) if len(self.sizes) == 1 else "all-sizes")
        parts.append(file_part(paper.value))
        parts += ["large-print"] if large else []
        return "-".join(parts) + ".pdf"

    @property
    def edition_title(self) -> str:
        """The edition in words, with its colourway or layout, and the part of which it is."""
        if not self.edition.part:
            return self._told_title()
        number, parts = self.edition.part, self.pattern.booklet.parts
        told = phrase(
            "{edition}, part {n} of {all}: {title}",
            edition=self._told_title(),
            n=number,
            all=len(parts),
            title=parts[number - 1].title,
        )
        return self.words.text(told)

    def _told_title(self) -> str:
        """The edition in words, with its colourway and its layout where these have a title."""
        told = self._whole_title()
        for one in self.pattern.alternatives_in(self.edition.alternative):
            if one.title:
                told = self.words.text(_IN[one.kind](told, one.title))
        return told

    def _whole_title(self) -> str:
        """The edition in words, whatever its part, colourway and layout."""
        if self.edition.title:
            return self.edition.title
        known = EDITION_TITLES.get(self.edition.id)
        return self.words.text(known) if known is not None else self.edition.id.capitalize()

    @property
    def foot(self) -> str:
        """The line at the foot of every page."""
        size = self.one_size or self.edition_title
        if not (version := self.pattern.version):
            return str(size)
        return f"{size} · {self.words.text(phrase('Version {version}', version=version))}"


def web_name(pattern: Pattern, edition: Edition, sizes: Sequence[str] | None) -> str:
    """The file name of the web page of an edition, for the sizes that are asked for, or all."""
    has = [s.id for s in pattern.sizes if not edition.sizes or s.id in edition.sizes]
    shown = [size for size in has if not sizes or size in sizes]
    return _web_name(pattern, edition, shown if len(shown) < len(has) else [])


def _web_name(pattern: Pattern, edition: Edition, shown: Sequence[str]) -> str:
    return "--".join(["-".join(name_parts(pattern, edition)), *map(file_part, shown)]) + ".html"


_IN: dict[AlternativeKind, Callable[[str, str], Phrase]] = {
    AlternativeKind.COLOURWAY: lambda edition, title: phrase(
        "{edition}, colorway {title}", edition=edition, title=title
    ),
    AlternativeKind.LAYOUT: lambda edition, title: phrase(
        "{edition}, layout {title}", edition=edition, title=title
    ),
}


def name_parts(pattern: Pattern, edition: Edition) -> list[str]:
    """What the names of all files of an edition begin with."""
    return [file_part(pattern.files_title or pattern.title), *map(file_part, named_by(edition))]
