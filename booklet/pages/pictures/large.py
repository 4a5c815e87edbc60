"""Floor 11, large print: the style sheet with larger type, and pictures drawn small and shown at twice their size.

Type of 10 pt and less is set in 16 pt (14 pt where it is only a note or a running head), which is what large print is
(common practice); titles, which are large already, grow less. Pictures are drawn for half the width of a page and shown at twice their
size, so that their lettering, of 7 pt and more, comes out in 14 pt; what is true to size stays so.
"""

from __future__ import annotations

import re

from booklet.kit.records import replace
from booklet.pages.pictures.figures import Room
from booklet.pages.style.paper import Sheet

SCALE = 2.0
"""How much larger than drawn a picture is shown."""
GROWN = 1.8
"""How much larger the type of a step card is: 9 pt becomes 16."""
ROOM = Room(width_mm=84.0, depth_mm=112.0, beside_mm=84.0, column_mm=84.0, threads_across=2)
_NOTE = 14.0
_TEXT = 16.0
_FONT = re.compile(r"(font:\s*(?:italic )?(?:\d00 )?)([\d.]+)pt(?:/([\d.]+)pt)?")
_SIZE = re.compile(r"((?:font-size|line-height):\s*)([\d.]+)pt")


def type_size(points: float) -> float:
    """The size of type in large print: 7.5 pt becomes 14, 10 becomes 16, 12 becomes 19, 40 becomes 44."""
    if points < 8.5:
        return max(points and _NOTE, points)
    return max(
        _TEXT, points * 1.6 if points <= 12 else points * 1.1 if points > 30 else points * 1.3
    )


def line_height(points: float) -> float:
    """The height of a line in large print: 13.5 pt becomes 21."""
    return points * 1.55 if points < 20 else points * 1.3 if points < 34 else points * 1.1


def enlarged(rules: str) -> str:
    """A style sheet with the type of large print."""

    def font(found: re.Match[str]) -> str:
        size = type_size(float(found[2]))
        line = f"/{max(line_height(float(found[3])), size * 1.15):.4g}pt" if found[3] else ""
        return f"{found[1]}{size:.4g}pt{line}"

    def one(found: re.Match[str]) -> str:
        grown = type_size if found[1].startswith("font-size") else line_height
        return f"{found[1]}{grown(float(found[2])):.4g}pt"

    return _SIZE.sub(one, _FONT.sub(font, rules)) + _RULES


def large_sheet(sheet: Sheet) -> Sheet:
    """A sheet with everything in one column, as on small paper."""
    return replace(sheet, step_columns=1)


_RULES = """
.sr { font-size: 0; }
.ring { min-width: 24pt; height: 24pt; border-radius: 12pt; line-height: 23pt; }
.box, ul.ticks li::before, .card-make .box { width: 14pt; height: 14pt; line-height: 14pt; }
.box-cell { width: 26pt; }
p, li, dd, .caution, figcaption, .small, .lead { max-width: none; }
.block-head, .block-head > *, .contents.beside, .card-row.pair, .card-row.pair > .card, .beside .card-body, .beside .card-picture, .beside .card-text { display: block; width: auto; padding: 0 !important; }
.card-head .thumb-cell figure { width: 22mm; }
.hang > .depth-1 { position: static; }
ul.tools, ul.sums, .full .card-text { columns: 1; }
.labels { display: block; }
.figure-row[style] > figure > :is(img, svg) { margin-top: 0; }
.cloth-head { break-inside: avoid; }
.pocket { border: 0; padding: 0; }
.pocket-row figure { border: 0.25mm dashed; padding: 3mm; }
.cloth-picture svg, .cloth-picture img { max-height: none; }
.swatch { width: 22pt; height: 22pt; }
table { font-variant-numeric: lining-nums; }
.cut-figure, .cloth-buy { white-space: normal; float: none; }
"""
