"""Floor 10: a chain: the parts of one batch in feeding order, as they lie beside the machine."""

from __future__ import annotations

from booklet.drawing.fills import Looks
from booklet.drawing.labels import letter_in
from booklet.drawing.plane import box_of
from booklet.drawing.scene import (
    Area,
    Figure,
    Fill,
    Ink,
    Item,
    Label,
    Line,
    Mark,
    Point,
    Scene,
    Sign,
)
from booklet.drawing.svg import figure
from booklet.drawing.told import piece_letter
from booklet.drawing.units import exploded, step_seams
from booklet.drawing.views import View
from booklet.pattern import By
from booklet.plan import BlockPlan
from booklet.sewing.assembly import Batch, Step
from booklet.words import Digits, Text, listing, phrase, plural_phrase

MACHINE_WIDTH = 24.0
MOST = 4  # units drawn before the row breaks off
GAP = 0.35  # inches between the parts of a unit


def chain_figures(block: BlockPlan, looks: Looks, width: float = 170.0) -> tuple[Figure, ...]:
    """A picture of every batch of two or more."""
    batches = [batch for batch in block.assembly.batches if len(batch.steps) > 1]
    return tuple(_figure(block, batch, n, looks, width) for n, batch in enumerate(batches, 1))


def _figure(block: BlockPlan, batch: Batch, n: int, looks: Looks, width: float) -> Figure:
    """The units of a batch in a row, the first next to the machine."""
    steps = [step for step in block.assembly.steps if step.n in batch.steps]
    # alike units are fed the same way up, so each lies as the first of its card
    first: dict[int, Step] = {}
    shown = [first.setdefault(step.card, step) for step in steps][:MOST]
    boxes = [_extent(block, step) for step in shown]
    room = (width - MACHINE_WIDTH - 10) / MOST
    widest = max(box[2] - box[0] for box in boxes)
    tallest = max(box[3] - box[1] for box in boxes)
    scale = min((room - 6) / widest, 30.0 / tallest, 25.4 / 2)
    high = max(tallest * scale, 16.0)
    height = high + 13.0
    items: list[Item] = _machine((1.0, 3.0), high)
    x = MACHINE_WIDTH + 4
    base = height - 5.5
    for place, (step, box) in enumerate(zip(shown, boxes, strict=True), 1):
        wide = (box[2] - box[0]) * scale
        middle = x + room / 2
        shift = (middle - wide / 2 - box[0] * scale, 3 + (high - (box[1] + box[3]) * scale) / 2)
        items += _unit(block, step, looks, View(scale, shift))
        items.append(Label((middle, base + 2.6), str(place), 8.0, bold=True, accent=True))
        items.append(Sign((middle, base), Mark.SMALL))
        x += room
    items.insert(
        0,
        Line(
            ((MACHINE_WIDTH * 0.55, base), (x if len(steps) > MOST else x - room / 2, base)),
            Ink.THREAD,
        ),
    )
    if len(steps) > MOST:
        items.append(Label((width - 0.5, base), "…", 10.0, "end", bold=True))
    letters = [listing([_told(block, part) for part in step.join]) for step in shown]
    order = [phrase("{n}: {unit}", n=i, unit=unit) for i, unit in enumerate(letters, 1)]
    told: list[Text] = [
        phrase("Beside the machine, in feeding order: {units}.", units=listing(order, "semicolons"))
    ]
    if len(steps) > MOST:
        told.append(phrase("{n} in all for one block.", n=len(steps)))
    scene = Scene(
        f"{block.tiling.size}-{block.tiling.block}-chain-{n}",
        width,
        height,
        tuple(items),
        phrase("Chain {n}", n=n),
        listing(told, "sentences"),
    )
    caption: list[Text] = [
        plural_phrase(
            "Chain {chain}, step {step}: {n} unit for one block, in feeding order.",
            "Chain {chain}, step {step}: {n} units for one block, in feeding order.",
            len(steps),
            chain=n,
            step=steps[0].card,
        )
    ]
    if batch.setting_mm is not None:
        setting = Digits(f"{batch.setting_mm:.1f}")
        caption.append(phrase("Stitch length {setting} mm.", setting=setting))
    return figure(scene, listing(caption, "sentences"))


def _told(block: BlockPlan, name: str) -> Text:
    """A part by its patch letters."""
    pieces = block.assembly.units.get(name, (name,))
    letters = [block.tiling.piece(id).patch for id in pieces]
    if len(letters) == 1:
        return letters[0]
    return phrase("the unit of {patches}", patches=listing(sorted(letters), "commas"))


def _extent(block: BlockPlan, step: Step) -> tuple[float, float, float, float]:
    """The box in inches about the parts of a step lying apart."""
    return box_of(
        (p[0] + part.away[0], p[1] + part.away[1])
        for part in exploded(block.assembly, step, GAP)
        for id in part.pieces
        for p in block.tiling.piece(id).outline.points
    )


def _unit(block: BlockPlan, step: Step, looks: Looks, view: View) -> list[Item]:
    """The parts of one step apart, the edges that are sewn together marked."""
    items: list[Item] = []
    home: dict[str, Point] = {}
    for part in exploded(block.assembly, step, GAP):
        for id in part.pieces:
            home[id] = part.away
            piece = block.tiling.piece(id)
            points = tuple(view.at(p, part.away) for p in piece.outline.points)
            items.append(Area(points, looks[piece.fabric], Ink.PATCH))
            label = letter_in(points, piece_letter(piece), 8.5, room=0.2)
            items += [label] if label is not None else []
    ink = Ink.HAND if step.by is By.HAND else Ink.MACHINE
    for seam in step_seams(block.assembly, step):
        for id in seam.between:
            items.append(Line(tuple(view.at(p, home[id]) for p in seam.path), ink))
    return items


def _machine(corner: Point, high: float) -> list[Item]:
    """A plain outline of a sewing machine: head, needle, foot and bed, level with the thread."""
    x, bottom = corner[0], corner[1] + high + 4.5
    y = bottom - 19.0
    head = (
        (x, y), (x + 17, y), (x + 17, y + 5.5), (x + 14.5, y + 7), (x + 14.5, y + 10), (x + 10.5, y + 10),
        (x + 10.5, y + 7), (x + 5, y + 7), (x + 5, bottom), (x, bottom),
    )  # fmt: skip
    bed = ((x, bottom), (x + 20, bottom), (x + 20, bottom + 2.2), (x, bottom + 2.2))
    look = Fill("#e9e6df")
    needle = ((x + 12.5, y + 10), (x + 12.5, bottom - 0.4))
    foot = ((x + 10.9, bottom - 0.5), (x + 14.1, bottom - 0.5))
    return [
        Area(head, look, Ink.CUT), Area(bed, look, Ink.CUT), Line(needle, Ink.GRAIN),
        Line(foot, Ink.PATCH),
    ]  # fmt: skip
