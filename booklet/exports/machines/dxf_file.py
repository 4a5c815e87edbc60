"""Floor 11: the templates of one size as a DXF drawing in millimetres; the only door to ezdxf.

Nothing in the file depends on the clock or on chance: ezdxf is told to write fixed dates and identifiers.
Left alone, ezdxf reads settings of the user's and writes a list of all fonts of the machine into the
user's home when it is loaded; it is shown the folder `quiet` instead, whose list of fonts is empty.
"""

from __future__ import annotations

import io
import os
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from typing import Any

from booklet.drawing.lettering.text_widths import CAP_HEIGHT
from booklet.exports.machines.flat import DOT, LAYERS, FlatSheet, FlatTemplate
from booklet.kit.measure import POINT_MM
from booklet.kit.outlines.plane import Point

_MILLIMETRES = 4  # the header's $INSUNITS
_COLOURS = {"cut": 1, "seam": 5, "marks": 7}  # red, blue, black on white
_RELEASE = "R2010"  # old enough for every cutting program, new enough for layers and UTF-8


def dxf_of(sheet: FlatSheet) -> bytes:
    """The drawing: y grows upward as in every DXF, the sheet's lower left corner at (0, 0)."""
    ezdxf = _library()
    with _without_clock(ezdxf.options):
        drawing = ezdxf.new(_RELEASE, units=_MILLIMETRES)
        drawing.header["$MEASUREMENT"] = 1  # metric
        for name in LAYERS:
            drawing.layers.add(name, color=_COLOURS[name])
        page = drawing.modelspace()
        for template in sheet.templates:
            _draw(page, template, sheet.height)
        for kind in sorted(drawing.entitydb.dxf_types_in_use()):  # else in the order of a set
            drawing.classes.add_class(kind)
        stream = io.StringIO(newline="")
        drawing.write(stream)
    return stream.getvalue().encode("utf-8")


@cache
def _library() -> Any:
    """The library, loaded when the first drawing is made: it takes half a second."""
    names = ("XDG_CACHE_HOME", "XDG_CONFIG_HOME")
    before = {name: os.environ.get(name) for name in names}
    os.environ |= dict.fromkeys(names, str(Path(__file__).parent / "quiet"))
    try:
        import ezdxf
    finally:
        for name, value in before.items():
            if value is None:
                del os.environ[name]
            else:
                os.environ[name] = value
    return ezdxf


@contextmanager
def _without_clock(options: Any) -> Iterator[None]:
    """While it lasts ezdxf writes a fixed date and fixed identifiers."""
    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before


def _draw(page: Any, template: FlatTemplate, height: float) -> None:
    """Add one template, layer by layer."""

    def up(point: Point) -> Point:
        return round(point[0], 6), round(height - point[1], 6)

    for layer, points in (("cut", template.cut), ("seam", template.seam)):
        if points:
            page.add_lwpolyline(map(up, points), close=True, dxfattribs={"layer": layer})
    for a, b in template.inner:
        page.add_line(up(a), up(b), dxfattribs={"layer": "seam"})
    marks = {"layer": "marks"}
    for point in template.points:
        page.add_circle(up(point), DOT, dxfattribs=marks)
    for a, b in template.lines:
        page.add_line(up(a), up(b), dxfattribs=marks)
    for label in template.words:
        tall = label.size * POINT_MM * CAP_HEIGHT
        text = page.add_text(" ".join(label.text.split()), height=tall, dxfattribs=marks)
        text.set_placement(up(label.at), align=_align(label.anchor))


def _align(anchor: str) -> Any:
    """Where a text stands about its point: level with its middle."""
    from ezdxf.enums import TextEntityAlignment as Align

    return {"start": Align.MIDDLE_LEFT, "middle": Align.MIDDLE_CENTER, "end": Align.MIDDLE_RIGHT}[
        anchor
    ]
