"""Floor 10: a step drawn run by run: a strip of frames in reading order, and what comes of them at the end.

All at one scale and the same way up. A frame shows one run: what it joins stands apart, what was sewn before
is pale, and the needle is where the thread is. Where the strip is too long it goes on in another row.
"""

from __future__ import annotations

from collections.abc import Sequence

from booklet.drawing.ink.fills import Looks
from booklet.drawing.lettering.text_widths import text_width
from booklet.drawing.scene import Item, Label, Mark, Sign
from booklet.drawing.steps.step_parts import (
    PartsApart,
    action_items,
    parts_apart,
    result_items,
    whole,
)
from booklet.drawing.steps.units import stage_parts
from booklet.drawing.viewport import View
from booklet.kit.outlines.near import NOISE
from booklet.kit.outlines.plane import Box
from booklet.kit.records import Record
from booklet.kit.words import Speaker, Text
from booklet.plan import BlockPlan
from booklet.plan.cards.frame_words import frame_heads
from booklet.plan.cards.frames import Stage, frames
from booklet.quilt.assembling.joining import TOP
from booklet.sewing.assembly import Step

MARGIN = 5.0  # mm about the parts of a frame, for numbers and the needle
HEAD = 5.0  # mm for the words above a frame
BETWEEN = 5.0  # mm between frames
HEAD_SIZE = 9.0  # points
MORE_ROWS = 1.45  # a strip in several rows may be so much higher than a picture


class StripPart(Record, kw_only=True):
    """One frame before its scale is chosen, or the unit made at the end, where `stage` is None; `words` is how wide the
    words above it are in mm."""

    stage: Stage | None
    apart: PartsApart
    head: Text
    words: float
    loose: bool = False  # of a top: it stands where there is room, not as high as the one before


class Panel(Record, kw_only=True):
    """One frame, or the unit made, at a scale: `box` is that of its parts in mm, `across` how wide it stands on paper."""

    of: StripPart
    box: Box
    across: float


def strip_parts(block: BlockPlan, step: Step, speaker: Speaker) -> tuple[StripPart, ...]:
    """The frames of a step and its result, of a top the frames alone."""
    found = []
    row = frames(step, block.assembly)
    is_top = block.tiling.block == TOP
    for frame in row:
        heads = frame_heads(frame, frame is row[0], frame is row[-1])
        for stage, words in zip(frame.stages, heads, strict=True):
            head = speaker.say(words)
            apart = parts_apart(block, stage_parts(block.assembly, step, stage, 1.0))
            wide = text_width(head, HEAD_SIZE)
            found.append(StripPart(stage=stage, apart=apart, head=head, words=wide, loose=is_top))
    if is_top:
        return tuple(found)  # blocks and rows look after it as the picture of the quilt shows
    made = StripPart(stage=None, apart=whole(block, step), head="", words=0.0)
    return (*found, made)


def panels(strip: Sequence[StripPart], gap: float, scale: float) -> tuple[Panel, ...]:
    """The frames of a step at a scale in mm per inch, each as wide as its parts and its words are; `gap` in inches."""
    boxes = [part.apart.box(gap, scale) for part in strip]
    return tuple(
        Panel(of=part, box=box, across=max(box[2] - box[0] + 2 * MARGIN, part.words + 2))
        for part, box in zip(strip, boxes, strict=True)
    )


def least_panels(strip: Sequence[StripPart], scale: float) -> tuple[Panel, ...]:
    """The frames of a step with the largest part of each alone: none is smaller, whatever the gap."""
    sides = [(part.apart.largest[0] * scale, part.apart.largest[1] * scale) for part in strip]
    return tuple(
        Panel(of=part, box=(0.0, 0.0, wide, high), across=max(wide + 2 * MARGIN, part.words + 2))
        for part, (wide, high) in zip(strip, sides, strict=True)
    )


def rows(row: Sequence[Panel], width: float) -> list[list[Panel]]:
    """The panels in rows no wider than `width` mm, as even as they come."""
    least = len(_packed(row, width))
    narrow, wide = 0.0, width
    for _ in range(12):  # the narrowest width that takes no more rows
        tried = (narrow + wide) / 2
        if len(_packed(row, tried)) > least:
            narrow = tried
        else:
            wide = tried
    return _packed(row, wide)


def _packed(row: Sequence[Panel], width: float) -> list[list[Panel]]:
    """The panels in rows, each filled before the next is begun."""
    found: list[list[Panel]] = [[]]
    used = 0.0
    for panel in row:
        if found[-1] and used + panel.across > width:
            found.append([])
            used = 0.0
        found[-1].append(panel)
        used += panel.across + BETWEEN
    return found


def high(row: Sequence[Panel]) -> float:
    """The height in mm of one row."""
    bottom = max(p.box[3] - _top(p, row) for p in row)
    return bottom + 2 * MARGIN + HEAD


def _top(panel: Panel, row: Sequence[Panel]) -> float:
    """What comes to lie at the top of a row: the highest point of all its panels, or of this one alone."""
    return panel.box[1] if panel.of.loose else min(p.box[1] for p in row)


def may_fit(row: Sequence[Panel], width: float, tallest: float, most: int, together: float) -> bool:
    """Whether panels may fit in at most so many rows, one `tallest` and several `together` so high at the most, by their
    widths and the paper they cover: it costs little to ask."""
    if any(panel.across > width + NOISE for panel in row):
        return False
    down = [panel.box[3] - panel.box[1] + 2 * MARGIN + HEAD for panel in row]
    if most == 1:
        across = sum(panel.across for panel in row) + BETWEEN * (len(row) - 1)
        return across <= width + NOISE and max(down) <= tallest + NOISE
    covered = sum(panel.across * high for panel, high in zip(row, down, strict=True))
    return covered <= width * together + NOISE


def strip_fits(
    row: Sequence[Panel], width: float, tallest: float, most: int, together: float
) -> bool:
    """Whether the panels fit in at most so many rows."""
    if not may_fit(row, width, tallest, most, together) or len(_packed(row, width)) > most:
        return False
    laid = rows(row, width)
    return sum(map(high, laid)) <= (tallest if len(laid) == 1 else together)


def strip_items(
    block: BlockPlan,
    step: Step,
    laid: Sequence[Sequence[Panel]],
    looks: Looks,
    width: float,
    gap: float,
    scale: float,
    allowance: float,
    speaker: Speaker,
) -> list[Item]:
    """Everything on the strip. `gap` in inches, `allowance` in mm on paper."""
    items: list[Item] = []
    down = 0.0
    for row in laid:
        free = width - sum(p.across for p in row) - BETWEEN * (len(row) - 1)
        pad = max(0.0, free / (2 * len(row)))
        tall, x = high(row), 0.0
        for panel in row:
            if panel is not laid[0][0]:
                start = max(x - BETWEEN / 2, 1.6)
                items.append(Sign((start, down + HEAD + (tall - HEAD) / 2), Mark.CHEVRON, 90))
            room = (x + 0.3, down + HEAD - 0.5, x + panel.across + 2 * pad - 0.3, down + tall - 0.3)
            middle = (room[0] + room[2] - panel.box[0] - panel.box[2]) / 2
            view = View(scale, (middle, down + HEAD + MARGIN - _top(panel, row)))
            items += _on_panel(block, step, panel.of, gap, looks, view, allowance, room, speaker)
            x = room[2] + 0.3 + BETWEEN
        down += tall
    return items


def _on_panel(
    block: BlockPlan,
    step: Step,
    panel: StripPart,
    gap: float,
    looks: Looks,
    view: View,
    allowance: float,
    room: Box,
    speaker: Speaker,
) -> list[Item]:
    """One frame with its words, or the unit made."""
    if panel.stage is None:
        return result_items(block, step, looks, view)
    head = Label(
        at=(room[0] + 0.5, room[1] - HEAD / 2 + 0.6),
        text=panel.head,
        size=HEAD_SIZE,
        anchor="start",
        bold=True,
    )
    action, _ = action_items(
        block, step, panel.apart.by(gap), looks, view, allowance, room, speaker, panel.stage
    )
    return [head, *action]
