"""Floor 4, the mosaic: a block of which some pieces are sewn together already: each unit is one face.

At a point the seams still to come are those between units. Whoever searches sees nothing of what is inside a unit, so what
is found sews on from there.
"""

from __future__ import annotations

from collections.abc import Sequence

from booklet.kit.outlines.plane import mean, minus, plus
from booklet.kit.records import replace
from booklet.sewing.mosaic.likeness import FaceLook, Likeness
from booklet.sewing.mosaic.mosaic import Faces, Mosaic, MosaicSeam, Pair, bits, build


def contracted(mosaic: Mosaic, units: Sequence[Faces]) -> Mosaic:
    """The mosaic whose faces are these units, which have all faces of the other between them; points keep their
    numbers. A face is named by its unit's first piece."""
    home = {face: n for n, unit in enumerate(units) for face in bits(unit)}
    kept = [e for e, edge in enumerate(mosaic.edges) if home[edge.a] != home[edge.b]]
    number = {e: n for n, e in enumerate(kept)}
    rays = tuple(tuple(number[e] for e in there if e in number) for there in mosaic.rays)
    return build(
        tuple(mosaic.names[next(bits(unit))] for unit in units),
        tuple(_edge(mosaic.edges[e], home) for e in kept),
        tuple(
            inside and len(there) > 1 for inside, there in zip(mosaic.inner, rays, strict=True)
        ),
        rays,
        tuple(
            {(number[e], number[f]): _pair(pair, len(there)) for (e, f), pair in old.items() if e in number and f in number}
            for old, there in zip(mosaic.pairs, rays, strict=True)
        ),
        mosaic.places,
    )  # fmt: skip


def _edge(edge: MosaicSeam, home: dict[int, int]) -> MosaicSeam:
    return replace(edge, a=home[edge.a], b=home[edge.b])


def _pair(pair: Pair, rays: int) -> Pair:
    """The pair with its full cost where no stem of a T is left to be sewn past."""
    if rays > 2 or not pair.spared:
        return pair
    return replace(pair, cost=pair.cost + pair.spared, spared=0.0)


def contracted_looks(likeness: Likeness, units: Sequence[Faces], made: Sequence[int]) -> Likeness:
    """The looks of units: alike where their pieces are alike when turned, and were made alike (`made` has a number
    for each: the card that made it)."""
    labels: dict[tuple[object, int], int] = {}
    looks = []
    for unit, card in zip(units, made, strict=True):
        label = labels.setdefault((likeness.sign(unit), card), len(labels))
        old = [likeness.looks[face] for face in bits(unit)]
        middle = mean([look.middle for look in old])
        corners = (minus(plus(look.middle, c), middle) for look in old for c in look.corners)
        looks.append(FaceLook(label, middle, tuple(corners)))
    return Likeness(tuple(looks))
