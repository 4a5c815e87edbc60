"""Floor 10: a chain: alike units in a row under the needle, or laid out beside the machine in feeding order."""

from __future__ import annotations

from booklet.drawing.ink.fills import Looks
from booklet.drawing.ink.svg import figure
from booklet.drawing.lettering.labels import letter_in
from booklet.drawing.scene import Area, Figure, Fill, Ink, Item, Label, Line, Mark, Scene, Sign
from booklet.drawing.steps.chain_laid import can_be_laid
from booklet.drawing.steps.chain_rows import COUNT_ROOM, MOST, under_needle
from booklet.drawing.steps.units import exploded, step_seams
from booklet.drawing.told import piece_letter
from booklet.drawing.viewport import View
from booklet.kit.measure import INCH_MM
from booklet.kit.outlines.plane import Point, box_of
from booklet.kit.words import Speaker, Text, listing, phrase
from booklet.pattern import By
from booklet.plan import BlockPlan, StepCard
from booklet.plan.cards.chaining import is_chained
from booklet.sewing.assembly import Step

MACHINE_WIDTH = 24.0
GAP = 0.35  # inches between the parts of a unit


def chain_figures(
    block: BlockPlan, looks: Looks, width: float = 170.0, *, speaker: Speaker
) -> tuple[Figure, ...]:
    """A picture of every chain: of each card that says so."""
    cards = [card for card in block.cards if is_chained(card)]
    return tuple(
        _under_needle(block, card, n, looks, width, speaker)
        if can_be_laid(card.step)
        else _beside(block, card, n, looks, width)
        for n, card in enumerate(cards, 1)
    )


def _under_needle(
    block: BlockPlan, card: StepCard, n: int, looks: Looks, width: float, speaker: Speaker
) -> Figure:
    """Units in rows under the needle."""
    drawn = under_needle(block, card, looks, width, speaker=speaker)
    name = f"{block.tiling.size}-{block.tiling.block}-chain-{n}"
    title = phrase("Chain {n}", n=n)
    scene = Scene.of(name, (width, drawn.high), drawn.items, title, drawn.told)
    return figure(scene, _caption(card, n, [drawn.lies]))


def _caption(card: StepCard, n: int, more: list[Text]) -> Text:
    """What stands under a chain: how many, and the stitch length that fills its seams."""
    counts = phrase(
        "Chain {chain}, step {step}: {n} in all, {each} for one block.",
        chain=n,
        step=card.n,
        n=card.total,
        each=card.make,
    )
    if card.make == card.total:
        counts = phrase(
            "Chain {chain}, step {step}: {n} in all.", chain=n, step=card.n, n=card.total
        )
    caption: list[Text] = [counts, *more]
    if card.setting is not None:
        caption.append(phrase("Stitch length {setting}.", setting=card.setting))
    return listing(caption, "sentences")


def _beside(block: BlockPlan, card: StepCard, n: int, looks: Looks, width: float) -> Figure:
    """Units in a row beside the machine, their parts apart, all the same way up."""
    step, shown = card.step, min(card.total, MOST)
    box = _extent(block, step)
    room = (width - MACHINE_WIDTH - 10) / MOST
    wide, tall = box[2] - box[0], box[3] - box[1]
    scale = min((room - 6) / wide, 30.0 / tall, INCH_MM / 2)
    high = max(tall * scale, 16.0)
    height = high + 13.0
    base = height - 5.5
    x = MACHINE_WIDTH + 4
    end = width - COUNT_ROOM if card.total > MOST else x + room * (shown - 0.5)
    items: list[Item] = [Line(points=((MACHINE_WIDTH * 0.55, base), (end, base)), ink=Ink.THREAD)]
    items += _machine((1.0, 3.0), high)
    for place in range(1, shown + 1):
        middle = x + room / 2
        shift = (
            middle - (wide / 2 + box[0]) * scale,
            3 + (high - (box[1] + box[3]) * scale) / 2,
        )
        items += _unit(block, step, looks, View(scale, shift))
        items.append(
            Label(at=(middle, base + 2.6), text=str(place), size=8.0, bold=True, accent=True)
        )
        items.append(Sign((middle, base), Mark.SMALL))
        x += room
    if card.total > MOST:
        items.append(
            Label(at=(width - 0.5, base), text=f"… {card.total}", size=9.0, anchor="end", bold=True)
        )
    parts = listing(card.parts)
    alt = phrase(
        "Beside the machine, in feeding order, {n} times: {parts}.", n=card.total, parts=parts
    )
    name = f"{block.tiling.size}-{block.tiling.block}-chain-{n}"
    scene = Scene.of(name, (width, height), items, phrase("Chain {n}", n=n), alt)
    return figure(scene, _caption(card, n, []))


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
            items.append(Line(points=tuple(view.at(p, home[id]) for p in seam.path), ink=ink))
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
        Area(head, look, Ink.CUT), Area(bed, look, Ink.CUT), Line(points=needle, ink=Ink.GRAIN),
        Line(points=foot, ink=Ink.PATCH),
    ]  # fmt: skip
