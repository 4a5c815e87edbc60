"""Floor 10: the pens: how wide, in which colour and in which dashes every ink is drawn."""

from __future__ import annotations

from dataclasses import dataclass

from booklet.drawing.ink.colours import ACCENT, DARK, GREY, PALE
from booklet.drawing.scene import (
    Ink,
)


@dataclass(frozen=True, slots=True)
class Pen:
    """How an ink is drawn: width in mm, colour, dashes in mm, length of its arrowheads in mm."""

    width: float
    colour: str = DARK
    dash: tuple[float, ...] = ()
    head: float = 2.4
    round: bool = False


# Widths follow the steps of technical drawing (0.18, 0.25, 0.35, 0.5, 0.7, 1.0); see ISO 128-2.
PENS = {
    Ink.PATCH: Pen(0.5),
    Ink.FINE: Pen(0.25),
    Ink.TONAL: Pen(0.2),
    Ink.HAIR: Pen(0.13),
    Ink.CONTEXT: Pen(0.25, PALE),
    Ink.RIM: Pen(0.7),
    Ink.CUT: Pen(0.25),
    Ink.SEAM_LINE: Pen(0.25, DARK, (1.6, 0.9)),
    Ink.MACHINE: Pen(1.0, ACCENT),
    Ink.HAND: Pen(1.0, ACCENT, (1.7, 1.0)),
    Ink.LATER: Pen(0.5, ACCENT, (0.5, 0.9)),
    Ink.THREAD: Pen(0.7, ACCENT, (1.7, 0.9), 2.6),
    Ink.GUIDE: Pen(0.18, DARK, (1.0, 0.8)),
    Ink.FOLD: Pen(0.25, DARK, (3.0, 0.8, 0.5, 0.8)),
    Ink.ARROW: Pen(0.6, DARK, (), 2.3),
    Ink.FAN: Pen(0.4, ACCENT, (), 1.5),
    Ink.GRAIN: Pen(0.35, DARK, (), 2.6),
    Ink.RULE: Pen(0.25),
    Ink.LEADER: Pen(0.18, GREY),
    Ink.SEWN: Pen(0.5),
    Ink.SELVEDGE: Pen(0.7, DARK, (0.4, 0.9)),
    Ink.LEFTOVER: Pen(0.25, PALE, (1.2, 0.8)),
    Ink.OUTLINE: Pen(0.35),
    Ink.WRONG: Pen(0.7, ACCENT),
    Ink.MENDED: Pen(0.7, DARK, (2.4, 1.4)),
}
