"""Floor 11, plain drawings: a picture of ours becomes what a PDF draws.

Our pictures (`drawing/ink/svg.py`) are made of straight sides, circles, words and hatches. To a PDF these need only be spelled
otherwise, where WeasyPrint looks at every attribute and point and lays out every letter by itself. A picture with anything
else in it is left to WeasyPrint; `tests/test_plain_drawing.py` holds both ways to the same look.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Hashable, Mapping
from math import cos, pi, radians, sin, sqrt
from xml.etree import ElementTree

from booklet.drawing.lettering.text_widths import FONT
from booklet.kit.records import Mutable, Record, field

_SVG = "{http://www.w3.org/2000/svg}"
_N = r"-?\d++(?:\.\d++)?"
_NUMBER = re.compile(_N)
_COLOUR = re.compile(r"#[0-9a-f]{6}")
_PATH = re.compile(rf"(?:M{_N} {_N}(?:L{_N} {_N})*+Z?)++")
_MOVE, _LINE = re.compile(rf"M({_N} {_N})"), re.compile(rf"L({_N} {_N})")
_POINT = re.compile(rf"({_N}) ({_N})")
_TURN = re.compile(rf"rotate\(({_N}) ({_N}) ({_N})\)")
_HATCH = re.compile(r"url\(#([^)]*)\)")

_PEN = frozenset({"fill", "stroke", "stroke-width", "stroke-linejoin", "stroke-linecap", "stroke-dasharray"})  # fmt: skip
_KNOWN = {
    "path": _PEN | {"d"},
    "circle": _PEN | {"cx", "cy", "r"},
    "text": _PEN | {"x", "y", "font-size", "font-weight", "text-anchor", "transform", "aria-hidden"},
    "pattern": frozenset({"id", "width", "height", "patternUnits"}),
    "svg": frozenset({"viewBox", "width", "height", "id", "role", "font-family", "baseProfile", "version", "aria-labelledby"}),
}  # fmt: skip
_CAPS: Mapping[str, float] = {"butt": 0, "round": 1, "square": 2}
_JOINS: Mapping[str, float] = {"miter": 0, "round": 1, "bevel": 2}
_SHIFTS: Mapping[str, float] = {"start": 0.0, "middle": 0.5, "end": 1.0}


class Glyph(Record):
    """A sign as a font shows it: the font, by its key and its name in a document, the number of the glyph, none for a
    blank, and how far it leads on, in 1/1000 of the type size."""

    font: Hashable
    name: str
    number: int | None
    advance: float


Letters = Callable[[int, str], Mapping[str, Glyph] | None]
"""The glyphs of all signs of some words in a weight; None where one of them is not a glyph by itself."""


class Hatch(Record, kw_only=True):
    """What repeats in an area: its lines, the size of its tile, and the tile's place in the form."""

    lines: bytes
    tile: tuple[float, float]
    matrix: tuple[float, ...]


class PlainDrawing(Record, kw_only=True):
    """A picture as a PDF draws it: its lines, its hatches by name, and the glyphs it shows of each font with their
    signs, in the order in which it shows them."""

    lines: bytes
    hatches: Mapping[str, Hatch]
    shown: Mapping[Hashable, Mapping[int, tuple[str, float]]]


class _Other(Exception):
    """There is something in a picture that is not ours."""


def plain_drawing(svg: bytes, width: float, height: float, letters: Letters) -> PlainDrawing | None:
    """A picture in a place so wide and high; None where WeasyPrint must draw it."""
    try:
        root = ElementTree.fromstring(svg)
        return _Pens(root=root, width=width, height=height, letters=letters).drawing()
    except _Other:
        return None


class _Pens(Mutable, kw_only=True):
    """Draws one picture, and says again only what of a look has changed."""

    root: ElementTree.Element
    width: float
    height: float
    letters: Letters
    lines: list[str] = field(default_factory=list)
    look: dict[str, str] = field(default_factory=dict)
    tiles: dict[str, ElementTree.Element] = field(default_factory=dict)
    hatches: dict[str, Hatch] = field(default_factory=dict)
    shown: dict[Hashable, dict[int, tuple[str, float]]] = field(default_factory=dict)
    scale: tuple[float, float, float] = (1.0, 0.0, 0.0)

    def drawing(self) -> PlainDrawing:
        """The picture. Raises _Other."""
        attributes = _attributes(self.root, "svg")
        if attributes.get("font-family") != FONT:
            raise _Other
        self.scale = _fitted(attributes.get("viewBox", ""), self.width, self.height)
        one, right, down = (_said(value) for value in self.scale)
        self.lines.append(f"{one} 0 0 {one} {right} {down} cm\n4 M")
        for node in self.root:
            self.draw(node)
        lines = "\n".join(self.lines).encode("ascii")
        return PlainDrawing(lines=lines, hatches=self.hatches, shown=self.shown)

    def draw(self, node: ElementTree.Element) -> None:
        """Draw one element. Raises _Other."""
        match node.tag.removeprefix(_SVG):
            case "title" | "desc":
                return
            case "defs":
                self.tiles |= {str(tile.get("id")): tile for tile in node}
            case "path":
                self.outline(_attributes(node, "path"), _path(node))
            case "circle":
                self.outline(_attributes(node, "circle"), _circle(node))
            case "text":
                self.words(node)
            case _:
                raise _Other

    def outline(self, look: Mapping[str, str], lines: str) -> None:
        """An outline in its look."""
        filled, stroked = self.fill(look, lines), self.stroke(look)
        if filled or stroked:
            self.lines += [lines, "B" if filled and stroked else "f" if filled else "S"]

    def fill(self, look: Mapping[str, str], lines: str) -> bool:
        """Set the colour or the hatch of an area, where it has one."""
        fill = look.get("fill", "#000000")
        if fill == "none":
            return False
        if (found := _HATCH.fullmatch(fill)) is not None:
            self.lines.append(f"/Pattern cs\n/{self.hatch(found[1], lines)} scn")
            self.look.pop("rg", None)
        else:
            self.set("rg", _colour(fill))
        return True

    def stroke(self, look: Mapping[str, str]) -> bool:
        """Set the pen of a line, where it has one."""
        colour, wide = look.get("stroke", "none"), _number(look.get("stroke-width", "1"))
        if colour == "none" or float(wide) == 0:
            return False
        dash = look.get("stroke-dasharray", "")
        self.set("RG", _colour(colour))
        self.set("w", wide)
        self.set("d", f"[{' '.join(map(_number, dash.split()))}] 0")
        self.set("J", f"{_of(_CAPS, look.get('stroke-linecap', 'butt')):g}")
        self.set("j", f"{_of(_JOINS, look.get('stroke-linejoin', 'miter')):g}")
        return True

    def set(self, operator: str, value: str) -> None:
        """Say a value of the look where it is another."""
        if self.look.get(operator) != value:
            self.look[operator] = value
            self.lines.append(f"{value} {operator}")

    def hatch(self, id: str, lines: str) -> str:
        """The name of a hatch that begins at the corner of an area, where WeasyPrint begins it."""
        points = [(float(x), float(y)) for x, y in _POINT.findall(lines)]
        if id not in self.tiles or not points:
            raise _Other
        x, y = min(x for x, _ in points), min(y for _, y in points)
        one, right, down = self.scale
        name = f"p{len(self.hatches)}"
        self.hatches[name] = _tile(
            self.tiles[id], (one, 0, 0, one, x * one + right, y * one + down)
        )
        return name

    def words(self, node: ElementTree.Element) -> None:
        """Words on one line. Raises _Other."""
        look, text = _attributes(node, "text"), node.text or ""
        if len(node) or "stroke-dasharray" in look:
            raise _Other
        glyphs = self.letters(_weight(look), text)
        if glyphs is None or not text.strip():
            raise _Other
        size = float(_number(look.get("font-size", "")))
        long = sum(glyphs[sign].advance for sign in text) * size / 1000
        shift = _of(_SHIFTS, look.get("text-anchor", "start"))
        x = float(_number(look.get("x", ""))) - long * shift
        place = _placed(look.get("transform"), x, float(_number(look.get("y", ""))))
        filled, stroked = self.fill(look, ""), self.stroke(look)
        self.set("Tr", "2" if filled and stroked else "0" if filled else "1")
        self.lines.append(f"BT\n{place} Tm")
        self.lines += self.shown_text(text, glyphs, _number(look.get("font-size", "")))
        self.lines.append("ET")

    def shown_text(self, text: str, glyphs: Mapping[str, Glyph], size: str) -> list[str]:
        """The signs of words, those of one font together, with room where there are blanks."""
        said: list[str] = []
        row, name = "", ""
        for sign in text:
            glyph = glyphs[sign]
            if glyph.number is None:
                row += f">{_said(-glyph.advance)}<"
                continue
            if glyph.name != name:
                said += [f"[<{row}>] TJ"] if row else []
                name, row = glyph.name, ""
                said.append(f"/{name} {size} Tf")
            row += f"{glyph.number:04x}"
            self.shown.setdefault(glyph.font, {}).setdefault(glyph.number, (sign, glyph.advance))
        return [*said, f"[<{row}>] TJ".replace("<>", "")]


def _tile(tile: ElementTree.Element, matrix: tuple[float, ...]) -> Hatch:
    """What repeats, drawn. Raises _Other."""
    attributes = _attributes(tile, "pattern")
    if attributes.get("patternUnits") != "userSpaceOnUse":
        raise _Other
    wide, high = (float(_number(attributes.get(side, ""))) for side in ("width", "height"))
    pens = _Pens(root=tile, width=wide, height=high, letters=lambda weight, text: None)
    pens.lines.append("4 M")
    for node in tile:
        pens.draw(node)
    if pens.hatches:
        raise _Other
    lines = "\n".join(pens.lines).encode("ascii")
    return Hatch(lines=lines, tile=(wide, high), matrix=matrix)


def _attributes(node: ElementTree.Element, kind: str) -> Mapping[str, str]:
    """The attributes of an element of a kind. Raises _Other for one that we never write."""
    if node.tag != _SVG + kind or node.attrib.keys() - _KNOWN[kind]:
        raise _Other
    return node.attrib


def _fitted(box: str, width: float, height: float) -> tuple[float, float, float]:
    """How large a picture is shown, and where, in a place: whole, and in its middle. Raises _Other."""
    left, top, wide, high = (float(_number(each)) for each in (box.split() + [""] * 4)[:4])
    if left or top or not (wide and high):
        raise _Other
    one = min(width / wide, height / high)
    return one, (width - wide * one) / 2, (height - high * one) / 2


def _path(node: ElementTree.Element) -> str:
    """The outline of a path: each point on a line. Raises _Other."""
    data = node.get("d", "")
    if not _PATH.fullmatch(data):
        raise _Other
    return _LINE.sub(r"\n\1 l", _MOVE.sub(r"\n\1 m", data)).replace("Z", "\nh")[1:]


def _circle(node: ElementTree.Element) -> str:
    """A circle of four curves, those by which WeasyPrint draws one."""
    x, y, r = (float(_number(node.get(key, ""))) for key in ("cx", "cy", "r"))
    k = r / sqrt(pi)
    rows = (
        (r, k, k, r, 0, r), (-k, r, -r, k, -r, 0), (-r, -k, -k, -r, 0, -r), (k, -r, r, -k, r, 0),
    )  # fmt: skip
    curves = (
        " ".join(_said(value + (y if n % 2 else x)) for n, value in enumerate(row)) + " c"
        for row in rows
    )
    return "\n".join((f"{_said(x + r)} {_said(y)} m", *curves, "h"))


def _placed(turn: str | None, x: float, y: float) -> str:
    """Where words begin and which way they run, as a matrix; the page's y runs down, that of letters up."""
    if turn is None:
        return f"1 0 0 -1 {_said(x)} {_said(y)}"
    if (found := _TURN.fullmatch(turn)) is None:
        raise _Other
    angle, mid_x, mid_y = (float(part) for part in found.groups())
    c, s = cos(radians(angle)), sin(radians(angle))
    across, down = x - mid_x, y - mid_y
    at = (mid_x + c * across - s * down, mid_y + s * across + c * down)
    return " ".join(_said(value) for value in (c, s, s, -c, *at))


def _weight(look: Mapping[str, str]) -> int:
    """The weight of words."""
    return int(_number(look.get("font-weight", "400")))


def _colour(colour: str) -> str:
    """A colour as its three lights, from 0 to 1."""
    if not _COLOUR.fullmatch(colour):
        raise _Other
    return " ".join(_said(int(colour[n : n + 2], 16) / 255) for n in (1, 3, 5))


def _number(value: str) -> str:
    """A number as it stands. Raises _Other for anything else."""
    if not _NUMBER.fullmatch(value):
        raise _Other
    return value


def _of(table: Mapping[str, float], name: str) -> float:
    """What a name stands for. Raises _Other."""
    if name not in table:
        raise _Other
    return table[name]


def _said(value: float) -> str:
    """A number as WeasyPrint writes it: to a millionth, no trailing zeros."""
    text = f"{value:.6f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
