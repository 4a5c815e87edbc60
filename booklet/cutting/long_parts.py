"""Floor 7: long parts. Borders and binding from strips right across the cloth, joined end to end."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from booklet.measure import ZERO, Length


@dataclass(frozen=True, slots=True)
class Segment:
    """A stretch of a strip that goes into the part `name`; `start` and `length` along the strip."""

    name: str
    start: Length
    length: Length
    whole: bool  # the part is no longer than this stretch, so that it has no join


def joined_strips(
    parts: Sequence[tuple[str, Length]], usable: Length, loss: Length
) -> tuple[tuple[Segment, ...], ...]:
    """Strips that give all parts (name, length), each join taking `loss`; one tuple for each strip.

    A part longer than a strip takes whole strips and an end; ends and short parts are laid into strips
    longest first, each into the first strip with room. ValueError if a strip is no longer than its join.
    """
    if usable <= loss:
        raise ValueError("a strip is no longer than what its join takes")
    strips: list[list[Segment]] = []
    rest: list[tuple[Length, int, str, bool]] = []
    for number, (name, length) in enumerate(parts):
        left, whole = length, length <= usable
        while left > usable:
            strips.append([Segment(name, ZERO, usable, False)])
            left = left - (usable - loss)
        rest.append((left, number, name, whole))
    open_from = len(strips)
    for left, _, name, whole in sorted(rest, key=lambda r: (-r[0].inches, r[1])):
        for strip in strips[open_from:]:
            end = strip[-1].start + strip[-1].length
            if left <= usable - end:
                strip.append(Segment(name, end, left, whole))
                break
        else:
            strips.append([Segment(name, ZERO, left, whole)])
    return tuple(tuple(strip) for strip in strips)
