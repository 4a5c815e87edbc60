"""Floor 10: the picture of a step: what to do at the left, what comes of it at the right.

Both at one scale and the same way up. Parts stand apart at right angles to their seam; the seam of the
step is the heaviest line; what is only context is tinted.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

from booklet.drawing.fills import Looks, tinted
from booklet.drawing.labels import Desk, letter_in
from booklet.drawing.lettering import text_width
from booklet.drawing.patchwork import together
from booklet.drawing.scales import Scale, nearest_scale
from booklet.drawing.scene import Area, Figure, Ink, Item, Label, Line, Mark, Scene, Sign
from booklet.drawing.step_seams import ORDINALS, StepSeams, opened_strokes
from booklet.drawing.svg import figure
from booklet.drawing.told import piece_letter, told_step
from booklet.drawing.units import Part, exploded, parts_of, shorter_side, unit_outlines
from booklet.drawing.views import View
from booklet.geometry.tiling import Seam
from booklet.kit.plane import (
    Box,
    Point,
    around,
    box_of,
    direction,
    middle,
    plus,
    right_of,
    to_segment,
)
from booklet.kit.polygon import roomiest
from booklet.pattern import By
from booklet.plan import BlockPlan, StepCard
from booklet.sewing.assembly import Step
from booklet.words import ENGLISH, Speaker, phrase

MARGIN = 5.0  # mm about either half, for numbers and runs into the allowance
BETWEEN = 5.0  # mm between action and result
LEAST_GAP = 4.6  # mm between parts that stand apart
TALLEST = 84.0  # mm: no picture of a step is higher
LEAST_UNIT = 28.0  # mm: what a step makes is drawn at least so long where there is room
LEAST_SEAM = 7.5  # mm: so is the shortest seam of a step


def step_figure(
    block: BlockPlan,
    card: StepCard,
    looks: Looks,
    width: float = 85.0,
    allowance: float = 0.25,
    tallest: float = TALLEST,
    speaker: Speaker = ENGLISH,
) -> Figure:
    """The picture of a card, at most `width` mm wide and `tallest` mm high. `allowance` in inches."""
    step = card.step
    scale, words = _fitting(block, step, width, tallest, speaker), _words(step, speaker)
    gap = _gap(block, step, scale.mm_per_inch)
    parts = exploded(block.assembly, step, gap)
    whole = len(parts) == 1
    left = _box(block, parts, scale.mm_per_inch)
    right = _box(block, (Part("", step.pieces, (0.0, 0.0), False),), scale.mm_per_inch)
    height = max(left[3] - left[1], right[3] - right[1]) + 2 * MARGIN
    used = (left[2] - left[0]) + (right[2] - right[0]) + 4 * MARGIN + BETWEEN + 2 * words
    pad = max(0.0, (width - used) / 4)
    x = MARGIN + pad + words
    action = View(scale.mm_per_inch, (x - left[0], (height - left[1] - left[3]) / 2))
    edge = x + left[2] - left[0] + MARGIN + pad + words
    x = edge + BETWEEN + MARGIN + pad
    result = View(scale.mm_per_inch, (x - right[0], (height - right[1] - right[3]) / 2))
    allowance_mm = allowance * scale.mm_per_inch
    items = [
        *_action(
            block, step, parts, looks, action, allowance_mm, (0.5, 0.5, edge, height - 0.5), speaker
        ),
        Sign((edge + BETWEEN / 2, height / 2), Mark.CHEVRON, 90),
        *_result(block, step, looks, result, whole),
    ]
    if card.make > 1:
        corner = (width - 0.8, height - 2.2)
        items.append(Label(corner, f"× {card.make}", 9.0, "end", bold=True))
    name = f"{block.tiling.size}-{block.tiling.block}-step-{card.n}"
    told = told_step(block, card)
    scene = Scene(
        name,
        width,
        height,
        tuple(items),
        phrase("Step {n}: {title}", n=card.n, title=card.title),
        told,
    )
    caption = phrase("{unit}. {drawn}", unit=card.makes, drawn=scale.caption)
    return figure(scene, caption if card.makes else scale.caption)


def best_width(
    block: BlockPlan,
    card: StepCard,
    widths: Sequence[float],
    tallest: float = TALLEST,
    speaker: Speaker = ENGLISH,
) -> float:
    """The first of `widths` (mm) in which a card's picture is easily read, else the last.

    Easily read: what the step makes is at least LEAST_UNIT mm long on paper, and no seam of the step is
    shorter than LEAST_SEAM mm.
    """
    seams = [block.tiling.seam(id) for run in card.step.runs for id in run.seams]
    shortest = min((seam.length for seam in seams), default=math.inf)
    left, top, right, bottom = box_of(
        p for id in card.step.pieces for p in block.tiling.piece(id).outline.points
    )
    longest = max(right - left, bottom - top)
    for width in widths[:-1]:
        scale = _fitting(block, card.step, width, tallest, speaker).mm_per_inch
        if longest * scale >= LEAST_UNIT and shortest * scale >= LEAST_SEAM:
            return width
    return widths[-1]


def _fitting(block: BlockPlan, step: Step, width: float, tallest: float, speaker: Speaker) -> Scale:
    """The largest scale of the ladder at which both halves fit."""
    words = _words(step, speaker)

    def fits(scale: float) -> bool:
        parts = exploded(block.assembly, step, _gap(block, step, scale))
        left = _box(block, parts, scale)
        right = _box(block, (Part("", step.pieces, (0.0, 0.0), False),), scale)
        across = (left[2] - left[0]) + (right[2] - right[0]) + 4 * MARGIN + BETWEEN + 2 * words
        down = max(left[3] - left[1], right[3] - right[1]) + 2 * MARGIN
        return across <= width and down <= tallest

    return nearest_scale(fits)


def _words(step: Step, speaker: Speaker) -> float:
    """The room in mm for "first" and "last" on either side of the action: where runs turn, there is
    none between the parts."""
    if len(step.runs) < 2 or not any(run.turns for run in step.runs):
        return 0.0
    words = ORDINALS if len(step.runs) > 2 else (ORDINALS[0], ORDINALS[-1])
    return max(6.0, *(text_width(speaker.say(word), 8.5) + 0.7 for word in words))


def _gap(block: BlockPlan, step: Step, scale: float) -> float:
    """The gap in inches: 0.16 of the shorter side of the smaller part, at least LEAST_GAP on paper."""
    sides = [shorter_side(block.tiling, pieces) for _, pieces in parts_of(block.assembly, step)]
    return min(max(0.16 * min(sides) * scale, LEAST_GAP), 12.0) / scale


def _box(block: BlockPlan, parts: tuple[Part, ...], scale: float) -> Box:
    """The box on paper about parts where they stand."""
    view = View(scale, (0.0, 0.0))
    return around(
        box_of(
            [
                view.at(p, part.away)
                for id in part.pieces
                for p in block.tiling.piece(id).outline.points
            ]
        )
        for part in parts
    )


def _action(
    block: BlockPlan,
    step: Step,
    parts: tuple[Part, ...],
    looks: Looks,
    view: View,
    allowance: float,
    frame: Box,
    speaker: Speaker,
) -> list[Item]:
    """The parts apart, guides, and the seam of the step on both sides of the gap."""
    home = {id: part for part in parts for id in part.pieces}
    items: list[Item] = []
    for part in sorted(parts, key=lambda p: not p.context):
        items += _unit(block, part, looks, view)
    sewn = StepSeams(block, step, home, view, allowance, speaker)
    guides, seams, signs, numbers = sewn.drawn()
    letters = _letters(block, parts, view, [line.points for line in seams])
    strokes = [(a, b) for line in seams for a, b in zip(line.points, line.points[1:], strict=False)]
    strokes += [(line.points[0], line.points[1]) for line in guides]
    strokes += [stroke for sign in signs for stroke in opened_strokes(sign)]
    areas = [
        tuple(view.at(p, part.away) for p in loop)
        for part in parts for loop in unit_outlines(block.tiling, part.pieces)
    ]  # fmt: skip
    desk = Desk(strokes, areas, frame)
    desk.keep(letters)
    labels = [
        desk.beside(at, text, 8.5, toward, rivals=sewn.rivals(at)) for at, text, toward in numbers
    ]
    return [*items, *letters, *guides, *seams, *signs, *labels]


def _unit(block: BlockPlan, part: Part, looks: Looks, view: View) -> list[Item]:
    """The pieces of a part, and a firmer line about the whole of it."""
    areas = []
    for id in part.pieces:
        piece = block.tiling.piece(id)
        fill = looks[piece.fabric]
        points = tuple(view.at(p, part.away) for p in piece.outline.points)
        ink = Ink.CONTEXT if part.context else Ink.PATCH
        areas.append(Area(points, tinted(fill) if part.context else fill, ink))
    return [*together(areas)]


def _letters(
    block: BlockPlan, parts: tuple[Part, ...], view: View, seams: list[tuple[Point, ...]]
) -> list[Label]:
    """A patch letter in every piece where it fits clear of the seam; alike context pieces once each."""
    letters = []
    for part in parts:
        for id in part.pieces:
            piece = block.tiling.piece(id)
            points = [view.at(p, part.away) for p in piece.outline.points]
            label = letter_in(points, piece_letter(piece), 9.0, part.context, 0.25)
            if label is not None and not any(_near(label.at, seam, 2.4) for seam in seams):
                letters.append(label)
    return letters


def _near(at: Point, points: tuple[Point, ...], least: float) -> bool:
    return any(to_segment(at, a, b) < least for a, b in itertools.pairwise(points))


def _result(block: BlockPlan, step: Step, looks: Looks, view: View, whole: bool) -> list[Item]:
    """The unit made, with the seam just sewn and which way it is pressed."""
    part = Part("", step.pieces, (0.0, 0.0), False)
    items = _unit(block, part, looks, view)
    for run in step.runs:
        ink = Ink.HAND if run.by is By.HAND else Ink.MACHINE
        for id in run.seams:
            path = block.tiling.seam(id).path
            points = tuple(view.at(p) for p in path)
            if step.leave is not None:
                half = middle(points)
                near = points[0] if path[0] == run.points[0] else points[-1]
                items += [Line((near, half), ink), Sign(half, Mark.OPEN)]
            else:
                items.append(Line(points, ink, halo=True))
    for rim in unit_outlines(block.tiling, step.pieces):
        items.append(Area(tuple(view.at(p) for p in rim), None, Ink.PATCH))
    items += press_arrows(block, step, view)
    return items


def press_arrows(block: BlockPlan, step: Step, view: View) -> list[Item]:
    """Arrows across the seams that are pressed after this step, one for each straight stretch."""
    items: list[Item] = []
    for run in step.runs:
        longest: dict[tuple[str, Point], Seam] = {}
        for id in run.seams:
            seam, pressed = block.tiling.seam(id), block.pressing.pressed.get(id)
            if pressed is None or block.pressing.after.get(id) != step.n or step.leave is not None:
                continue
            across = right_of(direction(seam.start, seam.end))
            if pressed.toward == seam.between[1]:
                across = (-across[0], -across[1])
            open_ = pressed.toward is None
            key = ("open" if open_ else "side", (round(across[0], 3), round(across[1], 3)))
            if key not in longest or seam.length > longest[key].length + 1e-9:
                longest[key] = seam
        for (kind, across), seam in longest.items():
            items.append(_press_arrow(block, seam, across, kind == "open", view))
    return items


def _press_arrow(block: BlockPlan, seam: Seam, across: Point, open_: bool, view: View) -> Line:
    """The arrow at the middle of a seam, short enough for the patches it lies on."""
    at = middle([view.at(p) for p in seam.path])
    rooms = [roomiest(block.tiling.piece(id).outline.points)[1] * view.scale for id in seam.between]
    reach = min(max(1.2 * min(rooms), 2.4), 4.0)
    back = reach if open_ else 0.55 * reach
    ends = (plus(at, across, -back), plus(at, across, reach))
    return Line(ends, Ink.ARROW, start_arrow=open_, end_arrow=True, halo=True)
