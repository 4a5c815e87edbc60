"""Floor 0: things known that are forgotten when nobody has asked for them for some rounds."""

from __future__ import annotations

from typing import Generic, TypeVar

K = TypeVar("K")
V = TypeVar("V")


class Recent(Generic[K, V]):
    """Values by key. A round is what its user says it is, such as one look at an edited pattern."""

    def __init__(self, rounds: int) -> None:
        self._rounds = rounds
        self._now = 0
        self._known: dict[K, V] = {}
        self._asked: dict[K, int] = {}  # the round in which each was last asked for

    def __len__(self) -> int:
        return len(self._known)

    def get(self, key: K) -> V | None:
        """The value, or None."""
        value = self._known.get(key)
        if value is not None:
            self._asked[key] = self._now
        return value

    def keep(self, key: K, value: V) -> None:
        """Know a value, in place of what was known before."""
        self._known[key], self._asked[key] = value, self._now

    def next_round(self) -> None:
        """Begin a round; what was asked for in none of the last ones is gone."""
        self._now += 1
        for key in [key for key, asked in self._asked.items() if asked < self._now - self._rounds]:
            del self._known[key], self._asked[key]
