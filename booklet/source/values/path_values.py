"""Floor 2: outlines written as path data, checked here for their letters and numbers only."""

from __future__ import annotations

import re

from booklet.kit.bounds import LONGEST_OUTLINE
from booklet.kit.outlines.path_data import TAKES, WRITTEN, Command, Unreadable, commands, marks
from booklet.source.tree.node import Node, Text, shortened
from booklet.source.values.kinds import Kind, Reading, wrong_kind

_LINE = "path data such as `M 2 6 C 2 4 4 4 4 1`"
_WORDS = "path data such as `M 0 0 L 4 0 A 4 4 0 0 1 0 4 Z`"
_SUM = re.compile(r"sqrt|[√*/()]")


def path(goes_round: bool = True) -> Kind[tuple[Command, ...]]:
    """Path data that can be drawn: begins with M, each letter with as many numbers as it takes. One that does not go
    round is an open line."""
    words = _WORDS if goes_round else _LINE

    def read(node: Node, what: str, reading: Reading) -> tuple[Command, ...] | None:
        if not isinstance(node, Text) or node.is_empty:
            wrong_kind(node, what, words, reading)
            return None
        trouble = path_trouble(node.value, 3 if goes_round else 2)
        if trouble is None and not goes_round and node.value.strip()[-1:] in "Zz":
            trouble = "goes round; a stem has two ends"
        if trouble is None:
            return tuple(commands(node.value))
        hint = f"write {words}"
        if _SUM.search(node.value):
            hint = "path data takes no sums: write decimals of six places, such as `1.732051` for `sqrt(3)`"
        reading.faults.add("wrong-kind", f"{what} {trouble}", node.span, hint)
        return None

    return Kind(words, read, {"type": "string"})


def path_trouble(data: str, least: int) -> str | None:
    """What is wrong with path data of at least so many commands, as the end of a sentence; None if nothing is."""
    if len(data) > LONGEST_OUTLINE:
        return f"is longer than {LONGEST_OUTLINE} characters"
    try:
        return _mark_trouble(data, least)
    except Unreadable as fault:
        sign = str(fault)[:1]
        if sign.isdecimal() or sign in "+-.":  # only at the flags of an arc a number cannot be read
            return f"has `{shortened(str(fault).split()[0])}` where an arc `A` takes 0 or 1, its fourth and its fifth number"
        return f"has a character `{sign}` that is neither letter nor number"


def _mark_trouble(data: str, least: int) -> str | None:
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
    return _count_trouble(steps, least)


def _count_trouble(steps: list[tuple[str, int]], least: int) -> str | None:
    """What is wrong with the number of numbers after each letter."""
    if not steps or steps[0][0].upper() != "M":
        return "does not begin with `M`"
    if [letter.upper() for letter, _ in steps].count("M") > 1:
        return "has more than one `M`; a patch has one outline without holes"
    if len(steps) < least:
        return "has too few parts to go round a patch" if least > 2 else "leads nowhere"
    for letter, found in steps:
        takes = TAKES[letter.upper()]
        if (takes == 0 and found) or (takes and (found == 0 or found % takes)):
            return f"has {found} numbers after `{letter}`, which takes {takes}"
    return None
