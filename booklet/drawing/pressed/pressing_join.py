"""Floor 10: blocks where they meet, from the back: which allowances nest there, which clash."""

from __future__ import annotations

import math

from booklet.drawing.ink.svg import figure
from booklet.drawing.pressed.flaps import flaps_of
from booklet.drawing.pressed.pressed_block import Place
from booklet.drawing.scales import nearest_scale
from booklet.drawing.scene import Area, Figure, Fill, Ink, Item, Label, Line, Mark, Scene, Sign
from booklet.kit.outlines.near import TOUCH
from booklet.kit.outlines.plane import Point, box_of, cross, direction, plus, right_of, vector
from booklet.kit.outlines.polygon import centroid, edges, half_plane
from booklet.kit.records import replace
from booklet.kit.words import Listing, listing, phrase, plural_phrase
from booklet.plan import BlockPlan, SizePlan
from booklet.plan.records import VERSIONS
from booklet.pressing.meetings.meeting import LaidBlock, Together, as_laid, together

EDGE = 2.0  # mm of free paper
LYING = Fill("#d8c9a6")  # the cloth of flaps, deeper than in the large picture: here they are small
RING = 1.7  # mm, about a clash
OUTWARD = (
    1.36  # of the way from the middle of the picture to that of a block: where its letter stands
)


def join_figure(
    size: SizePlan, width: float = 81.0, allowance: float = 0.25, tallest: float = 90.0
) -> Figure | None:
    """Four or more blocks of the quilt that meet, `width` mm wide; None where the seams of no two
    blocks meet."""
    plans = {block.block.id: block for block in size.blocks}
    places = ((p.block, (p.column, p.row), p.turn, p.origin) for p in size.quilt.placed)
    found = together(as_laid(places, {id: block.pressing for id, block in plans.items()}))
    if found is None:
        return None
    left, top, right, bottom = box_of([p for laid in found.blocks for p in laid.outline])
    across, down = right - left, bottom - top
    scale = nearest_scale(
        lambda mm: across * mm + 2 * EDGE <= width and down * mm + 2 * EDGE <= tallest
    )
    mm = scale.mm_per_inch
    height = down * mm + 2 * EDGE

    def put(p: Point) -> Point:
        """Mirrored, as the whole top is from the back."""
        return (width / 2 - (p[0] - (left + right) / 2) * mm, EDGE + (p[1] - top) * mm)

    items: list[Item] = []
    for laid in found.blocks:
        items += _block(plans[laid.lain.block], laid, found, put, allowance)
    for laid in found.blocks:
        items.append(Area(tuple(map(put, laid.outline)), None, Ink.RIM))
    for join in found.joins:
        at = put(join.at)
        if join.nests is False:
            ring = tuple(plus(at, vector(i * 15.0), RING) for i in range(25))
            items.append(Line(points=ring, ink=Ink.FAN, halo=True))
        elif join.nests:
            items.append(Sign(at, Mark.DOT))
    if any(laid.second for laid in found.blocks):
        centre = ((left + right) / 2, (top + bottom) / 2)
        items += [_letter(laid, centre, put) for laid in found.blocks]
    told = _told(found)
    title = phrase("{n} blocks where they meet, from the back", n=len(found.blocks))
    name = f"{size.size.id}-press-join"
    alternative = listing((phrase("{title}.", title=title), told), "sentences")
    scene = Scene.of(name, (width, height), items, title, alternative)
    caption = listing((alternative, scale.caption), "sentences")
    return figure(scene, caption)


def _block(
    plan: BlockPlan, laid: LaidBlock, found: Together, put: Place, allowance: float
) -> list[Item]:
    """One block: its seams pale, and in full only those that end where it meets another, with their
    flaps cut off at its edges."""
    block = replace(plan, pressing=laid.pressing)
    there = laid.lain.place
    meets = {
        seam.id
        for seam in plan.tiling.seams
        if any(
            math.dist(there(end), join.at) < TOUCH
            for end in (seam.start, seam.end)
            for join in found.joins
        )
    }
    items: list[Item] = [Area(tuple(map(put, laid.outline)), None, Ink.CONTEXT)]
    for seam in plan.tiling.seams:
        items.append(Line(points=tuple(put(there(p)) for p in seam.path), ink=Ink.CONTEXT))
    rim = edges(laid.outline) if _convex(laid.outline) else []
    for flap in flaps_of(block, allowance):
        if flap.seam.id not in meets:
            continue
        outline = tuple(map(there, flap.outline))
        for start, end in rim:
            outline = half_plane(outline, start, right_of(direction(start, end)))
        if len(outline) > 2:
            items.append(Area(tuple(map(put, outline)), LYING, Ink.FINE))
        items.append(Line(points=tuple(put(there(p)) for p in flap.seam.path), ink=Ink.PATCH))
    return items


def _convex(outline: tuple[Point, ...]) -> bool:
    """Whether an outline, clockwise on the page, has no inward corner."""
    ways = [direction(a, b) for a, b in edges(outline)]
    return all(cross(a, b) > -TOUCH for a, b in edges(ways))


def _letter(laid: LaidBlock, centre: Point, put: Place) -> Label:
    """The version in the outer part of a block."""
    middle = centroid(laid.outline)
    at = tuple(c + OUTWARD * (m - c) for c, m in zip(centre, middle, strict=True))
    return Label(
        at=put((at[0], at[1])), text=VERSIONS[laid.second], size=12.0, bold=True, plate=True
    )


def _told(found: Together) -> Listing:
    """What the picture shows, in words."""
    nests = sum(join.nests is True for join in found.joins)
    words = []
    if nests:
        words.append(
            phrase("At the dots ({n}) allowances lie in opposite directions and lock.", n=nests)
        )
    if found.clashes:
        words.append(phrase("At the rings ({n}) they lie on the same side.", n=found.clashes))
    if open_ := len(found.joins) - nests - found.clashes:
        words.append(
            plural_phrase(
                "At {n} place one of them is open.", "At {n} places one of them is open.", open_
            )
        )
    return listing(words, "sentences")
