"""Floor 2: the keys of patches: which shape takes which, and what each means."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

from booklet.pattern import Anchor, Grain, ShapeKind
from booklet.source.tree.node import Node, Text
from booklet.source.values.fields import Key, Table
from booklet.source.values.groups import list_of
from booklet.source.values.kinds import Kind, Reading, Schema, word, wrong_kind, yes_no
from booklet.source.values.path_values import outline_text
from booklet.source.values.quantities import count, extent, number, point

_SIDE_N = re.compile(r"side\s+([0-9]{1,3})")
_POINT_N = re.compile(r"(corner|side)\s+([0-9]{1,3})")


def _grain(node: Node, what: str, reading: Reading) -> Grain | None:
    written = node.value.strip() if isinstance(node, Text) else ""
    if match := _SIDE_N.fullmatch(written):
        return Grain(side=int(match[1]))
    if written.startswith("side"):
        wrong_kind(
            node, what, "`side` and a number, or degrees clockwise from straight up", reading
        )
        return None
    angle = number(-360, 360, "`side 1`, or degrees clockwise from straight up").read(
        node, what, reading
    )
    return None if angle is None else Grain(angle=float(angle))


def _anchor(node: Node, what: str, reading: Reading) -> Anchor | None:
    written = node.value.strip() if isinstance(node, Text) else ""
    if written in ("centre", "center"):
        return Anchor()
    if match := _POINT_N.fullmatch(written):
        return Anchor(match[1], int(match[2]))
    wrong_kind(node, what, "`centre`, `corner 1` or `side 1`", reading)
    return None


_TEXT: Schema = {"type": ["string", "number"]}
SHAPE = Key(
    "shape", word([kind.value for kind in ShapeKind], "the name of a shape"), "Which shape it is."
)
GRAIN = Key(
    "grain",
    Kind("`side 1` or degrees", _grain, _TEXT),
    "The straight grain: along a side, or an angle clockwise from straight up.",
)
MOTIF = Key(
    "motif",
    yes_no(),
    "Whether a motif of the print is centred in the patch (fussy cut).",
    default="no",
)
ANCHOR = Key(
    "anchor",
    Kind("`centre`, `corner 1` or `side 1`", _anchor, _TEXT),
    "Which point of the shape is placed: centre, a corner, or the middle of a side.",
)
CORNERS = Key(
    "corners",
    list_of(point(), "a list of points", least=3),
    "The corners, clockwise, as points [across, down].",
)
OUTLINE = Key(
    "outline",
    outline_text(),
    "The outline as path data with M, L, H, V, A, Q, C and Z, for curved seams.",
)
ANGLE = Key("angle", number(1, 179, "an angle in degrees"), "The angle in degrees.")
SIDES = Key(
    "sides",
    count(3, 60, "how many sides the polygon has"),
    "How many sides the regular polygon has.",
)
EXTENTS = {
    name: Key(name, extent("any" if name == "shift" else "positive"), doc)
    for name, doc in {
        "side": "The finished length of a side.",
        "width": "The finished width.",
        "height": "The finished height.",
        "base": "The finished length of the bottom side.",
        "top": "The finished length of the top side.",
        "shift": "How far the top side is moved to the right of the bottom side.",
        "middle": "The two sides along the long axis of an elongated hexagon; as long as `side` if left out.",
        "length": "The finished length from the top point to the bottom point.",
        "cross": "How far the widest line of the kite lies below its top.",
    }.items()
}
# Each shape: the keys it must have, those it may have, and its number of sides (0: as given).
FORMS: dict[ShapeKind, tuple[tuple[str, ...], tuple[str, ...], int]] = {
    ShapeKind.SQUARE: (("side",), (), 4),
    ShapeKind.RECTANGLE: (("width", "height"), (), 4),
    ShapeKind.HALF_SQUARE: (("side",), (), 3),
    ShapeKind.QUARTER_SQUARE: (("base",), (), 3),
    ShapeKind.RIGHT_TRIANGLE: (("width", "height"), (), 3),
    ShapeKind.EQUILATERAL: (("side",), (), 3),
    ShapeKind.ISOSCELES: (("base", "height"), (), 3),
    ShapeKind.DIAMOND: (("side", "angle"), (), 4),
    ShapeKind.PARALLELOGRAM: (("base", "height", "shift"), (), 4),
    ShapeKind.TRAPEZOID: (("base", "top", "height"), (), 4),
    ShapeKind.HALF_HEXAGON: (("side",), (), 4),
    ShapeKind.HEXAGON: (("side",), (), 6),
    ShapeKind.ELONGATED_HEXAGON: (("side",), ("angle", "middle"), 6),
    ShapeKind.OCTAGON: (("side",), (), 8),
    ShapeKind.KITE: (("length", "width", "cross"), (), 4),
    ShapeKind.REGULAR_POLYGON: (("sides", "side"), (), 0),
    ShapeKind.POLYGON: (("corners",), (), 0),
    ShapeKind.PATH: (("outline",), (), 0),
}
_OWN: dict[str, Key[Any]] = {
    **EXTENTS,
    "angle": ANGLE,
    "sides": SIDES,
    "corners": CORNERS,
    "outline": OUTLINE,
}
ALL_KEYS: tuple[Key[Any], ...] = (SHAPE, *_OWN.values(), GRAIN, MOTIF, ANCHOR)
PATCH = Table("patch", "A patch by its finished outline: its shape and sizes.", ALL_KEYS)


def table_of(kind: ShapeKind) -> Table:
    """The keys that one shape takes."""
    must, may, _ = FORMS[kind]
    own = [replace(_OWN[name], required=name in must) for name in (*must, *may)]
    return Table(
        kind.value, f"Keys of the shape `{kind.value}`.", (SHAPE, *own, GRAIN, MOTIF, ANCHOR)
    )
