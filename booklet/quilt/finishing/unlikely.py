"""Floor 6: borders, back, batting, binding and sleeve larger than any quilt is finished with: most often a forgotten unit."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.kit.diagnostic import Diagnostic, warning
from booklet.kit.measure import Length, Rounding, UnitSystem
from booklet.kit.trade import (
    BINDING_STRIP,
    LAYER_EXTRA,
    LEAST_GAINED,
    NARROWEST_BACK,
    SLEEVE_WIDTH,
    WIDEST_BINDING,
    WIDEST_BORDER,
    WIDEST_EXTRA,
)
from booklet.pattern import Quilt, Size, Sleeve
from booklet.quilt.sized import SizedQuilt
from booklet.quilt.sums import cutting_step, result

CODE = "wide-finish"
MANY = "many-joins"


def wide_finish(quilt: Quilt, units: UnitSystem) -> Iterator[Diagnostic]:
    """Warnings for borders, layers and binding that are too wide for any top."""
    for what, layer in (("back", quilt.backing), ("batting", quilt.batting)):
        if layer is not None and layer.extra > WIDEST_EXTRA.said_in(units):
            yield warning(
                CODE,
                f"the {what} stands out by {result(layer.extra, units)} on every side of the top, more than any that"
                " quilts are quilted with",
                layer.span,
                f"write a smaller one with its unit, such as `extra: {result(LAYER_EXTRA.said_in(units), units)}`",
            )
    for number, border in enumerate(quilt.borders, 1):
        wide = max(border.sides, border.ends)
        if wide > WIDEST_BORDER.said_in(units):
            yield warning(
                CODE,
                f"border {number} is {result(wide, units)} wide, more than any that quilts are framed with",
                border.span,
                "write a smaller width, with its unit",
            )
    binding = quilt.binding
    if binding is not None and binding.width > WIDEST_BINDING.said_in(units):
        yield warning(
            CODE,
            f"binding strips of {result(binding.width, units)} are wider than any that quilts are bound with",
            binding.span,
            f"write a smaller one with its unit, such as `width: {result(BINDING_STRIP.said_in(units), units)}`",
        )


def wide_sleeve(
    sleeve: Sleeve | None, finished: tuple[Length, Length] | None, units: UnitSystem
) -> Iterator[Diagnostic]:
    """A warning for a sleeve that is too wide for a top of this finished size, if it has one."""
    height = finished[1] if finished else None
    if sleeve is not None and height is not None and 2 * sleeve.width > height:
        yield warning(
            CODE,
            f"a sleeve of {result(sleeve.width, units)} covers more than half of a quilt {result(height, units)} high",
            sleeve.span,
            f"write `width: {result(_lower_sleeve(height, units), units)}`",
        )


def _lower_sleeve(height: Length, units: UnitSystem) -> Length:
    """The usual sleeve, or on a small quilt a third of its height, on the ruler."""
    third = Length(height.inches / 3).rounded(cutting_step(units).inches, Rounding.DOWN)
    return min(SLEEVE_WIDTH.said_in(units), third)


def many_joins(
    made: SizedQuilt, quilt: Quilt, size: Size, units: UnitSystem
) -> Iterator[Diagnostic]:
    """Warnings for a straight binding of which each strip gives hardly any length, and for a back of cloth that is narrower
    than any: most often precuts that were meant for patches, or a slip in a width."""
    binding, back = made.binding, made.backing
    if quilt.binding and binding and binding.fabric in size.fabrics and not binding.bias:
        width = size.fabrics[binding.fabric].usable
        if binding.strips > 1 and width - binding.strip < LEAST_GAINED.said_in(units):
            yield warning(
                MANY,
                f"the binding of size `{size.id}` is joined from {binding.strips} strips, each {result(width, units)} long",
                quilt.binding.span,
                "give it a fabric that is sold by the length, or correct the `width` of this one",
            )
    if quilt.backing and back and back.widths > 1 and back.fabric in size.fabrics:
        width = size.fabrics[back.fabric].usable
        if width < NARROWEST_BACK.said_in(units):
            yield warning(
                MANY,
                f"the back of size `{size.id}` is joined from {back.widths} widths of `{back.fabric}`, which is "
                f"{result(width, units)} wide",
                quilt.backing.span,
                f"correct the `width` of fabric `{back.fabric}`, or give the back another",
            )
