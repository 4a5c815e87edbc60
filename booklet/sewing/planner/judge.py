"""Floor 4, the planner: judges an author's order beside the best one found, and warns of risky steps."""

from __future__ import annotations

import itertools
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType

from booklet.geometry.tiling import Tiling
from booklet.geometry.vectors import union_outline
from booklet.kit.diagnostic import Diagnostic, warning
from booklet.kit.outlines.near import WHOLE
from booklet.kit.records import Record
from booklet.pattern import Fabric, Sewing, TurnCosts
from booklet.sewing.assembly import Assembly, Step
from booklet.sewing.faults import listed
from booklet.sewing.mosaic.mosaic import mosaic_of
from booklet.sewing.planner.as_steps import find_order
from booklet.sewing.planner.best_order import Order
from booklet.sewing.totals import totals

RING = "ring-closed-alone"
MOST_RUNS = 3  # more runs in a step that turns are too many to keep in mind
WORSE_BY, WORSE_SHARE = 2, 1.5  # an order is clearly worse if both are reached
LIKE_AREA = 0.9  # patches of one kind look alike if their areas differ by less than this share
_Look = tuple[str, bool, str]  # the letter of a piece, whether it is reversed, its fabric


class Verdict(Record, kw_only=True):
    """An order's turns, joins with a turn and partial seams, beside the turns of the best order found
    without partial seams, those of its joins that turn, and the proven least."""

    turns: int
    set_ins: int
    partials: int
    best_turns: int
    bound: int
    proven: bool
    by_turns: bool = True  # whether the best order was sought by turns alone, not by other costs

    @property
    def is_clearly_worse(self) -> bool:
        """Whether the order turns at least twice more, and half as often again, as the best found."""
        more = self.turns - self.best_turns
        return more >= WORSE_BY and self.turns >= WORSE_SHARE * self.best_turns

    @property
    def sentence(self) -> str:
        """The verdict in words: "7 turns in 5 set-ins; 3 turns are needed"."""
        own = "no turns"
        if self.turns:
            own = f"{count(self.turns, 'turn')} in {count(self.set_ins, 'set-in')}"
        if self.partials:
            own += f" and {count(self.partials, 'partial seam')}"
        needed = self.best_turns if self.proven else self.bound
        verb = "is" if needed == 1 else "are"
        if self.turns + self.partials == 0:
            return own
        noun = "turn or partial seam" if self.partials else "turn"
        if not self.by_turns:
            return f"{own}; the cheapest order found has {count(self.best_turns, noun)}"
        if self.proven:
            return f"{own}; {count(needed, noun)} {verb} needed"
        return f"{own}; {count(self.best_turns, 'turn')} will do, at least {needed} {verb} needed"


def count(number: int, noun: str) -> str:
    """A number with its noun, "1 turn", "no turns"."""
    return f"{number or 'no'} {noun}{'' if number == 1 else 's'}"


def judge(
    assembly: Assembly,
    sewing: Sewing,
    order: Order | None = None,
    fabrics: Mapping[str, Fabric] = MappingProxyType({}),
) -> Verdict:
    """The verdict on the order of a block, beside `order` or else the best order found."""
    made = totals(assembly)
    if order is None:
        order = find_order(assembly.tiling, sewing, fabrics)
    by_turns = order.costs.count_turns
    least = order.bound if by_turns else order.mosaic.least_turns(order.mosaic.whole)
    return Verdict(
        turns=made.turns,
        set_ins=made.set_in_joins,
        partials=sum(step.leave is not None for step in assembly.steps),
        best_turns=order.turns + len(order.partials),
        bound=int(least + 1 - WHOLE) if least > 0 else 0,
        proven=order.proven and by_turns,
        by_turns=by_turns,
    )


def risks(
    assembly: Assembly, sewing: Sewing, fabrics: Mapping[str, Fabric]
) -> Iterator[Diagnostic]:
    """Warnings about an order that an author declared."""
    if not assembly.steps:
        return
    yield from _more_turns(assembly, sewing, fabrics)
    told: set[str] = set()
    for step in assembly.steps:
        for found in step_risks(step, assembly):
            if found.code not in told:
                told.add(found.code)  # once a block: the hint serves for all
                if found.code == RING and find_order(assembly.tiling, sewing, fabrics).rings:
                    continue  # every order without a ring found turns more often
                yield found


def step_risks(step: Step, assembly: Assembly) -> Iterator[Diagnostic]:
    """Warnings about one step of an order, whole or only begun."""
    for found in (
        _ring_alone(step, assembly),
        _look_alikes(step, assembly),
        _many_runs(step, assembly),
    ):
        if found is not None:
            yield found


def _more_turns(
    assembly: Assembly, sewing: Sewing, fabrics: Mapping[str, Fabric]
) -> Iterator[Diagnostic]:
    """A warning where another order turns clearly less. Searched for only where the bound allows it."""
    turns = totals(assembly).turns
    mosaic = mosaic_of(assembly.tiling, sewing, TurnCosts())
    least = mosaic.least_turns(mosaic.whole)
    if turns - least < WORSE_BY or turns < WORSE_SHARE * least:
        return
    verdict = judge(assembly, sewing, fabrics=fabrics)
    if verdict.is_clearly_worse:
        block = assembly.tiling.block
        yield warning(
            "more-turns-than-needed",
            f"the order of block `{block}` has {count(verdict.turns, 'turn')} in "
            f"{count(verdict.set_ins, 'set-in')}, {_instead(verdict)}",
            assembly.steps[0].span,
            f"`booklet plan` with the folder and `{block}` shows such an order",
        )


def _instead(verdict: Verdict) -> str:
    """What would do."""
    if verdict.best_turns == 0:
        return "but can be sewn without a turn"
    return f"where {count(verdict.best_turns, 'turn')} would do"


def _ring_alone(step: Step, assembly: Assembly) -> Diagnostic | None:
    """A warning for a step that closes a ring round patches which are not in it."""
    if sum(not run.turns or run.points[0] != run.points[-1] for run in step.runs) < 2:
        return None
    loops = union_outline(assembly.tiling, step.pieces)
    if len(loops) < 2 or any(_has_hole(part, assembly) for part in step.join):
        return None
    block = assembly.tiling.block
    return warning(
        RING,
        f"step `{step.make}` of block `{block}` closes a ring of {len(step.pieces)} patches round an "
        "empty middle, into which the rest must be set all the way round",
        step.span,
        "sew the middle to one of the parts first, then add the ring part by part",
    )


def _has_hole(part: str, assembly: Assembly) -> bool:
    return len(union_outline(assembly.tiling, assembly.units.get(part, (part,)))) > 1


def _look_alikes(step: Step, assembly: Assembly) -> Diagnostic | None:
    """A warning for a step without a note that joins parts easily taken for one another; on paper their numbers are printed."""
    if step.note or step.finish or step.section:
        return None
    tiling = assembly.tiling
    kinds: dict[frozenset[tuple[_Look, int]], tuple[str, Counter[_Look]]] = {}
    for name in step.join:  # the first of each kind: two of a kind are never mixed up
        there = _looks(tiling, assembly.units.get(name, (name,)))
        kinds.setdefault(frozenset(there.items()), (name, there))
    for (name, one), (other, two) in itertools.combinations(kinds.values(), 2):
        why = _alike(tiling, one, two)
        if why:
            return warning(
                "look-alike-units",
                f"step `{step.make}` of block `{tiling.block}` joins {listed((name, other))}, {why}",
                step.span,
                "add a `note` to the step that tells the reader which is which",
            )
    return None


def _looks(tiling: Tiling, pieces: Sequence[str]) -> Counter[_Look]:
    """What a part looks like: how many it has of each patch, which side is up, in each fabric."""
    return Counter((p.patch, p.reversed, p.fabric) for p in map(tiling.piece, pieces))


def _alike(tiling: Tiling, one: Counter[_Look], other: Counter[_Look]) -> str | None:
    """Why two parts are easily taken for one another, or None."""
    turned = Counter({(patch, not back, cloth): n for (patch, back, cloth), n in one.items()})
    if one != other and turned == other:
        return "which are mirror images of each other"
    if one.total() == other.total() == 1:
        (mine, _, cloth), (theirs, _, other_cloth) = *one, *other
        p, q = tiling.patch(mine), tiling.patch(theirs)
        low, high = sorted((p.area, q.area))
        alike = cloth == other_cloth and p.letter != q.letter and p.form is q.form
        if alike and low >= LIKE_AREA * high:
            return f"two patches of nearly the same size ({p.letter} and {q.letter})"
    return None


def _many_runs(step: Step, assembly: Assembly) -> Diagnostic | None:
    """A warning for a step of more runs than one keeps in mind, some of which turn."""
    if len(step.runs) <= MOST_RUNS or not any(run.turns for run in step.runs):
        return None
    if _is_one_round(step, assembly):
        return None
    return warning(
        "many-runs-at-once",
        f"step `{step.make}` sews {len(step.runs)} runs with {count(step.turns, 'turn')} in one go",
        step.span,
        "make it several steps of two or three parts each, with a name for each unit",
    )


def _is_one_round(step: Step, assembly: Assembly) -> bool:
    """Whether patches are set on one after the other by a thread that goes round: one way to sew, many times over."""
    patches = sum(len(assembly.units.get(name, (name,))) == 1 for name in step.join)
    if patches < len(step.join) - 1 or len(step.runs) >= len(step.join):
        return False
    begun = sum(assembly.sewn[thread.seams[0]].step == step.n for thread in assembly.threads)
    return MOST_RUNS * begun <= len(step.runs)
