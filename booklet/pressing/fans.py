"""Floor 5: which points of a block can be fanned.

A seam pressed to one side lies clockwise at one of its ends and anticlockwise at the other. So all
points can be fanned together if and only if the graph of the seams between them has no odd cycle. Where
it has, the fewest points left unfanned are the fewest that meet every odd cycle.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from types import MappingProxyType

from booklet.geometry.tiling import Tiling
from booklet.kit.outlines.plane import Point
from booklet.pressing.equations.cycle_cover import cover
from booklet.pressing.equations.model import Literal, Model, Term
from booklet.pressing.pressing import FanReport
from booklet.pressing.strands import Strands

LiteralAt = Callable[[str, Point], Literal]  # that a seam lies clockwise on the page round its end


def fan_report(
    tiling: Tiling, points: Sequence[Point] | None = None, strands: Strands | None = None
) -> FanReport:
    """Whether the given points can all be fanned (default: inside points of three or more seams), each
    seam by itself, or with `strands` those of one strand pressed as one."""
    if points is None:
        points = [j.at for j in tiling.junctions if j.inside and len(j.seams) >= 3]
    ending = {junction.at: junction.seams for junction in tiling.junctions}
    number = {seam.id: k for k, seam in enumerate(tiling.seams)}

    def alone(seam: str, at: Point) -> Literal:
        return number[seam], tiling.seam(seam).start == at

    literal = alone if strands is None else strands.literal
    terms = tuple(Term(tuple(literal(seam, at) for seam in ending[at]), 1) for at in points)
    found = cover(Model(((0, 0),) * len(tiling.seams), terms))
    clockwise = {
        at: found.values[x] != on_page  # clockwise on the page is not so from the back
        for k, (at, term) in enumerate(zip(points, terms, strict=True))
        if k not in found.broken
        for x, on_page in term.literals[:1]
    }
    return FanReport(
        MappingProxyType(clockwise),
        tuple(at for k, at in enumerate(points) if k in found.broken),
        _seams(tiling, found.cycle.unknowns, literal),
        found.bound,
    )


def _seams(tiling: Tiling, unknowns: Sequence[int], literal: LiteralAt) -> tuple[str, ...]:
    """A seam of each unknown of an odd cycle."""
    first: dict[int, str] = {}
    for seam in tiling.seams:
        first.setdefault(literal(seam.id, seam.start)[0], seam.id)
    return tuple(first[x] for x in unknowns)
