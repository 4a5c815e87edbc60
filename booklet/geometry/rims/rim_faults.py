"""Floor 3: what is said about the rim of a lattice: a middle that it has not, a wish without a rim, slivers."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

from booklet.geometry.overlay import narrowest
from booklet.geometry.placing.placing import LaidPiece
from booklet.geometry.words import length_words
from booklet.kit.diagnostic import Diagnostic, Span, warning
from booklet.kit.measure import UnitSystem
from booklet.pattern import Block, Centre, Quilt, Rim, RimPatches, SetKind, Size

Wishes = Sequence[
    tuple[str, Span | None]
]  # what is asked for, and where; not at all where that is None


def no_such_centre(size: Size, centre: Centre, there: Collection[Centre]) -> Diagnostic:
    """The lattice has no point of the kind that is wished for its middle."""
    assert size.quilt is not None
    why = {
        Centre.CORNER: "there is no point where the corners of three blocks meet",
        Centre.GAP: "no two blocks lie side by side",
        Centre.BLOCK: "there is no block",
    }[centre]
    others = " or ".join(f"`centre: {one.value}`" for one in Centre if one in there)
    return Diagnostic(
        code="no-such-centre",
        message=f"the lattice of size `{size.id}` has no {centre.value} for its middle: {why}",
        span=size.quilt.rim_wish.centre_span or size.quilt.span,
        hint=f"write {others}, or leave `centre` out",
    )


def laid_on_rim(size: Size, blocks: Sequence[Block]) -> Iterator[Diagnostic]:
    """An error for each block with applied shapes, which a filled rim would cut through."""
    quilt = size.quilt
    if quilt is None or quilt.set is not SetKind.LATTICE or quilt.rim is not Rim.FILL:
        return
    for block in blocks:
        if block.applied and block.part is None and size.uses(block.id):
            yield Diagnostic(
                code="not-yet",
                message=f"block `{block.id}` has applied shapes, which cannot be cut at a filled rim yet",
                span=block.span,
                hint="write `rim: trim` for the quilt, or give the block no `applied`",
            )


def without_rim(size: Size) -> tuple[Diagnostic, ...]:
    """A warning for each wish for the rim of a size that has none to fill: no lattice, or one that is trimmed."""
    quilt = size.quilt
    if quilt is None or (quilt.set is SetKind.LATTICE and quilt.rim is Rim.FILL):
        return ()
    wish = quilt.rim_wish
    asked: Wishes = (("`rim patches`", wish.patches_span), ("`centre`", wish.centre_span))
    if quilt.set is SetKind.LATTICE:
        what = "here the ragged rim is trimmed off"
        return _no_rim(size, asked, what, "write `rim: fill`, or take it out")
    what = f"`set: {quilt.set.value}` has none"
    asked = (("`rim: fill`", wish.fill_span), *asked)
    return _no_rim(size, asked, what, "take it out, or set the blocks in a `lattice`")


def filled_by_itself(size: Size) -> tuple[Diagnostic, ...]:
    """A warning where patches are to be cut at a rim whose blocks fill their rectangle without it."""
    assert size.quilt is not None
    return _no_rim(
        size,
        (("`rim patches`", size.quilt.rim_wish.patches_span),),
        "here the blocks fill their rectangle by themselves",
        "take it out; to cut blocks in halves at the edges, write `centre: gap` or `centre: corner`",
    )


def _no_rim(size: Size, asked: Wishes, what: str, hint: str) -> tuple[Diagnostic, ...]:
    message = "{wish} is for a lattice with a ragged rim: {what} in size `{size}`"
    return tuple(
        warning("no-rim", message.format(wish=wish, what=what, size=size.id), span, hint)
        for wish, span in asked
        if span is not None
    )


def slivers(
    quilt: Quilt, size: str, pieces: Sequence[LaidPiece], least: float, units: UnitSystem
) -> Iterator[Diagnostic]:
    """A warning where patches that are cut to size at the rim are narrower than their allowance, `least`
    inches."""
    if quilt.rim_wish.patches is not RimPatches.CUT:
        return
    found = sorted((narrowest(piece.outline.points), piece.id) for piece in pieces)
    thin = [width for width, _ in found if width < least]
    if thin:
        width, piece = found[0]
        message = (
            f"cut along the edge of size `{size}`, patch `{piece}` is a sliver {length_words(width, units)} wide,"
            f" narrower than its allowance ({len(thin)} such kinds)"
        )
        hint = "write another `centre`, or `rim patches: whole`"
        span = quilt.rim_wish.centre_span or quilt.rim_wish.patches_span or quilt.span
        yield warning("sliver-at-rim", message, span, hint)
