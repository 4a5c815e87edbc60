"""Floor 1: a pattern in one voice. The record holds the author's words by language (`Worded`) and all texts of its
folder; of it comes the same pattern with the words, the texts and the units of an edition, and no trace of others.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from operator import is_not
from types import MappingProxyType
from typing import Any, TypeVar

from booklet.kit.records import is_record, made_of, parts_of, replace
from booklet.kit.words import LANGUAGES, Worded
from booklet.pattern import (
    Bed,
    Binding,
    Edition,
    Page,
    Pattern,
    Piece,
    Quilt,
    Sewing,
    Shape,
    UnitCutting,
    Voice,
)

T = TypeVar("T")
_WORDLESS = (
    Piece,
    Shape,
    Quilt,
    Sewing,
    UnitCutting,
    Bed,
    Binding,
)  # the many, looked into for nothing
_TEXT = ".md"


def voice_of(pattern: Pattern, edition: Edition) -> Voice:
    """The voice of an edition: its own, or the pattern's."""
    return edition.voice or pattern.voice


def voices_of(pattern: Pattern) -> tuple[Voice, ...]:
    """The voices of all editions, each once, the pattern's own first."""
    return tuple(
        dict.fromkeys((pattern.voice, *(voice_of(pattern, e) for e in pattern.booklet.editions)))
    )


def spoken(pattern: Pattern, voice: Voice) -> Pattern:
    """The pattern as a voice says it; its files are named after the title in its own language."""
    told: Pattern = _told(pattern, voice.language, pattern.texts)
    return replace(
        told,
        language=voice.language,
        units=voice.units,
        both_units=voice.both,
        address=voice.address,
        files_title=pattern.files_title or str(pattern.title),
    )


def _told(value: Any, language: str, texts: Collection[str]) -> Any:
    """A part of a pattern in a language; one without words is the same object."""
    if isinstance(value, Worded):
        return value.said_in(language)
    if isinstance(value, Page):
        return replace(value, name=text_in(value.name, language, texts))
    if isinstance(value, _WORDLESS):
        return value
    if isinstance(value, MappingProxyType):
        there = {key: _told(part, language, texts) for key, part in value.items()}
        same = not any(map(is_not, there.values(), value.values()))
        return value if same else MappingProxyType(there)
    if isinstance(value, tuple):
        parts = tuple(_told(part, language, texts) for part in value)
        return parts if any(map(is_not, parts, value)) else value
    if is_record(type(value)):
        found = [_told(part, language, texts) for part in parts_of(value)]
        kind: Any = type(value)
        return made_of(kind, found) if any(map(is_not, found, parts_of(value))) else value
    return value


def text_in(name: str, language: str, texts: Collection[str]) -> str:
    """The file of a text in a language: `welcome.de.md` beside `welcome.md`; the text itself where there is none."""
    if not name.endswith(_TEXT):
        return name
    return next((each for each in forms_of(name, language) if each in texts), name)


def forms_of(name: str, language: str) -> Iterator[str]:
    """The files in which a text may stand in a language, the nearest first."""
    stem = common_name(name).removesuffix(_TEXT)
    alike = (each for each, spoken in LANGUAGES.items() if spoken == LANGUAGES.get(language))
    for ending in dict.fromkeys((language, language.partition("-")[0], *alike)):
        yield f"{stem}.{ending}{_TEXT}"
    yield stem + _TEXT


def common_name(name: str) -> str:
    """The name of a text without the language in it: `welcome.md` for `welcome.de.md`."""
    stem, _, ending = name.removesuffix(_TEXT).rpartition(".")
    return stem + _TEXT if stem and ending in LANGUAGES else name
