"""Floor 2: the keys at the top of `pattern.yaml`."""

from __future__ import annotations

from booklet.measure import UnitSystem
from booklet.source.tree.node import Node
from booklet.source.values.fields import Key, Table
from booklet.source.values.groups import group, named
from booklet.source.values.kinds import Kind, Reading, day, text, word
from booklet.source.values.quantities import length
from booklet.words import LANGUAGES

_UNIT_WORD = word(("inch", "cm"))
_TEXT = text(longest=200)


def _units(node: Node, what: str, reading: Reading) -> UnitSystem | None:
    value = _UNIT_WORD.read(node, what, reading)
    return None if value is None else "cm" if value == "cm" else "inch"


TITLE = Key("title", _TEXT, "The title of the pattern.", required=True)
DESIGNER = Key("designer", _TEXT, "Who designed it.")
VERSION = Key("version", text(longest=40), "The version printed in the booklet.")
DATE = Key("date", day(), "The date printed in the booklet, year first; the clock is never asked.")
LANGUAGE = Key(
    "language",
    word(tuple(LANGUAGES)),
    "The language of the booklet's own words: English as in America (en) or Britain (en-GB), German, French. "
    "Names and texts stand as they are written.",
    default="en",
)
UNITS: Key[UnitSystem] = Key(
    "units",
    Kind(_UNIT_WORD.words, _units, _UNIT_WORD.schema),
    "Whether a bare number is inches or centimetres, and which the booklet prints first.",
    default="inch",
)
ALLOWANCE = Key("allowance", length(), "The seam allowance; 1/4 in or 0.6 cm if left out.")
SUMMARY = Key("summary", text(longest=1000), "One sentence for the cover.")
SIZES = Key(
    "sizes", named("size", "size", least=1), "The sizes it is made in, by name.", required=True
)
FABRICS = Key(
    "fabrics", named("fabric", "fabric", may_be_empty=True), "The fabrics, by name.", required=True
)
PATCHES = Key("patches", named("patch", "patch"), "The patches the blocks are made of, by name.")
BLOCKS = Key("blocks", named("block", "block", least=1), "The blocks, by name.", required=True)
QUILT = Key(
    "quilt", group("quilt"), "How the blocks become a quilt; left out, only blocks are made."
)
SEWING = Key("sewing", group("sewing"), "The rules of sewing.")
CUTTING = Key("cutting", group("cutting"), "How units are made where there is a choice.")
BOOKLET = Key("booklet", group("booklet"), "The paper and the editions.")
PATTERN = Table(
    "pattern",
    "A patchwork pattern.",
    (TITLE, DESIGNER, VERSION, DATE, LANGUAGE, UNITS, ALLOWANCE, SUMMARY, SIZES, FABRICS, PATCHES,
     BLOCKS, QUILT, SEWING, CUTTING, BOOKLET),
)  # fmt: skip
