"""Floor 7: how one want is cut. As its form says, where that keeps the grain; else by template."""

from __future__ import annotations

from fractions import Fraction

from booklet.crafts.figure import figure_of
from booklet.crafts.forms import recognised
from booklet.crafts.method import FUSSY, FUSSY_BOX, TEMPLATE, Family, Method
from booklet.crafts.rotary.cuts import AlikeCuts, Rotary, Wanted, on_grain, singly
from booklet.crafts.rotary.laid_on import FUSED, TURNED, bias_strips
from booklet.crafts.rotary.marks import CutBy
from booklet.crafts.rotary.nesting import row_of
from booklet.crafts.rotary.rough import rough, rough_area
from booklet.crafts.rotary.ruler import Ruler
from booklet.crafts.rotary.sums import by_template
from booklet.cutting.cutting_plan import CutOutline
from booklet.cutting.demand import Want, relative_grain, rims
from booklet.cutting.patches.cut_outlines import cut_outline
from booklet.kit.measure import ZERO, Length
from booklet.kit.outlines.plane import extent
from booklet.kit.outlines.polygon import laid, mirrored
from booklet.kit.records import replace
from booklet.kit.trade import STEM_END
from booklet.pattern import Direction

SHEET = (
    Length.of(Fraction(15, 2)),
    Length.of(9),
)  # what a sheet of letter or A4 has room for, beside its test squares
MUCH = 1.25  # times the cloth that a rough piece takes along its longest side is too much: paper holds its bias edges


def rotary(want: Want, outline: CutOutline, ruler: Ruler) -> Rotary:
    """The method for a want: from its form and its grain; a template where no method keeps the grain, and for applied
    shapes. For printed paper a rough rectangle."""
    if want.stem is not None:
        return bias_strips(want.plain, *want.stem, STEM_END.said_in(ruler.units), ruler)
    if want.edge is not None:
        return template(want, outline, ruler, TURNED if want.edge > ZERO else FUSED)
    if want.rough is not None:
        return rough(_on_paper(want, want.rough, ruler), want.rough, ruler)
    if want.patch.motif:
        return _fussy(want, outline, ruler)
    return _by_form(want, ruler) or template(want, outline, ruler)


def _fussy(want: Want, outline: CutOutline, ruler: Ruler) -> Rotary:
    """Cut where its motif lies, by a template; a square or rectangle on the marks of the ruler that is larger than a sheet,
    a panel or the front of a shirt say, by the ruler."""
    made = template(want, outline, ruler, FUSSY)
    box = _by_form(want, ruler)
    if box is None or box.method.family is not Family.BOX or box.by is CutBy.TEMPLATE:
        return made
    if min(made.cut) <= SHEET[0] and max(made.cut) <= SHEET[1]:
        return made
    return replace(made, method=FUSSY_BOX, by=box.by, sum=box.sum)


def _on_paper(want: Want, margin: Length, ruler: Ruler) -> Wanted:
    """A piece for printed paper, which no wish binds: one inside its block has its grain along its longest side, so that
    its rectangle is easy to lay; one on the rim along that, unless a string across the block then takes too much cloth."""
    plain = want.plain
    if want.wished or want.laid is not None:
        return plain
    figure = figure_of(plain.outline)
    longest = max(range(figure.count), key=lambda i: (round(figure.sides[i], 4), -i))
    along = replace(plain, grain=figure.ways[longest] % 180)
    rim = [relative_grain(p, side) for t, p in want.members for side in rims(t, p)]
    if not rim:
        return along
    straight = plain if on_grain(rim[0], plain.grain) else replace(plain, grain=rim[0] % 180)
    takes = [rough_area(one, margin, ruler) for one in (along, straight)]
    return straight if takes[1] <= MUCH * takes[0] else along


def _by_form(want: Want, ruler: Ruler) -> Rotary | None:
    """As its form is cut; None where that is by template."""
    if want.patch.outline.is_curved:
        return None
    wanted = want.plain
    figure = figure_of(wanted.laid or wanted.outline)
    form, _ = recognised(figure, None)
    return form.cut(wanted, figure, ruler) if form.cut is not None else None


def template(want: Want, outline: CutOutline, ruler: Ruler, method: Method = TEMPLATE) -> Rotary:
    """Cut around a template laid with its grain arrow along the cloth or across it."""
    if want.laid is not None:
        seen = want.members[0][1].outline  # a stripe may lie half turned, which takes the same room
        shapes = [laid(cut_outline(seen, ruler.allowance).cut, 90.0)]
    else:
        shapes = [laid(outline.cut, want.grain + quarter) for quarter in (90.0, 0.0)]
    width, height = extent(shapes[0])
    plain = want.pieces - (0 if want.laid is not None else want.reversed)
    turns = want.fabric.direction is not Direction.ONE_WAY
    back = want.laid is not None and want.reversed > 0
    rows = tuple(row_of(shape, turns) for shape in shapes)
    lays: list[AlikeCuts] = [singly(plain, rows, back)] if plain else []
    if want.pieces - plain:
        rows = tuple(row_of(mirrored(shape), turns) for shape in shapes)
        lays.append(singly(want.pieces - plain, rows, True))
    return Rotary(
        method=method,
        cut=(ruler.up(width), ruler.up(height)),
        exact=(width, height),
        sum=by_template(width, height, ruler.units),
        grain=want.grain,
        lays=tuple(lays),
        by=CutBy.TEMPLATE,
    )
