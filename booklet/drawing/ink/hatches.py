"""Floor 10: the tiles of the twelve hatches and of the weave. Slanted lines run across the corners of a
tile, so that no tile needs turning.
"""

from __future__ import annotations

from booklet.drawing.ink.path_text import path_data
from booklet.kit.outlines.plane import Point


def _slants(tile: float, rising: bool) -> str:
    """Lines at 45 degrees through a square tile, carried past its corners on both sides."""
    t, h = tile, tile / 2
    ends = [((-h, h), (h, -h)), ((-h, t + h), (t + h, -h)), ((h, t + h), (t + h, h))]
    if not rising:
        ends = [((t - a[0], a[1]), (t - b[0], b[1])) for a, b in ends]
    return path_data(ends, False)


def _cross(tile: float) -> str:
    """One upright cross in a tile."""
    h, arm = tile / 2, tile * 0.28
    return path_data([[(h - arm, h), (h + arm, h)], [(h, h - arm), (h, h + arm)]], False)


def _tile(kind: str, tile: float) -> tuple[float, str, tuple[Point, ...]]:
    """A tile's size, its strokes and its dots."""
    h, q = tile / 2, tile / 4
    match kind:
        case "rising" | "falling":
            return tile, _slants(tile, kind == "rising"), ()
        case "level":
            return tile, path_data([[(0, h), (tile, h)]], False), ()
        case "upright":
            return tile, path_data([[(h, 0), (h, tile)]], False), ()
        case "dots":
            return tile, "", ((q, q), (3 * q, 3 * q))
        case _:
            return tile, _cross(tile), ()


TILES = {
    1: _tile("rising", 2.4), 2: _tile("falling", 2.4), 3: _tile("level", 1.7), 4: _tile("upright", 1.7),
    5: _tile("rising", 1.3), 6: _tile("falling", 1.3), 7: _tile("level", 0.9), 8: _tile("upright", 0.9),
    9: _tile("dots", 2.6), 10: _tile("dots", 1.7), 11: _tile("cross", 2.4), 12: _tile("cross", 1.5),
}  # fmt: skip


WEAVE = (1.0, path_data([[(0, 0.5), (1, 0.5)], [(0.5, 0), (0.5, 1)]], False), ())
