"""Floor 2: a font of the author's: whether it is one, whether it may be embedded, and the part of it that a booklet shows.
Only a worker reads it (`apart.py`); what is handed on was written anew.
"""

from __future__ import annotations

import base64
import codecs
import io
import logging
from typing import IO, Any

from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont

from booklet.kit.records import Record, field
from booklet.walls.wire import receive, send_words

STARTS = b"\0\1\0\0", b"OTTO", b"true", b"wOFF"
RESTRICTED, ANY_USE, WHOLE, BITMAPS = 0x0002, 0x000E, 0x0100, 0x0200
"""Bits of `fsType` in the table OS/2 (OpenType specification 1.9): not to be embedded, the bits of use, no parts of it,
only its bitmaps."""
LETTERS = frozenset(map(ord, "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789"))
SHOWN = (
    *range(0x20, 0x600),
    *range(0x1E00, 0x2300),
)  # Latin, Greek, Cyrillic, their signs, fractions, arrows
DRAWN_OTHERWISE = ("DSIG", "SVG", "CBDT", "CBLC", "sbix", "EBDT", "EBLC", "EBSC", "COLR", "CPAL")
CODECS = (
    "utf-32-be",
    "utf-16-be",
    "utf-8",
    "ascii",
    "latin-1",
    "mac-roman",
    "cp1252",
)  # names in fonts
TOGETHER = tuple(frozenset(map(ord, signs)) for signs in ("½¼¾⅛⅜⅝⅞", "⅓⅔", "⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉⁄"))
"""Signs that make fractions: a font that lacks one of a row would be mixed with another within one table, or one fraction."""
FEATURES = ["kern", "liga", "lnum", "mark", "mkmk", "ccmp", "locl"]
Fault = tuple[str, str]
NO_FONT = "is no font that can be read", "save it as TTF, OTF or WOFF"


class ReadFont(Record):
    """A font as it goes into a booklet (WOFF), with the units of its em and the width of each letter; or its fault."""

    data: bytes = b""
    em: int = 0
    widths: dict[int, int] = field(default_factory=dict)
    fault: Fault | None = None


def read_font(data: bytes) -> ReadFont:
    """A font made ready, or the complaint and the next thing to do."""
    if not data.startswith(STARTS):
        return ReadFont(fault=NO_FONT)
    try:
        font: Any = TTFont(io.BytesIO(data), recalcTimestamp=False)
        allowed = font["OS/2"].fsType
        if (allowed & ANY_USE) == RESTRICTED or allowed & BITMAPS:
            fault = "may not be embedded: its maker says so in the font (`fsType`)"
            return ReadFont(
                fault=(fault, "ask its maker for a licence to embed it, or take another")
            )
        there = font.getBestCmap() or {}
        if not set(there) >= LETTERS:
            return ReadFont(
                fault=("lacks letters of A to Z, a to z or digits", "take a font of letters")
            )
        return _made(font, there, bool(allowed & WHOLE))
    except MemoryError:
        raise
    except Exception:  # fontTools has many for what it cannot make sense of
        return ReadFont(fault=NO_FONT)


def _made(font: Any, there: dict[int, str], whole: bool) -> ReadFont:
    """The font with the letters of a booklet, of fractions all or none; with all it has, where its maker wants it `whole`."""
    options = Options(layout_features=FEATURES, hinting=False, notdef_outline=True)
    options.drop_tables += list(DRAWN_OTHERWISE)
    subsetter = Subsetter(options)
    lacking = frozenset().union(*(row for row in TOGETHER if not row <= set(there)))
    kept = sorted(there) if whole else [c for c in SHOWN if c in there and c not in lacking]
    subsetter.populate(unicodes=kept)
    subsetter.subset(font)
    metrics = font["hmtx"].metrics
    widths = {code: metrics[name][0] for code, name in (font.getBestCmap() or {}).items()}
    em = int(font["head"].unitsPerEm)
    font.flavor = "woff"
    out = io.BytesIO()
    font.save(out, reorderTables=True)
    return ReadFont(out.getvalue(), em, widths)


def prepare() -> tuple[str, ...]:
    """What the worker may read beside what it is sent: fontTools, which loads the parts for tables as it meets them."""
    import fontTools

    for name in CODECS:
        codecs.lookup(name)

    logging.disable(logging.CRITICAL)
    return (fontTools.__path__[0],)


def serve(requests: IO[bytes], answers: IO[bytes]) -> None:
    """Read one font."""
    receive(requests)
    made = read_font(receive(requests))
    told = base64.b64encode(made.data).decode("ascii")
    words = {"fault": made.fault, "data": told, "em": made.em}
    send_words(answers, words | {"widths": sorted(made.widths.items())})
