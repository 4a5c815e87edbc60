"""Floor 9: the day of a class: what is sewn when, and who then needs a machine, an iron or light.

The tasks of the sittings, in their order, are dealt out to the sessions of the class: a task goes on in the next session where
one ends, what lies beyond the step until which a session goes waits for the next, and breaks are left free. All students sew the same at the same time, so each needs what the task needs.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import accumulate, pairwise

from booklet.kit.outlines.near import NOISE
from booklet.kit.records import Record, replace
from booklet.pattern import By, Lesson, Session, Until
from booklet.plan.records import Portion, SizePlan
from booklet.pressing.pressing import Pressing


class ClassStretch(Record, kw_only=True):
    """A stretch of the class, in minutes from its beginning: one task, or a part of it (`goes_on`: it began before), in
    one session; no task in a break."""

    session: Session
    begin: float
    end: float
    task: Portion | None
    goes_on: bool = False
    machine: bool = False
    iron: bool = False
    light: bool = False  # to sew by hand


class Day(Record):
    """The stretches of a class in order, and the minutes of sewing for which it has no time."""

    stretches: tuple[ClassStretch, ...]
    left: float


def day_of(lesson: Lesson, plan: SizePlan) -> Day:
    """The day of a class that sews what a plan says: 60 minutes of sewing in sessions of 40 and 45 minutes are 40 and 20."""
    tasks = [
        task
        for sitting in plan.sittings
        for task in _often(sitting.portions, sitting.last - sitting.first + 1)
    ]
    irons = {block.block.title: cards_with_iron(block.pressing) for block in plan.blocks}
    titles = {block.block.id: block.block.title for block in plan.blocks}
    waiting = [(task, task.minutes) for task in reversed(_joined(tasks))]
    ends = tuple(accumulate((each.minutes for each in lesson.sessions), initial=0))
    found: list[ClassStretch] = []
    for session, (begin, end) in zip(lesson.sessions, pairwise(ends), strict=True):
        if session.is_break:
            found.append(ClassStretch(session=session, begin=begin, end=end, task=None))
            continue
        at = float(begin)
        reach = _reach(session.until, [task for task, _ in reversed(waiting)], titles)
        while waiting and reach and end - at > NOISE:
            task, minutes = waiting.pop()
            sewn = min(minutes, end - at)
            found.append(_stretch(session, at, sewn, task, minutes, irons))
            at += sewn
            if minutes - sewn > NOISE:
                waiting.append((task, minutes - sewn))
            else:
                reach -= 1
        if end - at >= 1:  # a minute in hand
            found.append(ClassStretch(session=session, begin=at, end=end, task=None))
    return Day(tuple(found), sum(minutes for _, minutes in waiting))


def _reach(until: Until | None, waiting: Sequence[Portion], titles: Mapping[str, str]) -> int:
    """How many of the tasks that wait may be sewn in a session that goes so far: all up to the last that it names."""
    if until is None or not waiting:
        return len(waiting)
    block = waiting[0].block if until.block is None else titles.get(until.block, "")
    named = [
        n
        for n, task in enumerate(waiting, 1)
        if task.block == block and (until.step is None or min(task.cards, default=0) <= until.step)
    ]
    return max(named, default=0)


def _often(portions: tuple[Portion, ...], times: int) -> Iterator[Portion]:
    """The tasks of alike sittings, one sitting after the other."""
    for _ in range(times):
        yield from portions


def _joined(tasks: list[Portion]) -> list[Portion]:
    """The tasks with those put together that sittings had parted: a class has sessions of its own."""
    found: list[Portion] = []
    for task in tasks:
        last = found[-1] if found else None
        if last is not None and (last.block, last.cards, last.by) == (
            task.block,
            task.cards,
            task.by,
        ):
            found[-1] = _both(last, task)
        else:
            found.append(task)
    return found


def _both(one: Portion, other: Portion) -> Portion:
    return replace(one, count=one.count + other.count, minutes=one.minutes + other.minutes)


def _stretch(
    session: Session,
    at: float,
    sewn: float,
    task: Portion,
    left: float,
    irons: dict[str, frozenset[int]],
) -> ClassStretch:
    """A stretch of a task, of which so many minutes were left."""
    hand = task.by is By.HAND
    iron = (
        task.joins
        or task.together is not None
        or bool(irons.get(task.block, frozenset()) & set(task.cards))
    )
    return ClassStretch(
        session=session, begin=at, end=at + sewn, task=task, goes_on=left < task.minutes - NOISE,
        machine=not hand, iron=iron, light=hand,
    )  # fmt: skip


def cards_with_iron(pressing: Pressing) -> frozenset[int]:
    """The cards after which an iron is needed: where all is pressed at the end, the last; else those after which seams are
    pressed, but for hand seams that are finger-pressed as they are sewn."""
    steps = pressing.assembly.steps
    card = {step.n: step.card for step in steps}
    last = steps[-1] if steps else None
    found: set[int] = set()
    for step in steps:
        for seam in (seam for run in step.runs for seam in run.seams):
            after = pressing.after[seam]
            if last is not None and pressing.at_end:
                found.add(last.card)
            elif after != step.n:
                found.add(card[after])
            elif pressing.assembly.sewn[seam].by is not By.HAND or step is last:
                found.add(step.card)
    return frozenset(found)
