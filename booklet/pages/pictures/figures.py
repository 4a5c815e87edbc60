"""Floor 11, figures: the pictures of one size by name, for templates and texts.

Names: `cover`, `sizes`, `swatch FABRIC`, `thumb ID N`, `allowance`, `legend`, `layers`, `binding`, `patches`, `block ID`, `step ID N`, `chain ID N`, `thread ID N`, `press ID`,
`cloth FABRIC`, `cut FABRIC LETTER`, `angle FABRIC LETTER`, `templates N`, `quilt`, `rows`, `border N`, `backing`,
`colouring`, `practice`. A name without a figure is simply not there: the page does without.
"""

from __future__ import annotations

import base64
import re
from collections.abc import Callable
from typing import Protocol

from markupsafe import Markup, escape

from booklet.drawing.scene import Figure
from booklet.drawing.steps.step_scale import TALLEST
from booklet.kit.records import Record
from booklet.pages.texts.true_fractions import characters
from booklet.plan import SizePlan


class Figures(Protocol):
    """The pictures of one size."""

    def figure(self, name: str) -> Figure | None:
        """The figure of that name, or None."""

    def series(self, name: str) -> tuple[Figure, ...]:
        """The figures `NAME 1`, `NAME 2`, … in order."""


class Room(Record, kw_only=True):
    """The room a page gives to pictures, in mm: its type area, a picture with words beside it, and a
    column of steps."""

    width_mm: float
    depth_mm: float
    beside_mm: float
    column_mm: float
    threads_across: int

    @property
    def step_widths(self) -> tuple[float, ...]:
        """The widths a step's picture may have, the narrowest first."""
        return tuple(sorted({self.column_mm, self.beside_mm, self.width_mm}))

    @property
    def step_height(self) -> float:
        """How high a step's picture may be in one row; on a small page its words must stand below it."""
        return min(TALLEST, 0.4 * self.depth_mm)


# One room for all large pages and the web, one for all small: the lesser of either kind.
LARGE = Room(width_mm=168.0, depth_mm=228.0, beside_mm=112.0, column_mm=81.5, threads_across=3)
CARDS = Room(width_mm=88.0, depth_mm=120.0, beside_mm=88.0, column_mm=88.0, threads_across=1)
"""The room of a step card, a quarter of a large page."""
SMALL = Room(width_mm=109.5, depth_mm=173.0, beside_mm=109.5, column_mm=109.5, threads_across=2)


FigureSource = Callable[[SizePlan, Room], Figures]

_ID = re.compile(r'(?<=\sid=")([^"]+)(?=")')
_TITLE = re.compile(r"<title(?:\s[^>]*)?>.*?</title>|<desc(?:\s[^>]*)?>.*?</desc>", re.DOTALL)
_TEXT = re.compile(r">[^<>]+</(?:text|tspan)>")
_ROOT = re.compile(r"<svg\b([^>]*)>", re.DOTALL)
_ROOT_ATTRIBUTE = re.compile(r'\s(?:role|aria-[a-z]+|width|height|focusable|style|class)="[^"]*"')


def inline_svg(figure: Figure, alt: str, suffix: str = "", align: str = "") -> Markup:
    """The figure's SVG for an HTML page: named by `alt`, ids made single by `suffix`.

    `align` is an attribute that says where the picture lies in a larger box. PDF tagging reads the alternative from the first <title>, browsers from aria-label.
    """
    svg = figure.svg[figure.svg.index("<svg") :]
    svg = _TITLE.sub("", svg)
    svg = _TEXT.sub(lambda match: characters(match.group(0)), svg)
    if suffix:
        for id in sorted(set(_ID.findall(svg)), key=len, reverse=True):
            svg = re.sub(rf'(?<=[#"]){re.escape(id)}(?=[")])', f"{id}{suffix}", svg)
    opening = _ROOT.search(svg)
    assert opening is not None
    kept = _ROOT_ATTRIBUTE.sub("", opening.group(1))
    size = f'width="{figure.width_mm:g}mm" height="{figure.height_mm:g}mm"'
    # the style keeps a true-size figure true, and lets any other shrink to its column
    head = f'<svg role="img"{align} aria-label="{escape(alt)}" {size}{kept}><title>{escape(alt)}</title>'
    return Markup(svg[: opening.start()] + head + svg[opening.end() :])


def image_svg(figure: Figure, alt: str) -> Markup:
    """The figure as an image of its own for print: read once however often it is set."""
    svg = _TEXT.sub(
        lambda match: characters(match.group(0)), figure.svg[figure.svg.index("<svg") :]
    )
    if "xmlns=" not in svg.split(">", 1)[0]:
        svg = svg.replace("<svg ", '<svg xmlns="http://www.w3.org/2000/svg" ', 1)
    data = base64.b64encode(svg.encode("utf-8")).decode("ascii")
    return Markup(
        '<img src="data:image/svg+xml;base64,{}" alt="{}" style="width:{}mm;height:{}mm">'
    ).format(data, alt, f"{figure.width_mm:g}", f"{figure.height_mm:g}")


_GAP = 6.0  # mm between two


def columns_of(room: Room, count: int) -> int:
    """How many stand beside each other: fewer on a small page."""
    return min(count, 2 if room.column_mm == room.width_mm else 3)


def column_width(room: Room, columns: int) -> float:
    """The width of each, in mm."""
    return (room.width_mm - _GAP * (columns - 1)) / columns
