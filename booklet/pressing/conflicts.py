"""Floor 5: warnings where the author's wishes for pressing cannot all hold. Code: press-conflict."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from booklet.diagnostic import Diagnostic, Span, warning
from booklet.geometry.tiling import Point
from booklet.measure import Length, length_text
from booklet.pressing.explain import OddCycle
from booklet.pressing.problem import Problem
from booklet.pressing.strands import Strands
from booklet.pressing.wishes import Wished
from booklet.sewing.assembly import Assembly


def conflict_warnings(
    problem: Problem,
    cycles: tuple[OddCycle, ...],
    wished: Mapping[str, Wished],
    assemblies: Mapping[str, Assembly],
) -> Iterator[Diagnostic]:
    """A warning, at the last wish concerned, for every odd cycle that goes through a wish of the author."""
    for cycle in cycles:
        block = cycle.asked.ends[0][0]
        wishes = wished[block]
        spans = set(_spans(problem, cycle, block, wishes))
        fan = wishes.fans.get(cycle.asked.ends[0][2])
        if fan is not None:
            spans.add(fan)
        if spans:
            yield _warning(cycle, block, assemblies[block], max(spans), fan is not None)


def strand_warnings(
    problem: Problem, wished: Mapping[str, Wished], assemblies: Mapping[str, Assembly]
) -> Iterator[Diagnostic]:
    """A warning for every strand whose seams the author wants pressed different ways."""
    for part in problem.parts:
        wishes = wished[part.block]
        for strand in part.strands.strands:
            sides: dict[bool | None, str] = {}
            for seam, forward in zip(strand.seams, strand.forward, strict=True):
                if seam in wishes.toward:
                    sides.setdefault(_side(part.strands, seam, wishes, forward), seam)
            if len(sides) > 1:
                pairs = [assemblies[part.block].tiling.seam(s).between for s in sides.values()]
                names = " and ".join(f"`{a}`-`{b}`" for a, b in pairs)
                yield warning(
                    "press-conflict",
                    f"the seams {names} of block `{part.block}` are one line of sewing, and the wishes press them different ways",
                    max(wishes.spans[s] for s in sides.values()),
                    "wish the same for both, or leave one of the wishes out",
                )


def _side(strands: Strands, seam: str, wishes: Wished, forward: bool) -> bool | None:
    """The side of the strand, right or not, to which the author presses a seam; None for open."""
    toward = wishes.toward[seam]
    return None if toward is None else (strands.seams[seam].between[0] == toward) == forward


def _spans(problem: Problem, cycle: OddCycle, block: str, wishes: Wished) -> Iterator[Span]:
    """The spans of the wishes that fix a strand of the cycle."""
    part = problem.part(block)
    for x in cycle.fixed:
        k = x - part.first
        if 0 <= k < len(part.strands.strands):
            for seam in part.strands.strands[k].seams:
                if seam in wishes.spans:
                    yield wishes.spans[seam]


def _warning(cycle: OddCycle, block: str, assembly: Assembly, span: Span, fan: bool) -> Diagnostic:
    seams = [assembly.tiling.seam(s) for b, s, _ in cycle.asked.ends if b == block]
    names = " and ".join(f"`{a}`-`{b}`" for a, b in dict.fromkeys(s.between for s in seams))
    place = _place(cycle.asked.ends[0][2])
    if fan or cycle.asked.kind == "fan":
        text = f"the allowances at {place} of block `{block}` cannot be fanned: the wishes leave the seams {names} lying different ways round"
        hint = "leave out one of the wishes there, or press one of these seams `open`"
    elif cycle.asked.kind == "rim":
        text = f"as wished, the seams {names} of block `{block}` lie on the same side as those of the neighbouring block at {place}"
        hint = "press one of them `open`, or make two versions of the block, pressed opposite ways"
    else:
        text = f"as wished, the seams {names} of block `{block}` lie on the same side where they cross at {place}"
        hint = "press one of them the other way, or `open`"
    return warning("press-conflict", text, span, hint)


def _place(at: Point) -> str:
    """A point of the block in inches, for a sentence."""
    x, y = (length_text(Length.of(v), "inch") for v in at)
    return f"`{x}, {y}`"
