"""Floor 2: what may be written once for each language of a booklet: words of the author's, and choices."""

from __future__ import annotations

from typing import TypeVar

from booklet.kit.words import LANGUAGES, Worded, Wordings
from booklet.source.tree.node import Map, Node, Text
from booklet.source.values.kinds import ANY_TEXT, Given, Kind, Reading, Schema, text, wrong_kind

T = TypeVar("T")


def wording(words: str = "a text", longest: int | None = None) -> Kind[str]:
    """A text that is printed: one for every language, or a group with one for each: `{en: wing, de: Flügel}`."""
    plain = text(words) if longest is None else text(words, longest)

    def read(node: Node, what: str, reading: Reading) -> str | None:
        if not isinstance(node, Map):
            return plain.read(node, what, reading)
        found = _each(node, what, plain, reading)
        if found is None:
            return None
        reading.worded[node.span] = Given(what, found)
        return Worded(found, reading.language)

    return Kind(words, read, {"anyOf": [ANY_TEXT, _by_language(plain.schema)]})


def wordings(example: str, longest: int) -> Kind[Wordings]:
    """A text, or a text for each language, all of them kept: `wing`, or `{en: wing, de: Flügel}`."""
    words = f"a text, or one for each language such as `{example}`"
    plain = text(words, longest)

    def read(node: Node, what: str, reading: Reading) -> Wordings | None:
        if not isinstance(node, Map):
            value = plain.read(node, what, reading)
            return None if value is None else (("", value),)
        found = _each(node, what, plain, reading)
        if found is not None:
            reading.worded[node.span] = Given(what, found, "a usual word or the step")
        return found

    return Kind(words, read, {"anyOf": [plain.schema, _by_language(plain.schema)]})


def by_language(kind: Kind[T], example: str) -> Kind[tuple[tuple[str, T], ...]]:
    """A choice, or one for each language: `cm`, or `{en: inch, de: cm}`; as (language, choice), "" for any."""
    words = f"{kind.words}, or one for each language such as `{example}`"

    def read(node: Node, what: str, reading: Reading) -> tuple[tuple[str, T], ...] | None:
        if isinstance(node, Map):
            return _each(node, what, kind, reading)
        value = kind.read(node, what, reading)
        return None if value is None else (("", value),)

    return Kind(words, read, {"anyOf": [kind.schema, _by_language(kind.schema)]})


def _each(
    node: Map, what: str, kind: Kind[T], reading: Reading
) -> tuple[tuple[str, T], ...] | None:
    """The value for each language; None with a fault where a key is none, or a value is faulty."""
    if not node.entries:
        wrong_kind(node, what, f"{kind.words} for each language", reading)
        return None
    found: list[tuple[str, T]] = []
    sound = True
    for key, entry in node.entries:
        if key.value not in LANGUAGES:
            unknown_language(key, what, reading)
            sound = False
            continue
        value = kind.read(entry, f"`{key.value}` in {what}", reading)
        if value is not None:
            found.append((key.value, value))
    return tuple(found) if sound and len(found) == len(node.entries) else None


def unknown_language(key: Text, what: str, reading: Reading) -> None:
    """Note a language that the booklet does not speak."""
    known = ", ".join(f"`{language}`" for language in LANGUAGES)
    wrong_kind(key, f"the language in {what}", f"one of {known}", reading)


def _by_language(schema: Schema) -> Schema:
    return {
        "type": "object",
        "properties": dict.fromkeys(LANGUAGES, schema),
        "additionalProperties": False,
        "minProperties": 1,
    }
