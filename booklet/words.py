"""Floor 0: words. What the booklet says by itself is held as a phrase and spoken in a language later.

A `Phrase` is a sentence in English (US) with `{names}` for its values; that English is the key into the
catalogues under `templates/words/`. A `Speaker` turns a phrase into the text of one language: wording,
plural form, order of the values, lists, decimal sign and dates. This module is the door to Babel.
"""

from __future__ import annotations

import gettext
import io
import re
from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date
from fractions import Fraction
from functools import cache
from importlib import resources
from typing import Literal

from babel.dates import format_date
from babel.lists import format_list
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po
from babel.numbers import get_decimal_symbol

Style = Literal["and", "or", "commas", "semicolons", "sentences"]
_JOINTS = {"commas": ", ", "semicolons": "; ", "sentences": " "}
_NAME = re.compile(r"\{(\w+)\}")
_POINT = re.compile(r"(?<=\d)\.(?=\d)")

US, UK, GERMAN, FRENCH = "en-US", "en-GB", "de", "fr"
LANGUAGES = {"en": US, US: US, UK: UK, GERMAN: GERMAN, FRENCH: FRENCH}
"""What `language` may say in a pattern, and the language spoken."""
_CATALOGUES = {UK: "en_GB", GERMAN: "de", FRENCH: "fr"}  # English (US) is the messages themselves
_LISTS = {US: "en_GB"}  # the house style has no comma before the last `and`


@dataclass(frozen=True, slots=True)
class Phrase:
    """A sentence, a heading or a word of the booklet's own, not yet in any language.

    `many` is the form of `message` for other counts than one, `n` the count. `context` tells two
    meanings of one English text apart. `large` begins it with a capital, whatever value stands first.
    """

    message: str
    values: tuple[tuple[str, Value], ...] = ()
    many: str | None = None
    n: int = 1
    context: str | None = None
    large: bool = False

    def __str__(self) -> str:
        """The phrase in English (US), as facts and diagnostics have it."""
        return ENGLISH.say(self)


@dataclass(frozen=True, slots=True)
class Listing:
    """Things in a list: "A, B and C"; or sentences one after the other."""

    items: tuple[Value, ...]
    style: Style = "and"

    def __str__(self) -> str:
        return ENGLISH.say(self)


@dataclass(frozen=True, slots=True)
class Digits:
    """A printed figure such as "2 1/2", "6.5" or "3 × 4.2", with a decimal point: languages that
    write a comma get one."""

    text: str

    def __str__(self) -> str:
        return self.text


Text = str | Phrase | Listing | Digits
Value = Text | int | float | Fraction | date | tuple["Value", ...]


def phrase(message: str, /, *, context: str | None = None, **values: Value) -> Phrase:
    """A phrase whose `{names}` stand for `values`: names, numbers, other phrases, tuples as lists.

    The message must be a literal: the catalogues are made by reading the code.
    """
    return Phrase(message, tuple(values.items()), context=context)


def plural_phrase(
    one: str, many: str, n: int, /, *, context: str | None = None, **values: Value
) -> Phrase:
    """A phrase with a form for one and a form for many; `{n}` is the count."""
    return Phrase(one, (("n", n), *values.items()), many, n, context)


def large(text: Text) -> Text:
    """The text with its first letter large, to begin a sentence or a line."""
    if isinstance(text, Phrase):
        return replace(text, large=True)
    if isinstance(text, Listing) and text.items and isinstance(text.items[0], (str, Phrase)):
        return replace(text, items=(large(text.items[0]), *text.items[1:]))
    return _large(text) if isinstance(text, str) else text


def in_units(figure: str, units: Literal["inch", "cm"]) -> Phrase:
    """A printed figure with its unit: "2 1/2 in", "6.5 cm"."""
    if units == "inch":
        return phrase("{figure} in", figure=Digits(figure))
    return phrase("{figure} cm", figure=Digits(figure))


def by(width: Value, height: Value) -> Phrase:
    """Width and height: "2 1/2 in × 4 in"."""
    return phrase("{width} × {height}", width=width, height=height)


def listing(items: Iterable[Value], style: Style = "and") -> Listing:
    """Things as a list."""
    return Listing(tuple(items), style)


@dataclass(frozen=True, slots=True)
class Speaker:
    """One language. It says phrases; text that is no phrase (the author's) it repeats as it stands."""

    language: str
    catalogue: gettext.NullTranslations

    def say(self, value: Value) -> str:
        """The text of a value in this language.

        KeyError for a message whose `{name}` has no value: that is a bug of the code.
        """
        if isinstance(value, Phrase):
            return self._phrase(value)
        if isinstance(value, Listing):
            return self._list([self.say(item) for item in value.items], value.style)
        if isinstance(value, tuple):
            return self._list([self.say(item) for item in value], "and")
        if isinstance(value, date):
            return format_date(value, "long", locale=self._locale)
        if isinstance(value, (float, Fraction)):
            return self._point(f"{float(value):g}")
        return self._point(value.text) if isinstance(value, Digits) else str(value)

    def wording(self, said: Phrase) -> str:
        """The words of a phrase with its `{names}` still in it."""
        if said.many is not None and said.context is not None:
            return self.catalogue.npgettext(said.context, said.message, said.many, said.n)
        if said.many is not None:
            return self.catalogue.ngettext(said.message, said.many, said.n)
        if said.context is not None:
            return self.catalogue.pgettext(said.context, said.message)
        return self.catalogue.gettext(said.message) if said.message else ""

    @property
    def _locale(self) -> str:
        return self.language.replace("-", "_")

    def _phrase(self, said: Phrase) -> str:
        values = dict(said.values)
        text = _NAME.sub(lambda name: self.say(values[name[1]]), self.wording(said))
        return _large(text) if said.large else text

    def _list(self, items: list[str], style: Style) -> str:
        if style in _JOINTS:
            return _JOINTS[style].join(items)
        kind: Literal["or", "standard"] = "or" if style == "or" else "standard"
        return format_list(items, kind, locale=_LISTS.get(self.language, self._locale))

    def _point(self, text: str) -> str:
        return _POINT.sub(get_decimal_symbol(self._locale), text)


def words_of(language: str) -> Speaker:
    """The speaker of a pattern's `language`; English (US) where it is none of `LANGUAGES`."""
    spoken = LANGUAGES.get(language, US)
    return Speaker(spoken, _catalogue(spoken))


@cache
def _catalogue(spoken: str) -> gettext.NullTranslations:
    """The catalogue of a language, compiled; English (US) has none, its messages are its words."""
    name = _CATALOGUES.get(spoken)
    if name is None:
        return gettext.NullTranslations()
    file = resources.files("booklet.templates") / "words" / f"{name}.po"
    compiled = io.BytesIO()
    write_mo(compiled, read_po(io.BytesIO(file.read_bytes()), locale=name))
    compiled.seek(0)
    return gettext.GNUTranslations(compiled)


def _large(text: str) -> str:
    return text[:1].upper() + text[1:]


ENGLISH = words_of(US)
