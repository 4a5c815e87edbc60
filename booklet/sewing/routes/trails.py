"""Floor 4, records: seams as lines between points, and lines of them that one thread may sew."""

from __future__ import annotations

import itertools
from collections.abc import Hashable, Sequence

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
    def length(self) -> float:
        """The length sewn."""
        return sum(edge.length for edge in self.edges)

    @property
    def closed(self) -> bool:
        """Whether it ends where it began."""
        return self.nodes[0] == self.nodes[-1]

    def reversed(self) -> Trail:
        """The same trail from its other end."""
        return Trail(self.edges[::-1], self.nodes[::-1])


def components(edges: Sequence[Edge]) -> tuple[tuple[Edge, ...], ...]:
    """The connected parts, in the order of their first edges."""
    home: dict[Node, int] = {}  # the part that a point was first met in
    into: dict[int, int] = {}  # the part that another was joined to

    def part_of(node: Node) -> int:
        k = home[node]
        while k in into:
            into[k] = into.get(into[k], into[k])  # so that the way is half as long the next time
            k = into[k]
        return k

    groups: dict[int, list[Edge]] = {}
    for k, edge in enumerate(edges):
        first, *others = sorted({part_of(n) for n in (edge.a, edge.b) if n in home}) or [k]
        for other in others:
            groups[first] += groups.pop(other)
            into[other] = first
        groups.setdefault(first, []).append(edge)
        home.setdefault(edge.a, first)
        home.setdefault(edge.b, first)
    return tuple(tuple(groups[k]) for k in sorted(groups))


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
