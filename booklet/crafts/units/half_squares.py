"""Half squares: two triangles sewn to a square, made two, four or eight at a time from two squares."""

from __future__ import annotations

from booklet.crafts.forms import half_square_triangle
from booklet.crafts.pictures import (
    BESIDE,
    FALLING,
    RISING,
    SIDE,
    ClothPiece,
    LineMeaning,
    Mark,
    Picture,
    Stroke,
    beside,
    cut,
    pair,
)
from booklet.crafts.rotary.rotary_sums import (
    eight_half_squares,
    four_half_squares,
    half_square,
    half_square_addition,
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
from booklet.kit.records import replace
from booklet.kit.words import Digits, Phrase, Text, listing, phrase, plural_phrase


def find(joined: JoinedUnit) -> FoundUnit | None:
    """Two half-square triangles of two fabrics: their leg, and the fabrics as they sort."""
    triangles = [part for part in joined.parts if part.form is half_square_triangle.FORM]
    if not len(triangles) == len(joined.parts) == 2:
        return None
    leg = min(triangles[0].figure.sides)
    fabrics = tuple(sorted({part.fabric for part in joined.parts}))
    return FoundUnit((leg,), fabrics) if len(fabrics) == 2 and joined.is_box(leg, leg) else None


def two(alike: Alike, asked: UnitAsked) -> TogetherUnit:
    """A square each, sewn on both sides of one diagonal: leg + s (2 + √2)."""
    leg, ruler = alike.found.sizes[0], asked.ruler
    plus = decimal(half_square_addition(ruler.allowance), ruler.units)
    exact = half_square(leg, ruler.allowance, asked.trim)
    return _made(TWO, 2, alike, asked, exact, terms(leg, plus, asked.trim, ruler.units))


def four(alike: Alike, asked: UnitAsked) -> TogetherUnit:
    """A square each, sewn all round and cut on both diagonals: (leg + 2 s) √2 + 2 s."""
    if alike.count < 4:
        return _too_few(two(alike, asked), alike, 4)
    leg, ruler = alike.found.sizes[0], asked.ruler
    seams = decimal(2 * ruler.s, ruler.units)
    exact = four_half_squares(leg + float(asked.trim), ruler.s)
    text = phrase(
        "({terms}) × √2 + {more}",
        terms=terms(leg, seams, asked.trim, ruler.units),
        more=Digits(seams),
    )
    return _made(FOUR, 4, alike, asked, exact, text)


def eight(alike: Alike, asked: UnitAsked) -> TogetherUnit:
    """A square each, sewn on both sides of both diagonals: twice what two at a time take."""
    if alike.count < 8:
        return _too_few(two(alike, asked), alike, 8)
    leg, ruler = alike.found.sizes[0], asked.ruler
    plus = decimal(half_square_addition(ruler.allowance), ruler.units)
    exact = eight_half_squares(leg, ruler.allowance, asked.trim)
    text = phrase("2 × ({terms})", terms=terms(leg, plus, asked.trim, ruler.units))
    return _made(EIGHT, 8, alike, asked, exact, text)


def _made(
    how: Way, each: int, alike: Alike, asked: UnitAsked, exact: float, text: Text
) -> TogetherUnit:
    """The record, with a square of either fabric for each round."""
    leg, ruler = alike.found.sizes[0], asked.ruler
    side, rounds = ruler.up(exact), -(-alike.count // each)
    cuts = tuple(
        TogetherCut.squares(f"{asked.name}{letter}", fabric, side, exact, rounds)
        for letter, fabric in zip("ab", alike.found.fabrics, strict=True)
    )
    return made(
        how,
        alike,
        asked,
        finished=(leg, leg),
        each=each,
        cuts=cuts,
        oversize=asked.trim,
        sum=rounded(text, exact, side, ruler.units),
    )


def _too_few(unit: TogetherUnit, alike: Alike, asked: int) -> TogetherUnit:
    """The unit made two at a time where the quilt needs fewer than one round of the asked way gives."""
    few = plural_phrase(
        "{n} unit needed, fewer than the {asked} asked for at a time, so made two at a time",
        "{n} units needed, fewer than the {asked} asked for at a time, so made two at a time",
        alike.count,
        asked=asked,
    )
    return replace(unit, sum=listing((unit.sum, few), "semicolons"))


def two_steps(_: TogetherUnit, allowance: Text, __: Text) -> tuple[Phrase, ...]:
    """One diagonal."""
    return (
        phrase("Lay two squares right sides together. Draw one diagonal. Sew {allowance} from it on both sides.", allowance=allowance),
        phrase("Cut on the line. Open both units and press."),
    )  # fmt: skip


def four_steps(_: TogetherUnit, allowance: Text, __: Text) -> tuple[Phrase, ...]:
    """All round."""
    return (
        phrase("Lay two squares right sides together. Sew all round, {allowance} from the edge.", allowance=allowance),
        phrase("Cut on both diagonals. Open the four units and press. Their edges are on the bias: do not pull them."),
    )  # fmt: skip


def eight_steps(_: TogetherUnit, allowance: Text, __: Text) -> tuple[Phrase, ...]:
    """Both diagonals."""
    return (
        phrase("Lay two squares right sides together. Draw both diagonals. Sew {allowance} from each on both sides.", allowance=allowance),
        phrase("Cut across the middle both ways, then on the lines. Open the eight units and press."),
    )  # fmt: skip


def trim(size: Text) -> Phrase:
    """The seam must end in two corners."""
    return phrase("Trim each to {size}, with the seam through its corners.", size=size)


def two_pictures(_: TogetherUnit) -> tuple[Picture, ...]:
    """A line with a seam on either side; the cut; the unit."""
    seams = beside(*RISING)
    return (
        (SIDE, (*pair(), Stroke(RISING, LineMeaning.DRAWN), *seams)),
        (SIDE, (*pair(), *seams, cut(*RISING))),
        _unit(SIDE * 0.8),
    )


def four_pictures(_: TogetherUnit) -> tuple[Picture, ...]:
    """A seam all round; the cuts; the unit."""
    b, far = BESIDE, SIDE - BESIDE
    ring = Stroke(((b, b), (far, b), (far, far), (b, far), (b, b)), LineMeaning.SEAM)
    return (
        (SIDE, (*pair(), ring)),
        (SIDE, (*pair(), ring, cut(*FALLING), cut(*RISING))),
        _unit(SIDE * 0.62),
    )


def eight_pictures(_: TogetherUnit) -> tuple[Picture, ...]:
    """Two lines with a seam on either side of each; the cuts; the unit."""
    lines = Stroke(RISING, LineMeaning.DRAWN), Stroke(FALLING, LineMeaning.DRAWN)
    seams, half = (*beside(*RISING), *beside(*FALLING)), SIDE / 2
    level, upright = cut((0.0, half), (SIDE, half)), cut((half, 0.0), (half, SIDE))
    return (
        (SIDE, (*pair(), *lines, *seams)),
        (SIDE, (*pair(), *seams, level, upright, cut(*RISING), cut(*FALLING))),
        _unit(SIDE * 0.45),
    )


def _unit(side: float) -> Picture:
    """The unit, open."""
    marks: tuple[Mark, ...] = (
        ClothPiece(((0.0, 0.0), (side, 0.0), (0.0, side)), 0),
        ClothPiece(((side, 0.0), (side, side), (0.0, side)), 1),
    )
    return side, marks


TWO = Way(
    word="two at a time",
    choice="two at a time",
    title=phrase("half squares, two at a time"),
    told=phrase(
        "Two squares right sides together with a diagonal line. Two seams beside the line. Cut on the line: two units."
    ),
    figures=two,
    steps=two_steps,
    trim=trim,
    picture=two_pictures,
)
FOUR = Way(
    word="four at a time",
    choice="four at a time",
    title=phrase("half squares, four at a time"),
    told=phrase(
        "Two squares right sides together, sewn all round near the edge. Cut on both diagonals: four units."
    ),
    figures=four,
    steps=four_steps,
    trim=trim,
    picture=four_pictures,
)
EIGHT = Way(
    word="eight at a time",
    choice="eight at a time",
    title=phrase("half squares, eight at a time"),
    told=phrase(
        "Two squares right sides together with both diagonals drawn. Seams on both sides of each. Cut across the middle both ways and on the diagonals: eight units."
    ),
    figures=eight,
    steps=eight_steps,
    trim=trim,
    picture=eight_pictures,
)
UNIT = Unit(
    key="half squares",
    rank=10,
    doc="How units of two half-square triangles are made; from single triangles if left out.",
    ways=(TWO, FOUR, EIGHT),
    find=find,
    joins="joins two half-square triangles of two fabrics to a square",
)
