"""Floor 8: what is made in each part of a pattern that comes in several.

A part is made of the sizes as what a class makes is (`class_made.py`): its blocks are laid out, sewn and pressed as in the
whole, the last part has the quilt as well. But its cloth is not planned anew: it is cut by the plan of the whole
(`cutting/parts.py`).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial

from booklet.checks.checked import CheckedPattern, admit
from booklet.checks.class_made import Made, made_apart
from booklet.cutting.cutting_plan import CutPattern, CuttingPlan
from booklet.cutting.parts import in_parts
from booklet.kit.diagnostic import Diagnostic, Outcome, told_once, warning
from booklet.kit.records import grown, replace
from booklet.kit.remembered.memory import Ask, plainly
from booklet.pattern import Block, ForClass, Instalment, Pattern, Size
from booklet.quilt import set_quilts
from booklet.quilt.sized import SetPattern


def parted(checked: CheckedPattern, ask: Ask = plainly) -> Outcome[CheckedPattern]:
    """The same with what is made in each of its parts; as it is where it does not come in parts."""
    count = len(checked.pattern.booklet.parts)
    if not count:
        return Outcome(checked)
    cuts = {size.id: _cuts(checked, size) for size in checked.pattern.sizes}
    parts = [_part(checked, number, cuts, ask) for number in range(1, count + 1)]
    faults = tuple(d for made in parts for d in made.diagnostics if d.is_error)
    if faults:
        return Outcome(None, told_once(faults))
    made = tuple(one.value for one in parts if one.value is not None)
    return Outcome(replace(checked, parts=made))


def _cuts(checked: CheckedPattern, size: Size) -> tuple[CuttingPlan, ...]:
    """The cutting plan of a size in its parts."""
    pattern, counts = checked.pattern, checked.quilts[size.id].blocks
    part_of = {block.id: pattern.part_of(block) for block in pattern.blocks}
    quilted = any(one.quilt is not None for one in pattern.sizes)
    return tuple(
        replace(cut, in_parts=cut.in_parts and replace(cut.in_parts, quilted=quilted))
        for cut in in_parts(checked.cuts[size.id], counts, part_of, len(pattern.booklet.parts))
    )


def _part(
    checked: CheckedPattern, number: int, cuts: dict[str, tuple[CuttingPlan, ...]], ask: Ask
) -> Outcome[CheckedPattern]:
    """What is made in a part, in the sizes that have any of it."""
    sizes = [
        Made(size, wanted, size.id)
        for size in checked.pattern.sizes
        if (wanted := _wanted(checked, size, number)) is not None
    ]
    own = {one.id: cuts[one.id][number - 1] for one in sizes}

    def cut(set_up: SetPattern) -> Outcome[CutPattern]:
        return Outcome(grown(CutPattern, set_up, cuts=own))

    made = Outcome(made_apart(checked, sizes)).then(partial(set_quilts, ask=ask))
    return admit(made.then(cut))


def _wanted(checked: CheckedPattern, size: Size, number: int) -> ForClass | None:
    """What is made of a size in a part; None if nothing is."""
    pattern, counts = checked.pattern, checked.quilts[size.id].blocks
    blocks = [block for block in pattern.blocks if counts.get(block.id)]
    here = tuple((b.id, counts[b.id]) for b in blocks if pattern.part_of(b) == number)
    if number == len(pattern.booklet.parts) and size.quilt is not None:
        before = tuple(b.id for b in blocks if pattern.part_of(b) < number)
        return ForClass(part=number, ready=before)
    return ForClass(here, part=number) if here else None


def part_faults(pattern: Pattern) -> Iterator[Diagnostic]:
    """What is wrong with the parts of a pattern: one in which no size has anything to make, blocks that no part names,
    parts in which no edition is made."""
    parts = pattern.booklet.parts
    for number, part in enumerate(parts, 1):
        named = part.blocks or number == len(parts)  # one without blocks is told where it is read
        if named and not any(_has_work(pattern, size, number) for size in pattern.sizes):
            yield Diagnostic(
                code="parts",
                message=f"part `{part.title}` has nothing to make: no size sews its blocks",
                span=part.span,
                hint="name blocks that a size sews, or take the part out",
            )
    if parts:
        yield from _unnamed(pattern, parts)
        if not any(edition.part for edition in pattern.booklet.editions):
            yield warning(
                "parts",
                "no edition is made in parts",
                parts[0].span,
                "write `parts: yes` in an edition",
            )


def _has_work(pattern: Pattern, size: Size, number: int) -> bool:
    """Whether anything of a size is made in a part."""
    if number == len(pattern.booklet.parts) and size.quilt is not None:
        return True
    return any(size.uses(b.id) and pattern.part_of(b) == number for b in pattern.blocks)


def _unnamed(pattern: Pattern, parts: Sequence[Instalment]) -> Iterator[Diagnostic]:
    """A warning for each block that no part names and that is sewn."""
    named = {block for part in parts for block in part.blocks}
    for block in pattern.blocks:
        if block.id not in named and _is_sewn(pattern, block):
            yield warning(
                "parts",
                f"block `{block.id}` is in no part: it is made in the last, `{parts[-1].title}`",
                block.span,
                f"name it in a part, as in `blocks: [{block.id}]`",
            )


def _is_sewn(pattern: Pattern, block: Block) -> bool:
    """Whether a size sews a block from pieces."""
    return any(block in pattern.sewn_blocks(size) for size in pattern.sizes)
