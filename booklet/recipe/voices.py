"""Floor 12: a pattern as it is said in the voices of its editions, and in all ways in which a reader may have it shown."""

from __future__ import annotations

import gzip
from collections.abc import Callable, Sequence
from functools import partial

from booklet.checks.checked import CheckedPattern
from booklet.kit.bounds import MOST_PAGE
from booklet.kit.records import Mutable, Record, replace
from booklet.kit.remembered.memory import Memory, unwarned
from booklet.pages.document import Document
from booklet.pages.naming import chosen_sizes
from booklet.pages.pictures.album import drawn
from booklet.pages.pictures.figures import FigureSource
from booklet.pages.screen.page import Link, ScreenBook, ScreenView, gathered, one_file
from booklet.pattern import Edition, Pattern, Voice
from booklet.pattern.spoken import voice_of
from booklet.plan import Plan, make_plan
from booklet.recipe.build_options import BuildOptions
from booklet.recipe.checking import in_voice
from booklet.recipe.choices import key_of, views

Say = Callable[[str], None]


class Screens(Mutable, kw_only=True):
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


class Said(Record, kw_only=True):
    """A pattern as it is said in the voice of an edition: its plan, its pictures, its web pages, the last with what
    tells it from others (`key`) and `links` to those that go with it."""

    edition: Edition
    plan: Plan
    figures: FigureSource
    on_paper: FigureSource
    screens: Screens
    key: str = ""
    links: tuple[Link, ...] = ()

    def screen(self) -> ScreenBook | None:
        """The edition in all ways in which a reader may have it shown."""
        return self.screens.of(self.edition, self.key, self.links)


class Voices:
    """A pattern in the voices of its editions. What does not depend on the voice is worked out once."""

    def __init__(
        self,
        checked: CheckedPattern,
        own: Plan,
        wanted: BuildOptions,
        layouts: frozenset[str],
        say: Say,
    ) -> None:
        self._checked, self._own, self._wanted = checked, own, wanted
        self._layouts, self._say = layouts, say
        self._ask = unwarned(Memory().ask)  # of the pattern as it is written `check` has told
        self._known: dict[Voice, Said] = {}

    def of(self, edition: Edition, links: tuple[Link, ...]) -> Said:
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

    def _made(self, edition: Edition, voice: Voice) -> Said:
        is_own = voice == self._own.pattern.voice
        checked = in_voice(self._checked, voice, self._ask)
        made = self._own if is_own else make_plan(checked)
        figures = drawn(made)
        on_paper = drawn(made, low_ink=True) if self._wanted.printing.low_ink else figures
        ways = partial(views, checked, made, figures, self._ask, self._layouts)
        screens = Screens(made=made, sizes=self._wanted.sizes, say=self._say, views=ways)
        return Said(edition=edition, plan=made, figures=figures, on_paper=on_paper, screens=screens)


def _place(pattern: Pattern, edition: Edition) -> int:
    """The place of an edition among those of the pattern, in whichever colourway or layout it is made."""
    editions = pattern.booklet.editions
    if edition in editions:
        return editions.index(edition)
    taken, told = edition.alternative, edition.tell_alternative
    alike = [replace(each, alternative=taken, tell_alternative=told) for each in editions]
    return alike.index(edition)
