"""Floor 10: small pictures for the finishing: the layers, and a corner of the binding."""

from __future__ import annotations

from booklet.drawing.ink.fills import Looks, tinted, wrong_side
from booklet.drawing.ink.svg import figure
from booklet.drawing.lettering.text_widths import text_width
from booklet.drawing.scene import Area, Figure, Fill, Ink, Item, Label, Line, Scene
from booklet.kit.outlines.plane import Point, rectangle
from booklet.kit.words import exactly, phrase, words_of
from booklet.plan import SizePlan

SIDE = 2.8  # how wide the quilt is shown in a picture of the binding, in widths of the folded strip


def layers_figure(size: SizePlan, looks: Looks, width: float = 85.0) -> Figure | None:
    """Backing, batting and top one over the other, seen from a corner; None without batting or back."""
    quilt = size.quilt
    if quilt.backing is None or quilt.batting is None:
        return None
    wide, deep, lean = width * 0.42, 15.0, 12.0
    left, gap = 3.0, 10.0
    binding = looks[quilt.binding.fabric] if quilt.binding is not None else Fill("#ffffff")
    say = words_of(size.pattern.tongue).say
    layers = [
        (looks[quilt.backing.fabric], say(phrase("backing, wrong side up")), 0.0, True),
        (Fill("#f7f5f0"), say(phrase("batting", context="picture")), 0.6, False),
        (tinted(binding), say(phrase("top, right side up")), 2.4, False),
    ]
    longest = max(text_width(words, 8.0) for _, words, _, _ in layers)
    wide = min(wide, width - left - lean - 4.5 - longest)
    items: list[Item] = []
    height = deep + 2 * gap + 6
    for i, (look, words, inset, back) in enumerate(layers):
        y = height - 3 - i * gap
        points = _slab(left, y, wide, deep, lean, inset)
        items.append(Area(points, Fill("#ffffff"), None))
        items.append(Area(points, wrong_side() if back else look, Ink.PATCH))
        tip = points[1]
        items.append(Line(points=(tip, (left + wide + lean + 3, tip[1])), ink=Ink.LEADER))
        items.append(
            Label(at=(left + wide + lean + 4, tip[1]), text=words, size=8.0, anchor="start")
        )
    told = phrase(
        "Three layers from below: the backing with its wrong side up, the batting, the top with its "
        "right side up. Backing and batting are larger than the top on every side."
    )
    title = phrase("The layers")
    scene = Scene.of(f"{size.size.id}-layers", (width, height), items, title, told)
    return figure(scene, phrase("Backing and batting stand out beyond the top on every side."))


def _slab(
    x: float, y: float, wide: float, deep: float, lean: float, inset: float
) -> tuple[Point, ...]:
    """A sheet lying flat, seen from the front: its far side is moved to the right."""
    drop = inset * deep / wide * 1.2
    return (
        (x + lean + inset * 0.2, y - deep + drop), (x + wide + lean - inset * 1.6, y - deep + drop),
        (x + wide - inset * 0.2 - inset, y - drop), (x + inset * 1.6, y - drop),
    )  # fmt: skip


def binding_figure(size: SizePlan, looks: Looks, width: float = 85.0) -> Figure | None:
    """A corner of the binding in three pictures: stop before it, fold up, fold down; None without."""
    if size.quilt.binding is None:
        return None
    look = looks[size.quilt.binding.fabric]
    top = Fill("#f3f0ea")
    cell = width / 3
    side = cell - 9
    folded = float(size.quilt.binding.lies(size.pattern.allowance))
    mm = side / (SIDE * folded)  # per inch of cloth
    band, stop = folded * mm, float(size.pattern.allowance) * mm
    loose = folded * 1.6 * mm  # of the strip past the corner
    items: list[Item] = []
    say = words_of(size.pattern.tongue).say
    names = (phrase("stop short"), phrase("fold up"), phrase("fold down"))
    for i, name in enumerate(names):
        words = f"{i + 1} {say(name)}"
        x, y = i * cell + 2, 1.0 + loose
        corner = (x + side, y)
        items.append(Area(rectangle(x, y, side, side), top, Ink.CUT))
        if i == 0:
            items.append(Area(rectangle(x, y, side + min(loose, 5.0), band), look, Ink.PATCH))
            items.append(
                Line(
                    points=((x, y + stop), (corner[0] - stop, y + stop)), ink=Ink.MACHINE, halo=True
                )
            )
        elif i == 1:
            items.append(Area(rectangle(x, y, side - band, band), look, Ink.PATCH))
            fold = (
                (corner[0] - band, y + band),
                (corner[0], y),
                (corner[0], y - loose),
                (corner[0] - band, y - loose),
            )
            items.append(Area(fold, look, Ink.PATCH))
            items.append(Line(points=(fold[0], fold[1]), ink=Ink.FOLD, halo=True))
        else:
            items.append(Area(rectangle(x, y, side - band, band), look, Ink.PATCH))
            items.append(Area(rectangle(corner[0] - band, y, band, side), look, Ink.PATCH))
            items.append(
                Line(points=((corner[0] - band, y + band), corner), ink=Ink.FOLD, halo=True)
            )
            items.append(
                Line(
                    points=((corner[0] - stop, y - 1), (corner[0] - stop, y + side)),
                    ink=Ink.MACHINE,
                    halo=True,
                )
            )
        items.append(Label(at=(x, y + side + 5), text=words, size=7.5, anchor="start"))
    height = 1.0 + loose + side + 9
    told = phrase(
        "A corner of the binding in three pictures. 1: sew along the top edge and stop one allowance "
        "before the corner. 2: fold the binding up so that it makes a slant of 45 degrees. 3: fold it "
        "down level with the top edge and sew on from the edge."
    )
    title = phrase("A corner of the binding")
    scene = Scene.of(f"{size.size.id}-binding", (width, height), items, title, told)
    caption = phrase(
        "A corner of the binding. 1: sew and stop {allowance} before the edge. 2: fold the strip up, so that its fold lies at "
        "45 degrees. 3: fold it down, level with the edge, and sew on from there.",
        allowance=exactly(size.pattern.allowance, size.pattern.units),
    )
    return figure(scene, caption)
