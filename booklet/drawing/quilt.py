"""Floor 10: pictures of the whole quilt: cover, layout, sizes, and a page to colour."""

from __future__ import annotations

from booklet.drawing.fills import Looks
from booklet.drawing.joins import join_lines
from booklet.drawing.lettering import text_width, wrapped
from booklet.drawing.patchwork import (
    all_pieces,
    corners,
    frame,
    least_side,
    painted,
    placed_points,
    trimmed,
)
from booklet.drawing.plane import box_of, roomiest, turned
from booklet.drawing.scene import Area, Figure, Fill, Ink, Item, Label, Line, Point, Scene
from booklet.drawing.svg import figure
from booklet.drawing.views import Margins, View, fitted
from booklet.plan import Plan, SizePlan
from booklet.plan.words import area_sides, measured
from booklet.quilt.sized import PlacedBlock
from booklet.words import Text, listing, phrase, plural_phrase, words_of

SHADOW = 1.3  # mm to the right of and below a quilt on its wall
SHADE = "#cdc6ba"


def cover_figure(
    size: SizePlan, looks: Looks, width: float = 150.0, tallest: float = 150.0
) -> Figure:
    """The finished quilt in its plain colours, without a letter, on a pale wall with its shadow; the
    blocks alone where there is no quilt."""
    pieces, rim = all_pieces(size)
    edge = frame(size, rim)
    view, _, height = fitted(corners(edge), width, tallest, Margins(1, 1, 3, 3), exact=True)
    items: list[Item] = []
    binding = size.quilt.binding
    hung = view.put(corners(edge))
    if size.quilt.finished is not None:
        shadow = tuple((x + SHADOW, y + SHADOW) for x, y in hung)
        items.append(Area(shadow, Fill(SHADE), None))
    if binding is not None and size.quilt.finished is not None:
        items.append(Area(hung, Fill(looks[binding.fabric].colour), None))
    plain = {id: Fill(look.colour) for id, look in looks.items()}
    items += painted(pieces, plain, view, Ink.TONAL)
    told = told_quilt(size)
    scene = Scene(
        f"{size.size.id}-cover",
        width,
        height,
        tuple(items),
        f"{size.pattern.title}, {size.size.title}",
        told,
    )
    return figure(scene, f"{size.pattern.title}, {size.size.title}")


def sizes_figure(
    plan: Plan, looks: Looks, width: float = 168.0, tallest: float = 78.0, own: str = ""
) -> Figure | None:
    """The quilts of all sizes side by side at one scale, standing on one line; ids begin with `own`.
    None where fewer than two sizes have a quilt."""
    sizes = [size for size in plan.sizes if size.quilt.finished is not None]
    if len(sizes) < 2:
        return None
    wholes = [all_pieces(size) for size in sizes]
    boxes = [frame(size, rim) for size, (_, rim) in zip(sizes, wholes, strict=True)]
    finished = [size.quilt.finished for size in sizes if size.quilt.finished is not None]
    say = words_of(plan.pattern.language).say
    words = [
        say(area_sides(float(sides[0]), float(sides[1]), plan.pattern.units)) for sides in finished
    ]
    gap = 7.0
    named = _names([size.size.title for size in sizes], words, width, gap)
    least = [
        max(*(text_width(line, 9.0) for line in lines), text_width(text, 8.5))
        for lines, text in zip(named, words, strict=True)
    ]
    high = max(b[3] - b[1] for b in boxes)
    scale = (tallest - 10) / high

    def cells(scale: float) -> list[float]:
        return [max((b[2] - b[0]) * scale, w) + gap for b, w in zip(boxes, least, strict=True)]

    while sum(cells(scale)) - gap > width and scale > 0.2:
        scale *= 0.97
    spare = min(max(0.0, width - sum(cells(scale)) + gap) / (len(sizes) - 1), 12.0)
    items: list[Item] = []
    x, base = 0.0, high * scale + 1
    for n, (size, (pieces, _), box) in enumerate(zip(sizes, wholes, boxes, strict=True)):
        view = View(scale, (x - box[0] * scale, base - box[3] * scale))
        binding = size.quilt.binding
        if binding is not None:
            fill = Fill(looks[binding.fabric].colour)
            items.append(Area(view.put(corners(box)), fill, None))
        plain = {id: Fill(look.colour) for id, look in looks.items()}
        items += painted(pieces, plain, view, Ink.TONAL if scale > 1.2 else None)
        for i, line in enumerate(named[n]):
            items.append(Label((x, base + 3.5 + 4.2 * i), line, 9.0, "start", bold=True))
        items.append(Label((x, base + 3.5 + 4.2 * len(named[n])), words[n], 8.5, "start"))
        x += cells(scale)[n] + spare
    titles = phrase(
        "The finished quilts side by side at one scale: {sizes}.",
        sizes=listing([size.size.title for size in sizes]),
    )
    each = [phrase("{size}: {told}", size=size.size.title, told=told_quilt(size)) for size in sizes]
    told = listing((titles, *each), "sentences")
    title = phrase("All sizes at one scale")
    below = 5.8 + 4.2 * max(map(len, named))
    scene = Scene(f"{own}-sizes", width, base + below, tuple(items), title, told)
    return figure(scene, phrase("All sizes at one scale."))


def _names(titles: list[str], words: list[str], width: float, gap: float) -> list[tuple[str, ...]]:
    """The titles of sizes in lines: each in one, unless they have no room beside each other."""
    wide = [max(text_width(a, 9.0), text_width(b, 8.5)) for a, b in zip(titles, words, strict=True)]
    room = (width - gap * (len(titles) - 1)) / len(titles)
    fits = sum(wide) + gap * len(titles) <= width
    return [(title,) if fits else wrapped(title, 9.0, room) for title in titles]


def colouring_figure(size: SizePlan, width: float = 170.0, tallest: float = 200.0) -> Figure:
    """The quilt in outlines only, to colour."""
    pieces, rim = all_pieces(size)
    view, _, height = fitted(corners(rim), width, tallest, Margins(), exact=True)
    outlines = [view.put(points) for fabric in sorted(pieces) for points in pieces[fabric]]
    ink = Ink.OUTLINE if min(least_side(points) for points in outlines) > 5 else Ink.HAIR
    items = (
        Area(outlines[0], None, ink, tuple(outlines[1:])),
        Area(view.put(corners(rim)), None, Ink.PATCH),
    )
    outlined = phrase("The quilt in outlines only, to color.")
    told = listing((outlined, told_quilt(size)), "sentences")
    title = phrase("A page to color")
    scene = Scene(f"{size.size.id}-colouring", width, height, items, title, told)
    return figure(scene, phrase("Try your own colors."))


def layout_figure(
    size: SizePlan, looks: Looks, width: float = 120.0, tallest: float = 150.0
) -> Figure:
    """The quilt tinted, every block outlined and keyed by row and column, parts named."""
    pieces, rim = all_pieces(size)
    view, _scale, height = fitted(
        corners(rim), width, tallest, Margins(7.0, 6.0, 7.0, 2.0), exact=True
    )
    items: list[Item] = []
    for area in painted(pieces, looks, view, Ink.HAIR):
        fill = area.fill
        assert fill is not None
        items.append(Area(area.points, Fill(fill.colour, 0, tint=True), Ink.HAIR, area.more))
    plans = {block.tiling.block: block for block in size.blocks}
    several = len({placed.block for placed in size.quilt.placed}) > 1
    keys = _keys(size)
    for placed in size.quilt.placed:
        whole = placed_points(placed, plans[placed.block].tiling.outline.points)
        outline = view.put(trimmed(whole, size.quilt.kept))
        if not outline:
            continue
        items.append(Area(outline, None, Ink.PATCH))
        items += _block_label(placed, outline, keys[placed.block] if several else "")
    joins = [line for part in size.quilt.parts for line in join_lines(size, part)]
    items += [Line(view.put(line), Ink.HAIR) for line in joins]
    items += _numbers(size, view)
    items.append(Area(view.put(corners(rim)), None, Ink.RIM))
    scene = Scene(
        f"{size.size.id}-quilt",
        width,
        height,
        tuple(items),
        phrase("Quilt layout"),
        told_quilt(size),
    )
    rows = len({placed.row for placed in size.quilt.placed})
    if any(placed.turn for placed in size.quilt.placed):
        caption = plural_phrase(
            "{n} row of blocks. An arrow shows the top of a turned block.",
            "{n} rows of blocks. An arrow shows the top of a turned block.",
            rows,
        )
    else:
        caption = plural_phrase(
            "{n} row of blocks, all the same way up.",
            "{n} rows of blocks, all the same way up.",
            rows,
        )
    if not several:
        return figure(scene, caption)
    named = [
        phrase("{number} is {block}", number=keys[id], block=plans[id].block.title) for id in keys
    ]
    kinds = phrase("{kinds}.", kinds=listing(named))
    return figure(scene, listing((caption, kinds), "sentences"))


def _keys(size: SizePlan) -> dict[str, str]:
    """A number for every kind of block, in the order of the pattern."""
    return {block.tiling.block: str(i) for i, block in enumerate(size.blocks, 1)}


def _block_label(placed: PlacedBlock, outline: tuple[Point, ...], key: str) -> list[Item]:
    """The key of a block and, where it is turned, an arrow to its top."""
    at, room = roomiest(outline)
    items: list[Item] = []
    if key and room > 3:
        items.append(Label(at, key, 9.0, bold=True, plate=True))
    if placed.turn and room > 5:
        up = turned((0.0, -1.0), placed.turn)
        start = (at[0] + up[0] * (2.6 if key else -2.0), at[1] + up[1] * (2.6 if key else -2.0))
        items.append(
            Line(
                (start, (at[0] + up[0] * (room - 1), at[1] + up[1] * (room - 1))),
                Ink.ARROW,
                end_arrow=True,
                halo=True,
            )
        )
    return items


def _numbers(size: SizePlan, view: View) -> list[Item]:
    """Row numbers at the left and column letters on top."""
    plans = {block.tiling.block: block.tiling for block in size.blocks}
    rows: dict[int, list[float]] = {}
    columns: dict[int, list[float]] = {}
    for placed in size.quilt.placed:
        box = box_of(placed_points(placed, plans[placed.block].outline.points))
        rows.setdefault(placed.row, []).append((box[1] + box[3]) / 2)
        columns.setdefault(placed.column, []).append((box[0] + box[2]) / 2)
    first_row, first_column = min(rows, default=0), min(columns, default=0)
    left, top = view.at((0.0, 0.0))
    items: list[Item] = []
    for row, ys in sorted(rows.items()):
        y = view.at((0.0, sum(ys) / len(ys)))[1]
        items.append(Label((left - 1.8, y), str(row - first_row + 1), 8.0, "end", bold=True))
    for column, xs in sorted(columns.items()):
        x = view.at((sum(xs) / len(xs), 0.0))[0]
        items.append(Label((x, top - 2.6), _column_letter(column - first_column), 8.0, bold=True))
    return items


def _column_letter(n: int) -> str:
    """a, b, … z, aa, ab, … for 0, 1, …"""
    text = chr(97 + n % 26)
    return text if n < 26 else _column_letter(n // 26 - 1) + text


def told_quilt(size: SizePlan) -> Text:
    """The quilt in words."""
    counts = [
        phrase("{n} {block}", n=n, block=b.block.title)
        for b in size.blocks
        if (n := size.quilt.blocks.get(b.tiling.block, 0))
    ]
    sentences: list[Text] = [phrase("The finished quilt: {blocks}.", blocks=listing(counts))]
    if size.quilt.finished is not None:
        wide, high = size.quilt.finished
        area = area_sides(float(wide), float(high), size.pattern.units)
        sentences.append(phrase("{size} finished.", size=area))
        rows = len({p.row for p in size.quilt.placed})
        columns = len({p.column for p in size.quilt.placed})
        blocks = plural_phrase("{n} block", "{n} blocks", columns)
        sentences.append(
            plural_phrase("{n} row of {blocks}.", "{n} rows of {blocks}.", rows, blocks=blocks)
        )
    for border in size.quilt.borders:
        wide_text = measured(float(border.width), size.pattern.units)
        sentences.append(
            phrase(
                "Border {n} of {fabric}, {width} wide.",
                n=border.number,
                fabric=size.fabric(border.fabric).name,
                width=wide_text,
            )
        )
    return listing(sentences, "sentences")
