"""All ways to part a rectangle into n rectangles, told apart by which of them touch and how."""

from __future__ import annotations

from functools import cache
from itertools import combinations

Box = tuple[int, int, int, int]  # left, top, right, bottom
Tiles = tuple[Box, ...]


@cache
def rectangulations(n: int) -> tuple[Tiles, ...]:
    """One drawing of every rectangulation (no four meet in a point), told apart by all contacts."""
    return _first_of_each(n, _contacts)


@cache
def weak_rectangulations(n: int) -> tuple[Tiles, ...]:
    """One drawing of every class told apart only by what lies left of and what above what."""
    return _first_of_each(n, _sides)


def _first_of_each(n: int, sign) -> tuple[Tiles, ...]:
    found: dict[object, Tiles] = {}
    for across in range(1, n + 1):
        for tiles in _drawings(across, n + 1 - across, n):
            found.setdefault(sign(_in_order(tiles)), tiles)
    return tuple(found.values())


def _drawings(width: int, height: int, n: int):
    """Tilings of a grid by n boxes in which no four meet and every line of the grid is used once.

    n boxes without a crossing have n - 1 segments; with width - 1 + height - 1 = n - 1 lines, every
    line carries just one if it carries any.
    """
    cells = [(x, y) for y in range(height) for x in range(width)]

    def fill(taken: frozenset[tuple[int, int]], made: tuple[Box, ...]):
        free = next((c for c in cells if c not in taken), None)
        if free is None:
            if len(made) == n and not _crossed(made) and _all_used(made, width, height):
                yield made
            return
        if len(made) == n:
            return
        x, y = free
        for right in range(x + 1, width + 1):
            if (right - 1, y) in taken:
                break
            for bottom in range(y + 1, height + 1):
                box = {(a, b) for a in range(x, right) for b in range(y, bottom)}
                yield from fill(taken | box, (*made, (x, y, right, bottom)))

    yield from fill(frozenset(), ())


def _crossed(tiles: Tiles) -> bool:
    corners = [c for a, b, c2, d in tiles for c in ((a, b), (c2, b), (a, d), (c2, d))]
    return any(corners.count(c) == 4 for c in set(corners))


def _all_used(tiles: Tiles, width: int, height: int) -> bool:
    across = {a for a, _, _, _ in tiles} | {width}
    down = {b for _, b, _, _ in tiles} | {height}
    return len(across) == width + 1 and len(down) == height + 1


def _left_of(a: Box, b: Box) -> bool:
    """Whether a touches b from the left."""
    return a[2] == b[0] and a[1] < b[3] and b[1] < a[3]


def _above(a: Box, b: Box) -> bool:
    return a[3] == b[1] and a[0] < b[2] and b[0] < a[2]


def _closure(tiles: Tiles, relation) -> set[tuple[int, int]]:
    n = len(tiles)
    pairs = {(i, j) for i in range(n) for j in range(n) if relation(tiles[i], tiles[j])}
    for k in range(n):
        pairs |= {(i, j) for i, k2 in pairs if k2 == k for k3, j in pairs if k3 == k}
    return pairs


def _in_order(tiles: Tiles) -> Tiles:
    """The boxes from the upper left to the lower right: of any two, one is left of or above the other."""
    before = _closure(tiles, _leads_across) | _closure(tiles, _leads_down)
    rank = [sum((j, i) in before for j in range(len(tiles))) for i in range(len(tiles))]
    return tuple(tiles[i] for i in sorted(range(len(tiles)), key=rank.__getitem__))


def _contacts(tiles: Tiles) -> object:
    both = combinations(range(len(tiles)), 2)
    return frozenset(
        (i, j, _left_of(tiles[i], tiles[j]))
        for i, j in both
        if _left_of(tiles[i], tiles[j]) or _above(tiles[i], tiles[j]) or _above(tiles[j], tiles[i])
    )


def _sides(tiles: Tiles) -> object:
    """Left of: the right side of one and the left side of the other lie on one segment, and so on."""
    return frozenset(_closure(tiles, _leads_across))


def _leads_across(a: Box, b: Box) -> bool:
    return a[2] == b[0]


def _leads_down(a: Box, b: Box) -> bool:
    return a[3] == b[1]
