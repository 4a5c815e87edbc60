"""Floor 2: outlines written as path data, checked here for their letters and numbers only."""

from __future__ import annotations

import re

from booklet.bounds import LONGEST_OUTLINE
from booklet.source.kinds import Kind, Reading, wrong_kind
from booklet.source.node import Node, Text

# How many numbers follow each letter, once or several times over.
NUMBERS = {"M": 2, "L": 2, "H": 1, "V": 1, "A": 7, "Q": 4, "C": 6, "Z": 0}
_TOKEN = re.compile(
    r"\s*+,?+\s*+(?:([A-Za-z])|([-+]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][-+]?[0-9]{1,2})?))"
)
_WORDS = "path data such as `M 0 0 L 4 0 A 4 4 0 0 1 0 4 Z`"


def outline_text() -> Kind[str]:
    """Path data that can be drawn: begins with M, each letter with as many numbers as it takes."""

    def read(node: Node, what: str, reading: Reading) -> str | None:
        if not isinstance(node, Text) or node.is_empty:
            wrong_kind(node, what, _WORDS, reading)
            return None
        trouble = path_trouble(node.value)
        if trouble is None:
            return " ".join(node.value.split())
        reading.faults.add("wrong-kind", f"{what} {trouble}", node.span, f"write {_WORDS}")
        return None

    return Kind(_WORDS, read, {"type": "string"})


def path_trouble(data: str) -> str | None:
    """What is wrong with path data, as the end of a sentence; None if nothing is."""
    if len(data) > LONGEST_OUTLINE:
        return f"is longer than {LONGEST_OUTLINE} characters"
    steps: list[tuple[str, int]] = []
    place, end = 0, len(data.rstrip())
    while place < end:
        token = _TOKEN.match(data, place)
        if token is None:
            return f"has a character `{data[place:].strip()[:1]}` that is neither letter nor number"
        place = token.end()
        if token[1]:
            if token[1].upper() not in NUMBERS:
                return f"uses the letter `{token[1]}`; only M, L, H, V, A, Q, C and Z are known"
            steps.append((token[1], 0))
        elif not steps:
            return "does not begin with `M`"
        elif abs(float(token[2])) > 100_000:
            return "has a number larger than any quilt"
        else:
            steps[-1] = (steps[-1][0], steps[-1][1] + 1)
    return _count_trouble(steps)


def _count_trouble(steps: list[tuple[str, int]]) -> str | None:
    """What is wrong with the number of numbers after each letter."""
    if not steps or steps[0][0].upper() != "M":
        return "does not begin with `M`"
    if [letter.upper() for letter, _ in steps].count("M") > 1:
        return "has more than one `M`; a patch has one outline without holes"
    if len(steps) < 3:
        return "has too few parts to go round a patch"
    for letter, found in steps:
        takes = NUMBERS[letter.upper()]
        if (takes == 0 and found) or (takes and (found == 0 or found % takes)):
            return f"has {found} numbers after `{letter}`, which takes {takes}"
    return None
