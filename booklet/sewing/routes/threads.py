"""Floor 4: hand routes: every run sewn by hand lies whole on one thread, and the routes are the cheapest found.

A thread stays hanging from the unit it sewed, and goes on into a later step that joins this unit to another; it goes back
over sewn seam where that costs less than a new thread (`along_order.py`). A thread that takes over a run midway may save
one, but is not how a set-in is taught: it is done only where `routes: fewest threads` asks for it (`linking.py`), and
otherwise reckoned, for the author to know what it saves.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping, Sequence

from booklet.geometry.patches.headings import other_end, turns
from booklet.geometry.tiling import Seam, Tiling
from booklet.kit.outlines.near import NOISE, WHOLE
from booklet.kit.outlines.plane import Point
from booklet.kit.records import Record, replace
from booklet.pattern import By, HandRoutes, Sewing
from booklet.sewing.assembly import SewnSeam, Thread, WayBack
from booklet.sewing.drafts import Draft
from booklet.sewing.order.stretches import ends_of
from booklet.sewing.routes.along_order import rates_of, routed
from booklet.sewing.routes.hand_seams import Work
from booklet.sewing.routes.hanging import (
    Leg,
    Rates,
    RunJob,
    RunWay,
    State,
    job_of,
    legs_of,
    sewing_order,
)
from booklet.sewing.routes.least import fewest_by_length, least_cost
from booklet.sewing.routes.linking import linked
from booklet.sewing.routes.trails import Edge, Node, Trail, cut_at

Legs = tuple[Leg, ...]


class Routes(Record, kw_only=True):
    """The hand routes of a block in sewing order, each within the thread where a single seam is not longer, and all seams
    in the order sewn, where it matters which thread comes first. `fewest` is how many threads are needed at least, `parted` how
    many would be found if any run may be parted; `cost` what all cost in inches of seam, `gap` what others could save at most."""

    threads: tuple[Thread, ...]
    order: tuple[str, ...]
    fewest: int
    parted: int
    cost: float
    gap: float


def hand_routes(
    drafts: Sequence[Draft], sewn: Mapping[str, SewnSeam], tiling: Tiling, sewing: Sewing
) -> Routes:
    """The hand routes of a block."""
    runs, limit = hand_runs(drafts, sewn, tiling), float(sewing.thread)
    everything = hand_work(runs, drafts, sewn, limit)
    held = tuple(part for t in partial_trails(drafts, tiling) for part in cut_at(t, limit))
    waiting = {edge.id for trail in held for edge in trail.edges}
    free = [run for run in runs if not any(edge.id in waiting for edge in run.edges)]
    work = hand_work(free, drafts, sewn, limit)
    rates = rates_of(sewing)
    parted = linked(work)
    state = route_of_order(drafts, free, sewn, tiling, sewing)
    found = [tuple(legs) for legs in legs_of(state).values()] if state else []
    order = tuple(e.id for way in sewing_order(state) for e in way.edges) if state else ()
    if sewing.routes is HandRoutes.FEWEST_THREADS and rates.new * len(parted) <= _cost(found, rates) + NOISE:  # fmt: skip
        found, order = [_plain(trail) for trail in parted], ()
    place = {edge.id: k for k, edge in enumerate(everything.edges)}
    legs = sorted((*found, *map(_plain, held)), key=lambda one: place[_seams(one)[0]])
    cost = _cost(found, rates) + rates.new * len(held)
    least = least_cost(everything.edges, rates)
    is_best = state is not None and state.cost <= least + WHOLE
    ending = ends_of(seam for seam in tiling.seams if seam.id in sewn)
    there = {point: tuple(seam.id for seam in seams) for point, seams in ending.items()}
    threads = [_thread(one, there, sewn, tiling) for one in legs]
    return Routes(
        threads=tuple(_with_end(n, threads, legs, everything) for n in range(len(threads))),
        order=order,
        fewest=min(len(threads), fewest_by_length(everything.edges, limit)),
        parted=min(len(threads), len(parted) + len(held)),
        cost=cost,
        gap=0.0 if is_best or not everything.edges else max(0.0, cost - least),
    )


def route_of_order(
    drafts: Sequence[Draft],
    runs: Sequence[Trail],
    sewn: Mapping[str, SewnSeam],
    tiling: Tiling,
    sewing: Sewing,
) -> State | None:
    """The cheapest routes found for some runs of an order; None where there are none."""
    jobs: dict[int, list[RunJob]] = {}
    for run in runs:
        jobs.setdefault(sewn[run.edges[0].id].step, []).extend(jobs_of(run, tiling, sewing))
    machine: dict[int, list[Edge]] = {}
    for id, how in sewn.items():
        if how.by is By.MACHINE:
            machine.setdefault(how.step, []).append(edge_of(tiling.seam(id)))
    return routed(drafts, jobs, machine, rates_of(sewing), float(sewing.route_costs.card))


def jobs_of(run: Trail, tiling: Tiling, sewing: Sewing) -> Iterator[RunJob]:
    """A run as it is sewn by one thread: whole where it is no longer than a thread, or seam by seam where it may be
    parted."""
    parted = sewing.routes is HandRoutes.FEWEST_THREADS
    for part in cut_at(run, 0.0 if parted else float(sewing.thread)):
        pieces = frozenset(id for edge in part.edges for id in tiling.seam(edge.id).between)
        yield job_of(part, turns_of(part, tiling), pieces)


def edge_of(seam: Seam) -> Edge:
    """A seam as it is sewn between two points."""
    return Edge(seam.id, seam.start, seam.end, seam.length)


def turns_of(run: Trail, tiling: Tiling) -> list[int]:
    """The indexes of the points within a run at which it turns."""
    seams = [tiling.seam(edge.id) for edge in run.edges]
    pairs = enumerate(itertools.pairwise(seams), 1)
    return [k for k, (one, other) in pairs if turns(one, other, _point(run.nodes[k]))]


def _point(node: Node) -> Point:
    """A point of the drawing."""
    assert isinstance(node, tuple)
    return (node[0], node[1])


def _plain(trail: Trail) -> Legs:
    """A trail as a thread that goes on without passing anywhere."""
    return (Leg(None, RunWay.of(trail.edges, trail.nodes[:-1], trail.nodes[-1])),)


def _seams(legs: Legs) -> tuple[str, ...]:
    return tuple(edge.id for leg in legs for edge in leg.way.edges)


def _cost(threads: Sequence[Legs], rates: Rates) -> float:
    """What threads cost, in inches of seam."""
    legs = [leg for thread in threads for leg in thread]
    passed = sum(leg.passage.cost for leg in legs if leg.passage)
    return rates.new * len(threads) + passed + sum(leg.way.back for leg in legs) * rates.back


def partial_trails(drafts: Sequence[Draft], tiling: Tiling) -> Iterator[Trail]:
    """The way of each partial seam: toward the point that stays open, and at the finish on from there.

    Its thread waits at the open end for the finish, so that it can sew nothing between and turns
    neither way round.
    """
    begun = {id: draft for draft in drafts for s in draft.stretches for id in s.seams if not draft.repeats}  # fmt: skip
    for draft in drafts:
        if draft.repeats is None:
            continue
        first, then = begun[draft.repeats], draft.stretches[0]
        seams, points = list(then.seams[1:]), list(then.points[1:])
        if draft.step_by is not By.HAND:
            seams, points = [], points[:1]
        if first.by[-1] is By.HAND:
            before = first.stretches[-1]
            seams, points = [*before.seams, *seams], [*before.points, *points[1:]]
        if seams:
            yield trail_of(seams, points, tiling)


def trail_of(ids: Sequence[str], points: Sequence[Point], tiling: Tiling) -> Trail:
    """Seams along these points, on one thread."""
    return Trail(tuple(edge_of(tiling.seam(id)) for id in ids), tuple(points))


def hand_runs(
    drafts: Sequence[Draft], sewn: Mapping[str, SewnSeam], tiling: Tiling
) -> tuple[Trail, ...]:
    """The runs sewn by hand, in sewing order."""
    found: list[Trail] = []
    for draft in drafts:
        for stretch in draft.stretches:
            there = [sewn[id].by is By.HAND and sewn[id].step == draft.n for id in stretch.seams]
            for mine, group in itertools.groupby(range(len(there)), key=there.__getitem__):
                places = list(group)
                if mine:
                    seams = [stretch.seams[k] for k in places]
                    points = stretch.points[places[0] : places[-1] + 2]
                    found.append(trail_of(seams, points, tiling))
    return tuple(found)


def hand_work(
    runs: Sequence[Trail], drafts: Sequence[Draft], sewn: Mapping[str, SewnSeam], limit: float
) -> Work:
    """What there is to sew by hand, in sewing order, and from which step a thread goes on to which."""
    above: dict[int, frozenset[int]] = {}
    taken = {n: draft.n for draft in drafts for n in draft.part_steps if n}
    for draft in reversed(drafts):
        up = taken.get(draft.n)
        above[draft.n] = frozenset() if up is None else above[up] | {up}
    edges = tuple(edge for run in runs for edge in run.edges)
    pairs = (pair for run in runs for pair in itertools.pairwise(run.edges))
    return Work(
        edges=edges,
        step={edge.id: sewn[edge.id].step for edge in edges},
        above=above,
        limit=limit,
        beside=frozenset(frozenset((one.id, other.id)) for one, other in pairs),
    )


def _thread(
    legs: Legs,
    there: Mapping[Point, Sequence[str]],
    sewn: Mapping[str, SewnSeam],
    tiling: Tiling,
) -> Thread:
    """The record of a finished route."""
    seams = [tiling.seam(id) for id in _seams(legs)]
    points = [_point(node) for leg in legs for node in leg.way.starts]
    points.append(_point(legs[-1].way.end))
    back = tuple(_ways_back(legs, tiling))
    passed = {way.before for way in back}
    turned = sum(
        k not in passed and turns(a, b, points[k])
        for k, (a, b) in enumerate(itertools.pairwise(seams), 1)
    )
    return Thread(
        seams=tuple(seam.id for seam in seams),
        points=tuple(points),
        length=sum(seam.length for seam in seams),
        turns=turned,
        through=tuple(_through(seams, points, there, sewn)),
        back=back,
    )


def _ways_back(legs: Legs, tiling: Tiling) -> Iterator[WayBack]:
    """Where a thread goes back over sewn seam, or lies loose."""
    at, here = 0, _point(legs[0].way.starts[0])
    for leg in legs:
        way, passage = leg.way, leg.passage
        if passage is not None and passage.length:
            there = _point(way.starts[0])
            points = (here, there) if passage.loose else _along(passage.seams, here, tiling)
            yield WayBack(
                before=at,
                seams=passage.seams,
                points=points,
                length=passage.length,
                loose=passage.loose,
            )
        if way.out:
            seams = tuple(edge.id for edge in reversed(way.edges[: way.out]))
            last = tiling.seam(seams[0])
            end = other_end(last, _point(way.starts[way.out - 1]))
            yield WayBack(
                before=at + way.out, seams=seams, points=_along(seams, end, tiling), length=way.back
            )
        at, here = at + len(way.edges), _point(way.end)


def _along(seams: Sequence[str], start: Point, tiling: Tiling) -> tuple[Point, ...]:
    """The points passed along some seams."""
    points = [start]
    for id in seams:
        points.append(other_end(tiling.seam(id), points[-1]))
    return tuple(points)


def _through(
    seams: Sequence[Seam],
    points: Sequence[Point],
    there: Mapping[Point, Sequence[str]],
    sewn: Mapping[str, SewnSeam],
) -> list[int]:
    """The indexes of the points at which allowances of seams sewn before stand in the thread's way, so
    that the needle passes through them."""
    found: list[int] = []
    before: set[str] = set()
    for k, seam in enumerate(seams):
        step = sewn[seam.id].step
        others = [id for id in there[points[k]] if id not in (seam.id, seams[k - 1].id)]
        if k and any(sewn[id].step < step or id in before for id in others):
            found.append(k)
        before.add(seam.id)
    return found


def _with_end(number: int, threads: Sequence[Thread], legs: Sequence[Legs], work: Work) -> Thread:
    """A thread that knows whether only its length keeps it from going on, and which one goes on for it."""
    thread = threads[number]
    last = legs[number][-1].way.edges[-1]
    for other, there in enumerate(threads):
        first = legs[other][0].way.edges[0]
        if other == number or there.points[0] != thread.points[-1] or not work.leads(last, first):
            continue
        if _taken(thread) + _taken(there) > work.limit + NOISE:
            return replace(thread, full=True, then=other + 1)
    return thread


def _taken(thread: Thread) -> float:
    """The thread that a route takes, in inches."""
    return thread.length + sum(way.length for way in thread.back)
