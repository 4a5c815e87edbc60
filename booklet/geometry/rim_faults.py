"""Floor 3: what is said about the rim of a lattice: a middle that it has not, a wish without a rim, slivers."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

from booklet.diagnostic import Diagnostic, Span, warning
from booklet.geometry.placing import LaidPiece
from booklet.geometry.plane import narrowest
from booklet.geometry.words import length_words
from booklet.measure import UnitSystem
from booklet.pattern import Centre, Quilt, Rim, RimPatches, SetKind, Size


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


def without_rim(size: Size, filled: bool) -> Iterator[Diagnostic]:
    """A warning for each wish for a rim that this size has not; `filled` if its rim is filled."""
    quilt = size.quilt
    if quilt is None or filled:
        return
    wish = quilt.rim_wish
    asked = [
        (f"`rim: {quilt.rim.value}`", wish.fill_span if quilt.rim is Rim.FILL else None),
        ("`rim patches`", wish.patches_span),
        ("`centre`", wish.centre_span),
    ]
    if quilt.set is not SetKind.LATTICE:
        what = f"`set: {quilt.set.value}` has none"
        hint = "take it out, or set the blocks in a `lattice`"
        yield from _no_rim(size, asked, what, hint)
    elif quilt.rim is not Rim.FILL:
        what = "here the ragged rim is trimmed off"
        yield from _no_rim(size, asked[1:], what, "write `rim: fill`, or take it out")
    else:
        what = "here the blocks fill their rectangle by themselves"
        hint = "take it out; to cut blocks in halves at the edges, write `centre: gap` or `centre: corner`"
        yield from _no_rim(size, asked[1:2], what, hint)


def _no_rim(
    size: Size, asked: Sequence[tuple[str, Span | None]], what: str, hint: str
) -> Iterator[Diagnostic]:
    for wish, span in asked:
        if span is not None:
            message = f"{wish} is for a lattice with a ragged rim: {what} in size `{size.id}`"
            yield warning("no-rim", message, span, hint)


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
