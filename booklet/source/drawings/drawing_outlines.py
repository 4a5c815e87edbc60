"""Floor 2: a drawing to its outlines, read by a worker (`files/apart.py`): the only one that meets the parser."""

from __future__ import annotations

from typing import IO, Any

from booklet.kit.diagnostic import Span
from booklet.kit.records import Record
from booklet.source.drawings.drawing_file import DrawnElement, read_drawing
from booklet.source.drawings.drawing_paths import DrawnShapeError, Loop, loop_of
from booklet.source.faults import Faults
from booklet.source.files.apart import ReadingWorkers
from booklet.source.tree.node import shortened
from booklet.walls.wire import receive, send_words


class Outlined(Record):
    """A shape that is seen: its id (or ""), its fill, its place, and its outline; None if it is no piece."""

    name: str
    fill: str
    span: Span
    loop: Loop | None


def outlined(text: str, file: str, faults: Faults) -> list[Outlined] | None:
    """The shapes of an SVG text in the order drawn; None with a fault if it cannot be read or is not safe."""
    shapes = read_drawing(text, file, faults)
    if shapes is None:
        return None
    return [Outlined(s.name, s.style.fill, s.span, _loop(s, faults)) for s in shapes]


def _loop(shape: DrawnElement, faults: Faults) -> Loop | None:
    try:
        return loop_of(shape)
    except DrawnShapeError as fault:
        called = f"shape `{shortened(shape.name)}`" if shape.name else f"a {shape.element}"
        faults.add("bad-drawing", f"{called} {fault}", shape.span, fault.hint)
        return None


def prepare() -> tuple[str, ...]:
    """What the worker may read beside what it is sent: nothing."""
    return ()


def serve(requests: IO[bytes], answers: IO[bytes]) -> None:
    """Read one drawing."""
    file = receive(requests).decode("utf-8", "surrogatepass")
    faults = Faults()
    shapes = outlined(receive(requests).decode("utf-8"), file, faults)
    found = [[d.code, d.message, _place(d.span), d.hint] for d in faults.all()]
    send_words(answers, {"faults": found, "shapes": shapes and [_flat(s) for s in shapes]})


def _place(span: Span) -> list[int]:
    return [span.line, span.column, span.end]


def _flat(shape: Outlined) -> list[Any]:
    loop = shape.loop and [shape.loop.start, shape.loop.commands]
    return [shape.name, shape.fill, _place(shape.span), loop]


def read_outlines(
    text: str, file: str, named: Span, faults: Faults, apart: ReadingWorkers
) -> list[Outlined] | None:
    """The shapes of a drawing as its worker tells them; `named` is where the pattern names it."""
    told = apart.told(__name__, file, text.encode("utf-8"), named)
    if told is None:
        return None
    for code, message, place, hint in told["faults"]:
        faults.add(code, message, Span(file, *place), hint)
    if told["shapes"] is None:
        return None
    return [
        Outlined(name, fill, Span(file, *place), loop and _solid(*loop))
        for name, fill, place, loop in told["shapes"]
    ]


def _solid(start: Any, commands: Any) -> Loop:
    return Loop((start[0], start[1]), tuple((letter, tuple(n)) for letter, n in commands))
