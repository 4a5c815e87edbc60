"""Floor 0: path data of the SVG standard taken apart into letters and numbers, for whoever reads an outline."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator

TAKES = {"M": 2, "L": 2, "H": 1, "V": 1, "A": 7, "Q": 4, "T": 2, "C": 6, "S": 4, "Z": 0}
"""How many numbers follow each letter, once or several times over."""

WRITTEN = frozenset("MLHVAQCZ")
"""The letters of outlines in a pattern; T and S come from drawing programs only."""

Command = tuple[str, tuple[float, ...]]
"""A letter and its numbers; a small letter counts from where the pen stands."""

NUMBER = r"[-+]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][-+]?[0-9]+)?"
# spaces are taken for good (`*+`): a long row of them is not gone through again where something else follows
_TOKEN = re.compile(rf"\s*+,?+\s*+(?:([A-Za-z])|({NUMBER}))")
_FLAG = re.compile(r"\s*+,?+\s*+()([01])")


class PathError(ValueError):
    """Path data that make no outline; the message says why, mostly as the end of a sentence."""


class Unreadable(PathError):
    """Path data with something that is neither letter nor number; the text begins there."""


class TooLarge(PathError):
    """Path data with a number that is larger than anything that is sewn."""


def marks(data: str) -> Iterator[tuple[str, str]]:
    """The letters and numbers as written, as (letter, "") or ("", number); flags of arcs are told apart from
    what follows them. Raises Unreadable."""
    place, end, letter, count = 0, len(data.rstrip(" \t\r\n,")), "", 0
    while place < end:
        is_flag = letter in ("A", "a") and count % 7 in (3, 4)
        match = (_FLAG if is_flag else _TOKEN).match(data, place, end)
        if match is None:
            raise Unreadable(data[place:].strip())
        place = match.end()
        letter, count = (match[1], 0) if match[1] else (letter, count + 1)
        yield match[1] or "", match[2] or ""


def commands(data: str, letters: Collection[str] = WRITTEN, most: float = 1e5) -> Iterator[Command]:
    """The commands of an outline of such letters with their numbers; a letter may be left out when it repeats. Raises
    PathError."""
    letter, numbers, is_used = "", list[float](), True
    for mark, number in (*marks(data), ("", "")):
        if not number and (numbers or not is_used):
            raise PathError(f"has too few numbers after `{letter}`")
        if mark:
            letter, is_used = mark, mark in "Zz"
            if letter.upper() not in letters:
                raise PathError(f"has the letter `{letter}` in its outline")
            if is_used:
                yield letter, ()
        elif number:
            if letter in ("", "Z", "z"):
                raise PathError("has a number without a letter in its outline")
            numbers.append(float(number))
            if not abs(numbers[-1]) < most:
                raise TooLarge("has a number larger than any quilt")
            if len(numbers) == TAKES[letter.upper()]:
                yield letter, tuple(numbers)
                numbers, is_used = [], True
                letter = {"M": "L", "m": "l"}.get(letter, letter)
