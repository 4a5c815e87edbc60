"""Floor 2: the names a designer gives to fabrics, patches, blocks, pieces, units and sizes."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Collection, Iterator

from booklet.kit.bounds import LONGEST_NAME, MOST_EDITIONS, MOST_NAMED, MOST_SIZES
from booklet.kit.diagnostic import Span
from booklet.source.tree.node import Map, Node, Text, shortened
from booklet.source.values.kinds import Reading

_IN_FILE_NAMES = ("size", "edition")
_NAME = re.compile(r"\w(?:[\w -]*[\w-])?")


def is_name(name: str, span: Span, noun: str, reading: Reading) -> bool:
    """Whether a text can be a name: letters, digits, hyphens, single words or several."""
    if len(name) <= LONGEST_NAME and _NAME.fullmatch(name):
        return True
    reading.faults.add(
        "bad-name",
        f"`{shortened(name)}` cannot be the name of {'an' if noun[0] in 'aeio' else 'a'} {noun}",
        span,
        f"use up to {LONGEST_NAME} letters, digits, hyphens and spaces, beginning with a letter",
    )
    return False


def named_entries(
    node: Map, noun: str, reading: Reading, own: Collection[str] = ()
) -> Iterator[tuple[Text, Node]]:
    """The entries of a group of named things; a name that cannot be one is noted, and still read. `own` are the keys that
    each thing takes, if it needs some: a key of the pattern with none of them only stands too far to the right."""
    several = f"{noun}es" if noun.endswith("ch") else f"{noun}s"
    most = {"size": MOST_SIZES, "edition": MOST_EDITIONS}.get(noun, MOST_NAMED)
    if len(node.entries) > most:
        message = f"there are {len(node.entries)} {several}; at most {most} can be worked with"
        reading.faults.add("too-large", message, node.span, "take some away")
        return
    if noun in _IN_FILE_NAMES:
        _alike(node, noun, reading)
    for key, value in node.entries:
        if own and key.value in reading.names.get("key", ()) and _is_foreign(value, own):
            message = f"`{key.value}` stands among the {several}, but it is a key of the pattern"
            hint = f"begin the line of `{key.value}` in the first column, and move what belongs to it as far"
            reading.faults.add("wrong-kind", message, key.span, hint)
            return  # what follows belongs to it
        is_name(key.value, key.span, noun, reading)
        yield key, value


def _is_foreign(value: Node, own: Collection[str]) -> bool:
    """Whether a value is empty, or a group with none of the keys it should have."""
    if isinstance(value, Map):
        return not any(key.value in own for key, _ in value.entries)
    return isinstance(value, Text) and value.is_empty


def _alike(node: Map, noun: str, reading: Reading) -> None:
    """Note names that would give two files the same name."""
    first: dict[str, Text] = {}
    for key, _ in node.entries:
        other = first.setdefault(file_part(key.value), key)
        if other is not key:
            message = (
                f"{noun}s `{shortened(other.value)}` and `{shortened(key.value)}` differ in no letter "
                "or digit, so their files would have the same name"
            )
            hint = "give one of them another name; its `title` may stay"
            reading.faults.add("duplicate-name", message, key.span, hint)


_WITH_STROKES = str.maketrans(
    {"ø": "o", "đ": "d", "ð": "d", "ł": "l", "ħ": "h", "ı": "i", "æ": "ae", "œ": "oe", "þ": "th"}
)
"""Letters of the Latin script that are no letter with an accent to Unicode, and are written so without them."""


def file_part(text: str) -> str:
    """A text as a part of a file name: small letters without accents, digits, hyphens between."""
    plain = unicodedata.normalize("NFKD", text.casefold())
    plain = unicodedata.normalize("NFC", "".join(c for c in plain if not "\u0300" <= c <= "\u036f"))
    plain = plain.translate(_WITH_STROKES)
    kept = "".join(c if unicodedata.category(c)[0] in "LMN" else " " for c in plain)
    return "-".join(kept.split())[:LONGEST_NAME].strip("-") or "booklet"


def names_in(node: Map | None) -> tuple[str, ...]:
    """The names written in a group of named things, sound or not."""
    return () if node is None else tuple(key.value for key, _ in node.entries)
