"""Floor 2: outlines written as path data, checked here for their letters and numbers only."""

from __future__ import annotations

from booklet.bounds import LONGEST_OUTLINE
from booklet.kit.path_data import TAKES, WRITTEN, Command, Unreadable, commands, marks
from booklet.source.tree.node import Node, Text
from booklet.source.values.kinds import Kind, Reading, wrong_kind

_WORDS = "path data such as `M 0 0 L 4 0 A 4 4 0 0 1 0 4 Z`"


def path() -> Kind[tuple[Command, ...]]:
    """Path data that can be drawn: begins with M, each letter with as many numbers as it takes."""

    def read(node: Node, what: str, reading: Reading) -> tuple[Command, ...] | None:
        if not isinstance(node, Text) or node.is_empty:
            wrong_kind(node, what, _WORDS, reading)
            return None
        trouble = path_trouble(node.value)
        if trouble is None:
            return commands(node.value)
        reading.faults.add("wrong-kind", f"{what} {trouble}", node.span, f"write {_WORDS}")
        return None

    return Kind(_WORDS, read, {"type": "string"})


def path_trouble(data: str) -> str | None:
    """What is wrong with path data, as the end of a sentence; None if nothing is."""
    if len(data) > LONGEST_OUTLINE:
        return f"is longer than {LONGEST_OUTLINE} characters"
    try:
        return _mark_trouble(data)
    except Unreadable as fault:
        return f"has a character `{str(fault)[:1]}` that is neither letter nor number"


def _mark_trouble(data: str) -> str | None:
    """What is wrong with the letters and numbers of path data. Raises Unreadable."""
    steps: list[tuple[str, int]] = []
    for letter, number in marks(data):
        if letter:
            if letter.upper() not in WRITTEN:
                return f"uses the letter `{letter}`; only M, L, H, V, A, Q, C and Z are known"
            steps.append((letter, 0))
        elif not steps:
            return "does not begin with `M`"
        elif abs(float(number)) > 100_000:
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
        takes = TAKES[letter.upper()]
        if (takes == 0 and found) or (takes and (found == 0 or found % takes)):
            return f"has {found} numbers after `{letter}`, which takes {takes}"
    return None
