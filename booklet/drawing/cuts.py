"""Floor 10: how one patch is cut: its square with the second cuts, or its outline with the allowance."""

from __future__ import annotations

from booklet.cutting.cutting_plan import CutPatch, Method
from booklet.drawing.fills import Looks, tinted
from booklet.drawing.labels import letter_in
from booklet.drawing.plane import box_of
from booklet.drawing.scene import (
    Area,
    Figure,
    Fill,
    Ink,
    Item,
    Label,
    Line,
    Mark,
    Point,
    Scene,
    Sign,
)
from booklet.drawing.svg import figure
from booklet.measure import EIGHTH, Length, Rounding, UnitSystem, length_text
from booklet.plan import SizePlan
from booklet.words import Phrase, by, in_units, listing, phrase, words_of


def cut_text(value: float, units: UnitSystem) -> Phrase:
    """A cutting figure with its unit, never rounded down."""
    return in_units(length_text(Length.of(float(value)), units, EIGHTH, Rounding.UP), units)


def diagonals(method: Method | None, points: tuple[Point, ...]) -> list[Line]:
    """The second cuts of squares that give triangles."""
    left, top, right, bottom = box_of(points)
    falling = Line(((left, top), (right, bottom)), Ink.FINE)
    rising = Line(((left, bottom), (right, top)), Ink.FINE)
    if method is Method.HALF_SQUARE:
        return [rising]
    return [falling, rising] if method is Method.QUARTER_SQUARE else []


def box_at(x: float, y: float, wide: float, high: float) -> tuple[Point, ...]:
    """The corners of a box with its top left at (x, y)."""
    return (x, y), (x + wide, y), (x + wide, y + high), (x, y + high)


def cut_figure(
    size: SizePlan, fabric: str, name: str, looks: Looks, width: float = 60.0
) -> Figure | None:
    """How one patch is cut: the square with its second cuts, or the patch with its cutting line."""
    patch = next(
        (p for p in size.cutting.patches if p.fabric == fabric and p.name == name and p.outline),
        None,
    )
    if patch is None or patch.outline is None:
        return None
    if patch.method in (Method.HALF_SQUARE, Method.QUARTER_SQUARE):
        items, height = _square(patch, looks[fabric], width)
    else:
        items, height = _patch(patch, looks[fabric], width)
    measure = by(*(cut_text(float(side), size.pattern.units) for side in patch.cut))
    said = words_of(size.pattern.language).say(measure)
    items.append(Label((width / 2, height - 3.2), said, 8.0, bold=True))
    caption = phrase("{patch}, cut {measure}.", patch=patch.title, measure=measure)
    if patch.method is Method.HALF_SQUARE:
        how = phrase("The square is cut once from corner to corner: two triangles.")
    elif patch.method is Method.QUARTER_SQUARE:
        how = phrase("The square is cut twice from corner to corner: four triangles.")
    else:
        how = phrase("Cutting line outside, seam line dashed inside.")
    told = listing((caption, how), "sentences")
    title = phrase("Cutting {patch}", patch=patch.title)
    scene = Scene(f"{size.size.id}-cut-{fabric}-{name}", width, height, tuple(items), title, told)
    return figure(scene, caption)


def _square(patch: CutPatch, look: Fill, width: float) -> tuple[list[Item], float]:
    """A square cut into two or four, one triangle in full colour."""
    side = min(width - 6, 34.0)
    left, top = (width - side) / 2, 2.0
    square = box_at(left, top, side, side)
    centre = (left + side / 2, top + side / 2)
    half = patch.method is Method.HALF_SQUARE
    one = (square[0], square[1], square[3]) if half else (square[0], square[1], centre)
    items: list[Item] = [Area(square, tinted(look), Ink.CUT), Area(one, look, Ink.CUT)]
    items += diagonals(patch.method, square)
    letter = letter_in(one, patch.name, 9.5)
    return [*items, *([letter] if letter is not None else [])], side + 9.0


def _patch(patch: CutPatch, look: Fill, width: float) -> tuple[list[Item], float]:
    """A patch with its cutting line, seam line and matching points."""
    assert patch.outline is not None
    left, top, right, bottom = box_of(patch.outline.cut)
    scale = min((width - 6) / (right - left), 34.0 / (bottom - top), 25.4)
    shift = (width / 2 - (left + right) / 2 * scale, 2 - top * scale)

    def put(points: tuple[Point, ...]) -> tuple[Point, ...]:
        return tuple((x * scale + shift[0], y * scale + shift[1]) for x, y in points)

    seam = put(patch.outline.seam.points)
    inner = tinted(look)
    items: list[Item] = [
        Area(put(patch.outline.cut), inner, Ink.CUT),
        Area(seam, look, Ink.SEAM_LINE),
    ]
    letter = letter_in(seam, patch.name, 9.5)
    items += [letter] if letter is not None else []
    items += [Sign(p, Mark.POINT) for p in put(patch.outline.points)]
    return items, (bottom - top) * scale + 9.0
