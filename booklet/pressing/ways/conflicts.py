"""Floor 5: warnings where the author's wishes for pressing cannot all hold. Code: press-conflict."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from booklet.kit.diagnostic import Diagnostic, Span, warning
from booklet.kit.measure import Length, length_text
from booklet.kit.outlines.plane import Point
from booklet.pressing.equations.problem import Problem
from booklet.pressing.meetings.places import SECOND
from booklet.pressing.pressing import Demand
from booklet.pressing.strands import Strands
from booklet.pressing.ways.explain import OddCycle
from booklet.pressing.wishes import Wished

Found = tuple[str, str, Span]  # block, seam, the wish for it


def conflict_warnings(
    problem: Problem, cycles: tuple[OddCycle, ...], wished: Mapping[str, Wished]
) -> Iterator[Diagnostic]:
    """A warning, at the last wish concerned, for every odd cycle that goes through wishes and clashes,
    and for every fan that was wished."""
    for cycle in cycles:
        block, _, at = cycle.asked.ends[0]
        found = list(_wished_on(problem, cycle, wished))
        fan = wished[block].fans.get(at)
        if fan is None and not (found and cycle.clash):
            continue
        text, hint = _words(problem, cycle, found, fanned=fan is not None)
        if found and all(seam in wished[on].papers for on, seam, _ in found):
            continue  # on printed paper the order decides, and no author wished it
        spans = [span for _, _, span in found] + ([fan] if fan is not None else [])
        yield warning("press-conflict", text, max(spans), hint)


def strand_warnings(problem: Problem, wished: Mapping[str, Wished]) -> Iterator[Diagnostic]:
    """A warning for every strand whose seams the author wants pressed different ways."""
    for part in problem.parts:
        wishes = wished[part.block]
        for strand in part.strands.strands:
            sides: dict[bool | None, str] = {}
            for seam, forward in zip(strand.seams, strand.forward, strict=True):
                if seam in wishes.toward:
                    sides.setdefault(_side(part.strands, seam, wishes, forward), seam)
            if len(sides) > 1:
                found = [(part.block, seam, wishes.spans[seam]) for seam in sides.values()]
                yield warning(
                    "press-conflict",
                    f"{_names(problem, found)} of block `{part.block.removesuffix(SECOND)}` are one line of sewing, "
                    "and the wishes press them different ways",
                    max(span for _, _, span in found),
                    "wish the same for both, or leave one of the wishes out",
                )


def _side(strands: Strands, seam: str, wishes: Wished, forward: bool) -> bool | None:
    """The side of the strand, right or not, to which the author presses a seam; None for open."""
    toward = wishes.toward[seam]
    return None if toward is None else (strands.seams[seam].between[0] == toward) == forward


def _wished_on(problem: Problem, cycle: OddCycle, wished: Mapping[str, Wished]) -> Iterator[Found]:
    """The wished seams on an odd cycle, one for each strand that a wish fixes."""
    met = {(block, seam) for ask in (cycle.asked, *cycle.others) for block, seam, _ in ask.ends}
    for x in cycle.fixed:
        part = next(p for p in reversed(problem.parts) if p.first <= x)
        spans = wished[part.block].spans
        seams = [s for s in part.strands.strands[x - part.first].seams if s in spans]
        at_hand = [s for s in seams if (part.block, s) in met] or seams
        if at_hand:
            yield part.block, at_hand[0], spans[at_hand[0]]


def _words(
    problem: Problem, cycle: OddCycle, found: list[Found], *, fanned: bool
) -> tuple[str, str]:
    """(what is wrong, the way out) for one odd cycle."""
    at, block = cycle.asked.ends[0][2], cycle.asked.ends[0][0].removesuffix(SECOND)
    if fanned or cycle.asked.kind is Demand.FAN:
        why = f": {_names(problem, found)} lie different ways round" if found else ""
        return (
            f"the point `{_place(at)}` of block `{block}` cannot be fanned as wished{why}",
            "leave out one of the wishes there, or press one of the seams `open`",
        )
    if cycle.asked.kind is Demand.RIM:
        other = cycle.asked.ends[-1][0].removesuffix(SECOND)
        meeting = f"block `{block}` and block `{other}`" if other != block else f"blocks `{block}`"
        return (
            f"as wished, {_names(problem, found)} lie on the same side where {meeting} meet "
            f"at `{_place(at)}`",
            "press one of them the other way or `open`, or make two versions of the block",
        )
    return (
        f"as wished, {_names(problem, found)} of block `{block}` lie on the same side where "
        f"they cross at `{_place(at)}`",
        "press one of them the other way or `open`, or fan the point",
    )


def _names(problem: Problem, found: list[Found]) -> str:
    """ "the seam `a`-`b`", "the seams `a`-`b` and `c`-`d`"."""
    pairs = [problem.part(block).strands.seams[seam].between for block, seam, _ in found]
    names = list(dict.fromkeys(f"`{a}`-`{b}`" for a, b in pairs))
    if len(names) == 1:
        return f"the seam {names[0]}" if len(pairs) == 1 else f"the seams {names[0]}"
    return f"the seams {', '.join(names[:-1])} and {names[-1]}"


def _place(at: Point) -> str:
    """A point of the block in inches."""
    return ", ".join(length_text(Length.of(v), "inch") for v in at)
