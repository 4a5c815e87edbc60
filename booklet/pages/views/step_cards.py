"""Floor 11, step cards: each step on a small card of its own, four on a sheet; and labels for stacks of cut patches.

A card is as large as a quarter of the sheet (A6 on A4). What its words take is reckoned from the widths of their letters, and the
picture gets what is left; where that is too little, the words go on on a further card. So nothing is ever cut off.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil

from markupsafe import Markup

from booklet.crafts.method import Family
from booklet.cutting.cutting_plan import CutPatch
from booklet.drawing.scene import Figure
from booklet.kit.measure import POINT_MM
from booklet.kit.records import Record, replace
from booklet.kit.words import Text
from booklet.pages.pictures.figures import Figures
from booklet.pages.pictures.large import SCALE
from booklet.pages.style.fonts import FACES, SANS, text_width
from booklet.pages.style.paper import Sheet
from booklet.pages.tables.view import cloth_views, to_cut
from booklet.pages.texts.words import Words
from booklet.pages.views.cards import card_lines
from booklet.pattern import Fabric
from booklet.plan import BlockPlan, SizePlan
from booklet.plan.cuts.cut_words import by_shape, is_drawn_round
from booklet.plan.records import Card, LayerCard

PADDING = 24.0  # points, as in `print.css`: what printers leave white, and a little more
LINE = 12.0
_TYPE = 9.0
_BETWEEN = 3.0  # after a paragraph
_HEAD, _FOOT = 62.0, 34.0  # where it belongs, number and title of up to two lines; how many to make
_LEAST_PICTURE = 85.0  # points, 30 mm: less shows nothing
_LOOSE = 1.08  # lines are not filled to their end
_FACE = next(face for face in FACES if face.family == SANS and face.weight == 600)


class StepFace(Record, kw_only=True):
    """One card: its step, the lines on it, each with its class, its picture with its size in mm, and whether it begins
    and ends what is said of the step."""

    block: BlockPlan
    card: Card
    of: int
    lines: tuple[tuple[str, Markup], ...]
    picture: Figure | None
    wide: float
    tall: float
    begins: bool
    ends: bool

    @property
    def on_blocks(self) -> int:
        """On how many blocks shapes are laid; 0 of a step that joins pieces."""
        return self.card.total if isinstance(self.card, LayerCard) else 0


def step_sheets(
    plan: SizePlan, album: Figures, words: Words, sheet: Sheet, grown: float = 1.0
) -> tuple[tuple[StepFace, ...], ...]:
    """The cards of a size, four on a sheet; on a small sheet one. Type is so many times as large as on a plain card."""
    across = 1 if sheet.is_small else 2
    size = (sheet.width / across, sheet.height / across)
    faces = (
        face
        for block in plan.blocks
        for card in block.all_cards
        for face in _faces(
            block, card, album.figure(f"step {block.block.id} {card.n}"), words, size, grown
        )
    )
    made, each = tuple(faces), across * across
    return tuple(made[at : at + each] for at in range(0, len(made), each))


def _faces(
    block: BlockPlan,
    card: Card,
    picture: Figure | None,
    words: Words,
    size: tuple[float, float],
    grown: float,
) -> Iterator[StepFace]:
    """The cards of one step."""
    if picture is not None and grown > 1:  # its lettering must come out large
        wider, taller = picture.width_mm * SCALE, picture.height_mm * SCALE
        picture = replace(picture, width_mm=wider, height_mm=taller)
    wide, room = size[0] - 2 * PADDING, size[1] - 2 * PADDING - grown * (_HEAD + _FOOT)
    shown = _least(picture, wide, 1.0 if grown > 1 else 2 / 3)
    parts = list(
        _shared_out(
            tuple(card_lines(card, words)), wide / grown, ((room - shown) / grown, room / grown)
        )
    )
    for n, lines in enumerate(parts):
        left = room - grown * sum(_height(line, wide / grown) for _, line in lines)
        of_this = picture if n == 0 else None
        across, down = _fitted(of_this, wide, left)
        yield StepFace(
            block=block,
            card=card,
            of=len(block.all_cards),
            lines=lines,
            picture=of_this,
            wide=across,
            tall=down,
            begins=n == 0,
            ends=n == len(parts) - 1,
        )


def _height(line: Markup, wide: float) -> float:
    """The points that a paragraph takes at most."""
    length = text_width(_FACE, line.striptags(), _TYPE) * _LOOSE
    return max(1, ceil(length / wide)) * LINE + _BETWEEN


def _shared_out(
    lines: Sequence[tuple[str, Markup]], wide: float, rooms: tuple[float, float]
) -> Iterator[tuple[tuple[str, Markup], ...]]:
    """The lines of a step on one card after the other: the first has the first of the rooms, others the second."""
    room = rooms[0]
    held: list[tuple[str, Markup]] = []
    for line in lines:
        needs = _height(line[1], wide)
        if held and needs > room:
            yield tuple(held)
            room, held = rooms[1], []
        room -= needs
        held.append(line)
    yield tuple(held)


def _least(picture: Figure | None, wide: float, share: float) -> float:
    """The points that the picture of a step gets at least: a share of its height, or all of it where that is little."""
    tall = _fitted(picture, wide, 1000.0)[1] / POINT_MM
    return min(tall, max(_LEAST_PICTURE, tall * share))


def _fitted(picture: Figure | None, wide: float, tall: float) -> tuple[float, float]:
    """The width and height in mm of a picture in a room of points, not enlarged."""
    if picture is None:
        return 0.0, 0.0
    scale = min(1.0, wide * POINT_MM / picture.width_mm, tall * POINT_MM / picture.height_mm)
    return picture.width_mm * scale, picture.height_mm * scale


class StackLabel(Record, kw_only=True):
    """The label of a stack of patches: letter or name, what it is, its cloth, how many, of which mirrored, and how
    large they are cut."""

    letter: str
    title: Text
    fabric: Fabric
    pieces: int
    reversed: int
    figures: tuple[Markup, ...]


def stack_labels(plan: SizePlan, words: Words) -> tuple[StackLabel, ...]:
    """A label for each stack of a size in cutting order: one patch or part of one cloth."""
    found: dict[tuple[str, str], StackLabel] = {}
    for cloth in cloth_views(plan):
        for patch in cloth.patches:
            key = (cloth.fabric.id, patch.name)
            before = found.get(key)
            figure = _figure(patch, plan, words)
            seen = before.figures if before else ()
            found[key] = StackLabel(
                letter=patch.name if patch.outline is not None else "",
                title=patch.title,
                fabric=cloth.fabric,
                pieces=patch.pieces + (before.pieces if before else 0),
                reversed=patch.reversed + (before.reversed if before else 0),
                figures=seen if figure in seen else (*seen, figure),
            )
    return tuple(found.values())


def _figure(patch: CutPatch, plan: SizePlan, words: Words) -> Markup:
    """The size of what is in a stack as it is cut, or what it is cut from or round."""
    if by_shape(patch) or is_drawn_round(patch):
        return words.phrase("Template {name}", name=patch.name)
    size = to_cut(plan.pattern, *patch.cut)
    if patch.method.family in (Family.BOX, Family.LONG):
        return words.phrase("cut {figure}", figure=size)
    if patch.method.family is Family.AGAIN:
        return words.phrase("from {figure}, cut again", figure=size)
    return words.markup(patch.method.title)
