"""Floor 4: where going back over seams already sewn saves a thread.

Instead of knotting off and beginning anew, a thread can run back along sewn seams from where it ends to
where another begins. That is worth while up to the length at which a new thread is reckoned
(`new thread`). Which threads are so joined is an integer programme: the most saved, every thread entered
and left once at most and at different ends, none longer than it is, none a ring of threads.

It is solved without the last two first, which takes no time. Where that answer breaks them, they are put in: a
variable for each thread says how long all is that is sewn when it ends (Miller, Tucker and Zemlin 1960). Threads
of a block with many alike seams make that programme hard, so its effort is counted: within `effort` it is
solved, or as good an answer as was found is offered with what a better one could save more at most; beyond it,
the first answer is taken with its rings and too long threads cut open.
"""

from __future__ import annotations

import heapq
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from booklet.kit.near import NOISE, WHOLE
from booklet.sewing.routes.hand_seams import Work
from booklet.sewing.routes.trails import Edge, Node, Trail
from booklet.solver import Row, Solution, Variable, minimise

EFFORT = 2_000  # ways back looked at, each as often as the search is begun: about 3 ms for each
MOST = 4_000  # ways back: of more even the programme without lengths takes seconds
BRANCHES = 40  # nodes of the search that take as long as its beginning


@dataclass(frozen=True, slots=True)
class Passage:
    """Going back from the end of one thread to the beginning of another, both by their numbers from 0,
    over the seams in this order; `length` in inches."""

    first: int
    then: int
    seams: tuple[str, ...]
    length: float


@dataclass(frozen=True, slots=True)
class Passages:
    """The threads, some of them the other way round, the ways back that were chosen, and what others could
    save more at most, in inches: 0 where it is proven that none do."""

    threads: tuple[Trail, ...]
    chosen: tuple[Passage, ...]
    gap: float


@dataclass(frozen=True, slots=True, kw_only=True)
class _Way:
    """A passage that could be chosen: which threads, from and to which point, whether either has to be
    sewn the other way round for it."""

    first: int
    then: int
    start: Node
    end: Node
    flipped: tuple[bool, bool]
    seams: tuple[str, ...]
    length: float


def passages(
    threads: Sequence[Trail], work: Work, reach: float, effort: float = EFFORT
) -> Passages:
    """The passages that save the most, and the threads as they are sewn for them.

    What a passage saves is `reach` (inches), which a new thread is worth, less its length. `effort` is how many
    of `EFFORT` this block may take.
    """
    ways = tuple(_ways(threads, work, reach))
    chosen, gap = _chosen(threads, ways, work.limit, reach, effort)
    flipped = {k for way in chosen for k, turned in _turned(way) if turned}
    turned_threads = tuple(t.reversed() if k in flipped else t for k, t in enumerate(threads))
    found = [Passage(way.first, way.then, way.seams, way.length) for way in chosen]
    return Passages(turned_threads, tuple(sorted(found, key=lambda p: (p.first, p.then))), gap)


def _turned(way: _Way) -> tuple[tuple[int, bool], tuple[int, bool]]:
    return (way.first, way.flipped[0]), (way.then, way.flipped[1])


def _ways(threads: Sequence[Trail], work: Work, reach: float) -> list[_Way]:
    """Every passage short enough to save something."""
    at: dict[Node, list[Edge]] = {}
    for edge in work.edges:
        at.setdefault(edge.a, []).append(edge)
        at.setdefault(edge.b, []).append(edge)
    begins: dict[Node, list[tuple[int, bool]]] = {}
    ends: list[list[tuple[Node, bool]]] = []
    for k, trail in enumerate(threads):
        begins.setdefault(trail.nodes[0], []).append((k, False))
        ends.append([(trail.nodes[-1], False)])
        if work.in_one_step(trail) and not trail.closed:
            begins.setdefault(trail.nodes[-1], []).append((k, True))
            ends[k].append((trail.nodes[0], True))
    found: list[_Way] = []
    for k, trail in enumerate(threads):
        for start, back in ends[k]:
            last = trail.edges[0] if back else trail.edges[-1]
            reached = _reached(start, at, reach)
            for node in reached:
                for other, turned in begins.get(node, ()):
                    then = threads[other]
                    first = then.edges[-1] if turned else then.edges[0]
                    length, seams = reached[node]
                    if (
                        other != k
                        and seams
                        and work.leads(last, first)
                        and trail.length + length + then.length <= work.limit + NOISE
                        and all(work.step[s] <= work.step[first.id] for s in seams)
                    ):
                        found.append(
                            _Way(
                                first=k,
                                then=other,
                                start=start,
                                end=node,
                                flipped=(back, turned),
                                seams=seams,
                                length=length,
                            )
                        )
    return found


def _reached(
    start: Node, at: Mapping[Node, Sequence[Edge]], reach: float
) -> dict[Node, tuple[float, tuple[str, ...]]]:
    """The points within reach of one, with the shortest way there (Dijkstra 1959)."""
    done: dict[Node, tuple[float, tuple[str, ...]]] = {}
    ahead: list[tuple[float, int, Node, tuple[str, ...]]] = [(0.0, 0, start, ())]
    pushed = 0
    while ahead:
        length, _, node, seams = heapq.heappop(ahead)
        if node in done:
            continue
        done[node] = (length, seams)
        for edge in at[node]:
            if length + edge.length < reach - NOISE and edge.other(node) not in done:
                pushed += 1
                more = (length + edge.length, pushed, edge.other(node), (*seams, edge.id))
                heapq.heappush(ahead, more)
    return done


def _chosen(
    threads: Sequence[Trail], ways: Sequence[_Way], limit: float, reach: float, effort: float
) -> tuple[tuple[_Way, ...], float]:
    """The passages that save the most together, and what others could save more at most."""
    if len(ways) > MOST:
        return _shortest_first(threads, ways, limit, reach)
    costs = [way.length - reach for way in ways]
    variables = [Variable(cost, 0.0, 1.0, whole=True) for cost in costs]
    rows = [*_at_most_once(ways), *_not_to_and_fro(ways)]
    answer = minimise(variables, rows, nodes=1) if ways else None
    if answer is None:
        return (), sum(reach - way.length for way in ways)
    taken = [k for k, value in enumerate(answer.values) if value > 0.5]
    kept = [k for chain in _chains(ways, taken) for k in _opened(chain, threads, ways, limit)]
    bound = answer.bound
    if len(kept) < len(taken) and len(ways) <= effort:
        nodes = 1 + int(BRANCHES * (effort / len(ways) - 1))
        better = _within_length(threads, ways, variables, rows, limit, nodes)
        if better is not None:
            bound = max(bound, better.bound)
            found = [k for k, value in enumerate(better.values[: len(ways)]) if value > 0.5]
            kept = min(kept, found, key=lambda choice: sum(costs[k] for k in choice))
    gap = sum(costs[k] for k in kept) - bound
    return tuple(ways[k] for k in kept), gap if gap > WHOLE else 0.0


def _shortest_first(
    threads: Sequence[Trail], ways: Sequence[_Way], limit: float, reach: float
) -> tuple[tuple[_Way, ...], float]:
    """The passages taken one after the other, the shortest first, and what others could save more at most:
    no thread is left twice, so that none saves more than the shortest that leaves it."""
    whole = list(range(len(threads)))  # the thread that each is part of
    members = {k: [k] for k in whole}
    length = {k: trail.length for k, trail in enumerate(threads)}
    taken: set[tuple[str, int, bool]] = set()
    chosen: list[_Way] = []
    most: dict[int, float] = {}
    for way in sorted(ways, key=lambda way: way.length):
        most.setdefault(way.first, reach - way.length)
        one, other = whole[way.first], whole[way.then]
        if one == other or length[one] + way.length + length[other] > limit + NOISE:
            continue
        if not taken.isdisjoint(_claims(way)):
            continue
        chosen.append(way)
        taken.update(_claims(way))
        length[one] += way.length + length.pop(other)
        for k in members[other]:
            whole[k] = one
        members[one] += members.pop(other)
    return tuple(chosen), sum(most.values()) - sum(reach - way.length for way in chosen)


def _within_length(
    threads: Sequence[Trail],
    ways: Sequence[_Way],
    variables: Sequence[Variable],
    rows: Sequence[Row],
    limit: float,
    nodes: int,
) -> Solution | None:
    """The answer without rings and without threads that are too long.

    Of a thread t, u_t is the length of all that is sewn when it ends: u_t >= u_s + way + length of t where
    the way from s to t is taken, and otherwise nothing more than that it is at least the thread's own.
    """
    count = len(ways)
    longest = min(limit, sum(t.length for t in threads) + sum(way.length for way in ways))
    lengths = [Variable(0.0, t.length, max(t.length, longest)) for t in threads]
    between: dict[tuple[int, int], list[int]] = {}
    for k, way in enumerate(ways):
        between.setdefault((way.first, way.then), []).append(k)
    timed = [
        Row(
            (
                (count + then, 1.0),
                (count + first, -1.0),
                *((k, -(longest + ways[k].length)) for k in group),
            ),
            low=threads[then].length - longest,
        )
        for (first, then), group in between.items()
    ]
    return minimise([*variables, *lengths], [*rows, *timed], nodes)


def _opened(
    chain: Sequence[int], threads: Sequence[Trail], ways: Sequence[_Way], limit: float
) -> list[int]:
    """The passages of a row that can stay: a ring is opened at its longest one, and a new thread is taken
    before each that would make the last one too long."""
    row = list(chain)
    if ways[row[-1]].then == ways[row[0]].first:
        longest = max(range(len(row)), key=lambda place: ways[row[place]].length)
        row = [*row[longest + 1 :], *row[:longest]]
    kept: list[int] = []
    length = threads[ways[row[0]].first].length if row else 0.0
    for k in row:
        more = ways[k].length + threads[ways[k].then].length
        if length + more > limit + NOISE:
            length = threads[ways[k].then].length
            continue
        kept.append(k)
        length += more
    return kept


def _not_to_and_fro(ways: Sequence[_Way]) -> list[Row]:
    """Of two threads, only one leads to the other: the shortest rings are left out from the first."""
    groups: dict[frozenset[int], list[int]] = {}
    for k, way in enumerate(ways):
        groups.setdefault(frozenset((way.first, way.then)), []).append(k)
    return [Row(tuple((k, 1.0) for k in group), high=1.0) for group in groups.values()]


def _at_most_once(ways: Sequence[_Way]) -> list[Row]:
    """Every thread is left once at most, entered once at most, and not at one and the same end."""
    groups: dict[tuple[str, int, bool], list[int]] = {}
    for k, way in enumerate(ways):
        for claim in _claims(way):
            groups.setdefault(claim, []).append(k)
    return [Row(tuple((k, 1.0) for k in group), high=1.0) for group in groups.values()]


def _claims(way: _Way) -> tuple[tuple[str, int, bool], ...]:
    """What a passage takes for itself: leaving a thread, entering one, and the end of either that it meets,
    since each is sewn the right way round or the other, but not both."""
    return (
        ("left", way.first, False),
        ("entered", way.then, False),
        ("end", way.first, not way.flipped[0]),
        ("end", way.then, way.flipped[1]),
    )


def _chains(ways: Sequence[_Way], chosen: Sequence[int]) -> list[tuple[int, ...]]:
    """The chosen passages in the rows in which they join threads; a ring begins anywhere."""
    leaving = {ways[k].first: k for k in chosen}
    entered = {ways[k].then for k in chosen}
    starts = [n for n in leaving if n not in entered]
    seen: set[int] = set()
    chains: list[tuple[int, ...]] = []
    for start in [*starts, *leaving]:
        row: list[int] = []
        here = start
        while here in leaving and leaving[here] not in seen:
            row.append(leaving[here])
            seen.add(leaving[here])
            here = ways[row[-1]].then
        if row:
            chains.append(tuple(row))
    return chains
