"""Floor 9: the joins of a top in cards, where no straight seam does it: the blocks are the parts of a block.

What is sewn in each run, where it turns and stops, is told by the sentences of every step; what a step makes is
told in rows and rings of blocks.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.kit.records import replace
from booklet.kit.words import Phrase, Text, phrase, plural_phrase
from booklet.pattern import By, Pattern, Size
from booklet.plan.cards.frames import rows_joined
from booklet.plan.cards.methods import in_ranges
from booklet.plan.cards.routes import hanging_words
from booklet.plan.cards.sentences import what_to_do
from booklet.plan.naming import Naming
from booklet.plan.records import BlockPlan, StepCard
from booklet.quilt.assembling.joining import NUMBER, JoinedIn, Joining
from booklet.quilt.sized import PlacedBlock
from booklet.sewing.assembly import Assembly, Step

MOST_NAMED = 3  # rows that are named one by one


def top_plan(joining: Joining, pattern: Pattern, size: Size) -> BlockPlan:
    """The top as a block whose patches are blocks, with a card for each kind of join."""
    assembly = joining.pressing.assembly
    naming = Naming.of(assembly, {}, (), pattern.language)
    kinds: dict[int, list[Step]] = {}
    for step in assembly.steps:
        kinds.setdefault(step.card, []).append(step)
    cards = tuple(_card(steps, joining, naming, size) for steps in kinds.values())
    title = phrase("Joining the blocks", context="page")
    return BlockPlan(
        block=replace(joining.block, title=title),
        tiling=assembly.tiling,
        assembly=assembly,
        pressing=joining.pressing,
        cards=cards,
        count=1,
        press_words=(),
        over_papers=size.sewing.papers is not None,
        thread_words=tuple(_threads(assembly)),
    )


def _card(steps: Sequence[Step], joining: Joining, naming: Naming, size: Size) -> StepCard:
    """One card: alike rows once."""
    step = steps[0]
    return StepCard(
        n=step.card,
        step=step,
        steps=tuple(steps),
        title=_title(steps, joining),
        sentences=(
            *_waits(step, joining),
            *_what(step, naming, size.sewing.papers is not None),
            *hanging_words(tuple(steps), naming.assembly),
        ),
        make=len(steps),
        measure=None,
        press=tuple(_pressed(step, joining, papers=size.sewing.papers is not None)),
        warnings=(),
        takes=_takes(step, joining, naming),
        parts=tuple(naming.part(name) for name in step.join),
        total=len(steps),
        makes=_makes(step, joining),
    )


def _what(step: Step, naming: Naming, papers: bool) -> Iterator[Text]:
    """What to do: of rows, the first join and how often it comes again, for they differ in length alone."""
    if not (rows_joined(step, naming.assembly) and any(run.turns for run in step.runs)):
        yield from what_to_do(step, naming, 1, papers)
        return
    if papers:
        yield phrase(
            "Right sides together, edge on edge: whip-stitch from the first point to the last, and fold the papers "
            "at every turn."
        )
    elif step.by is By.HAND:
        yield phrase(
            "By hand: sew from dot 1 to the last dot and turn at every corner. Pass the needle through the "
            "allowances there, never over them, and backstitch where a thread starts and ends."
        )
    else:
        yield phrase(
            "By machine: sew from dot 1 to the last dot and turn at every corner: leave the needle down, lift the "
            "foot and turn the work."
        )
    if not papers:
        yield phrase(
            "Where two strokes part at a dot, spread the earlier seams open there, so that the corner goes in."
        )
    yield plural_phrase(
        "Then the same with {n} more row.", "Then the same with {n} more rows.", len(step.join) - 2
    )


def _is_top(step: Step, joining: Joining) -> bool:
    return len(step.pieces) == len(joining.laid)


def _lines_of(steps: Sequence[Step], joining: Joining) -> tuple[int, ...]:
    """The numbers of the rows that some steps make, from 1 at the top, or of the columns, from 1 at the left."""
    each = {id: _line(at, joining) for id, at in joining.laid.items()}
    first = min(each.values())
    return tuple(sorted({each[step.pieces[0]] - first + 1 for step in steps}))


def _line(at: PlacedBlock, joining: Joining) -> int:
    """The row of a block, or its column where columns are joined."""
    return at.column if joining.order is JoinedIn.COLUMNS else at.row


def _title(steps: Sequence[Step], joining: Joining) -> Phrase:
    """What a card is about: rows, all rows, or a ring about the middle."""
    step = steps[0]
    if joining.order is JoinedIn.MIDDLE:
        if step.n == 1:
            return plural_phrase(
                "Sew {n} block to the middle one",
                "Sew {n} blocks round the middle one",
                len(step.join) - 1,
            )
        return plural_phrase(
            "Add {n} block at the edge", "Add {n} blocks round the edge", len(step.join) - 1
        )
    columns = joining.order is JoinedIn.COLUMNS
    if len(joining.pressing.assembly.steps) > 1 and _is_top(step, joining):
        return phrase("Join the columns") if columns else phrase("Join the rows")
    rows = _lines_of(steps, joining)
    if len(rows) > 1 and len(rows) == len({_line(at, joining) for at in joining.laid.values()}):
        return (
            phrase("Sew the blocks of each column")
            if columns
            else phrase("Sew the blocks of each row")
        )
    named = rows if len(rows) <= MOST_NAMED else in_ranges(rows)
    if columns:
        return plural_phrase(
            "Sew the blocks of column {columns}",
            "Sew the blocks of columns {columns}",
            len(rows),
            columns=named,
        )
    return plural_phrase(
        "Sew the blocks of row {rows}",
        "Sew the blocks of rows {rows}",
        len(rows),
        rows=named,
    )


def _makes(step: Step, joining: Joining) -> Phrase:
    """What stands under the picture of a step."""
    if _is_top(step, joining):
        return phrase("The top")
    if joining.order is JoinedIn.MIDDLE:
        return phrase("The middle of the top")
    return phrase("A column") if joining.order is JoinedIn.COLUMNS else phrase("A row")


def _takes(step: Step, joining: Joining, naming: Naming) -> tuple[Text, ...]:
    """What to take in hand: blocks by their titles, and what was made before."""
    counts: dict[str, int] = {}
    before: list[Text] = []
    for name in step.join:
        made = naming.made_in.get(name)
        if made is None:
            block = joining.laid[name].block
            counts[block] = counts.get(block, 0) + 1
        elif joining.order is JoinedIn.MIDDLE:
            before.append(phrase("the middle (step {step})", step=made.card))
    blocks = (
        phrase("{n} × {title}", n=n, title=_called(block, joining)) for block, n in counts.items()
    )
    in_lines = joining.order is not JoinedIn.MIDDLE
    if in_lines and _is_top(step, joining) and len(naming.made_in) > 1:
        columns = joining.order is JoinedIn.COLUMNS
        return (phrase("all columns") if columns else phrase("all rows"), *blocks)
    return (*before, *blocks)


def _called(block: str, joining: Joining) -> Text:
    """A block by its title; a part block by its number in the picture of the quilt as well."""
    title, letter = joining.titles[block], joining.letters[block]
    if letter.startswith(NUMBER):
        return phrase("{number} ({title})", number=letter, title=title)
    return title


def _waits(step: Step, joining: Joining) -> Iterator[Phrase]:
    """What is laid out before a step, and which way it goes."""
    if joining.order is JoinedIn.MIDDLE:
        yield phrase(
            "Lay the blocks out as the picture of the quilt shows. Sew them on one after the other, clockwise: each "
            "to all that it touches."
        )
    elif _is_top(step, joining) and len(joining.pressing.assembly.steps) > 1:
        yield (
            phrase("Begin at the left, and sew each column to the one before it.")
            if joining.order is JoinedIn.COLUMNS
            else phrase("Begin at the top, and sew each row to those above it.")
        )
    elif joining.order is JoinedIn.COLUMNS:
        yield phrase("Begin at the top, and sew each block to the one above it.")
    else:
        yield phrase("Begin at the left, and sew each block to the one before it.")


def _pressed(step: Step, joining: Joining, papers: bool) -> Iterator[Phrase]:
    """When the joins are pressed: all at the end where every seam stops at its points."""
    pressing = joining.pressing
    if papers:
        return
    if not pressing.at_end:
        yield phrase("Press each allowance as its arrow shows.")
    elif step.n == pressing.assembly.steps[-1].n:
        yield phrase(
            "Now press all joins, from the middle outward: the table of joins says which way."
        )


def _threads(assembly: Assembly) -> Iterator[Phrase]:
    """How many hand threads the joins take."""
    count, least = len(assembly.threads), assembly.fewest_threads
    if not any(sewn.by is By.HAND for sewn in assembly.sewn.values()):
        return
    if count <= least:
        yield plural_phrase(
            "Joining the blocks takes {n} hand thread.",
            "Joining the blocks takes {n} hand threads; in this order of steps no fewer will do.",
            count,
        )
    else:
        yield phrase(
            "Joining the blocks takes {n} hand threads; at least {least} are needed.",
            n=count,
            least=least,
        )
