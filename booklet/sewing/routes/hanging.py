"""Floor 4: threads that hang from a unit, and every way to sew the runs of a join with them.

A unit has *states*: what its routes cost so far and where threads hang from it. A run is sewn by a new thread
or by one that hangs, which comes to where the run begins by *passing* there: it is there, passing at most through
an allowance, or it goes back over sewn seam, or it lies loose behind the patches, whichever costs least. A run begins at
one of its ends, or at its first or last turn, as a set-in is taught: from the corner out to the end that is near, back
over that seam, and on.

A state is worth keeping only where no other does as well: one that costs less by a new thread can begin one wherever
the other has a thread hanging more. So few are left of very many, and of small blocks all are looked at.
"""

from __future__ import annotations

import heapq
import itertools
import math
from collections.abc import Iterable, Iterator, Mapping, Sequence, Set

from booklet.kit.outlines.near import NOISE
from booklet.kit.outlines.plane import Point
from booklet.kit.records import Mutable, Record, field
from booklet.sewing.routes.trails import Edge, Node, Trail

MOST_RUNS = 3  # runs between two units


class Rates(Record, kw_only=True):
    """What routes cost, in inches of seam to sew: a new thread, passing through an allowance, an inch gone back, an
    inch that lies loose; `limit` is the length of a thread."""

    new: float
    through: float
    back: float
    loose: float
    limit: float


class Passage(Record):
    """How a thread comes from where it hangs to where it sews on: over these seams, or loose; both in inches."""

    cost: float
    length: float
    seams: tuple[str, ...] = ()
    loose: bool = False


class RunWay(Record, kw_only=True):
    """A run as one thread sews it: its seams in that order, and the point from which each is sewn. After the
    first `out` of them the thread goes back over them to where it began."""

    edges: tuple[Edge, ...]
    starts: tuple[Node, ...]
    end: Node
    length: float  # of thread that it takes, in inches, with what is gone back
    out: int = 0
    back: float = 0.0  # inches that are gone back within the run

    @classmethod
    def of(
        cls, edges: tuple[Edge, ...], starts: tuple[Node, ...], end: Node, out: int = 0
    ) -> RunWay:
        """A way with its lengths."""
        back = sum(edge.length for edge in edges[:out])
        length = sum(edge.length for edge in edges) + back
        return cls(edges=edges, starts=starts, end=end, length=length, out=out, back=back)


class RunJob(Record):
    """A run to be sewn by hand, in every way that may be taken, and the pieces along it."""

    ways: tuple[RunWay, ...]
    pieces: frozenset[str]

    @property
    def edges(self) -> tuple[Edge, ...]:
        """Its seams."""
        return self.ways[0].edges


def job_of(run: Trail, turns: Sequence[int], pieces: frozenset[str]) -> RunJob:
    """A run with the ways it can be sewn; `turns` are the indexes of the points at which it turns."""
    ways = []
    inner = [k for k in turns if 0 < k < len(run.edges)]
    last = len(run.edges)
    for trail, corners in ((run, inner), (run.reversed(), [last - k for k in reversed(inner)])):
        ways.append(RunWay.of(trail.edges, trail.nodes[:-1], trail.nodes[-1]))
        if corners and not trail.closed:
            ways.append(_from_corner(trail, corners[0]))
    return RunJob(tuple(ways), pieces)


def _from_corner(trail: Trail, at: int) -> RunWay:
    """A run begun at a corner: out to its first point, back, and on."""
    edges = (*reversed(trail.edges[:at]), *trail.edges[at:])
    starts = (*reversed(trail.nodes[1 : at + 1]), *trail.nodes[at:-1])
    return RunWay.of(edges, starts, trail.nodes[-1], at)


Log = tuple[object, ...]  # (earlier logs), then maybe (thread, passage, way)
Hang = tuple[
    Node, float, int, int, int
]  # where, how much of the thread is used, its number; what `Sewer` calls the first two, and the bit of the first


class State(Record):
    """What the routes of a unit cost, the threads that hang from it, how they came about, and of what the unit was made,
    as whoever asks keeps it."""

    cost: float
    hangs: tuple[Hang, ...] = ()
    log: Log = ((),)
    made: object = None


NOTHING_SEWN = State(0.0)


class SewnGround(Mutable, kw_only=True):
    """What is sewn of a unit while one of its joins is sewn: the hand seams at each point, and how many seams end
    there. `open_ends` are points at which hand seams are still to be sewn."""

    rates: Rates
    at: dict[Node, list[Edge]]
    crowd: dict[Node, int]
    open_ends: Set[Node] | None
    _reached: dict[Node, dict[Node, Passage]] = field(default_factory=dict)
    _reaching: dict[Node, set[Node]] = field(default_factory=dict)  # by each point, from which
    _passages: dict[tuple[Node, Node], Passage | None] = field(default_factory=dict)
    _of_use: dict[Node, bool] = field(default_factory=dict)
    _cells: dict[tuple[int, int], list[Node]] | None = None  # of what was open at first

    @classmethod
    def of(
        cls,
        rates: Rates,
        hand: Iterable[Edge],
        others: Iterable[Edge] = (),
        open_ends: Set[Node] | None = None,
    ) -> SewnGround:
        """The ground on which these seams are sewn by hand, those by machine."""
        made = cls(rates=rates, at={}, crowd={}, open_ends=open_ends)
        made.sew(hand, others)
        return made

    def again(self) -> SewnGround:
        """The same ground, to sew on by itself."""
        at = {node: list(there) for node, there in self.at.items()}
        crowd = dict(self.crowd)
        return SewnGround(rates=self.rates, at=at, crowd=crowd, open_ends=self.open_ends)

    def sew(self, hand: Iterable[Edge], others: Iterable[Edge] = ()) -> None:
        """Sew these seams more by hand, those by machine."""
        touched: set[Node] = set()
        for edge in hand:
            for node in (edge.a, edge.b):
                self.at.setdefault(node, []).append(edge)
                self.crowd[node] = self.crowd.get(node, 0) + 1
                touched.add(node)
        for edge in others:
            for node in (edge.a, edge.b):
                self.crowd[node] = self.crowd.get(node, 0) + 1
        for node in touched:
            for here in self._reaching.pop(node, ()):
                self._reached.pop(here, None)
        self._passages.clear()
        self._of_use.clear()

    def passage(self, here: Node, there: Node) -> Passage | None:
        """The cheapest way for a thread from one point to another; None where a new one costs less."""
        asked = here, there  # again and again: states differ in few of their threads
        if asked not in self._passages:
            self._passages[asked] = self._passage(here, there)
        return self._passages[asked]

    def _passage(self, here: Node, there: Node) -> Passage | None:
        rates = self.rates
        if here == there:
            crowded = self.crowd.get(here, 0) > 1
            found = Passage(rates.through if crowded else 0.0, 0.0)
            return found if found.cost < rates.new - NOISE else None
        back = self.reached(here).get(there)
        apart = _apart(here, there)
        cost = apart * rates.loose
        if cost < rates.new - NOISE and (back is None or cost < back.cost - NOISE):
            return Passage(cost, apart, loose=True)
        return back

    def reached(self, here: Node) -> Mapping[Node, Passage]:
        """The points to which going back costs less than a new thread, each with the shortest way (Dijkstra 1959)."""
        if here not in self._reached:
            self._reached[here] = self._spread(here)
            for there in self._reached[here]:
                self._reaching.setdefault(there, set()).add(here)
        return self._reached[here]

    def _spread(self, here: Node) -> dict[Node, Passage]:
        done: dict[Node, Passage] = {}
        rate, most = self.rates.back, self.rates.new - NOISE
        ahead: list[tuple[float, int, Node, tuple[str, ...]]] = [(0.0, 0, here, ())]
        pushed = 0
        while ahead:
            length, _, node, seams = heapq.heappop(ahead)
            if node in done:
                continue
            done[node] = Passage(length * rate, length, seams)
            for edge in self.at.get(node, ()):
                far = length + edge.length
                if far * rate < most and edge.other(node) not in done:
                    pushed += 1
                    heapq.heappush(ahead, (far, pushed, edge.other(node), (*seams, edge.id)))
        return done

    def is_of_use(self, here: Node) -> bool:
        """Whether a thread that hangs here may ever sew on for less than a new one costs."""
        if here not in self._of_use:
            self._of_use[here] = self._is_of_use(here)
        return self._of_use[here]

    def _is_of_use(self, here: Node) -> bool:
        if self.open_ends is None or here in self.open_ends:
            return True
        if not self.open_ends.isdisjoint(self.reached(here)):
            return True
        far = self.rates.new / self.rates.loose if self.rates.loose else math.inf
        return far > 0 and any(_apart(here, there) < far for there in self._open_about(here, far))

    def _open_about(self, here: Node, far: float) -> Iterator[Node]:
        """Open ends, among them all less than `far` from a point: those of its cell and of the eight about it. Ends
        are taken out of those that are open, and none is put in."""
        assert self.open_ends is not None
        if not isinstance(here, tuple) or far == math.inf:
            yield from self.open_ends
            return
        if self._cells is None:
            self._cells = {}
            for end in self.open_ends:
                if isinstance(end, tuple):
                    self._cells.setdefault(_cell(end, far), []).append(end)
        across, down = _cell(here, far)
        for column, row in itertools.product(
            range(across - 1, across + 2), range(down - 1, down + 2)
        ):
            yield from filter(self.open_ends.__contains__, self._cells.get((column, row), ()))


def _cell(point: Point, side: float) -> tuple[int, int]:
    """The cell in which a point lies, of squares of this side, in inches."""
    return math.floor(point[0] / side), math.floor(point[1] / side)


def _apart(here: Node, there: Node) -> float:
    """How far two points lie apart, in inches."""
    if isinstance(here, tuple) and isinstance(there, tuple):
        return math.dist(here, there)
    return math.inf


class Sewer(Mutable, kw_only=True):
    """Sews runs in all ways worth keeping. `width` is how many states of a unit are kept at most; `length_counts`
    tells whether a thread may be used up at all; `effort` counts the ways looked at."""

    rates: Rates
    width: int
    length_counts: bool
    effort: int = 0
    cut_short: bool = False  # whether states were left out that might have been worth keeping
    _numbers: Iterator[int] = field(default_factory=itertools.count)
    _places: dict[tuple[Node, float], tuple[int, int]] = field(default_factory=dict)
    _bits: dict[Node, int] = field(default_factory=dict)

    def together(self, parts: Sequence[Sequence[State]], most: float = math.inf) -> list[State]:
        """The states of some units side by side, none of which costs more than `most`."""
        here = list(parts[0])
        for there in parts[1:]:
            both = [
                State(a.cost + b.cost, a.hangs + b.hangs, ((a.log, b.log),), (a.made, b.made))
                for a in here
                for b in there
                if a.cost + b.cost <= most
            ]
            here = self.best(both)
        return here

    def sewn(
        self,
        states: Sequence[State],
        jobs: Sequence[RunJob],
        ground: SewnGround,
        most: float = math.inf,
    ) -> list[State]:
        """The states once the runs between two units are sewn, in the best order of them where they are few. They are
        then sewn on the ground, too."""
        orders: Sequence[Sequence[RunJob]] = [jobs]
        if 1 < len(jobs) <= MOST_RUNS:
            orders = tuple(itertools.permutations(jobs))
        found: list[State] = []
        for order in orders:
            here, there = list(states), ground.again() if len(orders) > 1 else ground
            for job in order:
                here = self.best(
                    [s for state in here for s in self.onward(state, job, there, most)]
                )
                there.sew(job.edges)
            found += [self.without_useless(state, there) for state in here]
        if len(orders) > 1:
            for job in jobs:
                ground.sew(job.edges)
        return self.best(found)

    def onward(self, state: State, job: RunJob, ground: SewnGround, most: float) -> Iterator[State]:
        """The states that come of one once a run is sewn."""
        self.effort += 1
        for way in job.ways:
            inside = way.back * self.rates.back
            length = way.length
            if length > self.rates.limit + NOISE and way.out:
                continue
            used = length if self.length_counts else 0.0
            cost = state.cost + self.rates.new + inside
            if cost <= most:
                number = next(self._numbers)
                log: Log = ((state.log,), number, None, way)
                yield State(
                    cost, (*state.hangs, self._hang(way.end, used, number)), log, state.made
                )
            for k, (node, spent, number, _, _) in enumerate(state.hangs):
                passage = ground.passage(node, way.starts[0])
                if passage is None or state.cost + passage.cost + inside > most:
                    continue
                now = spent + passage.length + length
                if self.length_counts and now > self.rates.limit + NOISE:
                    continue
                hangs = (*state.hangs[:k], *state.hangs[k + 1 :])
                hang = self._hang(way.end, now if self.length_counts else 0.0, number)
                log = ((state.log,), number, passage, way)
                yield State(state.cost + passage.cost + inside, (*hangs, hang), log, state.made)

    def _hang(self, node: Node, used: float, number: int) -> Hang:
        """A thread that hangs there. Where and how much used it is has a number, by which states are told apart."""
        known = self._places.get((node, used))
        if known is None:
            bit = self._bits.setdefault(node, 1 << len(self._bits))
            known = self._places[node, used] = (len(self._places), bit)
        return (node, used, number, *known)

    def without_useless(self, state: State, ground: SewnGround) -> State:
        """A state without the threads that can never sew on."""
        kept = tuple(hang for hang in state.hangs if ground.is_of_use(hang[0]))
        if len(kept) == len(state.hangs):
            return state
        return State(state.cost, kept, state.log, state.made)

    def best(self, states: Iterable[State]) -> list[State]:
        """The states that no other does as well as, the cheapest first, `width` of them at most."""
        cheapest: dict[tuple[int, ...], State] = {}
        for state in states:  # some are alike but for how they came about
            hangs = tuple(sorted([place for _, _, _, place, _ in state.hangs]))
            like = cheapest.get(hangs)
            if like is None or state.cost < like.cost - NOISE:
                cheapest[hangs] = state
        kept: list[tuple[State, int]] = []
        for state in sorted(cheapest.values(), key=_cost):
            points = 0
            for hang in state.hangs:
                points |= hang[4]
            if self._is_needless(state, points, kept):
                continue
            if len(kept) == self.width:
                self.cut_short = True
                break
            kept.append((state, points))
        return [state for state, _ in kept]

    def _is_needless(self, state: State, points: int, kept: Sequence[tuple[State, int]]) -> bool:
        """Whether one that is kept can do all that a state does, whose threads hang at these points. Most have threads
        at so many points at which the other has none that this alone answers it."""
        cost, new = state.cost, self.rates.new
        for other, there in kept:
            spare = (cost - other.cost + NOISE) / new if new else math.inf
            if (points & ~there).bit_count() <= spare and self._as_good(other, state):
                return True
        return False

    def _as_good(self, one: State, other: State) -> bool:
        """Whether one state can do all that another does and costs no more: it begins a new thread for each that it
        has not hanging."""
        spare = (other.cost - one.cost + NOISE) / self.rates.new if self.rates.new else math.inf
        if spare >= len(other.hangs):
            return True
        free = list(one.hangs)
        missing = len(other.hangs) - len(free)
        if missing > spare:
            return False
        missing = 0
        for node, used, *_ in other.hangs:
            for k, (at, spent, *_) in enumerate(free):
                if at == node and spent <= used + NOISE:
                    del free[k]
                    break
            else:
                missing += 1
                if missing > spare:
                    return False
        return True


def _cost(state: State) -> tuple[float, int]:
    return (round(state.cost, 9), -len(state.hangs))


class Leg(Record):
    """A run on a thread: how the thread comes to it (None: it begins there), and how it is sewn."""

    passage: Passage | None
    way: RunWay


def legs_of(state: State) -> Mapping[int, list[Leg]]:
    """The threads of a state by their numbers, each leg by leg, in the order in which they are begun."""
    threads: dict[int, list[Leg]] = {}
    for number, passage, way in _events(state.log):
        threads.setdefault(number, []).append(Leg(passage, way))
    return threads


def sewing_order(state: State) -> Iterator[RunWay]:
    """The runs in the order in which they are sewn."""
    return (way for _, _, way in _events(state.log))


def _events(log: Log) -> Iterator[tuple[int, Passage | None, RunWay]]:
    """What was sewn, earliest first."""
    waiting: list[tuple[Log, bool]] = [(log, False)]
    while waiting:
        here, ready = waiting.pop()
        if ready:
            yield here[1], here[2], here[3]  # type: ignore[misc]
            continue
        if len(here) > 1:
            waiting.append((here, True))
        waiting += [(earlier, False) for earlier in reversed(here[0])]  # type: ignore[call-overload]
