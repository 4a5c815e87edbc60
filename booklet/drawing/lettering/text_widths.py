"""Floor 10: how wide a text will be, so that labels can be placed without a typesetter.

Advance widths of Source Sans Pro Semibold (the wider of the two weights used) for the printable
ASCII signs, in thousandths of the type size, read once from the font file.
"""

from __future__ import annotations

from functools import lru_cache

from booklet.kit.measure import POINT_MM

FONT = "'Source Sans Pro', sans-serif"  # of the words in pictures
NO_BREAK = "\u00a0"  # a space at which no line is broken
CAP_HEIGHT = 0.66  # of the type size

_ASCII = (
    200, 315, 482, 513, 513, 841, 639, 275, 324, 324, 438, 513, 275, 322, 275, 344, 513, 513, 513,
    513, 513, 513, 513, 513, 513, 513, 275, 275, 513, 513, 513, 444, 875, 558, 597, 576, 625, 538,
    510, 628, 663, 282, 494, 597, 502, 745, 656, 674, 582, 674, 592, 545, 546, 655, 536, 800, 541,
    501, 540, 324, 344, 324, 513, 500, 549, 516, 563, 462, 564, 507, 317, 520, 558, 262, 263, 522,
    271, 843, 560, 549, 564, 564, 373, 431, 361, 556, 495, 748, 481, 495, 443, 324, 255, 324, 513,
)  # fmt: skip
_NARROW, _OTHER = 125, 650  # the narrow space of French; any sign not in the table


def text_width(text: str, points: float) -> float:
    """The width of `text` in mm at a type size in points; a little generous in the lighter weight."""
    return _thousandths(text) / 1000 * points * POINT_MM


@lru_cache(maxsize=4096)
def _thousandths(text: str) -> int:
    """The width of `text` in thousandths of the type size."""
    return sum(
        _ASCII[ord(sign) - 32]
        if 32 <= ord(sign) < 32 + len(_ASCII)
        else (_NARROW if sign == "\u202f" else _OTHER)
        for sign in text.replace(NO_BREAK, " ")
    )


def wrapped(text: str, points: float, width: float) -> tuple[str, ...]:
    """`text` in lines no wider than `width` mm; a longer word has a line to itself."""
    lines: list[str] = []
    for word in text.split(" "):
        if lines and text_width(f"{lines[-1]} {word}", points) <= width:
            lines[-1] += f" {word}"
        else:
            lines.append(word)
    return tuple(lines)
