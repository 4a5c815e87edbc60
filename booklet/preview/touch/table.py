"""Floor 13, the table: a block on which the order of sewing is touched, and the fabric of a piece.

It holds nothing: a tab sends the steps touched so far with every question. All rules are asked of the floors that have
them; here stands only which question a touch puts.
"""

from __future__ import annotations

from collections.abc import Mapping

from booklet.geometry.tiling import BlockKey, LaidOut, Tiling
from booklet.kit.records import Record
from booklet.kit.remembered.memory import Ask
from booklet.pattern import Block, DeclaredStep, Size
from booklet.pressing.pressing import Pressing
from booklet.pressing.so_far import press_in_place, press_so_far
from booklet.preview.touch.asked import Asked
from booklet.sewing.assembly import Assembly
from booklet.sewing.auto.going_on import continuations
from booklet.sewing.drafts import Draft
from booklet.sewing.order.ends import blocked_set_ins, set_in_corners
from booklet.sewing.order.joins import Joiner
from booklet.sewing.order.partial_seams import toward_open
from booklet.sewing.order.stretches import common_seams
from booklet.sewing.stage import is_set_in
from booklet.sewing.touched.begun import Begun, begin
from booklet.sewing.touched.likes import alike_touches
from booklet.sewing.touched.touches import TouchedStep, declared, touches_of


class NoTable(Exception):
    """There is no such block or piece to be touched; the message is a sentence."""


class TouchTable(Record, kw_only=True):
    """A block in one size, as the source lays it out and sews it now."""

    laid_out: LaidOut
    block: Block
    size: Size
    tiling: Tiling
    others: Mapping[str, Assembly]  # the other blocks of the size, as far as they can be sewn
    ask: Ask

    def steps(self, touches: tuple[TouchedStep, ...]) -> tuple[DeclaredStep, ...]:
        """Touched steps as declared ones. Raises NoTable for a piece that is not there."""
        known = {piece.id for piece in self.tiling.pieces}
        named = (p for t in touches for p in (*t.pieces, *([t.leave] if t.leave else ())))
        if lost := next((name for name in named if name not in known), None):
            raise NoTable(
                f"block `{self.block.id}` has no piece `{lost}` any more; begin with nothing, or as it is written"
            )
        sewing, fabrics = self.size.sewing, self.size.fabrics
        return declared(touches, self.tiling, sewing, fabrics, self.block.steps or ())

    def begun(self, touches: tuple[TouchedStep, ...]) -> Begun:
        """What these steps come to."""
        held = set_in_corners(self.tiling) if is_set_in(self.tiling, self.size) else frozenset()
        steps = self.steps(touches)
        return begin(self.tiling, steps, self.size.sewing, self.size.fabrics, held)

    def pressing(self, begun: Begun) -> Pressing | None:
        """How the seams sewn so far are pressed: of a whole block beside the others, else by themselves."""
        if begun.assembly is None:
            return None
        allowance = float(self.size.patch_allowance(self.laid_out.pattern.allowance))
        if begun.is_whole and self.size.uses(self.block.id):
            return press_in_place(self.size, begun.assembly, self.others, allowance, self.ask)
        return press_so_far(self.size, begun.assembly, allowance, self.ask)

    def joint(self, touches: tuple[TouchedStep, ...]) -> Begun:
        """What steps come to, of which the last is to join something. Raises NoTable."""
        begun = self.begun(touches)
        if not begun.drafts:
            raise NoTable("these parts are one already")
        return begun

    def alike(self, touches: tuple[TouchedStep, ...], last: TouchedStep) -> tuple[TouchedStep, ...]:
        """The step and its turned copies that can be sewn beside it."""
        before = self.begun(touches)
        return alike_touches((*touches, last), before, self.size.sewing, self.size.fabrics)

    def written(self) -> tuple[TouchedStep, ...]:
        """The order that the source has, as touches; none where the tool finds it, or where it cannot be sewn."""
        joiner = Joiner(self.tiling, self.size.sewing)
        for step in self.block.steps or ():
            joiner.take(step)
        if joiner.faults:
            raise NoTable(
                f"the order of block `{self.block.id}` in the source cannot be sewn as it is written; begin with nothing"
            )
        return touches_of(joiner.drafts, self.tiling)

    def gone_on(self, touches: tuple[TouchedStep, ...]) -> tuple[TouchedStep, ...]:
        """The steps touched, and the tool's own for the rest. Raises NoTable where it finds none."""
        begun = self.begun(touches)
        if begun.faults:
            raise NoTable("the steps so far cannot be sewn; take them back first")
        for more in continuations(begun, self.size.sewing, self.size.fabrics, self.ask):
            found = self.begun((*touches, *more))
            if found.is_whole and not found.faults and not self.hindered((*touches, *more)):
                return (*touches, *more)
        raise NoTable(
            "no way was found to go on from here with the seam that is left open; close it, or take it back"
        )

    def elsewhere(self, touches: tuple[TouchedStep, ...]) -> list[tuple[Size, Joiner]]:
        """What the steps come to in the other sizes that have the block: an order holds for all."""
        found = []
        for size in self.laid_out.pattern.sizes:
            tiling = self.laid_out.tilings.get((size.id, self.block.id))
            if size.id == self.size.id or tiling is None:
                continue
            joiner = Joiner(tiling, size.sewing)
            for step in self.steps(touches):
                joiner.take(step)
            found.append((size, joiner))
        return found

    def hindered(self, touches: tuple[TouchedStep, ...]) -> str:
        """Why the steps cannot be sewn in another size; empty where they can."""
        for size, joiner in self.elsewhere(touches):
            tiling = joiner.tiling
            faults = (*joiner.faults, *blocked_set_ins(joiner.drafts, tiling, size.sewing))
            if faults:
                return f"in size `{size.id}` {faults[0].message}"
        return ""

    def beside(self, begun: Begun, hand: tuple[str, ...]) -> list[frozenset[str]]:
        """The units on the table that share a seam with what is in hand."""
        held = [begun.unit(piece).pieces for piece in hand]
        there = frozenset[str]().union(*held)
        unsewn = [seam for seam in self.tiling.seams if seam.id in begun.unsewn]
        rest = (unit.pieces for unit in begun.table if unit.pieces not in held)
        return [pieces for pieces in rest if common_seams(unsewn, there, pieces)]

    def openings(self, before: Begun, draft: Draft) -> list[str]:
        """The pieces for which the seam of a join of two could be left open: each the first of its unit."""
        if len(draft.stretches) != 1 or draft.finish_begun:
            return []
        found = []
        for unit in before.table:
            if not unit.pieces & draft.pieces:
                pieces = [piece.id for piece in self.tiling.pieces if piece.id in unit.pieces]
                found += [
                    p
                    for p in pieces
                    if toward_open(draft.stretches[0], frozenset({p}), self.tiling)
                ][:1]
        return found


def blocks_of(laid_out: LaidOut, size: Size) -> list[Block]:
    """The blocks of a size that can be touched: those of the source, not the parts of blocks at a filled rim."""
    laid = laid_out.tilings
    return [b for b in laid_out.pattern.blocks if b.part is None and (size.id, b.id) in laid]


def table_of(
    laid_out: LaidOut, asked: Asked, known: Mapping[BlockKey, Assembly], ask: Ask
) -> TouchTable:
    """The table that is asked for: of a size or a block that is not there the first; `known` is how the blocks are sewn
    as they are written. Raises NoTable where no block can be laid out."""
    pattern = laid_out.pattern
    size = next((s for s in pattern.sizes if s.id == asked.size), pattern.sizes[0])
    there = blocks_of(laid_out, size)
    if not there:
        raise NoTable("no block of this size can be laid out yet: mend the faults first")
    block = next((b for b in there if b.id == asked.block), there[0])
    return TouchTable(
        laid_out=laid_out,
        block=block,
        size=size,
        tiling=laid_out.tilings[size.id, block.id],
        others={b: made for (s, b), made in known.items() if s == size.id},
        ask=ask,
    )
