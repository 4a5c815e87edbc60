"""Floor 10: the pens: how wide, in which colour and in which dashes every ink is drawn."""

from __future__ import annotations

from booklet.drawing.ink.colours import ACCENT, DARK, GREY, PALE
from booklet.drawing.scene import (
    Ink,
)
from booklet.kit.records import Record


class Pen(Record, kw_only=True):
    """How an ink is drawn: width in mm, colour, dashes in mm, length of its arrowheads in mm."""

    width: float
    colour: str = DARK
    dash: tuple[float, ...] = ()
    head: float = 2.4


# Widths follow the steps of technical drawing (0.18, 0.25, 0.35, 0.5, 0.7, 1.0); see ISO 128-2.
PENS = {
    Ink.PATCH: Pen(width=0.5),
    Ink.FINE: Pen(width=0.25),
    Ink.TONAL: Pen(width=0.2),
    Ink.HAIR: Pen(width=0.13),
    Ink.CONTEXT: Pen(width=0.25, colour=PALE),
    Ink.RIM: Pen(width=0.7),
    Ink.CUT: Pen(width=0.25),
    Ink.SEAM_LINE: Pen(width=0.25, colour=DARK, dash=(1.6, 0.9)),
    Ink.MACHINE: Pen(width=1.0, colour=ACCENT),
    Ink.HAND: Pen(width=1.0, colour=ACCENT, dash=(1.7, 1.0)),
    Ink.LATER: Pen(width=0.5, colour=ACCENT, dash=(0.5, 0.9)),
    Ink.THREAD: Pen(width=0.7, colour=ACCENT, dash=(1.7, 0.9), head=2.6),
    Ink.BACK: Pen(width=0.3, colour=ACCENT, dash=(), head=1.6),
    Ink.GUIDE: Pen(width=0.18, colour=DARK, dash=(1.0, 0.8)),
    Ink.FOLD: Pen(width=0.25, colour=DARK, dash=(3.0, 0.8, 0.5, 0.8)),
    Ink.ARROW: Pen(width=0.6, colour=DARK, dash=(), head=2.3),
    Ink.FAN: Pen(width=0.4, colour=ACCENT, dash=(), head=1.5),
    Ink.GRAIN: Pen(width=0.35, colour=DARK, dash=(), head=2.6),
    Ink.RULE: Pen(width=0.25),
    Ink.LEADER: Pen(width=0.18, colour=GREY),
    Ink.SEWN: Pen(width=0.5),
    Ink.SELVEDGE: Pen(width=0.7, colour=DARK, dash=(0.4, 0.9)),
    Ink.LEFTOVER: Pen(width=0.25, colour=PALE, dash=(1.2, 0.8)),
    Ink.OUTLINE: Pen(width=0.35),
    Ink.WRONG: Pen(width=0.7, colour=ACCENT),
    Ink.MENDED: Pen(width=0.7, colour=DARK, dash=(2.4, 1.4)),
}
