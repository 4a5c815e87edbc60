"""Floor 11, tables: what to buy and what to cut, one row a thing, for spreadsheets and other programs.

Numbers are numbers; the unit stands in the head, inches and centimetres side by side. Lengths are rounded
up, to 1/1000 in and 1/10 mm, so that no figure is less than what is needed.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction

from booklet.crafts.method import TEMPLATE, Family
from booklet.crafts.rotary.wedges import Diagonal
from booklet.cutting.cutting_plan import CutPatch
from booklet.kit.measure import MM_PER_INCH, Length, Rounding, round_to
from booklet.kit.records import Record
from booklet.kit.words import Phrase, Value, listing, phrase, words_of
from booklet.plan import Plan, SizePlan
from booklet.plan.cuts.cut_words import by_shape
from booklet.plan.cuts.joined import join_sum

Cell = str | int | float | None


class ExportTable(Record):
    """A table: the end of its file's name, its title, the heads of its columns, its rows."""

    name: str
    title: str
    heads: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]


def tables(plan: Plan) -> tuple[ExportTable, ...]:
    """Materials, pieces to cut and strips to cut of all sizes, in the pattern's language."""
    say = words_of(plan.pattern.tongue).say
    return tuple(
        ExportTable(
            name,
            say(title),
            tuple(say(head) for head in heads),
            tuple(row for size in plan.sizes for row in rows(size, say)),
        )
        for name, title, heads, rows in (
            ("materials", phrase("Materials"), _MATERIAL_HEADS, _materials),
            ("cutting", phrase("Cutting"), _CUTTING_HEADS, _cutting),
            ("strips", phrase("Strips"), _STRIP_HEADS, _strips),
        )
    )


Say = Callable[[Value], str]
_CLOTH, _SIZE = phrase("Fabric"), phrase("Size")
_MATERIAL_HEADS: tuple[Phrase, ...] = (
    _SIZE,
    phrase("Material"),
    phrase("Used for"),
    phrase("To buy"),
    phrase("To buy (yd)"),
    phrase("To buy (m)"),
    phrase("Pieces to buy"),
    phrase("Width (in)"),
    phrase("Width (cm)"),
    phrase("Length needed (in)"),
    phrase("Length needed (cm)"),
)
_CUTTING_HEADS: tuple[Phrase, ...] = (
    _SIZE,
    _CLOTH,
    phrase("Piece"),
    phrase("Shape"),
    phrase("How it is cut"),
    phrase("Cut width (in)"),
    phrase("Cut width (cm)"),
    phrase("Cut length (in)"),
    phrase("Cut length (cm)"),
    phrase("Cuts"),
    phrase("Pieces"),
    phrase("Of them reversed"),
    phrase("Cut again from bottom left to top right"),
    phrase("Cut again from top left to bottom right"),
    phrase("Cut again both ways"),
)
_STRIP_HEADS: tuple[Phrase, ...] = (
    _SIZE,
    _CLOTH,
    phrase("Strips"),
    phrase("Strip width (in)"),
    phrase("Strip width (cm)"),
    phrase("Piece"),
    phrase("Pieces these strips give"),
)


def _materials(size: SizePlan, say: Say) -> Iterator[tuple[Cell, ...]]:
    """A row for each cloth, and one for the batting."""
    cloths = {cloth.fabric: cloth for cloth in size.cutting.fabrics}
    for line in size.materials:
        cloth = cloths[line.fabric.id]
        by_length = cloth.buy.count is None
        yield (
            size.size.title,
            line.fabric.name,
            say(listing(line.use, "semicolons")),
            say(line.buy),
            float(cloth.buy.yards) if by_length else None,
            float(cloth.buy.metres) if by_length else None,
            cloth.buy.count,
            *_both(cloth.width),
            *_both(cloth.length),
        )
    if size.quilt.batting is not None:
        wide, long = size.quilt.batting
        name = say(phrase("Batting"))
        yield (size.size.title, name, "", "", None, None, 1, *_both(wide), *_both(long))


def _cutting(size: SizePlan, say: Say) -> Iterator[tuple[Cell, ...]]:
    """A row for each patch or part of each cloth; what is cut by its shape alone has no measures."""
    for patch in size.cutting.patches:
        yield (
            size.size.title,
            size.fabric(patch.fabric).name,
            patch.name if patch.outline is not None else None,
            say(patch.title),
            say(_method(size, patch)),
            *_cut(patch),
            patch.cuts,
            patch.pieces,
            patch.reversed,
            *_cut_again(patch),
        )


def _method(size: SizePlan, patch: CutPatch) -> Value:
    """How it is cut; of a part longer than its cloth is wide the stretches that are joined."""
    made = size.cutting.joined(patch.name)
    if made is None:
        drawn = by_shape(patch) and patch.method.family is not Family.FREE
        return (TEMPLATE if drawn else patch.method).title
    join, parts = made
    sums = [join_sum(join, part, size.pattern.units) for part in dict.fromkeys(parts)]
    return phrase("{method}: {sums}", method=patch.method.title, sums=listing(sums, "semicolons"))


def _cut_again(patch: CutPatch) -> Iterator[Cell]:
    """How many of the cuts are cut on which diagonal, the first figure lying; nothing where none is."""
    for diagonal in (Diagonal.RISING, Diagonal.FALLING, Diagonal.BOTH):
        yield patch.diagonals.get(diagonal, 0) if patch.gives else None


def _cut(patch: CutPatch) -> tuple[Cell, ...]:
    return (*_both(patch.cut[0]), *_both(patch.cut[1]))


def _strips(size: SizePlan, say: Say) -> Iterator[tuple[Cell, ...]]:
    """A row for each kind of strip and thing it gives; the number of strips stands in the first."""
    titles = {(p.fabric, p.name): p.title for p in size.cutting.patches}
    for cloth in size.cutting.fabrics:
        for strip in cloth.strips:
            wide = _both(strip.width)
            name = size.fabric(cloth.fabric).name
            uses = [
                (say(titles.get((cloth.fabric, use.name), use.name)), use.pieces)
                for use in strip.uses
            ]
            for n, (what, pieces) in enumerate(uses or [("", 0)]):
                count = strip.count if n == 0 else None
                yield (size.size.title, name, count, *wide, what, pieces)


def _both(length: Length) -> tuple[float, float]:
    """A length in inches and in centimetres, rounded up to 1/1000 in and 1/10 mm."""
    inches = round_to(length.inches, Fraction(1, 1000), Rounding.UP)
    tenths = round_to(length.inches * MM_PER_INCH, Fraction(1, 10), Rounding.UP)
    return float(inches), float(tenths / 10)
