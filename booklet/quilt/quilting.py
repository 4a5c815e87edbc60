"""Floor 6, the stage: from pressed blocks to the quilt of every size, with every part beside them."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from booklet.diagnostic import Diagnostic, Outcome, Span
from booklet.geometry.tiling import Point, Tiling
from booklet.measure import ZERO, Length, UnitSystem
from booklet.pattern import Pattern, Quilt, SetKind, Size
from booklet.pressing import rim_clashes
from booklet.pressing.pressing import PressedPattern
from booklet.quilt.backing import layer_size, layer_sums, plan_backing
from booklet.quilt.binding import plan_binding
from booklet.quilt.borders import add_borders, around
from booklet.quilt.on_point import fit_on_point, place_on_point, triangle_parts
from booklet.quilt.sashing import sash_parts
from booklet.quilt.setting import fit_grid, place_blocks, span_of
from booklet.quilt.sized import Part, PlacedBlock, SetPattern, SizedQuilt
from booklet.quilt.sums import TIMES, adds, result, say

DEFAULT_WIDTH = Length.of(40)


@dataclass(frozen=True, slots=True)
class Set:
    """The set blocks of a quilt before borders: its finished size, blocks, parts and sums."""

    finished: tuple[Length, Length]
    placed: tuple[PlacedBlock, ...]
    parts: tuple[Part, ...]
    sums: tuple[str, ...]


def set_quilts(pressed: PressedPattern) -> Outcome[SetPattern]:
    """The quilt of every size of the pattern, with the faults of blocks that do not fill their set.

    A fault that recurs in several sizes is told once, for the first of them.
    """
    quilts: dict[str, SizedQuilt] = {}
    faults: dict[tuple[object, ...], Diagnostic] = {}
    for size in pressed.assembled.laid_out.pattern.sizes:
        quilts[size.id], found = set_quilt(size, pressed)
        for fault in found:
            faults.setdefault((fault.code, fault.span), fault)
    return Outcome(SetPattern(pressed, quilts), tuple(faults.values()))


def set_quilt(size: Size, pressed: PressedPattern) -> tuple[SizedQuilt, tuple[Diagnostic, ...]]:
    """The quilt of one size, and its faults; without a quilt, or with faults, just block counts."""
    pattern = pressed.assembled.laid_out.pattern
    tilings = {tiling.block: tiling for tiling in pressed.assembled.laid_out.of_size(size)}
    if size.quilt is None:
        return _blocks_only(size, dict.fromkeys(tilings, size.count)), ()
    made, faults = _set_blocks(size, size.quilt, tilings, pattern)
    if made is None:
        return _blocks_only(size, dict.fromkeys(tilings, size.count)), faults
    finished = _finish(size, size.quilt, made, pattern, pressed)
    return finished, tuple(_too_narrow(finished, size.quilt, size, pattern.units))


def _blocks_only(size: Size, blocks: Mapping[str, int]) -> SizedQuilt:
    return SizedQuilt(size, blocks, None, (), (), (), None, None, None, True, 0)


def _set_blocks(
    size: Size, quilt: Quilt, tilings: Mapping[str, Tiling], pattern: Pattern
) -> tuple[Set | None, tuple[Diagnostic, ...]]:
    """The set of one size by its kind, or the faults that prevent it."""
    if quilt.set is SetKind.STRAIGHT:
        return _straight(size, quilt, tilings, pattern)
    if quilt.set is SetKind.ON_POINT:
        return _on_point(size, quilt, tilings, pattern)
    return None, (_not_yet("`set: lattice`", quilt.span, "use `set: straight`"),)


def _not_yet(what: str, span: Span, hint: str) -> Diagnostic:
    return Diagnostic("not-yet", f"{what} cannot be laid out yet", span, hint)


def _on_point(
    size: Size, quilt: Quilt, tilings: Mapping[str, Tiling], pattern: Pattern
) -> tuple[Set | None, tuple[Diagnostic, ...]]:
    units = pattern.units
    side, faults = fit_on_point(quilt, size, tilings, units)
    if quilt.sashing:
        hint = "leave out `sashing`, or use `set: straight`"
        faults = (*faults, _not_yet("sashing on point", quilt.sashing.span, hint))
    if (
        side is None or faults or quilt.setting_fabric is None
    ):  # none named: told by the source floor
        return None, faults
    diagonal = Length.of(float(side) * math.sqrt(2))
    finished = size.across * diagonal, size.down * diagonal
    corner = _corner(finished, quilt)
    sums = tuple(
        f"set on point, {word}: {count} {TIMES} {say(side, units)} {TIMES} √2"
        f" = {result(whole, units)}"
        for word, count, whole in zip(
            ("across", "down"), (size.across, size.down), finished, strict=True
        )
    )
    parts = triangle_parts(size, quilt.setting_fabric, side, pattern.allowance, corner, units)
    placed = place_on_point(quilt, size, tilings, float(diagonal), corner)
    return Set(finished, placed, parts, sums), ()


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
            ("across", "down"), (grid.columns, grid.rows), finished, strict=True
        )
    )
    return Set(finished, place_blocks(grid, tilings, gap, edge, corner), parts, sums), ()


def _set_sum(
    word: str,
    lengths: tuple[Length, ...],
    gap: Length,
    edge: Length,
    whole: Length,
    units: UnitSystem,
) -> str:
    sashes = [gap] * (len(lengths) - 1) + [edge] * 2
    return f"set, {word}: {adds((*lengths, *sashes), units)} = {result(whole, units)}"


def _corner(top: tuple[Length, Length], quilt: Quilt) -> Point:
    """Where the top left of the set lies in the frame of the finished top: inside its borders."""
    outer = top
    for border in quilt.borders:
        outer = around(outer, border.width)
    return float((outer[0] - top[0]) / 2), float((outer[1] - top[1]) / 2)


def _finish(
    size: Size,
    quilt: Quilt,
    made: Set,
    pattern: Pattern,
    pressed: PressedPattern,
) -> SizedQuilt:
    """The quilt with borders, binding, backing and batting around its set."""
    units, order = pattern.units, [block.id for block in pattern.blocks]
    counts = Counter(placed.block for placed in made.placed)
    bordered = add_borders(
        made.finished,
        quilt.borders,
        pattern.allowance,
        [cloth_width(size, border.fabric) for border in quilt.borders],
        units,
    )
    finished = bordered.outside
    nest, clashes = rim_clashes(size, pressed.pressings)
    bare = _blocks_only(size, {block: counts[block] for block in order if counts[block]})
    binding, backing, batting = quilt.binding, quilt.backing, quilt.batting
    return replace(
        bare,
        finished=finished,
        placed=made.placed,
        parts=(*made.parts, *bordered.parts),
        borders=bordered.plans,
        binding=plan_binding(finished, binding, cloth_width(size, binding.fabric), units)
        if binding
        else None,
        backing=plan_backing(finished, backing, cloth_width(size, backing.fabric), units)
        if backing
        else None,
        batting=layer_size(finished, batting.extra) if batting else None,
        batting_sums=layer_sums("batting", finished, batting.extra, units) if batting else (),
        joins_nest=nest,
        seam_clashes=clashes,
        sums=made.sums,
    )


def _too_narrow(
    made: SizedQuilt, quilt: Quilt, size: Size, units: UnitSystem
) -> Iterator[Diagnostic]:
    """A fault for a binding or backing that its cloth is too narrow for."""
    wanted = (
        ("binding strips", quilt.binding, made.binding),
        ("a backing", quilt.backing, made.backing),
    )
    for what, asked, plan in wanted:
        if asked and plan is None:
            width = result(cloth_width(size, asked.fabric), units)
            yield Diagnostic(
                "cloth-too-narrow",
                f"{what} cannot be made from fabric `{asked.fabric}`, which is {width} wide:"
                f" the seams would take all of it",
                asked.span,
                f"correct the width of fabric `{asked.fabric}`, or of the strips",
            )


def cloth_width(size: Size, fabric: str) -> Length:
    """The usable width of a fabric; 40 in for a name that the source floor has already faulted."""
    return size.fabrics[fabric].width if fabric in size.fabrics else DEFAULT_WIDTH
