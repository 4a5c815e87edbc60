"""Floor 11: the rows of two tables: how each size is sewn, and what to sew in each sitting."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import groupby

from markupsafe import Markup

from booklet.kit.measure import Length, UnitSystem
from booklet.kit.records import Record, replace
from booklet.kit.words import listing, phrase, plural_phrase, with_unit
from booklet.pages.texts.words import Words
from booklet.pattern import By
from booklet.plan import BlockMethod, Portion, Sitting, SizePlan, in_ranges, methods, other_orders


class MethodRow(Record, kw_only=True):
    """One block in one size."""

    block: str
    size: str
    machine: Markup
    hand: Markup
    corners: int
    threads: int


def method_rows(plans: Iterable[SizePlan], words: Words) -> tuple[MethodRow, ...]:
    """How each size is sewn; nothing where there is but one size, or no block to sew."""
    plans = tuple(plans)
    if len(plans) < 2:
        return ()
    units = plans[0].pattern.units
    return tuple(_method_row(method, units, words) for method in methods(plans))


def method_words(plans: Iterable[SizePlan], words: Words) -> tuple[Markup, ...]:
    """Which blocks are sewn in other steps in other sizes."""
    return tuple(
        words.markup(
            phrase(
                "{block} is sewn in other steps in some sizes: step numbers are those of each size.",
                block=title,
            )
        )
        for title in other_orders(plans)
    )


def _method_row(method: BlockMethod, units: UnitSystem, words: Words) -> MethodRow:
    def cell(cards: tuple[int, ...], inches: float) -> Markup:
        if not cards:
            return Markup("–")
        seam = with_unit(Length.of(inches), units)
        return words.plural(
            "step {steps}: {seam}",
            "steps {steps}: {seam}",
            len(cards),
            steps=in_ranges(cards),
            seam=seam,
        )

    return MethodRow(
        block=method.block,
        size=method.size,
        machine=cell((*method.machine, *method.both), method.machine_in),
        hand=cell((*method.hand, *method.both), method.hand_in),
        corners=method.corners,
        threads=method.threads,
    )


class SittingLine(Record, kw_only=True):
    """One task of a sitting. `first` where the sitting begins: its number, and about how long it is."""

    number: str
    what: Markup
    count: Markup
    minutes: str
    first: bool


def sitting_lines(plan: SizePlan, words: Words) -> tuple[SittingLine, ...]:
    """The table of sittings; nothing where all is sewn in one."""
    if not plan.sittings or plan.sittings[-1].last < 2:
        return ()
    several = sum(bool(block.count and block.is_worked) for block in plan.blocks) > 1
    gathered = [(sitting, _gathered(sitting.portions)) for sitting in plan.sittings]
    return tuple(
        SittingLine(
            number=_number(sitting),
            what=what_is_sewn(portion, several, words),
            count=_count(portion, words),
            minutes=about(sitting.minutes),
            first=k == 0,
        )
        for sitting, portions in gathered
        for k, portion in enumerate(portions)
    )


MOST_TASKS = 6
"""So many tasks of a sitting are told one by one; of more, those of one kind that follow each other are one line."""


def _gathered(portions: tuple[Portion, ...]) -> tuple[Portion, ...]:
    """The tasks of a sitting as its table tells them."""
    if len(portions) <= MOST_TASKS:
        return portions
    return tuple(_as_one(list(alike)) for _, alike in groupby(portions, _kind))


def _kind(portion: Portion) -> tuple[object, ...]:
    """What tasks share that are told in one line; those counted in blocks, how many, too."""
    blocks = portion.count if _in_blocks(portion) else 0
    return (
        *(portion.block, portion.by, portion.chain, portion.joins),
        *(portion.together, portion.laid, blocks),
    )


def _in_blocks(portion: Portion) -> bool:
    """Whether a task is counted by the blocks in which it is done, not by what is made."""
    return not portion.joins and (portion.laid or portion.by is not By.MACHINE)


def _as_one(portions: list[Portion]) -> Portion:
    """Several tasks of one kind as one, of all their steps: so many in all, or each of them in so many blocks."""
    if len(portions) == 1:
        return portions[0]
    blocks = _in_blocks(portions[0])
    return replace(
        portions[0],
        cards=tuple(sorted({card for each in portions for card in each.cards})),
        title="",
        count=portions[0].count if blocks else sum(each.count for each in portions),
        routes=sum(each.routes for each in portions),
        minutes=sum(each.minutes for each in portions),
    )


def _number(sitting: Sitting) -> str:
    return (
        str(sitting.first)
        if sitting.first == sitting.last
        else in_ranges(range(sitting.first, sitting.last + 1))
    )


def what_is_sewn(portion: Portion, several: bool, words: Words) -> Markup:
    """Step 1: Sew A to B."""
    steps = in_ranges(portion.cards)
    if portion.joins:
        what = portion.title or phrase("steps {steps}", steps=steps)
        return words.markup(phrase("{block}: {what}", block=portion.block, what=what))
    if portion.by is By.HAND:
        said = plural_phrase(
            "Step {steps} by hand, block by block",
            "Steps {steps} by hand, block by block",
            len(portion.cards),
            steps=steps,
        )
    elif portion.together is not None:
        said = plural_phrase(
            "Step {steps}: make {unit} together, as the cutting page shows",
            "Steps {steps}: make {unit} together, as the cutting page shows",
            len(portion.cards),
            steps=steps,
            unit=portion.together,
        )
    elif not portion.title:
        said = (
            phrase("Chain steps {steps}, one after the other", steps=steps)
            if portion.chain
            else phrase("Steps {steps} by machine", steps=steps)
        )
    elif portion.chain:
        said = phrase("Chain step {steps}: {title}", steps=steps, title=portion.title)
    else:
        said = phrase("Step {steps} by machine: {title}", steps=steps, title=portion.title)
    if several:
        said = phrase("{block}: {what}", block=portion.block, what=said)
    return words.markup(said)


def _count(portion: Portion, words: Words) -> Markup:
    if portion.joins:
        return words.markup(plural_phrase("{n} join", "{n} joins", portion.count))
    if not _in_blocks(portion):
        return Markup(portion.count)
    blocks = plural_phrase("in {n} block", "in {n} blocks", portion.count)
    routes = portion.routes * portion.count
    if not routes:
        return words.markup(blocks)
    threads = plural_phrase("{n} thread", "{n} threads", routes)
    return words.markup(listing((blocks, threads), "commas"))


def about(minutes: float) -> str:
    """Minutes taken up to the next five."""
    return str(max(5, -int(-minutes // 5) * 5))


def pace_words(plan: SizePlan, words: Words) -> Markup:
    """What the times assume."""
    pace, units = plan.size.sewing.pace, plan.pattern.units
    return words.phrase(
        "The times are estimates, at {machine} of seam a minute by machine and {hand} by hand, "
        "{handling} min to lay out, pin and press each join, and at most {sitting} min to a sitting.",
        machine=with_unit(pace.machine, units),
        hand=with_unit(pace.hand, units),
        handling=pace.handling,
        sitting=pace.sitting,
    )
