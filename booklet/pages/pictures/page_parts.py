"""Floor 11, page parts: parts of a page that can be set by themselves, such as all that is told of one block.

A document is set from front to back: figures are numbered, a caution is given where it is first needed, a picture that is
used again gets other ids. Its `Course` is all that a part has from what stands before it. What a part asked of it, and of
the album, can be asked again (`PartReads`): where the answers are the same the part need not be set anew.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Mapping
from typing import Any, Protocol

from markupsafe import Markup

from booklet.drawing.scene import Figure
from booklet.kit.records import Mutable, Record, field
from booklet.pages.pictures.figures import Figures


class PartReads(Mutable):
    """What a part was told while it was set, in order: of the course, and of the album."""

    course: list[tuple[str, str, int]] = field(default_factory=list)
    pictures: list[tuple[str, bool, tuple[Figure, ...]]] = field(default_factory=list)

    def holds(self, course: Course, album: Figures) -> bool:
        """Whether a part would be told the same now; if so the course goes on as if the part had been set."""
        for name, row, figures in self.pictures:
            now = album.series(name) if row else tuple(filter(None, (album.figure(name),)))
            if len(now) != len(figures) or any(
                a is not b for a, b in zip(now, figures, strict=True)
            ):
                return False
        ahead = Course(course.figures, set(course.cautions), _Over(course.names))
        if any(getattr(ahead, asked)(name) != told for asked, name, told in self.course):
            return False
        course.figures, course.cautions = ahead.figures, ahead.cautions
        course.names.update(ahead.names)
        return True


class _Over(dict[str, int]):
    """Counts over those of another table, which stays as it is."""

    def __init__(self, below: dict[str, int]) -> None:
        self._below = below

    def get(self, name: str, default: int = 0) -> int:  # type: ignore[override]
        """The count of a name."""
        return self[name] if name in self else self._below.get(name, default)


class Course(Mutable):
    """How far a document is set: its figures, the cautions given, how often each picture was used."""

    figures: int = 0
    cautions: set[str] = field(default_factory=set)
    names: dict[str, int] = field(default_factory=dict)
    reads: PartReads | None = None  # by the part that is being set

    def number(self, name: str) -> int:
        """The number of the next figure."""
        self.figures += 1
        return self._told("number", name, self.figures)

    def again(self, name: str) -> int:
        """How often a picture was used before."""
        used = self.names.get(name, 0)
        self.names[name] = used + 1
        return self._told("again", name, used)

    def first(self, kind: str) -> int:
        """1 where a caution is given for the first time, else 0."""
        told = int(kind not in self.cautions)
        self.cautions.add(kind)
        return self._told("first", kind, told)

    def _told(self, asked: str, name: str, told: int) -> int:
        if self.reads is not None:
            self.reads.course.append((asked, name, told))
        return told


class RecordedAlbum(Record):
    """An album; the part that is being set remembers what it was given."""

    album: Figures
    course: Course

    def figure(self, name: str) -> Figure | None:
        """The figure of that name, or None."""
        found = self.album.figure(name)
        self._give(name, False, () if found is None else (found,))
        return found

    def series(self, name: str) -> tuple[Figure, ...]:
        """The figures of a row in order."""
        found = self.album.series(name)
        self._give(name, True, found)
        return found

    def _give(self, name: str, row: bool, figures: tuple[Figure, ...]) -> None:
        if self.course.reads is not None:
            self.course.reads.pictures.append((name, row, figures))


class PagePart(Record, kw_only=True):
    """A part to be set: its template and of what it tells, by name; the values that it is made of, plain ones and
    records; what sets it, and what that may ask."""

    name: str
    values: tuple[Hashable, ...]
    records: tuple[Any, ...]
    set: Callable[[], Markup]
    course: Course
    album: Figures


class Keeper(Protocol):
    """Sets parts of a page, or knows them from before."""

    def __call__(self, part: PagePart) -> Markup:
        """The markup of a part."""
        ...


class PartListener(Protocol):
    """Hears of a part of a page as soon as it is set: its name, its markup, and the pieces of all parts so far."""

    def __call__(self, name: str, markup: Markup, pieces: Mapping[str, Markup], /) -> None:
        """Hear of it."""
        ...


def untold(name: str, markup: Markup, pieces: Mapping[str, Markup], /) -> None:
    """Nobody hears."""
