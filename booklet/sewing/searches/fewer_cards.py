"""Floor 4, the searches: an order told in fewer cards. Parts are sewn earlier, one or all alike ones at once.

(A + B) + C can also be A + (B + C) or (A + C) + B where those touch, and so on into A and B. A move
that makes the order no worse to sew but easier to tell is kept, until there is none.

What it is for: 10 of the 186 orders of the test patterns are easier to tell.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from booklet.sewing.mosaic.joining import Joins
from booklet.sewing.mosaic.likeness import Likeness
from booklet.sewing.mosaic.mosaic import Faces
from booklet.sewing.mosaic.trees import Tree, joined

MOST_PASSES = 12
MOST_DEEP = 4
Path = tuple[int, ...]  # which part is moved, then the way to where it goes
Worth = tuple[float, int, float, int, int, int]


def retold(
    joins: Joins,
    likeness: Likeness,
    tree: Tree,
    told: Callable[[Tree], Tree],
    worth: Callable[[Tree], Worth],
) -> Tree:
    """The same order or one that is worth more (`worth`: smaller is better) as it is told in the end."""
    best_told = told(tree)
    best = worth(best_told)
    for _ in range(MOST_PASSES):
        found = None
        for way in _ways(joins, likeness, tree):
            there = told(way)
            value = worth(there)
            if value < best:
                best, best_told, found = value, there, way
        if found is None:
            break
        tree = found
    return best_told


def _ways(joins: Joins, likeness: Likeness, tree: Tree) -> Iterator[Tree]:
    """The orders one move away: of one unit, or of all units made alike."""
    kinds: dict[tuple[int, ...], list[Tree]] = {}
    for unit in tree.units():
        sorts = sorted(likeness.sort(part.faces) for part in unit.parts)
        kinds.setdefault((likeness.sort(unit.faces), *sorts), []).append(unit)
    for alike in kinds.values():
        moves: dict[Path, dict[Faces, Tree]] = {}
        for unit in alike:
            for path, made in _moved(joins, unit):
                moves.setdefault(path, {})[unit.faces] = made
        for swaps in moves.values():
            if len(swaps) > 1:
                yield _with(tree, swaps)
            for faces, made in swaps.items():
                yield _with(tree, {faces: made})


def _moved(joins: Joins, unit: Tree) -> Iterator[tuple[Path, Tree]]:
    """The ways to make a unit of two parts when one of them is sewn earlier: to a unit within the other."""
    if len(unit.parts) != 2:
        return
    for side in (0, 1):
        part, other = unit.parts[side], unit.parts[1 - side]
        yield from _sewn_within(joins, part, other, (side,))


def _sewn_within(joins: Joins, part: Tree, other: Tree, path: Path) -> Iterator[tuple[Path, Tree]]:
    """A unit of two parts with one more part sewn to one of them, or to one within."""
    if len(other.parts) != 2 or len(path) > MOST_DEEP:
        return
    near = joins.near(part.faces)
    for side in (0, 1):
        one, rest = other.parts[side], other.parts[1 - side]
        if near & one.faces:
            yield (*path, side), joined(joined(one, part), rest)
            for deep, made in _sewn_within(joins, part, one, (*path, side)):
                yield deep, joined(made, rest)


def _with(tree: Tree, swaps: dict[Faces, Tree]) -> Tree:
    """The order with some units made anew."""
    tree = swaps.get(tree.faces, tree)
    if not tree.parts:
        return tree
    return Tree(tree.faces, tuple(_with(part, swaps) for part in tree.parts))
