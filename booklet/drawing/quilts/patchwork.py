"""Floor 10: everything in a quilt top as outlines in inches, by fabric."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from booklet.drawing.ink.fills import Looks
from booklet.drawing.scene import Area, Fill, Ink
from booklet.drawing.viewport import View
from booklet.kit.outlines.near import NO_LENGTH
from booklet.kit.outlines.plane import Box, Point, box_of, cosine, direction, extent, right_of, sine
from booklet.kit.outlines.polygon import area_of, edges, half_plane
from booklet.plan import BlockPlan, SizePlan
from booklet.quilt.sized import PlacedBlock

Pieces = dict[str, list[tuple[Point, ...]]]  # fabric id -> outlines


FINISHED_BINDING = 0.375  # inches shown on each side of the top


def frame(size: SizePlan, rim: Box) -> Box:
    """The box of the picture: the top and its binding."""
    edge = FINISHED_BINDING if size.quilt.binding is not None and size.quilt.finished else 0.0
    return rim[0] - edge, rim[1] - edge, rim[2] + edge, rim[3] + edge


def painted(pieces: Pieces, looks: Looks, view: View, ink: Ink | None) -> list[Area]:
    """One area for every fabric; hatched only where patches are large enough for the hatch to read."""
    items = []
    for fabric in sorted(pieces):
        outlines = [view.put(points) for points in pieces[fabric]]
        small = min(min(extent(points)) for points in outlines) < 7.0
        look = looks[fabric]
        fill = Fill(look.colour, 0, look.tint) if small else look
        items.append(Area(outlines[0], fill, ink, tuple(outlines[1:])))
    return items


def patch_outlines(size: SizePlan) -> Pieces:
    """The outlines of the patches of all blocks in the top, by fabric, in inches."""
    pieces: Pieces = {}
    plans = {block.tiling.block: block for block in size.blocks}
    for placed in size.quilt.placed:
        for fabric, points in block_pieces(plans[placed.block], placed, size.quilt.kept):
            pieces.setdefault(fabric, []).append(points)
    return pieces


def all_pieces(size: SizePlan) -> tuple[Pieces, Box]:
    """The outlines of everything in the top by fabric, in inches, and the box about them."""
    pieces = patch_outlines(size)
    if not size.quilt.placed:
        _side_by_side(size.blocks, pieces)
    for part in size.quilt.parts:
        pieces.setdefault(part.fabric, []).extend(part.places)
    pieces = {fabric: outlines for fabric, outlines in pieces.items() if outlines}
    box = box_of([p for outlines in pieces.values() for points in outlines for p in points])
    if size.quilt.finished is not None:
        wide, high = size.quilt.finished
        box = (0.0, 0.0, max(float(wide), box[2]), max(float(high), box[3]))
    return pieces, box


def _side_by_side(blocks: Iterable[BlockPlan], pieces: Pieces) -> None:
    """Blocks one beside the other, for a pattern without a quilt."""
    for block, placed in _in_a_row(blocks):
        for fabric, points in block_pieces(block, placed):
            pieces.setdefault(fabric, []).append(points)


def _in_a_row(blocks: Iterable[BlockPlan]) -> Iterable[tuple[BlockPlan, PlacedBlock]]:
    """Blocks with their places one beside the other."""
    x = 0.0
    for block in blocks:
        yield (
            block,
            PlacedBlock(block=block.tiling.block, column=0, row=0, turn=0, origin=(x, 0.0)),
        )
        x += block.tiling.width * 1.1


def laid_over(size: SizePlan) -> list[tuple[str, list[tuple[Point, ...]]]]:
    """What is laid on the blocks of the top: fabric and outlines in inches, to be painted over the pieces in this order.
    Of blocks alike the shapes that lie at one height are one entry."""
    plans = {block.tiling.block: block for block in size.blocks}
    placed = [(plans[at.block], at) for at in size.quilt.placed] or list(_in_a_row(size.blocks))
    layers: dict[tuple[int, str], tuple[str, list[tuple[Point, ...]]]] = {}
    for block, at in placed:
        for n, shape in enumerate(block.tiling.applied):
            points = placed_points(at, shape.piece.outline.points)
            if kept := trimmed(points, size.quilt.kept if size.quilt.placed else None):
                layers.setdefault((n, block.tiling.block), (shape.piece.fabric, []))[1].append(kept)
    return [layers[key] for key in sorted(layers)]


def painted_over(size: SizePlan, looks: Looks, view: View, ink: Ink | None) -> list[Area]:
    """The areas of what is laid on the blocks of the top, in its order."""
    return [
        area
        for fabric, outlines in laid_over(size)
        for area in painted({fabric: outlines}, looks, view, ink)
    ]


def block_pieces(
    block: BlockPlan, placed: PlacedBlock, kept: Sequence[Point] | None = None
) -> Iterable[tuple[str, tuple[Point, ...]]]:
    """The pieces of a block in its place in the top: (fabric, outline), trimmed to `kept`."""
    for piece in block.tiling.pieces:
        if points := trimmed(placed_points(placed, piece.outline.points), kept):
            yield piece.fabric, points


def trimmed(points: tuple[Point, ...], kept: Sequence[Point] | None) -> tuple[Point, ...]:
    """The part of an outline inside the convex, clockwise outline `kept`; nothing of it if it only
    touches. Half-plane by half-plane (Sutherland and Hodgman)."""
    if kept is None:
        return points
    for start, end in edges(kept):
        if not points:
            return ()
        points = half_plane(points, start, right_of(direction(start, end)))
    return points if len(points) > 2 and abs(area_of(points)) > NO_LENGTH else ()


def placed_points(placed: PlacedBlock, points: Iterable[Point]) -> tuple[Point, ...]:
    """Points of a block's frame where they lie in the top."""
    across, down = placed.origin
    c, s = cosine(placed.turn), sine(placed.turn)  # once for all: a quilt has thousands of points
    return tuple((x * c - y * s + across, x * s + y * c + down) for x, y in points)


def together(areas: Iterable[Area]) -> list[Area]:
    """Areas that do not overlap, those of one look as one: hatches are then laid once. In the order in
    which each look first comes."""
    alike: dict[tuple[Fill | None, Ink | None], list[tuple[Point, ...]]] = {}
    for area in areas:
        alike.setdefault((area.fill, area.ink), []).extend((area.points, *area.more))
    return [
        Area(outlines[0], fill, ink, tuple(outlines[1:])) for (fill, ink), outlines in alike.items()
    ]
