"""Floor 4: hand routes. Every run sewn by hand lies whole on one thread, and as few threads as can be.

The seams of a step may be sewn in any order, since all its parts are there. A thread stays hanging from
the unit it sewed, and goes on into a later step that joins this unit to another (`linking.py`). Where
going back over a short way costs less than a new thread, that is noted as an offer (`retracing.py`).
A thread that takes over a run midway may save one, but is not how a set-in is taught: it is done only
where `routes: fewest threads` asks for it, and otherwise reckoned, for the author to know what it saves.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from booklet.geometry.tiling import Seam, Tiling
from booklet.kit.near import NOISE
from booklet.kit.plane import Point
from booklet.pattern import By, HandRoutes, Sewing
from booklet.sewing.assembly import Retrace, SewnSeam, Thread
from booklet.sewing.drafts import Draft
from booklet.sewing.order.headings import turns
from booklet.sewing.routes.hand_seams import Work
from booklet.sewing.routes.linking import Linked, linked
from booklet.sewing.routes.retracing import EFFORT, passages
from booklet.sewing.routes.trails import Edge, Node, Trail, cut_at, fewest
from booklet.sewing.routes.whole_runs import folded


@dataclass(frozen=True, slots=True, kw_only=True)
class Routes:
    """The hand routes of a block in sewing order, each within the thread where a single seam is not
    longer, and the ways back that would save one. `fewest` is how many threads these steps take at least,
    runs kept whole or not as asked for; `parted` how many would be found if any run may be parted; `gap` what
    other ways back could save more at most, in inches."""

    threads: tuple[Thread, ...]
    retraces: tuple[Retrace, ...]
    fewest: int
    parted: int
    gap: float


def hand_routes(
    drafts: Sequence[Draft],
    sewn: Mapping[str, SewnSeam],
    tiling: Tiling,
    sewing: Sewing,
    share: float = 1.0,
) -> Routes:
    """The hand routes of a block; `share` is its part of what the ways back of a pattern may cost."""
    runs, limit = hand_runs(drafts, sewn, tiling), float(sewing.thread)
    everything = hand_work(runs, drafts, sewn, limit)
    held = tuple(part for t in partial_trails(drafts, tiling) for part in cut_at(t, limit))
    waiting = {edge.id for trail in held for edge in trail.edges}
    free = [run for run in runs if not any(edge.id in waiting for edge in run.edges)]
    work = hand_work(free, drafts, sewn, limit)
    parted = linked(work)
    found = parted
    if sewing.routes is HandRoutes.WHOLE_RUNS and work.beside:
        fold = folded(work, free)
        whole = linked(fold.work)
        found = Linked(tuple(fold.unfold(trail) for trail in whole.threads), whole.fewest)
    back = passages(found.threads, work, float(sewing.new_thread), share * EFFORT)
    led = back.threads
    place = {edge.id: k for k, edge in enumerate(everything.edges)}
    trails = sorted((*led, *held), key=lambda trail: place[trail.edges[0].id])
    numbers = {trail.edges[0].id: n for n, trail in enumerate(trails, 1)}
    number = [numbers[trail.edges[0].id] for trail in led]
    offered = [Retrace(number[p.first], number[p.then], p.seams, p.length) for p in back.chosen]
    there = _seams_at(sewn, tiling)
    starts = _starts(led, everything)
    return Routes(
        threads=tuple(
            _thread(t, {} if t in held else starts, everything, there, sewn, tiling) for t in trails
        ),
        retraces=tuple(sorted(offered, key=lambda offer: (offer.first, offer.then))),
        fewest=fewest(everything.edges, limit) if held else found.fewest,
        parted=len(parted.threads) + len(held),
        gap=back.gap,
    )


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
            yield _trail(seams, points, tiling)


def _trail(ids: Sequence[str], points: Sequence[Point], tiling: Tiling) -> Trail:
    """Seams along these points, on one thread."""
    seams = [tiling.seam(id) for id in ids]
    edges = tuple(Edge(s.id, s.start, s.end, s.length) for s in seams)
    return Trail(edges, tuple(points))


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
                    found.append(_trail(seams, points, tiling))
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


def _seams_at(sewn: Mapping[str, SewnSeam], tiling: Tiling) -> Mapping[Point, tuple[str, ...]]:
    """The seams that end at each matching point."""
    there: dict[Point, list[str]] = {}
    for seam in tiling.seams:
        if seam.id in sewn:
            there.setdefault(seam.start, []).append(seam.id)
            there.setdefault(seam.end, []).append(seam.id)
    return {point: tuple(seams) for point, seams in there.items()}


def _thread(
    trail: Trail,
    starts: Mapping[Node, Sequence[tuple[Trail, Edge]]],
    work: Work,
    there: Mapping[Point, Sequence[str]],
    sewn: Mapping[str, SewnSeam],
    tiling: Tiling,
) -> Thread:
    """The record of a finished route."""
    seams = [tiling.seam(edge.id) for edge in trail.edges]
    points: list[Point] = [(node[0], node[1]) for node in trail.nodes if isinstance(node, tuple)]
    turned = sum(turns(a, b, points[k + 1]) for k, (a, b) in enumerate(itertools.pairwise(seams)))
    return Thread(
        seams=tuple(seam.id for seam in seams),
        points=tuple(points),
        length=trail.length,
        turns=turned,
        through=tuple(_through(seams, points, there, sewn)),
        full=_is_full(trail, starts, work),
    )


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


def _starts(trails: Sequence[Trail], work: Work) -> Mapping[Node, Sequence[tuple[Trail, Edge]]]:
    """The threads that may begin at each point, and the seam each would begin with there."""
    found: dict[Node, list[tuple[Trail, Edge]]] = {}
    for trail in trails:
        found.setdefault(trail.nodes[0], []).append((trail, trail.edges[0]))
        if work.in_one_step(trail) and not trail.closed:
            found.setdefault(trail.nodes[-1], []).append((trail, trail.edges[-1]))
    return found


def _is_full(trail: Trail, starts: Mapping[Node, Sequence[tuple[Trail, Edge]]], work: Work) -> bool:
    """Whether only its length keeps a thread from going on along another."""
    return any(
        other is not trail
        and work.leads(trail.edges[-1], first)
        and trail.length + other.length > work.limit + NOISE
        for other, first in starts.get(trail.nodes[-1], ())
    )


def thread_needed(seam_in: float, factor: float, tail_in: float = 0.0) -> float:
    """Inches of thread for a seam: its length times `factor`, and a tail at either end.

    Sources disagree on the factor (about 1.1 to 1.3 for running stitch; 2.5 for a machine's lockstitch,
    needle and bobbin together), so it is never a constant here.
    """
    return seam_in * factor + 2 * tail_in
