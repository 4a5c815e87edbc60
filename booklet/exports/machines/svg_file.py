"""Floor 11: the templates of one size as an SVG drawing in millimetres, a group for each layer."""

from __future__ import annotations

from collections.abc import Sequence
from xml.etree import ElementTree

from booklet.drawing.lettering.text_widths import CAP_HEIGHT
from booklet.drawing.scene import Label
from booklet.exports.machines.flat import DOT, FlatSheet, FlatTemplate
from booklet.kit.measure import POINT_MM, decimal_text
from booklet.kit.outlines.plane import Point

_COLOURS = {"cut": "#c1121f", "seam": "#1d4ed8", "marks": "#111111"}
_HAIR = "0.1"


def svg_of(sheet: FlatSheet) -> bytes:
    """The drawing: one unit is one millimetre; the same templates give the same bytes."""
    wide, high = _mm(sheet.width), _mm(sheet.height)
    root = ElementTree.Element(
        "svg",
        xmlns="http://www.w3.org/2000/svg",
        width=f"{wide}mm",
        height=f"{high}mm",
        viewBox=f"0 0 {wide} {high}",
    )
    ElementTree.SubElement(root, "title").text = sheet.title
    for layer, colour in _COLOURS.items():
        look = {"id": layer, "fill": "none", "stroke": colour, "stroke-width": _HAIR}
        group = ElementTree.SubElement(root, "g", look)
        ElementTree.SubElement(group, "title").text = layer
        for template in sheet.templates:
            part = ElementTree.SubElement(group, "g", id=f"{layer}-{template.letter}")
            _fill(part, layer, template)
    ElementTree.indent(root, " ")
    return b'<?xml version="1.0" encoding="UTF-8"?>\n' + ElementTree.tostring(root) + b"\n"


def _fill(part: ElementTree.Element, layer: str, template: FlatTemplate) -> None:
    """Put what belongs to a layer into the group of a template."""
    if layer != "marks":
        points = template.cut if layer == "cut" else template.seam
        if points:
            ElementTree.SubElement(part, "path", d=_closed(points))
        _lines(part, template.inner if layer == "seam" else ())
        return
    for x, y in template.points:
        ElementTree.SubElement(part, "circle", cx=_mm(x), cy=_mm(y), r=_mm(DOT))
    _lines(part, template.lines)
    for label in template.words:
        _text(part, label)


def _lines(part: ElementTree.Element, lines: Sequence[tuple[Point, Point]]) -> None:
    """Add straight lines."""
    for a, b in lines:
        ElementTree.SubElement(part, "line", x1=_mm(a[0]), y1=_mm(a[1]), x2=_mm(b[0]), y2=_mm(b[1]))


def _text(part: ElementTree.Element, label: Label) -> None:
    size = label.size * POINT_MM
    look = {
        "x": _mm(label.at[0]),
        "y": _mm(label.at[1] + size * CAP_HEIGHT / 2),
        "font-size": _mm(size),
        "font-family": "sans-serif",
        "text-anchor": label.anchor,
        "stroke": "none",
        "fill": _COLOURS["marks"],
    }
    made = ElementTree.SubElement(part, "text", look)
    made.text = label.text


def _closed(points: Sequence[Point]) -> str:
    return "M" + " L".join(f"{_mm(x)},{_mm(y)}" for x, y in points) + " Z"


def _mm(value: float) -> str:
    """A measure to 1/10 000 mm, without trailing zeros."""
    return decimal_text(value, 4)
