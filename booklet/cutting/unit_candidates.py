"""Floor 7: the units that the order of sewing makes, each with what keeps it from being made together."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from booklet.geometry.tiling import PlacedPiece
from booklet.pattern import By, Direction, Size
from booklet.quilt.sized import SetPattern, SizedQuilt
from booklet.sewing.assembly import Assembly, Kind, Step


@dataclass(frozen=True, slots=True)
class Hindrance:
    """Why a unit cannot be made from larger pieces, as a clause, and what to do about it."""

    reason: str
    remedy: str


@dataclass(frozen=True, slots=True)
class Candidate:
    """A unit of two or more pieces that a step of a block makes; `hindrance` is None where it may be
    made together: by straight machine seams alone, from cloth that may lie as it likes."""

    block: str
    step: Step
    pieces: tuple[PlacedPiece, ...]
    hindrance: Hindrance | None


def candidates(pattern: SetPattern, quilt: SizedQuilt) -> tuple[Candidate, ...]:
    """Every unit that a step of a block of this size makes, in sewing order."""
    assembled = pattern.pressed.assembled
    found = []
    for tiling in assembled.laid_out.of_size(quilt.size):
        assembly = assembled.assemblies.get((quilt.size.id, tiling.block))
        if assembly is None or not quilt.blocks.get(tiling.block, 0):
            continue
        for step in assembly.steps:
            if len(step.pieces) >= 2:
                pieces = tuple(tiling.piece(id) for id in step.pieces)
                why = _of_seams(assembly, step) or _of_cloth(pieces, quilt.size)
                found.append(Candidate(tiling.block, step, pieces, why))
    return tuple(found)


def _of_seams(assembly: Assembly, step: Step) -> Hindrance | None:
    own = [s for s in assembly.steps if set(s.pieces) <= set(step.pieces)]
    if any(s.by is not By.MACHINE for s in own):
        return Hindrance("it is sewn by hand", "let the machine sew it (`by: machine`)")
    if any(s.kind is not Kind.STRAIGHT or s.finish for s in own):
        return Hindrance("not all of its seams are straight", "sew it in straight seams")
    return None


def _of_cloth(pieces: Iterable[PlacedPiece], size: Size) -> Hindrance | None:
    for piece in pieces:
        fabric = size.fabrics.get(piece.fabric)
        if fabric is None:
            return Hindrance(f"`{piece.fabric}` is no fabric of this size", "name one that is")
        if piece.motif:
            return Hindrance(f"`{piece.id}` is fussy cut", "leave out its `motif`")
        if fabric.direction is not Direction.ANY:
            reason = f"`{fabric.id}` is a {fabric.direction.value} print, which it would turn"
            return Hindrance(reason, "use a fabric that may be turned")
        if fabric.kind != "yardage":
            reason = f"`{fabric.id}` is sold ready cut (`{fabric.kind}`)"
            return Hindrance(reason, "cut it from yardage")
    return None
