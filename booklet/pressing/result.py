"""Floor 5, last step: the solution written as directions, kinds, layers and times of pressing."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from types import MappingProxyType

from booklet.geometry.tiling import Seam
from booklet.kit.outlines.plane import Point
from booklet.kit.remembered.memory import Ask, plainly
from booklet.pattern import By
from booklet.pressing.equations.preferences import ROUND
from booklet.pressing.equations.problem import BlockPart
from booklet.pressing.fans import fan_report
from booklet.pressing.layers.thickness import layers_at
from booklet.pressing.meetings.crossings import Crossing, Meeting, kind_of
from booklet.pressing.pressing import (
    Conflict,
    FanReport,
    JunctionKind,
    Pressed,
    PressedJunction,
    Pressing,
    Reason,
    Release,
)
from booklet.pressing.strands import Strands, stops
from booklet.pressing.wishes import Wished
from booklet.sewing.assembly import Assembly, Run


def pressing_of(
    assembly: Assembly,
    part: BlockPart,
    wished: Wished,
    values: tuple[bool, ...],
    conflicts: tuple[Conflict, ...],
    allowance: float,
    ask: Ask = plainly,
) -> Pressing:
    """The pressing of one block, which is a problem of its own here, from the values of its unknowns."""
    toward = _toward(part, values)
    kinds = {
        c.at: kind_of(c, {s: _sense(part, toward, s, c.at) for s in c.seams}, part.strands)
        for c in part.crossings
    }
    fanned = frozenset(at for at, kind in kinds.items() if kind is JunctionKind.FAN)
    points = tuple(c.at for c in part.crossings)
    layers = ask(layers_at, assembly, toward, fanned, points, allowance)
    junctions = tuple(
        PressedJunction(
            at=c.at,
            seams=c.seams,
            kind=kinds[c.at],
            layers=layers[c.at],
            clockwise=_clockwise(part, toward, c, kinds[c.at]),
        )
        for c in part.crossings
    )
    near = _near(part)
    reasons = [
        _why(part, wished, values, kinds, k, near.get(k, []))
        for k in range(len(part.strands.strands))
    ]
    pressed = {
        seam.id: Pressed(seam.id, toward[seam.id], reasons[part.strands.of[seam.id][0]])
        for seam in assembly.tiling.seams
    }
    at_end = bool(part.crossings) and _all_stop(assembly, part)
    return Pressing(
        assembly=assembly,
        pressed=MappingProxyType(pressed),
        junctions=junctions,
        after=MappingProxyType(_after(assembly, part, fanned, at_end)),
        at_end=at_end,
        conflicts=conflicts,
        releases=_releases(assembly, fanned),
        fans=_fans(assembly, part),
    )


def _fans(assembly: Assembly, part: BlockPart) -> FanReport | None:
    """What can be fanned of the points at which all seams end; None without such points."""
    points = [c.at for c in part.crossings if c.meeting is Meeting.POINT]
    return fan_report(assembly.tiling, points, part.strands) if points else None


def _toward(part: BlockPart, values: tuple[bool, ...]) -> dict[str, str | None]:
    """The piece each seam is pressed toward, None for open."""
    toward: dict[str, str | None] = {}
    for name, seam in part.strands.seams.items():
        index, forward = part.strands.of[name]
        if index in part.fixed and part.fixed[index] is None:
            toward[name] = None
        else:
            toward[name] = seam.between[0 if values[part.first + index] == forward else 1]
    return toward


def _sense(part: BlockPart, toward: Mapping[str, str | None], name: str, at: Point) -> bool | None:
    """Whether a seam's allowance lies clockwise on the page round a point; None if open."""
    if toward[name] is None:
        return None
    seam = part.strands.seams[name]
    return (toward[name] == seam.between[0]) == (seam.start == at)


def _clockwise(
    part: BlockPart, toward: Mapping[str, str | None], crossing: Crossing, kind: JunctionKind
) -> bool | None:
    """For a fan whether it lies clockwise seen from the back: anticlockwise on the page."""
    if kind is not JunctionKind.FAN:
        return None
    return not _sense(part, toward, crossing.seams[0], crossing.at)


def _near(part: BlockPart) -> dict[int, list[Crossing]]:
    """For each strand the points inside the block at which its seams end."""
    near: dict[int, list[Crossing]] = {}
    for crossing in part.crossings:
        for index in dict.fromkeys(part.strands.of[seam][0] for seam in crossing.seams):
            near.setdefault(index, []).append(crossing)
    return near


def _why(
    part: BlockPart,
    wished: Wished,
    values: tuple[bool, ...],
    kinds: Mapping[Point, JunctionKind],
    index: int,
    near: list[Crossing],
) -> Reason:
    """The reason for a strand's direction, the weightiest that agrees with it."""
    if any(seam in wished.toward for seam in part.strands.strands[index].seams):
        return Reason.AUTHOR
    if index in part.fixed:
        return Reason.OPEN if part.fixed[index] is None else Reason.DARK
    own = set(part.strands.strands[index].seams)
    if any(kinds[c.at] is JunctionKind.FAN for c in near):
        return Reason.AUTHOR if any(c.at in wished.fans for c in near) else Reason.FAN
    value, dark = values[part.first + index], part.dark[index]
    if dark and (dark > 0) == value:
        return Reason.DARK
    nests = [c for c in near if c.meeting is Meeting.CROSSING and own & set(c.arms)]
    if any(kinds[c.at] is JunctionKind.NEST for c in nests):
        return Reason.NEST
    left, right = part.prefer[index]
    return Reason.BULK if abs(left - right) > ROUND and (right < left) == value else Reason.RULE


def _all_stop(assembly: Assembly, part: BlockPart) -> bool:
    """Whether every seam stops at every point inside the block at which it ends."""
    return all(
        stops(assembly, part.strands.seams[seam], crossing.at)
        for crossing in part.crossings
        for seam in crossing.seams
    )


def _after(
    assembly: Assembly, part: BlockPart, fanned: frozenset[Point], at_end: bool
) -> dict[str, int]:
    """The step after which each seam is pressed: as sewn, or with the last seam of a point that is fanned,
    where all that a card sews can wait for such a point."""
    if at_end:
        return dict.fromkeys(part.strands.seams, max(step.n for step in assembly.steps))
    strands = part.strands.strands
    after = _awaited(assembly, part, fanned)
    card = {step.n: step.card for step in assembly.steps}
    at_once = {card[s.step] for s, step in zip(strands, after, strict=True) if s.step == step}
    after = [s.step if card[s.step] in at_once else n for s, n in zip(strands, after, strict=True)]
    return {name: after[index] for name, (index, _) in part.strands.of.items()}


def _awaited(assembly: Assembly, part: BlockPart, fanned: frozenset[Point]) -> list[int]:
    """For each strand the step of the last seam of the points at which it fans, or its own. It does not
    wait where the machine sews over an allowance of it before that: by then it has to lie."""
    after = [strand.step for strand in part.strands.strands]
    held = _held(assembly, part.strands)
    for crossing in part.crossings:
        if crossing.at in fanned:
            latest = max(assembly.sewn[s].step for s in crossing.seams)
            for index in {part.strands.of[name][0] for name in crossing.seams}:
                if index not in held or latest < held[index]:
                    after[index] = max(after[index], latest)
    return after


def _held(assembly: Assembly, strands: Strands) -> dict[int, int]:
    """For each strand the first later step by machine that sews over its allowance and so holds it to one
    side. Hand sewing passes through allowances at the point and leaves them free, and so does a turn."""
    ending: dict[Point, list[Seam]] = {}
    for seam in strands.seams.values():
        for at in (seam.start, seam.end):
            ending.setdefault(at, []).append(seam)
    held: dict[int, int] = {}
    for step in assembly.steps:
        unit = set(step.pieces)
        for run in step.runs:
            for at in _sewn_over(run, strands, assembly):
                for seam in ending.get(at, ()):
                    index = strands.of[seam.id][0]
                    if strands.strands[index].step < step.n and unit.issuperset(seam.between):
                        held.setdefault(index, step.n)
    return held


def _sewn_over(run: Run, strands: Strands, assembly: Assembly) -> Iterator[Point]:
    """The points of a run past which the machine sews: those inside it at which it does not turn, and
    its ends where it goes off the raw edge."""
    if run.by is not By.MACHINE or not run.seams:
        return
    ends = {0: run.seams[0], len(run.seams): run.seams[-1]}
    for k, at in enumerate(run.points):
        past = not stops(assembly, strands.seams[ends[k]], at) if k in ends else k not in run.turns
        if past:
            yield at


def _releases(assembly: Assembly, fanned: frozenset[Point]) -> tuple[Release, ...]:
    """The machine seams that a later machine seam crosses at a fanned point, point by point."""
    found: dict[Point, tuple[str, ...]] = {}
    ending = {junction.at: junction.seams for junction in assembly.tiling.junctions}
    for step in assembly.steps:
        for run in step.runs:
            for k, at in enumerate(run.points[1:-1], start=1):
                if at not in fanned or k in run.turns or run.by is not By.MACHINE:
                    continue
                arms = (s for s in ending[at] if assembly.sewn[s].step < step.n)
                machine = tuple(s for s in arms if assembly.sewn[s].by is By.MACHINE)
                if machine:
                    found[at] = machine
    return tuple(Release(at, seams) for at, seams in found.items())
