"""Floor 7: long parts. Borders and binding from strips right across the cloth, joined end to end."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.kit.measure import ZERO, Length
from booklet.kit.records import Record


class Segment(Record):
    """A stretch of a strip that goes into a part: the part's `name` and its number among all parts;
    `start` and `length` along the strip."""

    name: str
    part: int
    start: Length
    length: Length


def stretches_of(length: Length, usable: Length, loss: Length, least: Length) -> list[Length]:
    """The stretches of strips `usable` long that are joined to a part: whole strips, then an end.

    Each join takes `loss`. An end shorter than `least` is made so long, at the cost of the strip before
    it, since a join would lie too near the end of the part. ValueError if a strip is no longer than its
    join.
    """
    if usable <= loss:
        raise ValueError("a strip is no longer than what its join takes")
    found: list[Length] = []
    while length > usable:
        found.append(usable)
        length = length - (usable - loss)
    if found and length < least and usable - (least - length) >= least:
        found[-1] = usable - (least - length)
        length = least
    return [*found, length]


def joined_strips(
    parts: Sequence[tuple[str, Length]], usable: Length, loss: Length, least: Length
) -> tuple[tuple[Segment, ...], ...]:
    """Strips that give all parts (name, length), each join taking `loss`; one tuple for each strip.

    A part longer than a strip takes whole strips and an end (`stretches_of`); ends and short parts are
    laid into strips longest first, each into the first strip with room.
    """
    strips: list[list[Segment]] = []
    rest: list[tuple[Length, int, str]] = []
    for number, (name, length) in enumerate(parts):
        *whole, end = stretches_of(length, usable, loss, least)
        strips += [[Segment(name, number, ZERO, stretch)] for stretch in whole]
        rest.append((end, number, name))
    open_from = len(strips)
    for left, number, name in sorted(rest, key=lambda r: (-r[0].inches, r[1])):
        for strip in strips[open_from:]:
            end = strip[-1].start + strip[-1].length
            if left <= usable - end:
                strip.append(Segment(name, number, end, left))
                break
        else:
            strips.append([Segment(name, number, ZERO, left)])
    return tuple(tuple(strip) for strip in strips)
