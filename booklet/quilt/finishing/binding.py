"""Floor 6: binding. The strip around the edge: how long, how many strips, or which bias square."""

from __future__ import annotations

import math
from collections.abc import Iterator

from booklet.kit.diagnostic import Diagnostic, warning
from booklet.kit.measure import ZERO, Length, Rounding, UnitSystem
from booklet.kit.outlines.near import NOISE
from booklet.kit.records import replace
from booklet.kit.trade import BIAS_SEAM_LOSS, BIAS_STEP, BINDING_END, BINDING_OVERLAP, BINDING_STRIP
from booklet.kit.words import Digits, Text, phrase, plural_phrase
from booklet.pattern import Binding, Fold
from booklet.quilt.sized import BindingPlan
from booklet.quilt.sums import TIMES, cuttable, result, say, sum_line

MOST_SQUARES = 20


def binding_length(top: tuple[Length, Length], overlap: Length) -> Length:
    """The length of binding for a finished top (width, height): its perimeter and the overlap."""
    return 2 * top[0] + 2 * top[1] + overlap


def join_loss(strip: Length) -> Length:
    """What a 45-degree join takes of each strip's length: one strip width (derived)."""
    return strip


def bias_length(square: Length, strip: Length, seam_loss: Length = ZERO) -> Length:
    """The continuous bias that a square gives: (side - seam loss) squared over the strip width.

    With `seam_loss` zero it is the area rule, an upper bound; seams of 1/4 in take about 1/2 in
    twice.
    """
    side = square.inches - seam_loss.inches
    return Length(side * side / strip.inches)


def bias_square(
    length: Length, strip: Length, seam_loss: Length = ZERO, step: Length | None = None
) -> Length:
    """The side of the square for `length` of continuous bias: √(length × strip) + seam loss, rounded
    up to a multiple of `step` (1 in unless said), never too small."""
    root = Length.of(math.sqrt(float(length.inches * strip.inches))) + seam_loss
    grid = (step or Length.of(1)).inches
    side = root.rounded(grid, Rounding.UP)
    while bias_length(side, strip, seam_loss) < length:
        side = side + Length(grid)
    return side


def bias_rounds(square: Length, strip: Length) -> int:
    """How many whole strips lie side by side in the slanted piece that a square becomes: it is side / √2
    high (derived)."""
    return int(float(square) / math.sqrt(2) / float(strip) + NOISE)


def bias_by_lines(square: Length, strip: Length, seam_loss: Length) -> Length:
    """The continuous bias that a square really gives: only whole strips, each √2 × (side - seam loss)
    long; what is left beyond the last line is cut off (derived)."""
    round_length = math.sqrt(2) * float(square - seam_loss)
    return Length.of(max(0.0, bias_rounds(square, strip) * round_length))


def bias_square_by_lines(
    length: Length, strip: Length, seam_loss: Length, step: Length | None = None
) -> Length:
    """The side of the square for `length` of continuous bias in whole strips, a multiple of `step` (1 in
    unless said). The area rule, which printed charts follow, may fall a strip short of it."""
    step = step or Length.of(1)
    side = bias_square(length, strip, seam_loss, step)
    while bias_by_lines(side, strip, seam_loss) < length:
        side = side + step
    return side


def plan_binding(
    top: tuple[Length, Length],
    binding: Binding,
    usable: Length,
    units: UnitSystem,
) -> BindingPlan | None:
    """The binding of a finished top; None if the strips are wider than the cloth can join. Strips whose width was written in
    the other units are as wide as they can be measured."""
    binding = replace(binding, width=cuttable(binding.width, units))
    overlap = BINDING_OVERLAP.said_in(units)
    exact = binding_length(top, overlap)
    length = cuttable(exact, units)
    around = sum_line(
        phrase("binding, 4 sides"),
        f"2 {TIMES} {say(top[0], units)} + 2 {TIMES} {say(top[1], units)} + {say(overlap, units)}",
        result(length, units),
        exact != length,
    )
    if binding.bias:
        return _bias(binding, length, usable, around, units)
    loss = join_loss(binding.width)
    if usable <= loss:
        return None
    strips = strips_for_length(length, usable, loss)
    counted = strips_sum(length, usable, loss, strips, units)
    return BindingPlan(
        strip=binding.width,
        length=length,
        strips=strips,
        fabric=binding.fabric,
        bias=False,
        fold=binding.fold,
        square=None,
        sums=(around, counted),
    )


def strips_sum(
    length: Length, usable: Length, loss: Length, strips: int, units: UnitSystem
) -> Text:
    """How many strips, each `usable` long, make up a binding, and what they come to once they are joined."""
    if strips == 1:
        return phrase(
            "binding strips: {length} fits in {usable}, 1 strip",
            length=Digits(say(length, units)),
            usable=result(usable, units),
        )
    joins = strips - 1
    return phrase(
        "binding strips: {cloth} − {joins} for the joins = {covers}, enough for {length}",
        cloth=Digits(f"{strips} {TIMES} {say(usable, units)}"),
        joins=Digits(f"{joins} {TIMES} {say(loss, units)}"),
        covers=result(strips * usable - joins * loss, units),
        length=result(length, units),
    )


def last_strip(binding: BindingPlan, usable: Length, units: UnitSystem) -> Length:
    """How much of the last strip of a straight binding is needed, from strips `usable` long: what the others, less a join to
    each, leave of its length; the whole of it where a shorter piece would be left than sewers like to keep."""
    others = (binding.strips - 1) * (usable - join_loss(binding.strip))
    end = cuttable(binding.length - others, units)
    return end if usable - end >= BINDING_END else usable


def last_strip_sum(binding: BindingPlan, usable: Length, units: UnitSystem) -> tuple[Text, ...]:
    """How much of the last strip is needed, where it is joined to others and less than the whole of it."""
    end = last_strip(binding, usable, units)
    if end >= usable or binding.strips < 2:
        return ()
    terms = phrase(
        "{length} − {n} × ({width} − {loss} for the join)",
        length=Digits(say(binding.length, units)),
        n=binding.strips - 1,
        width=Digits(say(usable, units)),
        loss=Digits(say(join_loss(binding.strip), units)),
    )
    return (sum_line(phrase("binding, of the last strip"), terms, result(end, units)),)


def narrow_binding(
    binding: Binding | None, allowance: Length, units: UnitSystem
) -> Iterator[Diagnostic]:
    """A warning for strips that do not reach round the edge of the quilt to the seam on its back."""
    if binding is None or binding.width >= binding.least(allowance):
        return
    least = binding.least(allowance)
    fold = "folded in half" if binding.fold is Fold.DOUBLE else "single"
    single = replace(binding, fold=Fold.SINGLE)
    may_lie_single = binding.fold is Fold.DOUBLE and binding.width >= single.least(allowance)
    yield warning(
        "narrow-binding",
        f"binding strips of {result(binding.width, units)}, {fold} and sewn on with {result(allowance, units)}, do not"
        f" reach over the edge to their seam on the back: that takes {result(least, units)} and a little more for the turn",
        binding.span,
        "write `fold: single`, or make the strips wider"
        if may_lie_single
        else f"make the strips wider, as `width: {result(BINDING_STRIP.said_in(units), units)}`"
        if BINDING_STRIP.said_in(units) > least
        else "make the strips wider",
    )


def _bias(
    binding: Binding, length: Length, usable: Length, around: Text, units: UnitSystem
) -> BindingPlan | None:
    """Continuous bias binding: one square, or as many equal ones as the cloth is too narrow for."""
    loss = BIAS_SEAM_LOSS.said_in(units)
    for squares in range(1, MOST_SQUARES + 1):
        share = length / squares + (binding.width if squares > 1 else ZERO)
        square = bias_square_by_lines(share, binding.width, loss, BIAS_STEP.said_in(units))
        if square <= usable:
            break
    else:
        return None
    words = plural_phrase(
        "a square of {side}", "{n} squares of {side}", squares, side=result(square, units)
    )
    rounds = bias_rounds(square, binding.width)
    root = plural_phrase(
        "{side} ÷ √2 ÷ {strip}, rounded down: {n} strip; {n} × √2 × ({side} − {loss} for the seams) gives "
        "the {length} needed",
        "{side} ÷ √2 ÷ {strip}, rounded down: {n} strips; {n} × √2 × ({side} − {loss} for the seams) gives "
        "the {length} needed",
        rounds,
        side=Digits(say(square, units)),
        strip=Digits(say(binding.width, units)),
        loss=Digits(say(loss, units)),
        length=Digits(say(share, units)),
    )
    made = phrase("continuous bias from {squares}: {sum}", squares=words, sum=root)
    sums = (around, made)
    return BindingPlan(
        strip=binding.width,
        length=length,
        strips=squares,
        fabric=binding.fabric,
        bias=True,
        fold=binding.fold,
        square=square,
        sums=sums,
    )


def strips_for_length(length: Length, usable: Length, loss: Length = ZERO) -> int:
    """How many strips `usable` long make one of `length`: ceil((length - loss) / (usable - loss)).

    `loss` is what each join takes, of which there is one fewer than strips. ValueError if nothing would be left
    of a strip.
    """
    useful = usable - loss
    if useful.inches <= 0:
        raise ValueError("a strip is no longer than what its join takes")
    return max(1, math.ceil((length - loss).inches / useful.inches))
