"""Floor 10: a scene becomes SVG text; the only door to svgwrite.

One unit of the picture is one millimetre. The same scene gives the same bytes: numbers go through
`number`, ids begin with the scene's name, and nothing is taken from outside the scene.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from typing import Any

from booklet.drawing.ink.colours import ACCENT, DARK, GREY, PALE, WHITE, shade
from booklet.drawing.ink.fills import ground_colour, mark_colour
from booklet.drawing.ink.hatches import TILES, WEAVE
from booklet.drawing.ink.path_text import number, path_data
from booklet.drawing.ink.pens import PENS, Pen
from booklet.drawing.lettering.strokes import sign_strokes
from booklet.drawing.lettering.text_widths import CAP_HEIGHT, FONT, text_width
from booklet.drawing.scene import (
    Area,
    Figure,
    Fill,
    Ink,
    Item,
    Label,
    Line,
    Mark,
    Place,
    PlaceOutline,
    Scene,
    Sign,
)
from booklet.kit.colour import mix
from booklet.kit.measure import POINT_MM
from booklet.kit.outlines.plane import Point, corners, plus, vector


def render(scene: Scene) -> str:
    """The scene as an SVG element: size and view in mm, title and description first."""
    import svgwrite  # loaded with the first picture: `check` draws none
    from svgwrite.base import Desc, Title

    width, height = number(scene.width), number(scene.height)
    drawing = svgwrite.Drawing(
        size=(f"{width}mm", f"{height}mm"), viewBox=f"0 0 {width} {height}", debug=False
    )
    for key in ("baseProfile", "version"):
        drawing.attribs.pop(key, None)
    drawing["role"] = "img"
    drawing["aria-labelledby"] = f"{scene.name}-title {scene.name}-desc"
    drawing["id"] = scene.name
    drawing["font-family"] = FONT
    title, desc = Title(scene.title), Desc(scene.alt)
    title.xml.set("id", f"{scene.name}-title")
    desc.xml.set("id", f"{scene.name}-desc")
    drawing.elements[0:0] = [title, desc]
    _Writer(drawing, scene.name).write([i for i in scene.items if not isinstance(i, Place)])
    return str(drawing.tostring())


def figure(scene: Scene, caption: str, true_size: bool = False) -> Figure:
    """The finished picture of a scene, with its caption."""
    places = tuple(
        PlaceOutline(path_data([item.points], True), item.of)
        for item in scene.items
        if isinstance(item, Place)
    )
    svg = render(scene)
    return Figure(
        name=scene.name,
        svg=svg,
        width_mm=scene.width,
        height_mm=scene.height,
        caption=caption,
        alt=scene.alt,
        true_size=true_size,
        places=places,
    )


class _Writer:
    """Writes the items of one scene into a drawing and keeps its hatches."""

    def __init__(self, drawing: Any, name: str) -> None:
        self.drawing = drawing
        self.name = name
        self.hatches: dict[tuple[int, str, bool], str] = {}

    def write(self, items: Sequence[Item]) -> None:
        """Add every item, from back to front; strokes of one look that follow each other as one path."""
        for look, run in itertools.groupby(items, _stroke_look):
            if look is not None:
                self.strokes(list(run))
                continue
            for item in run:
                match item:
                    case Area():
                        self.area(item)
                    case Sign():
                        self.sign(item)
                    case Label():
                        self.label(item)

    def strokes(self, items: Sequence[Item]) -> None:
        """Lines of one look, or outlines without a fill."""
        if isinstance(items[0], Area):
            outlines = [o for a in items if isinstance(a, Area) for o in (a.points, *a.more)]
            assert items[0].ink is not None
            self.path(
                path_data(outlines, True), fill="none", **_stroke(PENS[items[0].ink], "round")
            )
            return
        self.lines([line for line in items if isinstance(line, Line)])

    def path(self, data: str, **look: Any) -> None:
        """Add a path."""
        self.drawing.add(self.drawing.path(d=data, debug=False, **look))

    def circle(self, at: Point, radius: float, **look: Any) -> None:
        """Add a circle."""
        centre = (number(at[0]), number(at[1]))
        self.drawing.add(self.drawing.circle(center=centre, r=number(radius), debug=False, **look))

    def area(self, area: Area) -> None:
        """A colour below, its hatch above, the outline with either: no seams between hatch tiles."""
        data = path_data((area.points, *area.more), closed=True)
        stroke = _stroke(PENS[area.ink], "round") if area.ink else {"stroke": "none"}
        if area.ink is Ink.TONAL and area.fill is not None:
            stroke["stroke"] = shade(area.fill.colour)
        if area.fill is None:
            self.path(data, fill="none", **stroke)
            return
        hatch = self.hatch(area.fill)
        if hatch is None:
            self.path(data, fill=ground_colour(area.fill), **stroke)
            return
        self.path(data, fill=ground_colour(area.fill), stroke="none")
        self.path(data, fill=f"url(#{hatch})", **stroke)

    def hatch(self, fill: Fill) -> str | None:
        """The id of the pattern for a fill, made when first needed; None for plain cloth."""
        if not fill.hatch and not fill.wrong_side:
            return None
        key = (fill.hatch, mark_colour(fill), fill.wrong_side)
        if key not in self.hatches:
            self.hatches[key] = f"{self.name}-h{len(self.hatches) + 1}"
            self.drawing.defs.add(self.pattern(self.hatches[key], *key))
        return self.hatches[key]

    def pattern(self, id: str, mark: int, colour: str, wrong_side: bool) -> Any:
        """One hatch tile. Slanted lines are drawn across the corners, so tiles need no turning."""
        tile, strokes, dots = WEAVE if wrong_side else TILES[mark]
        pattern = self.drawing.pattern(
            id=id, size=(number(tile), number(tile)), patternUnits="userSpaceOnUse", debug=False
        )
        if strokes:
            width = 0.12 if wrong_side else 0.24
            pattern.add(
                self.drawing.path(
                    d=strokes, fill="none", stroke=colour, stroke_width=width, debug=False
                )
            )
        for x, y in dots:
            pattern.add(
                self.drawing.circle(center=(number(x), number(y)), r=0.3, fill=colour, debug=False)
            )
        return pattern

    def lines(self, lines: Sequence[Line]) -> None:
        """Lines of one look; a shaft ends inside its arrowheads so that the tips are sharp."""
        pen, halo = PENS[lines[0].ink], lines[0].halo
        shafts, heads = [], []
        for line in lines:
            points = list(line.points)
            if line.end_arrow:
                heads.append(_head(points[-2], points[-1], pen.head))
                points[-1] = _back(points[-2], points[-1], pen.head * 0.7)
            if line.start_arrow:
                heads.append(_head(points[1], points[0], pen.head))
                points[0] = _back(points[1], points[0], pen.head * 0.7)
            shafts.append(points)
        if halo and heads:
            self.path(path_data(heads, True), fill=WHITE, stroke=WHITE, stroke_width="0.9",
                      stroke_linejoin="round")  # fmt: skip
        if halo:
            self.path(
                path_data(shafts, False), fill="none", stroke=WHITE,
                stroke_width=number(pen.width + (0.5 if pen.width >= 1 else 0.9)),
                stroke_linecap="butt" if pen.width >= 1 else "round",
            )  # fmt: skip
        self.path(path_data(shafts, False), fill="none", **_stroke(pen, "round"))
        if heads:
            self.path(path_data(heads, True), fill=pen.colour, stroke="none")

    def label(self, label: Label) -> None:
        """A text centred on the height of its capitals, with its plate or halo behind it."""
        size = label.size * POINT_MM
        x, y = label.at
        colour = ACCENT if label.accent else GREY if label.muted else DARK
        if label.plate:
            radius = max(size * 0.68, text_width(label.text, label.size) / 2 + 0.6)
            self.circle(label.at, radius, fill=WHITE, stroke=DARK, stroke_width="0.18")
        look = {
            "font_size": number(size),
            "font_weight": 600 if label.bold else 400,
            "text_anchor": label.anchor,
            "debug": False,
        }
        if label.turn:
            look["transform"] = f"rotate({number(label.turn)} {number(x)} {number(y)})"
        place = (number(x), number(y + size * CAP_HEIGHT / 2))
        if label.halo:
            self.drawing.add(
                self.drawing.text(
                    label.text,
                    insert=place,
                    fill=WHITE,
                    stroke=WHITE,
                    stroke_width="0.9",
                    stroke_linejoin="round",
                    aria_hidden="true",
                    **look,
                )
            )
        self.drawing.add(self.drawing.text(label.text, insert=place, fill=colour, **look))

    def sign(self, sign: Sign) -> None:
        """A small mark; those of a seam are in the accent colour with a white rim."""
        rim, colour, wide = _STROKES.get(sign.mark, ("", "", ""))
        for stroke in sign_strokes(sign) if rim else ():
            data = path_data([stroke], False)
            self.path(data, fill="none", stroke=WHITE, stroke_width=rim)
            self.path(data, fill="none", stroke=colour, stroke_width=wide)
        for radius, fill, edge, width in _DOTS.get(sign.mark, ()):
            look = {"stroke_width": width} if width else {}
            self.circle(sign.at, radius, fill=fill, stroke=edge, **look)
        match sign.mark:
            case Mark.NEEDLE:
                self.needle(sign)
            case Mark.BOX:
                (x, y), half = sign.at, 1.6
                box = corners((x - half, y - half, x + half, y + half))
                self.path(path_data([box], True), fill="none", **_stroke(PENS[Ink.RULE], "round"))
            case Mark.CHEVRON:
                along, across = vector(sign.angle), vector(sign.angle + 90)
                tip, foot = plus(sign.at, along, 1.5), plus(sign.at, along, -1.2)
                head = [plus(foot, across, -1.7), tip, plus(foot, across, 1.7)]
                self.path(path_data([head], True), fill=mix(PALE, WHITE, 0.35), stroke="none")

    def needle(self, sign: Sign) -> None:
        """A needle whose tip is at the point and whose eye lies back along `angle`."""
        along, across = vector(sign.angle), vector(sign.angle + 90)
        eye = plus(sign.at, along, -8.0)
        body = [
            sign.at,
            plus(plus(sign.at, along, -6.6), across, 0.42),
            plus(eye, across, 0.28),
            plus(eye, across, -0.28),
            plus(plus(sign.at, along, -6.6), across, -0.42),
        ]
        self.path(path_data([body], True), fill=WHITE, stroke=DARK, stroke_width="0.25",
                  stroke_linejoin="round")  # fmt: skip
        slot = [plus(sign.at, along, -7.5), plus(sign.at, along, -6.3)]
        self.path(path_data([slot], False), fill="none", stroke=DARK, stroke_width="0.25")


_STROKES = {
    Mark.STOP: ("1.2", ACCENT, "0.7"),
    Mark.MIDDLE: ("1.2", DARK, "0.5"),
    Mark.OPENED: ("0.9", ACCENT, "0.4"),
    Mark.CLIP: ("0.9", DARK, "0.4"),
    Mark.BACKSTITCH: ("1.1", ACCENT, "0.55"),
}
"""The signs that are strokes: how wide their white rim is, their colour, how wide they are."""
_DOTS = {
    Mark.DOT: ((0.9, ACCENT, WHITE, "0.25"),),
    Mark.SMALL: ((0.65, ACCENT, WHITE, "0.25"),),
    Mark.STOP: ((0.9, ACCENT, WHITE, "0.25"),),
    Mark.OPEN: ((1.15, WHITE, ACCENT, "0.6"),),
    Mark.THROUGH: ((1.5, WHITE, ACCENT, "0.4"), (0.75, ACCENT, "none", "")),
    Mark.POINT: ((0.55, WHITE, DARK, "0.25"), (0.2, DARK, "none", "")),
}
"""The signs that have round dots: radius, colour, colour and width of the rim."""


def _stroke_look(item: Item) -> tuple[str, Ink | None, bool] | None:
    """What strokes must share to be one path; None for anything else."""
    match item:
        case Line():
            return "line", item.ink, item.halo
        case Area() if item.fill is None and item.ink is not None:
            return "outline", item.ink, False
    return None


def _stroke(pen: Pen, join: str) -> dict[str, Any]:
    """The SVG attributes of a pen."""
    look: dict[str, Any] = {
        "stroke": pen.colour,
        "stroke_width": number(pen.width),
        "stroke_linejoin": join,
    }
    if pen.dash:
        look["stroke_dasharray"] = " ".join(number(part) for part in pen.dash)
    return look


def _back(start: Point, end: Point, by: float) -> Point:
    """The point `by` mm before the end of a line, at most its start."""
    length = math.dist(start, end)
    if length <= by:
        return start
    return end[0] - (end[0] - start[0]) * by / length, end[1] - (end[1] - start[1]) * by / length


def _head(start: Point, tip: Point, size: float) -> tuple[Point, ...]:
    """The triangle of an arrowhead at `tip`, coming from `start`."""
    length = math.dist(start, tip) or 1.0
    along = ((tip[0] - start[0]) / length, (tip[1] - start[1]) / length)
    across = (-along[1], along[0])
    foot = plus(tip, along, -size)
    return plus(foot, across, size * 0.38), tip, plus(foot, across, -size * 0.38)
