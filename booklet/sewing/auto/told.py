"""Floor 4, the ways to build: as text for the terminal: the ways to build a block beside each other, and what they are reckoned by."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.kit.measure import UnitSystem
from booklet.kit.words import with_unit
from booklet.pattern import Sewing
from booklet.sewing.auto.choosing import Chosen, Weighed
from booklet.sewing.auto.unit_bench import turn_worth
from booklet.sewing.planner.judge import count


def ways_told(known: Chosen | None, units: UnitSystem, sewing: Sewing) -> Iterator[str]:
    """A line for every way to build a block by hand, the one that was taken first, with its turns, threads, inches gone
    back and cards; nothing of a block that can be built in one way only."""
    if known is None or len(known.ways) < 2:
        return
    new = with_unit(float(sewing.new_thread), units)
    yield f"ways to build it, a new thread being worth {new} of seam:"
    taken = known.best
    for way in (taken, *(way for way in known.ways if way is not taken)):
        yield f"  {'taken: ' if way is taken else ''}{way.kind.value}: {_figures(way, units)}"
    if known.proven:
        yield "no order with its routes costs less"
    elif known.bound is not None and taken.cost - known.bound < turn_worth(sewing):
        gap = with_unit(taken.cost - known.bound, units)
        yield f"another order with its routes could save the worth of {gap} at most"


def _figures(way: Weighed, units: UnitSystem) -> str:
    """What a way is made of: "6 turns, 1 hand thread, 2 1/2 in gone back, 1 card"."""
    parts = [count(way.turns, "turn"), count(way.threads, "hand thread")]
    parts += [f"{with_unit(way.gone_back, units)} gone back"] if way.gone_back else []
    parts += [f"{with_unit(way.loose, units)} of loose thread"] if way.loose else []
    parts.append(count(way.cards, "card"))
    if way.order.rings:
        parts.append("closes a ring round an empty middle")
    return ", ".join(parts)
