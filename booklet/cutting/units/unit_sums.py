"""Floor 7: the figures of units made together: what to cut for them, with the sum of each.

The figures grow from the finished unit by exact geometry and are rounded up to the ruler.
"""

from __future__ import annotations

from booklet.crafts.marks import By, marked
from booklet.crafts.rotary_sums import (
    eight_half_squares,
    four_geese,
    four_half_squares,
    half_square,
    half_square_addition,
    quarter_square_addition,
    square_in_square,
)
from booklet.crafts.ruler import Ruler
from booklet.crafts.sums import added, decimal, say
from booklet.cutting.units.together_plan import Together, TogetherCut, TogetherUnit
from booklet.cutting.units.unit_kinds import UnitKind, as_unit
from booklet.kit.trade import STRAIGHTENING
from booklet.measure import ZERO, Length, UnitSystem
from booklet.quilt.sized import SizedQuilt
from booklet.words import Digits, Text, listing, phrase, plural_phrase

LEAST_SEGMENTS = 4
"""A strip set is worth sewing from so many cuts across it; common practice."""


def half_square_units(
    kind: UnitKind, way: tuple[Together, int], trim: Length, ruler: Ruler, name: str
) -> TogetherUnit:
    """Two squares right sides together, sewn beside the diagonals or all round; two at a time where the
    quilt needs fewer units than one round of the asked way gives, which the sum then says."""
    asked = way[1]
    how, each = way if kind.count >= asked else (Together.TWO, 2)
    leg, s, more = kind.model.sizes[0], ruler.s, float(trim)
    u = ruler.units
    plus = decimal(half_square_addition(ruler.allowance), u)
    terms: Text
    match how:
        case Together.FOUR:
            exact = four_half_squares(leg + more, s)
            seams = decimal(2 * s, u)
            terms = phrase(
                "({terms}) × √2 + {more}", terms=_terms(leg, seams, trim, u), more=Digits(seams)
            )
        case Together.EIGHT:
            exact = eight_half_squares(leg, ruler.allowance, trim)
            terms = phrase("2 × ({terms})", terms=_terms(leg, plus, trim, u))
        case _:
            exact = half_square(leg, ruler.allowance, trim)
            terms = _terms(leg, plus, trim, u)
    cut = ruler.up(exact)
    rounds = -(-kind.count // each)
    cuts = tuple(
        TogetherCut(f"{name}{letter}", fabric, (cut, cut), rounds, (exact, exact))
        for letter, fabric in zip("ab", kind.model.fabrics, strict=True)
    )
    text = _rounded(terms, exact, cut, u)
    if each < asked:
        few = plural_phrase(
            "{n} unit needed, fewer than the {asked} asked for at a time, so made two at a time",
            "{n} units needed, fewer than the {asked} asked for at a time, so made two at a time",
            kind.count,
            asked=asked,
        )
        text = listing((text, few), "semicolons")
    return as_unit(name, how, kind, (leg, leg), each, cuts, None, trim, text, ruler)


def geese(kind: UnitKind, trim: Length, ruler: Ruler, name: str) -> TogetherUnit:
    """One large square and four small ones for four flying geese."""
    wide, high = kind.model.sizes
    u = ruler.units
    adds = quarter_square_addition(ruler.allowance), half_square_addition(ruler.allowance)
    exact = four_geese(wide, high, ruler.allowance, trim)
    cut = ruler.up(exact[0]), ruler.up(exact[1])
    rounds = -(-kind.count // 4)
    goose, sky = kind.model.fabrics
    cuts = (
        TogetherCut(f"{name}a", goose, (cut[0], cut[0]), rounds, (exact[0], exact[0])),
        TogetherCut(f"{name}b", sky, (cut[1], cut[1]), 4 * rounds, (exact[1], exact[1])),
    )
    sums = (
        _rounded(_terms(f, decimal(a, u), trim, u), e, c, u)
        for f, a, e, c in zip((wide, high), adds, exact, cut, strict=True)
    )
    text = listing(sums, "semicolons")
    return as_unit(name, Together.GEESE, kind, (wide, high), 4, cuts, None, trim, text, ruler)


def square_in_square_units(kind: UnitKind, trim: Length, ruler: Ruler, name: str) -> TogetherUnit:
    """A centre square as cut for its own size, and two squares cut once for its four corners."""
    side, u = kind.model.sizes[0], ruler.units
    centre, leg = side / 2**0.5, side / 2
    exact = square_in_square(side, ruler.allowance, trim)
    found = marked(exact[:1], ruler.step)
    by, middle = (found[0], found[1][0]) if found else (By.RULER, ruler.up(exact[0]))
    cut = middle, ruler.up(exact[1])
    cuts = tuple(
        TogetherCut(f"{name}{letter}", fabric, (c, c), n * kind.count, (e, e), by_)
        for letter, fabric, n, c, e, by_ in zip(
            "ab", kind.model.fabrics, (1, 2), cut, exact, (by, By.RULER), strict=True
        )
    )
    plus = decimal(half_square_addition(ruler.allowance), u)
    sums = (
        added(centre, exact[0], cut[0], u),
        _rounded(_terms(leg, plus, trim, u), exact[1], cut[1], u),
    )
    text = listing(sums, "semicolons")
    return as_unit(name, Together.SQUARE, kind, (side, side), 1, cuts, None, trim, text, ruler)


def _terms(finished: float, more: str, trim: Length, units: UnitSystem) -> Text:
    """The terms of a cut size: "3 finished + 7/8 + 1/4 to trim"."""
    if trim > ZERO:
        return phrase(
            "{finished} finished + {more} + {trim} to trim",
            finished=Digits(decimal(finished, units)),
            more=Digits(more),
            trim=Digits(say(trim.inches, units)),
        )
    return phrase(
        "{finished} finished + {more}", finished=Digits(decimal(finished, units)), more=Digits(more)
    )


def _rounded(terms: Text, exact: float, cut: Length, units: UnitSystem) -> Text:
    """A sum that is rounded up to what a ruler shows."""
    return phrase(
        "{terms} = {exact}, rounded up {cut}",
        terms=terms,
        exact=Digits(decimal(exact, units)),
        cut=Digits(say(cut.inches, units)),
    )


def strip_figures(kind: UnitKind, ruler: Ruler) -> tuple[By, tuple[Length, ...]] | None:
    """By what a strip set is cut, and at what: across, then its strips; None where a figure lies between
    half marks, since strips are sewn raw edge to raw edge."""
    return marked([size + 2 * ruler.s for size in kind.model.sizes], ruler.step)


def strip_set(kind: UnitKind, quilt: SizedQuilt, ruler: Ruler, name: str) -> TogetherUnit | None:
    """Strips sewn together along their length and cut across; None where it is not worth it, or where the
    ruler does not show how wide."""
    high, *widths = kind.model.sizes
    both, u = 2 * ruler.s, ruler.units
    found = strip_figures(kind, ruler)
    if found is None:
        return None
    by, (across, *wide) = found
    usable = min(quilt.size.fabrics[fabric].width for fabric in kind.model.fabrics)
    straighten = STRAIGHTENING.said_in(u)
    each = int((usable - straighten).inches / across.inches)
    if kind.count < LEAST_SEGMENTS or each < 2:
        return None
    full, rounds = each, -(-kind.count // each)
    if rounds == 1:  # a short set, which gives no more than is wanted
        each = kind.count
    length = straighten + each * across if rounds == 1 else usable
    cuts = tuple(
        TogetherCut(
            f"{name}{chr(97 + k)}",
            fabric,
            (length, cut),
            rounds,
            (float(length), width + both),
            by,
        )
        for k, (width, cut, fabric) in enumerate(zip(widths, wide, kind.model.fabrics, strict=True))
    )
    text = plural_phrase(
        "cut across every {finished} finished + {more} = {across}; ({width} - {straighten} to "
        "straighten) / {across} = {each} from a set; {count} needed, so {n} set",
        "cut across every {finished} finished + {more} = {across}; ({width} - {straighten} to "
        "straighten) / {across} = {each} from a set; {count} needed, so {n} sets",
        rounds,
        finished=Digits(decimal(high, u)),
        more=Digits(decimal(both, u)),
        across=Digits(say(across.inches, u)),
        width=Digits(say(usable.inches, u)),
        straighten=Digits(say(straighten.inches, u)),
        each=full,
        count=kind.count,
    )
    sizes = sum(widths), high
    return as_unit(name, Together.STRIPS, kind, sizes, each, cuts, across, ZERO, text, ruler)
