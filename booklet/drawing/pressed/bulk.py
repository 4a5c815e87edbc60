"""Floor 10: how thick a pressed block lies: layers of cloth in steps of grey, the thickest points named."""

from __future__ import annotations

import math

from booklet.drawing.ink.colours import DARK, WHITE
from booklet.drawing.ink.svg import figure
from booklet.drawing.lettering.labels import plate_radius
from booklet.drawing.scales import nearest_scale
from booklet.drawing.scene import Area, Figure, Fill, Ink, Item, Label, Line, Scene
from booklet.kit.colour import mix
from booklet.kit.outlines.plane import Point, box_of, plus, vector
from booklet.kit.outlines.polygon import centroid
from booklet.kit.words import Text, listing, phrase, plural_phrase
from booklet.plan import BlockPlan
from booklet.pressing import bulk_map

MOST_PIECES = 150  # more are too fine to read at the width of a column
KEY = 7.5  # mm under the picture, for the key of greys
LEAST_KEY = 6.5  # mm: a grey and a number of two digits
NAMED = 12  # points that are given their number


def bulk_figure(
    block: BlockPlan,
    width: float = 81.0,
    allowance: float = 0.25,
    tallest: float = 90.0,
    limit: int = 8,
) -> Figure | None:
    """The layers of a block from the back, `width` mm wide; points of more than `limit` layers are
    ringed. None for a block of very many pieces, or of one."""
    if not 1 < len(block.tiling.pieces) <= MOST_PIECES:
        return None
    cells = bulk_map(block.pressing, allowance)
    left, top, right, bottom = box_of([p for outline, _ in cells for p in outline])
    scale = nearest_scale(
        lambda mm: (right - left) * mm + 2 <= width and (bottom - top) * mm + 2 + KEY <= tallest
    )
    mm = scale.mm_per_inch

    def put(p: Point) -> Point:
        return (width / 2 - (p[0] - (left + right) / 2) * mm, 1 + (p[1] - top) * mm)

    most = max(layers for _, layers in cells)
    items: list[Item] = []
    for layers in range(1, most + 1):
        same = [tuple(map(put, outline)) for outline, n in cells if n == layers]
        if same:
            items.append(Area(same[0], Fill(grey(layers, most)), None, tuple(same[1:])))
    items += [Line(points=tuple(map(put, seam.path)), ink=Ink.HAIR) for seam in block.tiling.seams]
    items.append(Area(tuple(map(put, block.tiling.outline.points)), None, Ink.SEAM_LINE))
    near = 1.5 * allowance
    over = _places([outline for outline, n in cells if n > limit], near)
    thickest = _places([outline for outline, n in cells if n == most], near)
    for at in over:
        ring = tuple(plus(put(at), vector(i * 15.0), 2.4) for i in range(25))
        items.append(Line(points=ring, ink=Ink.FAN, halo=True))
    if len(thickest) <= NAMED:
        apart = max(near, 2.2 * plate_radius(str(most), 8.0) / mm)
        told_at = _places([outline for outline, n in cells if n == most], apart)
        items += [
            Label(at=put(at), text=str(most), size=8.0, bold=True, plate=True) for at in told_at
        ]
    height = (bottom - top) * mm + 2 + KEY
    items += _key(sorted({n for _, n in cells}), most, height - KEY / 2 + 1, width)
    told: list[Text] = [
        plural_phrase(
            "The most is {most}, at {n} place.",
            "The most is {most}, at {n} places.",
            len(thickest),
            most=most,
        )
    ]
    if over:
        told.append(phrase("Rings: more than {limit}.", limit=limit))
    title = phrase("Layers of cloth, from the back")
    name = f"{block.tiling.size}-{block.tiling.block}-layers"
    scene = Scene.of(
        name,
        (width, height),
        items,
        title,
        listing([phrase("{title}.", title=title), *told], "sentences"),
    )
    caption = phrase("{title}: the darker, the more.", title=title)
    return figure(scene, listing((caption, *told, scale.caption), "sentences"))


def _places(cells: list[tuple[Point, ...]], near: float) -> list[Point]:
    """The middles of cells, one for those no farther from each other than `near` inches."""
    found: list[Point] = []
    for at in map(centroid, cells):
        if all(math.dist(at, other) > near for other in found):
            found.append(at)
    return found


def grey(layers: int, most: int) -> str:
    """The grey of a number of layers: nearly white for one, then even steps."""
    return mix(WHITE, DARK, 0.07 + (0.83 * (layers - 1) / (most - 1) if most > 1 else 0))


def _key(shown: list[int], most: int, y: float, width: float) -> list[Item]:
    """A row of greys with their numbers; of more than have room some, from the fewest layers to the most."""
    room = max(2, int((width - 4) / LEAST_KEY))
    if len(shown) > room:
        shown = [shown[round(k * (len(shown) - 1) / (room - 1))] for k in range(room)]
    step = min(9.0, (width - 4) / len(shown))
    items: list[Item] = []
    for k, layers in enumerate(shown):
        x = width / 2 - step * len(shown) / 2 + k * step
        box = ((x, y - 2), (x + step * 0.45, y - 2), (x + step * 0.45, y + 2), (x, y + 2))
        items.append(Area(box, Fill(grey(layers, most)), Ink.HAIR))
        items.append(Label(at=(x + step * 0.72, y), text=str(layers), size=8.0))
    return items
