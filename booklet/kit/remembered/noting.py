"""Floor 0: which fields of records are read while something is worked out. They are noted, not guessed.

An answer that is worked out of some fields only is the answer for all records that are equal in these: working it out anew
would read the same again, field by field.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import AbstractContextManager, contextmanager, nullcontext
from typing import Any

from booklet.kit.records import field_names

Field = tuple[type, str]


class Notes:
    """Notes fields of some kinds of records, for one thread: those asked for by name, and all where records are compared.
    A copy reads nothing until it is read itself. While nothing is noted, records are as they were."""

    def __init__(self, kinds: tuple[type, ...]) -> None:
        self.kinds = kinds
        self._open: list[set[Field]] = []  # the innermost last: it alone is written to

    @contextmanager
    def taken(self) -> Iterator[set[Field]]:
        """Fields that are read from now on, until others are taken or these are complete."""
        found: set[Field] = set()
        if not self._open:
            for kind in self.kinds:
                self._watch(kind)
        self._open.append(found)
        try:
            yield found
        finally:
            self._open.pop()
            if not self._open:
                for kind in self.kinds:
                    del kind.__getattribute__, kind.__eq__

    def aside(self) -> AbstractContextManager[object]:
        """Reads that are of no account to whoever takes notes."""
        return self.taken() if self._open else nullcontext()

    def _watch(self, kind: Any) -> None:
        """Have each record of a kind tell what is asked of it."""
        names, asked, notes = field_names(kind), kind.__getattribute__, self._open
        own, alike = frozenset(names), kind.__eq__

        def noted(record: object, name: str) -> object:
            if name in own and notes:
                notes[-1].add((kind, name))
            return asked(record, name)

        def compared(record: object, other: object) -> object:
            if notes:
                notes[-1].update((kind, name) for name in names)
            return alike(record, other)

        kind.__getattribute__, kind.__eq__ = noted, compared
