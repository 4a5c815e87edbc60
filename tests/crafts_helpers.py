"""Helpers for the tests of crafts: a form asked by itself, with plain values in and figures out."""

from __future__ import annotations

from fractions import Fraction

from booklet.crafts.figure import figure_of
from booklet.crafts.forms import FORMS, recognised
from booklet.crafts.rotary.cuts import Wanted
from booklet.crafts.rotary.ruler import Ruler
from booklet.crafts.unit import Alike, FoundUnit, JoinedUnit, UnitAsked, UnitPart
from booklet.kit.measure import Extent, Length

INCH = Length.of(1)
RULER = Ruler(allowance=Length.of("1/4"), units="inch")


def corners(word, **sizes):
    """The corners of a form, its sizes in inches."""
    return FORMS[word].laid_out(given(sizes), INCH)


def given(sizes):
    """Sizes as the source gives them: angle and sides as numbers, all else as lengths."""
    return {
        name: value if name in ("angle", "sides") else Extent(Fraction(value), in_units=False)
        for name, value in sizes.items()
    }


def seen(points, grain=None):
    """The form of an outline, the word for it, and the side of its usual grain (from 0)."""
    form, found = recognised(figure_of(points), grain)
    return form.word, str(found.name), found.side


def cut(word, *, pieces=4, reversed=0, grain=None, ruler=RULER, **sizes):
    """How a form is cut; with a grain (degrees clockwise from up), so that it runs there."""
    outline = corners(word, **sizes)
    want = Wanted(
        letter="A", outline=outline, laid=None, turns=4, grain=grain or 0.0, wished=grain is not None,
        pieces=pieces, reversed=reversed,
    )  # fmt: skip
    return FORMS[word].cut(want, figure_of(outline), ruler)


def figures(made):
    """What is cut first, as printed."""
    return tuple(map(str, made.cut))


def joined(*parts, box):
    """A unit of (outline, fabric) pairs as a step joins it; `box` its sides where it is a rectangle."""
    figures = [(figure_of(points), fabric) for points, fabric in parts]
    return JoinedUnit(
        tuple(UnitPart(recognised(figure, None)[0], figure, fabric) for figure, fabric in figures),
        box,
    )


def kind(sizes, fabrics, count):
    """Alike units, so many of them."""
    return Alike(FoundUnit(sizes, fabrics), (("b", frozenset("xy")),), count)


def asked(trim="0"):
    """A kind named U1, on cloth 40 in wide."""
    return UnitAsked(
        "U1", Length.of(trim), RULER, {id: Length.of(40) for id in ("ink", "sand", "sky")}
    )


def cuts(made):
    """The fabric, the first figure and the number of what is cut."""
    return [(cut.fabric, str(cut.cut[0]), cut.count) for cut in made.cuts]
