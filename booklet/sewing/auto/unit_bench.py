"""Floor 4, the ways to build: units of a block on the bench, with the threads that hang from them.

What a join costs is reckoned in inches of seam: its turns, what is sewn by hand though the machine could sew it, and its
routes (`routes/hanging.py`).
"""

from __future__ import annotations

import math
from collections.abc import Iterable

from booklet.geometry.tiling import Tiling
from booklet.kit.records import Record
from booklet.pattern import By, DeclaredStep, Sewing
from booklet.sewing.mosaic.mosaic import Faces, Mosaic, bits
from booklet.sewing.mosaic.trees import Tree, joined, leaf
from booklet.sewing.order.machine_or_hand import is_short, sewers
from booklet.sewing.order.stretches import common_seams, rim_points, stretches
from booklet.sewing.routes.along_order import rates_of
from booklet.sewing.routes.hanging import RunJob, Sewer, SewnGround, State
from booklet.sewing.routes.threads import edge_of, jobs_of, trail_of
from booklet.sewing.routes.trails import Edge, Node

TURNS_FIRST = 1000.0  # inches: more than any route of a block costs, so that turns come first


def turn_worth(sewing: Sewing) -> float:
    """What a turn that costs 1 is worth, in inches of seam."""
    turn = sewing.route_costs.turn
    return TURNS_FIRST if turn is None else float(turn)


class UnitMeeting(Record, kw_only=True):
    """What sews two units together: runs by hand, their seams and those sewn by machine, and what of its cost is not
    the route's."""

    jobs: tuple[RunJob, ...]
    hand: tuple[Edge, ...]
    machine: tuple[Edge, ...]
    cost: float


class HandUnit(Record):
    """A unit with its states, and the seams sewn in it by hand and by machine, which are the same in all of them."""

    faces: Faces
    states: tuple[State, ...]


class UnitBench:
    """Joins units of one block, and knows what each join costs."""

    def __init__(self, tiling: Tiling, sewing: Sewing, mosaic: Mosaic, width: int) -> None:
        self.tiling, self.sewing, self.mosaic = tiling, sewing, mosaic
        self.rates = rates_of(sewing)
        inches = sum(seam.length for seam in tiling.seams)
        self.sewer = Sewer(
            rates=self.rates, width=width, length_counts=2 * inches > self.rates.limit
        )
        self._rim = rim_points(tiling)
        self._seams = tiling.seams
        span = tiling.pieces[0].span
        self._plain = DeclaredStep(make="", join=(), span=span, join_spans=(), entry=0)
        self._met: dict[tuple[Faces, Faces], UnitMeeting] = {}

    def patch(self, face: int) -> HandUnit:
        """A patch, with nothing sewn."""
        return HandUnit(1 << face, (State(0.0, made=face),))

    def joined(self, one: HandUnit, other: HandUnit, most: float = math.inf) -> HandUnit:
        """Two units joined, in all ways worth keeping that cost no more than `most`."""
        meeting = self.meeting(one.faces, other.faces)
        faces = one.faces | other.faces
        states = self.sewer.together([one.states, other.states], most - meeting.cost)
        if meeting.cost:
            states = [State(s.cost + meeting.cost, s.hangs, s.log, s.made) for s in states]
        if meeting.jobs and states:
            states = self.sewer.sewn(states, meeting.jobs, self._ground(one, other, faces), most)
        return HandUnit(faces, tuple(states))

    def best(self, faces: Faces, ways: Iterable[HandUnit]) -> HandUnit:
        """One unit made in several ways, with those of its states that are worth keeping."""
        return HandUnit(faces, tuple(self.sewer.best([s for way in ways for s in way.states])))

    def _ground(self, one: HandUnit, other: HandUnit, faces: Faces) -> SewnGround:
        """What is sewn of two units before they are joined."""
        hand: list[Edge] = []
        machine: list[Edge] = []
        inner = [*self._inside(one.faces), *self._inside(other.faces)]
        for edge, by_hand in inner:
            (hand if by_hand else machine).append(edge)
        return SewnGround.of(self.rates, hand, machine, self._open(faces))

    def _inside(self, faces: Faces) -> list[tuple[Edge, bool]]:
        """The seams within a unit. Which of them the machine sews is not known of each by itself: a short one never,
        a longer one as a straight seam."""
        seams = (self._seams[e] for e in self.mosaic.inner_edges(faces))
        return [(edge_of(seam), is_short(seam, self.sewing)) for seam in seams]

    def ends(self, edge: int) -> tuple[Node, Node]:
        """The two points of an edge."""
        return self._seams[edge].start, self._seams[edge].end

    def _open(self, faces: Faces) -> frozenset[Node]:
        """The points of a unit at which seams are still to be sewn."""
        mosaic = self.mosaic
        inner = set(mosaic.inner_edges(faces))
        there = {e for f in bits(faces) for e in mosaic.edges_of[f]} - inner
        return frozenset(p for e in there for p in (self._seams[e].start, self._seams[e].end))

    def meeting(self, a: Faces, b: Faces) -> UnitMeeting:
        """What sews two units together."""
        if (a, b) not in self._met:
            self._met[a, b] = self._meeting(a, b)
        return self._met[a, b]

    def _meeting(self, a: Faces, b: Faces) -> UnitMeeting:
        names = self.mosaic.names
        mine, yours = (frozenset(names[f] for f in bits(faces)) for faces in (a, b))
        near = [self._seams[e] for f in bits(min(a, b, key=int.bit_count)) for e in self.mosaic.edges_of[f]]  # fmt: skip
        shared = common_seams(near, mine, yours)
        jobs: list[RunJob] = []
        hand: list[Edge] = []
        machine: list[Edge] = []
        cost, worth, costs = 0.0, turn_worth(self.sewing), self.sewing.costs
        runs = stretches(shared, mine, self._rim)
        for run, by in zip(runs, sewers(runs, self._plain, self.sewing, self.tiling), strict=True):
            by_hand = by is By.HAND
            cost += len(run.turns) * worth * (costs.hand if by_hand else costs.machine)
            trail = trail_of(run.seams, run.points, self.tiling)
            if by_hand:
                jobs += jobs_of(trail, self.tiling, self.sewing)
                cost += by_choice(run.seams, self.tiling, self.sewing)
            (hand if by_hand else machine).extend(trail.edges)
        return UnitMeeting(jobs=tuple(jobs), hand=tuple(hand), machine=tuple(machine), cost=cost)


def by_choice(ids: Iterable[str], tiling: Tiling, sewing: Sewing) -> float:
    """The inches of seams sewn by hand that are long enough for the machine."""
    seams = map(tiling.seam, ids)
    return sum(seam.length for seam in seams if not is_short(seam, sewing))


def tree_of(made: object) -> Tree:
    """The tree of joins of a unit, from what its state says it was made of."""
    if isinstance(made, tuple):
        return joined(*(tree_of(part) for part in made))
    assert isinstance(made, int)
    return leaf(made)


def is_hollow(mosaic: Mosaic, part: Faces) -> bool:
    """Whether a part lies all round others: a ring round an empty middle is easy to get wrong."""
    rest = mosaic.whole & ~part
    rim = 0
    for f in bits(rest):
        if any(not mosaic.inner[p] for e in mosaic.edges_of[f] for p in mosaic.ends(e)):
            rim |= 1 << f
    while rest:
        there = mosaic.spread(rest & -rest, rest)
        if not there & rim:
            return True
        rest &= ~there
    return False
