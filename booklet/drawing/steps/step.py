"""Floor 10: the picture of a step: what to do at the left, what comes of it at the right.

Both at one scale and the same way up. Parts stand apart at right angles to their seam; the seam of the
step is the heaviest line; what is only context is tinted.
"""

from __future__ import annotations

from booklet.drawing.ink.fills import Looks
from booklet.drawing.ink.svg import figure
from booklet.drawing.scales import Scale
from booklet.drawing.scene import Figure, Item, Label, Mark, Scene, Sign
from booklet.drawing.steps.frame_strip import high, panels, rows, strip_items, strip_parts
from booklet.drawing.steps.step_parts import action_items, parts_apart, result_items, whole
from booklet.drawing.steps.step_scale import BETWEEN, MARGIN, TALLEST, StepScales, gap_at, shorter
from booklet.drawing.steps.units import exploded
from booklet.drawing.told import told_step
from booklet.drawing.viewport import View
from booklet.kit.words import Speaker, Text, listing, phrase
from booklet.plan import BlockPlan, StepCard
from booklet.plan.cards.frames import is_framed
from booklet.sewing.assembly import Step


def step_figure(
    block: BlockPlan,
    card: StepCard,
    looks: Looks,
    width: float = 85.0,
    allowance: float = 0.25,
    tallest: float = TALLEST,
    *,
    scale: Scale | None = None,
    speaker: Speaker,
) -> Figure:
    """The picture of a card, at most `width` mm wide and `tallest` mm high, at a scale that fits so or the largest that
    does. `allowance` in inches."""
    if scale is None:
        scales = StepScales(block=block, step=card.step, tallest=tallest, speaker=speaker)
        scale = scales.fitting(width)
    scene, caption = step_scene(block, card, looks, width, allowance, scale, speaker=speaker)
    return figure(scene, caption)


def step_scene(
    block: BlockPlan,
    card: StepCard,
    looks: Looks,
    width: float,
    allowance: float,
    scale: Scale,
    *,
    speaker: Speaker,
) -> tuple[Scene, Text]:
    """The scene of a card's picture at a scale, and its caption."""
    if is_framed(card.step, block.assembly):
        items, height = _strip(block, card.step, looks, width, scale, allowance, speaker)
    else:
        items, height = _halves(block, card.step, looks, width, scale, allowance, speaker)
    if card.make > 1:
        corner = (width - 0.8, height - 2.2)
        items.append(Label(at=corner, text=f"× {card.make}", size=9.0, anchor="end", bold=True))
    name = f"{block.tiling.size}-{block.tiling.block}-step-{card.n}"
    title = phrase("Step {n}: {title}", n=card.n, title=card.title)
    scene = Scene.of(name, (width, height), items, title, told_step(block, card))
    return scene, _caption(card, scale)


FOR_WORDS = 4.0  # mm above and below a small picture in which words would lie on the patches
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
    s, gap = scale.mm_per_inch, gap_at(shorter(block, step), scale.mm_per_inch)
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
    gap = gap_at(shorter(block, step), scale.mm_per_inch)
    apart = parts_apart(block, exploded(block.assembly, step, 1.0))
    parts, left = apart.by(gap), apart.box(gap, scale.mm_per_inch)
    right = whole(block, step).box(gap, scale.mm_per_inch)
    least = max(left[3] - left[1], right[3] - right[1]) + 2 * MARGIN
    used = (left[2] - left[0]) + (right[2] - right[0]) + 4 * MARGIN + BETWEEN
    pad = max(0.0, (width - used) / 4)
    x = MARGIN + pad
    edge = x + left[2] - left[0] + MARGIN + pad

    def acted(height: float) -> tuple[list[Item], bool]:
        action = View(scale.mm_per_inch, (x - left[0], (height - left[1] - left[3]) / 2))
        room, margin = (0.5, 0.5, edge, height - 0.5), allowance * scale.mm_per_inch
        return action_items(block, step, parts, looks, action, margin, room, speaker)

    height, (shown, roomy) = least, acted(least)
    if not roomy and least + 2 * FOR_WORDS <= TALLEST:
        taller, roomy = acted(least + 2 * FOR_WORDS)
        height, shown = (least + 2 * FOR_WORDS, taller) if roomy else (height, shown)
    beside = edge + BETWEEN + MARGIN + pad
    result = View(scale.mm_per_inch, (beside - right[0], (height - right[1] - right[3]) / 2))
    return [
        *shown,
        Sign((edge + BETWEEN / 2, height / 2), Mark.CHEVRON, 90),
        *result_items(block, step, looks, result),
    ], height
