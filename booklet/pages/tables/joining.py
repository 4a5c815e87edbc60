"""Floor 11, joining: rows of blocks, borders and the back in words."""

from __future__ import annotations

from itertools import groupby

from markupsafe import Markup

from booklet.cutting.cutting_plan import LAST_WIDTH
from booklet.kit.measure import Length
from booklet.kit.outlines.polygon import without_straight_points
from booklet.kit.records import Record
from booklet.kit.words import (
    Phrase,
    Text,
    area_text,
    exactly,
    listing,
    phrase,
    plural_phrase,
    with_unit,
)
from booklet.pages.tables.view import to_cut
from booklet.pages.texts.words import Words
from booklet.pattern import Centre, SetKind
from booklet.plan import SizePlan
from booklet.plan.cuts.joined import joined_words
from booklet.plan.top.border_words import border_added, border_width
from booklet.plan.top.sash_words import sash_words
from booklet.quilt.sized import BackingPlan, BorderPlan


class Named(Record):
    """A line with its name, as of a row of blocks."""

    name: Markup
    words: Markup


class JoinedFirst(Record):
    """What is done with strips that are joined first, and a sum for each length they are joined to."""

    begin: Markup
    sums: tuple[Markup, ...]


class BorderLine(Record, kw_only=True):
    """A border: its name and width, the strips to join for it, how they are added, what the top then measures."""

    name: Markup
    width: Markup
    joins: tuple[JoinedFirst, ...]
    words: Markup
    after: Markup


def block_rows(plan: SizePlan, words: Words) -> tuple[Named, ...]:
    """The rows of blocks in words; alike rows are said once."""
    by_row: dict[int, list[tuple[int, str, int]]] = {}
    for placed in plan.quilt.placed:
        by_row.setdefault(placed.row, []).append((placed.column, placed.block, placed.turn))
    alike: dict[Text, list[int]] = {}
    for number, row in enumerate(sorted(by_row), 1):
        alike.setdefault(_row_words(plan, sorted(by_row[row])), []).append(number)
    return tuple(
        Named(words.markup(_row_name(numbers, len(by_row))), words.markup(line))
        for line, numbers in alike.items()
    )


def _row_name(numbers: list[int], rows: int) -> Text:
    """The name of alike rows: "Row 1", "Rows 1, 3 and 5", "Every row"."""
    if len(numbers) == rows > 1:
        return phrase("Every row")
    return plural_phrase("Row {rows}", "Rows {rows}", len(numbers), rows=tuple(numbers))


def _row_words(plan: SizePlan, row: list[tuple[int, str, int]]) -> Text:
    """One row from left to right, repeats counted."""
    titles = {block.block.id: block.block.title for block in plan.blocks}
    parts: list[Text] = []
    for (block, turn), group in groupby((block, turn) for _, block, turn in row):
        count = len(list(group))
        title: Text = titles.get(block, block)
        if turn:
            title = phrase("{title} (turned {turn} degrees clockwise)", title=title, turn=turn)
        parts.append(phrase("{n} × {title}", n=count, title=title) if count > 1 else title)
    return listing(parts, "commas")


def one_line(plan: SizePlan) -> Phrase | None:
    """How blocks of a straight set are laid and joined that are one row, or one column without sashes beside it; None
    of others."""
    quilt, size = plan.size.quilt, plan.size
    if quilt is None or quilt.set is not SetKind.STRAIGHT or len(plan.quilt.placed) < 2:
        return None
    if size.down == 1:
        return phrase("Lay all blocks out as drawn before you join any. Sew them into one row.")
    if size.across == 1 and not (quilt.sashing is not None and quilt.sashing.outside):
        return phrase(
            "Lay all blocks out as drawn before you join any. Sew them into one column, from the top down."
        )
    return None


def turning_edges(plan: SizePlan) -> bool:
    """Whether blocks meet along edges that turn corners, as flowers of hexagons do: in a lattice, all whose
    outline has more than four corners."""
    if plan.size.quilt is None or plan.size.quilt.set is not SetKind.LATTICE:
        return False
    outlines = (block.tiling.outline.points for block in plan.blocks)
    return any(len(without_straight_points(points)) > 4 for points in outlines)


def joins_turn(plan: SizePlan) -> bool:
    """Whether a join of the top turns a corner, so that seams of the blocks have to stop there."""
    steps = plan.joining.assembly.steps if plan.joining is not None else ()
    return any(run.turns for step in steps for run in step.runs)


def edge_words(plan: SizePlan) -> Phrase | None:
    """Where the finished edge of a filled rim lies, from the middle of the top; None where nothing is cut off."""
    filled = plan.size.quilt.filled if plan.size.quilt is not None else None
    if filled is None or plan.quilt.kept is None:
        return None
    middle = {
        Centre.BLOCK: phrase("in the middle of a block"),
        Centre.GAP: phrase("half way between two blocks"),
        Centre.CORNER: phrase("at a corner where blocks meet"),
    }[filled.centre]
    units, (_, _, width, height) = plan.pattern.units, filled.frame
    return phrase(
        "The middle of the top lies {middle}; from there the finished edge lies {across} to either side, {along} above "
        "and below.",
        middle=middle,
        across=with_unit(width / 2, units),
        along=with_unit(height / 2, units),
    )


def border_words(plan: SizePlan, words: Words, border: BorderPlan) -> BorderLine:
    """One border: what to cut, how to add it, what the top then measures."""
    units = plan.pattern.units
    fabric = plan.fabric(border.fabric).name
    ends, sides = (to_cut(plan.pattern, side) for side in (border.lengths[0], border.lengths[-1]))
    name = f"border {border.number}"
    parts = (
        (f"{name} sides", phrase("the sides", context="for …")),
        (f"{name} top and bottom", phrase("top and bottom", context="for …")),
    )
    together = (parts,) if len(border.widths) == 1 else tuple((part,) for part in parts)
    joined = (joined_words(plan.cutting, of, units) for of in together)
    return BorderLine(
        name=words.phrase("Border {n}: {fabric}", n=border.number, fabric=fabric),
        words=words.markup(border_added(border, sides, ends, units)),
        width=words.markup(border_width(border, units)),
        after=words.phrase(
            "The top now measures {size} from raw edge to raw edge.",
            size=raw_size(plan, border.outside),
        ),
        joins=tuple(
            JoinedFirst(
                words.markup(phrase("{begin}:", begin=of.begin)),
                tuple(words.markup(line) for line in of.sums),
            )
            for of in joined
            if of
        ),
    )


def raw_size(plan: SizePlan, finished: tuple[Length, Length]) -> Phrase:
    """What a top measures under the ruler: an allowance lies beyond its finished edge on every side."""
    both = 2 * plan.pattern.allowance
    return area_text((finished[0] + both, finished[1] + both), plan.pattern.units)


def sashing_words(plan: SizePlan, words: Words) -> tuple[Markup, ...]:
    """How the sashes of a straight set are sewn, sentence by sentence; long ones are joined from strips before they
    are sewn between the rows."""
    said = [words.markup(sentence) for sentence in sash_words(plan.size)]
    long = _long_sash_words(plan, words)
    return (*said[:-1], long, *said[-1:]) if long else tuple(said)


def _long_sash_words(plan: SizePlan, words: Words) -> Markup:
    """How the long sashes are joined from strips; nothing where each is cut in one."""
    named = [
        (part.name, phrase("the long sashes", context="for …"))
        for part in plan.quilt.parts
        if part.name.startswith("long sash")
    ]
    joined = joined_words(plan.cutting, named, plan.pattern.units)
    return words.markup(joined.sentence) if joined is not None else Markup()


def backing_words(plan: SizePlan, words: Words) -> Markup:
    """How the panels of the backing are cut and joined."""
    backing, units = plan.quilt.backing, plan.pattern.units
    if backing is None:
        return Markup()
    size = area_text(backing.size, units)
    if backing.widths == 1:
        if backing.turned:
            return words.phrase("Cut the backing {size}, its height across the cloth.", size=size)
        return words.phrase("Cut the backing {size}.", size=size)
    return words.markup(
        listing((*_panels(plan, backing), _joined_back(plan, backing)), "sentences")
    )


def _panels(plan: SizePlan, backing: BackingPlan) -> tuple[Text, ...]:
    """What to cut for a back of several panels."""
    panels = plan.cutting.panels
    long = to_cut(plan.pattern, panels[0][1] if panels else backing.size[1])
    cut = plural_phrase(
        "For the backing cut {n} length of cloth, {long} long, and cut off the selvedges.",
        "For the backing cut {n} lengths of cloth, each {long} long, and cut off the selvedges.",
        backing.widths - 1 if backing.strips else backing.widths,
        long=long,
    )
    if backing.strips and panels:
        return cut, _last_panel(plan, panels[-1])
    if panels and panels[-1][0] < panels[0][0]:
        last = to_cut(plan.pattern, panels[-1][0])
        return cut, phrase("Cut the last one {width} wide.", width=last)
    return (cut,)


def _last_panel(plan: SizePlan, panel: tuple[Length, Length]) -> Text:
    """How the last panel of a back is made from strips across the cloth: its length and width."""
    named = [(LAST_WIDTH, phrase("the last panel", context="for …"))]
    joined = joined_words(plan.cutting, named, plan.pattern.units)
    if joined is not None:
        return joined.sentence
    width, long = (to_cut(plan.pattern, side) for side in reversed(panel))
    return phrase(
        "For the last panel cut a strip {width} wide across the cloth, {long} long.",
        width=width,
        long=long,
    )


def _joined_back(plan: SizePlan, backing: BackingPlan) -> Text:
    """How the panels of a back are joined, and to which size they are trimmed."""
    units = plan.pattern.units
    seam, size = exactly(backing.allowance, units), area_text(backing.size, units)
    if backing.strips:
        return _joined_long_sides(backing.turned, seam, size)
    if backing.turned:
        return phrase(
            "Join them along their selvedge sides with seams of {seam} that run across the quilt, press the seams open, and trim the back to {size}.",
            seam=seam,
            size=size,
        )
    return phrase(
        "Join them along their selvedge sides with seams of {seam} that run down the quilt, press the seams open, and trim the back to {size}.",
        seam=seam,
        size=size,
    )


def _joined_long_sides(turned: bool, seam: Text, size: Text) -> Text:
    """How panels are joined of which the last was joined from strips, so that it has no selvedge sides."""
    if turned:
        return phrase(
            "Join all along their long sides with seams of {seam} that run across the quilt, press the seams open, and trim the back to {size}.",
            seam=seam,
            size=size,
        )
    return phrase(
        "Join all along their long sides with seams of {seam} that run down the quilt, press the seams open, and trim the back to {size}.",
        seam=seam,
        size=size,
    )
