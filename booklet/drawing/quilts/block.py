"""Floor 10: pictures of a block: with its letters, as a key to its patches, and as a thumbnail."""

from __future__ import annotations

import math
import re
from collections import Counter

from booklet.drawing.ink.fills import Looks
from booklet.drawing.ink.svg import figure
from booklet.drawing.laid_on import seen_parts, shapes_over
from booklet.drawing.lettering.labels import letter_in
from booklet.drawing.lettering.leaders import SIDE, letters_on
from booklet.drawing.lettering.text_widths import NO_BREAK, wrapped
from booklet.drawing.places import key, piece_places, shape_places
from booklet.drawing.quilts.patchwork import together
from booklet.drawing.scene import Area, Figure, Fill, Ink, Item, Label, Line, Place, Scene
from booklet.drawing.told import piece_letter
from booklet.drawing.viewport import Margins, View, fitted
from booklet.geometry.tiling import Patch
from booklet.geometry.vectors import as_rectangle
from booklet.kit.measure import INCH_MM
from booklet.kit.outlines.plane import Point, box_of, length_of, plus, turn_point
from booklet.kit.words import Text, area_text, listing, phrase, plural_phrase, with_unit, words_of
from booklet.plan import BlockPlan, SizePlan, StepCard


def block_figure(size: SizePlan, block: BlockPlan, looks: Looks, width: float = 80.0) -> Figure:
    """The finished block with its patch letters and its measure, `width` mm wide."""
    tiling = block.tiling
    margins = Margins(SIDE, 2.0, SIDE, 7.5)
    view, scale, height = fitted(tiling.outline.points, width, width + 6, margins)
    items: list[Item] = [
        *together(
            Area(view.put(piece.outline.points), looks[piece.fabric], Ink.PATCH)
            for piece in tiling.pieces
        )
    ]
    items += shapes_over(tiling, view, looks, Ink.PATCH)
    items.append(Area(view.put(tiling.outline.points), None, Ink.RIM))
    items += _letters(block, view)
    items += _places(block, view)
    left, _, right, bottom = box_of(view.put(tiling.outline.points))
    measure = area_text((tiling.width, tiling.height), size.pattern.units)
    said = words_of(size.pattern.tongue).say(measure)
    items += _measure((left, bottom + 3.0), (right, bottom + 3.0), said)
    name = f"{tiling.size}-{tiling.block}-block"
    scene = Scene.of(name, (width, height), items, block.block.title, told_block(size, block))
    finished = phrase("{block}, {measure} finished.", block=block.block.title, measure=measure)
    return figure(scene, listing((finished, scale.caption), "sentences"))


def _places(block: BlockPlan, view: View) -> tuple[Item, ...]:
    """Where each piece of a block lies."""
    tiling = block.tiling
    drawn = ((piece, view.put(piece.outline.points)) for piece in tiling.pieces)
    laid = ((shape.piece, view.put(shape.piece.outline.points)) for shape in tiling.applied)
    return *piece_places(tiling.block, drawn), *shape_places(tiling.block, laid)


def _measure(start: Point, end: Point, text: str) -> list[Item]:
    """A line with a tick at each end and its measure below."""
    ticks = [
        Line(points=(plus(p, (0, -1.0)), plus(p, (0, 1.0))), ink=Ink.RULE) for p in (start, end)
    ]
    middle = ((start[0] + end[0]) / 2, start[1] + 2.6)
    return [Line(points=(start, end), ink=Ink.RULE), *ticks, Label(at=middle, text=text, size=8.0)]


def _letters(block: BlockPlan, view: View) -> list[Item]:
    """The letters of a block's pieces."""
    rim = box_of(view.put(block.tiling.outline.points))
    seen = seen_parts(block.tiling)
    return letters_on(
        ((piece_letter(piece), piece.fabric, view.put(points)) for piece, points in seen), rim
    )


def told_block(size: SizePlan, block: BlockPlan) -> Text:
    """The block in words: its size and its patches by letter and cloth."""
    counted = Counter(
        (piece_letter(p), block.tiling.patch(p.patch).name, p.fabric) for p in block.tiling.laid
    )
    parts = [
        phrase(
            "{count} {letter} ({shape}) of {fabric}",
            count=count,
            letter=letter,
            shape=name,
            fabric=size.fabric(fabric).name,
        )
        for (letter, name, fabric), count in sorted(counted.items())
    ]
    measure = area_text((block.tiling.width, block.tiling.height), size.pattern.units)
    return plural_phrase(
        "The finished block, {measure}, of {n} piece: {parts}.",
        "The finished block, {measure}, of {n} pieces: {parts}.",
        len(block.tiling.laid),
        measure=measure,
        parts=listing(parts),
    )


def thumbnail_figure(block: BlockPlan, card: StepCard, looks: Looks, width: float = 16.0) -> Figure:
    """The whole block, small, with the unit of a card in its colours."""
    tiling = block.tiling
    view, _, height = fitted(tiling.outline.points, width, width, Margins(0.5, 0.5, 0.5, 0.5), True)
    near, rest = [], []
    for piece in tiling.pieces:
        points = view.put(piece.outline.points)
        if piece.id in card.step.pieces:
            near.append(Area(points, Fill(looks[piece.fabric].colour), Ink.FINE))
        else:
            rest.append(Area(points, None, Ink.CONTEXT))
    items = (*together(rest), *together(near), *_places(block, view))
    name = f"{tiling.size}-{tiling.block}-where-{card.n}"
    told = phrase("Where the unit of step {n} lies in the block.", n=card.n)
    scene = Scene.of(name, (width, height), items, told, told)
    return figure(scene, "")


def patch_key_figure(size: SizePlan, looks: Looks, width: float = 170.0) -> Figure:
    """Every distinct patch of a size at one scale: letter, name, measures, cloths and counts."""
    entries = _entries(size)
    most = max(1, int(width // 32))
    rows = math.ceil(len(entries) / most)
    columns = math.ceil(len(entries) / rows)
    cell = width / columns
    widest = max(
        max(box_of(p.outline.points)[2], box_of(p.outline.points)[3]) for p, _, _ in entries
    )
    scale = min((cell - 10) / widest, 26.0 / widest, INCH_MM)
    items: list[Item] = []
    y = 0.0
    for start in range(0, len(entries), columns):
        row = entries[start : start + columns]
        tall = max(box_of(p.outline.points)[3] for p, _, _ in row) * scale + 3
        lines = 0
        for i, (patch, notes, counts) in enumerate(row):
            drawn, used = _entry(
                size, patch, notes, counts, looks, (i * cell, y), cell, scale, tall
            )
            items += drawn
            lines = max(lines, used)
        y += tall + 4.2 * lines + 6
    told = listing([_told_patch(size, patch, counts) for patch, _, counts in entries], "sentences")
    title = phrase("The patches")
    scene = Scene.of(f"{size.size.id}-patches", (width, y), items, title, told)
    return figure(scene, phrase("Finished sizes, all at one scale, and how many the quilt needs."))


def _told_patch(size: SizePlan, patch: Patch, counts: list[tuple[str, int]]) -> Text:
    """A patch of the key in words."""
    cloths = [
        phrase("{count} of {fabric}", count=count, fabric=size.fabric(id).name)
        for id, count in counts
    ]
    return phrase(
        "{letter}: {shape}, {measure}; {cloths}.",
        letter=patch.letter,
        shape=patch.name,
        measure=patch_measure(patch, size),
        cloths=listing(cloths, "commas"),
    )


def _entries(size: SizePlan) -> list[tuple[Patch, tuple[str, ...], list[tuple[str, int]]]]:
    """Each distinct patch with notes and the number of every cloth, in the order of letters."""
    patches: dict[str, Patch] = {}
    counts: dict[str, Counter[str]] = {}
    mirrored: set[str] = set()
    for block in size.made_here:
        for patch in block.tiling.all_patches:
            patches.setdefault(patch.letter, patch)
        for piece in block.tiling.laid:
            counts.setdefault(piece.patch, Counter())[piece.fabric] += max(block.count, 1)
            if piece.reversed:
                mirrored.add(piece.patch)
    order = list(size.size.fabrics)
    return [
        (
            patches[letter],
            (phrase("some reversed"),) if letter in mirrored else (),
            sorted(counts[letter].items(), key=lambda item: order.index(item[0])),
        )
        for letter in size.letters
        if letter in patches and letter in counts
    ]


def _entry(
    size: SizePlan,
    patch: Patch,
    notes: tuple[str, ...],
    counts: list[tuple[str, int]],
    looks: Looks,
    corner: Point,
    cell: float,
    scale: float,
    tall: float,
) -> tuple[list[Item], int]:
    """One cell of the key and how many lines of text it has."""
    left, _top, right, bottom = box_of(patch.outline.points)
    shift = (
        corner[0] + (cell - (right - left) * scale) / 2,
        corner[1] + 1 + tall - 2 - bottom * scale,
    )
    view = View(scale, (shift[0] - left * scale, shift[1]))
    points = view.put(patch.outline.points)
    items: list[Item] = [Area(points, looks[counts[0][0]], Ink.PATCH)]
    items.append(Place(points, (key("patch", patch.letter),)))
    letter = letter_in(points, patch.letter, 10.0)
    x = corner[0] + cell / 2
    y = corner[1] + tall + 3.0
    if letter is not None:
        items.append(letter)
    say = words_of(size.pattern.tongue).say
    named = phrase("{letter} {shape}", letter=patch.letter, shape=patch.name)
    lines = list(wrapped(say(named), 8.5, cell - 3))
    measure = _unbroken(say(patch_measure(patch, size)))
    rest = [*wrapped(measure, 8.0, cell - 3)]
    rest += [line for note in notes for line in wrapped(say(note), 8.0, cell - 3)]
    for i, text in enumerate([*lines, *rest]):
        items.append(
            Label(
                at=(x, y + 4.0 * i),
                text=text,
                size=8.5 if i < len(lines) else 8.0,
                bold=i < len(lines),
            )
        )
    y += 4.0 * (len(lines) + len(rest))
    for i, (fabric, count) in enumerate(counts):
        box = (corner[0] + cell * 0.18, y + 4.2 * i)
        items.append(swatch(looks[fabric], (box[0], box[1] - 1.5), 3.0))
        name = size.fabric(fabric).name
        items.append(
            Label(at=(box[0] + 4.4, box[1]), text=f"{name} × {count}", size=8.0, anchor="start")
        )
    return items, len(lines) + len(rest) + len(counts)


def swatch(look: Fill, corner: Point, side: float) -> Area:
    """A small square of a cloth."""
    x, y = corner
    return Area(((x, y), (x + side, y), (x + side, y + side), (x, y + side)), look, Ink.FINE)


def swatch_figure(size: SizePlan, fabric: str, looks: Looks, side: float = 12.0) -> Figure:
    """A square of a fabric for the list of materials."""
    name = size.fabric(fabric).name
    item = swatch(looks[fabric], (0.3, 0.3), side - 0.6)
    scene = Scene.of(
        f"{size.size.id}-swatch-{fabric}",
        (side, side),
        (item,),
        name,
        phrase("{fabric}: its color and mark.", fabric=name),
    )
    return figure(scene, name)


def patch_measure(patch: Patch, size: SizePlan) -> Text:
    """The finished measures of a patch in words."""
    units = size.pattern.units
    if (box := as_rectangle(patch.outline.points)) is not None and not patch.outline.is_curved:
        return area_text(box, units)  # also where it stands on a corner
    lengths = {round(length_of(side.points), 3) for side in patch.outline.sides}
    if len(lengths) <= 3:
        sides = listing([with_unit(length, units) for length in sorted(lengths)])
        return plural_phrase("side {sides}", "sides {sides}", len(lengths), sides=sides)
    upright = [turn_point(point, -patch.grain) for point in patch.outline.points]
    left, top, right, bottom = box_of(upright)
    return phrase("within {area}", area=area_text((right - left, bottom - top), units))


def _unbroken(text: str) -> str:
    """Measures that are not broken within: between a figure and its unit."""
    return re.sub(r"(?<=[\d/]) (?=[\d/]|in\b|cm\b|inch|po\b)", NO_BREAK, text)
