"""Floor 2: the keys of patches, made of the measures that the forms name."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache
from typing import Any

from booklet.crafts import measures
from booklet.crafts.form import Form
from booklet.crafts.forms import FORMS
from booklet.crafts.measures import IN_ORDER, Measure, Takes
from booklet.kit.outlines.path_data import Command
from booklet.kit.records import replace
from booklet.pattern import Anchor, AnchorKind, ExtentPoint, Grain
from booklet.source.tree.node import Node, Text
from booklet.source.values.fields import Key, Table
from booklet.source.values.groups import list_of
from booklet.source.values.kinds import Kind, Reading, Schema, word, wrong_kind, yes_no
from booklet.source.values.path_values import path
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
        return Anchor(AnchorKind(match[1]), int(match[2]))
    wrong_kind(node, what, "`centre`, `corner 1` or `side 1`", reading)
    return None


_TEXT: Schema = {"type": ["string", "number"]}
SHAPE = Key("shape", word(list(FORMS), "the name of a shape"), "Which shape it is.")
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


def _kind_of(measure: Measure) -> Kind[Any]:
    """What the key of a measure takes in the source."""
    match measure.takes:
        case Takes.LENGTH:
            return extent("positive")
        case Takes.SHIFT:
            return extent("any")
        case Takes.ANGLE:
            return number(1, 179, "an angle in degrees")
        case Takes.COUNT:
            return count(3, 60, "how many sides the polygon has")
        case Takes.POINTS:
            return list_of(point(), "a list of points", least=3)
        case Takes.PATH:
            return path()


_MEASURES = dict.fromkeys(
    (*IN_ORDER, *(measure for form in FORMS.values() for measure in form.measures))
)
KEYS: Mapping[Measure, Key[Any]] = {
    measure: Key(measure.name, _kind_of(measure), measure.doc) for measure in _MEASURES
}
"""The key of each measure that some form takes."""
CORNERS: Key[tuple[ExtentPoint, ...]] = KEYS[measures.CORNERS]
OUTLINE: Key[tuple[Command, ...]] = KEYS[measures.OUTLINE]
PATCH = Table(
    "patch",
    "A patch by its finished outline: its shape and sizes.",
    (SHAPE, *KEYS.values(), GRAIN, MOTIF, ANCHOR),
)


@cache
def table_of(form: Form) -> Table:
    """The keys that one form takes."""
    own = [replace(KEYS[one], required=one in form.must) for one in form.measures]
    return Table(
        form.word, f"Keys of the shape `{form.word}`.", (SHAPE, *own, GRAIN, MOTIF, ANCHOR)
    )
