"""Flying geese: a triangle between two of half its size, made four at a time from one large square and four small."""

from __future__ import annotations

from booklet.crafts.figure import near
from booklet.crafts.forms import half_square_triangle
from booklet.crafts.pictures import RISING, SIDE, ClothPiece, LineMeaning, Picture, Stroke, beside
from booklet.crafts.rotary.rotary_sums import (
    four_geese,
    half_square_addition,
    quarter_square_addition,
)
from booklet.crafts.rotary.sums import decimal, rounded, terms
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
from booklet.kit.outlines.plane import rectangle
from booklet.kit.words import Phrase, Text, listing, phrase


def find(joined: JoinedUnit) -> FoundUnit | None:
    """One large triangle and two of half its size of another fabric on its short sides: width and height of the
    unit, the goose's fabric first."""
    parts = joined.parts
    triangles = all(part.form is half_square_triangle.FORM for part in parts)
    if len(parts) != 3 or not triangles or joined.rectangle is None:
        return None
    goose, sky, other = sorted(parts, key=lambda part: -min(part.figure.sides))
    wide, high = max(joined.rectangle), min(joined.rectangle)
    fits = near(wide, 2 * high) and near(max(goose.figure.sides), wide)
    small = all(near(min(part.figure.sides), high) for part in (sky, other))
    if fits and small and sky.fabric == other.fabric != goose.fabric:
        return FoundUnit((wide, high), (goose.fabric, sky.fabric))
    return None


def figures(alike: Alike, asked: UnitAsked) -> TogetherUnit:
    """A quarter-square square for the geese, width + s (2 + 2 √2); four half-square squares, height + s (2 + √2)."""
    ruler, units = asked.ruler, asked.ruler.units
    wide, high = alike.found.sizes
    exact = four_geese(wide, high, ruler.allowance, asked.trim)
    adds = quarter_square_addition(ruler.allowance), half_square_addition(ruler.allowance)
    rounds = -(-alike.count // 4)
    cuts, sums = list[TogetherCut](), list[Text]()
    for k, (size, add, side) in enumerate(zip((wide, high), adds, exact, strict=True)):
        cut, count = ruler.up(side), rounds * (1, 4)[k]
        name, fabric = f"{asked.name}{'ab'[k]}", alike.found.fabrics[k]
        cuts.append(TogetherCut.squares(name, fabric, cut, side, count))
        sums.append(rounded(terms(size, decimal(add, units), asked.trim, units), side, cut, units))
    return made(
        WAY,
        alike,
        asked,
        finished=(wide, high),
        each=4,
        cuts=tuple(cuts),
        oversize=asked.trim,
        sum=listing(sums, "semicolons"),
    )


def steps(_: TogetherUnit, allowance: Text, __: Text) -> tuple[Phrase, ...]:
    """Two small squares first, then one on either half."""
    return (
        phrase("Lay two small squares on opposite corners of a large one, right sides together; they overlap in the middle. Draw the diagonal through both. Sew {allowance} from it on both sides, cut on the line, open the small triangles up and press.", allowance=allowance),
        phrase("Lay a small square on the last corner of each half. Draw its diagonal from the corner, sew on both sides, cut on the line, open and press."),
    )  # fmt: skip


def trim(size: Text) -> Phrase:
    """The point needs its allowance."""
    return phrase("Trim each to {size}, one allowance beyond the point.", size=size)


def pictures(unit: TogetherUnit) -> tuple[Picture, ...]:
    """The large square with two small ones; a half with the third; the unit."""
    small = SIDE * float(unit.cuts[1].cut[0]) / float(unit.cuts[0].cut[0])
    w = SIDE * 0.95
    first = (
        ClothPiece(rectangle(0, 0, SIDE, SIDE), 0),
        ClothPiece(rectangle(SIDE - small, 0, small, small), None),
        ClothPiece(rectangle(0, SIDE - small, small, small), None),
        Stroke(RISING, LineMeaning.DRAWN),
        *beside(*RISING),
    )
    third = (
        ClothPiece(rectangle(0, 0, w, w / 2), 1),
        ClothPiece(((0.0, w / 2), (w / 2, 0.0), (w, w / 2)), 0),
    )
    return ((SIDE, first), _half(small), (w, third))


def _half(small: float) -> Picture:
    """A half of the large square, its small triangles pressed up, with a small square on its corner."""
    h, s = SIDE / 2**0.5, small / 2**0.5
    up, tip = h / 2, (h, h / 2 + h)
    line = (tip, (h, tip[1] - 2 * s))
    marks = (
        ClothPiece(((0.0, up), (2 * h, up), tip), 0),
        ClothPiece(((0.0, up), (h / 2, 0.0), (h, up)), 1),
        ClothPiece(((h, up), (1.5 * h, 0.0), (2 * h, up)), 1),
        ClothPiece((tip, (h - s, tip[1] - s), line[1], (h + s, tip[1] - s)), None),
        Stroke(line, LineMeaning.DRAWN),
        *beside(*line),
    )
    return 2 * h, marks


WAY = Way(
    word="flying geese four at a time",
    choice="four at a time",
    title=phrase("flying geese, four at a time"),
    told=phrase(
        "A large square with small squares on two opposite corners and a line from corner to corner. Seams on both sides of the line. Cut on the line, a small square on the last corner of each half, sewn and cut likewise: four units."
    ),
    figures=figures,
    steps=steps,
    trim=trim,
    picture=pictures,
)
UNIT = Unit(
    key="flying geese",
    rank=20,
    doc="How flying geese are made: from single triangles, or four from one large and four small squares.",
    ways=(WAY,),
    find=find,
    joins="joins a triangle and two of half its size, of one other fabric, to a flying goose",
)
