"""Floor 13, answers: what the table says to a touch, as plain records for JSON."""

from __future__ import annotations

from collections.abc import Iterable

from booklet.commands.line.console import printable
from booklet.drawing.ink.svg import render
from booklet.drawing.table_scene import table_scene, table_view
from booklet.kit.outlines.plane import Point
from booklet.kit.records import replace
from booklet.pressing.pressing import JunctionKind
from booklet.preview.touch.asked import Asked
from booklet.preview.touch.cloths import scopes, shared_words, why_not
from booklet.preview.touch.joints import Answer, told_joint
from booklet.preview.touch.table import NoTable, TouchTable, blocks_of
from booklet.preview.touch.touch_words import (
    hand_words,
    piece_words,
    sum_words,
    unit_words,
)
from booklet.sewing.assembly import Step
from booklet.sewing.order.table import OpenSeam, SewnUnit
from booklet.sewing.touched.begun import Begun
from booklet.sewing.touched.touches import TouchedStep
from booklet.source.blocks.step_words import step_lines


def answer(table: TouchTable, asked: Asked) -> Answer:
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


def _touch(touch: TouchedStep) -> Answer:
    return {"join": touch.pieces, "leave": touch.leave, "finish": touch.finish}


def _on_the_table(table: TouchTable, begun: Begun) -> Answer:
    """The steps done, the units that lie there, what may be closed now."""
    made = begun.assembly.steps if begun.assembly else ()
    return {
        "made": list(map(_made, made)),
        "units": [_lying(table, begun, unit) for unit in begun.table],
        "sewn": {seam: step.n for step in made for run in step.runs for seam in run.seams},
        "whole": begun.is_whole,
        "open": [_gap(begun, gap) for gap in begun.open],
    }


def _made(step: Step) -> Answer:
    return {
        "n": step.n, "make": step.make, "join": step.join, "by": step.by.value, "turns": step.turns,
        "kind": step.kind.value, "card": step.card, "times": step.times, "leave": step.leave,
        "finish": step.finish,
    }  # fmt: skip


def _lying(table: TouchTable, begun: Begun, unit: SewnUnit) -> Answer:
    pieces = [piece.id for piece in table.tiling.pieces if piece.id in unit.pieces]
    return {
        "name": unit.name,
        "pieces": pieces,
        "words": unit_words(begun, table.size, unit.pieces, unit.name),
    }


def _gap(begun: Begun, gap: OpenSeam) -> Answer:
    """A seam that is left open; ready to be closed once what it waits for has come."""
    one, other = gap.seam.between
    there = {one, other, *begun.pieces_of(gap.leave)}
    return {
        "join": gap.seam.between,
        "finish": True,
        "words": f"Close the seam between {one} and {other}",
        "ready": there <= begun.unit(one).pieces,
    }


def _sums(table: TouchTable, begun: Begun) -> Answer:
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
    return {**sums, "words": sum_words(begun, sums)}


def _in_hand(table: TouchTable, asked: Asked, begun: Begun) -> Answer:
    """What is said of the parts in hand: whether they can be joined, and what that would do."""
    known = {piece.id: piece for piece in table.tiling.pieces}
    hand: list[str] = []
    for piece in (p for p in asked.hand if p in known):
        if all(begun.unit(piece).pieces != begun.unit(other).pieces for other in hand):
            hand.append(piece)
    beside = table.beside(begun, tuple(hand)) if hand else []
    near = [next(piece for piece in known if piece in unit) for unit in beside]
    told: Answer = {"hand": hand, "near": near}
    names = [begun.unit(piece).name for piece in hand]
    if len(hand) == 1:
        told["said"] = [hand_words(names[0], [begun.unit(piece).name for piece in near])]
    elif len(hand) > 1:
        leave = asked.leave if asked.leave in known else None
        last = TouchedStep(tuple(hand), leave)
        told |= told_joint(table, asked.touches, last, begun)
    return told


def _cloth(table: TouchTable, id: str) -> Answer:
    """What is said of a piece whose fabric is to be chosen."""
    if why := why_not(table.block):
        return {"piece": id, "said": [f"{why[0].upper()}{why[1:]}."], "scopes": []}
    found = scopes(table, id)
    return {
        "piece": id,
        "said": [shared_words(table, id)],
        "scopes": [{"words": scope.words, "pieces": scope.pieces} for scope in found],
    }


def _picture(table: TouchTable) -> Answer:
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
            {"id": p.id, "points": put(p.outline.points), "words": piece_words(tiling, table.size, p.id), "fabric": p.fabric}
            for p in tiling.pieces
        ],
        "seams": {seam.id: put(seam.path) for seam in tiling.seams},
        "blocks": [[b.id, b.title] for b in blocks_of(table.laid_out, table.size)],
        "sizes": [[s.id, s.title] for s in pattern.sizes],
        "fabrics": [[id, f.name, f.colour] for id, f in table.size.fabrics.items()],
        "declared": table.block.steps is not None,
    }  # fmt: skip
