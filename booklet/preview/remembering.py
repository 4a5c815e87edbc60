"""Floor 13, remembering: pictures drawn for the states before that still hold.

What a picture is made of is told by its content (`kit/content.py`), the colours of the cloths left out: where only
they are others, the colours in the picture are exchanged.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, is_dataclass
from typing import Any, ParamSpec, TypeVar

from booklet.drawing.ink.fills import Looks
from booklet.drawing.scene import Fill
from booklet.kit.content import Contents
from booklet.kit.recent import Recent
from booklet.memory import ROUNDS
from booklet.preview.colours import recoloured
from booklet.words import Speaker

P = ParamSpec("P")
T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class _Picture:
    """What was drawn, and in which looks."""

    made: Any
    looks: Looks | None


class Pictures:
    """Pictures by the content of what they are made of. For one thread."""

    def __init__(self, rounds: int = ROUNDS) -> None:
        self._contents = Contents(rounds)
        self._known: Recent[bytes, _Picture] = Recent(rounds)
        self._digests: dict[int, tuple[object, bytes]] = {}  # by identity, in this round

    def __len__(self) -> int:
        return len(self._known)

    def next_round(self) -> None:
        """Begin a look at another state: what is long out of use is forgotten."""
        self._contents.next_round()
        self._known.next_round()
        self._digests.clear()

    def ask(self, work: Callable[P, T], /, *read: P.args, **named: P.kwargs) -> T:
        """What is drawn of these values: as it was, in other colours, or anew."""
        values: dict[object, Any] = dict(enumerate(read))
        values.update(named.items())
        looks: Any = next(filter(_are_looks, values.values()), None)
        rest = {at: None if value is looks else self._told(value) for at, value in values.items()}
        key = self._contents.of((work, rest)).digest
        known = self._known.get(key)
        made: Any = None if known is None else _again(known, looks)
        if known is None or (made is None and known.made is not None):
            made = work(*read, **named)
        if known is None or known.looks is not looks:
            self._known.keep(key, _Picture(made, looks))
        return made  # type: ignore[no-any-return]

    def _told(self, value: object) -> object:
        """What a value says: of a speaker the language, of a record, which many pictures share, its digest."""
        if isinstance(value, Speaker):
            return value.language
        if not is_dataclass(value):
            return value
        known = self._digests.get(id(value))
        if known is None:
            known = (
                value,
                self._contents.of(value).digest,
            )  # the value is kept, so that its id stays its own
            self._digests[id(value)] = known
        return known[1]


def _again(known: _Picture, looks: Looks | None) -> Any:
    """The picture in these looks; None where there is none, or it must be drawn anew."""
    if looks is None or known.looks is None or looks == known.looks or known.made is None:
        return known.made
    return recoloured(known.made, known.looks, looks)


def _are_looks(value: object) -> bool:
    """Whether a value is the looks of cloths."""
    return isinstance(value, dict) and all(isinstance(look, Fill) for look in value.values())
