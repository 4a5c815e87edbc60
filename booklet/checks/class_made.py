"""Floor 8: what a class makes, put through the stages from the quilt on: what each student makes, and all kits at once.

Blocks are laid out, sewn and pressed as in the pattern, so that what is made in class can be sewn on by its booklet: the
letters, the steps and the directions of pressing are the same. Only how many are made, and what is cut, is other.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import partial
from typing import TypeVar

from booklet.checks.bounds import within_bounds
from booklet.checks.checked import CheckedPattern, admit
from booklet.cutting import cut
from booklet.geometry.tiling import BlockKey
from booklet.kit.bounds import MOST_KIT_PIECES, MOST_STEPS
from booklet.kit.diagnostic import Diagnostic, Outcome, Span, told_once, warning
from booklet.kit.records import Record, replace
from booklet.kit.remembered.memory import Ask, plainly
from booklet.pattern import KITS, Edition, ForClass, Makes, Pattern, SetKind, Size, Until
from booklet.pressing.pressing import PressedPattern, Pressing
from booklet.quilt import set_quilts
from booklet.quilt.sized import SetPattern

R = TypeVar("R")
NONE: Outcome[CheckedPattern] = Outcome(None)


def taught(checked: CheckedPattern, ask: Ask = plainly) -> Outcome[CheckedPattern]:
    """The same with what its class makes; as it is where there is no class, or where the class makes whole sizes and
    cuts no kits."""
    pattern, lesson = checked.pattern, checked.pattern.booklet.lesson
    blocks = [(size, pattern.made_in_class(size)) for size in pattern.sizes_of_class()]
    one = [Made(size, ForClass(some), size.id) for size, some in blocks if some]
    all_kits = [
        Made(size, ForClass(some, lesson.kits), size.id + KITS)
        for size, some in blocks
        if lesson.students is not None
    ]
    short = _too_few_steps(checked)
    if not (one or all_kits):
        return Outcome(checked, short)
    student = _admitted(checked, one, ask) if one else NONE
    kits = _admitted(checked, all_kits, ask) if all_kits else NONE
    faults = tuple(d for d in (*student.diagnostics, *kits.diagnostics) if d.is_error)
    if faults:
        return Outcome(None, told_once(faults))
    return Outcome(replace(checked, student=student.value, kits=kits.value), short)


def _too_few_steps(checked: CheckedPattern) -> tuple[Diagnostic, ...]:
    """A warning for each session that is to go on until a block, or a step of one, that the class has not: it would go on to
    the end of the block, or sew nothing."""
    return tuple(
        warning(
            "no-such-step",
            f"session `{session.title}` goes on until `{until.told}`, but {told}",
            until.span,
            hint,
        )
        for session in checked.pattern.booklet.lesson.sessions
        if (until := session.until) is not None
        for told, hint in _beyond(checked, until)
    )


def _beyond(checked: CheckedPattern, until: Until) -> Iterator[tuple[str, str]]:
    """What the class has not of where a session ends, and what to write for it."""
    found = list(_steps_in_class(checked, until.block))
    if until.block is not None and not found:
        hint = "name a block that is sewn in class, or leave `until` out"
        yield f"the class does not sew block `{until.block}`", hint
    elif until.step is not None and found and until.step > max(found):
        most = max(found)
        steps = f"{most} step" if most == 1 else f"{most} steps"
        hint = f"write a step up to {most}, or the name of the block alone"
        if until.block is None:
            yield f"no block of the class has more than {steps}", hint
        else:
            yield f"block `{until.block}` has {steps}", hint


def _steps_in_class(checked: CheckedPattern, block: str | None) -> Iterator[int]:
    """How many steps the cards number of a block of that name, or of each block, in every size of the class; no end where
    the blocks of a lattice are joined in cards, which are only made with the plan."""
    pattern = checked.pattern
    for size in pattern.sizes_of_class():
        made = dict(pattern.made_in_class(size))
        if block is None and not made and size.quilt and size.quilt.set is SetKind.LATTICE:
            yield MOST_STEPS
        for of in pattern.sewn_blocks(size):
            if block in (None, of.id) and (not made or of.id in made):
                steps = checked.assemblies[size.id, of.id].steps
                yield max((step.card for step in steps), default=0) + len(of.applied)


class Made(Record):
    """What a class, or a part, makes of a size, and the name under which it is worked out."""

    size: Size
    wanted: ForClass
    id: str

    @property
    def as_size(self) -> Size:
        """The size as it is then made: without a quilt where only blocks are made."""
        quilt = None if self.wanted.blocks else self.size.quilt
        return replace(self.size, id=self.id, in_class=self.wanted, quilt=quilt)


def _admitted(checked: CheckedPattern, made: Sequence[Made], ask: Ask) -> Outcome[CheckedPattern]:
    """Sizes as a class makes them, set, cut and admitted like those of any pattern."""
    alone = replace(made_apart(checked, made), pressings=_pressed(checked.pressings, made))
    set_up = Outcome(alone).then(partial(set_quilts, ask=ask)).then(_few_enough)
    return admit(set_up.then(within_bounds).then(partial(cut, ask=ask)))


def made_apart(checked: CheckedPattern, made: Sequence[Made]) -> PressedPattern:
    """The pattern with other sizes, made of its own, whose blocks are laid out, sewn and pressed as they are in those."""
    return PressedPattern(
        pattern=replace(checked.pattern, sizes=tuple(one.as_size for one in made)),
        tilings=_named(checked.tilings, made),
        assemblies=_named(checked.assemblies, made),
        pressings=_named(checked.pressings, made),
    )


def _named(records: Mapping[BlockKey, R], made: Sequence[Made]) -> dict[BlockKey, R]:
    """What is known of the blocks of some sizes, under the names of those made of them."""
    names = {one.size.id: one.id for one in made}
    return {
        (names[size], block): record for (size, block), record in records.items() if size in names
    }


def _pressed(
    pressings: Mapping[BlockKey, Pressing], made: Sequence[Made]
) -> dict[BlockKey, Pressing]:
    """How blocks are pressed; a class that makes some blocks presses all alike, as the first version."""
    alone = {one.id for one in made if one.wanted.blocks}
    return {
        (size, block): replace(pressing, versions=None) if size in alone else pressing
        for (size, block), pressing in _named(pressings, made).items()
    }


def _few_enough(quilts: SetPattern) -> Outcome[SetPattern]:
    """The same; no value if all kits together have more patches than can be worked with."""
    pieces = {block.id: len(block.members()) for block in quilts.pattern.blocks}
    faults = []
    for quilt in quilts.quilts.values():
        many = quilt.size.kits * sum(pieces[id] * n for id, n in quilt.blocks.items())
        if many > MOST_KIT_PIECES and quilt.size.kits > 1:
            faults.append(
                Diagnostic(
                    code="too-large",
                    message=f"{quilt.size.kits} kits have {many} patches together; at most {MOST_KIT_PIECES} can be worked with",
                    span=_written(quilts.pattern, quilt.size),
                    hint="let each student make fewer blocks, or count fewer students",
                )
            )
    return Outcome(None if faults else quilts, tuple(faults))


def _written(pattern: Pattern, size: Size) -> Span:
    """Where it is written what the class makes of a size."""
    makes = pattern.booklet.lesson.makes
    return makes.span if makes is not None else size.blocks_span


def class_faults(pattern: Pattern) -> Iterator[Diagnostic]:
    """What the class cannot make: blocks that a size has not, one block of several, a size that its editions do not
    show."""
    yield from _without_kit(pattern)
    makes = pattern.booklet.lesson.makes
    if makes is None:
        return
    for edition in pattern.booklet.editions:
        if edition.of_class and makes.size is not None:
            yield from _not_shown(edition, makes, makes.size)
    for size in pattern.sizes_of_class():
        if makes.one_block:
            yield from _which_block(pattern, makes, size)
        for block, _ in makes.blocks:
            if not size.uses(block):
                yield _fault(
                    makes,
                    f"each student makes block `{block}`, but size `{size.id}` has none of it",
                    "name a block that the size has, or leave the size out of `sizes` of the edition with the class",
                )


def _without_kit(pattern: Pattern) -> Iterator[Diagnostic]:
    """A warning where more students have a name than are counted: the last of them get no kit."""
    students = pattern.booklet.lesson.students
    if students is None:
        return
    for edition in pattern.booklet.editions:
        if edition.of_class and len(edition.names) > students:
            of_class = f"the class has {students} student{'' if students == 1 else 's'}"
            yield warning(
                "class-makes",
                f"edition `{edition.id}` has {len(edition.names)} names, but {of_class}: there is no kit for"
                f" `{edition.names[students]}`",
                edition.span,
                f"write `students: {len(edition.names)}`, or take names out",
            )
            return


def _not_shown(edition: Edition, makes: Makes, size: str) -> Iterator[Diagnostic]:
    """A fault where an edition for the class shows other sizes than the one made."""
    if edition.sizes and size not in edition.sizes:
        yield _fault(
            makes,
            f"each student makes size `{size}`, but edition `{edition.id}`, which is for the class, does not show it",
            f"add `{size}` to `sizes` of the edition",
        )


def _which_block(pattern: Pattern, makes: Makes, size: Size) -> Iterator[Diagnostic]:
    """A fault where a size sews several blocks, or none."""
    names = [block.id for block in pattern.sewn_blocks(size)]
    if len(names) == 1:
        return
    known = ", ".join(f"`{name}`" for name in names[:6])
    if names:
        told = f"`one block` does not say which: size `{size.id}` sews {len(names)} kinds ({known})"
        yield _fault(makes, told, f"say which and how many, as in `{{{names[0]}: 1}}`")
    elif pattern.complete:  # else one may have been left out for a fault
        told = f"size `{size.id}` sews no block: each is one patch"
        yield _fault(makes, told, f"write the name of the size, `{size.id}`")


def _fault(makes: Makes, message: str, hint: str) -> Diagnostic:
    return Diagnostic(code="class-makes", message=message, span=makes.span, hint=hint)
