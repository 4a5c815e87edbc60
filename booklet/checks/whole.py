"""Floor 8: checks that need the pattern as a whole."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.cutting.cutting_plan import CutPattern
from booklet.kit.diagnostic import Diagnostic, warning
from booklet.kit.measure import Length, length_text
from booklet.kit.outlines.near import ONE_POINT
from booklet.pattern import By, Pattern, SetKind, Size

UNUSED = "unused-name"


def every_name_is_used(cut: CutPattern) -> Iterator[Diagnostic]:
    """A warning for each patch, block and fabric of the source that nothing uses."""
    pattern = cut.pattern
    if not pattern.complete:
        return  # what was left out for a fault may have used them
    yield from _unused_shapes(pattern)
    yield from _unused_blocks(pattern)
    yield from _unused_fabrics(pattern)
    yield from _unused_setting(pattern)


def _unused_shapes(pattern: Pattern) -> Iterator[Diagnostic]:
    laid = (each.piece for block in pattern.blocks for each in block.applied)
    pieces = (piece for block in pattern.blocks for piece in block.pieces)
    used = {piece.shape.id for piece in (*pieces, *laid)}
    for shape in pattern.shapes:
        if shape.id not in used:
            yield warning(
                UNUSED,
                f"patch `{shape.id}` is in no block",
                shape.span,
                f"use it in a block, or take `{shape.id}` out",
            )


def _unused_blocks(pattern: Pattern) -> Iterator[Diagnostic]:
    quilts = [size.quilt for size in pattern.sizes]
    if not quilts or any(quilt is None for quilt in quilts):
        return  # a size without a quilt makes every block
    used = {cell.block for quilt in quilts if quilt for row in quilt.arrange for cell in row}
    for block in pattern.blocks:
        if block.id not in used and block.part is None:
            yield warning(
                UNUSED,
                f"block `{block.id}` is in no quilt",
                block.span,
                f"name `{block.id}` under `arrange`, or take it out",
            )


def _unused_fabrics(pattern: Pattern) -> Iterator[Diagnostic]:
    pieces = {fabric for block in pattern.blocks for _, fabric in block.all_members()}
    quilts = (size.quilt for size in pattern.sizes if size.quilt)
    used = pieces.union(fabric for quilt in quilts for fabric, _ in quilt.cloths())
    fabrics = {id: fabric for size in pattern.sizes for id, fabric in size.fabrics.items()}
    for id, fabric in fabrics.items():
        if id not in used:
            yield warning(
                UNUSED,
                f"fabric `{id}` is cut for nothing",
                fabric.span,
                f"give it to a piece, a border or the binding, or take `{id}` out",
            )


def _unused_setting(pattern: Pattern) -> Iterator[Diagnostic]:
    """A warning for a fabric of side and corner triangles in a pattern none of whose sizes has them."""
    quilts = [size.quilt for size in pattern.sizes if size.quilt]
    if any(quilt.set is SetKind.ON_POINT for quilt in quilts):
        return
    named = {quilt.setting_fabric: quilt for quilt in reversed(quilts) if quilt.setting_fabric}
    for fabric, quilt in named.items():
        yield warning(
            UNUSED,
            f"`setting fabric` is `{fabric}`, but no size is set on point and has side and corner triangles",
            quilt.span,
            "write `set: on point`, or take `setting fabric` out",
        )


def every_seam_fits_a_thread(cut: CutPattern) -> Iterator[Diagnostic]:
    """A warning for each block with a hand seam longer than the thread it is sewn with."""
    for (size_id, block_id), assembly in cut.assemblies.items():
        size = cut.pattern.size(size_id)
        lengths = {seam.id: seam.length for seam in assembly.tiling.seams}
        hand = [lengths[s.seam] for s in assembly.sewn.values() if s.by is By.HAND]
        if hand and max(hand) > float(size.sewing.thread) + ONE_POINT:
            yield _short_thread(size, block_id, Length.of(max(hand)), cut.pattern)


def _short_thread(size: Size, block: str, longest: Length, pattern: Pattern) -> Diagnostic:
    unit = "in" if pattern.units == "inch" else "cm"
    seam, thread = (length_text(x, pattern.units) for x in (longest, size.sewing.thread))
    return warning(
        "short-thread",
        f"a hand seam of block `{block}` is {seam} {unit} long in size `{size.id}`, "
        f"longer than the thread of {thread} {unit}",
        size.sewing.span,
        "raise `thread` under `sewing`, or sew this seam by machine",
    )
