"""Floor 4, records: seams as lines between points, and lines of them that one thread may sew."""

from __future__ import annotations

import itertools
from collections.abc import Hashable

from booklet.kit.outlines.near import NOISE
from booklet.kit.records import Record

Node = Hashable


class Edge(Record):
    """A seam to sew between two points; `length` in inches."""

    id: str
    a: Node
    b: Node
    length: float

    def other(self, node: Node) -> Node:
        """The end that is not `node`."""
        return self.b if node == self.a else self.a


class Trail(Record):
    """Seams sewn on one thread in order; `nodes` are the points passed, one more than edges."""

    edges: tuple[Edge, ...]
    nodes: tuple[Node, ...]

    @property
    def closed(self) -> bool:
        """Whether it ends where it began."""
        return self.nodes[0] == self.nodes[-1]

    def reversed(self) -> Trail:
        """The same trail from its other end."""
        return Trail(self.edges[::-1], self.nodes[::-1])


def cut_at(trail: Trail, limit: float) -> tuple[Trail, ...]:
    """The trail cut into as few as can be that keep the limit: each as long as it may be."""
    cuts = [0]
    length = 0.0
    for k, edge in enumerate(trail.edges):
        if k > cuts[-1] and length + edge.length > limit + NOISE:
            cuts.append(k)
            length = 0.0
        length += edge.length
    cuts.append(len(trail.edges))
    return tuple(
        Trail(trail.edges[a:b], trail.nodes[a : b + 1]) for a, b in itertools.pairwise(cuts)
    )
