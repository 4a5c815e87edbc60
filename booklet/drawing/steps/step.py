"""Floor 10: the picture of a step: what to do at the left, what comes of it at the right.

Both at one scale and the same way up. Parts stand apart at right angles to their seam; the seam of the
step is the heaviest line; what is only context is tinted.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import partial

from booklet.drawing.ink.fills import Looks
from booklet.drawing.ink.svg import figure
from booklet.drawing.scales import Scale, nearest_scale
from booklet.drawing.scene import Figure, Item, Label, Mark, Scene, Sign
from booklet.drawing.steps.frame_strip import (
    high,
    panels,
    rows,
    strip_fits,
    strip_items,
    strip_parts,
)
from booklet.drawing.steps.step_parts import action_items, parts_apart, result_items, whole
from booklet.drawing.steps.units import exploded, parts_of, shorter_side
from booklet.drawing.told import told_step
from booklet.drawing.views import View
from booklet.kit.plane import box_of
from booklet.plan import BlockPlan, StepCard
from booklet.plan.cards.frames import is_framed
from booklet.sewing.assembly import Step
from booklet.words import Speaker, Text, listing, phrase

MARGIN = 5.0  # mm about either half, for numbers and runs into the allowance
BETWEEN = 5.0  # mm between action and result
LEAST_GAP = 4.6  # mm between parts that stand apart
TALLEST = 84.0  # mm: no picture of a step is higher
LEAST_UNIT = 28.0  # mm: what a step makes is drawn at least so long where there is room
LEAST_SEAM = 7.5  # mm: so is the shortest seam of a step
FRAME_SEAM = 9.0  # mm: and of one in frames, where needle and numbers stand about it


def step_figure(
    block: BlockPlan,
    card: StepCard,
    looks: Looks,
    width: float = 85.0,
    allowance: float = 0.25,
    tallest: float = TALLEST,
    *,
    speaker: Speaker,
) -> Figure:
    """The picture of a card, at most `width` mm wide and `tallest` mm high. `allowance` in inches."""
    scene, caption = step_scene(block, card, looks, width, allowance, tallest, speaker=speaker)
    return figure(scene, caption)


def step_scene(
    block: BlockPlan,
    card: StepCard,
    looks: Looks,
    width: float = 85.0,
    allowance: float = 0.25,
    tallest: float = TALLEST,
    *,
    speaker: Speaker,
) -> tuple[Scene, Text]:
    """The scene of a card's picture, and its caption."""
    scale = _fitting(block, card.step, width, tallest, speaker)
    if is_framed(card.step, block.assembly):
        items, height = _strip(block, card.step, looks, width, scale, allowance, speaker)
    else:
        items, height = _halves(block, card.step, looks, width, scale, allowance, speaker)
    if card.make > 1:
        corner = (width - 0.8, height - 2.2)
        items.append(Label(at=corner, text=f"× {card.make}", size=9.0, anchor="end", bold=True))
    name = f"{block.tiling.size}-{block.tiling.block}-step-{card.n}"
    title = phrase("Step {n}: {title}", n=card.n, title=card.title)
    scene = Scene(
        name=name,
        width=width,
        height=height,
        items=tuple(items),
        title=title,
        alt=told_step(block, card),
    )
    return scene, _caption(card, scale)


MOST_NAMED = 4
"""So many parts a caption names; more are a row to be counted, which its card tells."""


def _caption(card: StepCard, scale: Scale) -> Text:
    """What comes of a step, of which parts, and how large it is drawn."""
    if not card.makes:
        return scale.caption
    if not 1 < len(card.parts) <= MOST_NAMED:
        return phrase("{unit}. {drawn}", unit=card.makes, drawn=scale.caption)
    parts = listing(card.parts)
    return phrase("{unit}: {parts}. {drawn}", unit=card.makes, parts=parts, drawn=scale.caption)


def _strip(
    block: BlockPlan,
    step: Step,
    looks: Looks,
    width: float,
    scale: Scale,
    allowance: float,
    speaker: Speaker,
) -> tuple[list[Item], float]:
    """A step drawn run by run, and how high it is in mm."""
    s, gap = scale.mm_per_inch, _gap(_shorter(block, step), scale.mm_per_inch)
    laid = rows(panels(strip_parts(block, step, speaker), gap, s), width)
    items = strip_items(block, step, laid, looks, width, gap, s, allowance * s, speaker)
    return items, sum(map(high, laid))


def _halves(
    block: BlockPlan,
    step: Step,
    looks: Looks,
    width: float,
    scale: Scale,
    allowance: float,
    speaker: Speaker,
) -> tuple[list[Item], float]:
    """What to do at the left and what comes of it at the right, and how high that is in mm."""
    gap = _gap(_shorter(block, step), scale.mm_per_inch)
    apart = parts_apart(block, exploded(block.assembly, step, 1.0))
    parts, left = apart.by(gap), apart.box(gap, scale.mm_per_inch)
    right = whole(block, step).box(gap, scale.mm_per_inch)
    height = max(left[3] - left[1], right[3] - right[1]) + 2 * MARGIN
    used = (left[2] - left[0]) + (right[2] - right[0]) + 4 * MARGIN + BETWEEN
    pad = max(0.0, (width - used) / 4)
    x = MARGIN + pad
    action = View(scale.mm_per_inch, (x - left[0], (height - left[1] - left[3]) / 2))
    edge = x + left[2] - left[0] + MARGIN + pad
    x = edge + BETWEEN + MARGIN + pad
    result = View(scale.mm_per_inch, (x - right[0], (height - right[1] - right[3]) / 2))
    allowance_mm = allowance * scale.mm_per_inch
    room = (0.5, 0.5, edge, height - 0.5)
    return [
        *action_items(block, step, parts, looks, action, allowance_mm, room, speaker),
        Sign((edge + BETWEEN / 2, height / 2), Mark.CHEVRON, 90),
        *result_items(block, step, looks, result),
    ], height


def best_width(
    block: BlockPlan,
    card: StepCard,
    widths: Sequence[float],
    tallest: float = TALLEST,
    *,
    speaker: Speaker,
) -> float:
    """The first of `widths` (mm) in which a card's picture is easily read, else the last.

    Easily read: what the step makes is at least LEAST_UNIT mm long on paper, and no seam of the step is
    shorter than LEAST_SEAM mm.
    """
    shortest = _shortest(block, card.step)
    left, top, right, bottom = box_of(
        p for id in card.step.pieces for p in block.tiling.piece(id).outline.points
    )
    longest = max(right - left, bottom - top)
    least = FRAME_SEAM if is_framed(card.step, block.assembly) else LEAST_SEAM
    for width in widths[:-1]:
        scale = _fitting(block, card.step, width, tallest, speaker).mm_per_inch
        if longest * scale >= LEAST_UNIT and shortest * scale >= least:
            return width
    return widths[-1]


def _fitting(block: BlockPlan, step: Step, width: float, tallest: float, speaker: Speaker) -> Scale:
    """The largest scale of the ladder at which all of a step's picture fits. Frames stand in one row if
    they are easily read so, else in several."""
    shorter = _shorter(block, step)
    if is_framed(step, block.assembly):
        strip = strip_parts(block, step, speaker)

        def fits_in(most: int, scale: float) -> bool:
            row = panels(strip, _gap(shorter, scale), scale)
            return strip_fits(row, width, tallest, most)

        one = nearest_scale(partial(fits_in, 1))
        is_read = _shortest(block, step) * one.mm_per_inch >= FRAME_SEAM
        return one if is_read else nearest_scale(partial(fits_in, 99))
    apart, made = parts_apart(block, exploded(block.assembly, step, 1.0)), whole(block, step)

    def fits(scale: float) -> bool:
        gap = _gap(shorter, scale)
        left, right = apart.box(gap, scale), made.box(gap, scale)
        across = (left[2] - left[0]) + (right[2] - right[0]) + 4 * MARGIN + BETWEEN
        down = max(left[3] - left[1], right[3] - right[1]) + 2 * MARGIN
        return across <= width and down <= tallest

    return nearest_scale(fits)


def _shortest(block: BlockPlan, step: Step) -> float:
    """The length in inches of the shortest seam of a step."""
    seams = [block.tiling.seam(id) for run in step.runs for id in run.seams]
    return min((seam.length for seam in seams), default=math.inf)


def _shorter(block: BlockPlan, step: Step) -> float:
    """The shorter side in inches of the smaller part of a step."""
    return min(shorter_side(block.tiling, pieces) for _, pieces in parts_of(block.assembly, step))


def _gap(shorter: float, scale: float) -> float:
    """The gap in inches: 0.16 of the shorter side of the smaller part, at least LEAST_GAP on paper."""
    return min(max(0.16 * shorter * scale, LEAST_GAP), 12.0) / scale
