"""Floor 7: the shortest plan. A two-stage plan, strips and then cross-cuts, with a bound that proves it.

First fit is the start. Where it buys more than the mixture of strips in parts must, an integer programme chooses
whole strips from the fillings that a shorter plan could hold; where these are too many to prove it the shortest,
the same is done for a few of its strips at a time.
"""

from __future__ import annotations

import random
from collections.abc import Callable

from booklet.cutting.strips.first_fit import first_fit
from booklet.cutting.strips.items import (
    Items,
    ItemShare,
    Plan,
    Remnant,
    Remnants,
    StripFill,
    in_pieces,
    lies_whole,
    made,
    total_height,
    without_surplus,
)
from booklet.cutting.strips.mixing import Mixture, mixed, whole_steps
from booklet.cutting.strips.whole_strips import in_whole_strips
from booklet.kit.records import Record, replace

ROUNDS = 100
"""How often a few strips are laid anew: counted, so that the answer does not depend on the machine."""
TOGETHER = 3
"""How many strips at a time: their fillings are few enough that the answer is nearly always the shortest."""

Enough = Callable[[int, int], bool]
"""Whether a plan of the first height (steps) costs no more to buy than one of the second."""


class Best(Record):
    """A plan with its proof: no plan is shorter than `bound`, in steps."""

    plan: Plan
    bound: int

    @property
    def height(self) -> int:
        """The length of cloth of the plan."""
        return total_height(self.plan)


def best_plan(
    items: Items,
    width: int,
    enough: Enough = lambda plan, bound: plan <= bound,
    remnants: Remnants = (),
) -> Best:
    """The shortest plan found for the items on cloth `width` steps wide, remnants used first.

    It stops as soon as `enough` says that the bound would cost as much to buy.
    """
    if not items:
        return Best((), 0)
    best = Best(first_fit(items, width, remnants), least_height(items, width, remnants))
    if enough(best.height, best.bound):
        return best
    mixture = mixed(items, width, remnants, best.plan)
    best = replace(best, bound=max(best.bound, whole_steps(mixture.cost)))
    if enough(best.height, best.bound):
        return best
    found = in_whole_strips(items, width, remnants, mixture, best.height - 1)
    plan = best.plan if found.plan is None else found.plan
    bound = max(best.bound, min(found.bound, total_height(plan)))
    best = replace(best, plan=plan, bound=bound)
    if found.plan is None and not enough(best.height, best.bound):
        best = _from_the_mixture(items, width, remnants, mixture, best)
    return _few_at_a_time(items, width, remnants, mixture, best, enough)


def least_height(items: Items, width: int, remnants: Remnants = ()) -> int:
    """What no plan is shorter than, in steps: its area, nor, without remnants, its tallest piece."""
    if not items:
        return 0
    spare = sum(r.width * r.height * r.count for r in remnants)
    area = max(0.0, (sum(item.area * item.demand for item in items) - spare) / width)
    tallest = 0 if remnants else max(min(v.height for v in item.variants) for item in items)
    return max(whole_steps(area), tallest)


def _from_the_mixture(
    items: Items, width: int, remnants: Remnants, mixture: Mixture, best: Best
) -> Best:
    """The whole strips of the mixture, and what they leave in as short a way as is found; the plan so far where that is no
    shorter."""
    sure = without_surplus(items, mixture.whole)
    left = tuple(n - m for n, m in zip((i.demand for i in items), made(items, sure), strict=True))
    rest = tuple(replace(item, demand=count) for item, count in zip(items, left, strict=True))
    rooms = tuple(_left_of(r, n, sure) for n, r in enumerate(remnants, start=1))
    numbers = [index for index, count in enumerate(left) if count]
    few = tuple(rest[index] for index in numbers)
    laid = tuple(
        replace(f, shares=tuple(replace(s, item=numbers[s.item]) for s in f.shares))
        for f in first_fit(few, width, rooms)
    )
    plan = sorted([*sure, *_laid_anew(items, width, rooms, laid)], key=_highest_first)
    if total_height(tuple(plan)) < best.height and lies_whole(tuple(plan), remnants):
        return replace(best, plan=tuple(plan))
    return best


def _few_at_a_time(
    items: Items, width: int, remnants: Remnants, mixture: Mixture, best: Best, enough: Enough
) -> Best:
    """The plan with a few of its strips at a time laid anew where that is shorter.

    What it is for: without it none of the 549 cloths of the test patterns is longer, but for 6 of 50 random jobs an eighth
    of a yard more is bought.
    """
    choice = random.Random(1)  # begun alike every time, so that the same job gives the same plan
    tried: set[Plan] = set()
    for _ in range(ROUNDS):
        if enough(best.height, best.bound):
            break
        part, rest = _drawn(best.plan, mixture, choice)
        if part in tried:
            continue
        tried.add(part)
        rooms = tuple(_left_of(r, n, rest) for n, r in enumerate(remnants, start=1))
        plan = sorted([*rest, *_laid_anew(items, width, rooms, part)], key=_highest_first)
        if lies_whole(tuple(plan), remnants):
            best = replace(best, plan=tuple(plan))
    return best


def _left_of(remnant: Remnant, number: int, plan: Plan) -> Remnant:
    """What the strips of a plan leave of a remnant: of one piece its room, of several those that nothing is cut from."""
    laid = [fill.height for fill in plan if fill.cloth == number]
    if remnant.count == 1:
        return replace(remnant, height=remnant.height - sum(laid))
    taken = len({piece for piece in in_pieces(laid, remnant) if piece is not None})
    free = remnant.count - taken
    return replace(remnant, height=remnant.height if free else 0, count=max(free, 1))


def _highest_first(fill: StripFill) -> tuple[int, tuple[ItemShare, ...]]:
    return (-fill.height, fill.shares)


def _drawn(plan: Plan, mixture: Mixture, choice: random.Random) -> tuple[Plan, Plan]:
    """A few strips, those that waste most drawn most, and the rest.

    What a strip wastes could be saved by laying it otherwise; but one that wastes nothing may have what another
    lacks, so that none is left out for good.
    """
    wastes = [max(mixture.beyond(fill), 0.0) + 0.05 * fill.height for fill in plan]
    drawn = sorted((-(choice.random() ** (1 / waste)), n) for n, waste in enumerate(wastes))
    taken = {number for _, number in drawn[:TOGETHER]}
    part = tuple(fill for number, fill in enumerate(plan) if number in taken)
    return part, tuple(fill for number, fill in enumerate(plan) if number not in taken)


def _laid_anew(items: Items, width: int, remnants: Remnants, part: Plan) -> Plan:
    """The pieces of some strips in a shorter way; the strips themselves where none is found."""
    counts = made(items, part)
    numbers = [index for index, count in enumerate(counts) if count]
    few = tuple(replace(items[index], demand=counts[index]) for index in numbers)
    most = total_height(part) - 1
    mixture = mixed(few, width, remnants, ())
    if whole_steps(mixture.cost) > most:  # most often: nothing can be saved here
        return part
    found = in_whole_strips(few, width, remnants, mixture, most).plan
    if found is None:
        return part
    return tuple(
        replace(f, shares=tuple(sorted(replace(s, item=numbers[s.item]) for s in f.shares)))
        for f in found
    )
