"""Floor 2: an SVG that is shown as it is, written anew by a worker (`files/apart.py`): elements that draw, and their
plain attributes. What its drawing program wrote beside it (names of files, of people, of programs) is not among them.
"""

from __future__ import annotations

from typing import IO
from xml.sax.saxutils import escape, quoteattr

from booklet.source.drawings.drawing_file import SVG_SPACE, XmlReader, points_out
from booklet.source.faults import Faults
from booklet.source.tree.node import shortened
from booklet.walls.wire import receive, send_words

DRAWS = frozenset(
    [
        "svg",
        "g",
        "defs",
        "symbol",
        "use",
        "rect",
        "polygon",
        "polyline",
        "path",
        "line",
        "circle",
        "ellipse",
        "text",
        "tspan",
        "textPath",
        "title",
        "desc",
        "style",
        "clipPath",
        "mask",
        "pattern",
        "marker",
        "linearGradient",
        "radialGradient",
        "stop",
        "switch",
    ]
)
_LINK = "http://www.w3.org/1999/xlink href"
_OF_LINKS = (_LINK, "href", "target", "download", "rel", "type", "hreflang", "ping")


def shown(text: str, file: str, faults: Faults) -> str:
    """The SVG of a drawing with nothing in it that does not draw; "" with a fault if it cannot be read, is not safe or
    does not say how large it is."""
    writer = _Writer(file, text, faults)
    if not writer.read(text):
        return ""
    return "".join(writer.made)


class _Writer(XmlReader):
    """Writes anew what expat reports."""

    def __init__(self, file: str, text: str, faults: Faults) -> None:
        super().__init__(file, text, faults)
        self.made: list[str] = []
        self._left_out = 0  # how many open elements are left out
        self._open: list[str] = []

    def begun(self, space: str, element: str, attributes: dict[str, str]) -> None:
        """Write a tag that draws, or leave it and all inside it out. Of a link what it holds is drawn, and leads nowhere."""
        if element == "a":
            element = "tspan" if {"text", "tspan", "textPath"} & {*self._open[-1:]} else "g"
            attributes = {key: value for key, value in attributes.items() if key not in _OF_LINKS}
        self._open.append(element)
        if self._left_out or space not in ("", SVG_SPACE) or element not in DRAWS:
            self._left_out += 1
            return
        if len(self._open) == 1:
            self._sized(attributes)
            attributes = {"xmlns": SVG_SPACE, **attributes}
        told = "".join(f" {key}={quoteattr(value)}" for key, value in self._plain(attributes))
        self.made.append(f"<{element}{told}>")

    def ended(self, element: str) -> None:
        """Write its end."""
        opened = self._open.pop()
        if self._left_out:
            self._left_out -= 1
        else:
            self.made.append(f"</{opened}>")

    def said(self, data: str) -> None:
        """Write its words."""
        if self._open and not self._left_out:
            if self._open[-1] == "style":
                self.guard_style(data)
            self.made.append(escape(data))

    @property
    def depth(self) -> int:
        """How many elements are open."""
        return len(self._open)

    def _plain(self, attributes: dict[str, str]) -> list[tuple[str, str]]:
        """The attributes without those of other programs; one that points out of the drawing is refused."""
        plain = {("href" if key == _LINK else key): value for key, value in attributes.items()}
        kept = [(key, value) for key, value in plain.items() if " " not in key]
        for key, value in kept:
            if points_out(value):
                self.unsafe(
                    f"has a `{shortened(key)}` that points outside itself, which is not read"
                )
        return [pair for pair in kept if not pair[0].startswith("data-")]

    def _sized(self, attributes: dict[str, str]) -> None:
        if "viewBox" not in attributes and not {"width", "height"} <= set(attributes):
            message = f"`{shortened(self.file)}` does not say how large it is: it has neither `viewBox` nor `width` and `height`"
            self.refuse("bad-drawing", message, "save it again as SVG from your drawing program")


def prepare() -> tuple[str, ...]:
    """What the worker may read beside what it is sent: nothing."""
    return ()


def serve(requests: IO[bytes], answers: IO[bytes]) -> None:
    """Write one drawing anew."""
    file = receive(requests).decode("utf-8", "surrogatepass")
    faults = Faults()
    made = shown(receive(requests).decode("utf-8"), file, faults)
    found = [
        [d.code, d.message, [d.span.line, d.span.column, d.span.end], d.hint] for d in faults.all()
    ]
    send_words(answers, {"faults": found, "data": "" if found else made})
