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
TITLE, CAPTION, ROW = (
    54.0,
    21.0,
    4.8,
)  # mm: the head of the page, what stands below a picture, a row of the table


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
    width, tall = min(_width(size, block), room.width_mm), _tallest(size, block, room)
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


def _tallest(size: SizePlan, block: BlockPlan, room: Room) -> float:
    """How high a block is shown from the back at most, in mm: so that its table has room on the same page, if its seams are
    still long enough. On a small page words stand between them."""
    most = room.depth_mm * 0.6
    begins = next((other.block.id for other in size.blocks if other.is_sewn), "") == block.block.id
    rows = ROW * (len(block.press_table) + 1) if block.press_table else 0.0
    left = room.depth_mm - TITLE * begins - CAPTION - rows
    shortest = min((seam.length for seam in block.tiling.seams), default=0.0)
    is_read = shortest / block.tiling.height * left >= SEAM
    return min(most, left) if is_read and room.column_mm < room.width_mm else most
