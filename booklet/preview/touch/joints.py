"""Floor 13, joints: what is said of the parts in hand, whether they can be joined and what that would do."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from booklet.commands.line.console import printable
from booklet.drawing.table_scene import table_view
from booklet.kit.diagnostic import Diagnostic
from booklet.kit.outlines.plane import Point
from booklet.kit.records import Record
from booklet.pattern import By, Size
from booklet.preview.touch.table import TouchTable
from booklet.preview.touch.touch_words import (
    card_words,
    corner_words,
    elsewhere_words,
    press_words,
    sewn_words,
    thread_words,
)
from booklet.sewing.assembly import Assembly, End
from booklet.sewing.faults import listed
from booklet.sewing.planner.judge import count, step_risks
from booklet.sewing.touched.begun import Begun
from booklet.sewing.touched.corners import corners_left_open
from booklet.sewing.touched.touches import TouchedStep

Answer = dict[str, Any]


class Joint(Record, kw_only=True):
    """A join in hand that can be sewn: the order before it, the order with it, and its copies."""

    table: TouchTable
    touches: tuple[TouchedStep, ...]  # the join is the last
    before: Begun
    begun: Begun
    made: Assembly  # the same order, assembled
    alike: int  # copies that can be sewn beside it

    def counted(self) -> tuple[tuple[int, int], tuple[int, int]]:
        """The threads before and after, and the cards."""
        old, new = self.before.assembly, self.made
        cards = [len({step.card for step in made.steps}) if made else 0 for made in (old, new)]
        return (len(old.threads) if old else 0, len(new.threads)), (cards[0], cards[1])

    def stops(self) -> list[Point]:
        """The points inside the block at which the seams of the join stop, as far as is sewn."""
        tiling = self.table.tiling
        inside = {junction.at for junction in tiling.junctions if junction.inside}
        found: dict[Point, None] = {}
        for seam in (tiling.seam(id) for s in self.begun.drafts[-1].stretches for id in s.seams):
            ends = zip((seam.start, seam.end), self.made.sewn[seam.id].ends, strict=True)
            found.update({p: None for p, end in ends if end is End.POINT and p in inside})
        return list(found)


def told_joint(
    table: TouchTable, touches: tuple[TouchedStep, ...], last: TouchedStep, before: Begun
) -> Answer:
    """What is said of a join of the parts in hand. Raises NoTable."""
    every = (*touches, last)
    begun = table.joint(every)
    if begun.assembly is None:
        return _cannot(begun.faults[0])
    if hindrance := table.hindered(every):
        return {"can": False, "said": [f"They cannot be joined: {printable(hindrance)}."]}
    joint = Joint(
        table=table,
        touches=every,
        before=before,
        begun=begun,
        made=begun.assembly,
        alike=len(table.alike(touches, last)) - 1,
    )
    return {"can": True, "said": list(_said(joint)), **_figures(joint), **_points(joint)}


def _cannot(fault: Diagnostic) -> Answer:
    """Why parts cannot be joined, and what can."""
    said = [f"They cannot be joined: {printable(fault.message)}."]
    if fault.hint:
        hint = printable(fault.hint)
        said.append(f"{hint[:1].upper()}{hint[1:]}.")
    return {"can": False, "said": said}


def _said(joint: Joint) -> Iterator[str]:
    """What is said of a join that can be sewn."""
    table, draft, step = joint.table, joint.begun.drafts[-1], joint.made.steps[-1]
    corners = corners_left_open(joint.begun, draft)
    stops = [p for p in joint.stops() if p not in corners]
    threads, cards = joint.counted()
    yield f"{listed(joint.before.unit(p).name for p in joint.touches[-1].pieces)} can be joined."
    yield sewn_words(draft, table.size, table.tiling, table.laid_out.pattern.units)
    yield corner_words(corners, stops, table.tiling)
    yield f"Threads: {thread_words(*threads, draft)}"
    yield f"Cards: {card_words(step, *cards)}"
    before, after = table.pressing(joint.before), table.pressing(joint.begun)
    if after is not None:
        yield f"Pressing: {press_words(step, before, after)}"
    yield from elsewhere_words(_elsewhere(joint, draft.step_by))
    yield from (f"Take care: {printable(r.message)}." for r in step_risks(step, joint.made))
    if joint.alike:
        yield f"{count(joint.alike, 'alike one')} can be taken along."


def _figures(joint: Joint) -> Answer:
    """The figures of a join, and for what it may be left open."""
    draft, last = joint.begun.drafts[-1], joint.touches[-1]
    threads, cards = joint.counted()
    may_wait = len(last.pieces) == 2 or last.leave
    return {
        "turns": draft.turns,
        "by": draft.step_by.value,
        "kind": draft.kind.value,
        "threads": threads,
        "cards": cards,
        "alike": joint.alike,
        "leave": last.leave,
        "leaves": joint.table.openings(joint.before, draft) if may_wait else [],
    }


def _points(joint: Joint) -> Answer:
    """Where the seams and the points of a join lie, on the block and on its picture."""
    draft = joint.begun.drafts[-1]
    corners = corners_left_open(joint.begun, draft)
    view, _ = table_view(joint.table.tiling)

    def put(points: list[Point]) -> list[Point]:
        return [(round(x, 2), round(y, 2)) for x, y in view.put(points)]

    return {
        "seams": [id for stretch in draft.stretches for id in stretch.seams],
        "corners_in": corners,
        "corners": put(list(corners)),
        "stops": put([p for p in joint.stops() if p not in corners]),
        "turned": put([p for stretch in draft.stretches for p in stretch.turn_points]),
    }


def _elsewhere(joint: Joint, by: By) -> list[tuple[Size, By]]:
    """The other sizes in which the join is sewn by somebody else."""
    found = joint.table.elsewhere(joint.touches)
    others = [(size, joiner.drafts[-1].step_by) for size, joiner in found]
    return [(size, other) for size, other in others if other is not by]
