"""Floor 11, hand routes in rows: small pictures side by side, larger ones in rows of their own."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from booklet.drawing.scene import Figure
from booklet.kit.outlines.near import NOISE
from booklet.kit.records import Record
from booklet.pages.pictures.figures import Room

GAP = 5.0  # mm between two pictures of a row
RouteRowKind = Literal["whole", "halves", "thirds"]
_KINDS: dict[int, RouteRowKind] = {1: "whole", 2: "halves", 3: "thirds"}


class RouteRow(Record):
    """A row of pictures: how much of its width each has, and how many places stay empty."""

    kind: RouteRowKind
    figures: tuple[Figure, ...]
    gaps: int


def route_rows(figures: Sequence[Figure], room: Room) -> tuple[RouteRow, ...]:
    """The pictures in their order, as many side by side as the widest of a row allows."""
    rows: list[tuple[int, tuple[Figure, ...]]] = []
    for figure in figures:
        across = _across(figure, room, len(figures))
        most = min(across, rows[-1][0]) if rows else 0
        if rows and len(rows[-1][1]) < most:
            rows[-1] = (most, (*rows[-1][1], figure))
        else:
            rows.append((across, (figure,)))
    return tuple(RouteRow(_KINDS[across], row, across - len(row)) for across, row in rows)


def _across(figure: Figure, room: Room, count: int) -> int:
    """How many pictures of this width stand side by side."""
    fit = int((room.width_mm + GAP) / (figure.width_mm + GAP) + NOISE)
    return max(1, min(fit, room.threads_across, max(count, 2)))
