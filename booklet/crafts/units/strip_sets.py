"""Strip sets: rows of squares and rectangles, cut across from strips that are sewn together along their length."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.crafts.forms import rectangle as oblong, square
from booklet.crafts.pictures import SIDE, ClothPiece, Mark, Picture, cut
from booklet.crafts.rotary.marks import CutBy, marked
from booklet.crafts.rotary.ruler import Ruler
from booklet.crafts.rotary.sums import decimal, say
from booklet.crafts.unit import (
    Alike,
    FoundUnit,
    JoinedUnit,
    TogetherCut,
    TogetherUnit,
    Unfit,
    Unit,
    UnitAsked,
    UnitPart,
    Way,
    made,
)
from booklet.kit.measure import Length
from booklet.kit.outlines.near import SAME_LENGTH
from booklet.kit.outlines.plane import box_of, extent, rectangle
from booklet.kit.trade import STRAIGHTENING
from booklet.kit.words import Digits, Phrase, Text, phrase, plural_phrase

LEAST_SEGMENTS = 4
"""A strip set is worth sewing from so many cuts across it; common practice."""


def find(joined: JoinedUnit) -> FoundUnit | None:
    """Squares and rectangles of one height in a row, of more than one fabric: the height it is cut across at, then
    the widths of its strips, from the end that sorts first."""
    boxes = all(part.form in (square.FORM, oblong.FORM) for part in joined.parts)
    along = _line(joined.parts) if boxes else None
    if along is None or len({part.fabric for part in joined.parts}) == 1:
        return None
    row = sorted(joined.parts, key=lambda part: min(p[along] for p in part.figure.corners))
    widths = tuple(extent(part.figure.corners)[along] for part in row)
    fabrics = tuple(part.fabric for part in row)
    high = extent(row[0].figure.corners)[1 - along]
    area = sum(part.figure.sides[0] * part.figure.sides[1] for part in row)
    if abs(sum(widths) * high - area) >= SAME_LENGTH:  # turned, so that no side is upright
        return None
    ends = ((widths, fabrics), (widths[::-1], fabrics[::-1]))
    first = min(ends, key=lambda end: (tuple(round(width, 4) for width in end[0]), end[1]))
    return FoundUnit((high, *first[0]), first[1])


def _line(parts: Sequence[UnitPart]) -> int | None:
    """Whether parts stand in a row across the page (0) or down it (1), all of one height; None for neither."""
    for along in (0, 1):
        boxes = [box_of(part.figure.corners) for part in parts]
        starts, ends = [box[1 - along] for box in boxes], [box[3 - along] for box in boxes]
        if max(max(far) - min(far) for far in (starts, ends)) <= SAME_LENGTH:
            return along
    return None


def on_ruler(alike: Alike, ruler: Ruler) -> tuple[CutBy, tuple[Length, ...]] | None:
    """By what a strip set is cut, and at what: across, then its strips; None where a figure lies between
    half marks, since strips are sewn raw edge to raw edge."""
    return marked([size + 2 * ruler.s for size in alike.found.sizes], ruler.step)


def figures(alike: Alike, asked: UnitAsked) -> TogetherUnit | None:
    """Strips sewn together along their length and cut across; None where it is not worth it, or where the
    ruler does not show how wide."""
    ruler, units = asked.ruler, asked.ruler.units
    shown = on_ruler(alike, ruler)
    if shown is None:
        return None
    by, (across, *wide) = shown
    high, *widths = alike.found.sizes
    usable = min(asked.widths[fabric] for fabric in alike.found.fabrics)
    straighten, both = STRAIGHTENING.said_in(units), 2 * ruler.s
    full = int((usable - straighten).inches / across.inches)
    if alike.count < LEAST_SEGMENTS or full < 2:
        return None
    rounds = -(-alike.count // full)
    each = -(-alike.count // rounds)  # sets of one length, none longer than is wanted
    length = straighten + each * across
    cuts = tuple(
        TogetherCut(
            name=f"{asked.name}{chr(97 + k)}",
            fabric=fabric,
            cut=(length, cut),
            count=rounds,
            exact=(float(length), width + both),
            by=by,
        )
        for k, (width, cut, fabric) in enumerate(
            zip(widths, wide, alike.found.fabrics, strict=True)
        )
    )
    text = plural_phrase(
        "cut across every {finished} finished + {more} = {across}; ({width} − {straighten} to "
        "straighten) ÷ {across} = {full} from a set; {count} needed, so {n} set",
        "cut across every {finished} finished + {more} = {across}; ({width} − {straighten} to "
        "straighten) ÷ {across} = {full} from a set; {count} needed, so {n} sets of {each}",
        rounds,
        finished=Digits(decimal(high, units)),
        more=Digits(decimal(both, units)),
        across=Digits(say(across.inches, units)),
        width=Digits(say(usable.inches, units)),
        straighten=Digits(say(straighten.inches, units)),
        full=full,
        each=each,
        count=alike.count,
    )
    return made(
        WAY,
        alike,
        asked,
        finished=(sum(widths), high),
        each=each,
        cuts=cuts,
        across=across,
        sum=text,
    )


def unfit(alike: Sequence[Alike], ruler: Ruler, size: str) -> Unfit:
    """Strips between the marks of the ruler, or too few segments."""
    if not any(on_ruler(kind, ruler) for kind in alike):
        return Unfit(
            f"finds no unit: in size `{size}` their strips lie between the marks of the ruler",
            "choose a `unit` at which they lie on the ruler",
        )
    return Unfit(
        f"finds too few units: at most `{max(kind.count for kind in alike)}` are alike in size `{size}`, and a"
        f" strip set is worth sewing from `{LEAST_SEGMENTS}` that its cloth is long enough for",
        "make a larger size",
    )


def steps(unit: TogetherUnit, _: Text, across: Text) -> tuple[Phrase, ...]:
    """All strips, in the order of their letters."""
    names = "".join(part.name.removeprefix(unit.name) for part in unit.cuts)
    return (
        plural_phrase(
            "Sew the strips together along their length in the order of their letters ({names}): {n} strip set. Press the seams as the step with {unit} shows. Straighten one end and cut across every {across}. Pieces for which that step tells another way are pressed anew.",
            "Sew the strips together along their length in the order of their letters ({names}): {n} strip sets. Press the seams as the step with {unit} shows. Straighten one end of each and cut across every {across}. Pieces for which that step tells another way are pressed anew.",
            unit.rounds,
            names=names,
            unit=unit.name,
            across=across,
        ),
    )  # fmt: skip


def trim(size: Text) -> Phrase:
    """A figure rounded up is cut off at the end."""
    return phrase("Trim each to {size}, with the seam through its corners.", size=size)


def pictures(unit: TogetherUnit) -> tuple[Picture, ...]:
    """The strips with the cuts across them; a segment."""
    heights = [float(part.exact[1]) for part in unit.cuts]
    scale = SIDE * 1.15 / sum(heights)
    across = float(unit.across or unit.trimmed[1]) * scale
    shown = max(2, min(4, int(46.0 / across)))
    wide = 2.0 + shown * across
    total = sum(high * scale for high in heights)
    cuts = [
        cut((x, 0.0), (x, total)) for k in range(shown + 1) if (x := 2.0 + k * across) < wide + 0.1
    ]
    return ((wide, (*_rows(heights, scale, wide), *cuts)), (across, _rows(heights, scale, across)))


def _rows(heights: Sequence[float], scale: float, wide: float) -> tuple[Mark, ...]:
    """Strips of these heights one below the other."""
    found, y = list[Mark](), 0.0
    for k, high in enumerate(heights):
        found.append(ClothPiece(rectangle(0, y, wide, high * scale), k))
        y += high * scale
    return tuple(found)


WAY = Way(
    word="strip sets",
    choice="yes",
    title=phrase("rows from strip sets"),
    told=phrase("Strips sewn together along their length and cut across into equal segments."),
    figures=figures,
    steps=steps,
    trim=trim,
    picture=pictures,
    from_strips=True,
)
UNIT = Unit(
    key="strip sets",
    rank=40,
    doc="Whether rows of squares and rectangles are cut across from strips sewn together, where that is "
    "worth it.",
    ways=(WAY,),
    find=find,
    joins="joins squares and rectangles of two or more fabrics to a row",
    unfit=unfit,
)
