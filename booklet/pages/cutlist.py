"""Floor 11, the cutting list: one line for every row of strips in a cloth's picture, in cutting order.

A line says how many strips of which width to cut, what each row gives, and how that is cut from them.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction

from markupsafe import Markup

from booklet.cutting.cutting_plan import (
    CutPatch,
    FabricPlan,
    JoinedPart,
    Method,
    StripJoin,
)
from booklet.drawing.cutting import StripRow, strip_rows
from booklet.measure import Length, UnitSystem
from booklet.pages.view import cut_text
from booklet.pages.words import Words
from booklet.plan import SizePlan
from booklet.plan.joined import join_sum
from booklet.words import Text, by, listing, phrase, plural_phrase

_HALF = phrase("Cut each once from corner to corner: 2 triangles.")
_TURNING = phrase("Turn the template or ruler end for end from cut to cut.")
_ROUND = phrase("Draw round the template, then cut.")
HOW = {
    Method.HALF_SQUARE: _HALF,
    Method.HALF_RECTANGLE: _HALF,
    Method.QUARTER_SQUARE: phrase("Cut each twice from corner to corner: 4 triangles."),
    Method.TRAPEZOID: _TURNING,
    Method.TRIANGLE: _TURNING,
    Method.HEXAGON: _ROUND,
    Method.OCTAGON: phrase("Trim the four corners with the template."),
    Method.KITE: _ROUND,
    Method.TEMPLATE: _ROUND,
    Method.FUSSY: phrase("Move the template until the motif sits in the middle."),
}
_FOLDED = phrase(
    "Fold the cloth selvedge to selvedge, right sides together: each cut gives a piece and a reversed one."
)
_NOT_FOLDED = phrase("Cut in one layer: on folded cloth the print would lie turned.")
_AT_AN_ANGLE = (Method.DIAMOND, Method.PARALLELOGRAM)
_BY_SHAPE = (Method.TEMPLATE, Method.FUSSY, Method.KITE, Method.HEXAGON)
_ALONG_STRIP = (Method.STRIP, Method.DIAMOND, Method.PARALLELOGRAM, Method.TRAPEZOID, Method.TRIANGLE)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Gives:
    """What a row of strips gives: how many of which piece, the figure to cut, and how."""

    pieces: Markup
    figure: Markup
    how: Markup


@dataclass(frozen=True, slots=True)
class CutLine:
    """One row of strips: its number in the picture, how many strips, how wide, what they give."""

    number: int | None
    count: int | None
    width: Markup
    gives: tuple[Gives, ...]


def cut_lines(plan: SizePlan, cloth: FabricPlan, words: Words) -> tuple[CutLine, ...]:
    """The lines of a cloth; what comes from no strip has a line of its own at the end."""
    units = plan.pattern.units
    patches = _merged(p for p in plan.cutting.patches if p.fabric == cloth.fabric)
    said: set[str] = set()
    lines = []
    for number, row in enumerate(strip_rows(cloth), 1):
        gives = tuple(
            _joined(plan, made, row, name, name in said, words)
            if (made := plan.cutting.joined(name))
            else _gives(patches[name], cuts, name in said, units, words)
            for name, cuts in _cuts(row)
            if name in patches
        )
        said |= {name for name, _ in _cuts(row)}
        lines.append(
            CutLine(number, row.count, words.markup(cut_text(row.strip.width, units)), gives)
        )
    rest = [patch for name, patch in patches.items() if name not in said]
    for patch in rest:
        gives = (_gives(patch, patch.cuts, False, units, words),)
        lines.append(CutLine(None, None, Markup(), gives))
    return tuple(lines)


def _merged(patches: Iterable[CutPatch]) -> dict[str, CutPatch]:
    """The patches of one cloth by name; those of a print with an up that lie in several ways as one."""
    found: dict[str, CutPatch] = {}
    for patch in patches:
        before = found.get(patch.name)
        found[patch.name] = patch if before is None else _both(before, patch)
    return found


def _both(one: CutPatch, other: CutPatch) -> CutPatch:
    return replace(
        one,
        pieces=one.pieces + other.pieces,
        reversed=one.reversed + other.reversed,
        cuts=one.cuts + other.cuts,
        pairs=max(one.pairs, other.pairs),
        no_fold=one.no_fold and other.no_fold,
    )


def _cuts(row: StripRow) -> tuple[tuple[str, int], ...]:
    """The cuts of a row of strips by name; where no layout is drawn, those that are counted."""
    if not row.layout:
        return tuple((use.name, use.cuts) for use in row.strip.uses)
    names = [placed.name for placed in row.layout]
    return tuple((name, names.count(name) * row.count) for name in dict.fromkeys(names))


def _joined(
    plan: SizePlan,
    made: tuple[StripJoin, tuple[JoinedPart, ...]],
    row: StripRow,
    name: str,
    again: bool,
    words: Words,
) -> Gives:
    """The stretches a row of strips gives to a longer part, and, once, what that is joined from."""
    units = plan.pattern.units
    title = next(part.title for part in plan.quilt.parts if part.name == name)
    stretches = [p.stretch for p in row.layout if p.name == name and p.stretch is not None]
    lengths = listing(
        [
            phrase("{n} × {length}", n=count * row.count, length=cut_text(stretch, units))
            for stretch, count in Counter(stretches).items()
        ]
    )
    if again:
        how: Text = phrase("Likewise", context="cut as above")
    else:
        join, parts = made
        sums = [
            phrase("{n} joined with straight seams: {sum}", n=n, sum=join_sum(join, part, units))
            for part, n in Counter(parts).items()
        ]
        how = listing(sums, "sentences")
    return Gives(words.markup(title), words.markup(lengths), words.markup(how))


def _gives(patch: CutPatch, cuts: int, again: bool, units: UnitSystem, words: Words) -> Gives:
    """What some cuts for a patch give, or the panels of the back and the strips of the binding."""
    if patch.name == "binding" and patch.method is Method.STRIP:
        how = words.phrase("Joined with diagonal seams")
        return Gives(words.markup(patch.title), Markup(), how)
    if patch.method is Method.STRIP:
        return Gives(
            words.markup(patch.title), _rectangles(patch.cut, cuts, units, words), Markup()
        )
    each = Fraction(patch.pieces, patch.cuts) if patch.cuts else Fraction(1)
    pieces = min(math.ceil(cuts * each), patch.pieces)
    named = words.phrase("{name} × {n}", n=pieces, name=patch.title)
    if again:
        return Gives(named, Markup(), words.phrase("Likewise", context="cut as above"))
    return Gives(named, cut_size(patch, cuts, units, words), method(patch, units, words))


def cut_size(patch: CutPatch, cuts: int, units: UnitSystem, words: Words) -> Markup:
    """The figure to cut from the strip, with its number where each gives several pieces."""
    if patch.method in _BY_SHAPE:
        return words.phrase("Template {name}", name=patch.name)
    if patch.method in _ALONG_STRIP:
        return Markup()
    return _rectangles(patch.cut, cuts, units, words)


def _rectangles(cut: tuple[Length, Length], cuts: int, units: UnitSystem, words: Words) -> Markup:
    """Squares or rectangles with their number."""
    width, height = (cut_text(side, units) for side in cut)
    if cut[0] == cut[1]:
        return words.plural("{n} square, {width}", "{n} squares, {width}", cuts, width=width)
    return words.plural(
        "{n} rectangle, {size}", "{n} rectangles, {size}", cuts, size=by(width, height)
    )


def method(patch: CutPatch, units: UnitSystem, words: Words) -> Markup:
    """How the cut figure becomes patches, and how many of them are reversed."""
    parts: list[Text] = []
    if patch.method in _AT_AN_ANGLE and patch.angle is not None:
        step = cut_text(patch.cut[1], units)
        parts.append(
            phrase(
                "Cut across the strip at {angle} degrees, every {step}.",
                angle=patch.angle,
                step=step,
            )
        )
    elif patch.method in HOW:
        parts.append(HOW[patch.method])
    if patch.method is Method.LENGTHWISE:
        parts.append(phrase("Cut along the selvedge, in one piece."))
    if patch.pairs:
        parts.append(_FOLDED)
    elif patch.no_fold:
        parts.append(_NOT_FOLDED)
    if patch.reversed:
        parts.append(plural_phrase("{n} of them reversed", "{n} of them reversed", patch.reversed))
    return words.markup(listing(parts, "sentences"))


@dataclass(frozen=True, slots=True)
class SumLine:
    """One line of a sum: words, figure, and whether it is the total."""

    words: Markup
    figure: Markup
    total: bool = False


def sum_lines(cloth: FabricPlan, words: Words) -> tuple[SumLine, ...]:
    """How the amount of a cloth came about, its words apart from its figures."""
    return tuple(
        SumLine(words.markup(line.words), words.markup(line.figure), line.role == "total")
        for line in cloth.sum
        if line.role != "sold"
    )
