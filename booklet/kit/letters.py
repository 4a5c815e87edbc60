"""Floor 0: the signs that neither page, picture nor terminal can show, found at one place for all texts."""

from __future__ import annotations

import re

# control signs but tabs and line ends, signs that turn the direction of what follows them (a figure beside a
# name would read backwards), halves of a pair, and numbers that stand for no character
_UNSHOWN = re.compile(
    "[\u202a-\u202e\u2066-\u2069\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ud800-\udfff\ufffe\uffff]|\r(?!\n)"
)


def unshown(text: str) -> tuple[int, int, int] | None:
    """Line and column (from 1) and number of the first sign that cannot be shown; None if all can."""
    found = _UNSHOWN.search(text)
    if found is None:
        return None
    before = text[: found.start()]
    return before.count("\n") + 1, len(before) - before.rfind("\n"), ord(found.group()[0])


def showable(text: str) -> str:
    """The text without the signs that cannot be shown."""
    return _UNSHOWN.sub("", text)


def paired(text: str) -> str:
    """The text with halves of a pair joined, as signs beyond the first 65,536 are written in JSON."""
    return text.encode("utf-16-le", "surrogatepass").decode("utf-16-le", "surrogatepass")
