"""Floor 4, the planner: an order told in fewer cards. Joins are swapped, one or all alike ones at once.

(A + B) + C can also be A + (B + C) or (A + C) + B where those touch. A swap that makes the order no
worse to sew but easier to tell is kept, until none is left.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from booklet.sewing.planner.likeness import Likeness, Sign
from booklet.sewing.planner.mosaic import Faces, Mosaic
from booklet.sewing.planner.rows import touching
from booklet.sewing.planner.trees import Tree, joined

MOST_PASSES = 12
Worth = Callable[[Tree], tuple[object, ...]]


def retold(mosaic: Mosaic, likeness: Likeness, tree: Tree, worth: Worth) -> Tree:
    """The same order or one that is worth more (`worth`: smaller is better)."""
    best = worth(tree)
    for _ in range(MOST_PASSES):
        found = min(((worth(way), k, way) for k, way in enumerate(_ways(mosaic, likeness, tree))),
                    default=None, key=lambda entry: entry[:2])  # fmt: skip
        if found is None or not found[0] < best:
            break
        best, tree = found[0], found[2]
    return tree


def _ways(mosaic: Mosaic, likeness: Likeness, tree: Tree) -> Iterator[Tree]:
    """The orders one swap away: of one unit, or of all units made alike."""
    kinds: dict[tuple[Sign, ...], list[Tree]] = {}
    for unit in tree.units():
        kinds.setdefault(kind_of(likeness, unit), []).append(unit)
    for alike in kinds.values():
        for way in range(4):
            swaps = {unit.faces: made for unit in alike if (made := _swapped(mosaic, unit, way))}
            if len(swaps) > 1:
                yield _with(tree, swaps)
            for faces, made in swaps.items():
                yield _with(tree, {faces: made})


def kind_of(likeness: Likeness, unit: Tree) -> tuple[Sign, ...]:
    """What units made alike have in common: how they look and how their parts look. Each kind is a card."""
    parts = sorted((likeness.sign(part.faces) for part in unit.parts), key=repr)
    return (likeness.sign(unit.faces), *parts)


def _swapped(mosaic: Mosaic, unit: Tree, way: int) -> Tree | None:
    """The unit (A + B) + C made as A + (B + C) or B + (A + C), of either part; None where that does not
    go."""
    if len(unit.parts) != 2:
        return None
    first, third = unit.parts if way < 2 else unit.parts[::-1]
    if len(first.parts) != 2:
        return None
    a, b = first.parts if way % 2 else first.parts[::-1]
    if not touching(mosaic, b, third):
        return None
    inner = joined(b, third)
    return joined(a, inner) if touching(mosaic, a, inner) else None


def _with(tree: Tree, swaps: dict[Faces, Tree]) -> Tree:
    """The order with some units made anew."""
    tree = swaps.get(tree.faces, tree)
    if not tree.parts:
        return tree
    return Tree(tree.faces, tuple(_with(part, swaps) for part in tree.parts))
