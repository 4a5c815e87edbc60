"""Floor 10: pictures of the whole quilt: cover, layout, sizes, and a page to colour."""

from __future__ import annotations

from collections import Counter

from booklet.drawing.ink.colours import WHITE
from booklet.drawing.ink.fills import Looks
from booklet.drawing.ink.svg import figure
from booklet.drawing.lettering.text_widths import text_width, wrapped
from booklet.drawing.places import key
from booklet.drawing.quilts.block_keys import block_keys, block_label, row_numbers
from booklet.drawing.quilts.patchwork import (
    all_pieces,
    frame,
    painted,
    painted_over,
    placed_points,
    trimmed,
)
from booklet.drawing.quilts.strip_joins import join_lines
from booklet.drawing.scene import Area, Figure, Fill, Ink, Item, Label, Line, Place, Scene
from booklet.drawing.viewport import Margins, View, fitted
from booklet.kit.outlines.plane import corners, extent
from booklet.kit.words import Text, area_text, listing, phrase, plural_phrase, words_of
from booklet.plan import Plan, SizePlan
from booklet.plan.records import V2
from booklet.plan.top.border_words import border_width
from booklet.plan.top.slanted_words import slanted_of
from booklet.quilt.assembling.joining import JoinedIn

SHADOW = 1.3  # mm to the right of and below a quilt on its wall
SHADE = "#cdc6ba"


def cover_figure(
    size: SizePlan, looks: Looks, width: float = 150.0, tallest: float = 150.0, name: str = "cover"
) -> Figure:
    """The finished quilt in its plain colours, without a letter, on a pale wall with its shadow; the
    blocks alone where there is no quilt. Its name tells it from other pictures of the same size."""
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
    items += painted_over(size, plain, view, Ink.TONAL)
    told = told_quilt(size)
    scene = Scene.of(
        f"{size.size.id}-{name}",
        (width, height),
        items,
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
    say = words_of(plan.pattern.tongue).say
    words = [
        say(area_text((float(sides[0]), float(sides[1])), plan.pattern.units)) for sides in finished
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
        ink = Ink.TONAL if scale > 1.2 else None
        items += [*painted(pieces, plain, view, ink), *painted_over(size, plain, view, ink)]
        for i, line in enumerate(named[n]):
            items.append(
                Label(at=(x, base + 3.5 + 4.2 * i), text=line, size=9.0, anchor="start", bold=True)
            )
        items.append(
            Label(at=(x, base + 3.5 + 4.2 * len(named[n])), text=words[n], size=8.5, anchor="start")
        )
        x += cells(scale)[n] + spare
    titles = phrase(
        "The finished quilts side by side at one scale: {sizes}.",
        sizes=listing([size.size.title for size in sizes]),
    )
    each = [phrase("{size}: {told}", size=size.size.title, told=told_quilt(size)) for size in sizes]
    told = listing((titles, *each), "sentences")
    title = phrase("All sizes at one scale")
    below = 5.8 + 4.2 * max(map(len, named))
    scene = Scene.of(f"{own}-sizes", (width, base + below), items, title, told)
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
    ink = Ink.OUTLINE if min(min(extent(points)) for points in outlines) > 5 else Ink.HAIR
    items = [Area(outlines[0], None, ink, tuple(outlines[1:]))]
    items += _uncoloured(size, view, ink)
    if size.quilt.finished is not None:  # else the rim is but the room that the blocks take
        items.append(Area(view.put(corners(rim)), None, Ink.PATCH))
    outlined = phrase("The quilt in outlines only, to color.")
    told = listing((outlined, told_quilt(size)), "sentences")
    title = phrase("A page to color")
    scene = Scene.of(f"{size.size.id}-colouring", (width, height), items, title, told)
    return figure(scene, _finished(size) or outlined)


def _finished(size: SizePlan) -> Text | None:
    """How large the quilt is; None where its blocks are left to the reader to set."""
    if size.quilt.finished is None:
        return None
    wide, high = size.quilt.finished
    measure = area_text((float(wide), float(high)), size.pattern.units)
    return phrase("{block}, {measure} finished.", block=size.size.title, measure=measure)


def _uncoloured(size: SizePlan, view: View, ink: Ink) -> list[Area]:
    """What is laid on the blocks, in outlines, white so that what lies below is hidden."""
    white = {fabric: Fill(WHITE) for fabric in size.size.fabrics}
    return painted_over(size, white, view, ink)


def layout_figure(
    size: SizePlan, looks: Looks, width: float = 120.0, tallest: float = 150.0
) -> Figure:
    """The quilt tinted, every block outlined and keyed by row and column, parts named."""
    pieces, rim = all_pieces(size)
    view, _scale, height = fitted(
        corners(rim),
        width,
        tallest,
        Margins(7.0, 6.0, 7.0, 6.0 if slanted_of(size) else 2.0),
        exact=True,
    )
    items: list[Item] = []
    cloth = painted(pieces, looks, view, Ink.HAIR)
    for area in (*cloth, *painted_over(size, looks, view, Ink.HAIR)):
        fill = area.fill
        assert fill is not None
        items.append(Area(area.points, Fill(fill.colour, 0, tint=True), Ink.HAIR, area.more))
    plans = {block.tiling.block: block for block in size.blocks}
    keys = block_keys(size)
    seconds = {
        block.tiling.block: block.pressing.versions.places
        for block in size.blocks
        if block.pressing.versions is not None
    }
    for placed in size.quilt.placed:
        whole = placed_points(placed, plans[placed.block].tiling.outline.points)
        outline = view.put(trimmed(whole, size.quilt.kept))
        if not outline:
            continue
        items.append(Area(outline, None, Ink.PATCH))
        items.append(Place(outline, (key("block", placed.block),)))
        version = V2 if (placed.column, placed.row) in seconds.get(placed.block, ()) else ""
        marks = " ".join(filter(None, (keys.get(placed.block, ""), version)))
        items += block_label(placed, outline, marks)
    joins = [line for part in size.quilt.parts for line in join_lines(size, part)]
    items += [Line(points=view.put(line), ink=Ink.HAIR) for line in joins]
    items += row_numbers(size, view)
    items += [
        Place(view.put(points), (key("part", part.name), key("cut", part.fabric, part.name)))
        for part in size.quilt.parts
        for points in part.places
    ]
    items.append(Area(view.put(corners(rim)), None, Ink.RIM))
    scene = Scene.of(
        f"{size.size.id}-quilt", (width, height), items, phrase("Quilt layout"), told_quilt(size)
    )
    caption: Text = _layout_caption(size)
    if seconds:
        second: Text = phrase("{version}: the blocks pressed in the second way.", version=V2)
        caption = listing((caption, second), "sentences")
    if not keys:
        return figure(scene, caption)
    named = [
        phrase("{number} is {block}", number=keys[id], block=plans[id].block.title) for id in keys
    ]
    kinds = phrase("{kinds}.", kinds=listing(named))
    return figure(scene, listing((caption, kinds), "sentences"))


def _layout_caption(size: SizePlan) -> Text:
    """How many rows of blocks there are, or columns where these are joined, and which way up they lie."""
    slanted = slanted_of(size)
    if slanted is not None:
        return plural_phrase(
            "{n} slanted row of blocks. Arrows show the tops of the blocks.",
            "{n} slanted rows of blocks. Arrows show the tops of the blocks.",
            sum(row.has_blocks for row in slanted.rows),
        )
    is_turned = any(placed.turn for placed in size.quilt.placed)
    if size.joined_in is JoinedIn.COLUMNS:
        columns = len({placed.column for placed in size.quilt.placed})
        if is_turned:
            return plural_phrase(
                "{n} column of blocks. An arrow shows the top of a turned block.",
                "{n} columns of blocks. An arrow shows the top of a turned block.",
                columns,
            )
        return plural_phrase(
            "{n} column of blocks, all the same way up.",
            "{n} columns of blocks, all the same way up.",
            columns,
        )
    rows = len({placed.row for placed in size.quilt.placed})
    if is_turned:
        return plural_phrase(
            "{n} row of blocks. An arrow shows the top of a turned block.",
            "{n} rows of blocks. An arrow shows the top of a turned block.",
            rows,
        )
    return plural_phrase(
        "{n} row of blocks, all the same way up.",
        "{n} rows of blocks, all the same way up.",
        rows,
    )


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
        area = area_text((float(wide), float(high)), size.pattern.units)
        sentences.append(phrase("{size} finished.", size=area))
        sentences.append(_rows_told(size))
    for border in size.quilt.borders:
        sentences.append(
            phrase(
                "Border {n} of {fabric}, {width}.",
                n=border.number,
                fabric=size.fabric(border.fabric).name,
                width=border_width(border, size.pattern.units),
            )
        )
    return listing(sentences, "sentences")


def _rows_told(size: SizePlan) -> Text:
    """How many rows there are, or columns where these are joined, and of how many blocks where all have as many."""
    slanted = slanted_of(size)
    if slanted is not None:
        rows = sum(row.has_blocks for row in slanted.rows)
        return plural_phrase("{n} slanted row.", "{n} slanted rows.", rows)
    if size.joined_in is JoinedIn.COLUMNS:
        columns = len({placed.column for placed in size.quilt.placed})
        return plural_phrase("{n} column.", "{n} columns.", columns)
    counts = Counter(placed.row for placed in size.quilt.placed)
    if len(set(counts.values())) > 1:
        return plural_phrase("{n} row.", "{n} rows.", len(counts))
    blocks = plural_phrase("{n} block", "{n} blocks", next(iter(counts.values()), 0))
    return plural_phrase(
        "{n} row of {blocks}.", "{n} rows of {blocks}.", len(counts), blocks=blocks
    )
