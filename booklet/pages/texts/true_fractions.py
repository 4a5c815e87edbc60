"""Floor 11, true fractions: "2 1/2 in" becomes 2½ in, read aloud as it stands.

Halves, quarters, eighths, thirds and sixths have a character of their own, which screen readers know
and which survives copying; the rest get a fraction slash and the font's `frac` feature.
The space before such a fraction is an element of its own, and the whole number with it another: WeasyPrint 70 takes a text
that would fill its line but for the space at its end, or for what may not be parted from its end, for too long, and leaves
its first word alone on a line.
"""

from __future__ import annotations

import re
from functools import lru_cache

from markupsafe import Markup, escape

_VULGAR = {
    "1/2": "½", "1/4": "¼", "3/4": "¾", "1/8": "⅛", "3/8": "⅜", "5/8": "⅝", "7/8": "⅞",
    "1/3": "⅓", "2/3": "⅔",
}  # fmt: skip
_FRACTION = re.compile(r"(?<![\d/.,\w])(?:(\d+)\s+)?(\d{1,2})/(2|3|4|6|8|16|32|64)(?![\d/\w]|\.\d)")
_UNIT = re.compile(r"(?<=[\d½¼¾⅛⅜⅝⅞⅓⅔>]) (inch|in|po|cm|mm|min|m|h|yd|pt|%)(?![\w-])")
_TIMES = re.compile(r"([\d½¼¾⅛⅜⅝⅞⅓⅔>]|\u00a0(?:inch|in|po|cm|mm|m|h)) [x×] (?=[\d½¼¾⅛⅜⅝⅞⅓⅔<])")
_SPACED = re.compile(r' (?=<span class="(?:frac|mixed)">)')
_SO_MANY = re.compile(r" × (?=\d)")
_SCALE = re.compile(r"(?<=\d)[ \u00a0]:[ \u00a0](?=\d)")
NO_BREAK = "\u00a0"
THIN = "\u202f"  # and no line is broken at it
_RAISED = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")
_LOWERED = str.maketrans("0123456789", "₀₁₂₃₄₅₆₇₈₉")


def _fraction(match: re.Match[str]) -> str:
    """One mixed number in markup."""
    whole, top, bottom = match.group(1) or "", match.group(2), match.group(3)
    if character := _VULGAR.get(f"{top}/{bottom}"):
        return whole + character
    fraction = f'<span class="frac">{top}⁄{bottom}</span>'
    return f'<span class="mixed">{whole}{THIN}{fraction}</span>' if whole else fraction


def quantities(text: object) -> Markup:
    """Text as markup: escaped, fractions true, no break between a number and its unit or in a scale, x as ×."""
    return text if isinstance(text, Markup) else _set(str(text))


@lru_cache(maxsize=4096)
def _set(text: str) -> Markup:
    """Plain text as markup; the views of a web page say most of their texts alike."""
    safe = _SPACED.sub("<span> </span>", _FRACTION.sub(_fraction, str(escape(text))))
    safe = _UNIT.sub(lambda m: NO_BREAK + m.group(1), safe)
    safe = _TIMES.sub(lambda m: f"{m.group(1)}{NO_BREAK}× ", safe)
    safe = _SO_MANY.sub(f" ×{NO_BREAK}", safe)  # "D square × 18": the count keeps its sign
    return Markup(_SCALE.sub(f"{NO_BREAK}:{NO_BREAK}", safe))  # "1 : 5.5"


def characters(text: str) -> str:
    """Text of a picture with true fractions: a character of their own, or raised and lowered figures."""

    def single(match: re.Match[str]) -> str:
        whole, top, bottom = match.group(1) or "", match.group(2), match.group(3)
        character = _VULGAR.get(f"{top}/{bottom}")
        if character:
            return whole + character
        joint = THIN if whole else ""
        return f"{whole}{joint}{top.translate(_RAISED)}\u2044{bottom.translate(_LOWERED)}"

    return _FRACTION.sub(single, text)
