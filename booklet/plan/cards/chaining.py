"""Floor 9: chains: how units are fed under the needle, and which steps of several blocks are one chain."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from booklet.geometry.tiling import Seam
from booklet.kit.outlines.plane import Point
from booklet.kit.records import replace
from booklet.kit.words import Text, large, phrase
from booklet.pattern import By, Fabric
from booklet.plan.naming import Naming
from booklet.plan.records import BlockPlan, StepCard
from booklet.pressing.pressing import Pressing
from booklet.sewing.alike import Label, Marks, are_alike, middle, print_marks
from booklet.sewing.assembly import Assembly, Step, StepKind


def is_chained(card: StepCard) -> bool:
    """Whether the units of a card are sewn one behind the other: told on its card, drawn among the chains,
    and counted as one task of a sitting. Units made together on the cutting page are none."""
    return card.total > 1 and runs_through(card.step) and card.together is None


def runs_through(step: Step) -> bool:
    """Whether a step is fed through the machine from end to end without a turn, and not on a paper of its own."""
    whole = step.leave is None and not step.finish  # a partial seam is watched to where it stops
    return step.by is By.MACHINE and not step.turns and whole and not step.section


def feeding_words(step: Step, total: int) -> Iterator[Text]:
    """How the seams of a chain follow each other."""
    if total > 1 and runs_through(step) and len(step.runs) > 1:
        yield phrase("Sew the same seam of all of them before the next.")


def laying_words(step: Step, naming: Naming, pressing: Pressing, total: int) -> Iterator[Text]:
    """How the two parts of a chain's units are laid on each other."""
    if total > 1 and runs_through(step) and len(step.runs) == 1 and len(step.join) == 2:
        top, below = top_first(step, naming.assembly, pressing)
        if naming.part(top) != naming.part(below):
            laid = phrase(
                "Lay {top} on {below}, right sides together, every one the same way round.",
                top=naming.part(top),
                below=naming.part(below),
            )
            yield large(laid)  # languages that begin with the part may begin with a small letter


def top_first(step: Step, assembly: Assembly, pressing: Pressing) -> tuple[str, str]:
    """The two parts, the one that lies on top first: one whose paper shows where to sew; else toward which the seam is
    pressed, so that it is only to be opened over it, and of a curve the one with the hollow (common practice); else the
    one of fewer pieces."""
    units = assembly.units
    pieces = {name: units.get(name, (name,)) for name in step.join}
    printed = [name for name in step.join if _on_paper(step, assembly, pieces[name])]
    if len(printed) == 1:
        (name,) = printed
        return name, next(other for other in step.join if other != name)
    if step.kind is StepKind.CURVED:
        hollow = _hollow_side(assembly.tiling.seam(step.runs[0].seams[0]))
        one, other = step.join
        return (one, other) if hollow in pieces[one] else (other, one)
    toward = {pressing.pressed[id].toward for id in step.runs[0].seams if id in pressing.pressed}
    for name in step.join:
        if toward and all(piece in pieces[name] for piece in toward):
            return name, next(other for other in step.join if other != name)
    few, many = sorted(step.join, key=lambda name: len(pieces[name]))
    return few, many


def _on_paper(step: Step, assembly: Assembly, pieces: Sequence[str]) -> bool:
    """Whether the side that some pieces have of a join is printed on paper from end to end."""
    on = {id for section in assembly.papers for id in section.pieces}
    side = {id for run in step.runs for side in run.sides for id in side} & set(pieces)
    return bool(side) and side <= on


def _hollow_side(seam: Seam) -> str:
    """The piece on the side to which a curved seam bulges. `between` has the right-hand piece first."""
    (x, y), (x2, y2), (bx, by) = seam.start, seam.end, middle(seam.path)
    to_the_right = (x2 - x) * (by - y) - (y2 - y) * (bx - x) > 0  # y grows downward
    return seam.between[0] if to_the_right else seam.between[1]


def chained_together(
    blocks: Sequence[BlockPlan], fabrics: Mapping[str, Fabric]
) -> tuple[BlockPlan, ...]:
    """The blocks with a word on the cards of alike pairs of patches that several blocks need."""
    kinds: list[tuple[Marks, tuple[object, ...], list[tuple[str, StepCard]]]] = []
    for block in blocks:
        for card in block.cards:
            if card.step.level == 1 and card.total and _could_be_chained(card):
                marks, looks = _marks(block, card.step, fabrics), _looks(block, card.step)
                group = next(
                    (g for m, other, g in kinds if looks == other and are_alike(marks, m)), None
                )
                if group is None:
                    kinds.append((marks, looks, [(block.block.id, card)]))
                else:
                    group.append((block.block.id, card))
    titles = {block.block.id: block.block.title for block in blocks}
    said: dict[tuple[str, int], list[Text]] = {}
    for _, _, group in kinds:
        total = sum(card.total for _, card in group)
        for own, card in group:
            for other, twin in group:
                if other != own:
                    words = phrase(
                        "Step {step} of {block} makes the same: chain all {n} together.",
                        step=twin.n, block=titles[other], n=total,
                    )  # fmt: skip
                    said.setdefault((own, card.n), []).append(words)
    return tuple(
        replace(
            block,
            cards=tuple(
                replace(card, sentences=(*card.sentences, *said.get((block.block.id, card.n), ())))
                for card in block.cards
            ),
        )
        for block in blocks
    )


def _could_be_chained(card: StepCard) -> bool:
    """Whether the units of a card can be fed with those of other blocks."""
    return runs_through(card.step) and card.together is None


def _looks(block: BlockPlan, step: Step) -> tuple[object, ...]:
    """How the seams of a step end, whatever its place."""
    ends = [block.assembly.sewn[id].ends for run in step.runs for id in run.seams]
    return tuple(sorted(sorted(end.value for end in pair) for pair in ends))


def _marks(block: BlockPlan, step: Step, fabrics: Mapping[str, Fabric]) -> Marks:
    """Labelled points that tell what a step makes of patches."""
    marks: dict[Label, list[Point]] = {}
    for id in step.pieces:
        piece = block.tiling.piece(id)
        label: Label = ("piece", piece.patch, piece.reversed, piece.fabric)
        marks.setdefault(label, []).extend(piece.outline.points)
        upright = print_marks(piece, fabrics.get(piece.fabric))
        if upright:
            marks.setdefault(("print", *label), []).extend(upright)
    for run in step.runs:
        for seam in run.seams:
            marks.setdefault(("seam",), []).append(middle(block.tiling.seam(seam).path))
    return {label: tuple(points) for label, points in marks.items()}
