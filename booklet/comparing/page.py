"""Floor 12, comparing: the changes as a page for readers, the earlier picture and the present one side by side."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from markupsafe import Markup

from booklet.comparing.changes import Change
from booklet.comparing.side import PatternState
from booklet.comparing.told import head
from booklet.drawing.scene import Figure
from booklet.kit.records import Record
from booklet.kit.words import phrase
from booklet.pages.pictures.album import drawn
from booklet.pages.pictures.figures import LARGE, FigureSource, image_svg
from booklet.pages.style.alone import compose_alone
from booklet.pages.texts.words import Words


class ChangeRow(Record, kw_only=True):
    """One change on the page."""

    what: str
    was: str
    now: str
    pictures: tuple[Markup, Markup] | None


class Group(Record, kw_only=True):
    """The changes of one weight in one size."""

    grave: bool
    size: str
    rows: tuple[ChangeRow, ...]


def page(found: Sequence[Change], old: PatternState, new: PatternState) -> str:
    """The page, self-contained, in the language of the later pattern. Pictures stand only where both sides
    are folders; of alike ones the first."""
    language = new.pattern.tongue if new.pattern else "en"
    words = Words.of(language)
    pictures = _Pictures(old, new, words)
    groups = [
        Group(
            grave=grave,
            size=new.size(size),
            rows=tuple(
                ChangeRow(
                    what=words.text(change.what),
                    was=words.text(change.was),
                    now=words.text(change.now),
                    pictures=pictures.of(change),
                )
                for change in of_size
            ),
        )
        for (grave, size), of_size in groupby(found, key=lambda c: (c.grave, c.size))
    ]
    title = words.text(phrase("What changed"))
    values = {"groups": groups, "title": title, "head": head(old, new) if language == "en" else ""}
    name = str(new.facts.get("title", ""))
    return compose_alone("pages/changes.html", f"{name}: {title}", words, values)


class _Pictures:
    """The pictures of both sides, each pair shown once."""

    def __init__(self, old: PatternState, new: PatternState, words: Words) -> None:
        self.sides, self.words = (old, new), words
        self.sources: list[FigureSource] = [drawn(side.plan) for side in self.sides if side.plan]
        self.shown: set[tuple[str, tuple[str, str]]] = set()

    def of(self, change: Change) -> tuple[Markup, Markup] | None:
        """The earlier picture and the present one, or None where there are not both or they stand above."""
        key = change.size, change.pictures
        if len(self.sources) < 2 or not all(change.pictures) or key in self.shown:
            return None
        figures = [self._figure(n, change.size, name) for n, name in enumerate(change.pictures)]
        before, after = figures
        if before is None or after is None or before.svg == after.svg:
            return None
        self.shown.add(key)
        return self._markup(before), self._markup(after)

    def _figure(self, side: int, size: str, name: str) -> Figure | None:
        plan = self.sides[side].plan
        assert plan is not None
        planned = next(each for each in plan.sizes if each.size.id == size)
        return self.sources[side](planned, LARGE).figure(name)

    def _markup(self, figure: Figure) -> Markup:
        return image_svg(figure, self.words.text(figure.alt))
