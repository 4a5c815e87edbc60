"""Floor 13, reference: a shape as it stands: its corners and sides by number, its keys, a small example."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.diagnostic import Span
from booklet.geometry.shapes import FREE_KINDS, shape_outline
from booklet.geometry.tiling import Outline
from booklet.measure import Extent, Length, Number
from booklet.pattern import Shape, ShapeKind
from booklet.reference.lines import columns, example, paragraph
from booklet.source.blocks.shape_keys import FORMS, PATCH

MEASURES: dict[ShapeKind, dict[str, int]] = {
    ShapeKind.RECTANGLE: {"width": 3, "height": 2},
    ShapeKind.RIGHT_TRIANGLE: {"width": 3, "height": 2},
    ShapeKind.QUARTER_SQUARE: {"base": 4},
    ShapeKind.ISOSCELES: {"base": 2, "height": 3},
    ShapeKind.DIAMOND: {"side": 2, "angle": 60},
    ShapeKind.PARALLELOGRAM: {"base": 3, "height": 2, "shift": 1},
    ShapeKind.TRAPEZOID: {"base": 4, "top": 2, "height": 2},
    ShapeKind.KITE: {"length": 4, "width": 2, "cross": 1},
    ShapeKind.REGULAR_POLYGON: {"sides": 5, "side": 2},
}
"""The measures of the example of each shape; a side of 2 where none are named."""
_FREE = {
    ShapeKind.POLYGON: "{shape: polygon, corners: [[0, 0], [3, 0], [2, 2], [0, 2]]}",
    ShapeKind.PATH: "{shape: path, outline: M 0 0 L 4 0 A 4 4 0 0 1 0 4 Z}",
}
_ACROSS, _DOWN = 36, 12  # places of the sketch


def shape_list() -> list[str]:
    """A line for each shape: its keys, and how many sides it has."""
    rows = [(kind.value, _keys_in_words(kind)) for kind in ShapeKind]
    return [
        "shapes: the shapes that a patch may have",
        "",
        *columns(rows, 24),
        "",
        *paragraph(
            "`booklet help hexagon` shows how a shape stands and which side is side 1. All measures are "
            "finished, without allowance; a bare number is in design units (u)."
        ),
    ]


def _keys_in_words(kind: ShapeKind) -> str:
    must, may, sides = FORMS[kind]
    also = f", perhaps {' and '.join(f'`{name}`' for name in may)}" if may else ""
    count = f"; {sides} sides" if sides else ""
    return f"takes {', '.join(f'`{name}`' for name in must)}{also}{count}"


def told(kind: ShapeKind) -> list[str]:
    """The lines about a shape."""
    return list(_told(kind))


def _told(kind: ShapeKind) -> Iterator[str]:
    must, may, _ = FORMS[kind]
    yield f"{kind.value}: a shape of patches"
    yield ""
    docs = {key.name: key.doc for key in PATCH.keys}
    rows = [(f"{name} *", docs[name]) for name in must] + [(name, docs[name]) for name in may]
    yield from columns(rows)
    yield "  (* must be there; a bare number is in design units, u)"
    yield ""
    if kind in FREE_KINDS:
        yield from paragraph(
            "Corners are numbered in the order written, sides by the corner they begin at, clockwise; the "
            "place of the patch is where its (0, 0) comes to lie, unless `anchor` says otherwise."
        )
        yield ""
        yield from example(f"patches:\n  mine: {_FREE[kind]}")
        return
    outline = shape_outline(_sample(kind), Length.of(1))
    yield from sketch(outline)
    yield ""
    yield from columns(_corner_rows(outline))
    yield ""
    yield from paragraph(
        "Side N runs from corner N to the next, clockwise. Places are across and down from the middle of the "
        "box about the shape: `at` says where that comes to lie, unless `anchor` names a corner or a side. "
        "`grain`, `motif` and `anchor`: `booklet help patch`."
    )
    yield ""
    yield from example(f"patches:\n  mine: {{shape: {kind.value}, {_written(kind)}}}")


def _sample(kind: ShapeKind) -> Shape:
    """The shape of the example, in units."""
    named = _measures(kind)
    numbers: dict[str, Number] = {name: named[name] for name in ("angle", "sides") if name in named}
    extents = {name: Extent(v, True) for name, v in named.items() if name not in numbers}
    if kind is ShapeKind.ELONGATED_HEXAGON:
        extents["middle"], numbers["angle"] = extents["side"], 90
    return Shape("", kind, Span.whole(""), extents, numbers)


def _measures(kind: ShapeKind) -> dict[str, int]:
    return MEASURES.get(kind, {"side": 2})


def _written(kind: ShapeKind) -> str:
    return ", ".join(f"{name}: {value}" for name, value in _measures(kind).items())


def _corner_rows(outline: Outline) -> Iterator[tuple[str, str]]:
    """For each corner its number and where it lies in the box about the shape."""
    xs, ys = zip(*(side.start for side in outline.sides), strict=True)
    for number, (x, y) in enumerate(zip(xs, ys, strict=True), 1):
        across = (x - min(xs)) / (max(xs) - min(xs))
        down = (y - min(ys)) / (max(ys) - min(ys))
        yield (
            f"corner {number}",
            f"{_place(across, down)}, at [{round(x, 3) + 0:g}, {round(y, 3) + 0:g}]",
        )


def _place(across: float, down: float) -> str:
    """Where a point of the box lies, in words; shares from the left and from the top."""
    height = "top" if down < 0.01 else "bottom" if down > 0.99 else ""
    height = height or ("upper" if down < 0.45 else "lower" if down > 0.55 else "")
    side = "left" if across < 0.4 else "right" if across > 0.6 else ""
    return f"{height} {side}".strip() or "middle"


def sketch(outline: Outline) -> list[str]:
    """The outline in dots, its corners as numbers, its sides as numbers in brackets."""
    points = [side.start for side in outline.sides]
    xs, ys = zip(*points, strict=True)
    # a place of a terminal is about twice as high as it is wide
    scale = min(_ACROSS / (2 * (max(xs) - min(xs))), _DOWN / (max(ys) - min(ys)))

    def spot(x: float, y: float) -> tuple[int, int]:
        return round((y - min(ys)) * scale), round((x - min(xs)) * 2 * scale)

    canvas: dict[tuple[int, int], str] = {}
    for (ax, ay), (bx, by) in zip(points, [*points[1:], points[0]], strict=True):
        for n in range(41):
            canvas[spot(ax + (bx - ax) * n / 40, ay + (by - ay) * n / 40)] = "."
    for number, ((ax, ay), (bx, by)) in enumerate(
        zip(points, [*points[1:], points[0]], strict=True), 1
    ):
        _write(canvas, spot((ax + bx) / 2, (ay + by) / 2), f"({number})")
    for number, (x, y) in enumerate(points, 1):
        _write(canvas, spot(x, y), str(number))
    return _rows(canvas)


def _write(canvas: dict[tuple[int, int], str], place: tuple[int, int], text: str) -> None:
    """Set a text on the canvas, its middle at a place."""
    row, column = place
    for n, sign in enumerate(text):
        canvas[(row, column - len(text) // 2 + n)] = sign


def _rows(canvas: dict[tuple[int, int], str]) -> list[str]:
    """The canvas as lines, set in."""
    left = min(column for _, column in canvas)
    last = max(row for row, _ in canvas)
    wide = max(column for _, column in canvas)
    return [
        "      " + "".join(canvas.get((row, c), " ") for c in range(left, wide + 1)).rstrip()
        for row in range(last + 1)
    ]
