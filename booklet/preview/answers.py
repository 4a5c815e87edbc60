"""Floor 13, answers: what the table says to a touch, as plain records for JSON."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from booklet.console import printable
from booklet.drawing.ink.svg import render
from booklet.drawing.table_scene import table_scene, table_view
from booklet.kit.plane import Point
from booklet.pattern import By, Size
from booklet.pressing.pressing import JunctionKind
from booklet.preview.asked import Asked
from booklet.preview.cloths import scopes, shared_words, why_not
from booklet.preview.table import Joint, NoTable, TouchTable
from booklet.preview.touch_words import (
    card_words,
    corner_words,
    elsewhere_words,
    hand_words,
    piece_words,
    press_words,
    sewn_words,
    thread_words,
    unit_words,
)
from booklet.sewing.assembly import End
from booklet.sewing.faults import listed
from booklet.sewing.planner.judge import count, step_risks
from booklet.sewing.touched.begun import Begun
from booklet.sewing.touched.corners import corners_left_open
from booklet.sewing.touched.touches import TouchedStep
from booklet.source.blocks.step_words import step_lines

Told = dict[str, Any]


def answer(table: TouchTable, asked: Asked) -> Told:
    """What is said to a touch: the steps as they are now, what lies on the table, what is in hand. Raises NoTable."""
    asked = _done(table, asked)
    begun = table.begun(asked.touches)
    if begun.faults:
        raise NoTable(printable(begun.faults[0].message))
    told = {
        "block": table.block.id,
        "size": table.size.id,
        "steps": [_touch(touch) for touch in asked.touches],
        **_on_the_table(table, begun),
        "sums": _sums(table, begun),
        "source": list(step_lines(table.steps(asked.touches))),
        **_in_hand(table, asked, begun),
    }
    if asked.picture:
        told["drawn"] = _picture(table)
    if asked.do == "cloth" and asked.pieces:
        told |= _cloth(table, asked.pieces[0])
    return told


def _done(table: TouchTable, asked: Asked) -> Asked:
    """What is asked with its deed done: steps joined, planned or read."""
    touches, last = asked.touches, _last(table, asked)
    if asked.do == "written":
        return replace(asked, touches=table.written(), hand=(), leave=None)
    if asked.do == "on":
        return replace(asked, touches=table.gone_on(touches), hand=(), leave=None)
    if asked.do == "join" and last is not None:
        _sound(table, (*touches, last))
        return replace(asked, touches=(*touches, last), hand=(), leave=None)
    if asked.do == "alike" and last is not None:
        found = table.alike(touches, last)
        _sound(table, (*touches, *found))
        return replace(asked, touches=(*touches, *found), hand=(), leave=None)
    return asked


def _sound(table: TouchTable, touches: tuple[TouchedStep, ...]) -> None:
    """Refuse steps that cannot be sewn in every size."""
    if hindrance := table.hindered(touches):
        raise NoTable(printable(hindrance))


def _last(table: TouchTable, asked: Asked) -> TouchedStep | None:
    """What is in hand, as a step."""
    return TouchedStep(asked.hand, asked.leave) if len(asked.hand) > 1 else None


def _touch(touch: TouchedStep) -> Told:
    return {"join": touch.pieces, "leave": touch.leave, "finish": touch.finish}


def _on_the_table(table: TouchTable, begun: Begun) -> Told:
    """The steps done, the units that lie there, what may be closed now."""
    made = begun.assembly.steps if begun.assembly else ()
    where = {seam: step.n for step in made for run in step.runs for seam in run.seams}
    return {
        "made": [
            {
                "n": step.n, "make": step.make, "join": step.join, "by": step.by.value,
                "turns": step.turns, "kind": step.kind.value, "card": step.card,
                "times": step.times, "leave": step.leave, "finish": step.finish,
            }
            for step in made
        ],
        "units": [
            {
                "name": unit.name,
                "pieces": [p.id for p in table.tiling.pieces if p.id in unit.pieces],
                "words": unit_words(begun, unit.pieces, unit.name),
            }
            for unit in begun.table
        ],
        "sewn": {seam: where[seam] for seam in sorted(where)},
        "whole": begun.is_whole,
        "open": [
            {"join": gap.seam.between, "finish": True,
             "words": f"Close the seam between {gap.seam.between[0]} and {gap.seam.between[1]}",
             "ready": len({unit.name for unit in (begun.unit(gap.seam.between[0]), _holding(begun, gap.leave))}) == 1}
            for gap in begun.open
        ],
    }  # fmt: skip


def _holding(begun: Begun, name: str) -> Any:
    """The unit on the table that has a piece, or all of a unit made earlier."""
    pieces = next((d.pieces for d in begun.drafts if name in (d.make, d.declared.make)), {name})
    return begun.unit(next(iter(pieces)))


def _sums(table: TouchTable, begun: Begun) -> Told:
    """The sums of what is sewn so far."""
    made = begun.assembly
    pressing = table.pressing(begun)
    clashes = [j for j in pressing.junctions if j.kind is JunctionKind.CLASH] if pressing else []
    sums = {
        "turns": sum(draft.turns for draft in begun.drafts),
        "threads": len(made.threads) if made else 0,
        "cards": len({step.card for step in made.steps}) if made else 0,
        "clashes": len(clashes),
    }
    left = len(begun.table)
    said = (
        f"{count(len(begun.drafts), 'step')}, {count(sums['turns'], 'turn')}, {count(sums['threads'], 'hand thread')}, "
        f"{count(sums['cards'], 'card')}, {sums['clashes'] or 'no'} {'clash' if sums['clashes'] < 2 else 'clashes'}"
    )
    rest = "the block is sewn" if begun.is_whole else f"{count(left, 'part')} on the table"
    if begun.open:
        rest += f", {count(len(begun.open), 'seam')} left open"
    return {**sums, "words": f"{said}; {rest}."}


def _in_hand(table: TouchTable, asked: Asked, begun: Begun) -> Told:
    """What is said of the parts in hand: whether they can be joined, and what that would do."""
    known = {piece.id: piece for piece in table.tiling.pieces}
    hand: list[str] = []
    for piece in (p for p in asked.hand if p in known):
        if all(begun.unit(piece).pieces != begun.unit(other).pieces for other in hand):
            hand.append(piece)
    beside = table.beside(begun, tuple(hand)) if hand else []
    near = [next(piece for piece in known if piece in unit) for unit in beside]
    told: Told = {"hand": hand, "near": near}
    names = [begun.unit(piece).name for piece in hand]
    if len(hand) == 1:
        told["said"] = [hand_words(names[0], [begun.unit(piece).name for piece in near])]
    elif len(hand) > 1:
        leave = asked.leave if asked.leave in known else None
        told |= _joint(table, asked.touches, TouchedStep(tuple(hand), leave), begun)
    return told


def _joint(
    table: TouchTable, touches: tuple[TouchedStep, ...], last: TouchedStep, before: Begun
) -> Told:
    """What is said of a join."""
    joint = table.joint(touches, last)
    names = listed(before.unit(piece).name for piece in last.pieces)
    if joint.step is None:
        fault = joint.begun.faults[0]
        hint = f" {printable(fault.hint)}." if fault.hint else ""
        said = printable(fault.message)
        return {
            "can": False,
            "said": [f"They cannot be joined: {said}.", hint.strip().capitalize()],
        }
    if hindrance := table.hindered((*touches, last)):
        return {"can": False, "said": [f"They cannot be joined: {printable(hindrance)}."]}
    return _can(table, touches, last, before, joint, names)


def _can(
    table: TouchTable,
    touches: tuple[TouchedStep, ...],
    last: TouchedStep,
    before: Begun,
    joint: Joint,
    names: str,
) -> Told:
    """What is said of a join that can be sewn."""
    begun, draft, step = joint.begun, joint.draft, joint.step
    assert step is not None and begun.assembly is not None
    corners = corners_left_open(begun, draft)
    stops = [p for p in _stops(joint) if p not in corners]
    old, new = table.pressing(before), table.pressing(begun)
    assert new is not None
    threads = [len(b.assembly.threads) if b.assembly else 0 for b in (before, begun)]
    cards = [len({s.card for s in b.assembly.steps}) if b.assembly else 0 for b in (before, begun)]
    alike = len(table.alike(touches, last)) - 1
    said = [
        f"{names} can be joined.",
        sewn_words(draft, table.size, table.tiling, table.laid_out.pattern.units),
        corner_words(corners, stops, table.tiling),
        f"Threads: {thread_words(threads[0], threads[1], draft)}",
        f"Cards: {card_words(step, cards[0], cards[1])}",
        f"Pressing: {press_words(step, old, new)}",
        *elsewhere_words(_others(table, (*touches, last), draft.step_by)),
        *(f"Take care: {printable(risk.message)}." for risk in step_risks(step, begun.assembly)),
    ]
    if alike:
        said.append(f"{count(alike, 'alike one')} can be taken along.")
    return {
        "can": True,
        "said": said,
        "turns": draft.turns,
        "by": draft.step_by.value,
        "kind": draft.kind.value,
        "threads": threads,
        "cards": cards,
        "alike": alike,
        "seams": [id for stretch in draft.stretches for id in stretch.seams],
        "corners_in": corners,
        "corners": [_on_paper(table, p) for p in corners],
        "stops": [_on_paper(table, p) for p in stops],
        "turned": [_on_paper(table, p) for s in draft.stretches for p in s.turn_points],
        "leave": last.leave,
        "leaves": table.openings(before, draft) if len(last.pieces) == 2 or last.leave else [],
    }


def _others(table: TouchTable, touches: tuple[TouchedStep, ...], by: By) -> list[tuple[Size, By]]:
    """The other sizes in which the last step is sewn by somebody else."""
    found = [(size, joiner.drafts[-1].step_by) for size, joiner in table.elsewhere(touches)]
    return [(size, other) for size, other in found if other is not by]


def _stops(joint: Joint) -> dict[Point, None]:
    """The points inside the block at which the seams of a step stop, as far as is sewn."""
    made, tiling = joint.begun.assembly, joint.begun.tiling
    assert made is not None
    inside = {junction.at for junction in tiling.junctions if junction.inside}
    return {
        p: None
        for id in (id for stretch in joint.draft.stretches for id in stretch.seams)
        for p, end in zip(
            (tiling.seam(id).start, tiling.seam(id).end), made.sewn[id].ends, strict=True
        )
        if end is End.POINT and p in inside
    }


def _cloth(table: TouchTable, id: str) -> Told:
    """What is said of a piece whose fabric is to be chosen."""
    if why := why_not(table.block):
        return {"piece": id, "said": [f"{why[0].upper()}{why[1:]}."], "scopes": []}
    found = scopes(table, id)
    return {
        "piece": id,
        "said": [shared_words(table, id)],
        "scopes": [{"words": scope.words, "pieces": scope.pieces} for scope in found],
    }


def _on_paper(table: TouchTable, point: Point) -> Point:
    x, y = table_view(table.tiling)[0].at(point)
    return round(x, 2), round(y, 2)


def _picture(table: TouchTable) -> Told:
    """The picture of the block, where its pieces and seams lie on it, and what may be chosen."""
    scene = table_scene(table.size, table.tiling, f"{table.block.title}, {table.size.title}")
    view, _ = table_view(table.tiling)

    def put(points: Iterable[Point]) -> list[Point]:
        return [(round(x, 2), round(y, 2)) for x, y in view.put(points)]

    tiling, pattern = table.tiling, table.laid_out.pattern
    return {
        "picture": render(scene),
        "room": [scene.width, scene.height],
        "title": table.block.title,
        "pieces": [
            {"id": p.id, "points": put(p.outline.points), "words": piece_words(tiling, p.id), "fabric": p.fabric}
            for p in tiling.pieces
        ],
        "seams": {seam.id: put(seam.path) for seam in tiling.seams},
        "blocks": [[b.id, b.title] for b in pattern.blocks if (table.size.id, b.id) in table.laid_out.tilings],
        "sizes": [[s.id, s.title] for s in pattern.sizes],
        "fabrics": [[id, f.name, f.colour] for id, f in table.size.fabrics.items()],
        "declared": table.block.steps is not None,
    }  # fmt: skip
