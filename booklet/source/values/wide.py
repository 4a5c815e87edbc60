"""Floor 2: allowances that nobody sews, most often written without their unit."""

from __future__ import annotations

from booklet.kit import trade
from booklet.kit.measure import Length, exact_text
from booklet.kit.trade import Usual
from booklet.kit.words import exactly
from booklet.source.values.fields import Fields, Key
from booklet.source.values.kinds import Reading

WHAT: dict[str, str] = {
    "allowance": "an allowance",
    "paper allowance": "a paper allowance",
    "foundation margin": "a foundation margin",
}


def warn_if_wide(key: Key[Length], usual: Usual, fields: Fields, reading: Reading) -> None:
    """Note a warning where an allowance is wider than any; nothing where the key is left out."""
    written = fields.get(key)
    if written is None or written <= trade.WIDEST_ALLOWANCE.said_in(reading.units):
        return
    wide = exactly(written, reading.units)
    message = f"{WHAT[key.name]} of {wide} is wider than any that quilts are sewn with"
    hint = f"write it with its unit, such as `{_small(usual, reading)}`"
    reading.doubt("wide-allowance", message, fields.span(key), hint)


def _small(usual: Usual, reading: Reading) -> str:
    """The usual one, in inches or in millimetres."""
    if reading.units == "inch":
        return f"{exact_text(usual.inch, 'inch')} in"
    return f"{exact_text(10 * usual.cm, 'cm')} mm"
