"""Floor 2: `cutting`: how units are made where there is a choice, and what is trimmed off them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from booklet.crafts.unit import Unit
from booklet.crafts.units import UNITS
from booklet.kit.diagnostic import Span
from booklet.kit.measure import ZERO, Length, UnitSystem
from booklet.pattern import UnitCutting, UnitWish
from booklet.source.tree.node import Map
from booklet.source.values.fields import Fields, Key, Table
from booklet.source.values.kinds import Reading, word, yes_no
from booklet.source.values.quantities import length

MOST_TRIM = Length.of(1)


def _key_of(unit: Unit) -> Key[Any]:
    """The key that asks for a kind of unit: by the way, where there are several or it has a name, else yes or no."""
    choices = [way.choice for way in unit.ways]
    if choices == ["yes"]:
        return Key(unit.key, yes_no(), unit.doc, default="no")
    return Key(unit.key, word(["singly", *choices]), unit.doc, default="singly")


UNIT_KEYS = tuple(map(_key_of, UNITS.values()))
TRIM = Key(
    "trim",
    length("zero"),
    "How much larger units with triangles are made, to be trimmed to size once sewn; nothing if left out.",
    default="0",
)
RULER = Key(
    "ruler",
    length("positive"),
    "How far the marks of the reader's ruler lie apart: 1/8 in, 1/16 in, 1/4 in, 1 mm or 5 mm; 1/8 in, or 1 mm "
    "in patterns in centimetres, if left out.",
)
CUTTING = Table(
    "cutting",
    "How units are made where there is a choice, and the ruler they are cut by.",
    (*UNIT_KEYS, TRIM, RULER),
)
RULERS: Mapping[UnitSystem, tuple[str, ...]] = {
    "inch": ("1/8 in", "1/16 in", "1/4 in"),
    "cm": ("1 mm", "5 mm"),
}


def read_cutting(node: Map | None, where: Span, reading: Reading) -> UnitCutting:
    """The choices written; single triangles and patches where left out."""
    fields = Fields(node or Map((), where), CUTTING, "`cutting`", where, reading)
    trim = fields.get(TRIM) or ZERO
    if trim > MOST_TRIM:
        most, usual = ("1 in", "1/8 in") if reading.units == "inch" else ("2.5 cm", "3 mm")
        message = f"`trim` of `cutting` is more than {most}, which no unit is cut too large by"
        hint = f"write what is to be trimmed off, with its unit, such as `{usual}`"
        reading.faults.add("bad-length", message, fields.span(TRIM), hint)
        trim = ZERO
    asked = ((key, _choice(fields.get(key))) for key in UNIT_KEYS)
    wishes = tuple(
        UnitWish(key.name, choice, fields.key_span(key))
        for key, choice in asked
        if choice is not None
    )
    return UnitCutting(wishes, trim, _ruler(fields, reading))


def _choice(written: str | bool | None) -> str | None:
    """The way that a value asks for; None where it asks for none."""
    if isinstance(written, bool):
        return "yes" if written else None
    return None if written == "singly" else written


def _ruler(fields: Fields, reading: Reading) -> Length | None:
    """The ruler written, if it is one that the pattern's units have."""
    written, known = fields.get(RULER), RULERS[reading.units]
    if written is None or written in map(Length.of, known):
        return written
    unit = "inches" if reading.units == "inch" else "centimetres"
    message = f"`ruler` of `cutting` is none that a pattern in {unit} is cut by"
    hint = f"write `{'`, `'.join(known[:-1])}` or `{known[-1]}`, or leave it out"
    reading.faults.add("bad-length", message, fields.span(RULER), hint)
    return None
