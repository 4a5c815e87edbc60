"""Pictures made beforehand, where a page is set that draws none."""

from __future__ import annotations

from collections.abc import Mapping

from booklet.drawing.scene import Figure
from booklet.kit.records import Record


class Album(Record):
    """Figures held by name."""

    by_name: Mapping[str, Figure]

    def figure(self, name: str) -> Figure | None:
        """The figure of that name, or None."""
        return self.by_name.get(name)

    def series(self, name: str) -> tuple[Figure, ...]:
        """The figures `NAME 1`, `NAME 2`, … in order."""
        found: list[Figure] = []
        while (figure := self.by_name.get(f"{name} {len(found) + 1}")) is not None:
            found.append(figure)
        return tuple(found)
