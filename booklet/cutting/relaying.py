"""Floor 7: strips laid anew. A few strips of a plan at a time are taken out and their pieces laid in the
shortest way there is for them; what gets shorter is kept."""

from __future__ import annotations

import random
from collections.abc import Callable, Sequence
from dataclasses import replace

from booklet.cutting.items import (
    Fill,
    Item,
    Items,
    Plan,
    Share,
    made,
    total_height,
)

Solve = Callable[[Items], Plan]


def relaid(
    items: Items,
    plan: Plan,
    prices: Sequence[float],
    solve: Solve,
    is_done: Callable[[Plan], bool],
    rounds: int,
    together: int,
) -> Plan:
    """The plan after so many rounds of laying `together` of its strips anew.

    Strips that waste most (their height beyond the worth of what they hold) are tried most; the choice
    is random with a fixed beginning, so that the same job gives the same plan.
    """
    choice = random.Random(1)
    for _ in range(rounds):
        main = [fill for fill in plan if not fill.cloth]
        if len(main) < 2 or is_done(plan):
            break
        taken = _taken(main, prices, together, choice)
        part = tuple(main[i] for i in sorted(taken))
        anew = _solved(items, part, solve)
        if total_height(anew) <= total_height(part):
            rest = [fill for i, fill in enumerate(main) if i not in taken]
            rest += [fill for fill in plan if fill.cloth]
            plan = tuple(sorted([*rest, *anew], key=lambda f: (-f.height, f.shares)))
    return plan


def _taken(
    main: Sequence[Fill], prices: Sequence[float], together: int, choice: random.Random
) -> set[int]:
    """The numbers of the strips to lay anew, drawn by what they waste."""

    def key(index: int) -> tuple[float, int]:
        fill = main[index]
        waste = fill.height - sum(s.count * prices[s.item] for s in fill.shares)
        return (-(choice.random() ** (1 / (max(waste, 0.0) + 0.05 * fill.height))), index)

    return set(sorted(range(len(main)), key=key)[:together])


def _solved(items: Items, part: Plan, solve: Solve) -> Plan:
    """The pieces of some strips laid anew."""
    counts = made(items, part)
    numbers = [i for i, count in enumerate(counts) if count]
    few: tuple[Item, ...] = tuple(replace(items[i], demand=counts[i]) for i in numbers)
    return tuple(
        Fill(
            fill.height,
            tuple(sorted(Share(numbers[s.item], s.variant, s.count) for s in fill.shares)),
        )
        for fill in solve(few)
    )
