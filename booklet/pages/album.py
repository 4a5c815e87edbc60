"""Floor 11, the album: the drawn pictures of one size, made when a page asks for them."""

from __future__ import annotations

import base64
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import partial

from booklet.drawing.cloths.allowance import allowance_figure
from booklet.drawing.cloths.angled import angled_figure
from booklet.drawing.cloths.cutting_order import cloth_figure
from booklet.drawing.cloths.together import together_figure
from booklet.drawing.ink.fills import Looks, looks_of
from booklet.drawing.ink.svg import figure
from booklet.drawing.quilts.back import backing_figure
from booklet.drawing.quilts.block import (
    block_figure,
    patch_key_figure,
    swatch_figure,
    thumbnail_figure,
)
from booklet.drawing.quilts.border import border_figure
from booklet.drawing.quilts.edges import bias_figure, sleeve_figure
from booklet.drawing.quilts.finishing import binding_figure, layers_figure
from booklet.drawing.quilts.legend import legend_figure
from booklet.drawing.quilts.quilt import (
    colouring_figure,
    cover_figure,
    layout_figure,
    sizes_figure,
)
from booklet.drawing.quilts.slanted import slanted_figure
from booklet.drawing.scene import Figure, Scene
from booklet.drawing.steps.chains import chain_figures
from booklet.drawing.steps.practice import practice_figure
from booklet.drawing.steps.route_sheet import route_sheet_figure
from booklet.drawing.steps.step import best_width, step_figure
from booklet.drawing.steps.threads import thread_scenes
from booklet.drawing.templates.marking import marking_figures
from booklet.drawing.templates.template_pages import template_figures
from booklet.pages.figures import FigureSource, Room
from booklet.pages.paper import SHEETS
from booklet.pages.press_pictures import block_press_makers, press_makers
from booklet.pages.view import allowance_test
from booklet.plan import BlockPlan, Plan, SizePlan
from booklet.words import ENGLISH, Speaker, Text, words_of

POCKET = (45.0, 92.0)  # mm: routes on a card of 4 by 6 inches, three beside each other or one

Maker = Callable[[], Figure | None]
RowMaker = Callable[[], tuple[Figure, ...]]


@dataclass(slots=True)
class DrawnAlbum:
    """Pictures by name, each drawn once; `rows` make several at a time, numbered from 1."""

    makers: dict[str, Maker]
    rows: dict[str, RowMaker]
    drawn: dict[str, tuple[Figure, ...]] = field(default_factory=dict)

    def figure(self, name: str) -> Figure | None:
        """The figure of that name, or None."""
        if name not in self.drawn:
            maker = self.makers.get(name)
            figure = maker() if maker is not None else None
            self.drawn[name] = (figure,) if figure is not None else ()
        return next(iter(self.drawn[name]), None)

    def series(self, name: str) -> tuple[Figure, ...]:
        """The figures of a row in order."""
        if name not in self.drawn:
            maker = self.rows.get(name)
            self.drawn[name] = maker() if maker is not None else ()
        return self.drawn[name]


def drawn(plan: Plan, low_ink: bool = False) -> FigureSource:
    """The pictures of a plan. A cloth looks the same in every size; documents with the same room
    for pictures share them."""
    looks = looks_of(plan, low_ink)
    albums: dict[tuple[str, Room], DrawnAlbum] = {}

    def album(size: SizePlan, room: Room) -> DrawnAlbum:
        key = (size.size.id, room)
        if key not in albums:
            albums[key] = DrawnAlbum(
                _makers(plan, size, room, looks), _row_makers(size, room, looks)
            )
        return albums[key]

    return album


def _makers(plan: Plan, size: SizePlan, room: Room, looks: Looks) -> dict[str, Maker]:
    """How each picture of a size is made, by name."""
    curved = any(len(seam.path) > 2 for block in size.blocks for seam in block.tiling.seams)
    wide, tall = room.width_mm, room.depth_mm
    speaker = words_of(plan.pattern.language)
    makers: dict[str, Maker] = {
        "cover": lambda: cover_figure(size, looks, _width(size, wide, tall), tall),
        "sizes": lambda: sizes_figure(plan, looks, wide, 78.0, size.size.id),
        "patches": lambda: patch_key_figure(size, looks, wide),
        "colouring": lambda: colouring_figure(size, wide, tall - 25),
        "backing": lambda: backing_figure(size, looks, min(room.column_mm, 46.0)),
        "layers": lambda: layers_figure(size, looks, min(room.column_mm, 81.5)),
        "binding": lambda: binding_figure(size, looks, min(room.column_mm, 81.5)),
        "bias": lambda: bias_figure(size, looks, min(room.column_mm, 81.5)),
        "sleeve": lambda: sleeve_figure(size, looks, min(room.column_mm, 60.0)),
        "allowance": lambda: allowance_figure(
            f"{size.size.id}-allowance",
            looks,
            *allowance_test(size.pattern),
            room.column_mm,
            speaker,
        ),
        "practice": lambda: practice_figure(size, wide, tall - 25),
        "legend": lambda: legend_figure(f"{size.size.id}-legend", looks, wide, speaker, curved),
        **press_makers(size, room),
    }
    if size.quilt.finished is not None:
        makers["quilt"] = lambda: layout_figure(size, looks, wide * 0.75, tall * 0.6)
        makers["rows"] = lambda: slanted_figure(size, looks, wide * 0.75, tall * 0.6)
    for id in size.size.fabrics:
        makers[f"swatch {id}"] = partial(swatch_figure, size, id, looks, 5.0)
    for unit in size.cutting.together:
        makers[f"together {unit.name}"] = partial(together_figure, size, unit, looks)
    for cloth in size.cutting.fabrics:
        makers[f"cloth {cloth.fabric}"] = partial(
            cloth_figure, size, cloth, looks, min(wide, 124.0)
        )
        for patch in size.cutting.patches:
            if patch.fabric == cloth.fabric:
                makers[f"angle {patch.fabric} {patch.name}"] = partial(
                    angled_figure, size, cloth, patch, looks, room.column_mm
                )
    for block in size.blocks:
        makers |= _block_makers(size, block, room, looks)
    return makers


def _width(size: SizePlan, wide: float, tall: float) -> float:
    """The width of the whole quilt in mm where it fills a space of `wide` by `tall`."""
    if size.quilt.finished is None:
        return wide
    across, down = (float(side) for side in size.quilt.finished)
    return min(wide, tall * across / down)


def _block_makers(size: SizePlan, block: BlockPlan, room: Room, looks: Looks) -> dict[str, Maker]:
    """How the pictures of one block are made."""
    id, allowance = block.block.id, float(size.allowance)
    speaker = words_of(size.pattern.language)
    makers: dict[str, Maker] = {
        f"block {id}": lambda: block_figure(
            size, block, looks, min(room.column_mm * 0.6, room.width_mm * 0.38)
        ),
        f"route sheet {id}": lambda: route_sheet_figure(
            block, room.width_mm * 0.8, room.depth_mm * 0.55
        ),
        **block_press_makers(size, block, room),
    }
    for card, width in zip(block.cards, card_widths(block, room, speaker), strict=True):
        makers[f"step {id} {card.n}"] = partial(
            step_figure, block, card, looks, width, allowance, room.step_height, speaker
        )
        makers[f"thumb {id} {card.n}"] = partial(thumbnail_figure, block, card, looks, 11.0)
    return makers


def card_widths(block: BlockPlan, room: Room, speaker: Speaker = ENGLISH) -> tuple[float, ...]:
    """The width in mm of each card's picture. Cards in a column come in pairs, so that one without a
    neighbour takes its words beside it."""
    widths = [
        best_width(block, card, room.step_widths, room.step_height, speaker) for card in block.cards
    ]
    at = 0
    while at < len(widths):
        if widths[at] > room.column_mm or room.column_mm == room.width_mm:
            at += 1
        elif widths[at + 1 : at + 2] == [room.column_mm]:
            at += 2
        else:
            widths[at] = room.beside_mm
            at += 1
    return tuple(widths)


def _row_makers(size: SizePlan, room: Room, looks: Looks) -> dict[str, RowMaker]:
    """How the pictures that come in rows are made, by name."""
    rows: dict[str, RowMaker] = {}
    for paper, sheet in SHEETS.items():
        area = sheet.template_area_mm
        rows[f"templates {paper.value}"] = partial(template_figures, size, *area)
        rows[f"marking {paper.value}"] = partial(marking_figures, size, *area)
        rows[f"marking quilt {paper.value}"] = partial(marking_figures, size, *area, whole=True)
    for block in size.blocks:
        rows[f"chain {block.block.id}"] = partial(
            chain_figures, block, looks, room.width_mm, words_of(size.pattern.language)
        )
        rows[f"thread {block.block.id}"] = partial(_threads, size, block, looks, room)
        rows[f"pocket {block.block.id}"] = partial(_pocket, size, block, looks)
    if size.quilt.finished is not None:
        numbers = [border.number for border in size.quilt.borders]
        rows["border"] = lambda: tuple(
            border_figure(
                size,
                number,
                looks,
                min(
                    room.column_mm,
                    room.depth_mm / 3.6 if room.width_mm == room.column_mm else room.column_mm,
                ),
            )
            for number in numbers
        )
    return rows


def _threads(size: SizePlan, block: BlockPlan, looks: Looks, room: Room) -> tuple[Figure, ...]:
    """The pictures of a block's hand routes."""
    return tuple(figure(*drawn) for drawn in route_scenes(size, block, looks, room))


def _pocket(size: SizePlan, block: BlockPlan, looks: Looks) -> tuple[Figure, ...]:
    """The routes of a block for a card of the pocket: as small as their numbers allow."""
    units = size.pattern.units
    small, wide = (thread_scenes(block, looks, width, units) for width in POCKET)
    chosen = (one if one[2] else other for one, other in zip(small, wide, strict=True))
    return tuple(figure(scene, caption) for scene, caption, _ in chosen)


def route_scenes(
    size: SizePlan, block: BlockPlan, looks: Looks, room: Room
) -> tuple[tuple[Scene, Text], ...]:
    """The hand routes with their captions, each as small as its numbers allow; two share a row."""
    units = size.pattern.units
    widths = [min((room.width_mm - 10) / room.threads_across, 64.0), room.column_mm, room.width_mm]
    tried = [thread_scenes(block, looks, widths[0], units)]
    if 0 < len(tried[0]) <= 2 and room.threads_across > 2:
        widths = widths[1:]
        tried = [thread_scenes(block, looks, widths[0], units)]
    if not all(good for _, _, good in tried[0]):
        tried += [thread_scenes(block, looks, width, units) for width in widths[1:]]
    routes = zip(*tried, strict=True)
    return tuple(next((one for one in route if one[2]), route[-1])[:2] for route in routes)


def swatch_address(figure: Figure) -> str:
    """A `data:` address of a small picture that stands beside its own name."""
    svg = figure.svg
    if "xmlns=" not in svg.split(">", 1)[0]:
        svg = svg.replace("<svg ", '<svg xmlns="http://www.w3.org/2000/svg" ', 1)
    return f"data:image/svg+xml;base64,{base64.b64encode(svg.encode('utf-8')).decode('ascii')}"
