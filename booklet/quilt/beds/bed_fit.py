"""Floor 6: the bed a size is made for: how the quilt lies on it, and a warning if it is too small."""

from __future__ import annotations

import math
from collections.abc import Callable

from booklet.kit.diagnostic import Diagnostic, warning
from booklet.kit.measure import ZERO, Length, UnitSystem
from booklet.kit.words import Digits, Text, phrase
from booklet.pattern import Bed, Quilt, SetKind, Size
from booklet.quilt.beds.bed import (
    BedProposal,
    Size as Extent,
    fit,
    is_nearer,
    propose,
    propose_two_widths,
    quilt_for,
)
from booklet.quilt.beds.bed_words import BORDER_STEP, WIDEST_PROPOSED, BedError, mattress_of
from booklet.quilt.sized import BedPlan
from booklet.quilt.sums import MINUS, TIMES, result, say, sum_line

Counts = tuple[int, int]  # blocks across and down
Laid = Callable[[Counts], Extent | None]
LOOKS = 40  # at lattices of other counts, before a hint does without one
MOST_LOOKED = 400  # blocks of a lattice that is looked at


def fit_bed(
    size: Size, finished: Extent, block: Extent, units: UnitSystem, laid: Laid | None = None
) -> tuple[BedPlan | None, tuple[Diagnostic, ...]]:
    """How a quilt lies on the bed its size is made for; `block` is the finished size of its first block. Of a lattice, whose
    blocks add up to no row, `laid` tells how large it is with its borders in so many blocks across and down."""
    bed = size.bed
    if bed is None:
        return None, ()
    try:
        mattress = mattress_of(bed.mattress.strip().lower().replace("-", " "), units)
    except BedError as fault:
        hint = "name a mattress such as `queen`, or write its size, as in `60 x 80 in`"
        return None, (
            Diagnostic(code="unknown-value", message=str(fault), span=bed.span, hint=hint),
        )
    wanted = quilt_for(mattress, bed.drop, bed.tuck)
    drop, left = fit(finished, mattress)
    plan = BedPlan(
        mattress=mattress,
        wanted=wanted,
        drop=drop,
        left=left,
        sums=_sums(bed, mattress, wanted, drop, left, units),
    )
    if finished[0] >= wanted[0] and finished[1] >= wanted[1]:
        return plan, ()
    message = (
        f"the quilt of size `{size.id}` is {say(finished[0], units)} x {result(finished[1], units)}, but a"
        f" mattress of {say(mattress[0], units)} x {result(mattress[1], units)} with a drop of"
        f" {result(bed.drop, units)} needs {say(wanted[0], units)} x {result(wanted[1], units)}"
    )
    if laid is not None:
        hint = _lattice_hint((size.across, size.down), wanted, laid, units)
    else:
        hint = _hint(size.quilt, wanted, block, units)
    return plan, (warning("small-for-bed", message, bed.span, hint),)


def _sums(
    bed: Bed, mattress: Extent, wanted: Extent, drop: Length, left: Length, units: UnitSystem
) -> tuple[Text, ...]:
    """The sums of the size wanted, and how the quilt lies."""
    across = f"{say(mattress[0], units)} + 2 {TIMES} {say(bed.drop, units)}"
    along: Text = f"{say(mattress[1], units)} + {say(bed.drop, units)}"
    if bed.tuck > ZERO:
        tuck = Digits(say(bed.tuck, units))
        along = phrase("{length} + {tuck} to tuck in", length=Digits(along), tuck=tuck)
    return (
        sum_line(phrase("bed, width wanted"), across, result(wanted[0], units)),
        sum_line(phrase("bed, length wanted"), along, result(wanted[1], units)),
        _lies(drop, left, units),
    )


def _lies(drop: Length, left: Length, units: UnitSystem) -> Text:
    """How the quilt lies on the bed as it is made."""
    hangs: Text = result(drop, units)
    if drop < ZERO:
        hangs = phrase("{minus}{length}", minus=MINUS, length=result(ZERO - drop, units))
    if left >= ZERO:
        return phrase(
            "bed, as made: it hangs down {drop} at the sides and the foot, {left} left to tuck in",
            drop=hangs, left=result(left, units),
        )  # fmt: skip
    return phrase(
        "bed, as made: it hangs down {drop} at the sides and the foot, {short} short at the head",
        drop=hangs, short=result(ZERO - left, units),
    )  # fmt: skip


def _hint(quilt: Quilt | None, wanted: Extent, block: Extent, units: UnitSystem) -> str:
    """The smallest layout that is as large as wanted, in the set of the quilt and its sashing, which may go round the
    outside, too."""
    sashing = quilt.sashing if quilt else None
    gap = sashing.width if sashing else ZERO
    round_it = 2 * gap if sashing and sashing.outside else ZERO
    how = "in a straight set"
    if quilt and quilt.set is SetKind.ON_POINT:
        # a block and its sashing take up their diagonal, and nothing lies between: the set is as that of larger squares
        diagonal = Length.of(float(block[0] + gap) * math.sqrt(2))
        block, gap, round_it, how = (diagonal, diagonal), ZERO, ZERO, "set on point"
    wanted = (wanted[0] - round_it, wanted[1] - round_it)
    found = _covering(wanted, block, gap, units)
    width, height = (side + round_it for side in found.finished)
    made = f"{say(width, units)} x {result(height, units)}"
    return f"`blocks: {found.across} x {found.down}`{_border(found, units)} {how} make {made}"


def _lattice_hint(counts: Counts, wanted: Extent, laid: Laid, units: UnitSystem) -> str:
    """How many blocks of a lattice are as large as wanted with the borders it has, by laying more of them until they are and
    fewer while they still are; or only that there must be more, where that is not soon found."""
    looked: dict[Counts, Extent] = {}

    def short(at: Counts) -> list[bool] | None:
        """Which way it is too small, across and down; both where it cannot be laid so. None after as many looks as are had, and
        of so many blocks that a look takes long."""
        if at not in looked:
            if len(looked) == LOOKS or at[0] * at[1] > MOST_LOOKED:
                return None
            looked[at] = laid(at) or (ZERO, ZERO)
        return [made < want for made, want in zip(looked[at], wanted, strict=True)]

    while (lacks := short(counts)) and any(lacks):
        # one more at a time: of steps that slope, a row of many blocks may keep less than one of few
        more = (counts[0] + lacks[0], counts[1] + lacks[1])
        grown = short(more)
        fell = grown and any(
            looked[more][way] <= looked[counts][way] for way in (0, 1) if lacks[way]
        )
        counts = (counts[0] + 1, counts[1] + 1) if fell else more
    while lacks is not None:
        fewer = [(counts[0] - 1, counts[1]), (counts[0], counts[1] - 1)]
        less = [at for at in fewer if min(at) and short(at) == [False, False]]
        if not less:
            break
        counts = less[0]
    if lacks is None:
        return "take more blocks, or wider borders"
    width, height = looked[counts]
    made = f"{say(width, units)} x {result(height, units)}"
    return f"`blocks: {counts[0]} x {counts[1]}` of this lattice, with its borders, make {made}"


def _covering(wanted: Extent, block: Extent, gap: Length, units: UnitSystem) -> BedProposal:
    """The layout that is as large as wanted and no larger than it must be, its border of two widths where that comes nearer."""
    widest, step = WIDEST_PROPOSED.said_in(units), BORDER_STEP.said_in(units)
    one = propose(wanted, block, gap, widest, step, covers=True)
    two = propose_two_widths(wanted, block, gap, widest, step, covers=True)
    return two if two is not None and is_nearer(two, one, wanted) else one


def _border(found: BedProposal, units: UnitSystem) -> str:
    """The border of a layout, as it is written where it has two widths."""
    if found.border != found.ends:
        sides, ends = result(found.border, units), result(found.ends, units)
        return f" and a border of `sides: {sides}, top and bottom: {ends}`,"
    return f" and a border of {result(found.border, units)}," if found.border > ZERO else ""
