"""Floor 4, the mosaic: a region cut along straight lines that run side by side, into a row of parts."""

from __future__ import annotations

from booklet.sewing.mosaic.likeness import Likeness
from booklet.sewing.mosaic.mosaic import Faces, Mosaic, bits, first_face
from booklet.sewing.mosaic.straight_lines import StraightLine, pieces_of
from booklet.sewing.mosaic.trees import MOST_PARTS

Parts = tuple[Faces, ...]


def parts_along(
    mosaic: Mosaic, region: Faces, lines: list[StraightLine], line: StraightLine
) -> Parts:
    """The parts of a region, side by side, when it is cut along all lines parallel to one."""
    parallel = [line]
    for other in lines:
        if all(_are_parallel(mosaic, other, one) for one in parallel):
            parallel.append(other)
        if len(parallel) == MOST_PARTS:  # too many for one step
            return _halves(region, line)
    gone = [e for other in parallel for e in other.edges]
    parts = pieces_of(mosaic, region, gone)
    if len(parts) != len(parallel) + 1 or len(parts) > MOST_PARTS:
        return _halves(region, line)
    return _in_row(mosaic, parts)


def _halves(region: Faces, line: StraightLine) -> Parts:
    """The two parts on the sides of a line."""
    return tuple(sorted((line.side, region & ~line.side), key=first_face))


def _are_parallel(mosaic: Mosaic, a: StraightLine, b: StraightLine) -> bool:
    """Whether two lines run the same way side by side."""
    if a is b or len({*a.ends, *b.ends}) < 4:
        return False
    return mosaic.are_parallel(a.ends, b.ends)


def _in_row(mosaic: Mosaic, parts: list[Faces]) -> Parts:
    """The parts in an order in which each touches those before it."""
    near = {}
    for part in parts:
        beside = 0
        for f in bits(part):
            beside |= mosaic.beside[f]
        near[part] = [other for other in parts if other != part and beside & other]
    row = [min(parts, key=lambda part: (len(near[part]), first_face(part)))]
    while len(row) < len(parts):
        ahead = [p for p in parts if p not in row and any(o in row for o in near[p])]
        row.append(min(ahead, key=first_face))
    return tuple(row)


def merit(likeness: Likeness, parts: Parts) -> tuple[object, ...]:
    """Smaller is better: a small largest part, then parts that repeat, then level rows."""
    kinds = len({likeness.sign(part) for part in parts})
    return (largest(parts), kinds - len(parts), -first_face(parts[-1]), parts)


def largest(parts: Parts) -> int:
    """How many faces the largest part has."""
    return max(part.bit_count() for part in parts)


def largest_first(parts: Parts) -> tuple[int, int]:
    """Smaller is better: the largest part, then level rows."""
    return largest(parts), -first_face(parts[-1])
