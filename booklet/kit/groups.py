"""Floor 0: things that hang together, found by joining two at a time (union-find)."""

from __future__ import annotations

from collections.abc import Iterable


class Groups:
    """The numbers from 0 up to a count, each by itself at first. A group is known by its lowest number."""

    def __init__(self, count: int) -> None:
        self._above = list(range(count))

    def of(self, n: int) -> int:
        """The group of a number."""
        above = self._above
        while above[n] != n:
            above[n] = above[above[n]]
            n = above[n]
        return n

    def join(self, a: int, b: int) -> None:
        """Make the groups of two numbers one."""
        one, other = self.of(a), self.of(b)
        self._above[max(one, other)] = min(one, other)


def tied_groups(count: int, ties: Iterable[tuple[int, int]]) -> tuple[tuple[int, ...], ...]:
    """The numbers from 0 up to a count as ties of two hold them together: each group in order, and the groups by their
    first numbers."""
    tied = Groups(count)
    for a, b in ties:
        tied.join(a, b)
    found: dict[int, list[int]] = {}
    for n in range(count):
        found.setdefault(tied.of(n), []).append(n)
    return tuple(map(tuple, found.values()))
