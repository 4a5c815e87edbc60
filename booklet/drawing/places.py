"""Floor 10: what lies where in a picture, for whoever looks at the booklet beside its source.

A place draws nothing and is in no built booklet. Its keys say what it shows, the narrowest first: a piece of
a block, the patch that piece is, the cut it comes from; a block of a joined top, and the block it is.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import lru_cache
from urllib.parse import quote

from booklet.drawing.scene import Place
from booklet.geometry.tiling import PlacedPiece
from booklet.kit.outlines.plane import Point
from booklet.quilt.assembling.joining import TOP, block_of


def key(*parts: object) -> str:
    """The key of a thing: its kind and its names, each written so that none holds a space or a slash."""
    return "/".join(quote(str(part), safe="") for part in parts)


def piece_keys(block: str, piece: PlacedPiece) -> tuple[str, ...]:
    """The keys of a piece of a block; of a top of blocks its pieces are blocks, and no patches that are cut."""
    return _piece_keys(block, piece.id, piece.patch, piece.fabric)


@lru_cache(maxsize=16384)  # a strip shows the same pieces in every frame
def _piece_keys(block: str, id: str, patch: str, fabric: str) -> tuple[str, ...]:
    if block == TOP:
        return key("piece", block, id), key("block", block_of(fabric))
    return key("piece", block, id), key("patch", patch), key("cut", fabric, patch)


def shape_places(
    block: str, drawn: Iterable[tuple[PlacedPiece, Sequence[Point]]]
) -> tuple[Place, ...]:
    """The places of shapes laid on a block, each with its outline on paper."""
    return tuple(
        Place(
            tuple(points),
            (key("applied", block, shape.id), *piece_keys(block, shape)[1:]),
        )
        for shape, points in drawn
    )


def piece_places(
    block: str, drawn: Iterable[tuple[PlacedPiece, Sequence[Point]]]
) -> tuple[Place, ...]:
    """The places of pieces of a block, each with its outline on paper."""
    return tuple(Place(tuple(points), piece_keys(block, piece)) for piece, points in drawn)
