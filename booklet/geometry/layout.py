"""Floor 3: lay_out, the stage: a pattern to the tilings of its blocks in every size.

For every size and block: place the pieces, node their outlines, test that they cover the block exactly
once, find seams and matching points; then letter the patches of all blocks of the size together.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from types import MappingProxyType

from booklet.geometry.patches.applied import kind_of, lay_applied
from booklet.geometry.patches.congruence import BlockPieces, Lettered, letter_pieces
from booklet.geometry.patches.seams import curve_points, find_junctions, find_seams, with_lines
from booklet.geometry.placing.placing import LaidPiece, place_pieces
from booklet.geometry.rims.rim_stage import fill_rims
from booklet.geometry.soundness.sites import Fault, LaidApplied, Site, Sound
from booklet.geometry.soundness.soundness import (
    crowded_faults,
    find_faults,
    no_pieces,
    shape_faults,
)
from booklet.geometry.soundness.subdivision import Subdivision, subdivide
from booklet.geometry.tiling import (
    AppliedShape,
    BlockKey,
    LaidOut,
    Outline,
    Patch,
    PlacedPiece,
    Side,
    Tiling,
)
from booklet.geometry.vectors import backwards, outline_of
from booklet.kit.diagnostic import Diagnostic, Outcome
from booklet.kit.measure import Length, UnitSystem
from booklet.kit.outlines.plane import Point, angle_up, box_of, is_straight
from booklet.kit.outlines.polygon import area_of
from booklet.kit.records import replace
from booklet.kit.remembered.memory import Ask, plainly
from booklet.kit.words import phrase
from booklet.pattern import Block, Pattern, Size
from booklet.pattern.reads import drawn


def lay_out(pattern: Pattern, ask: Ask = plainly) -> Outcome[LaidOut]:
    """The tilings of all sound blocks in all sizes, and the faults of the others.

    A fault that a block has in several sizes is told once, for the first of them.
    """
    faults: dict[tuple[object, ...], Diagnostic] = {}
    sound_in: dict[str, tuple[Sound, ...]] = {}
    for size in pattern.sizes:
        sound = []
        for block in pattern.blocks:
            made, found = ask(check_block, drawn(block), size.unit, pattern.units)
            for fault in found:
                faults.setdefault(fault.key, fault.diagnostic)
            if made is not None:
                sound.append(made)
        sound_in[size.id] = tuple(sound)
    filled = fill_rims(pattern, sound_in, ask)
    pattern = filled.pattern
    tilings: dict[BlockKey, Tiling] = {}
    for size in pattern.sizes:
        sound = list(filled.sound[size.id])
        ranks = tuple(_ranks(size, pattern.block(made.block)) for made in sound)
        for tiling in ask(lettered, tuple(sound), ranks):
            tilings[size.id, tiling.block] = replace(tiling, size=size.id)
    return Outcome(
        LaidOut(pattern, MappingProxyType(tilings)), _in_order((*faults.values(), *filled.faults))
    )


def _ranks(size: Size, block: Block) -> tuple[int, int]:
    """When the pieces of a block get their letters, and when its applied shapes: those of blocks that a size does not use
    last. Pieces on paper get numbers instead."""
    used = size.uses(block.id)
    return 0 if used and not size.on_foundation(block) else 2, 1 if used else 3


def _in_order(faults: Iterable[Diagnostic]) -> tuple[Diagnostic, ...]:
    """Diagnostics in the order of the source; those of one place as found."""
    return tuple(sorted(faults, key=lambda fault: fault.span))


def check_block(
    block: Block, unit: Length, units: UnitSystem
) -> tuple[Sound | None, tuple[Fault, ...]]:
    """The sound block where its unit is so long, or None with its faults."""
    laid, placing = place_pieces(block, unit, units)
    faults = [Fault(key=(d.code, d.span), diagnostic=d) for d in placing]
    border = border_of(block, unit)
    site = Site(block, unit, units, laid)
    if not laid and not faults:
        return None, (no_pieces(site),)
    crossed = shape_faults(site, border)
    if crossed or not laid or len({piece.id for piece in laid}) != len(laid):
        return None, (*faults, *crossed)
    heap = crowded_faults(site, border)
    if heap:
        return None, (*faults, *heap)
    parts = subdivide([piece.outline for piece in laid], border)
    moved = tuple(
        replace(piece, outline=outline, drawn=None if drawn == outline else drawn)
        for piece, outline, drawn in zip(laid, parts.outlines, parts.drawn, strict=True)
    )
    # a piece that could not be drawn leaves a gap: its own fault is enough
    found = find_faults(replace(site, pieces=moved), parts, told=bool(faults))
    if faults or found:
        return None, (*faults, *found)
    edge = (parts.border or _traced(parts, curve_points(parts.outlines))).points
    applied, amiss = lay_applied(block, unit, units, edge)
    if any(fault.diagnostic.is_error for fault in amiss):
        return None, amiss
    return Sound(block.id, moved, parts, applied), amiss


def lettered(sound: tuple[Sound, ...], ranks: tuple[tuple[int, int], ...]) -> tuple[Tiling, ...]:
    """The tilings of the blocks of a size; its name left out. `ranks` say in which order the pieces of each block get
    their letters, and its applied shapes."""
    rims = [BlockPieces(made.pieces, _rim_stretches(made.parts)) for made in sound]
    layers = [group for made in sound for group in _by_kind(made.applied)]
    after = [
        after for made, (_, after) in zip(sound, ranks, strict=True) for _ in _by_kind(made.applied)
    ]
    found = letter_pieces([*rims, *layers], [*(first for first, _ in ranks), *after])
    named = iter(found[len(sound) :])
    return tuple(
        with_applied(
            tiled(made, *found[n]), made.applied, [next(named) for _ in _by_kind(made.applied)]
        )
        for n, made in enumerate(sound)
    )


def _by_kind(applied: tuple[LaidApplied, ...]) -> list[BlockPieces]:
    """The applied shapes of a block, those together that one template may cut."""
    kinds: dict[object, list[LaidPiece]] = {}
    for shape in applied:
        kinds.setdefault(kind_of(shape.written), []).append(shape.laid)
    return [BlockPieces(tuple(pieces), ((),) * len(pieces), kind) for kind, pieces in kinds.items()]


def with_applied(
    tiling: Tiling, applied: tuple[LaidApplied, ...], lettered: Sequence[Lettered]
) -> Tiling:
    """The tiling with its applied shapes, in the order they are laid."""
    placed = {piece.id: piece for pieces, _ in lettered for piece in pieces}
    written = {shape.laid.id: shape for shape in applied}
    shapes = tuple(
        _named(patch, written[patch.pieces[0]]) for _, patches in lettered for patch in patches
    )
    layers = tuple(
        AppliedShape(
            piece=_handless(placed[shape.laid.id]) if shape.stem_width else placed[shape.laid.id],
            entry=shape.entry,
            allowance=Length.of(shape.stem_width / 2)
            if shape.stem_width
            else shape.written.allowance,
            by=shape.written.by,
            seen=shape.seen,
            covered=shape.covered,
            stem_width=shape.stem_width,
            stem_length=shape.stem_length,
        )
        for shape in applied
    )
    return replace(tiling, applied=layers, shapes=shapes)


def _named(patch: Patch, shape: LaidApplied) -> Patch:
    """The patch of an applied shape by its title; a stem is a strip, which has no hand."""
    if not shape.stem_width:
        return replace(patch, name=shape.written.title or patch.name)
    name = shape.written.title or phrase("stem", context="patch")
    return replace(patch, name=name, reversed_too=False)


def _handless(piece: PlacedPiece) -> PlacedPiece:
    return replace(piece, reversed=False)


def border_of(block: Block, unit: Length) -> Outline | None:
    """The outline the source gives for the block, clockwise, in inches; None if it gives none."""
    if block.outline is None:
        return None
    outline = outline_of([(x.inches(unit), y.inches(unit)) for x, y in block.outline])
    return backwards(outline) if area_of(outline.points) < 0 else outline


def _rim_stretches(parts: Subdivision) -> tuple[tuple[tuple[float, float], ...], ...]:
    """For every piece its straight stretches of rim as (direction below 180, inches)."""
    along = curve_points(parts.outlines)
    found: list[list[tuple[float, float]]] = [[] for _ in parts.rings]
    for start, end in sorted(parts.rim):
        if start not in along and end not in along:
            stretch = (angle_up(start, end) % 180, math.dist(start, end))
            found[parts.owner[start, end]].append(stretch)
    return tuple(tuple(stretches) for stretches in found)


def tiled(made: Sound, placed: tuple[PlacedPiece, ...], patches: tuple[Patch, ...]) -> Tiling:
    """The tiling of a sound block whose pieces have their letters; its size left out."""
    parts = made.parts
    ids = [piece.id for piece in placed]
    along = curve_points(parts.outlines)
    seams = find_seams(ids, parts.rings, parts.owner, along)
    rim_points = frozenset(point for edge in parts.rim for point in edge)
    outline = parts.border or _traced(parts, along)
    left, top, right, bottom = box_of(outline.points)
    junctions = find_junctions(seams, rim_points)
    return Tiling(
        block=made.block,
        size="",
        outline=outline,
        pieces=placed,
        patches=patches,
        seams=with_lines(seams, junctions),
        junctions=junctions,
        width=right - left,
        height=bottom - top,
        area=area_of(outline.points),
        noded=MappingProxyType(dict(zip(ids, parts.rings, strict=True))),
    )


def _traced(parts: Subdivision, along: frozenset[Point]) -> Outline:
    """The outline of the union of the pieces, its points on curves kept as curved sides."""
    loop = parts.rim_loop()
    assert loop is not None  # the block is sound
    count = len(loop)
    corners = [
        i
        for i, at in enumerate(loop)
        if at not in along and not is_straight(loop[i - 1], at, loop[(i + 1) % count])
    ] or [0]
    sides = []
    for n, first in enumerate(corners):
        steps = (corners[(n + 1) % len(corners)] - first) % count or count
        points = [loop[(first + k) % count] for k in range(steps + 1)]
        via = tuple(p for p in points[1:-1] if p in along)
        sides.append(Side(points[0], points[-1], via))
    return Outline(tuple(sides))
