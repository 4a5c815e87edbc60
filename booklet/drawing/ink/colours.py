"""Floor 10: the inks of our own, and the marks that show on a cloth."""

from __future__ import annotations

from booklet.kit.colour import lightness, mix

DARK = "#1d2a38"  # lines and letters
ACCENT = "#a23b12"  # what the hand does next; 6.6 : 1 on white
GREY = "#5f6872"  # quiet letters; 5.7 : 1 on white
PALE = "#8b929a"  # lines of context
WHITE = "#ffffff"


def shade(colour: str) -> str:
    """A deeper shade of a colour, or of a dark one a lighter: for seams in a picture in full colour."""
    return mix(colour, DARK, 0.4) if lightness(colour) >= 32 else mix(colour, WHITE, 0.22)
