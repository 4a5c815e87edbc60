"""Floor 2: the kinds of values that tell time: inches in a minute, minutes."""

from __future__ import annotations

import re

from booklet.kit.measure import Length
from booklet.source.tree.node import Node, Text
from booklet.source.values.kinds import ANY, Kind, Reading
from booklet.source.values.quantities import length, number

_A_MINUTE = re.compile(r"\s*(\ba|\bper|/)\s*(minute|min)$")
_MINUTES = re.compile(r"\s*(minutes?|min)$")


def speed() -> Kind[Length]:
    """A length sewn in a minute: `10 in a minute`; a bare number is in the units of the pattern."""
    plain = length()

    def read(node: Node, what: str, reading: Reading) -> Length | None:
        return plain.read(_without(_A_MINUTE, node), what, reading)

    return Kind("a length such as `10 in a minute`", read, ANY)


def minutes(low: float, high: float) -> Kind[float]:
    """A number of minutes: `90` or `90 minutes`."""
    plain = number(low, high, f"minutes, from {low:g} to {high:g}")

    def read(node: Node, what: str, reading: Reading) -> float | None:
        value = plain.read(_without(_MINUTES, node), what, reading)
        return None if value is None else float(value)

    return Kind(plain.words, read, ANY)


def _without(ending: re.Pattern[str], node: Node) -> Node:
    """The text without the words at its end."""
    if not isinstance(node, Text):
        return node
    return Text(ending.sub("", node.value), node.span, node.quoted)
