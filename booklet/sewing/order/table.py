"""Floor 4: the units lying on the table while a block is sewn, and what their names stand for.

A name stands for the piece, or for the unit made under it. In a join without a name the first part
keeps its name: from then on it stands for the larger unit, which also has a name of its own.
"""

from __future__ import annotations

from collections.abc import Iterable

from booklet.geometry.tiling import Seam, Tiling
from booklet.kit.outlines.plane import Point
from booklet.kit.records import Record, replace


class SewnUnit(Record):
    """Pieces sewn together. `level` is 0 for a single patch; `step` is the last step that made it."""

    name: str
    pieces: frozenset[str]
    level: int = 0
    step: int = 0  # 0: no step, a patch as cut


class OpenSeam(Record, kw_only=True):
    """A partial seam not yet finished: sewn up to short of `at`, where a piece of `leave` will come.

    `deferred` are the seams that continue it and wait for the finish, in sewing order from `at`.
    """

    seam: Seam
    at: Point
    leave: str
    step: int
    first: frozenset[str]  # the pieces of the first unit, on one side of the seam
    deferred: tuple[Seam, ...] = ()


class SewingTable:
    """The units on the table, the names in use and the seams still to sew."""

    def __init__(self, tiling: Tiling) -> None:
        self.units: dict[str, SewnUnit] = {
            piece.id: SewnUnit(piece.id, frozenset({piece.id})) for piece in tiling.pieces
        }
        self.known: dict[str, frozenset[str]] = {n: u.pieces for n, u in self.units.items()}
        self._standing: dict[frozenset[str], tuple[str, ...]] = {
            unit.pieces: (name,) for name, unit in self.units.items()
        }  # unit -> names
        self.used_in: dict[str, int] = {}  # a name no longer on the table -> the step that took it
        self.unsewn: dict[str, Seam] = {seam.id: seam for seam in tiling.seams}
        self._place = {seam.id: k for k, seam in enumerate(tiling.seams)}
        self._around: dict[str, list[Seam]] = {piece.id: [] for piece in tiling.pieces}
        for seam in tiling.seams:
            for piece in seam.between:
                self._around[piece].append(seam)
        self.open: list[OpenSeam] = []

    def merge(self, parts: Iterable[SewnUnit], name: str, alias: str, step: int) -> SewnUnit:
        """The new unit made of `parts`, put on the table in their place.

        `name` is its own; `alias`, a name that one of its parts had, may stand for it from now on.
        """
        gone = tuple(parts)
        pieces = frozenset[str]().union(*(unit.pieces for unit in gone))
        new = SewnUnit(name, pieces, 1 + max(unit.level for unit in gone), step)
        for unit in gone:
            for old in self._standing.pop(unit.pieces, ()):
                if self.units.get(old) is unit:  # another may have taken the name
                    del self.units[old]
                    self.used_in.setdefault(old, step)
        self._standing[pieces] = tuple(dict.fromkeys((name, alias)))
        for standing in self._standing[pieces]:
            self.units[standing] = new
            self.used_in.pop(standing, None)
        self.known.setdefault(name, pieces)
        return new

    def renew(self, unit: SewnUnit, step: int) -> SewnUnit:
        """The same unit one level up, after a step that closed a seam within it."""
        new = replace(unit, level=unit.level + 1, step=step)
        for name in [name for name, there in self.units.items() if there == unit]:
            self.units[name] = new
        return new

    def unsewn_around(self, pieces: Iterable[str]) -> list[Seam]:
        """The seams of some pieces that are still to sew, each once, in the order of the block."""
        found = {seam.id: seam for piece in pieces for seam in self._around[piece]}
        return [found[id] for id in sorted(found.keys() & self.unsewn.keys(), key=self._place.get)]  # type: ignore[arg-type]

    def holding(self, piece: str) -> SewnUnit:
        """The unit that holds a piece."""
        return next(unit for unit in self.units.values() if piece in unit.pieces)

    def left(self) -> tuple[SewnUnit, ...]:
        """The units on the table, each once, in the order they were put there."""
        return tuple(dict.fromkeys(self.units.values()))

    def sewn(self, seams: Iterable[str]) -> None:
        """Take seams off those still to sew."""
        for seam in seams:
            self.unsewn.pop(seam, None)


def free_name(taken: Iterable[str], stem: str) -> str:
    """The first of stem1, stem2, … that is not taken."""
    names = set(taken)
    number = 1
    while f"{stem}{number}" in names:
        number += 1
    return f"{stem}{number}"
