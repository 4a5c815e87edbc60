"""Floor 11, the album: the drawn pictures of one size, made when a page asks for them."""

from __future__ import annotations

import base64
import math
from collections.abc import Callable, Mapping, Sequence
from functools import cache, partial
from typing import Any, TypeVar

from booklet.cutting.cutting_plan import FabricPlan
from booklet.drawing.cloths.allowance import allowance_figure
from booklet.drawing.cloths.angled import angled_figure
from booklet.drawing.cloths.cutting_order import cloth_figure, is_short
from booklet.drawing.cloths.edges import bias_figure, envelope_figure, sleeve_figure
from booklet.drawing.cloths.together import together_figure
from booklet.drawing.faces import faces_figures
from booklet.drawing.guides import guide_figures
from booklet.drawing.ink.fills import Looks, looks_of
from booklet.drawing.ink.svg import figure
from booklet.drawing.layer import layer_figure
from booklet.drawing.lettering.text_widths import wrapped
from booklet.drawing.quilts.back import backing_figure
from booklet.drawing.quilts.block import (
    block_figure,
    patch_key_figure,
    swatch_figure,
    thumbnail_figure,
)
from booklet.drawing.quilts.border import border_figure
from booklet.drawing.quilts.finishing import binding_figure, layers_figure
from booklet.drawing.quilts.legend import legend_figure
from booklet.drawing.quilts.mitre import mitre_figure
from booklet.drawing.quilts.quilt import colouring_figure, cover_figure, layout_figure, sizes_figure
from booklet.drawing.quilts.slanted import slanted_figure
from booklet.drawing.scales import Scale
from booklet.drawing.scene import Figure
from booklet.drawing.steps.chains import chain_figures
from booklet.drawing.steps.route_sheet import route_sheet_figure
from booklet.drawing.steps.step import step_figure
from booklet.drawing.steps.step_scale import StepScales, shared_scales
from booklet.drawing.steps.threads import thread_scenes
from booklet.drawing.templates.foundation_sheets import foundation_figures
from booklet.drawing.templates.marking import marking_figures
from booklet.drawing.templates.practice import practice_figure
from booklet.drawing.templates.template_pages import template_figures
from booklet.kit.measure import POINT_MM, UnitSystem
from booklet.kit.records import Mutable, field
from booklet.kit.remembered.memory import Ask, plainly
from booklet.kit.words import Speaker, listing, words_of
from booklet.pages.pictures.bare import bare_plan, named_only
from booklet.pages.pictures.figures import Figures, FigureSource, Room, column_width
from booklet.pages.pictures.press_pictures import block_press_makers, press_makers
from booklet.pages.style.paper import SHEETS
from booklet.pages.tables.view import allowance_test
from booklet.pattern import By
from booklet.plan import BlockPlan, Plan, SizePlan, StepCard
from booklet.plan.cards.routes import routes

HEADED = 40.0  # mm: what the heading of a page, its first words and a caption of two lines take at the most
ABOUT_CARD = 34.0  # mm: what title, caption and the box to tick of a card take
CARD_TYPE = (
    9.5,
    13.5,
    3.375,
)  # points, as in `style.css`: its words, their lines, what parts two paragraphs
LAYER = 64.0  # mm: no higher is the picture of shapes laid on a block
ROUTE = (0.5, 0.55)  # of the width of a page: so wide is a hand route where its numbers have room
POCKET = (45.0, 92.0)  # mm: routes on a card of 4 by 6 inches, three beside each other or one

OF_CARDS = {"step", "thumb"}
"""The first words of the names of pictures of cards."""

Maker = Callable[[], Figure | None]
RowMaker = Callable[[], tuple[Figure, ...]]
T = TypeVar("T")


class DrawnAlbum(Mutable):
    """Pictures by name, each drawn once; `rows` make several at a time, numbered from 1. How pictures are made is worked out
    when one of them is asked for: the room of cards has no others, and how cards are drawn takes its time."""

    single: Callable[[], dict[str, Maker]]
    cards: Callable[[], dict[str, Maker]]
    rows: dict[str, RowMaker]
    drawn: dict[str, tuple[Figure, ...]] = field(default_factory=dict)

    def figure(self, name: str) -> Figure | None:
        """The figure of that name, or None."""
        if name not in self.drawn:
            of_card = name.split(" ")[0] in OF_CARDS
            maker = (self.cards if of_card else self.single)().get(name)
            figure = maker() if maker is not None else None
            self.drawn[name] = (figure,) if figure is not None else ()
        return next(iter(self.drawn[name]), None)

    def series(self, name: str) -> tuple[Figure, ...]:
        """The figures of a row in order."""
        if name not in self.drawn:
            maker = self.rows.get(name)
            self.drawn[name] = maker() if maker is not None else ()
        return self.drawn[name]


def drawn(
    plan: Plan, low_ink: bool = False, ask: Ask = plainly, bare: Plan | None = None
) -> FigureSource:
    """The pictures of a plan, of what its class and its parts make, and of its colourways and layouts. A cloth looks the same in every size; documents with the same room
    for pictures share them. `ask` has each picture made: anew, or as it remembers it. `bare` is the
    plan as pictures read it, where that is known."""
    looks, bare = looks_of(plan, low_ink), bare or bare_plan(plan)
    own = _drawn(plan, bare, looks, ask)
    student = plan.student and bare.student and _drawn(plan.student, bare.student, looks, ask)
    kits = plan.kits and bare.kits and _drawn(plan.kits, bare.kits, looks, ask)
    parts = [
        _drawn(part, bare_part, looks, ask)
        for part, bare_part in zip(plan.parts, bare.parts, strict=True)
    ]
    others = {
        other.pattern.alternative: drawn(other, low_ink, ask, bare_other)
        for other, bare_other in zip(plan.alternatives, bare.alternatives, strict=True)
    }

    def album(size: SizePlan, room: Room) -> Figures:
        made = size.size.in_class
        if size.pattern.alternative in others:
            return others[size.pattern.alternative](size, room)
        if made is not None and made.part:
            return parts[made.part - 1](size, room)
        source = own if made is None else student if made.kits is None else kits
        return (source or own)(size, room)

    return album


def _drawn(
    plan: Plan, bare: Plan, looks: Looks, ask: Ask
) -> Callable[[SizePlan, Room], DrawnAlbum]:
    """The pictures of the sizes of a plan."""
    named = {size.size.id: named_only(plan, size) for size in bare.sizes}
    sizes = {size.size.id: size for size in bare.sizes}
    albums: dict[tuple[str, Room], DrawnAlbum] = {}

    def album(size: SizePlan, room: Room) -> DrawnAlbum:
        id = size.size.id
        if (id, room) not in albums:
            single = cache(lambda: _asked(_makers(bare, sizes[id], room, looks), ask))
            rows = _asked(_row_makers(sizes[id], named[id], room, looks), ask)
            rows |= _template_makers(named[id], ask)
            cards = cache(lambda: _asked(_cards(sizes[id], room, looks, ask), ask))
            albums[id, room] = DrawnAlbum(single, cards, rows)
        return albums[id, room]

    return album


def _asked(makers: Mapping[str, partial[Any]], ask: Ask) -> dict[str, Callable[[], Any]]:
    """The makers, each to be asked for what it makes."""
    return {
        name: partial(ask, made.func, *made.args, **made.keywords) for name, made in makers.items()
    }


def _makers(plan: Plan, size: SizePlan, room: Room, looks: Looks) -> dict[str, partial[Any]]:
    """How each picture of a size is made but those of cards, by name."""
    wide, tall = room.width_mm, room.depth_mm
    speaker = words_of(plan.pattern.tongue)
    column = room.column_mm
    makers: dict[str, partial[Any]] = {
        "cover": partial(cover_figure, size, looks, _width(size, wide, tall), tall),
        "sizes": partial(sizes_figure, plan, looks, wide, 64.0, size.size.id),
        "colouring": partial(colouring_figure, size, wide, tall - HEADED),
        "backing": partial(backing_figure, size, looks, min(column, 46.0)),
        "layers": partial(layers_figure, size, looks, min(column, 81.5)),
        "binding": partial(binding_figure, size, looks, min(column, 81.5)),
        "bias": partial(bias_figure, size, looks, min(column, 81.5)),
        "sleeve": partial(sleeve_figure, size, looks, min(column, 60.0)),
        "envelope": partial(envelope_figure, size, looks, min(column, 60.0)),
        "allowance": partial(
            allowance_figure,
            f"{size.size.id}-allowance",
            looks,
            *allowance_test(size.pattern),
            column,
            speaker=speaker,
        ),
        "practice": partial(practice_figure, size, wide, tall - (25 if column == wide else 84)),
        "legend": partial(legend_figure, size.size.id, (size,), looks, wide),
        "legend of all": partial(legend_figure, "all", plan.sizes, looks, wide),
        **press_makers(size, room),
    }
    for columns in (1, 2, 3):  # of a page that shows several side by side
        across, name = column_width(room, columns), f"beside-{size.pattern.alternative or 'own'}"
        down = across * 4  # the page says how wide it is shown
        makers[f"beside {columns}"] = partial(cover_figure, size, looks, across, down, name)
    if size.made_here:
        makers["patches"] = partial(patch_key_figure, size, looks, wide)
    if size.quilt.finished is not None:
        makers["quilt"] = partial(layout_figure, size, looks, wide * 0.68, tall * 0.6)
        makers["mitre"] = partial(mitre_figure, size, min(wide, 124.0))
        makers["rows"] = partial(slanted_figure, size, looks, wide * 0.75, tall * 0.6)
    for id in size.size.fabrics:
        makers[f"swatch {id}"] = partial(swatch_figure, size, id, looks, 5.0)
    for unit in size.cutting.together:
        makers[f"together {unit.name}"] = partial(together_figure, size, unit, looks)
    for cloth in size.cutting.fabrics:
        makers[f"cloth {cloth.fabric}"] = partial(
            cloth_figure, size, cloth, looks, _cloth_width(size, cloth, room)
        )
        for patch in size.cutting.patches:
            if patch.fabric == cloth.fabric:
                makers[f"angle {patch.fabric} {patch.name}"] = partial(
                    angled_figure, size, cloth, patch, looks, column
                )
    for block in size.blocks:
        makers |= _block_makers(size, block, room, looks)
    return makers


def _cards(size: SizePlan, room: Room, looks: Looks, ask: Ask) -> dict[str, partial[Any]]:
    """How the pictures of all cards are made, those of the blocks and those of the top."""
    makers: dict[str, partial[Any]] = {}
    for block in (*size.blocks, *([] if size.joining is None else [size.joining])):
        makers |= _card_makers(size, block, room, looks, ask)
    return makers


def _cloth_width(size: SizePlan, cloth: FabricPlan, room: Room) -> float:
    """The width of a cloth's picture in mm: half the page where its table stands beside it."""
    if is_short(size, cloth) and room.column_mm < room.width_mm:
        return room.column_mm
    return min(room.width_mm, 124.0)


def _width(size: SizePlan, wide: float, tall: float) -> float:
    """The width of the whole quilt in mm where it fills a space of `wide` by `tall`."""
    if size.quilt.finished is None:
        return wide
    across, down = (float(side) for side in size.quilt.finished)
    return min(wide, tall * across / down)


def _block_makers(
    size: SizePlan, block: BlockPlan, room: Room, looks: Looks
) -> dict[str, partial[Any]]:
    """How the pictures of one block are made but those of its cards."""
    id = block.block.id
    width, sheet = min(room.column_mm * 0.55, room.width_mm * 0.38), room.width_mm * 0.8
    return {
        f"block {id}": partial(block_figure, size, block, looks, width),
        f"route sheet {id}": partial(route_sheet_figure, block, sheet, room.depth_mm * 0.48),
        **block_press_makers(size, block, room),
    }


def _card_makers(
    size: SizePlan, block: BlockPlan, room: Room, looks: Looks, ask: Ask
) -> dict[str, partial[Any]]:
    """How the pictures of the cards of a block are made, or of the top whose patches are blocks."""
    id, allowance = block.block.id, float(size.allowance)
    speaker = words_of(size.pattern.tongue)
    makers: dict[str, partial[Any]] = {}
    sizes = ask(card_sizes, block, room, speaker=speaker)
    for card, (width, scale) in zip(block.cards, sizes, strict=True):
        makers[f"step {id} {card.n}"] = partial(
            step_figure, block, card, looks, width, allowance, room.step_height, scale=scale,
            speaker=speaker,
        )  # fmt: skip
        makers[f"thumb {id} {card.n}"] = partial(thumbnail_figure, block, card, looks, 11.0)
    for layer in block.layers:
        makers[f"step {id} {layer.n}"] = partial(
            layer_figure, block, layer, looks, room.column_mm, min(room.step_height, LAYER)
        )
    return makers


def card_sizes(
    block: BlockPlan, room: Room, *, speaker: Speaker
) -> tuple[tuple[float, Scale], ...]:
    """The width in mm of each card's picture, and its scale: as few scales in a block as may be, and each picture as
    narrow as it can be then."""
    widths = room.step_widths
    steps = [
        StepScales(
            block=block,
            step=card.step,
            tallest=room.step_height,
            speaker=speaker,
            left=_left_by_words(card, room, speaker),
        )
        for card in block.cards
    ]
    alone = [step.best_width(widths) for step in steps]
    scales = shared_scales(steps, _in_pairs(alone, room), widths[-1])
    then = [step.narrowest(scale, widths) for step, scale in zip(steps, scales, strict=True)]
    return tuple(zip(_in_pairs(then, room), scales, strict=True))


def _left_by_words(card: StepCard, room: Room, speaker: Speaker) -> float:
    """How high the picture of a card may be so that its words have room below it on a small page, in mm."""
    if room.column_mm < room.width_mm:
        return math.inf
    told = (listing(card.takes), *card.sentences, *card.press, *card.warnings, card.measure or "")
    words = [speaker.say(line) for line in told if line]
    lines = sum(len(wrapped(line, CARD_TYPE[0], room.width_mm)) for line in words)
    told_mm = (lines * CARD_TYPE[1] + len(words) * CARD_TYPE[2]) * POINT_MM
    return room.depth_mm - ABOUT_CARD - told_mm


def _in_pairs(widths: Sequence[float], room: Room) -> tuple[float, ...]:
    """Widths of pictures one after the other. Cards in a column come in pairs, so that one without a neighbour takes its
    words beside it."""
    paired, at = list(widths), 0
    while at < len(paired):
        if paired[at] > room.column_mm or room.column_mm == room.width_mm:
            at += 1
        elif paired[at + 1 : at + 2] == [room.column_mm]:
            at += 2
        else:
            paired[at] = room.beside_mm
            at += 1
    return tuple(paired)


def _row_makers(
    size: SizePlan, named: SizePlan, room: Room, looks: Looks
) -> dict[str, partial[Any]]:
    """How the pictures that come in rows are made, by name; sheets to mark by bear the names of `named`."""
    rows: dict[str, partial[Any]] = {}
    for paper, sheet in SHEETS.items():
        area = sheet.template_area_mm
        rows[f"foundations {paper.value}"] = partial(foundation_figures, named, *area)
        rows[f"guides {paper.value}"] = partial(guide_figures, named, *area)
        rows[f"marking {paper.value}"] = partial(marking_figures, named, *area)
        rows[f"marking quilt {paper.value}"] = partial(marking_figures, named, *area, whole=True)
    for block in (*size.blocks, *((size.joining,) if size.joining is not None else ())):
        rows[f"chain {block.block.id}"] = partial(
            chain_figures, block, looks, room.width_mm, speaker=words_of(size.pattern.tongue)
        )
    for block in size.blocks:
        rows[f"thread {block.block.id}"] = partial(_threads, block, looks, room, size.pattern.units)
        rows[f"pocket {block.block.id}"] = partial(_pocket, block, looks, size.pattern.units)
    rows["faces"] = partial(_faces, size, looks)
    if (top := size.joining) is not None:
        rows[f"thread {top.block.id}"] = partial(_threads, top, looks, room, size.pattern.units)
    if size.quilt.finished is not None:
        rows["border"] = partial(_borders, size, looks, room)
    return rows


def _template_makers(named: SizePlan, ask: Ask) -> dict[str, RowMaker]:
    """How the pages of templates for each paper are made."""
    return {
        f"templates {paper.value}": partial(
            template_figures, named, *sheet.template_area_mm, sheet.under_words_mm, ask=ask
        )
        for paper, sheet in SHEETS.items()
    }


def _borders(size: SizePlan, looks: Looks, room: Room) -> tuple[Figure, ...]:
    """The pictures of the borders."""
    small = room.width_mm == room.column_mm
    width = min(room.column_mm, room.depth_mm / 3.6 if small else room.column_mm)
    return tuple(border_figure(size, border.number, looks, width) for border in size.quilt.borders)


def _faces(size: SizePlan, looks: Looks) -> tuple[Figure, ...]:
    """How parts lie when they are sewn, for the kinds of joins of this size; over papers the steps say it."""
    steps = [step for block in size.blocks for step in block.assembly.steps]
    if not steps or size.size.sewing.papers:
        return ()
    machine = {step.kind for step in steps if step.by is By.MACHINE}
    kinds = tuple(dict.fromkeys(step.kind for step in steps))
    cloths = [looks[piece.fabric] for piece in size.blocks[0].tiling.pieces]
    upper = next((look for look in cloths if look != cloths[0]), cloths[0])
    by_hand = tuple(kind for kind in kinds if kind not in machine)
    return faces_figures(f"{size.size.id}-faces", kinds, by_hand, cloths[0], upper)


def _threads(block: BlockPlan, looks: Looks, room: Room, units: UnitSystem) -> tuple[Figure, ...]:
    """The pictures of a block's hand routes, each as small as its numbers allow; two share a row."""
    least = (room.width_mm - 10) / room.threads_across
    parts = [min(share * room.width_mm, room.column_mm) for share in ROUTE]
    widths = sorted({least, *parts, room.column_mm, room.width_mm})
    if room.threads_across > 2 and len(routes(block.assembly)) <= 2:
        widths = widths[1:]
    return tuple(figure(*drawn) for drawn in thread_scenes(block, looks, widths, units))


def _pocket(block: BlockPlan, looks: Looks, units: UnitSystem) -> tuple[Figure, ...]:
    """The routes of a block for a card of the pocket: as small as their numbers allow."""
    return tuple(figure(*drawn) for drawn in thread_scenes(block, looks, POCKET, units))


def swatch_address(figure: Figure) -> str:
    """A `data:` address of a small picture that stands beside its own name."""
    svg = figure.svg
    if "xmlns=" not in svg.split(">", 1)[0]:
        svg = svg.replace("<svg ", '<svg xmlns="http://www.w3.org/2000/svg" ', 1)
    return f"data:image/svg+xml;base64,{base64.b64encode(svg.encode('utf-8')).decode('ascii')}"
