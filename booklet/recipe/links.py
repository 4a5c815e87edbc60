"""Floor 12: the links between the web pages of one pattern: the same booklet in other languages, colourways and layouts,
and the other parts of it."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

from booklet.kit.records import replace
from booklet.kit.words import LANGUAGE_NAMES, Worded, words_of
from booklet.pages.naming import web_name
from booklet.pages.screen.page import Link, LinkKind
from booklet.pages.views.side_by_side import NAMELESS
from booklet.pattern import SINGLE_KINDS, AlternativeKind, Edition, Pattern
from booklet.pattern.spoken import common_name, voice_of


def links_between(
    pattern: Pattern, edition: Edition, made: Sequence[Edition], sizes: Sequence[str] | None
) -> tuple[Link, ...]:
    """The pages that go with that of an edition among those that are `made`, with its own; none of a kind where it would be
    alone."""
    kinds = (_in_languages, _in_alternatives, _in_parts)
    found = [tuple(kind(pattern, edition, made, sizes)) for kind in kinds]
    return tuple(link for links in found if len(links) > 1 for link in links)


def _in_languages(
    pattern: Pattern, edition: Edition, made: Sequence[Edition], sizes: Sequence[str] | None
) -> Iterator[Link]:
    """The same booklet in the languages in which it is made, each once."""
    alike = [each for each in made if _same_booklet(each, edition)]
    files = {
        voice_of(pattern, each).language: web_name(pattern, each, sizes) for each in reversed(alike)
    }
    own = voice_of(pattern, edition).language
    for language, file in sorted(files.items()):
        yield Link(
            kin=LinkKind.LANGUAGE,
            language=language,
            file=file,
            name=LANGUAGE_NAMES[language],
            is_here=language == own,
        )


def _in_alternatives(
    pattern: Pattern, edition: Edition, made: Sequence[Edition], sizes: Sequence[str] | None
) -> Iterator[Link]:
    """The same booklet in the colourways and layouts in which it is made."""
    voice = voice_of(pattern, edition)
    own = replace(edition, alternative="")
    alike = {
        pattern.alternative_name(each.alternative): each
        for each in reversed(made)
        if voice_of(pattern, each) == voice and _same_booklet(replace(each, alternative=""), own)
    }
    words = words_of(voice.language)
    kinds = {
        one.kind for each in alike.values() for one in pattern.alternatives_in(each.alternative)
    }
    for name, each in alike.items():
        told = _titles(pattern, name, kinds)
        yield Link(
            kin=LinkKind.ALTERNATIVE,
            language=voice.language,
            file=web_name(pattern, each, sizes),
            name=", ".join(_said(title, voice.language) for title in told) or words.say(NAMELESS),
            is_here=each is edition,
        )


def _titles(pattern: Pattern, name: str, kinds: Collection[AlternativeKind]) -> list[str]:
    """What a colourway and a layout are called, of those kinds in which booklets differ."""
    named = {one.kind: one for one in pattern.alternatives_in(name)}
    own = {one.kind: one for one in pattern.alternatives if one.is_own}
    told = (named.get(kind) or own.get(kind) for kind in SINGLE_KINDS if kind in kinds)
    return [one.title for one in told if one is not None and one.title]


def _in_parts(
    pattern: Pattern, edition: Edition, made: Sequence[Edition], sizes: Sequence[str] | None
) -> Iterator[Link]:
    """The parts of the same booklet, in order."""
    voice = voice_of(pattern, edition)
    for number, part in enumerate(pattern.booklet.parts if edition.part else (), 1):
        own = replace(edition, part=number)
        if own in made:  # told apart by its voice, too
            yield Link(
                kin=LinkKind.PART,
                language=voice.language,
                file=web_name(pattern, own, sizes),
                name=_said(part.title, voice.language),
                is_here=own == edition,
            )


def _said(title: str, language: str) -> str:
    """A title in a language, where it is written for each."""
    return title.said_in(language) if isinstance(title, Worded) else title


def _same_booklet(one: Edition, other: Edition) -> bool:
    """Whether two editions differ by their voice only: by that, by their title, and by their name."""
    pages = [[common_name(page.name) for page in each.pages] for each in (one, other)]
    same = (one.sizes, one.teacher, one.names, one.part, one.alternative) == (
        other.sizes, other.teacher, other.names, other.part, other.alternative
    )  # fmt: skip
    return same and pages[0] == pages[1] and (one.id == other.id or one.voice != other.voice)
