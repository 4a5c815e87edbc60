"""Floor 5, first step: which seams are pressed as one.

A strand is a chain of seams of one straight line of sewing: it can only be pressed to one side along
its whole length. Where seams stop at their points, each seam is a strand of its own, except along a
straight side of one patch (a T-junction): that patch's allowance is one strip and lies one way.
"""

from __future__ import annotations

from collections.abc import Mapping

from booklet.geometry.tiling import Seam
from booklet.kit.outlines.plane import Point
from booklet.kit.records import Record
from booklet.pressing.equations.parity import Parity
from booklet.sewing.assembly import Assembly, End, Run

STRAIGHT = (
    -0.98
)  # cosine between two rays of one line: within 11 degrees, for curves of short edges


class Strand(Record):
    """Seams pressed as one. `forward` says of each whether its path runs with the strand; `step` is
    the last step that sews a part of it."""

    seams: tuple[str, ...]
    forward: tuple[bool, ...]
    step: int


class Strands(Record):
    """All strands of a block, with its seams by id and each seam's (strand index, forward)."""

    strands: tuple[Strand, ...]
    of: Mapping[str, tuple[int, bool]]
    seams: Mapping[str, Seam]

    def literal(self, seam: str, at: Point) -> tuple[int, bool]:
        """(strand, value): the strand's value ("to the right" is True) for which the allowance of
        `seam` lies clockwise, as seen on the page, round its end `at`."""
        index, forward = self.of[seam]
        return index, forward == (self.seams[seam].start == at)


def stops(assembly: Assembly, seam: Seam, at: Point) -> bool:
    """Whether the sewing of a seam stops at the matching point at its end `at`."""
    ends = assembly.sewn[seam.id].ends
    return ends[0 if seam.start == at else 1] is End.POINT


def ray(seam: Seam, at: Point) -> Point:
    """The unit direction in which a seam leaves its end `at`."""
    path = seam.path if seam.start == at else seam.path[::-1]
    dx, dy = path[1][0] - path[0][0], path[1][1] - path[0][1]
    length = (dx * dx + dy * dy) ** 0.5
    return (dx / length, dy / length)


def in_line(one: Seam, other: Seam, at: Point) -> bool:
    """Whether two seams ending at a point go on in one line there."""
    a, b = ray(one, at), ray(other, at)
    return a[0] * b[0] + a[1] * b[1] < STRAIGHT


def share_side(one: Seam, other: Seam, at: Point) -> bool:
    """Whether two seams lie along one straight side of one patch, on either side of a T-junction."""
    return bool(set(one.between) & set(other.between)) and in_line(one, other, at)


def strands_of(assembly: Assembly, released: frozenset[Point] = frozenset()) -> Strands:
    """The strands of a block in sewing order; no strand passes through a point of `released`."""
    seams = {seam.id: seam for seam in assembly.tiling.seams}
    order = [s for step in assembly.steps for run in step.runs for s in run.seams if s in seams]
    names = list(dict.fromkeys([*order, *seams]))
    links = Parity(len(names))
    index = {name: k for k, name in enumerate(names)}
    for step in assembly.steps:
        for run in step.runs:
            for one, other, turned in _links(assembly, seams, run, released):
                links.join(index[one], index[other], turned)
    return _collect(assembly, seams, names, links)


def _links(
    assembly: Assembly, seams: Mapping[str, Seam], run: Run, released: frozenset[Point]
) -> list[tuple[str, str, bool]]:
    """Neighbours in a run that are pressed as one, and whether their paths run against each other."""
    found = []
    for k in range(1, len(run.seams)):
        one, other, at = seams[run.seams[k - 1]], seams[run.seams[k]], run.points[k]
        if k in run.turns or at in released:
            continue
        through = not (stops(assembly, one, at) and stops(assembly, other, at))
        if through or share_side(one, other, at):
            against = (one.end == at) != (other.start == at)
            found.append((one.id, other.id, against))
    return found


def _collect(
    assembly: Assembly, seams: Mapping[str, Seam], names: list[str], links: Parity
) -> Strands:
    """The linked seams as strands, numbered by their first seam in sewing order."""
    groups: dict[int, list[tuple[str, bool]]] = {}
    for k, name in enumerate(names):
        root, against = links.find(k)
        groups.setdefault(root, []).append((name, not against))
    strands: list[Strand] = []
    of: dict[str, tuple[int, bool]] = {}
    for members in groups.values():
        lead = members[0][1]
        turned = tuple((name, forward == lead) for name, forward in members)
        step = max(assembly.sewn[name].step for name, _ in members)
        of.update({name: (len(strands), forward) for name, forward in turned})
        strands.append(Strand(tuple(n for n, _ in turned), tuple(f for _, f in turned), step))
    return Strands(tuple(strands), of, seams)
