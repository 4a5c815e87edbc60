"""Floor 13, remembering: pictures drawn for the states before that still hold.

What a picture is made of is told by the content (`kit/content.py`) of the fields that were read when it was drawn
(`kit/noting.py`), the colours of the cloths left out: where only they are others, the colours in the picture are exchanged.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator
from contextlib import contextmanager
from typing import Any, ParamSpec, TypeVar

from markupsafe import Markup

from booklet.cutting.cutting_plan import CutPatch, CuttingPlan, FabricPlan
from booklet.drawing.ink.fills import Looks
from booklet.drawing.scene import Fill
from booklet.kit.records import Mutable, Record
from booklet.kit.remembered.content import Contents, Narrow
from booklet.kit.remembered.memory import ROUNDS
from booklet.kit.remembered.noting import Field, Notes
from booklet.kit.remembered.recent import Recent
from booklet.kit.words import Speaker
from booklet.pages.pictures.page_parts import PagePart, PartReads
from booklet.pattern import Block, Fabric, Pattern, Quilt, Sewing, Size
from booklet.plan import BlockPlan, Plan, SizePlan, StepCard
from booklet.plan.records import LayerCard
from booklet.pressing.pressing import Pressing
from booklet.preview.bench.recolouring import recoloured
from booklet.quilt.sized import SizedQuilt
from booklet.sewing.assembly import Assembly, Step

P = ParamSpec("P")
T = TypeVar("T")


KINDS = (
    Assembly, Block, BlockPlan, CuttingPlan, CutPatch, Fabric, FabricPlan, Pattern, Plan, Pressing, Quilt, Sewing, Size,
    SizedQuilt, SizePlan, Step, StepCard, LayerCard,
)  # fmt: skip
"""Records of which a picture reads some fields only."""


_NOTHING = Narrow(KINDS, ())


class _Picture(Record):
    """What was drawn, and in which looks."""

    made: Any
    looks: Looks | None


class _Work(Mutable):
    """What is known of one kind of work: all fields that doing it has read so far, of whatever it was done for."""

    fields: frozenset[Field]
    narrow: Narrow


class Remembering:
    """What is read when pictures are drawn and parts of pages are set, kind by kind. For one thread."""

    def __init__(self, rounds: int = ROUNDS) -> None:
        self._contents = Contents(rounds)
        self._works: dict[Hashable, _Work] = {}
        self._notes = Notes(KINDS)

    def next_round(self) -> None:
        """Begin a look at another state: what is long out of use is forgotten."""
        self._contents.next_round()

    def key(self, work: Hashable, values: object) -> bytes:
        """What a thing made of these values is known by: all that things of its kind have ever read of them."""
        known = self._works.get(work) or _Work(frozenset(), _NOTHING)
        with self._notes.aside():
            return self._contents.of(values, narrow=known.narrow).digest

    @contextmanager
    def noting(self, work: Hashable) -> Iterator[None]:
        """Notes what is read while a thing of a kind is made."""
        with self._notes.taken() as fields:
            yield
        known = self._works.get(work)
        if known is None or not fields <= known.fields:
            every = frozenset(fields) | (known.fields if known else frozenset())
            self._works[work] = _Work(every, Narrow(KINDS, every))


class Pictures:
    """Pictures by the content of what they are made of. For one thread."""

    def __init__(self, remembering: Remembering | None = None, rounds: int = ROUNDS) -> None:
        self._remembering = remembering or Remembering(rounds)
        self._known: Recent[bytes, _Picture] = Recent(rounds)

    def __len__(self) -> int:
        return len(self._known)

    def next_round(self) -> None:
        """Begin a look at another state: what is long out of use is forgotten."""
        self._known.next_round()

    def ask(self, work: Callable[P, T], /, *read: P.args, **named: P.kwargs) -> T:
        """What is drawn of these values: as it was, in other colours, or anew."""
        values: dict[object, Any] = dict(enumerate(read))
        values.update(named.items())
        looks: Any = next(filter(_are_looks, values.values()), None)
        rest = {at: None if value is looks else _told(value) for at, value in values.items()}
        key = self._remembering.key(work, (work, rest))
        known = self._known.get(key)
        made: Any = None if known is None else _again(known, looks)
        if known is None or (made is None and known.made is not None):
            with self._remembering.noting(work):
                made = work(*read, **named)
            key, known = self._remembering.key(work, (work, rest)), None
        if known is None or known.looks is not looks:
            self._known.keep(key, _Picture(made, looks))
        return made  # type: ignore[no-any-return]


def _told(value: object) -> object:
    """What a value says: of a speaker the language, and how it addresses the reader."""
    return (value.language, value.familiar) if isinstance(value, Speaker) else value


def _again(known: _Picture, looks: Looks | None) -> Any:
    """The picture in these looks; None where there is none, or it must be drawn anew."""
    if looks is None or known.looks is None or looks == known.looks or known.made is None:
        return known.made
    return recoloured(known.made, known.looks, looks)


def _are_looks(value: object) -> bool:
    """Whether a value is the looks of cloths."""
    return isinstance(value, dict) and all(isinstance(look, Fill) for look in value.values())


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
