"""Floor 2: a drawn shape to its outline: commands in the drawing's own frame, all transforms applied.

Outlines have M L A Q C only, absolute, and end where they begin; lengths are units of the drawing.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from functools import lru_cache

from booklet.kit.bounds import LONGEST_TRANSFORM, MOST_COMMANDS, MOST_DRAWN, MOST_SHAPES
from booklet.kit.outlines.near import NOTHING, WHOLE
from booklet.kit.outlines.path_data import (
    NUMBER,
    TAKES,
    Command,
    PathError,
    TooLarge,
    Unreadable,
    commands,
    marks,
)
from booklet.kit.outlines.plane import Point
from booklet.kit.records import Record
from booklet.source.drawings.drawing_file import DrawnElement

Matrix = tuple[float, float, float, float, float, float]

CLOSED = 1e-3  # of the shape's size: a path that ends so near its beginning is meant to be closed
_TRANSFORM = re.compile(r"\s*+,?+\s*+(matrix|translate|scale|rotate|skewX|skewY)\s*+\(([^()]*)\)")
_LENGTH = re.compile(rf"\s*+({NUMBER})\s*+(px)?+\s*+")


class DrawnShapeError(ValueError):
    """A shape that is no piece; the text ends a sentence that begins with the shape's name."""

    def __init__(self, why: str, hint: str) -> None:
        super().__init__(why)
        self.hint = hint


_CLOSE = "close it in your drawing program, or take it out of the drawing"
_PATH = "turn it into a path in your drawing program"


class Loop(Record):
    """A closed outline: its beginning, and commands L A Q C with absolute numbers."""

    start: Point
    commands: tuple[Command, ...]

    @property
    def points(self) -> tuple[Point, ...]:
        """Where the pen stands after each command, the beginning first and not twice."""
        ends = [self.start, *((n[-2], n[-1]) for _, n in self.commands)]
        return tuple(ends[:-1])

    @property
    def is_straight(self) -> bool:
        """Whether all sides are straight."""
        return all(letter == "L" for letter, _ in self.commands)


def loop_of(shape: DrawnElement) -> Loop:
    """The outline of a shape in the frame of the drawing. Raises ShapeError."""
    loop = _drawn(shape)
    for text in reversed(shape.transforms):
        loop = _moved(loop, _matrix(text))
    if not all(abs(value) < MOST_DRAWN for _, numbers in loop.commands for value in numbers):
        raise DrawnShapeError(
            "is made larger than any quilt by a transform", "take the transform away"
        )
    return loop


def _drawn(shape: DrawnElement) -> Loop:
    """The outline in the shape's own frame."""
    match shape.element:
        case "rect":
            return _rect(shape.attributes)
        case "polygon" | "polyline":
            points = _points(shape.attributes.get("points", ""))
            closed = shape.element == "polygon" or _meet(points[0], points[-1], points)
            return _closed([("L", p) for p in points[1:]], points[0], closed)
        case "path":
            return _path(shape.attributes.get("d", ""))
    raise DrawnShapeError(f"is a whole {shape.element}, which no seam can reach", _PATH)


def _rect(given: Mapping[str, str]) -> Loop:
    if any(_size(given, key) for key in ("rx", "ry")):
        raise DrawnShapeError("has round corners", "give it square corners, or " + _PATH)
    x, y, w, h = (_size(given, key) for key in ("x", "y", "width", "height"))
    if w <= 0 or h <= 0:
        raise DrawnShapeError("has no width or no height", "take it out of the drawing")
    corners = ((x + w, y), (x + w, y + h), (x, y + h), (x, y))
    return Loop((x, y), tuple(("L", corner) for corner in corners))


def _size(given: Mapping[str, str], key: str) -> float:
    text = given.get(key, "0")
    match = _LENGTH.fullmatch(text)
    if match is None or abs(float(match[1])) > MOST_DRAWN:
        raise DrawnShapeError(f"has a `{key}` of `{text[:40]}`", "draw in plain units or px")
    return float(match[1])


def _points(text: str) -> list[Point]:
    numbers = _numbers(text)
    if len(numbers) < 6 or len(numbers) % 2:
        raise DrawnShapeError("has fewer than three points", "take it out of the drawing")
    return list(zip(numbers[::2], numbers[1::2], strict=True))


def _numbers(text: str) -> list[float]:
    """The numbers of points or of a transform."""
    with _drawn_well():
        return [_bounded(float(number)) for letter, number in marks(text) if not letter]


def _bounded(value: float) -> float:
    if not abs(value) < MOST_DRAWN:
        raise TooLarge("has a number larger than any quilt")
    return value


def _commands(data: str) -> Iterator[Command]:
    """The commands of path data."""
    with _drawn_well():
        yield from commands(data, TAKES, MOST_DRAWN)


@contextmanager
def _drawn_well() -> Iterator[None]:
    """What is wrong with an outline as it is written, as a fault of its shape."""
    try:
        yield
    except Unreadable as fault:
        raise DrawnShapeError(f"has `{str(fault)[:12].strip()}` in its outline", _PATH) from None
    except PathError as fault:
        way_out = "draw it smaller" if isinstance(fault, TooLarge) else _PATH
        raise DrawnShapeError(str(fault), way_out) from None


def _path(data: str) -> Loop:
    """The one closed outline of path data."""
    start: Point | None = None
    at, ctrl, made, closed = (0.0, 0.0), (0.0, 0.0), list[Command](), False
    for letter, numbers in _commands(data):
        if len(made) > MOST_COMMANDS:
            raise DrawnShapeError(f"has more than {MOST_COMMANDS} sides", "draw it simpler")
        if letter in "Zz":
            closed = True
            continue
        if closed or (start is not None and letter in "Mm"):
            raise DrawnShapeError(
                "has several outlines in one path", "break it apart into single paths"
            )
        base = at if letter.islower() else (0.0, 0.0)
        if letter in "Mm":
            at = start = ctrl = (base[0] + numbers[0], base[1] + numbers[1])
            continue
        if start is None:
            raise DrawnShapeError("has an outline that does not begin with `M`", _PATH)
        command, ctrl = _command(letter.upper(), numbers, at, base, ctrl, made)
        made.append(command)
        at = (command[1][-2], command[1][-1])
    if start is None or not made:
        raise DrawnShapeError("has no outline", "take it out of the drawing")
    ends = [start, *((n[-2], n[-1]) for _, n in made)]
    return _closed(made, start, closed or _meet(start, at, ends))


def _command(
    kind: str, n: tuple[float, ...], at: Point, base: Point, ctrl: Point, made: list[Command]
) -> tuple[Command, Point]:
    """One command made absolute, H V S T written out; and the last control point."""
    x, y = base
    if kind == "H":
        end = (x + n[0], at[1])
        return ("L", end), end
    if kind == "V":
        end = (at[0], y + n[0])
        return ("L", end), end
    if kind == "A":
        end = (x + n[5], y + n[6])
        if not (n[0] and n[1]):
            return ("L", end), end
        return ("A", (abs(n[0]), abs(n[1]), *n[2:5], *end)), end
    points = [v + (x if i % 2 == 0 else y) for i, v in enumerate(n)]
    end = (points[-2], points[-1])
    if kind == "L":
        return ("L", end), end
    smooth = {"S": "C", "T": "Q"}.get(kind)
    if smooth:
        goes_on = made and made[-1][0] == smooth
        first = (2 * at[0] - ctrl[0], 2 * at[1] - ctrl[1]) if goes_on else at
        points = [*first, *points]
    return (smooth or kind, tuple(points)), (points[-4], points[-3])


def _meet(a: Point, b: Point, points: list[Point]) -> bool:
    """Whether an outline comes back to its beginning, as near as a hand can draw."""
    size = max(max(p[k] for p in points) - min(p[k] for p in points) for k in (0, 1))
    return math.dist(a, b) <= CLOSED * size


def _closed(made: list[Command], start: Point, closed: bool) -> Loop:
    """The outline that ends where it begins; a last short stretch is drawn, an almost equal end moved."""
    if not closed:
        raise DrawnShapeError("is open: its end does not meet its beginning", _CLOSE)
    end = (made[-1][1][-2], made[-1][1][-1])
    if _meet(start, end, [start, *((n[-2], n[-1]) for _, n in made)]):
        letter, numbers = made[-1]
        made = [*made[:-1], (letter, (*numbers[:-2], *start))]
    else:
        made = [*made, ("L", start)]
    ends, kept = start, list[Command]()
    for letter, n in made:
        if letter != "L" or math.dist(ends, (n[-2], n[-1])) > 0:
            kept.append((letter, n))
        ends = (n[-2], n[-1])
    if len(kept) < (3 if all(letter == "L" for letter, _ in kept) else 2):
        raise DrawnShapeError("encloses nothing", "take it out of the drawing")
    return Loop(start, tuple(kept))


@lru_cache(MOST_SHAPES)
def _matrix(text: str) -> Matrix:
    """The matrix of a `transform`."""
    if len(text) > LONGEST_TRANSFORM:
        raise DrawnShapeError(f"has a transform of {len(text)} signs", _PATH)
    place, text, found = 0, text.rstrip(), (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)
    while place < len(text):
        match = _TRANSFORM.match(text, place)
        if match is None:
            raise DrawnShapeError(f"has a transform `{text[place:].lstrip()[:30].rstrip()}`", _PATH)
        place = match.end()
        found = _times(found, _one(match[1], _numbers(match[2])))
    return found


def _one(kind: str, n: list[float]) -> Matrix:
    match kind, n:
        case "matrix", [a, b, c, d, e, f]:
            return (a, b, c, d, e, f)
        case "translate", [x, *y] if len(y) < 2:
            return (1.0, 0.0, 0.0, 1.0, x, y[0] if y else 0.0)
        case "scale", [x, *y] if len(y) < 2:
            return (x, 0.0, 0.0, y[0] if y else x, 0.0, 0.0)
        case "rotate", [angle]:
            return _turn(angle)
        case "rotate", [angle, x, y]:
            back = _times(_turn(angle), (1.0, 0.0, 0.0, 1.0, -x, -y))
            return _times((1.0, 0.0, 0.0, 1.0, x, y), back)
        case "skewX", [angle]:
            return (1.0, 0.0, math.tan(math.radians(angle)), 1.0, 0.0, 0.0)
        case "skewY", [angle]:
            return (1.0, math.tan(math.radians(angle)), 0.0, 1.0, 0.0, 0.0)
    raise DrawnShapeError(f"has a transform `{kind}` with {len(n)} numbers", _PATH)


def _turn(angle: float) -> Matrix:
    quarters, rest = divmod(angle, 90.0)
    exact = ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[int(quarters) % 4]
    c, s = exact if not rest else (math.cos(math.radians(angle)), math.sin(math.radians(angle)))
    return (c, s, -s, c, 0.0, 0.0)


def _times(m: Matrix, n: Matrix) -> Matrix:
    """The transform that does n first, then m."""
    a, b, c, d, e, f = m
    return (
        a * n[0] + c * n[1], b * n[0] + d * n[1],
        a * n[2] + c * n[3], b * n[2] + d * n[3],
        a * n[4] + c * n[5] + e, b * n[4] + d * n[5] + f,
    )  # fmt: skip


def _at(m: Matrix, p: Point) -> Point:
    return (m[0] * p[0] + m[2] * p[1] + m[4], m[1] * p[0] + m[3] * p[1] + m[5])


def _moved(loop: Loop, m: Matrix) -> Loop:
    """The outline with a transform applied."""
    size = math.hypot(m[0], m[1])
    if abs(m[0] * m[3] - m[1] * m[2]) < NOTHING:
        raise DrawnShapeError("is made flat by a transform", "take the transform away")
    moved: list[Command] = []
    for letter, n in loop.commands:
        if letter != "A":
            pairs = zip(n[::2], n[1::2], strict=True)
            moved.append((letter, tuple(v for pair in pairs for v in _at(m, pair))))
            continue
        along = m[0] * m[2] + m[1] * m[3]
        if abs(along) > WHOLE * size**2 or abs(math.hypot(m[2], m[3]) - size) > WHOLE * size:
            raise DrawnShapeError("is an arc that a transform stretches", _PATH)
        mirrored = m[0] * m[3] < m[1] * m[2]
        turn = math.degrees(math.atan2(m[1], m[0]))
        tilt = turn + (-n[2] if mirrored else n[2])
        sweep = 1.0 - n[4] if mirrored else n[4]
        moved.append(("A", (n[0] * size, n[1] * size, tilt, n[3], sweep, *_at(m, (n[5], n[6])))))
    return Loop(_at(m, loop.start), tuple(moved))
