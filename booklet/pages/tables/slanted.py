"""Floor 11: the page of a quilt set on point: what is said before its rows and after them."""

from __future__ import annotations

from markupsafe import Markup

from booklet.kit.records import Record
from booklet.kit.words import listing, phrase
from booklet.pages.tables.joining import Named
from booklet.pages.texts.words import Words
from booklet.plan import SizePlan
from booklet.plan.top.slanted_words import slanted_lines, slanted_of, tops_told


class SlantedView(Record):
    """A set on point: what to do, its rows, and what comes after them."""

    lead: Markup
    rows: tuple[Named, ...]
    after: Markup


def slanted_view(plan: SizePlan, words: Words) -> SlantedView | None:
    """The rows of a set on point as the page says them; None of any other set."""
    found = slanted_of(plan)
    if found is None:
        return None
    lines = slanted_lines(plan, found)
    rows = tuple(Named(words.markup(line.name), words.markup(line.words)) for line in lines)
    if len(found.rows) == 1:
        lead = words.phrase(
            "Lay the block and its triangles out as drawn. Sew two corner triangles to opposite sides of the block and press, then the other two."
        )
        return SlantedView(lead, rows, words.markup(listing(tops_told(plan), "sentences")))
    corners = phrase(
        "Last of all sew on the corner triangles: one along the first row, one along the last, and two where a row ends in a corner."
    )
    even = phrase(
        "The triangles are cut a little large: when the rows are joined, cut the edge straight all round, one"
        " allowance outside the finished edge that the picture shows."
    )
    after = listing((*tops_told(plan), corners, even), "sentences")
    return SlantedView(_lead(plan, words), rows, words.markup(after))


def _lead(plan: SizePlan, words: Words) -> Markup:
    """What to do, of rows that are pressed in opposite directions or not, with sashes or without."""
    sashed = plan.size.quilt is not None and plan.size.quilt.sashing is not None
    if sashed:
        return words.phrase(
            "Lay everything out as drawn before you join any. Sew the rows listed, each from its lower left end to its upper right one, then join rows of blocks and rows of sashes by turns."
        )
    if plan.top is not None and plan.top.rows_opposed:
        return words.phrase(
            "Lay all blocks and triangles out as drawn before you join any. Sew the slanted rows listed, each from its lower left end to its upper right one, press the rows in opposite directions, then join them."
        )
    return words.phrase(
        "Lay all blocks and triangles out as drawn before you join any. Sew the slanted rows listed, each from its lower left end to its upper right one, then join them."
    )
