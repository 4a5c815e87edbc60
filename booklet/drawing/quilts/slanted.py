"""Floor 10: the rows of a set on point, drawn apart as they are sewn, from the first at the upper left."""

from __future__ import annotations

from math import sqrt

from booklet.drawing.ink.fills import Looks
from booklet.drawing.ink.svg import figure
from booklet.drawing.quilts.block_keys import block_keys, block_label
from booklet.drawing.quilts.patchwork import Pieces, block_pieces, painted, placed_points
from booklet.drawing.scene import Area, Figure, Ink, Item, Label, Scene
from booklet.drawing.viewport import Margins, View, fitted
from booklet.kit.outlines.plane import Point, box_of
from booklet.kit.outlines.polygon import centroid
from booklet.kit.words import listing, phrase
from booklet.plan import SizePlan
from booklet.plan.top.slanted_words import slanted_lines, slanted_of
from booklet.quilt.assembling.slanted import InRow, SlantedRow, SlantedSet

APART = 0.22  # of the height of a row of blocks
ROOM = 4.5  # mm from the end of a row to its number
DOWN = (1 / sqrt(2), 1 / sqrt(2))  # from row to row
BACK = (-1 / sqrt(2), 1 / sqrt(2))  # to the lower left end of a row

Moved = tuple[InRow, Point]


def slanted_figure(
    size: SizePlan, looks: Looks, width: float = 120.0, tallest: float = 120.0
) -> Figure | None:
    """The rows of a set on point apart from each other, numbered, their triangles at their ends and the
    corner triangles aside; None of any other set."""
    found = slanted_of(size)
    if found is None:
        return None
    rows = _apart(found)
    everything = [*(moved for _, items in rows for moved in items), *_corners(found)]
    points = [_by(p, shift) for item, shift in everything for p in item.outline]
    view, _, height = fitted(points, width, tallest, Margins(9.0, 2.0, 4.0, 9.0), exact=True)
    items = _painted(size, everything, looks, view)
    items += [
        Area(view.put(_by(p, shift) for p in item.outline), None, Ink.PATCH)
        for item, shift in everything
    ]
    keys = block_keys(size)
    for item, shift in everything:
        if item.placed is not None:
            outline = view.put(_by(p, shift) for p in item.outline)
            items += block_label(item.placed, outline, keys.get(item.name, ""))
    items += [_number(row, moved, view) for row, moved in rows if row.has_blocks]
    title = phrase("The rows apart")
    lines = [
        phrase("{name}: {words}.", name=line.name, words=line.words)
        for line in slanted_lines(size, found)
    ]
    told = listing((phrase("The slanted rows, drawn apart."), *lines), "sentences")
    scene = Scene.of(f"{size.size.id}-rows", (width, height), items, title, told)
    return figure(
        scene, phrase("The rows as they are sewn, drawn apart; the corner triangles come last.")
    )


def _apart(found: SlantedSet) -> list[tuple[SlantedRow, list[Moved]]]:
    """Every row with its things, moved away from the row before it."""
    gap = _gap(found)
    rows = []
    for n, row in enumerate(found.rows):
        shift = (DOWN[0] * gap * n, DOWN[1] * gap * n)
        items = [(item, shift) for item in row.items]
        for corner, way in ((row.start, 1.0), (row.end, -1.0)):
            if corner is not None:
                away = shift[0] + BACK[0] * gap * way, shift[1] + BACK[1] * gap * way
                items.append((corner, away))
        rows.append((row, items))
    return rows


def _corners(found: SlantedSet) -> list[Moved]:
    """The corner triangles along the first row and the last."""
    gap, count = _gap(found), len(found.rows)
    return [
        (found.first, (-DOWN[0] * gap, -DOWN[1] * gap)),
        (found.last, (DOWN[0] * gap * count, DOWN[1] * gap * count)),
    ]


def _gap(found: SlantedSet) -> float:
    """How far rows are drawn apart, in inches."""
    block = next(item for row in found.rows for item in row.items if item.placed is not None)
    left, _, right, _ = box_of(block.outline)
    return APART * (right - left) / sqrt(2)


def _by(p: Point, shift: Point) -> Point:
    return p[0] + shift[0], p[1] + shift[1]


def _painted(size: SizePlan, everything: list[Moved], looks: Looks, view: View) -> list[Item]:
    """All cloth of the rows, moved, in its look."""
    blocks = {block.tiling.block: block for block in size.blocks}
    pieces: Pieces = {}
    for item, shift in everything:
        if item.placed is None:
            pieces.setdefault(item.fabric, []).append(tuple(_by(p, shift) for p in item.outline))
            continue
        for fabric, points in block_pieces(blocks[item.name], item.placed):
            pieces.setdefault(fabric, []).append(tuple(_by(p, shift) for p in points))
    items: list[Item] = list(painted(pieces, looks, view, Ink.HAIR))
    for item, shift in everything:
        for shape in blocks[item.name].tiling.applied if item.placed is not None else ():
            assert item.placed is not None
            points = placed_points(item.placed, shape.piece.outline.points)
            moved = {shape.piece.fabric: [tuple(_by(p, shift) for p in points)]}
            items += painted(moved, looks, view, Ink.HAIR)
    return items


def _number(row: SlantedRow, items: list[Moved], view: View) -> Label:
    """The number of a row beyond its lower left end."""
    ends = [centroid([_by(p, shift) for p in item.outline]) for item, shift in items]
    first = min(ends, key=lambda p: p[0] - p[1])
    points = [_by(p, shift) for item, shift in items for p in item.outline]
    reach = max((p[1] - p[0]) - (first[1] - first[0]) for p in points) / 2  # to the end of the row
    x, y = view.at((first[0] - reach, first[1] + reach))
    return Label(
        at=(x + BACK[0] * ROOM, y + BACK[1] * ROOM),
        text=str(row.number),
        size=8.0,
        bold=True,
        plate=True,
    )
