"""Floor 4: a step that cannot be sewn as it lies on the table, for whoever draws it."""

from __future__ import annotations

import math
from collections.abc import Iterator

from booklet.geometry.tiling import LaidOut, Seam, Tiling
from booklet.kit.diagnostic import Diagnostic
from booklet.kit.outlines.near import NOISE, ONE_POINT
from booklet.kit.outlines.plane import Point, dot, mean, minus, plus, to_segment
from booklet.kit.outlines.polygon import depth, edges
from booklet.kit.records import Record
from booklet.pattern import Block, DeclaredStep

CODES = frozenset(
    {"does-not-touch", "used-twice", "unsewable-step", "blocked-set-in", "partial-left-open"}
)


class Stuck(Record, kw_only=True):
    """A step with its parts as they lie: each by name with its pieces, in the order of the join.

    `seams` are those that any two of the parts share. Where one shares none with those before it, it is the last
    of the parts told, `apart` are the two nearest points, and `across` the inches between them. `way` are the
    pieces that lie between, or that the step leaves a seam open for. `opens` are the points where a later step
    has to turn, and a seam sewn past them would keep it from opening.
    """

    tiling: Tiling
    step: DeclaredStep
    parts: tuple[tuple[str, tuple[str, ...]], ...]
    seams: tuple[Seam, ...]
    apart: tuple[Point, Point] | None
    way: tuple[str, ...]
    opens: tuple[Point, ...] = ()

    @property
    def across(self) -> float:
        """The inches between the parts that do not touch."""
        return math.dist(*self.apart) if self.apart else 0.0


def stuck_step(laid_out: LaidOut, fault: Diagnostic) -> Stuck | None:
    """The step that a fault of an order is about; None where it is about none that can be drawn."""
    if fault.code not in CODES:
        return None
    for block in laid_out.pattern.blocks:
        for at, step in enumerate(block.steps or ()):
            if fault.span == step.span or fault.span in step.join_spans:
                tiling = _tiling(laid_out, block)
                return None if tiling is None else _stuck(tiling, block, at, fault)
    return None


def _tiling(laid_out: LaidOut, block: Block) -> Tiling | None:
    """The block in the first size that has it."""
    found = (laid_out.tilings.get((size.id, block.id)) for size in laid_out.pattern.sizes)
    return next(filter(None, found), None)


def _stuck(tiling: Tiling, block: Block, at: int, fault: Diagnostic) -> Stuck | None:
    steps = block.steps or ()
    step, made = steps[at], _units(tiling, steps[:at])
    parts = tuple((name, made[name]) for name in step.join if name in made)
    homes = [frozenset(pieces) for _, pieces in parts]
    lone = next((n for n in range(1, len(parts)) if not _touch(tiling, homes[:n], homes[n])), None)
    if lone is not None:
        before = frozenset[str]().union(*homes[:lone])
        apart = _nearest(tiling, before, homes[lone])
        way = tuple(_crossed(tiling, apart, before | homes[lone]))
        return Stuck(
            tiling=tiling, step=step, parts=parts[: lone + 1], seams=(), apart=apart, way=way
        )
    if not parts:
        return None
    seams = tuple(seam for seam in tiling.seams if _between(seam, homes))
    opens = tuple(_inner_ends(tiling, seams)) if fault.code == "blocked-set-in" else ()
    return Stuck(
        tiling=tiling,
        step=step,
        parts=parts,
        seams=seams,
        apart=None,
        way=made.get(step.leave or "", ()),
        opens=opens,
    )


def _inner_ends(tiling: Tiling, seams: tuple[Seam, ...]) -> Iterator[Point]:
    """The ends of a row of seams that lie inside the block."""
    ends = [p for seam in seams for p in (seam.start, seam.end)]
    for p in dict.fromkeys(ends):
        if ends.count(p) == 1 and depth(p, tiling.outline.points) > ONE_POINT:
            yield p


def _units(tiling: Tiling, steps: tuple[DeclaredStep, ...]) -> dict[str, tuple[str, ...]]:
    """The pieces of every name that stands for some when these steps are done."""
    made: dict[str, tuple[str, ...]] = {piece.id: (piece.id,) for piece in tiling.pieces}
    for step in steps:
        pieces = tuple(dict.fromkeys(id for name in step.join for id in made.get(name, ())))
        if pieces and not step.finish:
            made[step.make or step.join[0]] = pieces
    return made


def _between(seam: Seam, homes: list[frozenset[str]]) -> bool:
    """Whether a seam lies between two parts."""
    one, other = seam.between
    found = [home for home in homes if one in home or other in home]
    return len(found) > 1 and not any({one, other} <= home for home in homes)


def _touch(tiling: Tiling, before: list[frozenset[str]], part: frozenset[str]) -> bool:
    """Whether a part shares a seam with those before it."""
    there = frozenset[str]().union(*before)
    return any(len(part & {*s.between}) == 1 and there & {*s.between} - part for s in tiling.seams)


def _nearest(tiling: Tiling, one: frozenset[str], other: frozenset[str]) -> tuple[Point, Point]:
    """The nearest two points of two groups of pieces."""
    found = []
    for here, there in ((one, other), (other, one)):
        corners = [p for id in here for p in tiling.piece(id).outline.points]
        sides = [side for id in there for side in edges(tiling.piece(id).outline.points)]
        for p in corners:
            for side in sides:
                foot = _foot(p, *side)
                found.append((math.dist(p, foot), (p, foot) if here is one else (foot, p)))
    least = min(found)[0]
    near = [pair for far, pair in found if far < least + NOISE]
    middle = mean([a for a, _ in near]), mean([b for _, b in near])
    sides = [side for id in one for side in edges(tiling.piece(id).outline.points)]
    on_it = min(to_segment(middle[0], *side) for side in sides) < NOISE
    return middle if on_it and math.dist(*middle) < least + NOISE else near[0]


def _foot(p: Point, a: Point, b: Point) -> Point:
    """The point of a segment that is nearest to p."""
    way = minus(b, a)
    share = dot(minus(p, a), way) / (dot(way, way) or 1.0)
    return plus(a, way, min(max(share, 0.0), 1.0))


def _crossed(tiling: Tiling, line: tuple[Point, Point], besides: frozenset[str]) -> Iterator[str]:
    """The pieces that a line leads through, those of the parts left out."""
    (ax, ay), (bx, by) = line
    probes = [(ax + (bx - ax) * k / 20, ay + (by - ay) * k / 20) for k in range(1, 20)]
    for piece in tiling.pieces:
        if piece.id not in besides and any(depth(p, piece.outline.points) > 0 for p in probes):
            yield piece.id
