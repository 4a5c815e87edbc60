"""Floor 11, columns: how much room each of several pictures has that stand beside each other."""

from __future__ import annotations

from booklet.pages.pictures.figures import Room

GAP = 6.0  # mm between two


def columns_of(room: Room, count: int) -> int:
    """How many stand beside each other: fewer on a small page."""
    return min(count, 2 if room.column_mm == room.width_mm else 3)


def column_width(room: Room, columns: int) -> float:
    """The width of each, in mm."""
    return (room.width_mm - GAP * (columns - 1)) / columns
