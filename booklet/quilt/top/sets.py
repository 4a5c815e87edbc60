"""Floor 6: the set of blocks by its kind: straight, on point or lattice, before borders."""

from __future__ import annotations

import math
from collections.abc import Mapping

from booklet.geometry.tiling import Tiling
from booklet.kit.diagnostic import Diagnostic, Span
from booklet.kit.measure import ZERO, Length, UnitSystem
from booklet.kit.outlines.plane import Frame, Point, rectangle
from booklet.kit.records import Record
from booklet.kit.words import Phrase, Text, phrase
from booklet.pattern import Centre, FilledRim, Pattern, Quilt, SetKind, Size
from booklet.quilt.sized import Part, PlacedBlock
from booklet.quilt.sums import TIMES, adds, result, say, sum_line
from booklet.quilt.top.borders import around
from booklet.quilt.top.lattice import fit_lattice, place_lattice
from booklet.quilt.top.on_point import fit_on_point, place_on_point, triangle_parts
from booklet.quilt.top.on_point_sashing import on_point_sashing
from booklet.quilt.top.sashing import sash_parts
from booklet.quilt.top.straight import fit_grid, place_blocks, span_of


class Set(Record, kw_only=True):
    """The set blocks of a quilt before borders: its finished size, blocks, parts and sums."""

    finished: tuple[Length, Length]
    placed: tuple[PlacedBlock, ...]
    parts: tuple[Part, ...]
    sums: tuple[str, ...]
    kept: tuple[Point, ...] | None = None  # what a ragged set is trimmed to


def set_blocks(
    size: Size, quilt: Quilt, tilings: Mapping[str, Tiling], pattern: Pattern
) -> tuple[Set | None, tuple[Diagnostic, ...]]:
    """The set of one size by its kind, perhaps with warnings, or the faults that prevent it."""
    if quilt.set is SetKind.STRAIGHT:
        return _straight(size, quilt, tilings, pattern)
    if quilt.set is SetKind.ON_POINT:
        return _on_point(size, quilt, tilings, pattern)
    return _lattice(size, quilt, tilings, pattern)


def _not_yet(what: str, span: Span, hint: str) -> Diagnostic:
    return Diagnostic(
        code="not-yet", message=f"{what} cannot be laid out yet", span=span, hint=hint
    )


def _on_point(
    size: Size, quilt: Quilt, tilings: Mapping[str, Tiling], pattern: Pattern
) -> tuple[Set | None, tuple[Diagnostic, ...]]:
    units = pattern.units
    side, faults = fit_on_point(quilt, size, tilings, units)
    sashing = quilt.sashing
    if sashing and sashing.cornerstones is None:
        hint = "add `cornerstones:` with a fabric; it may be that of the sashing"
        what = "sashing on point without cornerstones"
        faults = (*faults, _not_yet(what, sashing.span, hint))
    if quilt.setting_fabric is None:
        faults = (*faults, _no_setting_fabric(quilt))
    if side is None or faults or quilt.setting_fabric is None:
        return None, faults
    gap = sashing.width if sashing else ZERO
    diagonal = Length.of(float(side + gap) * math.sqrt(2))
    finished = size.across * diagonal, size.down * diagonal
    corner = _corner(finished, quilt)
    cell = f"({say(side, units)} + {say(gap, units)})" if sashing else say(side, units)
    sums = tuple(
        sum_line(word, f"{count} {TIMES} {cell} {TIMES} √2", result(whole, units))
        for word, count, whole in zip(
            (phrase("set on point, across"), phrase("set on point, down")),
            (size.across, size.down),
            finished,
            strict=True,
        )
    )
    allowance = pattern.allowance
    parts = triangle_parts(size, quilt.setting_fabric, side, allowance, corner, units, gap)
    if sashing and sashing.cornerstones:
        strips = on_point_sashing(
            size, sashing, sashing.cornerstones, side, allowance, corner, units
        )
        parts = (*strips, *parts)
    placed = place_on_point(quilt, size, tilings, float(diagonal), corner, float(gap))
    return Set(finished=finished, placed=placed, parts=parts, sums=sums), ()


def _no_setting_fabric(quilt: Quilt) -> Diagnostic:
    return Diagnostic(
        code="no-setting-fabric",
        message="a set on point needs a fabric for its side and corner triangles",
        span=quilt.span,
        hint="add `setting fabric:` with the name of a fabric",
    )


def _lattice(
    size: Size, quilt: Quilt, tilings: Mapping[str, Tiling], pattern: Pattern
) -> tuple[Set | None, tuple[Diagnostic, ...]]:
    units = pattern.units
    if quilt.sashing:
        hint = "leave out `sashing`, or use `set: straight`"
        return None, (_not_yet("sashing in a lattice set", quilt.sashing.span, hint),)
    lattice, faults = fit_lattice(quilt, size, tilings, units)
    if lattice is None:
        return None, faults
    kept, whole, filled = lattice.kept, lattice.whole, quilt.filled
    finished = Length.of(kept.width), Length.of(kept.height)
    corner = _corner(finished, quilt)
    placed = place_lattice(lattice, corner)
    ragged = kept != whole or (filled is not None and filled.cut_off > 0)
    trimmed = rectangle(*corner, kept.width, kept.height) if ragged else None
    if filled is not None:
        sums = _rim_sums(filled, finished, units)
    else:
        sums = _trimmed_sums(whole, finished, units)
    return Set(finished=finished, placed=placed, parts=(), sums=sums, kept=trimmed), faults


def _trimmed_sums(
    whole: Frame, finished: tuple[Length, Length], units: UnitSystem
) -> tuple[Text, ...]:
    """What a lattice set measures with its rim, and trimmed."""
    words = (phrase("set, across"), phrase("set, down"))
    rows = zip(words, (whole.width, whole.height), finished, strict=True)
    return tuple(
        phrase(
            "{what}: {whole} with its rim, {kept} kept",
            what=word,
            whole=result(Length.of(before), units),
            kept=result(after, units),
        )
        for word, before, after in rows
    )


def _straight(
    size: Size, quilt: Quilt, tilings: Mapping[str, Tiling], pattern: Pattern
) -> tuple[Set | None, tuple[Diagnostic, ...]]:
    grid, faults = fit_grid(quilt, size, tilings, pattern.units)
    if grid is None:
        return None, faults
    sashing, units = quilt.sashing, pattern.units
    gap = sashing.width if sashing else ZERO
    edge = sashing.width if sashing and sashing.outside else ZERO
    finished = span_of(grid.columns, gap, edge), span_of(grid.rows, gap, edge)
    corner = _corner(finished, quilt)
    parts = sash_parts(grid, sashing, pattern.allowance, corner, units) if sashing else ()
    sums = tuple(
        _set_sum(word, lengths, gap, edge, whole, units)
        for word, lengths, whole in zip(
            (phrase("set, across"), phrase("set, down")),
            (grid.columns, grid.rows),
            finished,
            strict=True,
        )
    )
    return Set(
        finished=finished,
        placed=place_blocks(grid, tilings, gap, edge, corner),
        parts=parts,
        sums=sums,
    ), ()


def _set_sum(
    word: Text,
    lengths: tuple[Length, ...],
    gap: Length,
    edge: Length,
    whole: Length,
    units: UnitSystem,
) -> str:
    sashes = [gap] * (len(lengths) - 1) + [edge] * 2
    return sum_line(word, adds((*lengths, *sashes), units), result(whole, units))


def _corner(top: tuple[Length, Length], quilt: Quilt) -> Point:
    """Where the top left of the set lies in the frame of the finished top: inside its borders."""
    outer = top
    for border in quilt.borders:
        outer = around(outer, border)
    return float((outer[0] - top[0]) / 2), float((outer[1] - top[1]) / 2)


_MIDDLES = {
    Centre.BLOCK: phrase("set, middle: a block"),
    Centre.GAP: phrase("set, middle: half way between two blocks"),
    Centre.CORNER: phrase("set, middle: a corner where blocks meet"),
}


def _rim_sums(
    rim: FilledRim, finished: tuple[Length, Length], units: UnitSystem
) -> tuple[Text, ...]:
    """What a set measures whose rim is filled, and how."""
    words = (phrase("set, across"), phrase("set, down"))
    sides = (
        phrase("{what}: {whole}, its rim filled", what=word, whole=result(side, units))
        for word, side in zip(words, finished, strict=True)
    )
    return (*sides, _MIDDLES[rim.centre], _cut_off(rim))


def _share_cut_off(rim: FilledRim) -> int:
    """What is cut off of all that is sewn, in percent; at least 1 of what is cut off at all."""
    share = 100 * rim.cut_off / rim.sewn
    return max(1, round(share)) if rim.cut_off > 0.005 else 0


def _cut_off(rim: FilledRim) -> Phrase:
    share = _share_cut_off(rim)
    if not share:
        return phrase("set, rim: finished along the edge, nothing is cut off")
    return phrase("set, rim: {share} percent of what is sewn is cut off at the edge", share=share)
