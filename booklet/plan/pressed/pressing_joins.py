"""Floor 9: pressing where blocks join, in words: two versions of a block, the rows of the top, its borders."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.kit.words import Text, large, listing, phrase, plural_phrase
from booklet.pattern import Size
from booklet.plan.records import VERSIONS
from booklet.pressing.pressing import Demand, Layout, Pressing, Versions
from booklet.quilt.assembling.top_pressing import PressedTop
from booklet.quilt.sized import SizedQuilt


def joining_words(
    size: Size, quilt: SizedQuilt, top: PressedTop | None, meet: bool, versions: bool
) -> Iterator[str]:
    """What is told of joins beside their table. `meet`: seam ends of blocks meet; `versions`: it is told
    already that they nest."""
    if size.quilt is None or top is None:
        return
    if top.slanted and len(top.rows) > 1:
        yield phrase(
            "Slanted rows run from the lower left to the upper right; the first lies at the top left "
            "corner."
        )
    if meet and quilt.joins_nest and not versions:
        yield phrase(
            "Where blocks join, the allowances of seams that meet lie in opposite directions and lock."
        )
    if quilt.seam_clashes:
        yield plural_phrase(
            "At {n} joint between blocks two allowances lie on the same side. Turn one of them over as "
            "you pin, or press it open.",
            "At {n} joints between blocks two allowances lie on the same side. Turn one of them over "
            "as you pin, or press it open.",
            quilt.seam_clashes,
        )
    plain = [phrase("sashes", context="plain")] if quilt.has_sashes else []
    plain += [phrase("borders", context="plain")] if quilt.borders else []
    if any("triangle" in part.shape for part in quilt.parts):
        plain.append(phrase("setting triangles", context="plain"))
    if plain:
        yield phrase(
            "{parts} are plain: the seams of blocks that end at them have nothing to clash with.",
            parts=large(listing(plain)),
        )


def version_words(
    pressing: Pressing, drawn: bool, on_point: bool, is_joined_later: bool = False
) -> Iterator[str]:
    """The second version of a block: how many, how pressed, where; `drawn`: only the plan can show where,
    since other blocks lie between or the set is a lattice; `on_point`: so is the set. `is_joined_later`: in a later
    part, which shows where."""
    versions = pressing.versions
    if versions is None:
        return
    count, other = versions.first, versions.count
    how = (
        plural_phrase(
            "Press {n} block as drawn (version V1) and {other} the other way round: every arrow "
            "reversed (version V2).",
            "Press {n} blocks as drawn (version V1) and {other} the other way round: every arrow "
            "reversed (version V2).",
            count,
            other=other,
        )
        if versions.opposite
        else plural_phrase(
            "Press {n} block as drawn (version V1) and {other} as the picture of version V2 shows "
            "(version V2).",
            "Press {n} blocks as drawn (version V1) and {other} as the picture of version V2 shows "
            "(version V2).",
            count,
            other=other,
        )
    )
    later = phrase(
        "Mark each with its letter: the part in which the quilt is joined shows where it lies."
    )
    where = later if is_joined_later else _laid(versions, drawn, on_point)
    yield listing((how, where), "sentences")
    if not any(conflict.kind is Demand.RIM for conflict in pressing.conflicts):
        yield phrase("V1 and V2 then lock wherever they join.")


def _laid(versions: Versions, drawn: bool, on_point: bool) -> Text:
    """Where the two versions lie."""
    if drawn:
        return phrase("The small plan shows where each lies.")
    first, second = VERSIONS if (0, 0) not in versions.places else VERSIONS[::-1]
    if on_point:
        return phrase(
            "{first} lies in the full rows, {second} in the rows between.",
            first=first,
            second=second,
        )
    if versions.layout is Layout.CHEQUER:
        return phrase(
            "Lay them out like a checkerboard, starting with {first} at the top left.", first=first
        )
    if versions.layout is Layout.ROWS:
        return phrase(
            "Lay them row by row: {first} in the first row, {second} in the next, and so on.",
            first=first,
            second=second,
        )
    return phrase(
        "Lay them column by column: {first} in the first column, {second} in the next, and so on.",
        first=first,
        second=second,
    )
