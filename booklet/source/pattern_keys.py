"""Floor 2: the keys at the top of `pattern.yaml`."""

from __future__ import annotations

from booklet.kit.words import LANGUAGES
from booklet.pattern import Address
from booklet.source.values.fields import Key, Table
from booklet.source.values.groups import group, named
from booklet.source.values.kinds import day, one_of, word
from booklet.source.values.quantities import length
from booklet.source.values.units_of_length import Units, unit_words
from booklet.source.values.wordings import wording

_TEXT = wording(longest=200)


TITLE = Key("title", _TEXT, "The title of the pattern.", required=True)
DESIGNER = Key("designer", _TEXT, "Who designed it.")
VERSION = Key("version", wording(longest=40), "The version printed in the booklet.")
DATE = Key("date", day(), "The date printed in the booklet, year first; the clock is never asked.")
LANGUAGE = Key(
    "language",
    word(tuple(LANGUAGES)),
    "The language of the booklet's own words: English as in America (en) or Britain (en-GB), German, French. "
    "A name or a text stands as it is written, or is written for each language as in {en: Wing, de: Flügel}.",
    default="en",
)
UNITS: Key[Units] = Key(
    "units",
    unit_words(),
    "Whether a bare number is inches or centimetres, and which the booklet prints first; `inch and cm` or "
    "`cm and inch` prints the figures of cutting in both.",
    default="inch",
)
ADDRESS = Key(
    "address",
    one_of(Address),
    "How the reader is addressed in German and French: formal (Sie, vous) or familiar (du, tu).",
    default="formal",
)
ALLOWANCE = Key("allowance", length(), "The seam allowance; 1/4 in or 0.6 cm if left out.")
SUMMARY = Key("summary", wording(longest=1000), "One sentence for the cover.")
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
COLOURWAYS = Key(
    "colourways",
    named("colourway", "colourway", may_be_empty=True),
    "The pattern in other cloths, by name: each says how its fabrics differ. One that says nothing is the pattern as it is.",
)
LAYOUTS = Key(
    "layouts",
    named("layout", "layout", may_be_empty=True),
    "The same blocks set otherwise, by name: each says how its `quilt` differs. One that says nothing is the pattern as it is.",
)
BOOKLET = Key("booklet", group("booklet"), "The paper and the editions.")
PATTERN = Table(
    "pattern",
    "A patchwork pattern.",
    (TITLE, DESIGNER, VERSION, DATE, LANGUAGE, UNITS, ADDRESS, ALLOWANCE, SUMMARY, SIZES, FABRICS, PATCHES,
     BLOCKS, QUILT, SEWING, CUTTING, COLOURWAYS, LAYOUTS, BOOKLET),
)  # fmt: skip
