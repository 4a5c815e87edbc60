"""Floor 13, reference: a shape as it stands: its corners and sides by number, its keys, a small example."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.crafts.form import Form
from booklet.crafts.forms import FORMS
from booklet.crafts.measures import Takes
from booklet.geometry.placing.shapes import shape_outline
from booklet.geometry.tiling import Outline
from booklet.kit.diagnostic import Span
from booklet.kit.measure import Extent, Length, Number
from booklet.pattern import Shape
from booklet.reference.terminal import columns, example, paragraph

_ACROSS, _DOWN = 36, 12  # places of the sketch


def shape_list() -> list[str]:
    """A line for each shape: its keys, and how many sides it has."""
    rows = [(form.word, _keys_in_words(form)) for form in FORMS.values()]
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


def _keys_in_words(form: Form) -> str:
    must, may = ([f"`{measure.name}`" for measure in some] for some in (form.must, form.may))
    also = f", perhaps {' and '.join(may)}" if may else ""
    count = f"; {form.sides} sides" if form.sides else ""
    return f"takes {', '.join(must)}{also}{count}"


def told(form: Form) -> list[str]:
    """The lines about a shape."""
    return list(_told(form))


def _told(form: Form) -> Iterator[str]:
    yield f"{form.word}: a shape of patches"
    yield ""
    rows = [(f"{one.name} *", one.doc) for one in form.must]
    rows += [(one.name, one.doc) for one in form.may]
    yield from columns(rows)
    yield "  (* must be there; a bare number is in design units, u)"
    yield ""
    if form.is_free:
        yield from paragraph(
            "Corners are numbered in the order written, sides by the corner they begin at, clockwise; the "
            "place of the patch is where its (0, 0) comes to lie, unless `anchor` says otherwise."
        )
        yield ""
        yield from example(f"patches:\n  mine: {_written(form)}")
        return
    outline = shape_outline(sample(form), Length.of(1))
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
    yield from example(f"patches:\n  mine: {_written(form)}")


def markdown(form: Form) -> str:
    """A shape in Markdown: its keys, and an example."""
    rows = [(one, " (must be there)") for one in form.must] + [(one, "") for one in form.may]
    listed = "\n".join(f"- `{one.name}`{must}: {one.doc}" for one, must in rows)
    return f"{listed}\n\n```yaml\npatches:\n  mine: {_written(form)}\n```\n"


def sample(form: Form) -> Shape:
    """The shape of the example, in units."""
    numbers: dict[str, Number] = {}
    extents: dict[str, Extent] = {}
    for measure in form.measures:
        if (value := form.sample.get(measure.name)) is not None:
            if measure.takes in (Takes.ANGLE, Takes.COUNT):
                numbers[measure.name] = value
            else:
                extents[measure.name] = Extent(value, True)
    return Shape(id="", form=form, span=Span.whole(""), extents=extents, numbers=numbers)


def _written(form: Form) -> str:
    sizes = ", ".join(f"{name}: {value}" for name, value in form.sample.items())
    return form.written or f"{{shape: {form.word}, {sizes}}}"


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
