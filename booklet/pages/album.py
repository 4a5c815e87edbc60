"""Floor 11, the album: the drawn pictures of one size, made when a page asks for them."""

from __future__ import annotations

import base64
from collections.abc import Callable
from dataclasses import dataclass, field

from booklet.drawing.block import (
    block_figure,
    patch_key_figure,
    swatch_figure,
    thumbnail_figure,
)
from booklet.drawing.fills import Looks, looks_of
from booklet.drawing.pressing import pressing_figure
from booklet.drawing.quilt import (
    backing_figure,
    border_figure,
    colouring_figure,
    cover_figure,
    layout_figure,
)
from booklet.drawing.scene import Figure
from booklet.drawing.step import step_figure
from booklet.pages.figures import FigureSource, Room
from booklet.plan import BlockPlan, Plan, SizePlan, StepCard

Maker = Callable[[], Figure | None]


@dataclass(slots=True)
class DrawnAlbum:
    """Pictures by name, each drawn once."""

    makers: dict[str, Maker]
    drawn: dict[str, Figure | None] = field(default_factory=dict)

    def figure(self, name: str) -> Figure | None:
        """The figure of that name, or None."""
        if name not in self.drawn:
            maker = self.makers.get(name)
            self.drawn[name] = maker() if maker is not None else None
        return self.drawn[name]

    def series(self, name: str) -> tuple[Figure, ...]:
        """The figures `NAME 1`, `NAME 2`, … in order."""
        found: list[Figure] = []
        while (figure := self.figure(f"{name} {len(found) + 1}")) is not None:
            found.append(figure)
        return tuple(found)


def drawn(plan: Plan) -> FigureSource:
    """The pictures of a plan: the same cloth looks the same in every size."""
    looks = looks_of(plan)
    return lambda size, room: DrawnAlbum(_makers(size, room, looks))


def _makers(size: SizePlan, room: Room, looks: Looks) -> dict[str, Maker]:
    """How each picture of a size is made, by name."""
    wide, tall = room.width_mm, room.depth_mm
    makers: dict[str, Maker] = {
        "cover": lambda: cover_figure(size, looks, wide, tall * 0.66),
        "patches": lambda: patch_key_figure(size, looks, wide),
        "colouring": lambda: colouring_figure(size, wide, tall - 20),
        "backing": lambda: backing_figure(size, looks, room.column_mm),
    }
    if size.quilt.finished is not None:
        makers["quilt"] = lambda: layout_figure(size, looks, wide * 0.75, tall * 0.66)
        for border in size.quilt.borders:
            makers[f"border {border.number}"] = _border(size, border.number, looks, room)
    for id in size.size.fabrics:
        makers[f"swatch {id}"] = _swatch(size, id, looks)
    for block in size.blocks:
        makers |= _block_makers(size, block, room, looks)
    return makers


def _block_makers(size: SizePlan, block: BlockPlan, room: Room, looks: Looks) -> dict[str, Maker]:
    """How the pictures of one block are made."""
    id, allowance = block.block.id, float(size.pattern.allowance)
    makers: dict[str, Maker] = {
        f"block {id}": lambda: block_figure(size, block, looks, min(80.0, room.column_mm * 0.75)),
        f"press {id}": lambda: pressing_figure(
            block, min(120.0, room.width_mm), allowance, room.depth_mm * 0.6
        ),
    }
    for card in block.cards:
        makers[f"step {id} {card.n}"] = _step(block, card, looks, room, allowance)
        makers[f"thumb {id} {card.n}"] = _thumb(block, card, looks)
    return makers


def _step(block: BlockPlan, card: StepCard, looks: Looks, room: Room, allowance: float) -> Maker:
    return lambda: step_figure(block, card, looks, room.column_mm, allowance)


def _thumb(block: BlockPlan, card: StepCard, looks: Looks) -> Maker:
    return lambda: thumbnail_figure(block, card, looks, 12.0)


def _border(size: SizePlan, number: int, looks: Looks, room: Room) -> Maker:
    return lambda: border_figure(size, number, looks, room.column_mm)


def _swatch(size: SizePlan, fabric: str, looks: Looks) -> Maker:
    return lambda: swatch_figure(size, fabric, looks, 5.0)


def swatch_address(figure: Figure) -> str:
    """A `data:` address of a small picture that stands beside its own name."""
    svg = figure.svg
    if "xmlns=" not in svg.split(">", 1)[0]:
        svg = svg.replace("<svg ", '<svg xmlns="http://www.w3.org/2000/svg" ', 1)
    return f"data:image/svg+xml;base64,{base64.b64encode(svg.encode('utf-8')).decode('ascii')}"
