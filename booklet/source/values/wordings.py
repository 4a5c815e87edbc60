"""Floor 2: words of the author's that may be written once for each language of a booklet."""

from __future__ import annotations

from booklet.source.tree.node import Map, Node
from booklet.source.values.kinds import Kind, Reading, text, wrong_kind
from booklet.words import LANGUAGES, Wordings


def wordings(example: str, longest: int) -> Kind[Wordings]:
    """A text, or a text for each language: `wing`, or `{en: wing, de: Flügel}`."""
    words = f"a text, or one for each language such as `{example}`"
    plain = text(words, longest)

    def read(node: Node, what: str, reading: Reading) -> Wordings | None:
        if not isinstance(node, Map):
            value = plain.read(node, what, reading)
            return None if value is None else (("", value),)
        found: list[tuple[str, str]] = []
        for key, entry in node.entries:
            if key.value not in LANGUAGES:
                known = ", ".join(f"`{language}`" for language in LANGUAGES)
                wrong_kind(key, f"the language in {what}", f"one of {known}", reading)
                return None
            value = plain.read(entry, what, reading)
            if value is None:
                return None
            found.append((key.value, value))
        return tuple(found)

    each = {"type": "object", "properties": dict.fromkeys(LANGUAGES, plain.schema), "additionalProperties": False}  # fmt: skip
    return Kind(words, read, {"anyOf": [plain.schema, each]})
