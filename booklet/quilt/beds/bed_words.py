"""Floor 6: beds in words. What `booklet bed` says: the size wanted with its sums, layouts that come near,
and what to write in the pattern."""

from __future__ import annotations

import re

from booklet.kit.diagnostic import did_you_mean
from booklet.kit.measure import ZERO, Length, MeasureError, UnitSystem, length_text, read_length
from booklet.kit.trade import BED_DROP, LAYER_EXTRA, Usual
from booklet.quilt.beds.bed import (
    UK_MATTRESSES,
    US_MATTRESSES,
    BedProposal,
    Size,
    fit,
    is_nearer,
    propose,
    propose_two_widths,
    quilt_for,
    smallest_batting,
)
from booklet.quilt.sums import MINUS, TIMES

WIDEST_PROPOSED = Usual.of("8 in", "20 cm")
BORDER_STEP = Usual.of("1/2 in", "1 cm")


class BedError(ValueError):
    """What was asked for cannot be understood or made; the text is a sentence for the user."""


def bed_text(
    bed: str,
    block: str,
    drop: str | None = None,
    tuck: str | None = None,
    sashing: str | None = None,
    border: str | None = None,
) -> str:
    """The proposal for a mattress (a name, or width x length) and a block (a side, or width x height).

    `tuck` None is none, "" the usual one. Raises BedError.
    """
    units: UnitSystem = "cm" if re.search(r"\d\s*(cm|mm)\b", block) else "inch"
    said = bed.strip().lower().replace("-", " ")
    mattress = mattress_of(said, units)
    made_of = _size(block, units, "block")
    hangs = _length(drop, units, "drop") if drop is not None else BED_DROP.said_in(units)
    tucked = ZERO if tuck is None else BED_DROP.said_in(units)
    if tuck:
        tucked = _length(tuck, units, "tuck")
    between = _length(sashing, units, "sashing") if sashing is not None else ZERO
    widest = (
        _length(border, units, "border") if border is not None else WIDEST_PROPOSED.said_in(units)
    )
    target = quilt_for(mattress, hangs, tucked)
    step = BORDER_STEP.said_in(units)
    found = [propose(target, made_of, between, ZERO, step)]
    if widest >= step:
        found.append(propose(target, made_of, between, widest, step))
    two = propose_two_widths(target, made_of, between, widest, step)
    if two is not None and is_nearer(two, found[-1], target):
        found.append(two)
    found = list(dict.fromkeys(found))
    lines = [
        *_wanted(said, mattress, hangs, tucked, target, units),
        "",
        f"Layouts of blocks {_by(made_of, units)}"
        + (f" with sashing of {_say(between, units)} between" if between > ZERO else "")
        + ":",
        *(_layout(proposal, target, units) for proposal in found),
        "",
        *_nearest(found[-1], mattress, between, units),
    ]
    return "\n".join(lines) + "\n"


def mattress_of(said: str, units: UnitSystem) -> Size:
    """The mattress (width, length) of a name, or of a size as written. Raises BedError."""
    if re.search(r"\d", said):
        return _size(said, units, "mattress")
    known = {**US_MATTRESSES, **{f"uk {name}": size for name, size in UK_MATTRESSES.items()}}
    for name, size in UK_MATTRESSES.items():
        known.setdefault(name, size)
    if said not in known:
        raise BedError(
            f"there is no bed `{said}`; {did_you_mean(said, known)}"
            " (or give the mattress, as in `60 x 80 in`)"
        )
    return known[said]


def _size(text: str, units: UnitSystem, what: str) -> Size:
    """A side, or width x height."""
    parts = re.split(r"\s*[x×]\s*", text.strip())
    if len(parts) > 2:
        raise BedError(f"the {what} `{text}` has more than two sizes; write it as `10 x 12 in`")
    unit = re.search(r"(in|cm|mm)\s*$", parts[-1])
    if len(parts) == 2 and unit and re.fullmatch(r"[\d\s./]+", parts[0]):
        parts[0] = f"{parts[0]} {unit[1]}"
    lengths = [_length(part, units, what) for part in parts]
    if min(lengths) < Length.of(1):
        raise BedError(f"the {what} `{text}` is smaller than 1 in; give a length such as `10 in`")
    return lengths[0], lengths[-1]


def _length(text: str, units: UnitSystem, what: str) -> Length:
    try:
        found = read_length(text, "in" if units == "inch" else "cm")
    except MeasureError as fault:
        raise BedError(f"the {what} cannot be read: {fault}") from fault
    if found < ZERO:
        raise BedError(f"the {what} `{text}` is less than nothing; give a length such as `10 in`")
    return found


def _wanted(
    said: str, mattress: Size, drop: Length, tuck: Length, target: Size, units: UnitSystem
) -> list[str]:
    """The size wanted and its sums."""
    named = "The mattress" if re.search(r"\d", said) else f"A {said} mattress"
    tucked = f" + {_bare(tuck, units)} to tuck under the pillows" if tuck > ZERO else ""
    return [
        f"{named} is {_by(mattress, units)} (makers differ: measure yours).",
        f"  width:  {_bare(mattress[0], units)} + 2 {TIMES} {_bare(drop, units)} of drop"
        f" = {_say(target[0], units)}",
        f"  length: {_bare(mattress[1], units)} + {_bare(drop, units)} of drop at the foot{tucked}"
        f" = {_say(target[1], units)}",
        f"So the quilt should be about {_by(target, units)}.",
    ]


def _layout(proposal: BedProposal, target: Size, units: UnitSystem) -> str:
    """One layout with how far it is from the size wanted."""
    border = (
        f"a border of {_say(proposal.border, units)}" if proposal.border > ZERO else "no border"
    )
    if proposal.ends != proposal.border:
        border = f"{border} at the sides, {_say(proposal.ends, units)} at top and bottom"
    across, down = (
        _off(by, word, units)
        for by, word in zip(proposal.off(target), ("across", "down"), strict=True)
    )
    return (
        f"  {proposal.across} x {proposal.down} blocks ({proposal.across * proposal.down}), {border}:"
        f" {_by(proposal.finished, units)}; {across}, {down}"
    )


def _off(by: Length, word: str, units: UnitSystem) -> str:
    if by == ZERO:
        return f"just right {word}"
    size, more = (by, "more") if by > ZERO else (ZERO - by, "less")
    return f"{_say(size, units)} {more} {word}"


def _nearest(
    proposal: BedProposal, mattress: Size, sashing: Length, units: UnitSystem
) -> list[str]:
    """How the nearest layout lies on the bed, and what to write in the pattern."""
    drop, tuck = fit(proposal.finished, mattress)
    short = f"and {_say(tuck, units)} is left to tuck in" if tuck >= ZERO else (
        f"but it is {_say(ZERO - tuck, units)} short at the head"
    )  # fmt: skip
    hangs = f"hangs down {_say(drop, units)} at the sides" if drop >= ZERO else (
        f"leaves {_say(ZERO - drop, units)} of the mattress bare at each side"
    )  # fmt: skip
    parts = []
    if sashing > ZERO:
        parts.append(f"sashing: {{width: {_say(sashing, units)}, fabric: …}}")
    if proposal.ends != proposal.border:
        sides, ends = _say(proposal.border, units), _say(proposal.ends, units)
        parts.append(f"borders: [{{sides: {sides}, top and bottom: {ends}, fabric: …}}]")
    elif proposal.border > ZERO:
        parts.append(f"borders: [{{width: {_say(proposal.border, units)}, fabric: …}}]")
    quilt = f", quilt: {{{', '.join(parts)}}}" if parts else ""
    which = "The last" if proposal.border > ZERO else "It"
    lines = [
        f"{which} {hangs} and as far at the foot, {short}.",
        "For this size write in pattern.yaml:",
        f"  blocks: {proposal.across} x {proposal.down}{quilt}",
    ]
    extra = LAYER_EXTRA.said_in(units)
    layer = proposal.finished[0] + 2 * extra, proposal.finished[1] + 2 * extra
    packet = smallest_batting(layer)
    if units == "inch":
        lines.append(
            f"Batting with {_say(extra, units)} to spare all round: {_by(layer, units)};"
            + (
                f" the packaged size `{packet}` holds it."
                if packet
                else " no packaged size holds it."
            )
        )
    return lines


def _bare(length: Length, units: UnitSystem) -> str:
    text = length_text(length, units) if length >= ZERO else MINUS
    return text.removesuffix(".0")


def _say(length: Length, units: UnitSystem) -> str:
    return f"{_bare(length, units)} {'in' if units == 'inch' else 'cm'}"


def _by(size: Size, units: UnitSystem) -> str:
    return f"{_bare(size[0], units)} x {_say(size[1], units)}"
