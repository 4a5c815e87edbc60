"""Floor 4, the ways to build: a block as a heart and the rings about it, and the ways to build it that teachers tell apart
(common practice): patch by patch, set by set, or a whole ring made first and the rest set into it."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from enum import Enum

from booklet.kit.outlines.plane import mean
from booklet.kit.records import Record
from booklet.sewing.auto.every_way import MOST, every_way
from booklet.sewing.auto.unit_bench import HandUnit, UnitBench
from booklet.sewing.mosaic.likeness import Likeness
from booklet.sewing.mosaic.mosaic import Faces, Mosaic, bits, first_face, moved
from booklet.sewing.mosaic.trees import Tree, joined, leaf
from booklet.sewing.searches.sectors import sectors, turned

MOST_TURNS = 12
MOST_SECTORS = 8  # ways to part a block into alike sectors
SETS = (2, 3)  # patches of a ring that are joined before they are set on
MOST_STARTS = 6  # patches with which a ring is begun


class BuildKind(Enum):
    """How a block is built."""

    FOUND = "fewest turns, then fewest cards"  # whatever its threads
    PATCHES = "patch by patch"
    SETS = "set by set"
    RING = "a whole ring first"
    MOVED = "parts joined earlier or later"
    EVERY = "any order"  # the cheapest of all


class Rings(Record):
    """The patch in the middle, and the patches about it, ring by ring, each clockwise."""

    heart: int
    rings: tuple[tuple[int, ...], ...]


def rings_of(mosaic: Mosaic, looks: Likeness) -> Rings | None:
    """The rings of a block that has a patch in its middle with patches all round it; None where it has none."""
    heart = _heart(mosaic, looks)
    if heart is None:
        return None
    middle = looks.looks[heart].middle
    done, found = 1 << heart, []
    while done != mosaic.whole:
        ring = 0
        for f in bits(done):
            ring |= mosaic.beside[f]
        ring &= ~done
        found.append(tuple(sorted(bits(ring), key=lambda f: _angle(looks, f, middle))))
        done |= ring
    return Rings(heart, tuple(found))


def _angle(looks: Likeness, face: int, middle: tuple[float, float]) -> float:
    """Where a patch lies about the middle, clockwise from straight up."""
    x, y = looks.looks[face].middle
    return round(math.atan2(x - middle[0], middle[1] - y) % math.tau, 6)


def _heart(mosaic: Mosaic, looks: Likeness) -> int | None:
    """The patch that stays where it is when the block is turned, else one in its middle with others all round it."""
    for count in range(MOST_TURNS, 1, -1):
        turn = turned(looks, mosaic.whole, count)
        fixed = next((f for f, g in (turn or {}).items() if f == g), None)
        if fixed is not None:
            return fixed
    whole = bits(mosaic.whole)
    inside = [f for f in whole if all(mosaic.inner[p] for e in mosaic.edges_of[f] for p in mosaic.ends(e))]  # fmt: skip
    inside = [f for f in inside if len(mosaic.edges_of[f]) > 2]
    centre = mean([look.middle for look in looks.looks])
    return min(inside, key=lambda f: math.dist(looks.looks[f].middle, centre), default=None)


def patch_by_patch(bench: UnitBench, rings: Rings) -> Tree | None:
    """The heart with one patch after the other, ring by ring; each ring is begun where that costs least."""
    unit, tree = bench.patch(rings.heart), leaf(rings.heart)
    for ring in rings.rings:
        tried = [(_added(bench, unit, order), order) for order in _orders(bench, unit, ring)]
        sound = [(made, order) for made, order in tried if made is not None]
        if not sound:
            return None
        unit, order = min(sound, key=lambda way: way[0].states[0].cost)
        tree = joined(tree, *map(leaf, order))
    return tree


def _added(bench: UnitBench, unit: HandUnit, order: Sequence[int]) -> HandUnit | None:
    """A unit with patches added one by one."""
    for face in order:
        if not bench.mosaic.beside[face] & unit.faces:
            return None
        unit = bench.joined(unit, bench.patch(face))
    return unit


def _orders(bench: UnitBench, unit: HandUnit, ring: Sequence[int]) -> Iterator[tuple[int, ...]]:
    """A ring begun at the patches to which the thread may go on, clockwise and the other way."""
    hangs = {node for state in unit.states[:2] for node, *_ in state.hangs}
    points = {f: {p for e in bench.mosaic.edges_of[f] for p in bench.ends(e)} for f in ring}
    near = [k for k, f in enumerate(ring) if points[f] & hangs]
    for k in dict.fromkeys([*near, 0, 1 % len(ring)][:MOST_STARTS]):
        yield (*ring[k:], *ring[:k])
        yield (*ring[k::-1], *ring[:k:-1])


def ring_first(mosaic: Mosaic, rings: Rings) -> Tree | None:
    """Every ring made by itself, and what lies within it set into it."""
    tree = leaf(rings.heart)
    for ring in rings.rings:
        if not _is_round(mosaic, ring):
            return None
        tree = joined(joined(*map(leaf, ring)), tree)
    return tree


def _is_round(mosaic: Mosaic, ring: Sequence[int]) -> bool:
    """Whether the patches of a ring follow each other all the way round."""
    if len(ring) < 3:
        return False
    return all(mosaic.beside[a] >> b & 1 for a, b in zip(ring, (*ring[1:], ring[0]), strict=True))


def set_by_set(bench: UnitBench, looks: Likeness, rings: Rings | None) -> Iterator[Tree]:
    """Alike sets joined first and then set on: of two or three patches of a ring, or sectors of the whole block."""
    for many in SETS if rings else ():
        for shift in range(many):
            tree = _in_sets(bench.mosaic, rings, many, shift)
            if tree is not None:
                yield tree
    seen = 0
    for parts, middle in sectors(bench.mosaic, looks, bench.mosaic.whole):
        if seen == MOST_SECTORS or not 1 < parts[0].bit_count() <= MOST:
            continue
        seen += 1
        yield from _in_sectors(bench, looks, parts, middle)


def _in_sets(mosaic: Mosaic, rings: Rings | None, many: int, shift: int) -> Tree | None:
    """The heart with the rings in sets of so many patches."""
    if rings is None:
        return None
    tree = leaf(rings.heart)
    for ring in rings.rings:
        row = (*ring[shift:], *ring[:shift])
        sets = [row[k : k + many] for k in range(0, len(row), many)]
        if len(row) % many or len(sets) < 2:
            return None
        if not all(mosaic.is_connected(sum(1 << f for f in one)) for one in sets):
            return None
        tree = joined(tree, *(joined(*map(leaf, one)) for one in sets))
    return tree


def _in_sectors(
    bench: UnitBench, looks: Likeness, parts: Sequence[Faces], middle: Faces
) -> Iterator[Tree]:
    """Alike sectors, each in the cheapest order of all, round the middle or on each other."""
    count = len(parts)
    turn = turned(looks, bench.mosaic.whole, count)
    first = every_way(bench, parts[0], math.inf).tree
    if turn is None or first is None:
        return
    sewn = [first]
    while len(sewn) < count:
        sewn.append(_moved(sewn[-1], turn))
    if middle and all(_touch(bench.mosaic, middle, part) for part in parts):
        yield joined(leaf(first_face(middle)), *sewn)
    elif not middle:
        yield from _onto_each_other(bench.mosaic, sewn)


def _onto_each_other(mosaic: Mosaic, sewn: Sequence[Tree]) -> Iterator[Tree]:
    """Sectors one after the other, or in halves."""
    if all(_touch(mosaic, a.faces, b.faces) for a, b in itertools.pairwise(sewn)):
        yield joined(*sewn)
        half = len(sewn) // 2
        if len(sewn) % 2 == 0 and half > 1:
            yield joined(joined(*sewn[:half]), joined(*sewn[half:]))


def _touch(mosaic: Mosaic, a: Faces, b: Faces) -> bool:
    return any(mosaic.beside[f] & b for f in bits(a))


def _moved(tree: Tree, turn: dict[int, int]) -> Tree:
    """The same unit a turn further on."""
    return Tree(moved(tree.faces, turn), tuple(_moved(part, turn) for part in tree.parts))
