"""Floor 4: the fewest unbroken lines that sew every seam of a drawing exactly once.

Without a limit each connected part needs max(1, odd/2) trails, odd being its points with an odd number
of seams (Euler, Listing). With a thread of length L it needs at least its length / L as well; that
problem contains bin packing (`linking.py` finds them).
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Hashable, Sequence

from booklet.kit.groups import Groups
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

    def from_node(self, node: Node) -> Trail:
        """A closed trail begun at another of its points."""
        k = self.nodes.index(node)
        edges = self.edges[k:] + self.edges[:k]
        return Trail(edges, (*self.nodes[k:-1], *self.nodes[:k], node))


def components(edges: Sequence[Edge]) -> tuple[tuple[Edge, ...], ...]:
    """The connected parts, in the order of their first edges."""
    place: dict[Node, int] = {}  # the points, in the order first met
    for edge in edges:
        for node in (edge.a, edge.b):
            place.setdefault(node, len(place))
    tied = Groups(len(place))
    for edge in edges:
        tied.join(place[edge.a], place[edge.b])
    parts: dict[int, list[Edge]] = {}
    for edge in edges:
        parts.setdefault(tied.of(place[edge.a]), []).append(edge)
    return tuple(map(tuple, parts.values()))


def odd_nodes(edges: Sequence[Edge]) -> tuple[Node, ...]:
    """The points at which an odd number of edges end, in the order first met."""
    degree: dict[Node, int] = {}
    for edge in edges:
        degree[edge.a] = degree.get(edge.a, 0) + 1
        degree[edge.b] = degree.get(edge.b, 0) + 1
    return tuple(node for node, count in degree.items() if count % 2)


def fewest(edges: Sequence[Edge], limit: float = math.inf) -> int:
    """A lower bound on the threads needed: the sum over the parts of max(1, odd/2, length/limit).

    An edge longer than the limit counts as one thread.
    """
    return sum(
        max(1, len(odd_nodes(part)) // 2, _threads_for(part, limit)) for part in components(edges)
    )


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


def _threads_for(part: Sequence[Edge], limit: float) -> int:
    """How many threads of the limit the length alone needs."""
    if math.isinf(limit):
        return 1
    length = sum(min(edge.length, limit) for edge in part)
    return math.ceil(length / limit - NOISE)
