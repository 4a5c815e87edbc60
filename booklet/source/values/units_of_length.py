"""Floor 2: the words for units: one kind, or both with the figures of one beside those of the other."""

from __future__ import annotations

from booklet.kit.measure import UnitSystem
from booklet.kit.records import Record
from booklet.source.tree.node import Node
from booklet.source.values.kinds import Kind, Reading, word


class Units(Record):
    """The units that are printed first, and whether the others stand beside them in cutting."""

    first: UnitSystem
    both: bool = False


INCH = Units("inch")
_BY_WORD = {
    "inch": INCH,
    "cm": Units("cm"),
    "inch and cm": Units("inch", both=True),
    "cm and inch": Units("cm", both=True),
}


def unit_words() -> Kind[Units]:
    """`inch` or `cm`, or both, the first that of bare numbers."""
    plain = word(tuple(_BY_WORD))

    def read(node: Node, what: str, reading: Reading) -> Units | None:
        value = plain.read(node, what, reading)
        return None if value is None else _BY_WORD[value]

    return Kind(plain.words, read, plain.schema)
