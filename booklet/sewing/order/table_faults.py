"""Floor 4: what an order gets wrong about the units on the table: not there, not touching, left over."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping

from booklet.geometry.tiling import Tiling
from booklet.kit.diagnostic import Diagnostic, Span
from booklet.pattern import DeclaredStep
from booklet.sewing import faults
from booklet.sewing.order.stretches import common_seams
from booklet.sewing.order.table import SewingTable, SewnUnit

FEW = 3  # forgotten pieces that are told one by one


def missing_part(
    table: SewingTable, makes: Mapping[int, str], block: str, name: str, span: Span
) -> Diagnostic:
    """Why a name is not on the table: an earlier step took it, or nothing has it. `makes` tells what
    each step made."""
    if name in table.used_in:
        before = makes[table.used_in[name]]
        now = table.holding(min(table.known[name])).name
        return faults.used_twice(block, name, before, now, span)
    return faults.unknown_part(block, name, span, table.units)


def apart(
    table: SewingTable, declared: DeclaredStep, block: str, name: str, span: Span, unit: SewnUnit
) -> Diagnostic:
    """The fault of a part that shares no seam with those named before it in the same join."""
    near = {
        other.name
        for other in table.left()
        if other != unit
        and common_seams(table.unsewn.values(), unit.pieces, other.pieces)
        and other.name not in declared.join
    }
    there, later = (
        declared.join[: declared.join.index(name)],
        declared.join[declared.join.index(name) + 1 :],
    )
    sewn = frozenset(id for part in there for id in table.known.get(part, ()))
    for part in later:  # the one that lies between, and is only named too late
        between = table.known.get(part, frozenset())
        if all(common_seams(table.unsewn.values(), between, side) for side in (unit.pieces, sewn)):
            return faults.does_not_touch(block, there, name, span, near, first=part)
    return faults.does_not_touch(block, there, name, span, near)


def left_over(
    table: SewingTable,
    tiling: Tiling,
    begun: Mapping[int, DeclaredStep],
    doubtful: Collection[str],
    block_span: Span,
) -> Iterator[Diagnostic]:
    """What is missing when all steps are done: pieces never used, units apart, seams left open.

    `begun` are the steps by their number. Parts of a faulty step (`doubtful`) are not told again.
    """
    left = table.left()
    if len(left) > 1:
        alone = {piece for unit in left if unit.level == 0 for piece in unit.pieces}
        forgotten = [p for p in tiling.pieces if p.id in alone and p.id not in doubtful]
        if len(forgotten) > FEW:
            ids = [piece.id for piece in forgotten]
            yield faults.never_used_many(tiling.block, ids, block_span)
        else:
            for piece in forgotten:
                yield faults.never_used(tiling.block, piece.id, piece.span)
    units = [unit.name for unit in left if unit.level > 0]
    if len(units) > 1 and not doubtful:
        yield faults.unfinished(tiling.block, units, block_span)
    for gap in table.open:
        step = begun[gap.step]
        yield faults.left_open(tiling.block, step.join, gap.seam.between, gap.leave, step.span)
