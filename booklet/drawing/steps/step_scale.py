"""Floor 10: how large steps are drawn: each where it fits and is easily read, and those of one block at as few scales
as that allows, so that a patch is as large on one card as on the next."""

from __future__ import annotations

import math
from collections.abc import Sequence

from booklet.drawing.lettering.labels import SMALLEST, plate_radius
from booklet.drawing.scales import Scale, nearest_scale
from booklet.drawing.steps.frame_strip import panels, strip_fits, strip_parts
from booklet.drawing.steps.step_parts import LETTER, LETTER_CLEAR, parts_apart, whole
from booklet.drawing.steps.units import exploded, parts_of, shorter_side
from booklet.drawing.told import piece_letter
from booklet.kit.outlines.near import NOISE
from booklet.kit.outlines.plane import box_of
from booklet.kit.outlines.polygon import roomiest
from booklet.kit.records import Record
from booklet.kit.words import Speaker
from booklet.plan import BlockPlan, StepCard
from booklet.plan.cards.frames import is_framed
from booklet.sewing.assembly import Step

MARGIN = 5.0  # mm about either half, for numbers and runs into the allowance
BETWEEN = 5.0  # mm between action and result
LEAST_GAP = 4.6  # mm between parts that stand apart
TALLEST = 84.0  # mm: no picture of a step is higher
LEAST_UNIT = 28.0  # mm: what a step makes is drawn at least so long where there is room
LEAST_SEAM = 7.5  # mm: so is the shortest seam of a step
FRAME_SEAM = 9.0  # mm: and of one in frames, where needle and numbers stand about it


def best_width(
    block: BlockPlan,
    card: StepCard,
    widths: Sequence[float],
    tallest: float,
    *,
    speaker: Speaker,
) -> float:
    """The first of `widths` (mm) in which a card's picture is easily read, else the last."""
    least = _easily_read(block, card.step)
    for width in widths[:-1]:
        if fitting(block, card.step, width, tallest, speaker).mm_per_inch >= least:
            return width
    return widths[-1]


def narrowest(
    block: BlockPlan,
    card: StepCard,
    scale: Scale,
    widths: Sequence[float],
    tallest: float = TALLEST,
    *,
    speaker: Speaker,
) -> float:
    """The first of `widths` (mm) in which a card's picture fits at a scale, frames in no more rows for it, else the last."""
    for width in widths[:-1]:
        if _in_a_row(block, card.step, width, tallest, speaker).of <= scale.of:
            return width
    return widths[-1]


class _Range(Record):
    """The scales at which a step may be drawn: from the `least` mm per inch at which it is easily read and loses no letter
    to the `most` that fits on the page; `best` is the one it would have alone."""

    least: float
    best: Scale
    most: Scale


def shared_scales(
    block: BlockPlan,
    widths: Sequence[float],
    widest: float,
    tallest: float,
    *,
    speaker: Speaker,
) -> tuple[Scale, ...]:
    """The scales of all cards of a block: as few as may be. Alone, their pictures would be `widths` mm wide; they may be
    as wide as `widest`.

    The step that must be drawn smallest takes with it all that can be read at its largest scale, and so on with the rest.
    """
    scales: dict[int, Scale] = {}
    ranges = [
        _range(block, card.step, (width, widest), tallest, speaker)
        for card, width in zip(block.cards, widths, strict=True)
    ]
    while left := {n: range for n, range in enumerate(ranges) if n not in scales}:
        here = max(range.most.of for range in left.values())
        group = {n: one for n, one in left.items() if one.least <= Scale(here).mm_per_inch}
        scales |= dict.fromkeys(group, _common(tuple(group.values())))
    return tuple(scales[n] for n in range(len(ranges)))


def _range(
    block: BlockPlan, step: Step, widths: tuple[float, float], tallest: float, speaker: Speaker
) -> _Range:
    """The scales at which a step may be drawn: alone in the first of two widths, at most in the second."""
    best, most = (fitting(block, step, width, tallest, speaker) for width in widths)
    return _Range(_least(block, step, best), best, min(best, most, key=lambda scale: scale.of))


def _common(group: Sequence[_Range]) -> Scale:
    """The scale at which all of a group can be read: the smallest that one of them would have alone, if it is not too
    small for another, else the next."""
    least, most = max(one.least for one in group), max(one.most.of for one in group)
    had = {one.best.of for one in group if one.best.of >= most} | {most}
    return max((Scale(of) for of in had if Scale(of).mm_per_inch >= least), key=lambda s: s.of)


def _least(block: BlockPlan, step: Step, most: Scale) -> float:
    """The least mm per inch at which a step is easily read, and every letter is as large as at the scale `most`."""
    least = [_easily_read(block, step)]
    for id in step.pieces:
        piece = block.tiling.piece(id)
        room = roomiest(piece.outline.points)[1]
        size = LETTER
        while size >= SMALLEST:
            needed = (plate_radius(piece_letter(piece), size) + LETTER_CLEAR) / room
            if needed <= most.mm_per_inch:
                least.append(needed)
                break
            size -= 0.5
    return min(max(least) - NOISE, most.mm_per_inch)


def _easily_read(block: BlockPlan, step: Step) -> float:
    """The mm per inch from which on a step is easily read: what it makes is at least LEAST_UNIT mm long on paper, and no
    seam of it is shorter than LEAST_SEAM mm."""
    left, top, right, bottom = box_of(
        p for id in step.pieces for p in block.tiling.piece(id).outline.points
    )
    least = FRAME_SEAM if is_framed(step, block.assembly) else LEAST_SEAM
    return max(LEAST_UNIT / max(right - left, bottom - top), least / _shortest(block, step))


def fitting(block: BlockPlan, step: Step, width: float, tallest: float, speaker: Speaker) -> Scale:
    """The largest scale of the ladder at which all of a step's picture fits. Frames stand in one row if
    they are easily read so, else in several."""
    one = _in_a_row(block, step, width, tallest, speaker)
    if not is_framed(step, block.assembly):
        return one
    is_read = _shortest(block, step) * one.mm_per_inch >= FRAME_SEAM
    return one if is_read else _in_rows(block, step, width, tallest, speaker, 99)


def _in_a_row(
    block: BlockPlan, step: Step, width: float, tallest: float, speaker: Speaker
) -> Scale:
    """The largest scale at which a step fits with all its frames beside each other, or with its two halves."""
    if is_framed(step, block.assembly):
        return _in_rows(block, step, width, tallest, speaker, 1)
    smaller = shorter(block, step)
    apart, made = parts_apart(block, exploded(block.assembly, step, 1.0)), whole(block, step)

    def fits(scale: float) -> bool:
        gap = gap_at(smaller, scale)
        left, right = apart.box(gap, scale), made.box(gap, scale)
        across = (left[2] - left[0]) + (right[2] - right[0]) + 4 * MARGIN + BETWEEN
        down = max(left[3] - left[1], right[3] - right[1]) + 2 * MARGIN
        return across <= width and down <= tallest

    return nearest_scale(fits)


def _in_rows(
    block: BlockPlan, step: Step, width: float, tallest: float, speaker: Speaker, most: int
) -> Scale:
    """The largest scale at which the frames of a step fit in so many rows at most."""
    smaller, strip = shorter(block, step), strip_parts(block, step, speaker)

    def fits(scale: float) -> bool:
        row = panels(strip, gap_at(smaller, scale), scale)
        return strip_fits(row, width, tallest, most)

    return nearest_scale(fits)


def _shortest(block: BlockPlan, step: Step) -> float:
    """The length in inches of the shortest seam of a step."""
    seams = [block.tiling.seam(id) for run in step.runs for id in run.seams]
    return min((seam.length for seam in seams), default=math.inf)


def shorter(block: BlockPlan, step: Step) -> float:
    """The shorter side in inches of the smaller part of a step."""
    return min(shorter_side(block.tiling, pieces) for _, pieces in parts_of(block.assembly, step))


def gap_at(shorter: float, scale: float) -> float:
    """The gap in inches: 0.16 of the shorter side of the smaller part, at least LEAST_GAP on paper."""
    return min(max(0.16 * shorter * scale, LEAST_GAP), 12.0) / scale
