"""Floor 4: a block as the search for its order sees it: up to scale, without its place in the source.

The same block in another size gives the same question, and so the same answer: nobody wants to sew the bed quilt
in another order than the crib quilt. Which seams are too short for the machine is all that a length decides.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from types import MappingProxyType

from booklet.geometry.tiling import Junction, Outline, PlacedPiece, Seam, Side, Tiling
from booklet.kit.diagnostic import Span
from booklet.kit.measure import ZERO, Length
from booklet.kit.outlines.near import DRAWN
from booklet.kit.outlines.plane import Point
from booklet.kit.records import Record, replace
from booklet.pattern import By, Fabric, Sewing, ShortSeams
from booklet.pattern.reads import UNREAD, prints, rules
from booklet.sewing.order.machine_or_hand import least_by_machine

MIDDLE = 2.0  # inches: as long is the middle seam, by length, of a block that is asked about
PLACES = (
    9  # decimals of an inch that are kept: scaled points are the same in every size, noise is not
)
NOWHERE = Span.whole("")


class Question(Record):
    """What the order of a block depends on."""

    tiling: Tiling  # its middle seam `MIDDLE` long
    sewing: Sewing
    fabrics: Mapping[str, Fabric]
    first_told: bool  # whether the first of the cheapest orders will do, however it is told


def question_of(
    tiling: Tiling, sewing: Sewing, fabrics: Mapping[str, Fabric], first_told: bool = False
) -> Question:
    """The question for the order of a block, the same for all its sizes that have the same short seams."""
    factor = MIDDLE / sorted(seam.length for seam in tiling.seams)[len(tiling.seams) // 2]
    between = _least(tiling, sewing, factor)
    asked = replace(
        rules(sewing), machine_from=Length(Fraction(between)), thread=UNREAD, press=UNREAD, span=UNREAD,
        new_thread=UNREAD, routes=UNREAD, route_costs=UNREAD,
    )  # fmt: skip
    used = {piece.fabric for piece in tiling.pieces}
    cloths = {id: cloth for id, cloth in prints(fabrics).items() if id in used}
    return Question(_scaled(tiling, factor), asked, MappingProxyType(cloths), first_told)


def whoever_sews(asked: Question) -> Question:
    """The question for the tree of joins alone: where a turn costs the same by hand and by machine, and a partial seam no
    less, it does not matter which seams are sewn by hand."""
    costs = asked.sewing.costs
    if not costs.machine == costs.hand <= costs.partial:
        return asked
    sewing = replace(asked.sewing, machine_from=ZERO, set_in_by=By.MACHINE, ends=UNREAD)
    return replace(asked, sewing=sewing)


def _least(tiling: Tiling, sewing: Sewing, factor: float) -> float:
    """From which length on the machine sews, scaled; the same wherever the same seams are shorter. Where the sum of some
    seams of a line may be what is compared, it is taken as it is."""
    least = least_by_machine(sewing)
    sums = sewing.short is ShortSeams.ANY and any(
        seam.length < least <= seam.line for seam in tiling.seams
    )
    if sums:
        return round(float(sewing.machine_from) * factor, PLACES)
    lengths = sorted(length for seam in tiling.seams for length in (seam.length, seam.line))
    short = sum(length < least for length in lengths)
    return _between([round(length * factor, PLACES) for length in lengths], short) + DRAWN


def _between(lengths: Sequence[float], short: int) -> float:
    """A length that the `short` first of rising lengths do not reach, and all others do."""
    below = lengths[short - 1] if short else 0.0
    above = lengths[short] if short < len(lengths) else 2 * below
    return (below + above) / 2


def _scaled(tiling: Tiling, factor: float) -> Tiling:
    """The block larger by a factor, without what no order asks for. Equal points stay equal."""
    known: dict[Point, Point] = {}

    def moved(points: Iterable[Point]) -> tuple[Point, ...]:
        return tuple(map(scaled, points))

    def scaled(p: Point) -> Point:
        if p not in known:
            known[p] = (round(p[0] * factor, PLACES) + 0.0, round(p[1] * factor, PLACES) + 0.0)
        return known[p]

    def outline(drawn: Outline) -> Outline:
        return Outline(
            tuple(Side(scaled(s.start), scaled(s.end), moved(s.via)) for s in drawn.sides)
        )

    return Tiling(
        block=tiling.block,
        size="",
        outline=Outline(()),
        pieces=tuple(
            PlacedPiece(id=p.id, fabric=p.fabric, patch=p.patch, reversed=p.reversed, turn=0.0, outline=outline(p.outline), grain=0.0, motif=False, span=NOWHERE)
            for p in tiling.pieces
        ),
        patches=(),
        seams=tuple(
            Seam(
                id=s.id, between=s.between, path=moved(s.path), length=round(s.length * factor, PLACES),
                line=round(s.line * factor, PLACES), cornered=s.cornered,
            )
            for s in tiling.seams
        ),
        junctions=tuple(Junction(scaled(j.at), j.seams, j.inside) for j in tiling.junctions),
        width=0.0,
        height=0.0,
        area=0.0,
    )  # fmt: skip
