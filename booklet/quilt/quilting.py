"""Floor 6, the stage: from pressed blocks to the quilt of every size, with every part beside them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping

from booklet.geometry.tiling import Tiling
from booklet.kit.diagnostic import Diagnostic, Outcome, told_once
from booklet.kit.measure import Length, UnitSystem
from booklet.kit.records import grown, replace
from booklet.kit.remembered.memory import Ask, hands_words_through, plainly
from booklet.kit.trade import CLOTH_WIDTH, ENVELOPE_HEM, ENVELOPE_LAP
from booklet.pattern import Backing, Binding, Direction, Pattern, Quilt, SetKind, Size
from booklet.pattern.reads import plain, written
from booklet.pressing import rim_clashes
from booklet.pressing.pressing import PressedPattern
from booklet.quilt.beds.bed_fit import Counts, Laid, fit_bed
from booklet.quilt.finishing.backing import cut_size, layer_sums, plan_backing
from booklet.quilt.finishing.binding import narrow_binding, plan_binding
from booklet.quilt.finishing.extras import envelope_part, sleeve_part
from booklet.quilt.finishing.unlikely import many_joins, wide_finish, wide_sleeve
from booklet.quilt.sized import BackingPlan, SetPattern, SizedQuilt
from booklet.quilt.sums import result
from booklet.quilt.top.borders import add_borders
from booklet.quilt.top.lattice import lattice_extent
from booklet.quilt.top.sets import Set, set_blocks

Diagnostics = tuple[Diagnostic, ...]


def set_quilts(pressed: PressedPattern, ask: Ask = plainly) -> Outcome[SetPattern]:
    """The quilt of every size of the pattern, with the faults of blocks that do not fill their set.

    A fault that recurs in several sizes is told once, for the first of them.
    """
    quilts: dict[str, SizedQuilt] = {}
    faults: list[Diagnostic] = []
    pattern = written(pressed.pattern)
    for size in pressed.pattern.sizes:
        tilings = {tiling.block: tiling for tiling in pressed.of_size(size)}
        own = {key: made for key, made in pressed.pressings.items() if key[0] == size.id}
        made, found, of_whole = ask(set_quilt, plain(size), pattern, tilings)
        nest, clashes = rim_clashes(size, own) if made.placed else (True, 0)
        quilts[size.id] = replace(made, size=size, joins_nest=nest, seam_clashes=clashes)
        # where a border is left out for a fault the top is another: its measures tell nothing of the one that is meant
        faults += (*found, *of_whole) if pressed.pattern.complete else found
    return Outcome(
        grown(SetPattern, pressed, quilts=quilts), told_once(faults, lambda d: (d.code, d.span))
    )


@hands_words_through
def set_quilt(
    size: Size,
    pattern: Pattern,
    tilings: Mapping[str, Tiling],
) -> tuple[SizedQuilt, Diagnostics, Diagnostics]:
    """The quilt of one size, its faults, and those that follow from the measures of the whole top; without a quilt, or
    with faults, just block counts."""
    if size.in_class is not None and size.in_class.blocks:
        return SizedQuilt(size=size, blocks=dict(size.in_class.blocks)), (), ()
    if size.quilt is None:
        return SizedQuilt(size=size, blocks=dict.fromkeys(tilings, size.count)), (), ()
    made, faults = set_blocks(size, size.quilt, tilings, pattern)
    if made is None:
        return SizedQuilt(size=size, blocks=dict.fromkeys(tilings, size.count)), faults, ()
    whole = _finish(size, size.quilt, made, pattern)
    finish = (
        *_too_narrow(whole, size.quilt, size, pattern.units),
        *narrow_binding(size.quilt.binding, pattern.allowance, pattern.units),
        *wide_finish(size.quilt, pattern.units),
        *many_joins(whole, size.quilt, size, pattern.units),
    )
    block = tilings[made.placed[0].block]
    sides = Length.of(block.width), Length.of(block.height)
    laid = _laid(size, size.quilt, tilings, pattern)
    bed, small = fit_bed(size, whole.finished or sides, sides, pattern.units, laid)
    of_whole = (
        *wide_sleeve(size.quilt.sleeve, whole.finished, pattern.units),
        *_lies_double(whole, size, pattern.units),
        *small,
    )
    return replace(whole, bed=bed), (*faults, *finish), of_whole


def _laid(size: Size, quilt: Quilt, tilings: Mapping[str, Tiling], pattern: Pattern) -> Laid | None:
    """What tells how large a lattice is, with its borders, in other numbers of blocks; None of another set."""
    if quilt.set is not SetKind.LATTICE:
        return None

    def laid(counts: Counts) -> tuple[Length, Length] | None:
        top = lattice_extent(counts, size, quilt, tilings, pattern.units)
        return top and add_borders(top, quilt.borders, pattern.allowance, pattern.units).outside

    return laid


def _finish(size: Size, quilt: Quilt, made: Set, pattern: Pattern) -> SizedQuilt:
    """The quilt with borders, binding, backing and batting around its set."""
    units, order = pattern.units, [block.id for block in pattern.blocks]
    counts = Counter(placed.block for placed in made.placed)
    bordered = add_borders(made.finished, quilt.borders, pattern.allowance, units)
    finished = bordered.outside
    binding, batting = quilt.binding, quilt.batting
    backs = (
        backs_of(size, finished, quilt.backing, units, pattern.allowance) if quilt.backing else ()
    )
    return SizedQuilt(
        size=size,
        blocks={block: counts[block] for block in order if counts[block]},
        finished=finished,
        placed=made.placed,
        parts=(
            *made.parts,
            *bordered.parts,
            *((sleeve_part(finished[0], quilt.sleeve, units),) if quilt.sleeve else ()),
            *(
                (envelope_part(finished, quilt.envelope, pattern.allowance, units),)
                if quilt.envelope
                else ()
            ),
        ),
        borders=bordered.plans,
        binding=plan_binding(finished, binding, _binding_room(size, binding), units)
        if binding
        else None,
        backing=backs[0] if backs else None,
        other_backs=backs[1:],
        batting=cut_size(finished, batting.extra, units) if batting else None,
        batting_sums=layer_sums("batting", finished, batting.extra, units) if batting else (),
        sums=made.sums,
        kept=made.kept,
    )


def backs_of(
    size: Size,
    finished: tuple[Length, Length],
    backing: Backing,
    units: UnitSystem,
    allowance: Length,
) -> tuple[BackingPlan, ...]:
    """The ways to make the back of a finished top; a print with a top keeps it up. Of cloth that is sold ready cut those
    that lie on its pieces; where none does, the first, of which cutting tells so."""
    cloth = size.fabrics.get(backing.fabric)
    upright = cloth is not None and cloth.direction is not Direction.ANY
    usable = cloth_width(size, backing.fabric)
    ways = plan_backing(finished, backing, usable, units, upright, allowance, size.kits)
    if cloth is None or cloth.piece is None:
        return ways
    along = cloth.piece[1]
    return tuple(way for way in ways if way.highest <= along) or ways[:1]


def _lies_double(made: SizedQuilt, size: Size, units: UnitSystem) -> Iterator[Diagnostic]:
    """A fault for an envelope back whose halves would overlap by as much as the front is high, or more, or by less than
    the hem of one is wide."""
    wish = size.quilt.envelope if size.quilt is not None else None
    if wish is None or made.finished is None:
        return
    told = (
        f"the halves of the envelope back of size `{size.id}` overlap by {result(wish.lap, units)}"
    )
    high, hem = made.finished[1], ENVELOPE_HEM.said_in(units) / 2
    if wish.lap >= high:
        hint = "write a smaller `lap`, a quarter of the height or so"
        told = f"{told}; its front is {result(high, units)} high"
    elif wish.lap < hem:
        hint = f"write a larger `lap`, such as `{result(ENVELOPE_LAP.said_in(units), units)}`"
        told = f"{told}, less than a hem of {result(hem, units)}: the back would gape"
    else:
        return
    yield Diagnostic(code="envelope-lap", message=told, span=wish.span, hint=hint)


def _binding_room(size: Size, binding: Binding) -> Length:
    """How long a strip of the binding may be, or the side of a square for bias, of one piece of its cloth."""
    cloth = size.fabrics.get(binding.fabric)
    if binding.bias and cloth is not None and cloth.piece is not None:
        return min(cloth.piece)
    return cloth_width(size, binding.fabric)


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
                code="cloth-too-narrow",
                message=f"{what} cannot be made from fabric `{asked.fabric}`, which is {width} wide:"
                f" the seams would take all of it",
                span=asked.span,
                hint=f"correct the width of fabric `{asked.fabric}`, or of the strips",
            )


def cloth_width(size: Size, fabric: str) -> Length:
    """The usable width of a fabric; 40 in for a name that the source floor has already faulted."""
    return size.fabrics[fabric].usable if fabric in size.fabrics else CLOTH_WIDTH.inch
