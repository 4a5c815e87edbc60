"""Floor 7: the units that the order of sewing makes, each with what keeps it from being made together."""

from __future__ import annotations

from collections.abc import Iterable

from booklet.crafts.forms import recognised
from booklet.crafts.unit import JoinedUnit, UnitPart
from booklet.geometry.patches.recognise import figure_in
from booklet.geometry.tiling import PlacedPiece
from booklet.kit.records import Record
from booklet.pattern import By, Direction, Size
from booklet.quilt.sized import SizedQuilt
from booklet.sewing.assembly import Assembled, Step, StepKind


class Hindrance(Record):
    """Why a unit cannot be made from larger pieces, as a clause, and what to do about it."""

    reason: str
    remedy: str


class Candidate(Record):
    """A unit of two or more pieces that a step of a block makes, and what the kinds of unit are told of it;
    `hindrance` is None where it may be made together: by straight machine seams alone, from cloth that may lie
    as it likes."""

    block: str
    ids: frozenset[str]
    joined: JoinedUnit
    hindrance: Hindrance | None


def candidates(pattern: Assembled, quilt: SizedQuilt) -> tuple[Candidate, ...]:
    """Every unit that a step of a block of this size makes, in sewing order."""
    found = []
    for tiling in pattern.of_size(quilt.size):
        assembly = pattern.assemblies.get((quilt.size.id, tiling.block))
        if assembly is None or not quilt.blocks.get(tiling.block, 0):
            continue
        by_hand = _steps(s for s in assembly.steps if s.by is not By.MACHINE)
        crooked = _steps(s for s in assembly.steps if s.kind is not StepKind.STRAIGHT or s.finish)
        parts = {piece.id: _part(piece) for piece in tiling.pieces}
        for step in assembly.steps:
            if len(step.pieces) >= 2:
                pieces = tuple(tiling.piece(id) for id in step.pieces)
                why = _of_seams(step, by_hand, crooked) or _of_cloth(pieces, quilt.size)
                joined = JoinedUnit(tuple(parts[id] for id in step.pieces), step.rectangle)
                found.append(Candidate(tiling.block, frozenset(step.pieces), joined, why))
    return tuple(found)


def _part(piece: PlacedPiece) -> UnitPart:
    figure = figure_in(piece.outline)
    form, _ = recognised(figure, None)
    return UnitPart(form, figure, piece.fabric)


_BY_HAND = Hindrance("it is sewn by hand", "let the machine sew it (`by: machine`)")
_NOT_STRAIGHT = Hindrance("not all of its seams are straight", "sew it in straight seams")
_Steps = dict[str, list[frozenset[str]]]  # by one of their pieces, the pieces of steps


def _of_seams(step: Step, by_hand: _Steps, not_straight: _Steps) -> Hindrance | None:
    """What hinders a step, or a step that made a part of it."""
    for kind, hindrance in ((by_hand, _BY_HAND), (not_straight, _NOT_STRAIGHT)):
        pieces = set(step.pieces)
        if any(made <= pieces for id in step.pieces for made in kind.get(id, ())):
            return hindrance
    return None


def _steps(steps: Iterable[Step]) -> _Steps:
    """The pieces of each step, to be found by the first of them."""
    found: _Steps = {}
    for step in steps:
        found.setdefault(step.pieces[0], []).append(frozenset(step.pieces))
    return found


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
    return None
