"""Floor 4: the routes of a whole order: its steps one after the other, each sewn in all ways worth keeping with the
threads that hang from its parts."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping, Sequence

from booklet.kit.outlines.near import NOISE
from booklet.pattern import Sewing
from booklet.sewing.drafts import Draft
from booklet.sewing.routes.hanging import NOTHING_SEWN, Rates, RunJob, Sewer, SewnGround, State
from booklet.sewing.routes.trails import Edge, Node

MOST_WIDTH, LEAST_WIDTH = 24, 3  # states of a unit
MOST_PARTS = 4  # parts of a step: of more the order in which it joins them is kept
FAN = 4  # runs of a step that sets patches round a unit
EFFORT = 1_000  # such states times runs


def rates_of(sewing: Sewing) -> Rates:
    """What routes cost by the rules of sewing."""
    costs = sewing.route_costs
    return Rates(
        new=float(sewing.new_thread),
        through=float(costs.through),
        back=costs.back,
        loose=costs.loose,
        limit=float(sewing.thread),
    )


def routed(
    drafts: Sequence[Draft],
    jobs: Mapping[int, Sequence[RunJob]],
    machine: Mapping[int, Sequence[Edge]],
    rates: Rates,
    frame: float,
) -> State | None:
    """The cheapest routes found for the runs of an order, by step, `machine` being the seams sewn by machine; None
    where nothing is sewn by hand.

    Many patches set round a unit are all begun at their corners where that costs little more: one way to sew them all saves
    two pictures or more for each such step, of which one is worth `frame` inches.
    """
    free = _cheapest(drafts, jobs, machine, rates)
    round_ = {
        n: [_from_corners(job, rates) for job in mine]
        for n, mine in jobs.items()
        if len(mine) >= FAN
    }
    if free is None or not frame or all(jobs[n] == mine for n, mine in round_.items()):
        return free
    alike = _cheapest(drafts, {**jobs, **round_}, machine, rates)
    spare = 2 * frame * len(round_)
    return alike if alike is not None and alike.cost <= free.cost + spare + NOISE else free


def _from_corners(job: RunJob, rates: Rates) -> RunJob:
    """A run in those ways that begin at a corner, where it has any for which a thread is long enough."""
    ways = tuple(way for way in job.ways if way.out and way.length <= rates.limit)
    return RunJob(ways, job.pieces) if ways else job


def _cheapest(
    drafts: Sequence[Draft],
    jobs: Mapping[int, Sequence[RunJob]],
    machine: Mapping[int, Sequence[Edge]],
    rates: Rates,
) -> State | None:
    """The cheapest routes found."""
    count = sum(map(len, jobs.values()))
    all_jobs = [job for there in jobs.values() for job in there]
    lengths = [sum(edge.length for edge in job.edges) for job in all_jobs]
    if not all_jobs:
        return None
    width = max(LEAST_WIDTH, min(MOST_WIDTH, EFFORT // count))
    sewer = Sewer(rates=rates, width=width, length_counts=2 * sum(lengths) > rates.limit)
    states: dict[int, list[State]] = {0: [NOTHING_SEWN]}
    hand: dict[int, list[Edge]] = {0: []}
    others: dict[int, list[Edge]] = {0: []}
    waiting = _ends(all_jobs)
    for draft in drafts:
        parts = draft.part_steps
        mine = jobs.get(draft.n, ())
        for job in mine:
            for edge in job.edges:
                for node in (edge.a, edge.b):
                    waiting[node] -= 1
        open_ends = frozenset(node for node, many in waiting.items() if many)
        ground = (hand, others, machine.get(draft.n, ()), open_ends)
        states[draft.n] = sewer.best(
            state
            for order in _orders(draft, mine)
            for state in _joined(sewer, draft, order, mine, states, ground)
        )
        hand[draft.n] = [e for n in parts for e in hand[n]] + [e for job in mine for e in job.edges]
        others[draft.n] = [e for n in parts for e in others[n]] + list(machine.get(draft.n, ()))
    taken = {n for draft in drafts for n in draft.part_steps}
    units = [states[draft.n] for draft in drafts if draft.n not in taken]
    return sewer.together(units)[0]  # several of an order that is only begun


_Seams = Mapping[int, Sequence[Edge]]  # by the step that made a unit, all in it


def _orders(draft: Draft, jobs: Sequence[RunJob]) -> Iterator[tuple[int, ...]]:
    """The orders in which the parts of a step may be joined: as declared, and where they are few any other in which
    each is sewn by hand to those before it."""
    parts = range(len(draft.parts))
    yield tuple(parts)
    if not 2 < len(draft.parts) <= MOST_PARTS or len(jobs) < len(draft.parts) - 1:
        return
    for order in itertools.islice(itertools.permutations(parts), 1, None):
        if all(mine for _, mine in _between(draft, order, jobs)):
            yield order


def _between(
    draft: Draft, order: Sequence[int], jobs: Sequence[RunJob]
) -> Iterator[tuple[int, list[RunJob]]]:
    """Each part after the first with the runs by which it is sewn to those before it."""
    along: dict[str, list[int]] = {}
    for n, job in enumerate(jobs):
        for piece in job.pieces:
            along.setdefault(piece, []).append(n)
    group = set(draft.parts[order[0]])
    for part in order[1:]:
        own = draft.parts[part]
        near = sorted({n for piece in own for n in along.get(piece, ())})
        yield part, [jobs[n] for n in near if _joins(jobs[n].pieces - own, group)]
        group |= own


def _joins(others: frozenset[str], group: set[str]) -> bool:
    """Whether the pieces of a run that are not of a part are those of a group."""
    return bool(others) and others <= group


def _joined(
    sewer: Sewer,
    draft: Draft,
    order: Sequence[int],
    jobs: Sequence[RunJob],
    states: Mapping[int, Sequence[State]],
    ground: tuple[_Seams, _Seams, Sequence[Edge], frozenset[Node]],
) -> list[State]:
    """The states of a step whose parts are joined in an order. A thread sews only what its own unit is joined to."""
    hand, others, machine, later = ground
    steps = draft.part_steps
    here = list(states[steps[order[0]]])
    ends, taken = _ends(jobs), set[int]()
    to_come = {*later, *ends}
    there = SewnGround.of(sewer.rates, hand[steps[order[0]]], others[steps[order[0]]], to_come)
    there.sew((), machine)
    for part, mine in _between(draft, order, jobs):
        if part == order[-1]:  # with what is sewn between parts that hang together already
            mine = [job for job in jobs if id(job) not in taken]
        there.sew(hand[steps[part]], others[steps[part]])
        here = sewer.together([here, states[steps[part]]])
        if mine:
            _take(ends, mine, to_come, later)
            here = sewer.sewn(here, mine, there)
        taken.update(map(id, mine))
    return here


def _take(
    ends: dict[Node, int], jobs: Sequence[RunJob], to_come: set[Node], later: frozenset[Node]
) -> None:
    """Take runs out of those whose ends are still to come."""
    for node, many in _ends(jobs).items():
        ends[node] -= many
        if not ends[node] and node not in later:
            to_come.discard(node)


def _ends(jobs: Sequence[RunJob]) -> dict[Node, int]:
    """How many ends of hand seams lie at each point."""
    found: dict[Node, int] = {}
    for job in jobs:
        for edge in job.edges:
            for node in (edge.a, edge.b):
                found[node] = found.get(node, 0) + 1
    return found
