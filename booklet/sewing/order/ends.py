"""Floor 4: where the sewing of each seam stops at its two ends.

A run that turns at a matching point opens the allowances of every seam that already ends there, so
none of those may be sewn across the point. A seam stops at the point if its own or a later run turns
there, if it is sewn by hand, if its step is to end at points, or if the allowances there are to be
fanned; else it runs off the raw edge. In a set whose blocks are set into each other, their corners are such
points too (`held`), unless the step is asked to end at the edges.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from booklet.geometry.tiling import Tiling
from booklet.kit.diagnostic import Diagnostic
from booklet.kit.outlines.plane import Point
from booklet.kit.outlines.polygon import without_straight_points
from booklet.pattern import By, DeclaredStep, Ends, PressHabit, PressKind, Sewing
from booklet.sewing import faults
from booklet.sewing.assembly import End, SewnSeam
from booklet.sewing.drafts import Draft

Order = tuple[int, int]  # the number of the step, and of the run within it


def last_turns(drafts: Iterable[Draft]) -> Mapping[Point, Order]:
    """The last run that turns at each matching point."""
    last: dict[Point, Order] = {}
    for draft in drafts:
        for k, stretch in enumerate(draft.stretches):
            for point in stretch.turn_points:
                last[point] = (draft.n, k)
    return last


def fanned(drafts: Iterable[Draft], tiling: Tiling, sewing: Sewing) -> frozenset[Point]:
    """The matching points inside the block at which a fan is asked for."""
    inside = frozenset(junction.at for junction in tiling.junctions if junction.inside)
    if sewing.press is PressHabit.FAN:
        return inside
    asked = (d for d in drafts if d.declared.press and d.declared.press.kind is PressKind.FAN)
    return inside & {p for draft in asked for s in draft.stretches for p in s.points}


def set_in_corners(tiling: Tiling) -> frozenset[Point]:
    """The points at which the outline of a block turns: where other blocks are set in."""
    outline = tiling.outline
    if outline.is_curved:
        return frozenset(outline.corners)
    return frozenset(without_straight_points(outline.points))


def sew_ends(
    drafts: Sequence[Draft],
    tiling: Tiling,
    sewing: Sewing,
    held: frozenset[Point] = frozenset(),
) -> dict[str, SewnSeam]:
    """How every seam is sewn, by its id; a partial seam belongs to the step that begins it. At the points
    `held` a later join of the whole block turns."""
    turned, fans = last_turns(drafts), fanned(drafts, tiling, sewing)
    sewn: dict[str, SewnSeam] = {}
    for draft, k, seam_id, by in _each_seam(drafts):
        seam = tiling.seam(seam_id)

        def end(v: Point, draft: Draft = draft, k: int = k, by: By = by) -> End:
            stops = (
                by is By.HAND
                or wish(draft.declared, sewing) is Ends.POINTS
                or turned.get(v, (0, 0)) >= (draft.n, k)
                or v in fans
                or (v in held and wish(draft.declared, sewing) is not Ends.EDGES)
            )
            return End.POINT if stops else End.EDGE

        sewn[seam_id] = SewnSeam(seam_id, draft.n, by, (end(seam.start), end(seam.end)))
    return sewn


def wish(declared: DeclaredStep, sewing: Sewing) -> Ends:
    """Where the step is asked to end its seams: its own `ends`, else that of `sewing`."""
    return declared.ends if declared.ends is not None else sewing.ends


def blocked_set_ins(
    drafts: Sequence[Draft], tiling: Tiling, sewing: Sewing
) -> Iterator[Diagnostic]:
    """A fault for every machine step declared edge to edge whose seam a later run has to open."""
    turned = last_turns(drafts)
    names = {draft.n: _called(draft, tiling) for draft in drafts}
    told: set[tuple[int, int]] = set()
    for draft, k, seam_id, by in _each_seam(drafts):
        seam = tiling.seam(seam_id)
        if by is By.HAND or wish(draft.declared, sewing) is not Ends.EDGES:
            continue
        for v in (seam.start, seam.end):
            late = turned.get(v, (0, 0))
            if late > (draft.n, k) and (draft.n, late[0]) not in told:
                told.add((draft.n, late[0]))
                yield faults.blocked(
                    tiling.block, names[draft.n], names[late[0]], draft.declared.span
                )


def _called(draft: Draft, tiling: Tiling) -> str:
    """What the author calls the unit a step makes; the last is the block, if it has a name at all."""
    return draft.declared.make if draft.make == tiling.block and draft.declared.make else draft.make


def _each_seam(drafts: Iterable[Draft]) -> Iterator[tuple[Draft, int, str, By]]:
    """Every seam once, with its draft, the number of its run in it, and who sews it."""
    for draft in drafts:
        for k, (stretch, by) in enumerate(zip(draft.stretches, draft.by, strict=True)):
            for seam in stretch.seams:
                if seam != draft.repeats:
                    yield draft, k, seam, by
