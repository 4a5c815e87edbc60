"""Floor 9: the sittings: what to lay out each time you sit down to sew, how many, and about how long.

All blocks of the quilt are sewn in stages: what the machine can sew at once comes first, chained over the
whole quilt; then what waits for the hand, block by block, so that no thread is broken off; then what the
machine sews on top of that, and so on. Joining the blocks comes last, where it is told in cards; straight
rows are not counted. The time of a
join is its seam at the pace of the machine or the hand, with what a hand thread goes back over, and the handling; of
a partial seam, the seam is counted where it is closed. The pace is the author's, or an assumption of ours (`Pace`).
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence

from booklet.kit.outlines.near import NOISE
from booklet.kit.records import Record, replace
from booklet.pattern import By, Pace
from booklet.plan.cards.chaining import is_chained
from booklet.plan.records import BlockPlan, LayerCard, Portion, Sitting, StepCard
from booklet.sewing.assembly import Assembly, Step


class _Task(Record):
    """Something sewn many times over: `portion` is one of it."""

    portion: Portion
    count: int


def sittings(
    blocks: Iterable[BlockPlan], pace: Pace, joining: BlockPlan | None = None
) -> tuple[Sitting, ...]:
    """The sittings of a quilt in order; those that follow each other and are alike are one record. `joining`
    is the top whose patches are blocks."""
    made = [block for block in blocks if block.count]
    tasks = _tasks([block for block in made if block.cards], pace)
    tasks += [_laid(block, card, pace) for block in made for card in block.layers]
    if joining is not None:
        tasks += [task for card in joining.cards for task in _joins(joining, card, pace)]
    return _dealt(tasks, pace)


def _laid(block: BlockPlan, card: LayerCard, pace: Pace) -> _Task:
    """The shapes of a card on one block: their edges at their pace, and the handling of each."""
    speed = pace.hand if card.by is By.HAND else pace.machine
    sewn = sum(shape.sewn for shape in card.shapes)
    one = Portion(
        block=block.block.title,
        cards=(card.n,),
        title=card.title,
        by=card.by,
        chain=False,
        count=1,
        minutes=sewn / float(speed) + pace.handling * len(card.shapes),
        laid=True,
    )
    return _Task(one, block.count)


def _joins(top: BlockPlan, card: StepCard, pace: Pace) -> Iterator[_Task]:
    """The joins of a card one by one, since a top is more than a sitting: each part that is sewn on, with its
    seams; so many of each card."""
    step = card.step
    count = (len(step.join) - 1) * len(card.steps)
    one = Portion(
        block=top.block.title,
        cards=(card.n,),
        title=card.title,
        by=_way(step),
        chain=False,
        count=1,
        minutes=sum(_minutes(step, top.assembly, pace) for step in card.steps) / count,
        joins=True,
    )
    yield _Task(one, count)


def _dealt(tasks: Sequence[_Task], pace: Pace) -> tuple[Sitting, ...]:
    """The tasks dealt out to sittings in their order: as much as fits each, one thing at least."""
    found: list[Sitting] = []
    now: list[Portion] = []
    for task in tasks:
        left, each = task.count, task.portion.minutes
        while left:
            room = pace.sitting - sum(portion.minutes for portion in now)
            fits = left if each <= NOISE else min(left, math.floor(room / each + NOISE))
            fits = max(fits, 0 if now else 1)
            if fits:
                now.append(replace(task.portion, count=fits, minutes=fits * each))
                left -= fits
            if left:
                _put(found, now)
                now = []
    _put(found, now)
    return tuple(found)


def _put(found: list[Sitting], portions: list[Portion]) -> None:
    """One more sitting; one like the last lengthens that."""
    if not portions:
        return
    last = found[-1] if found else None
    if last is not None and last.portions == tuple(portions):
        found[-1] = replace(last, last=last.last + 1)
    else:
        n = last.last + 1 if last else 1
        found.append(Sitting(n, n, tuple(portions)))


def _tasks(blocks: Sequence[BlockPlan], pace: Pace) -> list[_Task]:
    """Everything to sew: stage by stage, by machine card by card, by hand block by block."""
    staged = [(block, _stages(block.assembly)) for block in blocks]
    last = max((n for _, stages in staged for n in stages.values()), default=-1)
    tasks: list[_Task] = []
    for stage in range(last + 1):
        for block, stages in staged:
            cards = [card for card in block.cards if stages[card.step.n] == stage]
            if stage % 2 == 0:
                tasks += [_ready_made(block, made, pace) for made in _together(cards)]
                alone = (card for card in cards if card.together is None)
                tasks += [_chained(block, card, pace) for card in sorted(alone, key=_level)]
            elif cards:
                tasks.append(_by_hand(block, cards, pace))
    return tasks


def _level(card: StepCard) -> tuple[int, int]:
    return card.step.level, card.n


def _stages(assembly: Assembly) -> dict[int, int]:
    """The stage of every step: even by machine, odd where a hand is needed; no part comes later."""
    stages: dict[int, int] = {}
    made: dict[str, int] = {}  # by piece: the stage of the last step that sewed it
    for step in assembly.steps:
        before = max((made.get(piece, 0) for piece in step.pieces), default=0)
        stage = before + (before % 2 != (_way(step) is By.HAND))
        stages[step.n] = stage
        made.update(dict.fromkeys(step.pieces, stage))
    return _alike(assembly, stages)


def _alike(assembly: Assembly, stages: dict[int, int]) -> dict[int, int]:
    """The stages with all steps of a card in that of its last."""
    latest: dict[int, int] = {}
    for step in assembly.steps:
        latest[step.card] = max(latest.get(step.card, 0), stages[step.n])
    return {step.n: latest[step.card] for step in assembly.steps}


def _way(step: Step) -> By:
    """By hand where any of its seams is."""
    return By.HAND if any(run.by is By.HAND for run in step.runs) else step.by


def _chained(block: BlockPlan, card: StepCard, pace: Pace) -> _Task:
    """A card over the whole quilt; a chain where it is sewn without a turn."""
    one = Portion(
        block=block.block.title,
        cards=(card.n,),
        title=card.title,
        by=By.MACHINE,
        chain=is_chained(card),
        count=1,
        minutes=_minutes(card.step, block.assembly, pace),
    )
    return _Task(one, card.total)


def _together(cards: Iterable[StepCard]) -> Iterable[Sequence[StepCard]]:
    """The cards of units made together on the cutting page, those of one kind as one."""
    kinds: dict[str, list[StepCard]] = {}
    for card in cards:
        if card.together is not None:
            kinds.setdefault(card.together, []).append(card)
    return kinds.values()


def _ready_made(block: BlockPlan, cards: Sequence[StepCard], pace: Pace) -> _Task:
    """The units of one kind that a block takes, made together: all their seams, and their handling shared
    by as many as come from one go."""
    last = max(cards, key=_level)
    one = Portion(
        block=block.block.title,
        cards=tuple(card.n for card in cards),
        title=last.title,
        by=By.MACHINE,
        chain=False,
        count=1,
        minutes=sum(
            len(card.steps)
            / len(last.steps)
            * _minutes(card.step, block.assembly, pace, card.together_each)
            for card in cards
        ),
        together=last.together,
    )
    return _Task(one, last.total)


def _by_hand(block: BlockPlan, cards: Sequence[StepCard], pace: Pace) -> _Task:
    """The hand work of one stage of a block, from its first route to its last."""
    steps = {step.n for card in cards for step in card.steps}
    sewn = block.assembly.sewn
    one = Portion(
        block=block.block.title,
        cards=tuple(card.n for card in cards),
        title=cards[0].title if len(cards) == 1 and cards[0].make == 1 else "",
        by=By.HAND,
        chain=False,
        count=1,
        minutes=sum(_minutes(step, block.assembly, pace) for card in cards for step in card.steps),
        routes=sum(sewn[thread.seams[0]].step in steps for thread in block.assembly.threads),
    )
    return _Task(one, block.count)


def _minutes(step: Step, assembly: Assembly, pace: Pace, at_once: int = 1) -> float:
    """Minutes for one step: its seams, and those gone back over on the way to them, at their pace, and the handling of every
    part that is joined on, shared where several are made at once."""
    speed = {By.MACHINE: float(pace.machine), By.HAND: float(pace.hand)}
    sewing = sum(
        assembly.tiling.seam(seam).length / speed[run.by]
        for run in step.runs
        for seam in dict.fromkeys(run.seams)
        if assembly.sewn[seam].step == step.n
    )
    back = sum(
        way.length
        for thread in assembly.threads
        for way in thread.back
        if not way.loose and assembly.sewn[thread.seams[way.before]].step == step.n
    )
    return sewing + back / speed[By.HAND] + pace.handling * (len(step.join) - 1) / at_once
