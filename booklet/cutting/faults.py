"""Floor 7: what can be wrong with cutting, each as a diagnostic."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.crafts.rotary.cuts import on_grain
from booklet.crafts.rotary.sums import say, unit
from booklet.cutting.cloth.precuts import Stock
from booklet.cutting.demand import Want, relative_grain, rims
from booklet.kit.diagnostic import Diagnostic, Span, warning
from booklet.kit.measure import Length, UnitSystem
from booklet.kit.outlines.alike import symmetric_turns
from booklet.kit.outlines.polygon import slants
from booklet.kit.trade import WIDEST_EXTRA
from booklet.pattern import Direction, Fabric, Size
from booklet.quilt.finishing.backing import NearlyEnough, nearly_enough
from booklet.quilt.sized import BackingPlan, Part, SizedQuilt
from booklet.quilt.sums import result


def too_wide(
    what: str,
    needs: Length,
    fabric: Fabric,
    stock: Stock | None,
    units: UnitSystem,
    span: Span,
    high: Length | None = None,
) -> Diagnostic:
    """Something is wider than the cloth it is cut from; it is so `high`, and would fit if turned where that is less."""
    width = stock.across if stock else fabric.width
    cloth = f"a {stock.one} of `{fabric.id}`" if stock else f"fabric `{fabric.id}`"
    upright = fabric.direction is not Direction.ANY and high is not None and high <= width
    hint = (
        "use a fabric that may be turned for it, or one that is wide enough"
        if upright
        else "make it from several pieces, or cut it from yardage (`kind: yardage`)"
        if stock
        else "make it from several pieces, or give the fabric a larger `width`"
    )
    return Diagnostic(
        code="wider-than-cloth",
        message=f"{what} needs `{say(needs.inches, units)} {unit(units)}` of cloth, but {cloth} is"
        f" `{say(width.inches, units)} {unit(units)}` wide",
        span=span,
        hint=hint,
    )


def too_high(
    what: str, needs: Length, fabric: Fabric, stock: Stock, units: UnitSystem, span: Span
) -> Diagnostic:
    """A strip is higher than the piece of stock it is cut from."""
    return Diagnostic(
        code="wider-than-cloth",
        message=f"{what} needs a strip of `{say(needs.inches, units)} {unit(units)}`, but a {stock.one} of"
        f" `{fabric.id}` is `{say(stock.along.inches, units)} {unit(units)}` high",
        span=span,
        hint="make it narrower, or cut it from yardage (`kind: yardage`)",
    )


def too_narrow_to_join(
    what: str, fabric: Fabric, usable: Length, units: UnitSystem, span: Span
) -> Diagnostic:
    """A long part cannot be joined from strips of its cloth, since the seams would take most of them."""
    return Diagnostic(
        code="cloth-too-narrow",
        message=f"{what} cannot be joined from fabric `{fabric.id}`, which is"
        f" {say(usable.inches, units)} {unit(units)} wide: the seams would take most of it",
        span=span,
        hint=f"correct the width of fabric `{fabric.id}`",
    )


def narrower_back(quilt: SizedQuilt, back: BackingPlan, units: UnitSystem) -> NearlyEnough | None:
    """The back that stands out a little less than that which is made, and takes a width less; None where there is none, or
    where so much was asked for that this is told by itself."""
    wish = quilt.size.quilt.backing if quilt.size.quilt is not None else None
    if wish is None or quilt.finished is None or wish.extra > WIDEST_EXTRA.said_in(units):
        return None
    cloth = quilt.size.fabrics[back.fabric]
    upright = cloth.direction is not Direction.ANY
    return nearly_enough(quilt.finished, wish, cloth.usable, units, back, upright)


def hardly_used_width(
    size: Size, back: BackingPlan, near: NearlyEnough, bought: tuple[str, str], units: UnitSystem
) -> Iterator[Diagnostic]:
    """A warning for a back that takes a width more of its cloth for very little of it: what is `bought` with it in all, and
    with one that is near enough."""
    wish = size.quilt.backing if size.quilt is not None else None
    assert wish is not None  # or there were no back
    extra = result(near.extra, units)
    yield warning(
        "hardly-used-width",
        f"the back of size `{size.id}` takes {back.widths} widths of `{back.fabric}`,"
        f" of which {bought[0]} in all must be bought; if it stood out by {extra} on either side, not"
        f" {result(wish.extra, units)}, {near.widths} would do, and {bought[1]}",
        wish.span,
        f"write `extra: {extra}` for this size, or leave it if the cloth is to be had",
    )


def grain_conflicts(want: Want) -> Iterator[Diagnostic]:
    """A grain was asked for that a print with an up cannot give: upright, it runs up or across."""
    if want.laid is None or not want.wished:
        return
    for tiling, piece in want.members:
        if not on_grain(piece.grain, 0.0):
            yield Diagnostic(
                code="grain-conflict",
                message=f"piece `{piece.id}` of block `{tiling.block}` asks for the grain at"
                f" `{piece.grain:g}` degrees, but `{want.fabric.id}` is a {want.fabric.direction.value}"
                " print whose threads run up and across the block",
                span=piece.span,
                hint="leave out `grain`, turn the piece, or use a fabric that may be turned",
            )
            return


def bias_on_rim(want: Want, grain: float) -> Iterator[Diagnostic]:
    """A side on the block's rim is cut on the bias although the piece could be cut with it straight."""
    if want.edge is not None or want.rough is not None:
        return  # what is laid on the block is held by its ground, and what is sewn on paper by that
    turns = symmetric_turns(want.patch.outline.corners)
    for tiling, piece in want.members:
        sides = list(rims(tiling, piece))
        if not sides or not all(on_grain(side, sides[0]) for side in sides):
            continue
        seen = relative_grain(piece, sides[0])
        if any(on_grain(seen + turn, grain) for turn in turns):
            continue
        yield warning(
            "bias-on-rim",
            f"piece `{piece.id}` (patch `{want.patch.letter}`) has a bias edge on the rim of block"
            f" `{tiling.block}`",
            piece.span,
            "give its shape a `grain` along the side that lies on the rim",
        )
        return


def motif_without_repeat(want: Want) -> Iterator[Diagnostic]:
    """A patch is fussy cut from a print whose repeat is not known."""
    if want.patch.motif and want.fabric.repeat is None:
        yield warning(
            "motif-without-repeat",
            f"patch `{want.patch.letter}` is fussy cut from `{want.fabric.id}`, which has no `repeat`:"
            " the amount of cloth is only a guess",
            want.fabric.span,
            "measure the print and add `repeat: {across: …, along: …}` to the fabric",
        )


def turned_prints(quilt: SizedQuilt, wants: tuple[Want, ...]) -> Iterator[Diagnostic]:
    """Blocks of a print with an up that are set turned, and parts of it that slant in a set on point; not patches of which
    the author says by their `grain` how they lie there."""
    turned = {placed.block for placed in quilt.placed if placed.turn % 360}
    sideways = {placed.block for placed in quilt.placed if placed.turn % 180}
    slanting = any(placed.turn % 90 for placed in quilt.placed)
    told: set[tuple[str, str]] = set()
    for want in wants:
        direction = want.fabric.direction
        if direction is Direction.ANY or (slanting and want.wished):
            continue
        for block in want.per_block:
            if block not in (turned if direction is Direction.ONE_WAY else sideways):
                continue
            if (block, want.fabric.id) in told:
                continue
            told.add((block, want.fabric.id))
            span = quilt.size.quilt.span if quilt.size.quilt else want.span
            yield _set_turned(block, want.fabric, slanting, span)
    for part in quilt.parts:
        fabric = quilt.size.fabrics.get(part.fabric)
        if fabric is None or fabric.direction is Direction.ANY or quilt.size.quilt is None:
            continue
        if any(slants(place) for place in part.places):
            yield warning(
                "one-way-turned",
                f"the {fabric.direction.value} print `{fabric.id}` does not stand upright in"
                f" `{part.name}`, which slants in a set on point",
                quilt.size.quilt.span,
                "use a fabric that may be turned for this part",
            )


def _set_turned(block: str, fabric: Fabric, slanting: bool, span: Span) -> Diagnostic:
    """A block whose print with an up does not stand upright, for it is set turned, or on point as all are."""
    print_ = f"its {fabric.direction.value} print `{fabric.id}`"
    message = f"block `{block}` is set turned, so {print_} does not stand upright there"
    hint = "set the block without `turn`, or use a fabric that may be turned"
    if slanting:
        message = f"in a set on point block `{block}` stands on a corner, so {print_} slants there"
        hint = "use a fabric that may be turned, or `set: straight`; if it may slant, give its patches a `grain`"
    return warning("one-way-turned", message, span, hint)


def lies_sideways(
    part: Part, fabric: Fabric, stock: Stock | None, lengthwise: bool, span: Span
) -> Diagnostic:
    """A print with an up lies on its side in a long part, since that is cut across the cloth or along it."""
    cut = "along the selvedge" if lengthwise else "across the cloth"
    other = "write `cut: auto` for the border"
    if stock is not None:
        other = "buy it as yardage (`kind: yardage`)"
    return warning(
        "one-way-turned",
        f"the {fabric.direction.value} print `{fabric.id}` lies on its side in `{part.name}`, which is"
        f" cut {cut}",
        span,
        f"{other}, or use a fabric that may be turned for this part",
    )
