"""Floor 4, the searches: a region sewn from small units upward, all alike joins at once."""

from __future__ import annotations

from booklet.sewing.mosaic.joining import Join, join
from booklet.sewing.mosaic.likeness import Likeness, Sign
from booklet.sewing.mosaic.mosaic import Faces, Mosaic, bits
from booklet.sewing.mosaic.trees import Tree, joined, leaf

Two = tuple[Tree, Tree]


def grown(mosaic: Mosaic, likeness: Likeness, region: Faces, many: bool = False) -> Tree:
    """An order that always makes next the cheapest kind of join, as often as it can be made.

    Cheapest: closes no ring, turns nowhere needlessly, turns least, passes most points straight (none of
    them can become a turn later); then low units, many at once, short seams. With `many`, what can be
    made most often comes before what turns least.
    """
    units = [leaf(f) for f in bits(region)]
    known: dict[tuple[Faces, Faces], tuple[Join, Sign]] = {}
    while len(units) > 1:
        kinds: dict[Sign, list[Two]] = {}
        for one, other in neighbours(mosaic, units):
            key = _key((one, other))
            if key not in known:
                made = join(mosaic, *key)
                signs = sorted((likeness.sign(one.faces), likeness.sign(other.faces)), key=repr)
                known[key] = made, (likeness.sign(one.faces | other.faces), *signs)
            kinds.setdefault(known[key][1], []).append((one, other))
        home = {f: unit.faces for unit in units for f in bits(unit.faces)}
        chosen = min(
            (_disjoint(twos) for twos in kinds.values()),
            key=lambda twos: _worth(mosaic, home, known[_key(twos[0])][0], twos, many),
        )
        gone = {id(unit) for two in chosen for unit in two}
        units = [unit for unit in units if id(unit) not in gone]
        units.extend(joined(*two) for two in chosen)
        units.sort(key=lambda unit: unit.faces & -unit.faces)
    return units[0]


def _key(two: Two) -> tuple[Faces, Faces]:
    return two[0].faces, two[1].faces


def _worth(
    mosaic: Mosaic, home: dict[int, Faces], made: Join, twos: list[Two], many: bool
) -> tuple[object, ...]:
    """Smaller is better."""
    one, other = twos[0]
    both = one.faces | other.faces
    more = sum(spoilt(mosaic, home, point, both) for point in made.ends)
    return (
        made.ring,
        round(made.needless + more, 6),
        -len(twos) if many else 0,
        made.turns,
        -made.passed,
        one.level + other.level,
        -len(twos),
        made.length,
        one.faces & -one.faces,
    )


def spoilt(mosaic: Mosaic, home: dict[int, Faces], point: int, both: Faces) -> float:
    """How much dearer the closing of a point gets when a seam that ends there is sewn now: the
    closing pair is left for last, so what is sewn can be no part of it."""
    if not mosaic.inner[point] or any(f not in home for f in bits(mosaic.around[point])):
        return 0.0
    before, after = float("inf"), float("inf")
    rays = []
    for e in mosaic.rays[point]:
        a, b = home[mosaic.edges[e].a], home[mosaic.edges[e].b]
        if a != b:
            rays.append((e, not (a | b) & ~both))
    for k, (e, now) in enumerate(rays):
        for f, also in rays[k + 1 :]:
            cost = mosaic.pair(point, e, f).cost
            before = min(before, cost)
            if not now and not also:
                after = min(after, cost)
    return after - before if after < float("inf") else 0.0


def _disjoint(twos: list[Two]) -> list[Two]:
    """As many of the pairs as go together, taken in order round: each next to the last if it can be."""
    taken: set[int] = set()
    chosen = []
    for one, other in twos:
        if id(one) not in taken and id(other) not in taken:
            taken |= {id(one), id(other)}
            chosen.append((one, other))
    return chosen


def neighbours(mosaic: Mosaic, units: list[Tree]) -> list[Two]:
    """The pairs of units that share an edge, by their first faces."""
    home = {f: k for k, unit in enumerate(units) for f in bits(unit.faces)}
    found = set()
    for k, unit in enumerate(units):
        near = 0
        for f in bits(unit.faces):
            near |= mosaic.beside[f]
        for f in bits(near & ~unit.faces):
            if f in home and home[f] > k:
                found.add((k, home[f]))
    return [(units[a], units[b]) for a, b in sorted(found)]
