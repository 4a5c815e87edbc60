"""Floor 11, ends of lines: a text that fills its line but for the space at its end.

Where such a text goes on in another element (a fraction, a bold word), WeasyPrint 70 takes it for too long, because of that
space, and puts its first word on a line by itself. Spaces hang at the end of a line (CSS Text 3, 4.1.3), so they are
left out when it looks a second time.
"""

from __future__ import annotations

from collections.abc import Callable
from math import inf
from typing import Any

Split = Callable[..., Any]
"""What of a text fits on a line, as WeasyPrint asks: text, style, context, width and more; the answer has in its third place
where the rest begins, or None, and in its fourth how wide the line is."""


def hanging(split: Split) -> Split:
    """The same, but a text that fits without the spaces at its end fits."""

    def hung(
        text: str, style: Any, context: Any, wide: float | None, *more: Any, **named: Any
    ) -> Any:
        found, bare = split(text, style, context, wide, *more, **named), text.rstrip(" ")
        if found[2] is None or bare in ("", text) or wide in (None, inf):
            return found
        if style["white_space"] not in ("normal", "pre-line"):
            return found
        short = split(bare, style, context, wide, *more, **named)
        return short if short[2] is None and short[3] <= wide else found

    return hung
