"""Floor 10: the parts of a step, and which way they stand apart."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache

from booklet.geometry.tiling import Seam, Tiling
from booklet.kit.outlines.plane import Point, direction, dot, extent, plus, right_of, unit, vector
from booklet.kit.records import Record
from booklet.plan.cards.frames import Stage
from booklet.sewing.assembly import Assembly, Step


class StepPart(Record):
    """One part of a step: its name, its pieces, how far it stands from its place (in inches of the
    block), and whether it is only context."""

    name: str
    pieces: tuple[str, ...]
    away: Point
    context: bool


def stage_parts(assembly: Assembly, step: Step, stage: Stage, gap: float) -> tuple[StepPart, ...]:
    """The parts of one stage of a step moved apart: along all of what they will share, so that none lies
    on another."""
    pieces = set(stage.pieces)
    seams = [seam for seam in step_seams(assembly, step) if pieces >= {*seam.between}]
    if len(stage.parts) == 1:
        seams = [assembly.tiling.seam(id) for id in stage.run.seams]
    return apart([("", part) for part in stage.parts], seams, gap)


def parts_of(assembly: Assembly, step: Step) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """The names and pieces of a step's parts; one part where both pieces are joined already."""
    named = tuple((name, _pieces(assembly, name)) for name in step.join)
    if step.finish or _overlap([pieces for _, pieces in named]):
        return ((step.make, step.pieces),)
    return named


def _pieces(assembly: Assembly, name: str) -> tuple[str, ...]:
    """The pieces of a unit or piece name."""
    return assembly.units.get(name, (name,))


def _overlap(groups: Sequence[Sequence[str]]) -> bool:
    return sum(len(group) for group in groups) > len({id for group in groups for id in group})


def exploded(assembly: Assembly, step: Step, gap: float) -> tuple[StepPart, ...]:
    """The parts of a step moved apart so that facing seams stand `gap` inches from each other.

    Each part moves away from those before it at right angles to the seam it is sewn by; where that
    seam turns, along the way in which the part can be moved in.
    """
    return apart(parts_of(assembly, step), step_seams(assembly, step), gap)


def apart(
    parts: Sequence[tuple[str, tuple[str, ...]]], seams_between: Sequence[Seam], gap: float
) -> tuple[StepPart, ...]:
    """Named parts moved apart from each other at the seams between them, by `gap` inches."""
    if len(parts) == 1:
        return _opened(*parts[0], seams_between)
    context = _context(parts)
    away: list[Point] = [(0.0, 0.0)]
    for i in range(1, len(parts)):
        pieces = set(parts[i][1])
        before = {id for _, others in parts[:i] for id in others}
        seams = [
            seam
            for seam in seams_between
            if len(pieces & {*seam.between}) == 1 and before & {*seam.between}
        ]
        touched = [j for j in range(i) if any(set(s.between) & set(parts[j][1]) for s in seams)]
        away.append(_moved(seams, pieces, [away[j] for j in touched] or [away[0]], gap))
    still = next(
        (shift for shift, is_context in zip(away, context, strict=True) if is_context), away[0]
    )
    return tuple(
        StepPart(name, pieces, (shift[0] - still[0], shift[1] - still[1]), is_context)
        for (name, pieces), shift, is_context in zip(parts, away, context, strict=True)
    )


def _opened(name: str, pieces: Sequence[str], seams: Sequence[Seam]) -> tuple[StepPart, ...]:
    """A unit that is whole already: the pieces at the seam, and the others as context."""
    at_seam = {id for seam in seams for id in seam.between}
    rest = tuple(id for id in pieces if id not in at_seam)
    near = tuple(id for id in pieces if id in at_seam)
    both = (StepPart("", rest, (0.0, 0.0), True), StepPart(name, near, (0.0, 0.0), False))
    return tuple(part for part in both if part.pieces)


def _context(parts: Sequence[tuple[str, tuple[str, ...]]]) -> tuple[bool, ...]:
    """Which parts are context: the one made of most pieces, if it is made of several."""
    most = max(len(pieces) for _, pieces in parts)
    first = next(i for i, (_, pieces) in enumerate(parts) if len(pieces) == most)
    return tuple(most > 1 and i == first and len(parts) > 1 for i in range(len(parts)))


def step_seams(assembly: Assembly, step: Step) -> tuple[Seam, ...]:
    """The seams of a step in sewing order."""
    return tuple(assembly.tiling.seam(id) for run in step.runs for id in run.seams)


def _moved(seams: Sequence[Seam], pieces: set[str], others: Sequence[Point], gap: float) -> Point:
    """Where a part stands: `gap` beyond the parts it touches."""
    way, least = way_in(seams, pieces)
    reach = max(dot(other, way) for other in others) + gap / max(least, 0.5)
    sideways = right_of(way)
    aside = sum(dot(other, sideways) for other in others) / len(others)
    return plus((way[0] * reach, way[1] * reach), sideways, aside)


_AROUND = tuple(vector(angle) for angle in range(0, 360, 5))


def way_in(seams: Sequence[Seam], pieces: set[str]) -> tuple[Point, float]:
    """The direction in which a part leaves its seams most freely, and the least cosine it makes
    with the normals of the seams (negative where a seam is in its way: an enclosed part)."""
    normals: list[tuple[Point, float]] = []
    for seam in seams:
        for a, b in zip(seam.path, seam.path[1:], strict=False):
            out = right_of(direction(a, b))
            into = out if seam.between[0] in pieces else (-out[0], -out[1])
            normals.append((into, math.dist(a, b)))
    return _freest(tuple(normals)) if normals else ((1.0, 0.0), 1.0)


@lru_cache(maxsize=512)
def _freest(normals: tuple[tuple[Point, float], ...]) -> tuple[Point, float]:
    """The direction that makes the least angles with normals of seams, each with its length, and the least
    cosine. The same part is set apart at many scales."""
    mean = unit((sum(n[0] * w for n, w in normals), sum(n[1] * w for n, w in normals)))
    candidates = [mean, *_AROUND]
    candidates += [unit(plus(a, b)) for a, _ in normals for b, _ in normals[:40]]
    least = [
        round(min(dot(way, n) for n, _ in normals), 6) if way != (0.0, 0.0) else -2.0
        for way in candidates
    ]
    best = max(
        range(len(candidates)), key=lambda i: (least[i], round(dot(candidates[i], mean), 6), -i)
    )
    return candidates[best], least[best]


def shorter_side(tiling: Tiling, pieces: Sequence[str]) -> float:
    """The shorter side of the smallest box about a unit, in inches."""
    return min(extent(p for id in pieces for p in tiling.piece(id).outline.points))
