"""Floor 2: an SVG drawing to its shapes with positions. The only module that meets an XML parser.

Expat reports what stands in the file and does nothing of itself: it fetches no address and opens no
file. A drawing that declares entities, runs a script or points out of itself is refused.
"""

from __future__ import annotations

import re
from xml.parsers import expat

from booklet.kit.bounds import DEEPEST_DRAWING, LONGEST_VALUE, MOST_ELEMENTS, MOST_SHAPES
from booklet.kit.diagnostic import Span
from booklet.kit.records import Record
from booklet.source.drawings.drawing_style import Rules, Style, read_rules
from booklet.source.faults import Faults
from booklet.source.tree.node import shortened

SHAPES = ("rect", "polygon", "polyline", "path", "circle", "ellipse")
NOT_READ = {
    "use": "a copy of another shape",
    "image": "a picture",
    "line": "a line",
    "svg": "a drawing in the drawing",
}
SVG_SPACE = "http://www.w3.org/2000/svg"
_APART = ("defs", "symbol", "clipPath", "mask", "pattern", "marker", "metadata")
_ACTIVE = ("script", "foreignObject", "iframe", "handler", "animate", "set", "animateTransform")
_AGAIN = "save it again as SVG from your drawing program"
_PLAIN = "save it as plain SVG, without scripts, links and entities, from your drawing program"


class DrawnElement(Record, kw_only=True):
    """A shape as drawn: its element, attributes, style, the transforms around it, and its place."""

    element: str
    attributes: dict[str, str]
    style: Style
    transforms: tuple[str, ...]  # the outermost first
    span: Span

    @property
    def name(self) -> str:
        """Its id, empty if it has none."""
        return self.attributes.get("id", "").strip()


class _Stop(Exception):
    """Reading cannot go on; the fault is noted."""


def read_drawing(text: str, file: str, faults: Faults) -> tuple[DrawnElement, ...] | None:
    """The shapes of an SVG text in the order drawn, hidden ones left out; None with a fault if it
    cannot be read or is not safe."""
    reader = _Shapes(file, text, faults)
    return reader.shapes() if reader.read(text) else None


class XmlReader:
    """Hands on what expat reports of an SVG, and refuses what could run or reach out of it."""

    def __init__(self, file: str, text: str, faults: Faults) -> None:
        self.file, self._faults = file, faults
        self._lines = re.split(r"\r\n?|\n", text.rstrip())  # as expat counts them
        self._count = 0
        self.parser = expat.ParserCreate("UTF-8", namespace_separator=" ")
        self.parser.buffer_text = True
        self.parser.StartDoctypeDeclHandler = self._doctype
        self.parser.EntityDeclHandler = self._entity
        self.parser.StartElementHandler = self._start
        self.parser.EndElementHandler = self._end
        self.parser.CharacterDataHandler = self._text
        self.parser.ProcessingInstructionHandler = self._instruction

    def read(self, text: str) -> bool:
        """Whether the text was read to its end; where not, the fault is noted."""
        try:
            self.parser.Parse(text.encode("utf-8", "replace"), True)
        except _Stop:
            return False
        except expat.ExpatError as fault:
            message = f"`{shortened(self.file)}` is no sound SVG: {expat.ErrorString(fault.code)}"
            span, hint = self.span_at(fault.lineno, fault.offset + 1), _AGAIN
            self._faults.add("bad-drawing", message, span, hint)
            return False
        return True

    def begun(self, space: str, element: str, attributes: dict[str, str]) -> None:
        """An element of a namespace begins; names with a namespace have it before a blank."""
        raise NotImplementedError

    def ended(self, element: str) -> None:
        """An element ends."""
        raise NotImplementedError

    def said(self, data: str) -> None:
        """Words stand in an element."""
        raise NotImplementedError

    @property
    def depth(self) -> int:
        """How many elements are open."""
        raise NotImplementedError

    def span_at(self, line: int, column: int) -> Span:
        """The tag at a place, or the sign there; what expat finds missing after the last line stands at its end."""
        last = len(self._lines)
        if line > last:
            line, column = last, len(self._lines[-1]) + 1
        tag = re.match(r"<[\w:]*", self._lines[line - 1][column - 1 :])
        return Span(self.file, line, column, column + (len(tag[0]) if tag else 1))

    def _here(self) -> Span:
        return self.span_at(self.parser.CurrentLineNumber, self.parser.CurrentColumnNumber + 1)

    def refuse(self, code: str, message: str, hint: str) -> None:
        """Note a fault where the parser stands, and stop."""
        self._faults.add(code, message, self._here(), hint)
        raise _Stop

    def unsafe(self, message: str) -> None:
        """Refuse what is not safe."""
        self.refuse("unsafe-drawing", f"`{shortened(self.file)}` {message}", _PLAIN)

    def _doctype(self, name: str, system: str | None, public: str | None, internal: int) -> None:
        if internal:
            self.unsafe("declares entities of its own, which are not read")

    def _entity(self, *_: object) -> None:
        self.unsafe("declares entities of its own, which are not read")

    def _instruction(self, target: str, data: str) -> None:
        if target == "xml-stylesheet":
            self.unsafe("takes its style from another file, which is not read")

    def _start(self, tag: str, attributes: dict[str, str]) -> None:
        self._count += 1
        space, _, element = tag.rpartition(" ")
        if self._count > MOST_ELEMENTS or self.depth > DEEPEST_DRAWING:
            limit = f"more than {MOST_ELEMENTS} elements, or more than {DEEPEST_DRAWING} inside each other"
            self.refuse("too-large", f"`{shortened(self.file)}` has {limit}", "draw it simpler")
        if not self.depth and element != "svg":
            message = (
                f"`{shortened(self.file)}` is no SVG drawing: it begins with `{shortened(element)}`"
            )
            self.refuse("bad-drawing", message, "save it as SVG from your drawing program")
        self._guard(element, attributes)
        self.begun(space, element, attributes)

    def _end(self, tag: str) -> None:
        self.ended(tag.rpartition(" ")[2])

    def _text(self, data: str) -> None:
        self.said(data)

    def guard_style(self, sheet: str) -> None:
        """Refuse a style sheet that reaches out of the drawing."""
        if points_out(sheet) or "@import" in sheet:
            self.unsafe("has a style that points outside itself, which is not read")

    def _guard(self, element: str, attributes: dict[str, str]) -> None:
        """Refuse what could run or reach out of the drawing."""
        if element in _ACTIVE:
            self.unsafe(f"has a `{element}`, which is not read")
        for key, value in attributes.items():
            name = key.rpartition(" ")[2]
            if len(value) > LONGEST_VALUE:
                message = (
                    f"`{shortened(name)}` has {len(value)} characters; at most {LONGEST_VALUE} fit"
                )
                self.refuse("too-large", message, "draw it with fewer points")
            if name.lower().startswith("on"):
                self.unsafe(f"has an action `{shortened(name)}`, which is not read")
            if name in ("href", "src") and element != "a" and not value.strip().startswith("#"):
                self.unsafe(f"points to `{shortened(value)}` outside itself, which is not read")
            if name in ("style", "fill", "filter", "clip-path") and points_out(value):
                self.unsafe("has a style that points outside itself, which is not read")


class _Shapes(XmlReader):
    """What expat reports, gathered: the shapes with all that holds around them."""

    def __init__(self, file: str, text: str, faults: Faults) -> None:
        super().__init__(file, text, faults)
        self._open: list[tuple[str, dict[str, str], Style]] = []
        self._found: list[DrawnElement] = []
        self._css: list[str] = []
        self._apart = 0  # how many open elements are kept for later use and not drawn

    def shapes(self) -> tuple[DrawnElement, ...]:
        """The shapes that are seen, with the style sheet of the drawing applied."""
        rules = read_rules("".join(self._css))
        styled = (_styled(shape, rules) for shape in self._found)
        return tuple(shape for shape in styled if shape.style.is_seen)

    @property
    def depth(self) -> int:
        """How many elements are open."""
        return len(self._open)

    def begun(self, space: str, element: str, attributes: dict[str, str]) -> None:
        """Take in a shape with what holds around it."""
        foreign = space not in ("", SVG_SPACE)
        plain = {
            key.rpartition(" ")[2]: value for key, value in attributes.items() if " " not in key
        }
        style = Style.of(plain, self._open[-1][2] if self._open else Style())
        if foreign or element in _APART:
            self._apart += 1
            element = f"apart {element}"
        elif not self._apart and self._open:
            self._shape(element, plain, style)
        self._open.append((element, plain, style))

    def _shape(self, element: str, attributes: dict[str, str], style: Style) -> None:
        if element in NOT_READ and style.is_seen:
            message = f"{NOT_READ[element]} (`{element}`) in `{shortened(self.file)}` is no piece"
            hint = "draw every piece as a closed shape of its own, or take it out of the drawing"
            self._faults.add("bad-drawing", message, self._here(), hint)
        if element in SHAPES:
            inside = [*(a for _, a, _ in self._open), attributes]
            transforms = tuple(a["transform"] for a in inside if a.get("transform", "").strip())
            self._found.append(
                DrawnElement(
                    element=element,
                    attributes=attributes,
                    style=style,
                    transforms=transforms,
                    span=self._here(),
                )
            )
            if len(self._found) > MOST_SHAPES:
                message = f"`{shortened(self.file)}` has more than {MOST_SHAPES} shapes"
                self.refuse("too-large", message, "make it several blocks")

    def ended(self, element: str) -> None:
        """Close it."""
        element, _, _ = self._open.pop()
        self._apart -= element.startswith("apart ")

    def said(self, data: str) -> None:
        """Gather its style sheet."""
        if self._open and self._open[-1][0] == "style":
            self.guard_style(data)
            self._css.append(data)


def _styled(shape: DrawnElement, rules: Rules) -> DrawnElement:
    """The shape with the rules of the style sheet for its classes and element."""
    style = shape.style.ruled(rules, shape.element, shape.attributes)
    return DrawnElement(
        element=shape.element,
        attributes=shape.attributes,
        style=style,
        transforms=shape.transforms,
        span=shape.span,
    )


def points_out(style: str) -> bool:
    """Whether a style names an address other than a part of the drawing itself."""
    return any(
        not match.group(1).startswith("#")
        for match in re.finditer(r"url\(\s*['\"]?\s*([^'\")]*)", style, re.IGNORECASE)
    )
