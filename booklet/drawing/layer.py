"""Floor 10: the picture of shapes that are laid on a sewn block: the block so far pale, the new ones in their colours."""

from __future__ import annotations

from booklet.drawing.ink.fills import Looks, tinted
from booklet.drawing.ink.svg import figure
from booklet.drawing.laid_on import seen_of
from booklet.drawing.lettering.leaders import SIDE, Named, letters_on
from booklet.drawing.places import shape_places
from booklet.drawing.quilts.patchwork import together
from booklet.drawing.scales import Scale
from booklet.drawing.scene import Area, Figure, Ink, Item, Line, Scene
from booklet.drawing.viewport import Margins, fitted
from booklet.kit.outlines.plane import box_of
from booklet.kit.words import Text, listing, phrase
from booklet.pattern import By
from booklet.plan import BlockPlan
from booklet.plan.cards.laid_on import letter_of
from booklet.plan.records import LayerCard


def layer_figure(
    block: BlockPlan, card: LayerCard, looks: Looks, width: float, tallest: float
) -> Figure:
    """The block with the shapes of a card laid on it, at most `width` mm wide and `tallest` mm high."""
    tiling = block.tiling
    margins = Margins(SIDE, 1.5, SIDE, 1.5)
    view, scale, height = fitted(tiling.outline.points, width, tallest, margins)
    pale = (
        Area(view.put(piece.outline.points), tinted(looks[piece.fabric]), Ink.CONTEXT)
        for piece in tiling.pieces
    )
    items: list[Item] = list(together(pale))
    first = tiling.applied.index(card.shapes[0])
    for shape in tiling.applied[:first]:
        look = tinted(looks[shape.piece.fabric])
        items.append(Area(view.put(shape.piece.outline.points), look, Ink.CONTEXT))
    items.append(Area(view.put(tiling.outline.points), None, Ink.CONTEXT))
    seen: list[Named] = []
    for n, shape in enumerate(card.shapes):
        points = shape.piece.outline.points
        above = [other.piece.outline.points for other in card.shapes[n + 1 :]]
        items.append(Area(view.put(points), looks[shape.piece.fabric], None))
        items += [Line(points=view.put(path), ink=Ink.GUIDE, halo=True) for path in shape.covered]
        seen.append((letter_of(shape), shape.piece.fabric, view.put(seen_of(points, above))))
    sewn = Ink.HAND if card.by is By.HAND else Ink.MACHINE
    items += [Line(points=view.put(path), ink=sewn) for shape in card.shapes for path in shape.seen]
    items += letters_on(seen, box_of(view.put(tiling.outline.points)))
    placed = ((shape.piece, view.put(shape.piece.outline.points)) for shape in card.shapes)
    items += shape_places(tiling.block, placed)
    return figure(_scene(block, card, width, height, tuple(items)), _caption(block, card, scale))


def _caption(block: BlockPlan, card: LayerCard, scale: Scale) -> Text:
    """What is laid on which block, what of it stays flat, and how large it is drawn."""
    said: list[Text] = [
        phrase("{shapes} laid on “{block}”.", shapes=_letters(card), block=block.block.title)
    ]
    return listing([*said, *_flat(card), scale.caption], "sentences")


def _letters(card: LayerCard) -> Text:
    """The letters of the shapes of a card, each once."""
    return listing(tuple(dict.fromkeys(map(letter_of, card.shapes))))


def _flat(card: LayerCard) -> list[Text]:
    """What the thin dashed line is, where there is one."""
    flat = phrase("A thin dashed line is an edge that is left flat, under shapes laid later.")
    return [flat] if any(shape.covered for shape in card.shapes) else []


def _scene(
    block: BlockPlan, card: LayerCard, width: float, height: float, items: tuple[Item, ...]
) -> Scene:
    return Scene.of(
        f"{block.tiling.size}-{block.tiling.block}-step-{card.n}",
        (width, height),
        items,
        phrase("Step {n}: {title}", n=card.n, title=card.title),
        told_layer(card),
    )


def told_layer(card: LayerCard) -> Text:
    """The picture in words."""
    said: list[Text] = [
        phrase("The block so far, pale, and {shapes} laid on it in color.", shapes=_letters(card))
    ]
    said.append(
        phrase("The heavy line is the edge to sew down by hand.")
        if card.by is By.HAND
        else phrase("The heavy line is the edge to sew down by machine.")
    )
    return listing([*said, *_flat(card)], "sentences")
