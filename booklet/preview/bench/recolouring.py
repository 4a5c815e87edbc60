"""Floor 13, recolouring: the same picture with cloths of other colours.

Every colour in a picture that comes from a cloth is one of a few made of the cloth's own. Where each of these
stands for one new colour, and for no ink of ours, they are exchanged; where not, the picture is drawn anew.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from booklet.drawing.ink.colours import ACCENT, DARK, GREY, PALE, WHITE, shade
from booklet.drawing.ink.fills import Looks, ground_colour, mark_colour
from booklet.drawing.scene import Figure, Fill
from booklet.kit.colour import lightness, mix
from booklet.kit.records import replace

_WHITE = Fill(WHITE, 1, tint=True)
_OURS = ["#8fb3c9", "#cdc6ba", "#d8d5cd", "#dcd8cf", "#e9e6df", "#efece5", "#f3f0ea", "#f7f5f0"]
_MIXED = mix(PALE, WHITE, 0.35), mark_colour(_WHITE)
_INKS = frozenset((DARK, ACCENT, GREY, PALE, WHITE, *_MIXED, *_OURS))
"""The colours of pictures with cloths that come from no cloth (a test draws every pattern anew and compares)."""
_COLOUR = re.compile(r'(?<==")#[0-9a-f]{6}(?=")')


_LAST: list[tuple[Looks, Looks, dict[str, str] | None]] = []
"""The exchange asked for last: many pictures ask for the same."""


def recoloured(made: Any, old: Looks, new: Looks) -> Any:
    """A picture, or several, in the new looks of the cloths; None where they must be drawn anew."""
    if not (_LAST and _LAST[0][0] is old and _LAST[0][1] is new):
        _LAST[:] = [(old, new, _exchange(old, new))]
    exchange = _LAST[0][2]
    if exchange is None:
        return None
    if isinstance(made, Figure):
        return _figure(made, exchange)
    if isinstance(made, tuple) and all(isinstance(one, Figure) for one in made):
        return tuple(_figure(one, exchange) for one in made)
    return None


def _figure(figure: Figure, exchange: dict[str, str]) -> Figure | None:
    svg = _COLOUR.sub(lambda found: exchange.get(found[0], found[0]), figure.svg)
    return replace(figure, svg=svg)


def _exchange(old: Looks, new: Looks) -> dict[str, str] | None:
    """The new colour of each old one; None where it is not one for one."""
    if list(old) != list(new) or _order(old) != _order(new):
        return None
    found: dict[str, str] = {}
    for id in old:
        if replace(old[id], colour="") != replace(new[id], colour=""):
            return None
        for before, after in zip(_made_of(old[id]), _made_of(new[id]), strict=True):
            if found.setdefault(before, after) != after:
                return None
    changed = {before for before, after in found.items() if before != after}
    return None if changed & _INKS else found


def _order(looks: Looks) -> list[str]:
    """The cloths from dark to light: some pictures take the lightest."""
    return sorted(looks, key=lambda id: lightness(looks[id].colour))


def _made_of(look: Fill) -> Iterator[str]:
    """The colours that pictures make of a cloth's."""
    for fill in (look, replace(look, tint=True), Fill(look.colour), Fill(look.colour, tint=True)):
        yield ground_colour(fill)
        yield mark_colour(fill)
    yield shade(look.colour)
