"""Floor 2: the names a designer gives to fabrics, patches, blocks, pieces, units and sizes."""

from __future__ import annotations

import re
from collections.abc import Iterator

from booklet.diagnostic import Span
from booklet.source.kinds import Reading
from booklet.source.node import Map, Node, Text, shortened

LONGEST = 60
MOST_NAMED = 5_000
_NAME = re.compile(r"\w(?:[\w -]*[\w-])?")


def is_name(name: str, span: Span, noun: str, reading: Reading) -> bool:
    """Whether a text can be a name: letters, digits, hyphens, single words or several."""
    if len(name) <= LONGEST and _NAME.fullmatch(name):
        return True
    reading.faults.add(
        "bad-name",
        f"`{shortened(name)}` cannot be the name of a {noun}",
        span,
        f"use up to {LONGEST} letters, digits, hyphens and spaces, beginning with a letter",
    )
    return False


def named_entries(node: Map, noun: str, reading: Reading) -> Iterator[tuple[Text, Node]]:
    """The entries of a group of named things; a name that cannot be one is noted, and still read."""
    if len(node.entries) > MOST_NAMED:
        message = f"there are {len(node.entries)} {noun}s; at most {MOST_NAMED} can be worked with"
        reading.faults.add("too-large", message, node.span, "take some away")
        return
    for key, value in node.entries:
        is_name(key.value, key.span, noun, reading)
        yield key, value


def names_in(node: Map | None) -> tuple[str, ...]:
    """The names written in a group of named things, sound or not."""
    return () if node is None else tuple(key.value for key, _ in node.entries)
