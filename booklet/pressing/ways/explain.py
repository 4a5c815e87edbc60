"""Floor 5: why not everything asked can hold, as odd cycles.

Everything that does hold in the solution, and the directions that the author fixed, form a forest of
equations; each thing asked that does not hold closes an odd cycle in it.
"""

from __future__ import annotations

from booklet.kit.records import Record, replace
from booklet.pressing.equations.model import Literal
from booklet.pressing.equations.parity import Parity
from booklet.pressing.equations.problem import AskedTerm, Problem
from booklet.pressing.pressing import Demand


class OddCycle(Record, kw_only=True):
    """A thing asked that does not hold, with the unknowns of its odd cycle, the other things asked on
    it, and those of its unknowns that the author fixed. `clash`: nothing else keeps the allowances
    from lying on each other there, as seams in line do that nest at a point that is not fanned."""

    asked: AskedTerm
    clash: bool
    unknowns: tuple[int, ...]
    others: tuple[AskedTerm, ...]
    fixed: tuple[int, ...]

    @property
    def free(self) -> tuple[int, ...]:
        """The unknowns that may be pressed open: those not fixed; all where the author fixed all."""
        return tuple(x for x in self.unknowns if x not in self.fixed) or self.unknowns

    @property
    def through_rim(self) -> bool:
        """Whether the cycle goes from block to block."""
        return any(ask.kind is Demand.RIM for ask in (self.asked, *self.others))


def odd_cycles(problem: Problem, values: tuple[bool, ...]) -> tuple[OddCycle, ...]:
    """One odd cycle for every nest, fan or rim meeting that does not hold in a solution."""
    ground = len(values)
    links = Parity(ground + 1)
    for part in problem.parts:
        for k, value in part.fixed.items():
            if value is not None:
                links.join(ground, part.first + k, not value)
    broken = []
    for label, ask in enumerate(problem.asked):
        literals = [lit for lit in ask.literals if lit[0] not in problem.opened]
        if ask.kind is Demand.FLAT or len(literals) < 2:
            continue
        if len({values[x] == positive for x, positive in literals}) == 1:
            for x, positive in literals[1:]:
                links.join(literals[0][0], x, positive != literals[0][1], label)
        else:
            broken.append((ask, literals))
    found = []
    for ask, literals in broken:
        cycle = _cycle(problem, links, ask, literals, ground)
        if cycle is not None:
            found.append(replace(cycle, clash=ask.clashes(values, problem.opened)))
    return tuple(found)


def _cycle(
    problem: Problem, links: Parity, ask: AskedTerm, literals: list[Literal], ground: int
) -> OddCycle | None:
    """The odd cycle that a thing asked closes, the shortest over its pairs of literals."""
    best: tuple[list[int], list[int]] | None = None
    for k, (x, p) in enumerate(literals):
        for y, q in literals[k + 1 :]:
            (root_x, odd_x), (root_y, odd_y) = links.find(x), links.find(y)
            if root_x == root_y and (odd_x ^ odd_y) != (p != q):
                path = _straight(*links.path(x, y))
                best = path if best is None or len(path[0]) < len(best[0]) else best
    if best is None:
        return None
    nodes, labels = best
    fixed = tuple(
        x
        for k, x in enumerate(nodes)
        if x != ground and ground in nodes[max(0, k - 1) : k + 2] and ground in nodes
    )
    others = tuple(problem.asked[label] for label in labels if label >= 0)
    return OddCycle(
        asked=ask,
        clash=True,
        unknowns=tuple(x for x in nodes if x != ground),
        others=others,
        fixed=fixed,
    )


def _straight(nodes: list[int], labels: list[int]) -> tuple[list[int], list[int]]:
    """A path without the unknowns that it only passes because a term of many literals ties all of them
    to its first one."""
    kept, between = nodes[:1], list[int]()
    for node, label in zip(nodes[1:], labels, strict=True):
        if between and between[-1] == label >= 0:
            kept[-1] = node
        else:
            kept.append(node)
            between.append(label)
    return kept, between
