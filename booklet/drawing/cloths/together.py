"""Floor 10: units made together, in small pictures as their kind has them: what is sewn, where it is cut, the unit."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from booklet.crafts.figure import Points
from booklet.crafts.pictures import OVER, ClothPiece, LineMeaning, Mark
from booklet.crafts.unit import TogetherUnit
from booklet.drawing.ink.fills import Looks, wrong_side
from booklet.drawing.ink.svg import figure
from booklet.drawing.scene import Area, Figure, Fill, Ink, Item, Label, Line, Scene
from booklet.kit.words import phrase
from booklet.plan import SizePlan

HEAD = 5.0  # mm over each picture for its number
GAP = 9.0  # mm between pictures
INKS = {LineMeaning.DRAWN: Ink.GUIDE, LineMeaning.SEAM: Ink.MACHINE, LineMeaning.CUT: Ink.CUT}


def together_figure(size: SizePlan, unit: TogetherUnit, looks: Looks) -> Figure:
    """How a kind of unit is made together: pictures numbered as the sentences of the page."""
    cloths = [looks[part.fabric] for part in unit.cuts]
    x, tall, items = 1.0, 0.0, list[Item]()
    for number, (wide, marks) in enumerate(unit.how.picture(unit), 1):
        items.append(Label(at=(x, 2.6), text=str(number), size=9.0, anchor="start", bold=True))
        items += _drawn(marks, cloths, x)
        tall = max(tall, *(y for mark in marks for _, y in mark.points))
        x += wide + GAP
    title = phrase("Making {name}", name=unit.name)
    name = f"{size.size.id}-together-{unit.name.lower()}"
    high = tall + HEAD + 2 * OVER
    return figure(
        Scene.of(name, (x - GAP + 1, high), items, title, unit.how.told),
        title,
    )


def _drawn(marks: Sequence[Mark], cloths: Sequence[Fill], x: float) -> Iterable[Item]:
    """The marks of a picture that begins at x, in ink; white below a wrong side, so that nothing shines through."""
    for mark in marks:
        points: Points = tuple((p[0] + x, p[1] + HEAD + OVER) for p in mark.points)
        if not isinstance(mark, ClothPiece):
            yield Line(points=points, ink=INKS[mark.pen], halo=True)
        elif mark.cut is not None:
            yield Area(points, cloths[mark.cut], Ink.PATCH)
        else:
            yield Area(points, Fill("#ffffff"), None)
            yield Area(points, wrong_side(), Ink.PATCH)
