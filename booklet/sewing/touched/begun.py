"""Floor 4: an order that is only begun: what lies on the table, and how what is sewn so far is sewn.

What is sewn so far is a block like any other, in which the seams still to come are part of its rim. So threads, cards,
ends and allowances of it are told by whoever tells those of a whole block.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from types import MappingProxyType

from booklet.geometry.tiling import Junction, Tiling
from booklet.kit.diagnostic import Diagnostic
from booklet.kit.outlines.plane import Point
from booklet.kit.records import Record, replace
from booklet.pattern import DeclaredStep, Fabric, Sewing
from booklet.sewing.assembly import Assembly
from booklet.sewing.drafts import Draft
from booklet.sewing.order.ends import blocked_set_ins
from booklet.sewing.order.joins import Joiner
from booklet.sewing.order.table import OpenSeam, SewnUnit
from booklet.sewing.stage import assembly_of


class Begun(Record, kw_only=True):
    """An order as far as it goes. `table` are the units that lie there now, each once; `unsewn` the seams still to
    come; `open` the partial seams to be finished. With `faults` there is no assembly, nor where nothing is sewn."""

    tiling: Tiling
    drafts: tuple[Draft, ...]
    table: tuple[SewnUnit, ...]
    unsewn: frozenset[str]
    open: tuple[OpenSeam, ...]
    faults: tuple[Diagnostic, ...]
    assembly: Assembly | None

    @property
    def is_whole(self) -> bool:
        """Whether the block is sewn, with nothing left open."""
        return len(self.table) == 1 and not self.open

    def unit(self, piece: str) -> SewnUnit:
        """The unit on the table that holds a piece; KeyError if there is none."""
        for unit in self.table:
            if piece in unit.pieces:
                return unit
        raise KeyError(piece)

    def pieces_of(self, name: str) -> frozenset[str]:
        """The pieces of a piece, or of a unit that some step made, by its name."""
        made = (d.pieces for d in self.drafts if name in (d.make, d.declared.make))
        return next(made, frozenset({name}))


def begin(
    tiling: Tiling,
    steps: Iterable[DeclaredStep],
    sewing: Sewing,
    fabrics: Mapping[str, Fabric] = MappingProxyType({}),
    held: frozenset[Point] = frozenset(),
) -> Begun:
    """What some steps of an order come to, whatever is left to be sewn; `held` as of a whole block. Ways back over sewn
    seams, which take long to find and change no thread, are not sought."""
    joiner = Joiner(tiling, sewing)
    for step in steps:
        joiner.take(step)
    drafts, table = tuple(joiner.drafts), joiner.table.left()
    if drafts and len(table) == 1:  # the last makes the block, whatever its step called it
        drafts = (*drafts[:-1], replace(drafts[-1], make=tiling.block))
    faults = (*joiner.faults, *blocked_set_ins(drafts, tiling, sewing))
    sewn = sewn_so_far(tiling, drafts)
    units = {name: tuple(sorted(pieces)) for name, pieces in joiner.table.known.items()}
    if drafts and len(table) == 1:
        units.setdefault(tiling.block, tuple(piece.id for piece in tiling.pieces))
    return Begun(
        tiling=tiling,
        drafts=drafts,
        table=table,
        unsewn=frozenset(seam.id for seam in tiling.seams) - {seam.id for seam in sewn.seams},
        open=tuple(joiner.table.open),
        faults=faults,
        assembly=assembly_of(drafts, units, sewn, sewing, fabrics, held)
        if drafts and not faults
        else None,
    )


def sewn_so_far(tiling: Tiling, drafts: Sequence[Draft]) -> Tiling:
    """The block with the seams that some steps sew and no others: a point lies inside it once all its seams are
    sewn."""
    sewn = {id for draft in drafts for stretch in draft.stretches for id in stretch.seams}
    points = (
        Junction(
            j.at, tuple(s for s in j.seams if s in sewn), j.inside and sewn.issuperset(j.seams)
        )
        for j in tiling.junctions
    )
    return replace(
        tiling,
        seams=tuple(seam for seam in tiling.seams if seam.id in sewn),
        junctions=tuple(point for point in points if point.seams),
    )
