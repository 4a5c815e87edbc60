"""Floor 10: the small plan of a quilt whose blocks are pressed in two versions: where each lies."""

from __future__ import annotations

from booklet.drawing.ink.colours import DARK, WHITE
from booklet.drawing.ink.svg import figure
from booklet.drawing.quilts.patchwork import placed_points
from booklet.drawing.scene import Area, Figure, Fill, Ink, Item, Label, Scene
from booklet.drawing.viewport import Margins, fitted
from booklet.kit.colour import mix
from booklet.kit.outlines.plane import box_of
from booklet.kit.words import listing, phrase
from booklet.plan import SizePlan
from booklet.plan.records import V1, V2, VERSIONS

B_GREY = mix(WHITE, DARK, 0.22)
NARROWEST = 3.8  # mm: a block that has room for its name
NONE_GREY = mix(WHITE, DARK, 0.06)


def versions_figure(size: SizePlan, width: float = 81.0, tallest: float = 80.0) -> Figure | None:
    """The blocks of a quilt, from the front, with the version of each; None where all are one."""
    places = {
        (column, row): block.block.id
        for block in size.blocks
        if block.pressing.versions is not None
        for column, row in block.pressing.versions.places
    }
    if not (places and size.quilt.placed):
        return None
    in_two = set(places.values())
    tilings = {block.block.id: block.tiling for block in size.blocks}
    outlines = [
        placed_points(placed, tilings[placed.block].outline.points) for placed in size.quilt.placed
    ]
    view, _, height = fitted(
        [p for outline in outlines for p in outline], width, tallest, Margins(), exact=True
    )
    items: list[Item] = []
    for placed, outline in zip(size.quilt.placed, outlines, strict=True):
        points = view.put(outline)
        letter = ""
        if placed.block in in_two:
            letter = VERSIONS[(placed.column, placed.row) in places]
        fill = {V1: WHITE, V2: B_GREY, "": NONE_GREY}[letter]
        items.append(Area(points, Fill(fill), Ink.FINE))
        left, top, right, bottom = box_of(points)
        if letter and right - left >= NARROWEST:
            points_high = max(7.0, min(11.0, 1.3 * (right - left), 1.6 * (bottom - top)))
            items.append(
                Label(
                    at=((left + right) / 2, (top + bottom) / 2),
                    text=letter,
                    size=points_high,
                    bold=letter == V2,
                )
            )
    title = phrase("Which blocks are which version, from the front")
    rows: dict[int, list[str]] = {}
    for placed in sorted(size.quilt.placed, key=lambda p: (p.row, p.column)):
        mark = VERSIONS[(placed.column, placed.row) in places] if placed.block in in_two else "–"
        rows.setdefault(placed.row, []).append(mark)
    named = phrase("{title}.", title=title)
    told = [
        phrase("Row {n}: {versions}.", n=n, versions=" ".join(row))
        for n, row in enumerate(rows.values(), 1)
    ]
    scene = Scene.of(
        f"{size.size.id}-versions",
        (width, height),
        items,
        title,
        listing((named, *told), "sentences"),
    )
    grey = phrase("Gray: {version}.", version=V2)
    return figure(scene, listing((named, grey), "sentences"))
