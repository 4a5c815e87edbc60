"""Floor 4, a record: the hand seams of a block, and in which order a thread may sew them."""

from __future__ import annotations

import math
from collections.abc import Mapping

from booklet.kit.outlines.near import NOISE
from booklet.kit.records import Record
from booklet.sewing.routes.trails import Edge, Trail


class Work(Record, kw_only=True):
    """The hand seams of a block: `step` tells the step of each by its id; `above[s]` are the steps in
    which a thread that hangs from step s can go on; `beside` are pairs of seams that follow each other
    in a run and are better left on one thread. `limit` is the length of a thread in inches."""

    edges: tuple[Edge, ...]
    step: Mapping[str, int]
    above: Mapping[int, frozenset[int]]
    limit: float = math.inf
    beside: frozenset[frozenset[str]] = frozenset()

    def leads(self, first: Edge, then: Edge) -> bool:
        """Whether a thread that has just sewn one seam may sew the other next, as far as steps go."""
        s, t = self.step[first.id], self.step[then.id]
        return s == t or t in self.above[s]

    def goes_on(self, into: Trail, out: Trail) -> bool:
        """Whether one thread may sew both trails, one after the other."""
        return (
            self.leads(into.edges[-1], out.edges[0])
            and into.length + out.length <= self.limit + NOISE
        )

    def in_one_step(self, trail: Trail) -> bool:
        """Whether a trail lies within one step, so that it may be sewn either way."""
        return self.step[trail.edges[0].id] == self.step[trail.edges[-1].id]
