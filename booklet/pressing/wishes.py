"""Floor 5: what the author asked for, as directions of seams.

`toward X` presses every seam of the step to the side on which X lies, `away from X` to the other. In a
step of three or more parts, a seam sewn before X is there is pressed toward the side where X will come.
Fault codes: no-such-part.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from booklet.geometry.tiling import Seam
from booklet.kit.diagnostic import Diagnostic, Span, did_you_mean
from booklet.kit.outlines.plane import Point
from booklet.kit.records import Record
from booklet.pattern import PressHabit, PressKind, PressWish
from booklet.pressing.meetings.crossings import Meeting, crossings_of
from booklet.pressing.strands import strands_of
from booklet.sewing.assembly import Assembly, Run, Step


class Wished(Record, kw_only=True):
    """What is asked of one block: seams with the piece they go toward (None: open), the span of each
    wish by seam, and the points to release and fan."""

    toward: Mapping[str, str | None]
    spans: Mapping[str, Span]
    fans: Mapping[Point, Span]
    faults: tuple[Diagnostic, ...]
    papers: frozenset[str]  # seams on printed paper, pressed as they are sewn


def wishes_of(assembly: Assembly) -> Wished:
    """The author's wishes for every seam of a block."""
    toward: dict[str, str | None] = {}
    spans: dict[str, Span] = {}
    fans: dict[Point, Span] = {}
    papers: set[str] = set()
    faults: list[Diagnostic] = []
    seams = {seam.id: seam for seam in assembly.tiling.seams}
    fannable = list(_fannable(assembly)) if _fans(assembly) else []
    for step in assembly.steps:
        if step.section:  # on printed paper each seam is pressed toward the new piece as it is sewn
            for run in step.runs:
                for seam in run.seams:
                    toward[seam] = max(seams[seam].between, key=lambda id, s=step: s.join.index(id))  # type: ignore[misc]
                    spans[seam] = step.span
                    papers.add(seam)
            continue
        wish = step.press
        if wish is None:
            continue
        if wish.kind is PressKind.FAN:
            own = {seam for run in step.runs for seam in run.seams}
            fans.update({at: wish.span for at, wanted in fannable if own & set(wanted)})
            continue
        fault = _unknown_part(assembly, step, wish)
        if fault is not None:
            faults.append(fault)
            continue
        for seam, piece in _directions(assembly, step, wish, seams):
            toward.setdefault(seam, piece)
            spans.setdefault(seam, wish.span)
    return Wished(
        toward=toward, spans=spans, fans=fans, faults=tuple(faults), papers=frozenset(papers)
    )


def released_points(assembly: Assembly, wished: Wished, habit: PressHabit) -> frozenset[Point]:
    """The machine-sewn crossings that are to be fanned, so that no strand passes through them."""
    crossings = crossings_of(assembly, strands_of(assembly))
    return frozenset(
        c.at
        for c in crossings
        if c.meeting is Meeting.CROSSING and (habit is PressHabit.FAN or c.at in wished.fans)
    )


def _fans(assembly: Assembly) -> bool:
    """Whether any step is wished to be fanned."""
    return any(step.press and step.press.kind is PressKind.FAN for step in assembly.steps)


def _fannable(assembly: Assembly) -> Iterator[tuple[Point, tuple[str, ...]]]:
    """The points inside the block where a fan is possible, each with the seams whose step may ask for
    it: the line sewn through a crossing, or any seam of a point."""
    for crossing in crossings_of(assembly, strands_of(assembly)):
        if crossing.meeting is Meeting.CROSSING:
            yield crossing.at, crossing.line
        elif crossing.meeting is Meeting.POINT:
            yield crossing.at, crossing.seams


def _unknown_part(assembly: Assembly, step: Step, wish: PressWish) -> Diagnostic | None:
    """The fault of a wish that names something that is not part of its step."""
    if wish.of is None or _part_of(assembly, step, wish.of) is not None:
        return None
    name = step.make or " and ".join(step.join)
    return Diagnostic(
        code="no-such-part",
        message=f"`{wish.of}` is not a part of the step that makes `{name}`, so nothing can be pressed "
        f"{wish.kind.value} it",
        span=wish.span,
        hint=did_you_mean(wish.of, step.join),
    )


def _part_of(assembly: Assembly, step: Step, name: str) -> int | None:
    """Which part of the step (from 0) a unit or piece is, or lies in; None where it is in none."""
    if name in step.join:
        return step.join.index(name)
    for k, part in enumerate(step.join):
        inside = set(assembly.units.get(part, ()))
        pieces = set(assembly.units.get(name, ()))
        if name in inside or (pieces and pieces <= inside):
            return k
    return None


def _directions(
    assembly: Assembly, step: Step, wish: PressWish, seams: Mapping[str, Seam]
) -> Iterator[tuple[str, str | None]]:
    """(seam, the piece it is pressed toward, or None for open) for every seam of a step."""
    wanted = _part_of(assembly, step, wish.of) if wish.of is not None else None
    for run in step.runs:
        for seam in run.seams:
            if wish.kind is PressKind.OPEN or wanted is None:
                yield seam, None
                continue
            sides = {p: _side(assembly, step, run, p) for p in seams[seam].between}
            pair = sorted(sides, key=sides.__getitem__)
            later = sides[pair[1]]
            here, there = pair if wanted < later else pair[::-1]
            yield seam, here if wish.kind is PressKind.TOWARD else there


def _side(assembly: Assembly, step: Step, run: Run, piece: str) -> int:
    """Which part of the step a piece at a run lies in; the side of the run where it is in none."""
    part = _part_of(assembly, step, piece)
    return part if part is not None else int(piece in run.sides[1])
