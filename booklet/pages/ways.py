"""Floor 11: the rows of two tables: how each size is sewn, and what to sew in each sitting."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from markupsafe import Markup

from booklet.measure import Length, UnitSystem
from booklet.pages.values import with_unit
from booklet.pages.words import Words
from booklet.pattern import By
from booklet.plan import Method, Portion, Sitting, SizePlan, in_ranges, methods


@dataclass(frozen=True, slots=True)
class MethodRow:
    """One block in one size."""

    block: str
    size: str
    machine: Markup
    hand: Markup
    set_ins: int
    threads: int


def method_rows(plans: Iterable[SizePlan], words: Words) -> tuple[MethodRow, ...]:
    """How each size is sewn; nothing where there is but one size, or no block to sew."""
    plans = tuple(plans)
    if len(plans) < 2:
        return ()
    units = plans[0].pattern.units
    return tuple(_method_row(method, units, words) for method in methods(plans))


def _method_row(method: Method, units: UnitSystem, words: Words) -> MethodRow:
    def cell(cards: tuple[int, ...], inches: float) -> Markup:
        if not cards:
            return Markup("–")
        seam = with_unit(Length.of(inches), units)
        return words.markup("methods.cell", n=len(cards), steps=in_ranges(cards), seam=seam)

    return MethodRow(
        method.block,
        method.size,
        cell((*method.machine, *method.both), method.machine_in),
        cell((*method.hand, *method.both), method.hand_in),
        method.set_ins,
        method.threads,
    )


@dataclass(frozen=True, slots=True)
class SittingLine:
    """One task of a sitting. `first` where the sitting begins: its number, and about how long it is."""

    number: str
    what: Markup
    count: Markup
    minutes: str
    first: bool
    tasks: int


def sitting_lines(plan: SizePlan, words: Words) -> tuple[SittingLine, ...]:
    """The table of sittings; nothing where all is sewn in one."""
    if not plan.sittings or plan.sittings[-1].last < 2:
        return ()
    several = sum(bool(block.count) for block in plan.blocks) > 1
    return tuple(
        SittingLine(
            number=_number(sitting),
            what=_what(portion, several, words),
            count=_count(portion, words),
            minutes=about(sitting.minutes),
            first=k == 0,
            tasks=len(sitting.portions),
        )
        for sitting in plan.sittings
        for k, portion in enumerate(sitting.portions)
    )


def _number(sitting: Sitting) -> str:
    return (
        str(sitting.first)
        if sitting.first == sitting.last
        else in_ranges(range(sitting.first, sitting.last + 1))
    )


def _what(portion: Portion, several: bool, words: Words) -> Markup:
    """Step 1: Sew A to B."""
    steps = in_ranges(portion.cards)
    key = "sittings.by_hand" if portion.by is By.HAND else "sittings.step"
    if portion.by is By.MACHINE and portion.chain:
        key = "sittings.chain"
    said = words.markup(key, n=len(portion.cards), steps=steps, title=portion.title)
    return words.markup("sittings.of", block=portion.block) + " " + said if several else said


def _count(portion: Portion, words: Words) -> Markup:
    if portion.by is By.MACHINE:
        return Markup(portion.count)
    blocks = words.markup("sittings.blocks", n=portion.count)
    routes = portion.routes * portion.count
    return blocks + ", " + words.markup("sittings.threads", n=routes) if routes else blocks


def about(minutes: float) -> str:
    """Minutes taken up to the next five."""
    return str(max(5, -int(-minutes // 5) * 5))


def pace_words(plan: SizePlan, words: Words) -> Markup:
    """What the times assume."""
    pace, units = plan.size.sewing.pace, plan.pattern.units
    return words.markup(
        "sittings.pace",
        machine=with_unit(pace.machine, units),
        hand=with_unit(pace.hand, units),
        handling=f"{pace.handling:g}",
        sitting=f"{pace.sitting:g}",
    )
