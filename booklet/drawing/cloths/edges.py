"""Floor 10: pictures for the edge of a quilt: continuous bias from a square, the hanging sleeve, the back that closes a
cushion."""

from __future__ import annotations

from booklet.drawing.ink.fills import Looks, tinted
from booklet.drawing.ink.svg import figure
from booklet.drawing.lettering.text_widths import text_width
from booklet.drawing.scene import Area, Figure, Ink, Item, Label, Line, Scene
from booklet.kit.outlines.plane import Point, rectangle
from booklet.kit.trade import ENVELOPE_HEM
from booklet.kit.words import phrase, with_unit, words_of
from booklet.plan import SizePlan
from booklet.quilt.finishing.extras import ENVELOPE

SIDE = 22.0  # mm of the square
LINES = 5  # strips drawn; the cloth has as many as fit


def bias_figure(size: SizePlan, looks: Looks, width: float = 85.0) -> Figure | None:
    """The square cut once, its halves sewn to a slanted piece and ruled, and the ends that are joined
    one strip apart; None where the binding is not on the bias."""
    binding = size.quilt.binding
    if binding is None or not binding.bias:
        return None
    look = looks[binding.fabric]
    top = 6.0
    square = ((2.0, top), (2.0 + SIDE, top), (2.0 + SIDE, top + SIDE), (2.0, top + SIDE))
    items: list[Item] = [
        Area(square, look, Ink.PATCH),
        Line(points=(square[3], square[1]), ink=Ink.CUT, halo=True),
        Label(at=(square[0][0], 2.6), text="1", size=9.0, anchor="start", bold=True),
        Label(at=(8.0, top + SIDE * 0.36), text="a", size=9.0, bold=True, plate=True),
        Label(at=(SIDE - 4.0, top + SIDE * 0.7), text="b", size=9.0, bold=True, plate=True),
        Label(at=(square[0][0], top + SIDE / 2), text="c", size=8.0, plate=True),
        Label(at=(square[1][0], top + SIDE / 2), text="c", size=8.0, plate=True),
    ]
    # The halves with their sides c sewn together: a slanted piece whose long edges are on the bias.
    x = square[1][0] + 9.0
    half = SIDE / 2**0.5
    long = 2 * half
    a = (x, top + half)  # the left point
    slanted: tuple[Point, ...] = (
        a,
        (a[0] + half, top),
        (a[0] + half + long, top),
        (a[0] + long, top + half),
    )
    items += [
        Area(slanted, look, Ink.PATCH),
        Line(points=((a[0] + half, top), (a[0] + long, top + half)), ink=Ink.MACHINE, halo=True),
        Label(at=(x, 2.6), text="2", size=9.0, anchor="start", bold=True),
    ]
    # Ruled parallel to the long edges; the slanted ends meet one line apart.
    y3 = top + max(SIDE, half) + 11.0
    wide, high = 44.0, LINES * 4.4
    lean = high
    start = (6.0, y3)
    ruled: tuple[Point, ...] = (
        (start[0] + lean, y3),
        (start[0] + lean + wide, y3),
        (start[0] + wide, y3 + high),
        (start[0], y3 + high),
    )
    items += [
        Area(ruled, tinted(look), Ink.PATCH),
        Label(at=(start[0], y3 - 3.4), text="3", size=9.0, anchor="start", bold=True),
    ]
    step = high / LINES
    for k in range(1, LINES):
        left = (ruled[0][0] - k * step, y3 + k * step)
        items.append(Line(points=(left, (left[0] + wide, left[1])), ink=Ink.GUIDE, halo=True))
    for k in range(LINES + 1):
        left = (ruled[0][0] - k * step, y3 + k * step)
        if k:
            items.append(Label(at=(left[0] - 2.0, left[1]), text=str(k), size=7.5, anchor="end"))
        if k < LINES:
            items.append(
                Label(at=(left[0] + wide + 2.0, left[1]), text=str(k + 1), size=7.5, anchor="start")
            )
    told = phrase(
        "1: the square, cut once from corner to corner into halves a and b. 2: the halves sewn together "
        "along the sides c, which makes a slanted piece. 3: lines ruled parallel to its long edges, one "
        "strip apart, and numbered so that the slanted ends meet one line apart."
    )
    title = phrase("Continuous bias from a square")
    name = f"{size.size.id}-bias"
    scene = Scene.of(name, (width, y3 + high + 3.0), items, title, told)
    return figure(scene, phrase("Continuous bias from a square."))


def sleeve_figure(size: SizePlan, looks: Looks, width: float = 85.0) -> Figure | None:
    """The back of the quilt with its sleeve below the top edge; None without one."""
    part = next((part for part in size.quilt.parts if part.name == "sleeve"), None)
    finished = size.quilt.finished
    if part is None or finished is None:
        return None
    wide, high = float(finished[0]), float(finished[1])
    scale = min((width - 6) / wide, 46.0 / high)
    back = size.quilt.backing
    look = tinted(looks[back.fabric]) if back is not None else None
    x, y = 3.0, 3.0
    outline = rectangle(x, y, wide * scale, high * scale)
    long, tube = (float(side) * scale for side in part.finished)
    rest = (wide * scale - long) / 2
    band = max(tube, 2.4)
    rod = y + 1.6 + band / 2
    items: list[Item] = [
        Area(outline, look, Ink.RIM),
        Area(rectangle(x + rest, y + 1.6, long, band), looks[part.fabric], Ink.PATCH),
        Line(points=((x - 2.5, rod), (x + rest, rod)), ink=Ink.RULE),
        Line(points=((x + rest + long, rod), (x + wide * scale + 2.5, rod)), ink=Ink.RULE),
    ]
    told = phrase(
        "The back of the quilt: the sleeve lies just below the top edge and ends short of both sides; a "
        "rod goes through it."
    )
    title = phrase("The hanging sleeve")
    scene = Scene.of(f"{size.size.id}-sleeve", (width, y + high * scale + 3), items, title, told)
    return figure(scene, phrase("The hanging sleeve on the back."))


def envelope_figure(size: SizePlan, looks: Looks, width: float = 60.0) -> Figure | None:
    """The two halves of the back of a cushion as they overlap, seen from behind; None without them."""
    part = next((part for part in size.quilt.parts if part.name == ENVELOPE), None)
    wish = size.size.quilt.envelope if size.size.quilt is not None else None
    finished = size.quilt.finished
    if part is None or wish is None or finished is None:
        return None
    wide, high = float(finished[0]), float(finished[1])
    words = words_of(size.pattern.tongue).say(with_unit(float(wish.lap), size.pattern.units))
    scale = min((width - 9 - text_width(words, 8.0)) / wide, 46.0 / high)
    x, y, across, whole = 2.0, 2.0, wide * scale, high * scale
    half = float(part.finished[1]) * scale
    hem = float(ENVELOPE_HEM.said_in(size.pattern.units)) / 2 * scale
    look, right = tinted(looks[part.fabric]), x + across
    upper, lower = y + whole - half, y + half  # where the hems end
    items: list[Item] = [
        Area(rectangle(x, upper, across, half), look, Ink.PATCH),
        Area(rectangle(x, y, across, half), look, Ink.PATCH),
        Line(points=((x, upper), (right, upper)), ink=Ink.FOLD, halo=True),
        Line(points=((x, lower - hem), (right, lower - hem)), ink=Ink.MACHINE, halo=True),
        Label(at=(x + across / 2, (y + upper) / 2), text="2", size=8.0, bold=True, plate=True),
        Label(
            at=(x + across / 2, (lower + y + whole) / 2), text="1", size=8.0, bold=True, plate=True
        ),
        Line(
            points=((right + 3, upper), (right + 3, lower)),
            ink=Ink.RULE,
            start_arrow=True,
            end_arrow=True,
        ),
        Label(at=(right + 5, y + whole / 2), text=words, size=8.0, anchor="start"),
    ]
    told = phrase(
        "The back of the cushion: half 1 reaches up from the lower edge to the dashed line, half 2 lies over it; the hems "
        "run across the middle, one over the other."
    )
    name = f"{size.size.id}-envelope"
    scene = Scene.of(name, (width, y + whole + 2), items, phrase("The envelope back"), told)
    caption = phrase(
        "The back from behind. Half 2 lies over half 1, whose hem ends at the dashed line."
    )
    return figure(scene, caption)
