"""Floor 6: sashing. Strips between the blocks of a straight set, and outside them if asked.

With cornerstones every sash is as long as a block side and a square stands at each crossing. Without,
short sashes join the blocks of a row, and long ones run through between the rows.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable

from booklet.kit.measure import ZERO, Length, UnitSystem
from booklet.kit.outlines.plane import Point, rectangle
from booklet.kit.words import Text, phrase
from booklet.pattern import Sashing
from booklet.quilt.sized import Part
from booklet.quilt.sums import TIMES, cut_line, say, sewable
from booklet.quilt.top.straight import Grid, span_of, starts

Outline = tuple[Point, ...]


def sash_parts(
    grid: Grid, sashing: Sashing, allowance: Length, corner: Point, units: UnitSystem
) -> tuple[Part, ...]:
    """The sashes and cornerstones of a straight set whose top left corner lies at `corner`.

    Sashes of one length are one part; if there are several lengths they are numbered, short first.
    """
    edge = sashing.width if sashing.outside else ZERO
    xs, ys = starts(grid.columns, sashing.width, edge), starts(grid.rows, sashing.width, edge)
    gaps_x = _gaps(xs, grid.columns, sashing)
    gaps_y = _gaps(ys, grid.rows, sashing)
    wide = sashing.width
    sashes: dict[Length, list[Outline]] = defaultdict(list)
    for y, height in zip(ys, grid.rows, strict=True):
        sashes[height] += [_at(corner, x, y, wide, height) for x in gaps_x]
    if sashing.cornerstones is None:
        through = span_of(grid.columns, wide, edge)
        runs = [_at(corner, ZERO, y, through, wide) for y in gaps_y]
        return (
            *_numbered(sashes, "sash", sashing, allowance, units),
            *_numbered({through: runs}, "long sash", sashing, allowance, units, long=True),
        )
    for x, width in zip(xs, grid.columns, strict=True):
        sashes[width] += [_at(corner, x, y, width, wide) for y in gaps_y]
    stones = tuple(_at(corner, x, y, wide, wide) for y in gaps_y for x in gaps_x)
    return (
        *_numbered(sashes, "sash", sashing, allowance, units),
        *_cornerstones(stones, sashing, sashing.cornerstones, allowance, units),
    )


def _gaps(
    begins: tuple[Length, ...], lengths: tuple[Length, ...], sashing: Sashing
) -> list[Length]:
    """Where the sashes between (and, if asked, outside) the lengths begin."""
    between = [b + length for b, length in zip(begins, lengths, strict=True)]
    if sashing.outside:
        return [ZERO, *between]
    return between[:-1]


def _at(corner: Point, x: Length, y: Length, width: Length, height: Length) -> Outline:
    return rectangle(corner[0] + float(x), corner[1] + float(y), float(width), float(height))


def _numbered(
    sashes: dict[Length, list[Outline]],
    name: str,
    sashing: Sashing,
    allowance: Length,
    units: UnitSystem,
    long: bool = False,
) -> Iterable[Part]:
    """One part for each length of sash, short first; numbered if there is more than one."""
    used = [(length, places) for length, places in sorted(sashes.items()) if places]
    for number, (length, places) in enumerate(used, start=1):
        called = f"{name} {number}" if len(used) > 1 else name
        yield sash_part(
            called, sashing.fabric, (sashing.width, length), places, allowance, units, long
        )


def _cornerstones(
    places: tuple[Outline, ...],
    sashing: Sashing,
    fabric: str,
    allowance: Length,
    units: UnitSystem,
) -> Iterable[Part]:
    if places:
        size = (sashing.width, sashing.width)
        yield sash_part("cornerstone", fabric, size, places, allowance, units)


def sash_part(
    name: str,
    fabric: str,
    finished: tuple[Length, Length],
    places: Iterable[Outline],
    allowance: Length,
    units: UnitSystem,
    long: bool = False,
) -> Part:
    """Rectangles of one finished size as a part of the quilt, with the sums of their cut size."""
    exact = finished[0] + 2 * allowance, finished[1] + 2 * allowance
    cut = sewable(exact[0], units), sewable(exact[1], units)
    titles = (
        phrase("{part}, width", part=_title(name)),
        phrase("{part}, length", part=_title(name)),
    )
    sums = tuple(
        cut_line(title, f"{say(f, units)} + 2 {TIMES} {say(allowance, units)}", e, c, units)
        for title, f, e, c in zip(titles, finished, exact, cut, strict=True)
    )
    outlines = tuple(sorted(places, key=lambda o: (o[0][1], o[0][0])))
    return Part(
        name=name,
        title=_title(name),
        fabric=fabric,
        shape="rectangle",
        finished=finished,
        cut=cut,
        count=len(outlines),
        long=long,
        places=outlines,
        sums=sums,
    )


def _title(name: str) -> Text:
    """A sash or cornerstone for the reader: "sash 2" where there are several lengths."""
    kind, _, number = name.rpartition(" ")
    titles = {
        "sash": phrase("sash", context="part"),
        "long sash": phrase("long sash", context="part"),
        "cornerstone": phrase("cornerstone", context="part"),
    }
    if name in titles:
        return titles[name]
    return phrase("{part} {number}", part=titles[kind], number=number)
