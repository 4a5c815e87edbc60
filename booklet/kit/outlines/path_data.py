"""Floor 0: path data of the SVG standard taken apart into letters and numbers, for whoever reads an outline."""

from __future__ import annotations

import re
from collections.abc import Iterator

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


class Unreadable(ValueError):
    """Path data with something that is neither letter nor number; the text begins there."""


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


class PathError(ValueError):
    """Path data that make no outline; the message is a lower-case sentence for the reader."""


def commands(data: str) -> tuple[Command, ...]:
    """The commands of an outline with their numbers; a letter may be left out when it repeats. Raises PathError."""
    return tuple(_commands(data))


def _commands(data: str) -> Iterator[Command]:
    letter, used = "", True
    numbers: list[float] = []
    for mark, number in _marks(data):
        if mark:
            _need_whole(letter, numbers, used)
            letter, used = mark, mark in "Zz"
            if letter.upper() not in WRITTEN:
                raise PathError(f"`{letter}` is not one of the path letters M L H V A Q C Z")
            if used:
                yield letter, ()
            continue
        if letter in ("", "Z", "z"):
            raise PathError(f"a path letter is missing before `{number}`")
        numbers.append(_bounded(number))
        if len(numbers) == TAKES[letter.upper()]:
            yield letter, tuple(numbers)
            numbers, used = [], True
            letter = {"M": "L", "m": "l"}.get(letter, letter)
    _need_whole(letter, numbers, used)


def _marks(data: str) -> Iterator[tuple[str, str]]:
    """The letters and numbers of path data."""
    try:
        yield from marks(data)
    except Unreadable as fault:
        raise PathError(f"`{str(fault)[:12].strip()}` is no part of an outline") from None


def _bounded(text: str) -> float:
    value = float(text)
    if not abs(value) < 1e5:
        raise PathError(f"`{text}` is larger than any quilt")
    return value


def _need_whole(letter: str, numbers: list[float], used: bool) -> None:
    """Refuse a command that is left before it has its numbers."""
    if numbers or not used:
        raise PathError(f"`{letter}` needs {TAKES[letter.upper()]} numbers")
