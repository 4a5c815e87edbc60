"""Floor 11: how the pictures of pressing are made, by name, for the album."""

from __future__ import annotations

from functools import partial
from typing import Any

from booklet.drawing.pressed.bulk import bulk_figure
from booklet.drawing.pressed.pressed_block import pressing_figure, second_figure
from booklet.drawing.pressed.pressing_join import join_figure
from booklet.drawing.pressed.versions_plan import versions_figure
from booklet.kit.words import words_of
from booklet.pages.pictures.figures import Room
from booklet.plan import BlockPlan, SizePlan

BESIDE = (
    61.0  # mm: the width of the words beside a picture of pressing, and of the layers under them
)
WIDE, NARROW = (
    94.0,
    70.0,
)  # mm: of one block, and of several, so that two of them have room on a page
SEAM = 9.0  # mm: a seam is drawn no shorter for that


def press_makers(size: SizePlan, room: Room) -> dict[str, partial[Any]]:
    """The pictures of a whole size: four blocks where they meet, and where two versions lie."""
    allowance, column = float(size.allowance), room.column_mm
    return {
        "press join": partial(join_figure, size, column, allowance, column * 0.78),
        "press plan": partial(versions_figure, size, column * 0.6, column * 0.64),
    }


def block_press_makers(size: SizePlan, block: BlockPlan, room: Room) -> dict[str, partial[Any]]:
    """The pictures of one block: from the back, its second version, its layers."""
    id, allowance, column = block.block.id, float(size.allowance), room.column_mm
    layers, speaker = size.size.sewing.layers, words_of(size.pattern.tongue)
    width, tall = min(_width(size, block), room.width_mm), room.depth_mm * 0.6
    beside = min(BESIDE, 0.74 * width)  # lower than the block beside it
    return {
        f"press {id}": partial(pressing_figure, block, width, allowance, tall, speaker=speaker),
        f"press second {id}": partial(
            second_figure, block, width, allowance, tall, speaker=speaker
        ),
        f"press layers {id}": partial(bulk_figure, block, column, allowance, column * 0.78, layers),
        f"press layers beside {id}": partial(
            bulk_figure, block, beside, allowance, beside * 0.78, layers
        ),
    }


def _width(size: SizePlan, block: BlockPlan) -> float:
    """How wide a block is shown from the back, in mm: where several are, in little room if its seams are still long enough."""
    several = sum(other.is_sewn for other in size.blocks) > 1
    shortest = min((seam.length for seam in block.tiling.seams), default=0.0)
    return NARROW if several and shortest / block.tiling.width * NARROW >= SEAM else WIDE
