"""Floor 10: what stands in the halves of a step's picture: the parts apart with their seam, and the unit made."""

from __future__ import annotations

import itertools
import math
from collections.abc import Hashable, Sequence
from functools import cached_property

from booklet.drawing.ink.fills import Looks, tinted
from booklet.drawing.lettering.labels import (
    SMALLEST,
    Desk,
    letter_in,
    may_reach,
    plate_radius,
    wider,
)
from booklet.drawing.lettering.strokes import DOTS, needle_at, sign_strokes
from booklet.drawing.places import piece_places
from booklet.drawing.quilts.patchwork import together
from booklet.drawing.scene import Area, Ink, Item, Label, Line, Mark, Sign
from booklet.drawing.steps.step_seams import Number, StepSeams
from booklet.drawing.steps.units import StepPart
from booklet.drawing.told import piece_letter
from booklet.drawing.viewport import View
from booklet.geometry.tiling import Patch, Seam
from booklet.geometry.vectors import union_outline
from booklet.kit.outlines.near import NOISE
from booklet.kit.outlines.plane import (
    Box,
    Point,
    around,
    box_of,
    direction,
    dot,
    middle,
    plus,
    right_of,
    to_segment,
)
from booklet.kit.outlines.polygon import best_place, depth, roomiest
from booklet.kit.records import Record, replace
from booklet.kit.words import Speaker
from booklet.pattern import By
from booklet.plan import BlockPlan
from booklet.plan.cards.frames import Stage, is_in_place
from booklet.quilt.assembling.joining import TOP
from booklet.sewing.assembly import Step

ARROW_ROOM = 9.0  # mm: seams between blocks that are shorter on paper have no room for arrows
LITTLE_ROOM = (
    5.0  # mm: the same where few arrows stand in a picture, since each step is pressed by itself
)
LETTER = 9.0  # points: the letter of a patch where it has room
LETTER_ROOM = 0.25  # mm free about its plate
OFF_SEAMS = 24  # places across and down a piece, at which its letter is tried beside the seams
LETTER_CLEAR = 0.55  # mm between the plate of a letter and the middle of a stroke


class PartsApart(Record, dict=True):
    """Parts of a step as they stand apart by one inch, with the box in inches about each where it lies in its block:
    how they stand by any other gap follows, for every part moves as far again as the gap is wide."""

    parts: tuple[StepPart, ...]
    boxes: tuple[Box, ...]

    @cached_property
    def largest(self) -> tuple[float, float]:
        """The width and the height in inches that one of the parts takes at least, whatever the gap."""
        wide, high = ([box[k + 2] - box[k] for box in self.boxes] for k in (0, 1))
        return max(wide), max(high)

    def by(self, gap: float) -> tuple[StepPart, ...]:
        """The parts, apart by so many inches."""
        return tuple(
            StepPart(part.name, part.pieces, (part.away[0] * gap, part.away[1] * gap), part.context)
            for part in self.parts
        )

    def box(self, gap: float, scale: float) -> Box:
        """The box in mm about them, apart by so many inches, at a scale in mm per inch."""
        shifts = ((part.away[0] * gap, part.away[1] * gap) for part in self.parts)
        left, top, right, bottom = around(
            (box[0] + x, box[1] + y, box[2] + x, box[3] + y)
            for box, (x, y) in zip(self.boxes, shifts, strict=True)
        )
        return left * scale, top * scale, right * scale, bottom * scale


def parts_apart(block: BlockPlan, parts: tuple[StepPart, ...]) -> PartsApart:
    """Parts of a block that stand apart by one inch."""
    boxes = (around(block.tiling.piece(id).outline.box for id in part.pieces) for part in parts)
    return PartsApart(parts, tuple(boxes))


def whole(block: BlockPlan, step: Step) -> PartsApart:
    """What a step makes, in one part."""
    return parts_apart(block, (StepPart("", step.pieces, (0.0, 0.0), False),))


def action_items(
    block: BlockPlan,
    step: Step,
    parts: tuple[StepPart, ...],
    looks: Looks,
    view: View,
    allowance: float,
    frame: Box,
    speaker: Speaker,
    stage: Stage | None = None,
) -> tuple[list[Item], bool]:
    """The parts apart, guides, and the seam of the step on both sides of the gap; of a step drawn run by
    run those of one `stage`. And whether numbers and words found room within the frame beside the letters."""
    home = {id: part for part in parts for id in part.pieces}
    items: list[Item] = []
    for part in sorted(parts, key=lambda p: not p.context):
        items += _unit(block, part, looks, view)
    sewn = StepSeams(
        block, step, home=home, view=view, allowance=allowance, speaker=speaker, stage=stage
    ).drawn()
    strokes = [edge for line in sewn.seams for edge in itertools.pairwise(line.points)]
    strokes += [stroke for sign in sewn.signs for stroke in sign_strokes(sign)]
    dots = [sign.at for sign in sewn.signs if sign.mark in DOTS]
    needle = _needle(stage, view, strokes, dots, frame)
    strokes += [stroke for sign in needle for stroke in sign_strokes(sign)]
    guides = [(line.points[0], line.points[1]) for line in sewn.guides]
    named = [p for p in parts if not (p.context and is_in_place(step, block.assembly))]
    letters = _letters(block, named, view, strokes, guides)  # in place, numbers take that room
    areas = [
        view.put(loop, part.away)
        for part in parts for loop in union_outline(block.tiling, part.pieces)
    ]  # fmt: skip
    strokes += guides
    all_letters = len(letters)
    letters, labels, desk = _labelled(letters, sewn.numbers, Desk(strokes, areas, frame, dots))
    roomy = desk.good and len(letters) == all_letters
    labels += _led(block, parts, view, letters, desk)
    return [*items, *letters, *sewn.guides, *sewn.seams, *sewn.signs, *needle, *labels], roomy


def _led(
    block: BlockPlan, parts: tuple[StepPart, ...], view: View, letters: list[Label], desk: Desk
) -> list[Item]:
    """The letters of single patches to be sewn on that are too small to bear them, each once, at the end of a leader."""
    shown, found = {label.text for label in letters}, list[Item]()
    for part in parts:
        if part.context or len(part.pieces) > 1 or block.tiling.block == TOP:
            continue
        piece = block.tiling.piece(part.pieces[0])
        if (letter := piece_letter(piece)) not in shown:
            shown.add(letter)
            at, _ = roomiest([view.at(p, part.away) for p in piece.outline.points])
            found += desk.led(at, letter, 8.5, part.away)
    return found


def _labelled(
    letters: list[Label], numbers: tuple[Number, ...], desk: Desk
) -> tuple[list[Label], list[Item], Desk]:
    """The numbers placed about the letters, and the desk with both; where they find no room so, the letters give way."""
    first = desk.copy()
    first.keep(letters)
    labels = _numbered(numbers, first)
    if letters and not first.good:
        labels = _numbered(numbers, desk)
        letters = [letter for letter in letters if desk.clear_of(letter)]
        first.boxes, first.strokes = desk.boxes, desk.strokes
        first.keep(letters)
    return letters, labels, first


def _numbered(numbers: tuple[Number, ...], desk: Desk) -> list[Item]:
    """The numbers one after the other, each where it finds room."""
    return [item for n in numbers for item in desk.named(n.at, n.text, 8.5, n.toward, n.of)]


def _needle(
    stage: Stage | None,
    view: View,
    strokes: list[tuple[Point, Point]],
    dots: list[Point],
    frame: Box,
) -> list[Sign]:
    """The needle where the thread of a frame is, on the part that stays."""
    if stage is None or stage.run.by is not By.HAND:
        return []
    run = stage.run
    corner = run.turns[0] if run.begun else 0
    start, then = (view.at(run.points[k]) for k in (corner, corner - 1 if run.begun else 1))
    return [needle_at(start, then, strokes, dots, frame)]


def _unit(block: BlockPlan, part: StepPart, looks: Looks, view: View) -> list[Item]:
    """The pieces of a part, and a firmer line about the whole of it."""
    areas, drawn = [], []
    for id in part.pieces:
        piece = block.tiling.piece(id)
        fill = looks[piece.fabric]
        points = view.put(piece.outline.points, part.away)
        ink = Ink.CONTEXT if part.context else Ink.PATCH
        areas.append(Area(points, tinted(fill) if part.context else fill, ink))
        drawn.append((piece, points))
    return [*together(areas), *piece_places(block.tiling.block, drawn)]


def _letters(
    block: BlockPlan,
    parts: Sequence[StepPart],
    view: View,
    strokes: list[tuple[Point, Point]],
    guides: list[tuple[Point, Point]],
) -> list[Label]:
    """A patch letter in every piece where it fits clear of the seam and its signs; in a patch that is sewn on, where
    they leave room for it, if the middle is not clear of them."""
    letters = []
    if block.tiling.block == TOP and len(block.tiling.patches) == 1:
        return []  # blocks of one kind need no names
    roomy = {patch.letter for patch in block.tiling.patches if _may_bear_a_letter(patch, view)}
    for part in parts:
        for id in part.pieces:
            piece = block.tiling.piece(id)
            if piece.patch not in roomy:
                continue
            points = view.put(piece.outline.points, part.away)
            label = letter_in(points, piece_letter(piece), LETTER, part.context, LETTER_ROOM)
            while label is not None and _touches(label, strokes):
                if label.size > SMALLEST:
                    label = replace(label, size=label.size - 0.5)
                else:
                    beside = [*strokes, *guides]
                    label = None if part.context else _off_seams(label, points, beside)
                    break
            if label is not None:
                letters.append(label)
    return letters


def _off_seams(
    label: Label, points: Sequence[Point], strokes: list[tuple[Point, Point]]
) -> Label | None:
    """A letter where a piece has most room beside the strokes that cross it; None where that is too little."""
    box, reach = box_of(points), roomiest(points)[1] + LETTER_CLEAR
    near = [(a, b) for a, b in strokes if may_reach(a, b, wider(box, reach))]

    def room(p: Point, _: float) -> float:
        off = min(to_segment(p, a, b) for a, b in near) - LETTER_CLEAR
        return min(depth(p, points) - LETTER_ROOM, off)

    at, free = best_place(box, OFF_SEAMS, lambda p: depth(p, points), room)
    return replace(label, at=at) if plate_radius(label.text, label.size) <= free else None


def _may_bear_a_letter(patch: Patch, view: View) -> bool:
    """Whether a circle as large as a patch has room for the plate of its letter."""
    room = math.sqrt(patch.area / math.pi) * view.scale
    return room > plate_radius(patch.letter, SMALLEST) + LETTER_ROOM


def _touches(label: Label, strokes: list[tuple[Point, Point]]) -> bool:
    """Whether the plate of a letter lies on a stroke."""
    least = plate_radius(label.text, label.size) + LETTER_CLEAR
    return any(to_segment(label.at, a, b) < least for a, b in strokes)


def result_items(block: BlockPlan, step: Step, looks: Looks, view: View) -> list[Item]:
    """The unit made, with the seam just sewn and which way it is pressed."""
    part = StepPart("", step.pieces, (0.0, 0.0), False)
    items = _unit(block, part, looks, view)
    for run in step.runs:
        ink = Ink.HAND if run.by is By.HAND else Ink.MACHINE
        for id in run.seams:
            path = block.tiling.seam(id).path
            points = tuple(view.at(p) for p in path)
            if step.leave is not None:
                half = middle(points)
                near = points[0] if path[0] == run.points[0] else points[-1]
                items += [Line(points=(near, half), ink=ink), Sign(half, Mark.OPEN)]
            else:
                items.append(Line(points=points, ink=ink, halo=True))
    for rim in union_outline(block.tiling, step.pieces):
        items.append(Area(tuple(view.at(p) for p in rim), None, Ink.PATCH))
    items += press_arrows(block, step, view)
    return items


def press_arrows(block: BlockPlan, step: Step, view: View) -> list[Item]:
    """Arrows across the seams that are pressed after this step, one for each straight stretch and each curve."""
    items: list[Item] = []
    for run in step.runs:
        longest: dict[Hashable, tuple[Seam, Point, bool]] = {}
        for id in run.seams:
            seam, pressed = block.tiling.seam(id), block.pressing.pressed.get(id)
            if pressed is None or block.pressing.after.get(id) != step.n or step.leave is not None:
                continue
            across = right_of(direction(seam.start, seam.end))
            if pressed.toward == seam.between[1]:
                across = (-across[0], -across[1])
            across = (round(across[0], 3), round(across[1], 3))
            open_ = pressed.toward is None
            room = ARROW_ROOM if block.pressing.at_end else LITTLE_ROOM
            if block.tiling.block == TOP and seam.length * view.scale < room:
                continue  # a whole top: the table of joins says it
            key = (open_, _bend(seam, across) or across)
            if key not in longest or seam.length > longest[key][0].length + NOISE:
                longest[key] = (seam, across, open_)
        for seam, across, open_ in longest.values():
            items.append(_press_arrow(block, seam, across, open_, view))
    return items


def _bend(seam: Seam, across: Point) -> int:
    """Whether a seam bends that way (1) or the other (-1); 0 where it is straight."""
    if len(seam.path) == 2:
        return 0
    bulge = direction(middle((seam.start, seam.end)), middle(seam.path))
    return 1 if dot(bulge, across) > 0 else -1


def _press_arrow(block: BlockPlan, seam: Seam, across: Point, open_: bool, view: View) -> Line:
    """The arrow at the middle of a seam, short enough for the patches it lies on."""
    at = middle([view.at(p) for p in seam.path])
    rooms = [roomiest(block.tiling.piece(id).outline.points)[1] * view.scale for id in seam.between]
    reach = min(max(1.2 * min(rooms), 2.4), 4.0)
    back = reach if open_ else 0.55 * reach
    ends = (plus(at, across, -back), plus(at, across, reach))
    return Line(points=ends, ink=Ink.ARROW, start_arrow=open_, end_arrow=True, halo=True)
