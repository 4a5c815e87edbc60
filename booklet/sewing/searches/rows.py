"""Floor 4, the searches: a region sewn in rows, which are then joined from the outside to the middle.

What it is for: 16 of the 186 orders of the test patterns are easier to tell.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from booklet.sewing.mosaic.likeness import Likeness
from booklet.sewing.mosaic.mosaic import Faces, Mosaic, bits
from booklet.sewing.mosaic.trees import MOST_PARTS, Tree, joined, leaf

SAME_ANGLE = math.radians(2)
SAME_LINE = 1e-2  # inches between the middles of the pieces of one row


def in_rows(mosaic: Mosaic, likeness: Likeness, region: Faces) -> Iterator[Tree]:
    """The orders of a region in rows, one for each direction in which it falls into rows."""
    for angle in _directions(mosaic, likeness, region):
        rows = _rows(mosaic, likeness, region, angle)
        if rows and len(rows) < region.bit_count():
            tree = from_outside(mosaic, [in_a_row(row) for row in rows])
            if tree is not None:
                yield tree


def in_a_row(row: Sequence[int]) -> Tree:
    """Faces joined one after the other in one step, or in two halves where they are many."""
    if len(row) == 1:
        return leaf(row[0])
    if len(row) <= MOST_PARTS:
        return joined(*(leaf(f) for f in row))
    half = (len(row) + 1) // 2
    return joined(in_a_row(row[:half]), in_a_row(row[half:]))


def from_outside(mosaic: Mosaic, parts: Sequence[Tree]) -> Tree | None:
    """Parts that lie side by side, joined so that either half is made alike; None if two do not touch."""
    if len(parts) == 1:
        return parts[0]
    half = len(parts) // 2
    first = from_outside(mosaic, parts[:half])
    last = from_outside(mosaic, parts[: -half - 1 : -1])
    if first is None or last is None:
        return None
    if len(parts) % 2:
        middle = parts[half]
        if not touching(mosaic, first, middle):
            return None
        first = joined(first, middle)
    return joined(first, last) if touching(mosaic, first, last) else None


def touching(mosaic: Mosaic, a: Tree, b: Tree) -> bool:
    """Whether two units share an edge."""
    return any(mosaic.beside[f] & b.faces for f in bits(a.faces))


def _directions(mosaic: Mosaic, likeness: Likeness, region: Faces) -> list[float]:
    """The directions, from 0 to pi, in which faces lie side by side, the commonest first; level first
    among equals."""
    found: list[tuple[float, int]] = []
    for e in mosaic.inner_edges(region):
        edge = mosaic.edges[e]
        (ax, ay), (bx, by) = (likeness.looks[f].middle for f in (edge.a, edge.b))
        angle = math.atan2(by - ay, bx - ax) % math.pi
        if math.pi - angle < SAME_ANGLE:
            angle = 0.0
        for k, (known, count) in enumerate(found):
            if abs(known - angle) < SAME_ANGLE:
                found[k] = (known, count + 1)
                break
        else:
            found.append((angle, 1))
    least = max(2, region.bit_count() // 4)
    good = [entry for entry in found if entry[1] >= least]
    return [angle for angle, _ in sorted(good, key=lambda entry: (-entry[1], entry[0]))[:6]]


def _rows(
    mosaic: Mosaic, likeness: Likeness, region: Faces, angle: float
) -> list[list[int]] | None:
    """The rows in one direction, each with its faces in order; None where some row has a break."""
    c, s = math.cos(angle), math.sin(angle)
    place = {}
    for f in bits(region):
        x, y = likeness.looks[f].middle
        place[f] = (y * c - x * s, x * c + y * s)
    rows: list[list[int]] = []
    before = -math.inf
    for f in sorted(place, key=lambda f: (place[f][0], f)):
        if place[f][0] - before > SAME_LINE:
            rows.append([])
        rows[-1].append(f)
        before = place[f][0]
    for row in rows:
        row.sort(key=lambda f: place[f][1])
        if any(not mosaic.beside[f] >> g & 1 for f, g in pairwise(row)):
            return None
    return rows
