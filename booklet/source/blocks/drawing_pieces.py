"""Floor 2: `drawing`: the pieces of a block from the closed shapes of an SVG drawing.

A shape's id is the piece's id, its fill the colour of a fabric. With `size` the drawing is scaled to it;
left out, a unit of the drawing is a design unit.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from booklet.crafts.forms import path, polygon
from booklet.kit.diagnostic import Span
from booklet.kit.measure import Extent, snapped
from booklet.kit.outlines.plane import Frame, Point, frame_of
from booklet.pattern import ExtentPoint, Piece, Shape
from booklet.source.blocks.pieces import Known
from booklet.source.drawings.drawing_fit import fitted
from booklet.source.drawings.drawing_outlines import Outlined
from booklet.source.drawings.drawing_paths import Loop
from booklet.source.drawings.drawing_style import colour_of
from booklet.source.tree.node import shortened
from booklet.source.values.kinds import Reading
from booklet.source.values.names import is_name

SAME_SHAPE = 1e-3  # how far the two scales of a drawing may differ, as a share
Size = tuple[Extent, Extent]


def read_drawn_pieces(
    shapes: Sequence[Outlined],
    file: str,
    size: Size | None,
    size_span: Span,
    colours: Mapping[str, str],
    reading: Reading,
    known: Known,
) -> tuple[tuple[Piece, ...], Size | None]:
    """The pieces of the shapes of a drawing, and the block's size; `colours` are those of the fabrics, by name.

    A faulty shape is noted and `known.faulty` set: then the block cannot be laid out.
    """
    sound = [(shape, shape.loop) for shape in shapes if shape.loop is not None]
    if len(sound) < len(shapes):
        known.faulty = True
        size = None  # the colours and names of the others are still judged, their scale cannot be
    if not shapes:
        message = f"`{shortened(file)}` has no closed shapes"
        hint = "draw every piece as a closed shape, filled with the colour of its fabric"
        reading.faults.add("bad-drawing", message, Span.whole(file), hint)
        known.faulty = True
    if not sound:
        return (), None
    frame = frame_of(point for _, loop in sound for point in loop.points)
    if min(frame.width, frame.height) <= 0:
        message = f"the shapes of `{shortened(file)}` enclose nothing"
        hint = "draw every piece as a closed shape"
        reading.faults.add("bad-drawing", message, Span.whole(file), hint)
        known.faulty = True
        return (), None
    scale, in_units = _scale(frame, size, size_span, file, reading)
    if scale is None:
        known.faulty = True
        return (), None
    names = _names(sound)
    loops = fitted([loop for _, loop in sound], frame, scale)
    pieces = []
    for (shape, _), loop, name in zip(sound, loops, names, strict=True):
        piece = _piece(shape, name, loop, in_units, colours, reading, known)
        if piece is None:
            known.faulty = True
        else:
            pieces.append(piece)
    whole = size or (_extent(frame.width * scale, True), _extent(frame.height * scale, True))
    return tuple(pieces), whole


def _scale(
    frame: Frame, size: Size | None, span: Span, file: str, reading: Reading
) -> tuple[float | None, bool]:
    """How many units (or inches) of the block a unit of the drawing is, and whether it is units."""
    if size is None:
        return 1.0, True
    wide, high = (float(side.value) for side in size)
    if size[0].in_units != size[1].in_units:
        message = "a drawing is scaled to a size with both sides in design units, or neither"
        reading.faults.add("bad-drawing", message, span, "write `size` in plain numbers")
        return None, True
    across, down = wide / frame.width, high / frame.height
    if abs(across - down) > SAME_SHAPE * max(across, down):
        message = (
            f"the shapes of `{shortened(file)}` are {frame.width:.6g} x {frame.height:.6g} units of the"
            f" drawing, which no scale brings to {wide:g} x {high:g}"
        )
        hint = f"write a size of the same form, such as `{wide:g} x {wide * frame.height / frame.width:.4g}`"
        reading.faults.add("bad-drawing", message, span, hint)
        return None, True
    return across, size[0].in_units


def _names(sound: list[tuple[Outlined, Loop]]) -> list[str]:
    """The names of the pieces: their ids; those without one are `s1`, `s2`, … in the order drawn."""
    taken = {shape.name for shape, _ in sound}
    free = (name for k in range(1, 10**6) if (name := f"s{k}") not in taken)
    return [shape.name or next(free) for shape, _ in sound]


def _piece(
    shape: Outlined,
    name: str,
    loop: Loop,
    in_units: bool,
    colours: Mapping[str, str],
    reading: Reading,
    known: Known,
) -> Piece | None:
    """One piece, or None with a fault."""
    fabric = _fabric(shape, name, colours, reading)
    sound = is_name(name, shape.span, "piece", reading)
    if not (sound and known.add(name, shape.span, reading)) or fabric is None:
        return None
    if loop.is_straight:
        corners = tuple(_corner(point, in_units) for point in loop.points)
        if len(corners) < 3:
            hint = "draw it larger, or take it out of the drawing"
            reading.faults.add("bad-drawing", f"shape `{name}` encloses nothing", shape.span, hint)
            return None
        drawn = Shape(id="", form=polygon.FORM, span=shape.span, corners=corners)
    elif not in_units:
        message = f"shape `{name}` is curved, but the size of its block is not in design units"
        hint = "write `size` in plain numbers"
        reading.faults.add("bad-drawing", message, shape.span, hint)
        return None
    else:
        drawn = Shape(
            id="",
            form=path.FORM,
            span=shape.span,
            outline=(("M", loop.start), *loop.commands, ("Z", ())),
        )
    return Piece(
        id=name, fabrics=(fabric,), shape=drawn, placed=None, span=shape.span, id_span=shape.span
    )


def _fabric(shape: Outlined, name: str, colours: Mapping[str, str], reading: Reading) -> str | None:
    """The fabric of that colour; None with a fault if none or several have it."""
    colour = colour_of(shape.fill)
    same = [fabric for fabric, its in colours.items() if its == colour]
    if len(same) == 1:
        return same[0]
    if colour is None:
        message = f"shape `{shortened(name)}` is filled with `{shortened(shape.fill)}`, which is no colour"
        hint = 'fill it with the plain colour of a fabric, as in `fill="#243b6b"`'
    elif same:
        both = " and ".join(f"`{fabric}`" for fabric in same[:2])
        message = f"shape `{shortened(name)}` is filled with `{colour}`, the colour of both {both}"
        hint = "give the fabrics colours of their own, and fill the shape with one of them"
    else:
        message = (
            f"shape `{shortened(name)}` is filled with `{colour}`, and no fabric has that colour"
        )
        nearest = min(colours, key=lambda f: (_apart(colours[f], colour), f), default=None)
        hint = "give the pattern a fabric of that `colour`"
        if nearest is not None:
            hint = f"fill it with `{colours[nearest]}` for fabric `{nearest}`, or {hint}"
    reading.faults.add("unknown-colour", message, shape.span, hint)
    return None


def _apart(one: str, other: str) -> int:
    """How far two colours lie apart: the sum of the squares over red, green and blue."""
    return sum((int(one[k : k + 2], 16) - int(other[k : k + 2], 16)) ** 2 for k in (1, 3, 5))


def _corner(point: Point, in_units: bool) -> ExtentPoint:
    return _extent(point[0], in_units), _extent(point[1], in_units)


def _extent(value: float, in_units: bool) -> Extent:
    """An extent, exact where the value is a simple fraction."""
    near: Fraction = snapped(value)
    return Extent(near if near.denominator <= 254 else value, in_units)
