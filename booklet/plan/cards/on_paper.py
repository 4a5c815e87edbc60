"""Floor 9: what is said of blocks sewn on printed paper: on the cards of sections and of what joins them, and of pressing.

The words are common practice; how a section is sewn is told once, before the blocks.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.geometry.overlay import union
from booklet.geometry.tiling import Tiling
from booklet.kit.outlines.plane import Point
from booklet.kit.outlines.polygon import at_origin, without_straight_points
from booklet.kit.words import Text, listing, phrase
from booklet.pattern import By
from booklet.plan.naming import Naming
from booklet.sewing.assembly import Assembly, End, PaperSection, Step


def section_outline(tiling: Tiling, section: PaperSection) -> tuple[Point, ...]:
    """The corners of a section as it lies in its block, in inches, clockwise."""
    (outline, *_) = union([tiling.piece(id).outline.points for id in section.like])
    return without_straight_points(outline)


def printed_section(tiling: Tiling, section: PaperSection) -> tuple[Point, ...]:
    """The same as it is printed: mirrored left to right, its box at the origin."""
    return at_origin(seen_from_back(section_outline(tiling, section)))


def seen_from_back(points: Sequence[Point]) -> tuple[Point, ...]:
    """Points mirrored left to right, an outline clockwise as it was."""
    return tuple((-x, y) for x, y in reversed(points))


def on_paper(assembly: Assembly) -> frozenset[str]:
    """The seams that are sewn on paper, within sections."""
    return frozenset(
        seam for step in assembly.steps if step.section for run in step.runs for seam in run.seams
    )


def sewn_on_paper(step: Step, naming: Naming) -> Iterator[Text]:
    """The sentences of a card that sews a section on its paper: the order, and where it ends."""
    first, *others = (naming.clothed(id) for id in step.join)
    yield phrase(
        "On foundation {letter} lay {first} in its place, then sew on, each along its line: {others}.",
        letter=step.section, first=first, others=listing(others, "commas"),
    )  # fmt: skip
    sewn = naming.assembly.sewn
    if any(End.POINT in sewn[seam].ends for run in step.runs for seam in run.seams):
        yield phrase("Stop at each dot on the paper: a corner is set in there.")
    yield phrase("When all are on, trim cloth and paper along the dashed line. Leave the paper in.")


def papers_joined(step: Step, assembly: Assembly) -> Iterator[Text]:
    """How sections are joined, and when their paper comes out."""
    on = {id for section in assembly.papers for id in section.pieces}
    sides = [id for run in step.runs for side in run.sides for id in side]
    if not on.intersection(sides):
        return
    if any(run.by is By.HAND for run in step.runs):
        yield phrase(
            "Tear the paper off this allowance along its line before you sew by hand: the edge of the paper that stays is "
            "the seam line."
        )
        return
    if not on.issuperset(sides):
        yield phrase(
            "Sew with the paper on top, on its line, and tear it off this allowance before you press."
        )
        return
    yield phrase(
        "Push a pin straight through both papers at each end of the line and at every mark, so that they lie on each other; "
        "then sew on the line, and tear the paper off this allowance before you press."
    )
    if assembly.tiling.applied:
        return  # the papers come out before anything is laid on the block
    if step.n == len(assembly.steps) and len(on) == len(assembly.tiling.pieces):
        yield phrase("Leave the rest of the paper in until the block is joined on all its sides.")


def pressed_on_paper(assembly: Assembly) -> Iterator[Text]:
    """What is said of pressing a block on paper."""
    if any(step.section for step in assembly.steps):
        yield phrase(
            "Within a section every allowance lies toward the piece sewn on last, as it was pressed on the paper; the order "
            "decides it."
        )
