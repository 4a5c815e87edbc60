"""Floor 4: hand runs kept whole. To `linking.py` a run is then one seam from its beginning to its end, so
that no thread takes it over midway; the threads found are unfolded into seams again. A run longer than a
thread is folded into as few parts as can be.
"""

from __future__ import annotations

import itertools
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from booklet.sewing.routes.hand_seams import Work
from booklet.sewing.routes.trails import Edge, Trail, cut_at


@dataclass(frozen=True, slots=True)
class FoldedRuns:
    """The hand work of a block with a seam for every run, and what each such seam stands for."""

    work: Work
    inside: Mapping[str, Trail]

    def unfold(self, trail: Trail) -> Trail:
        """A thread over folded runs as a thread over seams."""
        edges: list[Edge] = []
        nodes = [trail.nodes[0]]
        for edge, start in zip(trail.edges, trail.nodes, strict=False):
            run = self.inside[edge.id]
            run = run if run.nodes[0] == start else run.reversed()
            edges += run.edges
            nodes += run.nodes[1:]
        return Trail(tuple(edges), tuple(nodes))


def folded(work: Work, runs: Sequence[Trail]) -> FoldedRuns:
    """The hand work with each of `runs`, which hold all its seams, folded into one."""
    parts = [cut_at(run, work.limit) for run in runs]
    whole = {part.edges[0].id: part for run in parts for part in run}
    edges = tuple(
        Edge(id, part.nodes[0], part.nodes[-1], part.length) for id, part in whole.items()
    )
    beside = frozenset(
        frozenset((one.edges[0].id, other.edges[0].id))
        for run in parts
        for one, other in itertools.pairwise(run)
    )
    return FoldedRuns(replace(work, edges=edges, beside=beside), whole)
