"""Sound patterns drawn at random: what quilters write, in combinations that nobody thought of.

A block is a rectangle cut again and again straight across (so that it can always be sewn), whose
pieces may then be cut along a diagonal. `patterns()` gives the text of a whole `pattern.yaml`.
"""

from dataclasses import dataclass
from fractions import Fraction

from hypothesis import strategies as st

Corners = tuple[tuple[Fraction, Fraction], ...]

COLOURS = ("#243b6b", "#e9dcc3", "#b5583a", "#5f8a66", "#c8862b")
ALLOWANCES = ("1/4 in", "1/4 in", "1/4 in", "3/8 in", "3/16 in", "6 mm", "0.75 cm", "7 mm")
UNITS = ("1 in", "1 1/2 in", "2 in", "3/4 in", "1 9/16 in", "2.3 in", "4 cm", "25 mm")
DIRECTIONS = ("any", "any", "one-way", "stripe")
KINDS = ("yardage", "yardage", "yardage", "fat quarter")


@dataclass(frozen=True)
class Cloth:
    """A fabric of a random pattern."""

    id: str
    direction: str
    kind: str
    repeat: bool
    width: str

    def yaml(self, number: int) -> str:
        more = f", direction: {self.direction}" if self.direction != "any" else ""
        more += f", kind: {self.kind}" if self.kind != "yardage" else ""
        more += ", repeat: {across: 5 in, along: 4 in}" if self.repeat else ""
        more += f", width: {self.width}" if self.kind == "yardage" else ""
        return f'  {self.id}: {{name: Cloth {number}, colour: "{COLOURS[number]}"{more}}}'


@st.composite
def rectangles(draw, left, top, right, bottom, pieces):
    """The rectangle, cut straight across into at most so many."""
    wide, tall = right - left, bottom - top
    if pieces <= 1 or max(wide, tall) <= 1:
        return [(left, top, right, bottom)]
    upright = wide > 1 and (tall <= 1 or draw(st.booleans()))
    first = draw(st.integers(1, pieces - 1))
    if upright:
        cut = left + draw(st.integers(1, wide - 1))
        sides = ((left, top, cut, bottom), (cut, top, right, bottom))
    else:
        cut = top + draw(st.integers(1, tall - 1))
        sides = ((left, top, right, cut), (left, cut, right, bottom))
    return [
        *draw(rectangles(*sides[0], first)),
        *draw(rectangles(*sides[1], pieces - first)),
    ]


@st.composite
def pieces_of(draw, wide, tall):
    """The pieces of a block as corners, clockwise."""
    found: list[Corners] = []
    for left, top, right, bottom in draw(
        rectangles(0, 0, wide, tall, draw(st.sampled_from((1, 1, 2, 3, 4, 6, 9))))
    ):
        a, b, c, d = (left, top), (right, top), (right, bottom), (left, bottom)
        match draw(st.sampled_from(("whole", "whole", "rising", "falling"))):
            case "rising":
                found += [(a, b, d), (b, c, d)]
            case "falling":
                found += [(a, b, c), (a, c, d)]
            case _:
                found.append((a, b, c, d))
    return found


def _points(corners: Corners) -> str:
    return "[" + ", ".join(f"[{x}, {y}]" for x, y in corners) + "]"


@st.composite
def blocks(draw, name, wide, tall, cloths):
    """A block as YAML."""
    lines = [f"  {name}:", f"    title: Block {name.upper()}", "    pieces:"]
    for number, corners in enumerate(draw(pieces_of(wide, tall)), 1):
        cloth = draw(st.sampled_from(cloths))
        motif = ", motif: yes" if cloth.repeat and draw(st.booleans()) else ""
        lines.append(
            f"      - {{id: p{number}, corners: {_points(corners)}, fabric: {cloth.id}{motif}}}"
        )
    return lines


@st.composite
def quilts(draw, names, cloths, square):
    """The `quilt` of a pattern as YAML, or nothing."""
    if draw(st.integers(0, 5)) == 0:
        return []
    some = st.sampled_from([cloth.id for cloth in cloths])
    on_point = square and draw(st.booleans())
    turns = ["", " turn 180"] + ([" turn 90", " turn 270"] if square else [])
    places = [f"{name}{draw(st.sampled_from(turns))}" for name in names]
    rows = [places, places[::-1]] if draw(st.booleans()) else [places]
    lines = ["quilt:", f"  arrange: [{', '.join('[' + ', '.join(row) + ']' for row in rows)}]"]
    if on_point:
        lines += ["  set: on point", f"  setting fabric: {draw(some)}"]
    if draw(st.booleans()):
        stones = f", cornerstones: {draw(some)}" if on_point or draw(st.booleans()) else ""
        outside = ", outside: yes" if draw(st.booleans()) and not on_point else ""
        lines.append(f"  sashing: {{width: 1 in, fabric: {draw(some)}{stones}{outside}}}")
    borders = [
        f"{{width: {draw(st.sampled_from(('1 in', '2 1/2 in', '6 cm')))}, fabric: {draw(some)}"
        + draw(
            st.sampled_from(
                (
                    "",
                    ", corners: mitred",
                    ", corners: butted",
                    ", top and bottom: 3 in",
                    ", sides: none",
                    ", top and bottom: none",
                    f", sides: 2 in, corners: squares, square fabric: {cloths[0].id}",
                    f", corners: squares, square fabric: {cloths[0].id}",
                )
            )
        )
        + "}"
        for _ in range(draw(st.integers(0, 3)))
    ]
    if borders:
        lines.append(f"  borders: [{', '.join(borders)}]")
    if draw(st.booleans()):
        cut = draw(st.sampled_from(("", ", cut: bias")))
        lines.append(f"  binding: {{fabric: {draw(some)}{cut}}}")
    if draw(st.booleans()):
        lines.append(f"  backing: {{fabric: {draw(some)}}}")
    return lines


@st.composite
def patterns(draw):
    """The text of a sound pattern."""
    cloths = [
        Cloth(
            f"cloth{n}",
            draw(st.sampled_from(DIRECTIONS)),
            draw(st.sampled_from(KINDS)),
            draw(st.integers(0, 4)) == 0,
            draw(st.sampled_from(("40 in", "42 in", "108 in", "150 cm"))),
        )
        for n in range(draw(st.integers(1, 4)))
    ]
    square = draw(st.booleans())
    wide = draw(st.integers(2, 6))
    tall = wide if square else draw(st.integers(2, 6))
    names = ["a", "b"][: draw(st.integers(1, 2))]
    lines = [
        "title: Drawn by lot",
        f"units: {draw(st.sampled_from(('inch', 'cm')))}",
        f"language: {draw(st.sampled_from(('en', 'en-GB', 'de', 'fr')))}",
        f"allowance: {draw(st.sampled_from(ALLOWANCES))}",
        "sizes:",
    ]
    for n in range(draw(st.integers(1, 2))):
        across, down = draw(st.integers(1, 4)), draw(st.integers(1, 4))
        lines.append(
            f"  s{n}: {{title: Size {n}, unit: {draw(st.sampled_from(UNITS))}, blocks: {across} x {down}}}"
        )
    lines += ["fabrics:", *(cloth.yaml(n) for n, cloth in enumerate(cloths)), "blocks:"]
    for name in names:
        lines += draw(blocks(name, wide, tall, cloths))
    lines += draw(quilts(names, cloths, square))
    if draw(st.booleans()):
        lines.append(
            f"sewing: {{machine from: {draw(st.sampled_from(('1/2 in', '2 in', '30 in')))}}}"
        )
    if draw(st.integers(0, 2)) == 0:
        lines.append(
            "cutting: {half squares: eight at a time, flying geese: four at a time, strip sets: yes}"
        )
    return "\n".join(lines) + "\n"
