"""Floor 10: sheets of seam-line shapes, true to size: as many as a block or the whole quilt needs, to cut out and
draw round on the wrong side of the cloth.

Like shapes stand in rows, half-turned by turns where that is closer; rows stand below each other, page after page. Blocks with
few shapes share a sheet, each under its own title.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from booklet.crafts.rotary.nesting import NestedRow, row_of
from booklet.drawing.ink.svg import figure
from booklet.drawing.lettering.labels import letter_in
from booklet.drawing.lettering.text_widths import text_width, wrapped
from booklet.drawing.scene import Area, Figure, Ink, Item, Label, Line, Mark, Scene, Sign
from booklet.drawing.templates.template_layout import HEAD, SQUARES, Template
from booklet.drawing.templates.template_lines import sheet_words
from booklet.drawing.templates.template_pages import templates_of, test_squares
from booklet.geometry.patches.curve_marks import has_hand
from booklet.kit.outlines.near import NOISE
from booklet.kit.outlines.plane import Point, box_of, plus, right_of, turn_point, vector
from booklet.kit.outlines.polygon import roomiest
from booklet.kit.records import Mutable, Record, replace
from booklet.kit.words import Text, listing, phrase, words_of
from booklet.plan import BlockPlan, SizePlan

GAP = 2.5  # mm between shapes: room for scissors
MOST_SHEETS = 40  # of a whole quilt; who needs more prints those of one block again and again
TITLE = 12.0  # mm between the shapes of two blocks on one sheet, the title of the second included
TITLED = (
    HEAD - 6.5
)  # mm: so much nearer to its shapes stands that title, which has no words below it
GRAIN = 6.0  # mm: the least room about a middle for a letter and an arrow under it


class MarkedShape(Record, kw_only=True):
    """A seam-line shape in mm as it is drawn on the wrong side, with its points and its grain, and how many
    of it are wanted."""

    letter: str
    outline: tuple[Point, ...]
    points: tuple[Point, ...]
    grain: float  # degrees clockwise from up
    wanted: int
    reversed_one: bool  # of a patch that is used both ways


class LaidShape(Record, kw_only=True):
    """A shape in its place on a sheet: turned by `turn` degrees about (0, 0) and moved by `by`."""

    shape: MarkedShape
    turn: int
    by: Point

    @property
    def bottom(self) -> float:
        """Its lowest point, mm below the top of the shapes on a sheet."""
        return self.by[1] + max(turn_point(p, self.turn)[1] for p in self.shape.outline)


class SheetPart(Record, kw_only=True):
    """What lies on a sheet under one title, `down` mm below the top of the sheet; `name` is that of the block."""

    title: Text
    name: str
    laid: Sequence[LaidShape]
    down: float = 0.0

    @property
    def bottom(self) -> float:
        """The lowest point of its shapes, mm below the top of the shapes on the sheet."""
        return self.down + max(shape.bottom for shape in self.laid)


Sheet = list[SheetPart]


def marking_figures(
    size: SizePlan, width: float, height: float, whole: bool = False
) -> tuple[Figure, ...]:
    """The sheets of a size, each `width` x `height` mm: for one of every block, or for the `whole` quilt."""
    room = height - HEAD - SQUARES
    if whole:
        title = (
            phrase("Papers, for the whole quilt")
            if size.size.sewing.papers
            else phrase("Shapes to mark with, for the whole quilt")
        )
        sheets = _sheets(shapes_of(size, size.made_here, whole=True), width, room)
        if len(sheets) > MOST_SHEETS:
            return ()
        parts = [[SheetPart(title=title, name="all", laid=laid)] for laid in sheets]
        return tuple(_figures(size, parts, width, height))
    return tuple(_figures(size, _of_blocks(size, width, room), width, height))


def _of_blocks(size: SizePlan, width: float, room: float) -> list[Sheet]:
    """The sheets for one of each block; what needs no whole sheet stands below the block before where there is room, so
    that fewer are printed, however often each is made."""
    found: list[Sheet] = []
    for block in size.made_here:
        title = (
            phrase("Papers, for one “{block}”", block=block.block.title)
            if size.size.sewing.papers
            else phrase("Shapes to mark with, for one “{block}”", block=block.block.title)
        )
        sheets = _sheets(shapes_of(size, [block]), width, room)
        own = [SheetPart(title=title, name=block.block.id, laid=laid) for laid in sheets]
        down = found[-1][-1].bottom + TITLE if found else room
        if len(own) == 1 and down + own[0].bottom <= room + NOISE:
            found[-1].append(replace(own[0], down=down))
        else:
            found += [[part] for part in own]
    return found


def shapes_of(
    size: SizePlan, blocks: Sequence[BlockPlan], whole: bool = False
) -> list[MarkedShape]:
    """The shapes that these blocks need, once each or as often as the `whole` quilt has them."""
    wanted: Counter[tuple[str, bool]] = Counter()
    for block in blocks:
        for piece in block.tiling.pieces:
            wanted[piece.patch, piece.reversed] += block.count if whole else 1
    handed = {p.name for p in size.cutting.patches if p.outline and has_hand(p.outline.seam)}
    shapes: list[MarkedShape] = []
    for template in templates_of(size):
        plain, turned = wanted[template.letter, False], wanted[template.letter, True]
        if template.letter not in handed:
            shapes.append(_shape(template, plain + turned))
            continue
        # a template is drawn as the right side lies; from the wrong side it is seen mirrored
        shapes += [
            _shape(template, plain, behind=True),
            _shape(template, turned, reversed_one=True),
        ]
    return [shape for shape in shapes if shape.wanted]


def _shape(
    template: Template, wanted: int, behind: bool = False, reversed_one: bool = False
) -> MarkedShape:
    """The shape of a template; `behind` mirrors it left to right."""
    side = -1.0 if behind else 1.0
    outline = [(side * x, y) for x, y in template.seam]
    return MarkedShape(
        letter=template.letter,
        outline=tuple(reversed(outline) if behind else outline),
        points=tuple((side * x, y) for x, y in template.points),
        grain=side * template.grain % 360,
        wanted=wanted,
        reversed_one=reversed_one,
    )


class Shelf(Mutable, kw_only=True):
    """A stretch of a sheet right across it, filled from the left; mm."""

    sheet: int
    top: float
    height: float
    used: float = 0.0


def _sheets(shapes: Sequence[MarkedShape], width: float, height: float) -> list[list[LaidShape]]:
    """Shapes on sheets with a room of `width` x `height` mm: the highest rows first, lower ones also beside
    them; what is larger than a sheet is left to the templates."""
    turns = {shape: _best_turn(shape, width, height) for shape in shapes}
    rows = {shape: _row(shape, turn) for shape, turn in turns.items() if turn is not None}
    sheets: list[list[LaidShape]] = []
    shelves: list[Shelf] = []
    for shape in sorted(rows, key=lambda shape: -rows[shape].height):
        row, left = rows[shape], shape.wanted
        while left:
            shelf = next((s for s in shelves if _holds(s, row, width)), None)
            if shelf is None:
                shelf = _shelf(shelves, row.height, height)
                shelves.append(shelf)
                if shelf.sheet == len(sheets):
                    sheets.append([])
            count = min(left, _in_row(row, width - shelf.used))
            corner = (shelf.used, shelf.top)
            sheets[shelf.sheet] += [
                _laid(shape, row, turns[shape] or 0, n, corner) for n in range(count)
            ]
            shelf.used += row.length(count) + GAP * count
            left -= count
    return sheets


def _holds(shelf: Shelf, row: NestedRow, width: float) -> bool:
    """Whether a shelf still has room for one of a row."""
    return shelf.height >= row.height - NOISE and shelf.used + row.width <= width + NOISE


def _shelf(shelves: Sequence[Shelf], high: float, height: float) -> Shelf:
    """A new shelf, on the first sheet that has room for it, else on a new one."""
    ends: dict[int, float] = {}
    for shelf in shelves:
        ends[shelf.sheet] = shelf.top + shelf.height + GAP
    for sheet, end in ends.items():
        if end + high <= height + NOISE:
            return Shelf(sheet=sheet, top=end, height=high)
    return Shelf(sheet=len(ends), top=0.0, height=high)


def _best_turn(shape: MarkedShape, width: float, height: float) -> int | None:
    """The quarter turn in which a sheet holds most of a shape; None where it holds none."""
    held = {turn: _held(shape, turn, width, height) for turn in (0, 90)}
    best = max(held, key=lambda turn: (held[turn], -turn))
    return best if held[best] else None


def _row(shape: MarkedShape, turn: int) -> NestedRow:
    return row_of([turn_point(p, turn) for p in shape.outline], may_turn=True)


def _in_row(row: NestedRow, width: float) -> int:
    """How many of a row have room across a sheet."""
    count = 0
    while row.offset(count) + GAP * count + row.width <= width + NOISE:
        count += 1
    return count


def _held(shape: MarkedShape, turn: int, width: float, height: float) -> int:
    """How many of a shape a sheet holds."""
    row = _row(shape, turn)
    return _in_row(row, width) * int((height + GAP + NOISE) / (row.height + GAP))


def _laid(shape: MarkedShape, row: NestedRow, turn: int, n: int, corner: Point) -> LaidShape:
    """The shape at place `n` of its row, which begins at a corner."""
    turn = turn + 180 * (n % len(row.shapes))
    left, top, _, _ = box_of([turn_point(p, turn) for p in shape.outline])
    return LaidShape(
        shape=shape, turn=turn, by=plus(corner, (row.offset(n) + GAP * n - left, -top))
    )


def _figures(
    size: SizePlan, sheets: Sequence[Sheet], width: float, height: float
) -> Iterator[Figure]:
    """A figure for every sheet."""
    speaker = words_of(size.pattern.tongue)
    of = len(sheets)
    for number, sheet in enumerate(sheets, 1):
        below = phrase("sheet {n} of {of}; {sheet}", n=number, of=of, sheet=sheet_words(size))
        title = listing([part.title for part in sheet])
        head = phrase("{title}, sheet {n} of {of}", title=title, n=number, of=of)
        items: list[Item] = [
            Label(at=(0.5, 7.2), text=speaker.say(below), size=8.0, anchor="start", muted=True),
            *test_squares(width, height, speaker=speaker),
        ]
        for part in sheet:
            items += _heading(
                speaker.say(part.title), width, part.down + (TITLED if part.down else 0)
            )
            for laid in part.laid:
                items += _drawn(replace(laid, by=plus(laid.by, (0.0, part.down))))
        counts = Counter(
            (laid.shape.letter, laid.shape.reversed_one) for part in sheet for laid in part.laid
        )
        told = phrase(
            "{head}, true to size, as the wrong side of the cloth lies: {shapes}. Dots at the matching "
            "points, an arrow along the straight grain. Test squares of 1 inch and 2 centimeters at the foot.",
            head=head,
            shapes=listing(_count(*key, n) for key, n in counts.items()),
        )
        scene = Scene.of(
            f"{size.size.id}-marking-{sheet[0].name}-{number}", (width, height), items, head, told
        )
        yield figure(
            scene, phrase("Print at 100 percent and measure the squares first."), true_size=True
        )


def _heading(words: str, width: float, down: float) -> list[Item]:
    """The title of what lies on a sheet, as large as it fits the width, so many mm below the top."""
    size = next((s for s in (11.0, 10.0, 9.0, 8.0) if text_width(words, s) <= width - 1), 7.0)
    lines = wrapped(words, size, width - 1)[:1]
    return [
        Label(at=(0.5, down + 2.5), text=line, size=size, anchor="start", bold=True)
        for line in lines
    ]


def _count(letter: str, reversed_one: bool, n: int) -> Text:
    if reversed_one:
        return phrase("{n} of {letter} reversed", n=n, letter=letter)
    return phrase("{n} of {letter}", n=n, letter=letter)


def _drawn(laid: LaidShape) -> list[Item]:
    """The line to cut the paper along, the points, and letter and grain where there is room."""
    corner = plus(laid.by, (0.5, HEAD))

    def put(points: Sequence[Point]) -> tuple[Point, ...]:
        return tuple(plus(turn_point(p, laid.turn), corner) for p in points)

    outline = put(laid.shape.outline)
    items: list[Item] = [Area(outline, None, Ink.CUT)]
    items += [Sign(p, Mark.POINT) for p in put(laid.shape.points)]
    text = f"{laid.shape.letter}r" if laid.shape.reversed_one else laid.shape.letter
    at, room = roomiest(outline)
    if room < GRAIN:
        label = letter_in(outline, text, 9.0, room=0.3)
        return [*items, *([replace(label, plate=False)] if label else [])]
    way = vector(laid.shape.grain + laid.turn)
    beside = right_of(way) if abs(way[1]) < abs(way[0]) else (1.0, 0.0)
    long = min(room * 0.6, 12.0)
    aside = plus(at, beside, min(room * 0.35, 4.0))
    items.append(
        Line(
            points=(plus(aside, way, -long), plus(aside, way, long)),
            ink=Ink.GRAIN,
            start_arrow=True,
            end_arrow=True,
        )
    )
    return [
        *items,
        Label(at=plus(at, beside, -min(room * 0.35, 4.0)), text=text, size=11.0, bold=True),
    ]
