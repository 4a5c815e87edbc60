"""Floor 7: the warning of patches that a ruler does not show, with the nearest units at which it shows them all."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction

from booklet.crafts.rotary.cuts import Rotary
from booklet.crafts.rotary.marks import FIT, CutBy, on_mark
from booklet.crafts.rotary.ruler import Ruler
from booklet.crafts.rotary.sums import decimal, say, unit
from booklet.cutting.cutting_plan import CutPatch
from booklet.cutting.demand import Want
from booklet.cutting.patches.cut_outlines import cut_outline
from booklet.cutting.patches.rotary import rotary
from booklet.geometry import lay_out
from booklet.geometry.tiling import LaidOut, Outline, Side
from booklet.kit.diagnostic import Diagnostic, warning
from booklet.kit.measure import Length
from booklet.kit.outlines.near import ONE_POINT
from booklet.kit.outlines.plane import Point
from booklet.kit.records import replace
from booklet.kit.remembered.memory import hands_words_through, only_warns
from booklet.quilt.sized import SizedQuilt

MOST = 64  # so many units are tried, larger and smaller ones


@only_warns
@hands_words_through
def off_the_ruler(
    pattern: LaidOut,
    quilt: SizedQuilt,
    ruler: Ruler,
    wants: Sequence[tuple[Want, Rotary]],
    cuts: Iterable[CutPatch],
) -> tuple[Diagnostic, ...]:
    """One warning for a size with patches that lie between the marks of the ruler; not of those that are basted over
    papers, which give the size."""
    papers = ruler.papers is not None
    off = [
        c
        for c in cuts
        if c.outline
        and c.by is not CutBy.RULER
        and c.method.by_ruler
        and not (papers and c.per_block)
    ]
    if not off:
        return ()
    named = ", ".join(dict.fromkeys(_named(cut, ruler) for cut in off))
    mark = say(ruler.step, ruler.units)
    told = warning(
        "off-the-ruler",
        f"in size `{quilt.size.id}` a ruler with marks every `{mark} {unit(ruler.units)}` does not show"
        f" {named}",
        quilt.size.span,
        _way_out(pattern, quilt, ruler, wants),
    )
    return (told,)


def _named(cut: CutPatch, ruler: Ruler) -> str:
    """A patch or part, its cut size, and by what it is cut."""
    sides = cut.exact if cut.by is CutBy.TEMPLATE else tuple(map(float, cut.cut))
    figures = dict.fromkeys(_figure(side, ruler) for side in sides)
    return f"`{cut.name}` (`{' x '.join(figures)} {unit(ruler.units)}`, by {_WAYS[cut.by]})"


_WAYS = {
    CutBy.HALF: "the half mark",
    CutBy.FINE: "measuring between the marks",
    CutBy.TEMPLATE: "template",
}


def _figure(side: float, ruler: Ruler) -> str:
    mark = on_mark(side, ruler.step / 2)
    return say(mark.inches, ruler.units) if mark else decimal(side, ruler.units)


def _way_out(
    pattern: LaidOut,
    quilt: SizedQuilt,
    ruler: Ruler,
    wants: Sequence[tuple[Want, Rotary]],
) -> str:
    """What to do: the nearest unit below and above at which every cut lies on the ruler."""
    found = list(_units(pattern, quilt, ruler, wants))
    if not found:
        return (
            "no `unit` near this one puts every cut on the ruler; the booklet says how each is cut, or choose"
            " another `ruler`"
        )
    told = " or ".join(f"`unit: {say(u.inches, ruler.units)} {unit(ruler.units)}`" for u in found)
    return f"at {told} every cut lies on the ruler"


def _units(
    pattern: LaidOut,
    quilt: SizedQuilt,
    ruler: Ruler,
    wants: Sequence[tuple[Want, Rotary]],
) -> Iterator[Length]:
    """The nearest smaller and the nearest larger unit, a multiple of the ruler's marks between half and
    twice the size's own, at which all lies on the ruler."""
    own, step = quilt.size.unit.inches, ruler.step
    plain = replace(ruler, grades={}, trim=Length(Fraction(0)))
    below = own // step if own % step else own // step - 1
    by_ruler = [want for want, made in wants if made.method.by_ruler]
    for first, way in ((below, -1), (own // step + 1, 1)):
        for number in range(MOST):
            tried = (first + way * number) * step
            if not own / 2 <= tried <= 2 * own:
                break
            factor = float(tried / own)
            off = next((w for w in by_ruler if not _is_on(_scaled(w, factor), plain)), None)
            if off is None:
                if _scales(pattern, quilt, Length(tried)):
                    yield Length(tried)
                break
            by_ruler.remove(off)
            by_ruler.insert(0, off)  # it is likely to be off at the next unit as well


def _is_on(want: Want, ruler: Ruler) -> bool:
    """Whether a patch is cut by the ruler, its triangles by figures as near as the trade's charts have
    them: + 1 1/4 in for 1.207."""
    of_patches = ruler.of_patches
    made = rotary(want, cut_outline(want.patch.outline, of_patches.allowance), of_patches)
    return made.by is CutBy.RULER and all(more <= 2 * FIT for _, more in made.grown)


def _scaled(want: Want, factor: float) -> Want:
    """The want of a patch that is larger by a factor."""

    def moved(points: Iterable[Point]) -> tuple[Point, ...]:
        return tuple((x * factor, y * factor) for x, y in points)

    sides = (moved((side.start, side.end, *side.via)) for side in want.patch.outline.sides)
    outline = Outline(tuple(Side(s[0], s[1], s[2:]) for s in sides))
    laid = None if want.laid is None else moved(want.laid)
    return replace(want, patch=replace(want.patch, outline=outline), laid=laid)


def _scales(pattern: LaidOut, quilt: SizedQuilt, tried: Length) -> bool:
    """Whether the blocks of a size, laid out anew at another unit, are larger by its factor in every point:
    not those with lengths of their own."""
    written = pattern.pattern
    blocks = tuple(block for block in written.blocks if block.part is None)  # parts follow them
    size = replace(quilt.size, unit=tried, quilt=None)
    anew = lay_out(replace(written, sizes=(size,), blocks=blocks)).value
    if anew is None:
        return False
    factor = float(tried.inches / quilt.size.unit.inches)
    names = {block.id for block in blocks}
    before = [tiling for tiling in pattern.of_size(quilt.size) if tiling.block in names]
    pairs = [
        (p, q)
        for old, new in zip(before, anew.of_size(size), strict=True)
        for a, b in zip(old.pieces, new.pieces, strict=True)
        for p, q in zip(a.outline.points, b.outline.points, strict=True)
    ]
    return all(abs(x * factor - y) < ONE_POINT for p, q in pairs for x, y in zip(p, q, strict=True))
