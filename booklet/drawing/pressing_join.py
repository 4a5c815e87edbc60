"""Floor 10: four blocks where they meet, from the back: which allowances nest there, which clash."""

from __future__ import annotations

import math
from dataclasses import replace

from booklet.drawing.flaps import flaps_of
from booklet.drawing.plane import half_plane, plus, vector
from booklet.drawing.pressing import Place
from booklet.drawing.scales import nearest_scale
from booklet.drawing.scene import (
    Area,
    Figure,
    Fill,
    Ink,
    Item,
    Label,
    Line,
    Mark,
    Point,
    Scene,
    Sign,
)
from booklet.drawing.svg import figure
from booklet.plan import BlockPlan, SizePlan
from booklet.plan.words import plural
from booklet.pressing.meeting import FourBlocks, Laid, four_blocks, place

EDGE = 2.0  # mm of free paper
NEAR = 1e-5  # inches
LYING = Fill("#d8c9a6")  # the cloth of flaps, deeper than in the large picture: here they are small
RING = 1.7  # mm, about a clash


def join_figure(
    size: SizePlan, width: float = 81.0, allowance: float = 0.25, tallest: float = 90.0
) -> Figure | None:
    """Four blocks of the quilt that meet, `width` mm wide; None where no four meet edge to edge or no
    seams do."""
    plans = {block.block.id: block for block in size.blocks}
    four = four_blocks(size.size, {id: block.pressing for id, block in plans.items()})
    if four is None or not four.joins:
        return None
    across, down = 2 * four.side[0], 2 * four.side[1]
    scale = nearest_scale(
        lambda mm: across * mm + 2 * EDGE <= width and down * mm + 2 * EDGE <= tallest
    )
    mm = scale.mm_per_inch
    height = down * mm + 2 * EDGE

    def put(p: Point) -> Point:
        """Mirrored, as the whole top is from the back."""
        return (width / 2 - (p[0] - across / 2) * mm, EDGE + p[1] * mm)

    items: list[Item] = []
    for laid in four.blocks:
        items += _block(plans[laid.block], laid, four, put, allowance)
    items += [
        Line(tuple(map(put, line)), Ink.RIM)
        for line in (
            ((across / 2, 0.0), (across / 2, down)),
            ((0.0, down / 2), (across, down / 2)),
        )
    ]
    for join in four.joins:
        at = put(join.at)
        if join.nests is False:
            ring = tuple(plus(at, vector(i * 15.0), RING) for i in range(25))
            items.append(Line(ring, Ink.FAN, halo=True))
        elif join.nests:
            items.append(Sign(at, Mark.DOT))
    if any(laid.second for laid in four.blocks):
        items += [_letter(laid, four, put) for laid in four.blocks]
    told = _told(four)
    title = "Four blocks where they meet, from the back"
    name = f"{size.size.id}-press-join"
    scene = Scene(name, width, height, tuple(items), title, f"{title}. {told}")
    return figure(scene, f"{title}. {told} {scale.caption}")


def _block(
    plan: BlockPlan, laid: Laid, four: FourBlocks, put: Place, allowance: float
) -> list[Item]:
    """One block: its seams pale, and in full only those that end where it meets another, with their
    flaps cut off at its edges."""
    block = replace(plan, pressing=laid.pressing)

    def there(p: Point) -> Point:
        return place(laid, four.side, p)

    x, y = laid.column * four.side[0], laid.row * four.side[1]
    right, bottom = x + four.side[0], y + four.side[1]
    corners = ((x, y), (right, y), (right, bottom), (x, bottom))
    meets = {
        seam.id
        for seam in plan.tiling.seams
        if any(
            math.dist(there(end), join.at) < NEAR
            for end in (seam.start, seam.end)
            for join in four.joins
        )
    }
    items: list[Item] = [Area(tuple(map(put, corners)), None, Ink.CONTEXT)]
    for seam in plan.tiling.seams:
        items.append(Line(tuple(put(there(p)) for p in seam.path), Ink.CONTEXT))
    for flap in flaps_of(block, allowance):
        if flap.seam.id not in meets:
            continue
        outline = tuple(map(there, flap.outline))
        for at, inward in (
            ((x, y), (1.0, 0.0)), ((x, y), (0.0, 1.0)),
            ((right, bottom), (-1.0, 0.0)), ((right, bottom), (0.0, -1.0)),
        ):  # fmt: skip
            outline = half_plane(outline, at, inward)
        if len(outline) > 2:
            items.append(Area(tuple(map(put, outline)), LYING, Ink.FINE))
        items.append(Line(tuple(put(there(p)) for p in flap.seam.path), Ink.PATCH))
    return items


def _letter(laid: Laid, four: FourBlocks, put: Place) -> Label:
    """A or B in the outer quarter of a block."""
    x, y = (
        (0.32 if k == 0 else 1.68) * side
        for k, side in zip((laid.column, laid.row), four.side, strict=True)
    )
    return Label(put((x, y)), "B" if laid.second else "A", 12.0, bold=True, plate=True)


def _told(four: FourBlocks) -> str:
    """What the picture shows, in words."""
    nests = sum(join.nests is True for join in four.joins)
    words = []
    if nests:
        words.append(f"At the dots ({nests}) allowances lie in opposite directions and lock.")
    if four.clashes:
        words.append(f"At the rings ({four.clashes}) they lie on the same side.")
    if len(four.joins) > nests + four.clashes:
        open_ = len(four.joins) - nests - four.clashes
        words.append(f"At {plural(open_, 'place')} one of them is open.")
    return " ".join(words)
