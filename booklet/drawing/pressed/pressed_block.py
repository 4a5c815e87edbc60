"""Floor 10: the pressing picture: the block from the back, its allowances as flaps of true width.

Seen from the back left and right are swapped. A flap lies on the piece its seam is pressed toward; it
ends in a mitre where it meets the flap of the next seam of that piece, else at the next seam.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Sequence, Set

from booklet.drawing.ink.fills import wrong_side
from booklet.drawing.ink.svg import figure
from booklet.drawing.lettering.labels import plate_radius
from booklet.drawing.lettering.text_widths import wrapped
from booklet.drawing.places import piece_places
from booklet.drawing.pressed.flaps import Flap, flaps_of
from booklet.drawing.scales import nearest_scale
from booklet.drawing.scene import Area, Figure, Fill, Ink, Item, Label, Line, Scene
from booklet.drawing.told import told_pressing
from booklet.kit.outlines.plane import (
    Box,
    Boxes,
    Point,
    bearing,
    box_of,
    direction,
    dot,
    plus,
    to_segment,
    vector,
)
from booklet.kit.outlines.polygon import best_place, centroid, depth, edges, point_to_box, widened
from booklet.kit.records import replace
from booklet.kit.words import Speaker, Text, listing, phrase
from booklet.plan import BlockPlan
from booklet.plan.records import V1, V2
from booklet.pressing.pressing import JunctionKind, PressedJunction

FLAP = Fill("#efe7d6")
Place = Callable[[Point], Point]
Put = Callable[[tuple[Point, ...]], tuple[Point, ...]]
NOTE = phrase("Seen from the back: left and right are swapped.")
MARGIN = 4.0
CROSS = 1.5  # mm across a cross
SHORT = 2.5  # lengths of an arrow: a shorter seam has none beside a curved one
RIGHTWARD = (1.0, 1e-3)
"""Of a seam pressed open the flap that lies this way has the arrow: the right one, or of two above each other the lower."""


def second_figure(
    block: BlockPlan,
    width: float = 80.0,
    allowance: float = 0.25,
    tallest: float = 90.0,
    *,
    speaker: Speaker,
) -> Figure | None:
    """The second version of a block from the back; None where all are pressed alike."""
    versions = block.pressing.versions
    if versions is None:
        return None
    other = replace(block, pressing=versions.second, press_words=())
    return pressing_figure(other, width, allowance, tallest, V2, speaker=speaker)


def pressing_figure(
    block: BlockPlan,
    width: float = 110.0,
    allowance: float = 0.25,
    tallest: float = 130.0,
    version: str = "",
    *,
    speaker: Speaker,
) -> Figure:
    """The block from the back, `width` mm wide; `allowance` in inches. `version` is V2 for a second
    version, drawn at the scale of the first, which is named V1 where there is a second."""
    version = version or (V1 if block.pressing.versions is not None else "")
    tiling = block.tiling
    rim = widened(tiling.outline.points, allowance)
    left, top, right, bottom = box_of(rim)
    told = listing((_version(version), NOTE), "sentences") if version else NOTE
    note = wrapped(speaker.say(told), 8.0, width - 2)
    head = 3.8 * len(note) + 2.0

    def fits(scale: float) -> bool:
        return (right - left) * scale + 2 * MARGIN <= width and (
            bottom - top
        ) * scale + 2 * MARGIN + head <= tallest

    scale = nearest_scale(fits)
    factor = scale.mm_per_inch
    if version == V2:  # said in its caption
        note, head = (), 0.0
    height = (bottom - top) * factor + 2 * MARGIN + head

    def place(p: Point) -> Point:
        """Mirrored: what is left on the front is right on the back."""
        x = width / 2 - (p[0] - (left + right) / 2) * factor
        return x, head + MARGIN + (p[1] - top) * factor

    def put(points: tuple[Point, ...]) -> tuple[Point, ...]:
        return tuple(place(p) for p in points)

    items: list[Item] = [
        Label(at=(1.0, 2.2 + 3.8 * i), text=text, size=8.0, anchor="start")
        for i, text in enumerate(note)
    ]
    items.append(Area(put(rim), wrong_side(), Ink.CUT))
    items.append(Area(put(tiling.outline.points), None, Ink.SEAM_LINE))
    items += [Line(points=put(seam.path), ink=Ink.SEWN) for seam in tiling.seams]
    flaps = flaps_of(block, allowance)
    items += _laid(flaps, put)
    items += piece_places(tiling.block, ((p, put(p.outline.points)) for p in tiling.pieces))
    fans = {j.at for j in block.pressing.junctions if j.clockwise is not None}
    arrows = [
        _arrow(flap, place, factor, allowance)
        for flap in flaps
        if (not flap.open or dot(flap.way, RIGHTWARD) > 0)
        and not _told_by_a_fan(fans, flap, factor, allowance)
    ]
    items += _letters(block, flaps, put, arrows)
    items += arrows
    items += _ring(block, put)
    many = sum(junction.kind is JunctionKind.FAN for junction in block.pressing.junctions)
    for junction in block.pressing.junctions:
        items += _sign(block, junction, place, factor, allowance, many)
    items += _stitches_out(block, place, factor, allowance)
    name = f"{tiling.size}-{tiling.block}-press{'-b' if version == V2 else ''}"
    named = block.block.title if block.block else tiling.block
    title = phrase("Pressing {block}, from the back", block=named)
    if version:
        title = phrase(
            "Pressing {block}, from the back, version {version}", block=named, version=version
        )
    scene = Scene.of(name, (width, height), items, title, told_pressing(block))
    return figure(scene, _caption(block, scale.caption, version))


def _version(version: str) -> Text:
    return phrase("Version {version}.", context="of a block", version=version)


def _caption(block: BlockPlan, scale: Text, version: str) -> Text:
    """What the flaps and the marks mean, as far as the picture has them."""
    if version == V2:
        return listing((phrase("Version V2, from the back."), scale), "sentences")
    kinds = {junction.kind for junction in block.pressing.junctions}
    words: list[Text] = [_version(version)] if version else []
    words.append(phrase("Flaps are the allowances, where they lie."))
    if block.pressing.conflicts:
        words.append(phrase("Dotted: seams that cannot all lie as they should."))
    if JunctionKind.FAN in kinds:
        words.append(phrase("A curved arrow: all allowances lie the same way round the point."))
    if block.pressing.releases:
        words.append(phrase("A small cross: stitches to take out, or not to sew."))
    if JunctionKind.CLASH in kinds:
        words.append(phrase("A ring: allowances lie on each other, press hard."))
    return listing([*words, scale], "sentences")


def _ring(block: BlockPlan, put: Put) -> list[Item]:
    """The seams of the shortest odd cycle, dotted, where not everything asked can hold."""
    conflicts = block.pressing.conflicts
    if not conflicts:
        return []
    seams = min(conflicts, key=lambda conflict: len(conflict.seams)).seams
    return [Line(points=put(block.tiling.seam(id).path), ink=Ink.LATER, halo=True) for id in seams]


def _laid(flaps: tuple[Flap, ...], put: Put) -> list[Item]:
    """The flaps step by step; where two flaps of one step go on into each other no line parts them."""
    items: list[Item] = []
    for step in sorted({flap.step for flap in flaps}):
        now = [flap for flap in flaps if flap.step == step]
        sides = [edge for flap in now for edge in edges(put(flap.outline))]
        keys = [_key(edge) for edge in sides]
        seen = Counter(keys)
        items += [Area(put(flap.outline), FLAP, None) for flap in now]
        items += [
            Line(points=edge, ink=Ink.FINE)
            for edge, key in zip(sides, keys, strict=True)
            if seen[key] == 1
        ]
        items += [Line(points=put(flap.seam.path), ink=Ink.SEWN) for flap in now]
    return items


def _key(edge: tuple[Point, Point]) -> tuple[Point, ...]:
    """An edge to a hundredth of a millimetre, whichever way it runs."""
    return tuple(sorted((round(x, 2), round(y, 2)) for x, y in edge))


def _letters(
    block: BlockPlan, flaps: tuple[Flap, ...], put: Put, arrows: list[Line]
) -> list[Label]:
    """A quiet letter in every piece, where it is clear of flaps and arrows; none where it is not."""
    shapes = [put(flap.outline) for flap in flaps]
    boxes, lines = [box_of(shape) for shape in shapes], [arrow.points for arrow in arrows]
    about, about_lines = Boxes(boxes), Boxes([box_of(line) for line in lines])
    labels = []
    for piece in block.tiling.pieces:
        points = put(piece.outline.points)
        text = piece.patch + ("r" if piece.reversed else "")
        least = plate_radius(text, 8.0) - 0.4
        left, top, right, bottom = box = box_of(points)
        near = [(boxes[n], shapes[n]) for n in about.overlapping(box)]
        wide = left - 1, top - 1, right + 1, bottom + 1
        near_lines = [lines[n] for n in about_lines.overlapping(wide)]
        at, room = _clear(points, near, near_lines, least)
        if room >= least:
            labels.append(Label(at=at, text=text, size=8.0, bold=True, muted=True))
    return labels


def _clear(
    points: tuple[Point, ...],
    near: Sequence[tuple[Box, tuple[Point, ...]]],
    lines: Sequence[tuple[Point, ...]],
    least: float,
) -> tuple[Point, float]:
    """The roomiest point of a fine grid over an outline, off the shapes and lines that are near, and its room; less
    than `least` where none has that much."""
    left, top, right, bottom = box_of(points)
    centre = centroid(points)

    def most(at: Point) -> float:
        (x, y), away = at, 0.02 * math.dist(at, centre)
        return min(x - left, right - x, y - top, bottom - y) - away

    def worth(at: Point, enough: float) -> float:
        away = 0.02 * math.dist(at, centre)
        room = depth(at, points)
        if room - away <= enough:
            return enough  # whatever else is near
        room = min((room, *(to_segment(at, line[0], line[-1]) - 0.8 for line in lines)))
        for box, shape in near:
            if room - away <= enough:
                break
            if point_to_box(box, at) <= max(room, 0.0):  # else it takes none of it
                room = min(room, -depth(at, shape))
        return room - away

    return best_place((left, top, right, bottom), 20, most, worth, least)


def _told_by_a_fan(fans: Set[Point], flap: Flap, factor: float, allowance: float) -> bool:
    """Whether a seam is too short on paper for an arrow of its own beside the curved one at its end."""
    short = flap.seam.length * factor < SHORT * _reach(factor, allowance)
    return short and bool(fans & {flap.seam.start, flap.seam.end})


def _reach(factor: float, allowance: float) -> float:
    """How far an arrow reaches over its flap, mm."""
    return min(max(allowance * factor * 0.8 + 0.8, 2.8), 6.0)


def _arrow(flap: Flap, place: Place, factor: float, allowance: float) -> Line:
    """An arrow from before the seam over its flap, as long as the flap is wide and a little more."""
    at = place(flap.at)
    way = (-flap.way[0], flap.way[1])
    reach = _reach(factor, allowance)
    back = reach if flap.open else 1.3
    return Line(
        points=(plus(at, way, -back), plus(at, way, reach)),
        ink=Ink.ARROW,
        start_arrow=flap.open,
        end_arrow=True,
        halo=True,
    )


def _sign(
    block: BlockPlan,
    junction: PressedJunction,
    place: Place,
    factor: float,
    allowance: float,
    fans: int,
) -> list[Item]:
    """A curved arrow about a fanned point, one of so many; a note at one where allowances lie on each other."""
    at = place(junction.at)
    if junction.kind is JunctionKind.CLASH:
        ring = tuple(plus(at, vector(i * 15.0), 2.6) for i in range(25))
        return [Line(points=ring, ink=Ink.FAN, halo=True)]
    if junction.kind is not JunctionKind.FAN or junction.clockwise is None:
        return []
    lengths = [block.tiling.seam(id).length for id in junction.seams]
    largest = 2.2 if fans > 2 else 5.0  # a block full of fans stays readable
    radius = max(min(allowance * factor + 0.8, 0.3 * min(lengths) * factor, largest), 1.8)
    start = _gap(block, junction)
    sweep = 200 if junction.clockwise else -200
    arc = tuple(plus(at, vector(start + sweep * (i / 40 - 0.5)), radius) for i in range(41))
    return [Line(points=arc, ink=Ink.FAN, end_arrow=True)]


def _stitches_out(block: BlockPlan, place: Place, factor: float, allowance: float) -> list[Item]:
    """A small cross on every allowance stitch to take out, beyond a machine-sewn point that is fanned."""
    items: list[Item] = []
    for release in block.pressing.releases:
        for id in release.seams:
            seam = block.tiling.seam(id)
            path = seam.path if seam.start == release.at else seam.path[::-1]
            way = direction(path[1], path[0])  # on, over the point
            at = plus(
                place(release.at), (-way[0], way[1]), max(allowance * factor / 2, CROSS + 0.6)
            )
            for x, y in ((1.0, 1.0), (1.0, -1.0)):
                ends = (plus(at, (x, y), CROSS / 2), plus(at, (x, y), -CROSS / 2))
                items.append(Line(points=ends, ink=Ink.FAN, halo=True))
    return items


def _gap(block: BlockPlan, junction: PressedJunction) -> float:
    """The middle, in degrees as drawn from the back, of the widest angle between seams at a point."""
    bearings = []
    for id in junction.seams:
        seam = block.tiling.seam(id)
        path = seam.path if seam.start == junction.at else seam.path[::-1]
        way = direction(path[0], path[1])
        bearings.append(bearing((-way[0], way[1])) % 360)
    bearings.sort()
    gaps = [
        ((after - before) % 360 or 360.0, before)
        for before, after in zip(bearings, bearings[1:] + bearings[:1], strict=True)
    ]
    widest, before = max(gaps, key=lambda gap: (round(gap[0], 3), -gap[1]))
    return before + widest / 2
