"""Floor 10: the picture of a border, about the quilt inside it."""

from __future__ import annotations

from booklet.drawing.ink.fills import Looks
from booklet.drawing.ink.svg import figure
from booklet.drawing.quilts.patchwork import painted, painted_over, patch_outlines
from booklet.drawing.quilts.strip_joins import join_lines
from booklet.drawing.scene import Area, Figure, Fill, Ink, Item, Label, Line, Scene
from booklet.drawing.viewport import Margins, fitted
from booklet.kit.outlines.polygon import roomiest
from booklet.kit.words import listing, phrase, plural_phrase
from booklet.plan import SizePlan
from booklet.quilt.sized import Part


def border_figure(size: SizePlan, number: int, looks: Looks, width: float = 85.0) -> Figure:
    """One border in its colour about the quilt inside it, with the strips added first numbered 1."""
    parts = [p for p in size.quilt.parts if _number(p) == number]
    turns = sorted({_turn(part) for part in parts})
    orders = {part.name: turns.index(_turn(part)) + 1 for part in parts}
    inside = [p for p in size.quilt.parts if _number(p) < number]
    points = [p for part in parts for place in part.places for p in place]
    view, _, height = fitted(points, width, width, Margins(2, 2, 2, 2), exact=True)
    items: list[Item] = []
    pale = {id: Fill(look.colour, 0, tint=True) for id, look in looks.items()}
    items += painted(patch_outlines(size), pale, view, None)
    items += painted_over(size, pale, view, None)
    for part in inside:
        for place in part.places:
            items.append(Area(view.put(place), pale[part.fabric], Ink.CONTEXT))
    for part in parts:
        order = orders[part.name]
        for place in part.places:
            items.append(Area(view.put(place), looks[part.fabric], Ink.PATCH))
        items += [Line(points=view.put(line), ink=Ink.PATCH) for line in join_lines(size, part)]
        for place in part.places:
            at, _ = roomiest(view.put(place))
            items.append(Label(at=at, text=str(order), size=8.0, bold=True, plate=True))
    words = listing(
        [
            plural_phrase(
                "{order}: {part}, {n} piece",
                "{order}: {part}, {n} pieces",
                part.count,
                order=orders[part.name],
                part=part.title,
            )
            for part in sorted(parts, key=_turn)
        ]
    )
    scene = Scene.of(
        f"{size.size.id}-border-{number}",
        (width, height),
        items,
        phrase("Border {n}", n=number),
        phrase("Border {n} in the order it is added: {parts}.", n=number, parts=words),
    )
    caption = (
        phrase("Border {n}, added in the order of the numbers.", n=number)
        if len(turns) > 1
        else phrase("Border {n}: two strips, either of them first.", n=number)
    )
    if any(size.cutting.joined(part.name) for part in parts):
        across = phrase("Lines across its strips: where they are joined.")
        return figure(scene, listing((caption, across), "sentences"))
    return figure(scene, caption)


def _turn(part: Part) -> int:
    """When a part of a border is sewn on: the sides first, then top and bottom with any squares."""
    return 1 if part.name.endswith("sides") else 2


def _number(part: Part) -> int:
    """The number of a border's part; 0 of any other."""
    kind, _, rest = part.name.partition(" ")
    digits = rest.partition(" ")[0]
    return int(digits) if kind == "border" and digits.isdigit() else 0
