"""The square in a square: a centre as cut for its own size, and two squares cut once for its four corners."""

from __future__ import annotations

from booklet.crafts.figure import near
from booklet.crafts.forms import half_square_triangle, square
from booklet.crafts.pictures import BESIDE, SIDE, ClothPiece, Mark, Picture, seam
from booklet.crafts.rotary.marks import CutBy, marked
from booklet.crafts.rotary.rotary_sums import half_square_addition, square_in_square
from booklet.crafts.rotary.sums import added, decimal, rounded, terms
from booklet.crafts.unit import (
    Alike,
    FoundUnit,
    JoinedUnit,
    TogetherCut,
    TogetherUnit,
    Unit,
    UnitAsked,
    Way,
    made,
)
from booklet.kit.words import Phrase, Text, listing, phrase


def find(joined: JoinedUnit) -> FoundUnit | None:
    """A square and four triangles of one other fabric, their long sides on its sides: the side of the unit, the
    centre's fabric first."""
    centres = [part for part in joined.parts if part.form is square.FORM]
    corners = [part for part in joined.parts if part.form is half_square_triangle.FORM]
    if len(joined.parts) != 5 or len(centres) != 1 or len(corners) != 4:
        return None
    side = min(centres[0].figure.sides) * 2**0.5
    # A box of twice the centre's area holds the centre and four such triangles in this way only.
    fits = all(near(min(part.figure.sides), side / 2) for part in corners)
    around = {part.fabric for part in corners} - {centres[0].fabric}
    if (
        fits
        and joined.is_box(side, side)
        and len({part.fabric for part in corners}) == len(around) == 1
    ):
        return FoundUnit((side,), (centres[0].fabric, *around))
    return None


def figures(alike: Alike, asked: UnitAsked) -> TogetherUnit:
    """The centre: side / √2 + 2 s, by the ruler where it shows that; the corners: side / 2 + s (2 + √2)."""
    side, ruler, units = alike.found.sizes[0], asked.ruler, asked.ruler.units
    exact = square_in_square(side, ruler.allowance, asked.trim)
    on_ruler = marked(exact[:1], ruler.step)
    by, middle = (on_ruler[0], on_ruler[1][0]) if on_ruler else (CutBy.RULER, ruler.up(exact[0]))
    corner, (centre, around) = ruler.up(exact[1]), alike.found.fabrics
    cuts = (
        TogetherCut.squares(f"{asked.name}a", centre, middle, exact[0], alike.count, by),
        TogetherCut.squares(f"{asked.name}b", around, corner, exact[1], 2 * alike.count),
    )
    plus = decimal(half_square_addition(ruler.allowance), units)
    sums = (
        added(side / 2**0.5, exact[0], middle, units),
        rounded(terms(side / 2, plus, asked.trim, units), exact[1], corner, units),
    )
    return made(
        WAY,
        alike,
        asked,
        finished=(side, side),
        each=1,
        cuts=cuts,
        oversize=asked.trim,
        sum=listing(sums, "semicolons"),
    )


def steps(unit: TogetherUnit, _: Text, __: Text) -> tuple[Phrase, ...]:
    """Two opposite corners, then the others."""
    return (
        phrase("Cut each square {name} once from corner to corner: 2 triangles. Sew two to opposite sides of the square {centre}, middle on middle, so that their points stand out alike at both ends, open them outward and press.", name=unit.cuts[1].name, centre=unit.cuts[0].name),
        phrase("Sew two more to the other sides, open them outward too and press."),
    )  # fmt: skip


def trim(size: Text) -> Phrase:
    """Four points need their allowances."""
    return phrase("Trim each to {size}, one allowance beyond the four points.", size=size)


def pictures(_: TogetherUnit) -> tuple[Picture, ...]:
    """Two corners laid on; these open and two more laid on; the unit."""
    return (
        (SIDE, (*_sewn(), *_laid(0, 2))),
        (SIDE, (*_sewn(0, 2), *_laid(1, 3))),
        (SIDE, _sewn(0, 1, 2, 3)),
    )


_HALF = SIDE / 2
_TIPS = (_HALF, 0.0), (SIDE, _HALF), (_HALF, SIDE), (0.0, _HALF)
_CORNERS = (SIDE, 0.0), (SIDE, SIDE), (0.0, SIDE), (0.0, 0.0)  # between each tip and the next


def _sewn(*places: int) -> tuple[Mark, ...]:
    """The centre, and triangles that are sewn and open."""
    return (
        ClothPiece(_TIPS, 0),
        *(ClothPiece((_TIPS[k], _CORNERS[k], _TIPS[(k + 1) % 4]), 1) for k in places),
    )


def _laid(*places: int) -> tuple[Mark, ...]:
    """Triangles right sides together on the centre, each with its seam."""
    found = list[Mark]()
    for k in places:
        found.append(ClothPiece((_TIPS[k], (_HALF, _HALF), _TIPS[(k + 1) % 4]), None))
        found.append(seam(_TIPS[k], _TIPS[(k + 1) % 4], BESIDE))
    return tuple(found)


WAY = Way(
    word="square in a square",
    choice="yes",
    title=phrase("squares in a square"),
    told=phrase(
        "A square with two triangles sewn to opposite sides. Two more on the other sides. The unit: a square within a square."
    ),
    figures=figures,
    steps=steps,
    trim=trim,
    picture=pictures,
)
UNIT = Unit(
    key="square in a square",
    rank=30,
    doc="Whether a square with four triangles round it is cut as one unit: its centre, and squares cut once "
    "from corner to corner.",
    ways=(WAY,),
    find=find,
    joins="joins a square and four triangles of one other fabric to a square",
)
