"""Floor 5: the places of a size's set, with the block that lies in each, those that fill a rim included."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping

from booklet.geometry.rims.lattice import lattice_origin, lattice_steps
from booklet.geometry.tiling import Tiling
from booklet.kit.outlines.near import NOISE
from booklet.pattern import Quilt, SetKind, Setting, Size
from booklet.pressing.meetings.touching_rims import BlockInPlace

Place = tuple[int, int]  # column and row of a set, from 0
SECOND = "\u2032"  # a prime: the mark of the second version of a block


def rows_of(quilt: Quilt) -> list[tuple[Setting, ...]]:
    """The rows of the arrangement that hold blocks."""
    return [row for row in quilt.arrange if row]


def lattice_places(size: Size, tilings: Mapping[str, Tiling]) -> tuple[BlockInPlace, ...]:
    """Every block of a lattice set where it lies, row by row, those that fill its rim included; none
    without steps to lay them by, or with a block that has no tiling."""
    quilt = size.quilt
    if quilt is None or quilt.sashing is not None:
        return ()
    places = _places(size)
    if any(setting.block not in tilings for _, setting in places):
        return ()
    if quilt.filled is not None:
        return tuple(
            BlockInPlace(at.setting.block, at.setting.turn % 360, at.origin)
            for at in quilt.filled.laid
        )
    across, down = lattice_steps(quilt, size)
    if abs(across[0] * down[1] - across[1] * down[0]) < NOISE:
        return ()
    return tuple(
        BlockInPlace(setting.block, setting.turn % 360, lattice_origin(*place, across, down))
        for place, setting in places
    )


def _places(size: Size) -> list[tuple[Place, Setting]]:
    """Every place of a set with what lies there, row by row; of a filled rim what fills it too."""
    quilt = size.quilt
    rows = rows_of(quilt) if quilt is not None else []
    if quilt is None or not rows:
        return []
    if quilt.filled is not None:
        return [((at.column, at.row), at.setting) for at in quilt.filled.laid]
    on_point = quilt.set is SetKind.ON_POINT
    lines = 2 * size.down - 1 if on_point else size.down
    return [
        ((column, line), rows[line % len(rows)][column % len(rows[line % len(rows)])])
        for line in range(lines)
        for column in range(size.across - line % 2 if on_point else size.across)
    ]


def block_counts(size: Size) -> Mapping[str, int]:
    """How many of each block the quilt of a size holds, those that fill its rim included; empty where
    it has no quilt."""
    return Counter(setting.block for _, setting in _places(size))


def places_of(size: Size, block: str) -> tuple[Place, ...]:
    """The (column, row) of every place of a block in the quilt's set, from 0, row by row; on point the
    rows between count too. Blocks that fill the rim of a lattice lie beyond its columns and rows."""
    return tuple(place for place, setting in _places(size) if setting.block == block)
