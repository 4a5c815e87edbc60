"""Floor 10: templates at true size, laid on pages with test squares; large ones in tiles.

One millimetre of the scene is one millimetre on paper; nothing here is ever scaled.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from booklet.crafts.method import Family
from booklet.crafts.rotary.marks import CutBy
from booklet.cutting.cutting_plan import CutOutline, CutPatch
from booklet.drawing.ink.svg import figure
from booklet.drawing.lettering.text_widths import wrapped
from booklet.drawing.places import key
from booklet.drawing.scene import Area, Figure, Ink, Item, Label, Line, Mark, Place, Scene, Sign
from booklet.drawing.templates.template_layout import (
    HEAD,
    SPACE,
    SQUARES,
    WORDS,
    Template,
    TemplateSpot,
    in_mm,
    placed,
)
from booklet.drawing.templates.template_lines import sheet_words, template_lines
from booklet.drawing.templates.template_nest import nested
from booklet.drawing.templates.template_parts import PUT_TOGETHER, picture_room, tiles
from booklet.drawing.templates.template_ups import Ups, ups_of
from booklet.drawing.templates.template_words import words_on
from booklet.geometry.patches.curve_marks import patch_marks
from booklet.geometry.vectors import mirrored
from booklet.kit.measure import INCH_MM
from booklet.kit.outlines.alike import same_angle, symmetric_turns
from booklet.kit.outlines.plane import (
    Point,
    box_of,
    direction,
    extent,
    overlap,
    plus,
    right_of,
    shifted,
    to_segment,
)
from booklet.kit.outlines.polygon import edges
from booklet.kit.records import Record, replace
from booklet.kit.remembered.memory import Ask, plainly
from booklet.kit.words import Phrase, Speaker, Text, in_units, phrase, plural_phrase, words_of
from booklet.plan import SizePlan

# mm: lines are broken at the widest with which they have room inside
WIDTHS = (80.0, 60.0, 48.0, 38.0)
BETWEEN_SQUARES = 4.0  # mm between the two test squares
EDGE = 0.5  # mm below the lowest line of a sheet


def templates_of(
    size: SizePlan, drawn: Callable[[CutOutline], CutOutline] = lambda outline: outline
) -> tuple[Template, ...]:
    """A template for every patch letter of a size, in the order of letters; `drawn` may draw its
    outlines more finely."""
    found: dict[str, list[CutPatch]] = {}
    for patch in size.cutting.patches:
        if patch.outline is not None:
            found.setdefault(patch.name, []).append(patch)
    order = {letter: i for i, letter in enumerate(size.letters)}
    names = sorted(found, key=lambda letter: (order.get(letter, len(order)), letter))
    return tuple(_template(size, found[name], drawn) for name in names)


def _template(
    size: SizePlan, patches: list[CutPatch], drawn: Callable[[CutOutline], CutOutline]
) -> Template:
    """The template of one patch letter with what it says."""
    patch = patches[0]
    assert patch.outline is not None
    outline = drawn(patch.outline)
    if patch.is_fused:
        outline = _reversed(outline)
    motif = any(p.motif and p.letter == patch.name for b in size.blocks for p in b.tiling.patches)
    marks = patch_marks([block.tiling for block in size.blocks], patch.name)
    say = words_of(size.pattern.tongue).say
    lines = [say(line) for line in template_lines(size, patches, motif, len(marks))]
    ups = ups_of(size, patches, WORDS)
    ups = tuple(row.mirrored() for row in ups) if patch.is_fused else ups
    seam = outline.seam.points
    strokes = [in_mm(_stroke(mark, seam, float(size.allowance))) for mark in marks]
    grain = _grain_with_ups(-patch.grain if patch.is_fused else patch.grain, seam, ups)
    lay = (in_mm(seam), in_mm(outline.cut), in_mm(outline.points), grain, strokes)

    def broken(width: float) -> Template:
        short = tuple(part for line in lines for part in wrapped(line, WORDS, width))
        raw = Template(
            letter=patch.name,
            lines=short,
            grain=grain,
            motif=motif,
            ups=ups,
            inks=(Ink.CUT, Ink.CUT) if patch.is_fused else (Ink.CUT, Ink.SEAM_LINE),
        )
        return placed(raw, *lay)

    ways = [broken(width) for width in WIDTHS]
    beside = max(WIDTHS[-1], min(WIDTHS[0], box_of(ways[0].cut)[2]))
    return next((way for way in ways if way.words_inside), broken(beside))


def _grain_with_ups(grain: float, seam: Sequence[Point], ups: Iterable[Ups]) -> float:
    """The grain of a patch that is alike when turned as a print with an up on the same template has it too, so that
    both arrows lie along one thread or square to each other; its own where there is no such turn."""
    ways = [way for row in ups for way, _ in row.ways]
    if not ways:
        return grain
    alike = (grain - turn for turn in symmetric_turns(seam))
    return next((g for g in alike if all(same_angle(g, way, 90) for way in ways)), grain)


def _reversed(outline: CutOutline) -> CutOutline:
    """The outline of a fused shape as it is traced on the paper of the web: mirrored left to right."""
    seam = mirrored(outline.seam)
    return replace(outline, seam=seam, cut=seam.points)


def _stroke(mark: Point, seam: Sequence[Point], allowance: float) -> tuple[Point, Point]:
    """The stroke of a mark on the seam line, inches: across the allowance to the cutting line and a little
    way in, square to the curve."""
    a, b = min(edges(seam), key=lambda edge: to_segment(mark, *edge))
    out = right_of(direction(b, a))  # outlines run clockwise: the cloth lies to the right of a to b
    return plus(mark, out, -allowance / 4), plus(mark, out, allowance)


def ruled_only(size: SizePlan, width: float, height: float) -> tuple[str, ...]:
    """The letters of squares, rectangles and triangles cut of them that get no template on pages of `width` x `height`
    mm: all are cut with the ruler, and the template would have to be glued together from several pages."""
    short, long = sorted((width - 1, height - HEAD - SQUARES))
    cuts: dict[str, list[CutPatch]] = {}
    for patch in size.cutting.patches:
        if patch.outline is not None:
            cuts.setdefault(patch.name, []).append(patch)
    return tuple(
        letter
        for letter in size.letters
        if all(_is_ruled(patch) for patch in cuts.get(letter, ()))
        and any(_larger(patch, short, long) for patch in cuts.get(letter, ()))
    )


def _is_ruled(patch: CutPatch) -> bool:
    """Whether a patch is a square or rectangle whose size the ruler shows, or a triangle cut of one."""
    ruled = patch.method.family in (Family.BOX, Family.AGAIN) and patch.method.by_ruler
    return ruled and patch.by is not CutBy.TEMPLATE


def _larger(patch: CutPatch, short: float, long: float) -> bool:
    """Whether a patch as cut does not fit a space of `short` by `long` mm, upright or lying."""
    assert patch.outline is not None
    near, far = sorted(side * INCH_MM for side in extent(patch.outline.cut))
    return near > short or far > long


class TemplateSheet(Record, kw_only=True):
    """The templates of one page, without its head line: their letters in order, what is drawn of them, and of a
    template that is glued together which part of how many it is; `area` is the room it takes, mm, and `nook` where the test
    squares stand between the templates, their top left."""

    letters: tuple[str, ...]
    items: tuple[Item, ...]
    area: tuple[float, float]
    tile: tuple[int, int] | None = None
    nook: Point | None = None


def template_figures(
    size: SizePlan,
    width: float,
    height: float,
    column: tuple[float, float] | None = None,
    ask: Ask = plainly,
) -> tuple[Figure, ...]:
    """Pages of templates, each `width` x `height` mm, true to size, or one that stands under their introduction in
    a space of `column` mm. What lies on them, and each page with its head line, is put to `ask`: a title is on every
    page, and moves no template."""
    sheets = ask(template_sheets, size, width, height, column)
    return tuple(ask(_page, size, number, sheet) for number, sheet in enumerate(sheets, 1))


def template_sheets(
    size: SizePlan, width: float, height: float, column: tuple[float, float] | None = None
) -> tuple[TemplateSheet, ...]:
    """The templates of a size nested on pages of `width` x `height` mm, in the order of the pages; all on one sheet
    no larger than `column` mm where there is room for them, else first the last page whose templates have."""
    without = ruled_only(size, width, height)
    drawn = [template for template in templates_of(size) if template.letter not in without]
    if column is not None and (short := _short_sheet(drawn, *column)) is not None:
        return (short,)
    pages, large = nested(drawn, width - 1, height - HEAD - SQUARES)
    sheets, others = _begun_under_words(pages, column)
    for spots in others:
        names = sorted(spot.template.letter for spot in spots)
        sheets.append(
            TemplateSheet(
                letters=tuple(names), items=tuple(spots_drawn(spots)), area=(width, height)
            )
        )
    for template in large:
        for part, of, items in tiles(template, width, height):
            sheets.append(
                TemplateSheet(
                    letters=(template.letter,),
                    items=tuple(items),
                    area=(width, height),
                    tile=(part, of),
                )
            )
    return tuple(sheets)


def _begun_under_words(
    pages: Sequence[Sequence[TemplateSpot]], column: tuple[float, float] | None
) -> tuple[list[TemplateSheet], Sequence[Sequence[TemplateSpot]]]:
    """The last of the pages whose templates have room on a short sheet as such a sheet, and the other pages."""
    for number in reversed(range(len(pages) if column is not None else 0)):
        assert column is not None
        short = _short_sheet([spot.template for spot in pages[number]], *column)
        if short is not None:
            return [short], (*pages[:number], *pages[number + 1 :])
    return [], pages


def _short_sheet(drawn: Sequence[Template], width: float, height: float) -> TemplateSheet | None:
    """All templates on one sheet `width` mm wide and as high as they need, `height` mm at most; None where they
    need more."""
    for foot in (
        SQUARES,
        EDGE,
    ):  # without a foot only where the test squares have room between the templates
        pages, large = nested(drawn, width - 1, height - HEAD - foot)
        if drawn and not large and len(pages) == 1:
            low = max(spot.at[1] + spot.template.height for spot in pages[0])
            nook = _nook(pages[0], width, low)
            if nook is not None or foot == SQUARES:
                letters = tuple(sorted(spot.template.letter for spot in pages[0]))
                area = (width, HEAD + low + (SQUARES if nook is None else EDGE))
                items = tuple(spots_drawn(pages[0]))
                return TemplateSheet(letters=letters, items=items, area=area, nook=nook)
    return None


def _nook(spots: Sequence[TemplateSpot], width: float, low: float) -> Point | None:
    """The top left of the test squares where they have room beside the lowest templates, level with their foot; mm from
    the top left of the sheet."""
    across = INCH_MM + 20.0 + BETWEEN_SQUARES
    boxes = [
        (
            spot.at[0],
            spot.at[1],
            spot.at[0] + spot.template.width,
            spot.at[1] + spot.template.height,
        )
        for spot in spots
    ]
    for left in sorted({0.0, *(right + SPACE for _, _, right, _ in boxes)}):
        place = (left - SPACE, low - INCH_MM - SPACE, left + across + SPACE, low)
        if left + across <= width - 1 and not any(overlap(place, box) for box in boxes):
            return left + 0.5, HEAD + low - INCH_MM
    return None


def _page(size: SizePlan, number: int, sheet: TemplateSheet) -> Figure:
    """One page: a head line, the templates, the test squares."""
    letters, tile = sheet.letters, sheet.tile
    title = plural_phrase(
        "Template {letters}", "Templates {letters}", len(letters), letters=letters
    )
    if tile is not None:
        part, of = tile
        title = phrase(
            "Template {letter}, part {part} of {of}", letter=letters[0], part=part, of=of
        )
    told = phrase(
        "{title} for {size}, true to size: solid line to cut, dashed line to sew, dots at the matching "
        "points, an arrow along the straight grain. Test squares of 1 inch and 2 centimeters at the "
        "foot.",
        title=title,
        size=size.size.title,
    )
    name = f"{size.size.id}-templates-{number}"
    words = SheetWords(name, title, sheet_words(size), told)
    return true_sheet(size, words, sheet.items, sheet.area, tile is not None, sheet.nook)


class SheetWords(Record):
    """What stands on a sheet: the picture's name, its title, the line below that, and its alternative text."""

    name: str
    title: Phrase
    head: Text
    told: Phrase


def true_sheet(
    size: SizePlan,
    words: SheetWords,
    items: Sequence[Item],
    area: tuple[float, float],
    is_tile: bool,
    nook: Point | None = None,
) -> Figure:
    """A sheet that is true to size, `area` mm: a head line, what is drawn, the test squares, at the foot or in a `nook`
    where other words say what they are for; of a tile also how all are put together, with room for its picture."""
    speaker, (width, height) = words_of(size.pattern.tongue), area
    squares = (
        test_squares(
            width, height, speaker=speaker, before=(PUT_TOGETHER,), free=picture_room(width)[0] + 3
        )
        if is_tile
        else test_squares(width, height, speaker=speaker)
        if nook is None
        else _squares(nook, speaker)
    )
    title, head = speaker.say(words.title), speaker.say(words.head)
    scene = Scene.of(
        words.name,
        (width, height),
        (
            Label(at=(0.5, 2.5), text=title, size=11.0, anchor="start", bold=True),
            Label(at=(0.5, 7.2), text=head, size=8.0, anchor="start", muted=True),
            *squares,
            *items,
        ),
        words.title,
        words.told,
    )
    caption = phrase("Print at 100 percent and measure the squares first.")
    return figure(scene, caption, true_size=True)


def test_squares(
    width: float,
    height: float,
    *,
    speaker: Speaker,
    before: tuple[Phrase, ...] = (),
    free: float = 0.0,
) -> list[Item]:
    """A 1 in and a 2 cm square at the foot, and what to do: the sentences `before`, then how to print and
    measure; `free` mm at the right end are left to a picture."""
    y = height - 0.5
    items = _squares((0.5, y - INCH_MM), speaker)
    x = 0.5 + INCH_MM + 20.0 + 2 * BETWEEN_SQUARES
    said = (
        *before,
        phrase("Print at 100 percent, not “fit to page”."),
        phrase("Measure both squares before you cut cloth."),
    )
    room = width - x - 1 - free
    lines = [line for text in said for line in wrapped(speaker.say(text), 8.0, room)]
    for i, line in enumerate(reversed(lines)):
        items.append(Label(at=(x + 1, y - 2.0 - 4.2 * i), text=line, size=8.0, anchor="start"))
    return items


def _squares(corner: Point, speaker: Speaker) -> list[Item]:
    """A 1 in and a 2 cm square beside each other, level at the foot; `corner` is the top left of the first, mm."""
    items: list[Item] = []
    x, y = corner[0], corner[1] + INCH_MM
    for side, text in ((INCH_MM, in_units("1", "inch")), (20.0, in_units("2", "cm"))):
        corners = ((x, y - side), (x + side, y - side), (x + side, y), (x, y))
        items.append(Area(corners, None, Ink.RULE))
        items.append(Label(at=(x + side / 2, y - side / 2), text=speaker.say(text), size=8.0))
        x += side + BETWEEN_SQUARES
    return items


def spots_drawn(spots: Sequence[TemplateSpot]) -> list[Item]:
    """The templates of a page in their places."""
    return [
        item
        for spot in sorted(spots, key=lambda s: (s.at[1], s.at[0]))
        for item in _drawn(spot.template, (spot.at[0] + 0.5, spot.at[1] + HEAD))
    ]


def _drawn(template: Template, corner: Point) -> list[Item]:
    """The lines, points, grain and words of a template with its top left at `corner`."""
    seam = shifted(template.seam, corner)
    outer, inner = template.inks
    items: list[Item] = [Area(shifted(template.cut, corner), None, outer), Area(seam, None, inner)]
    items.append(Place(shifted(template.cut, corner), (key("patch", template.letter),)))
    items += words_on(template, seam, plus(corner, (0.0, box_of(template.cut)[3])))
    items += [Line(points=shifted(stroke, corner), ink=Ink.CUT) for stroke in template.strokes]
    items += [Sign(p, Mark.POINT) for p in shifted(template.points, corner)]
    return items
