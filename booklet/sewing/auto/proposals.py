"""Floor 4: the orders that the tool would choose, block by block, beside those that are declared."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.geometry.tiling import LaidOut, Tiling
from booklet.kit.measure import UnitSystem
from booklet.kit.records import Record, replace
from booklet.kit.remembered.memory import Ask, plainly
from booklet.kit.words import with_unit
from booklet.pattern import Block, DeclaredStep, Size
from booklet.sewing.assembly import Assembly
from booklet.sewing.auto.finding import planned, ways_known
from booklet.sewing.auto.papers import paper_steps
from booklet.sewing.auto.told import ways_told
from booklet.sewing.planner.judge import count, judge
from booklet.sewing.planner.show import order_text, sections_text
from booklet.sewing.stage import assemble_block


class Proposal(Record, kw_only=True):
    """The order proposed for a block in one size: its steps, how it is sewn, and its text."""

    block: str
    size: str
    declared: bool  # whether the pattern has steps of its own for the block
    steps: tuple[DeclaredStep, ...]
    assembly: Assembly
    text: str


def proposals(
    laid_out: LaidOut, block: str | None = None, size: str | None = None, ask: Ask = plainly
) -> Iterator[Proposal]:
    """The orders of all blocks in all sizes, or of the block and in the size named; of sizes in which
    a block is sewn alike only the first."""
    pattern = laid_out.pattern
    for there in pattern.blocks:
        if block not in (None, there.id):
            continue
        seen: list[object] = []
        for chosen in pattern.sizes:
            if size not in (None, chosen.id) or (chosen.id, there.id) not in laid_out.tilings:
                continue
            made = _proposal(laid_out, there, chosen, ask)
            alike = made and [(s.make, s.join, s.by, s.kind, s.leave) for s in made.assembly.steps]
            if made is not None and alike not in seen:
                seen.append(alike)
                yield made


def _proposal(laid_out: LaidOut, block: Block, size: Size, ask: Ask) -> Proposal | None:
    """The order of one block in one size."""
    tiling = laid_out.tilings[size.id, block.id]
    if size.on_foundation(block) and tiling.seams:
        return _on_paper(tiling, replace(block, foundation=True), size, laid_out.pattern.units, ask)
    known = ways_known(tiling, size.sewing, size.fabrics, ask)
    order, steps = planned(tiling, size.sewing, size.fabrics, ask)
    wanted = replace(block, steps=steps)
    assembly = assemble_block(tiling, wanted, size.sewing, size.fabrics).value
    if assembly is None:
        return None
    own, theirs = None, None
    if block.steps is not None:
        theirs = assemble_block(tiling, block, size.sewing, size.fabrics).value
        own = judge(theirs, size.sewing, order) if theirs is not None else None
    title = f"block `{block.id}`, size `{size.id}`"
    text = order_text(assembly, order, title, own)
    units = laid_out.pattern.units
    told = (*_threads_told(assembly, theirs, units), *ways_told(known, units, size.sewing))
    told = (*told, *_laid_told(tiling, units))
    text += "".join(f"  {line}\n" for line in told)
    return Proposal(
        block=block.id,
        size=size.id,
        declared=block.steps is not None,
        steps=steps,
        assembly=assembly,
        text=text,
    )


def _on_paper(
    tiling: Tiling, block: Block, size: Size, units: UnitSystem, ask: Ask
) -> Proposal | None:
    """The sections found of a block that is sewn on printed paper, beside the author's own."""
    free = replace(block, steps=None)
    made = assemble_block(tiling, free, size.sewing, size.fabrics, ask).value
    found, _ = paper_steps(tiling, free, size.sewing, ask)
    if found is None or made is None:
        return None
    theirs = None
    if block.steps is not None:
        theirs = assemble_block(tiling, block, size.sewing, size.fabrics).value
    title = f"block `{block.id}`, size `{size.id}`"
    return Proposal(
        block=block.id,
        size=size.id,
        declared=block.steps is not None,
        steps=tuple(replace(step, by=None) for step in found.steps),
        assembly=made,
        text=sections_text(made, title, theirs)
        + "".join(f"  {line}\n" for line in _laid_told(tiling, units)),
    )


def _laid_told(tiling: Tiling, units: UnitSystem) -> Iterator[str]:
    """What is laid on a block when it is sewn, the first lowest."""
    if tiling.applied:
        yield "then laid on it, the first lowest:"
    for shape in tiling.applied:
        flat = f", {with_unit(shape.flat, units)} left flat under others" if shape.flat else ""
        yield (
            f"  {shape.piece.patch}  {shape.piece.fabric}  "
            f"(by {shape.by.value}, {with_unit(shape.sewn, units)} of edge{flat})"
        )


def _threads_told(found: Assembly, declared: Assembly | None, units: UnitSystem) -> Iterator[str]:
    """How many hand threads the order in the pattern takes, and what parting runs would save."""
    if declared is not None and declared.threads:
        yield (
            f"which takes {count(len(declared.threads), 'hand thread')}{_gone_back(declared, units)}"
            f"{_if_parted(declared)}"
        )
    elif found.parted_threads < len(found.threads):
        yield f"every run lies whole on one thread{_if_parted(found)}"


def _gone_back(assembly: Assembly, units: UnitSystem) -> str:
    """What its threads go back."""
    gone = sum(thread.gone_back for thread in assembly.threads)
    return f" and goes back over {with_unit(gone, units)} of sewn seam" if gone else ""


def _if_parted(assembly: Assembly) -> str:
    """What `routes: fewest threads` would save."""
    if assembly.parted_threads >= len(assembly.threads):
        return ""
    return (
        f"; {assembly.parted_threads} would do if threads took over runs midway "
        "(`routes: fewest threads` in `sewing`)"
    )
