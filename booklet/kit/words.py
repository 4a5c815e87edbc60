"""Floor 0: words. What the booklet says by itself is held as a phrase and spoken in a language later.

A `Phrase` is a sentence in English (US) with `{names}` for its values; that English is the key into the
catalogues under `templates/words/`. A `Speaker` turns a phrase into the text of one language: wording,
plural form, order of the values, lists, decimal sign and dates. This module is the door to Babel, of which each part is
loaded by what needs it: checking a pattern needs none.
"""

from __future__ import annotations

import gettext
import io
import re
from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from fractions import Fraction
from functools import cache
from typing import Literal, TypeAlias, TypeVar

from booklet.kit.measure import Length, Printed, UnitSystem, printed
from booklet.kit.records import Record

T = TypeVar("T")
Style = Literal["and", "or", "commas", "semicolons", "sentences"]
First = Literal["", "large", "small"]
Wordings = tuple[tuple[str, str], ...]  # (language, an author's words); "" where none is named
_JOINTS = {"commas": ", ", "semicolons": "; ", "sentences": " "}
_NAME = re.compile(r"\{(\w+)\}")
_RUNNING = re.compile(r"(?:(?<!\w)([Dd]e|[Àà]|[Qq]ue) )?\{(\w+)\}")
_VOWEL = re.compile(r"(?i)[aeiouàâæéèêëîïôœùûü]|hexa")
_SPACED = re.compile(r" (?=[;!?%»])|(?<=«) ")
NO_BREAK, NARROW = "\u00a0", "\u202f"  # spaces at which no line is broken
_POINT = re.compile(r"(?<=\d)\.(?=\d)")

US, UK, GERMAN, FRENCH = "en-US", "en-GB", "de", "fr"
LANGUAGES = {"en": US, US: US, UK: UK, GERMAN: GERMAN, FRENCH: FRENCH}
"""What `language` may say in a pattern, and the language spoken."""
LANGUAGE_NAMES = {
    "en": "English", US: "English (US)", UK: "English (UK)", GERMAN: "Deutsch", FRENCH: "Français",
}  # fmt: skip
"""What each calls itself, for a reader who looks for her own."""
FAMILIAR = "-x-familiar"
"""Ends a language in which the reader is addressed as a friend: a tag for private use (BCP 47)."""
_CATALOGUES = {UK: "en_GB", GERMAN: "de", FRENCH: "fr"}  # English (US) is the messages themselves
ADDRESSING = (GERMAN, FRENCH)
"""The languages that address a friend otherwise than a stranger."""
_LISTS = {US: "en_GB"}  # the house style has no comma before the last `and`


Text = str
"""A text for the reader: a phrase, or words of the author's, which stand as they are."""

Value: TypeAlias = "str | int | float | Fraction | date | tuple[Value, ...]"


class Phrase(str):
    """A sentence, a heading or a word of the booklet's own. As a string it is the English (US), for
    facts, diagnostics and tests; a `Speaker` says it in another language.

    `many` is the form of `message` for other counts than one, `n` the count. `context` tells two
    meanings of one English text apart. `first` is the size of its first letter: "large" whatever value
    stands first, "small" where the language writes so after a colon.
    """

    __slots__ = ("context", "first", "many", "message", "n", "values")
    message: str
    values: tuple[tuple[str, Value], ...]
    many: str | None
    n: int
    context: str | None
    first: First

    def __new__(
        cls,
        message: str,
        values: tuple[tuple[str, Value], ...] = (),
        many: str | None = None,
        n: int = 1,
        context: str | None = None,
        first: First = "",
    ) -> Phrase:
        """The phrase; KeyError for a `{name}` without a value: that is a bug of the code."""
        wording = message if many is None or n == 1 else many
        english = _filled(wording, {name: _english(value) for name, value in values}, first)
        self = super().__new__(cls, english)
        self.message, self.values, self.many, self.n = message, values, many, n
        self.context, self.first = context, first
        return self

    def __reduce__(self) -> tuple[type[Phrase], tuple[object, ...]]:
        made_of = (self.message, self.values, self.many, self.n, self.context, self.first)
        return Phrase, made_of


class Listing(str):
    """Things in a list: "A, B and C"; or sentences one after the other."""

    __slots__ = ("items", "style")
    items: tuple[Value, ...]
    style: Style

    def __new__(cls, items: tuple[Value, ...], style: Style = "and") -> Listing:
        """The list; as a string it is the English one."""
        self = super().__new__(cls, _listed([_english(item) for item in items], style, US))
        self.items, self.style = items, style
        return self

    def __reduce__(self) -> tuple[type[Listing], tuple[object, ...]]:
        return Listing, (self.items, self.style)


class Digits(str):
    """A printed figure such as "2 1/2", "6.5" or "3 × 4.2", with a decimal point: languages that
    write a comma get one."""

    __slots__ = ()


class Worded(str):
    """Words of the author's that were written for several languages. As a string they are those for the
    pattern's own."""

    __slots__ = ("wordings",)
    wordings: Wordings

    def __new__(cls, wordings: Wordings, language: str) -> Worded:
        """The words for `language`, or the first there are."""
        said = worded(wordings, language)
        self = super().__new__(cls, wordings[0][1] if said is None else said)
        self.wordings = wordings
        return self

    def __eq__(self, other: object) -> bool:
        """Whether they are the same words, in each language."""
        same = isinstance(other, str) and str(self) == str(other)
        return same and getattr(other, "wordings", self.wordings) == self.wordings

    def __ne__(self, other: object) -> bool:
        return not self == other

    def __hash__(self) -> int:
        return hash(str(self))

    def __repr__(self) -> str:
        return f"Worded({self.wordings!r})"

    def __reduce__(self) -> tuple[type[Worded], tuple[Wordings, str]]:
        return Worded, (self.wordings, "")

    def said_in(self, language: str) -> str:
        """The words in a language; those of the pattern's own where there are none."""
        said = worded(self.wordings, language)
        return str(self) if said is None else said


def wordings_of(text: str) -> Wordings:
    """The words of a text with their languages."""
    return text.wordings if isinstance(text, Worded) else (("", text),)


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
        return _with_first(text, "large")
    if isinstance(text, Listing) and text.items and isinstance(text.items[0], str):
        return Listing((large(text.items[0]), *text.items[1:]), text.style)
    return _large(text)


def _with_first(text: Phrase, first: First) -> Phrase:
    return Phrase(
        text.message, text.values, many=text.many, n=text.n, context=text.context, first=first
    )


def small(text: Phrase) -> Phrase:
    """The phrase with its first letter small, to stand after a colon; German begins large there too."""
    return _with_first(text, "small")


def in_units(figure: str, units: UnitSystem) -> Phrase:
    """A printed figure with its unit: "2 1/2 in", "6.5 cm"."""
    if units == "inch":
        return phrase("{figure} in", figure=Digits(figure))
    return phrase("{figure} cm", figure=Digits(figure))


def with_unit(
    length: Length | float, units: UnitSystem, kind: Printed = Printed.FINISHED
) -> Phrase:
    """A length, or so many inches, with its unit, printed for what it is: a finished one is "2 1/2 in" or "6.4 cm"."""
    exact = length if isinstance(length, Length) else Length.of(float(length))
    return in_units(printed(exact, units, kind), units)


def exactly(length: Length, units: UnitSystem) -> Phrase:
    """A length with its unit in as many digits as its author wrote: an allowance is never rounded."""
    return with_unit(length, units, Printed.EXACT)


def at_least(length: Length, units: UnitSystem) -> Phrase:
    """A length that must be there, with its unit, such as a width of cloth: "40 in", "102 cm"."""
    return with_unit(length, units, Printed.ENOUGH)


def area_text(size: tuple[Length | float, Length | float], units: UnitSystem) -> Phrase:
    """A finished width and height: "45 in × 54 in"."""
    return by(with_unit(size[0], units), with_unit(size[1], units))


def by(width: Value, height: Value) -> Phrase:
    """Width and height: "2 1/2 in × 4 in"."""
    return phrase("{width} × {height}", width=width, height=height)


def listing(items: Iterable[Value], style: Style = "and") -> Listing:
    """Things as a list."""
    return Listing(tuple(items), style)


def worded(given: Sequence[tuple[str, T]], language: str) -> T | None:
    """The words (or whatever was given) in a language: its own, else those of the language it is a form of, or that is spoken alike, else
    those for any."""
    by_language = dict(given)
    alike = (name for name, spoken in LANGUAGES.items() if spoken == LANGUAGES.get(language))
    for name in (language, language.partition("-")[0], *alike, ""):
        if name in by_language:
            return by_language[name]
    return None


class Speaker(Record):
    """One language. It says phrases; text that is no phrase (the author's) it repeats as it stands. `familiar`:
    the reader is addressed as a friend (du, tu)."""

    language: str
    catalogue: gettext.NullTranslations
    familiar: bool = False

    def say(self, value: Value) -> str:
        """The text of a value in this language.

        KeyError for a message whose `{name}` has no value: that is a bug of the code.
        """
        if isinstance(value, Phrase):
            return self._phrase(value)
        if isinstance(value, Listing):
            return self._list(value.items, value.style)
        if isinstance(value, tuple):
            return self._list(value, "and")
        if isinstance(value, date):
            from babel.dates import format_date

            return format_date(value, "long", locale=self._locale)
        if isinstance(value, (float, Fraction)):
            return self._point(f"{float(value):g}")
        return self._point(value) if isinstance(value, Digits) else str(value)

    def wording(self, said: Phrase) -> str:
        """The words of a phrase with its `{names}` still in it. French sets a space before some signs,
        narrow but for the colon, at which no line may break."""
        text = self._looked_up(said)
        if self.language == FRENCH:
            return _SPACED.sub(NARROW, text).replace(" :", f"{NO_BREAK}:")
        return text

    def _looked_up(self, said: Phrase) -> str:
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
        values = {name: self.say(value) for name, value in said.values}
        first: First = "" if said.first == "small" and self.language == GERMAN else said.first
        wording = self.wording(said)
        if self.language == FRENCH:
            return _begun(_RUNNING.sub(lambda name: _in_french(name, values), wording), first)
        return _filled(wording, values, first)

    def _list(self, items: tuple[Value, ...], style: Style) -> str:
        return _listed([self.say(item) for item in items], style, self.language)

    def _point(self, text: str) -> str:
        return _POINT.sub(_decimal_symbol(self._locale), text)


def words_of(tongue: str) -> Speaker:
    """The speaker of a pattern's `tongue`, its language, with FAMILIAR at its end where it is so; English (US) where it
    is none of `LANGUAGES`."""
    spoken = LANGUAGES.get(tongue.removesuffix(FAMILIAR), US)
    is_friend = tongue.endswith(FAMILIAR) and spoken in ADDRESSING
    return _friend_of(spoken) if is_friend else _speaker_of(spoken)


@cache
def _decimal_symbol(locale: str) -> str:
    from babel.numbers import get_decimal_symbol

    return get_decimal_symbol(locale)


@cache
def _speaker_of(spoken: str) -> Speaker:
    return Speaker(spoken, _catalogue(_CATALOGUES.get(spoken)))


@cache
def _friend_of(spoken: str) -> Speaker:
    """Who addresses the reader as a friend: only the sentences that address her have words of their own."""
    friendly = _catalogue(f"{_CATALOGUES[spoken]}_familiar")
    friendly.add_fallback(_catalogue(_CATALOGUES[spoken]))
    return Speaker(spoken, friendly, familiar=True)


def _catalogue(name: str | None) -> gettext.NullTranslations:
    """A catalogue, compiled; English (US) has none, its messages are its words."""
    if name is None:
        return gettext.NullTranslations()
    from importlib import resources

    from babel.messages.mofile import write_mo
    from babel.messages.pofile import read_po

    file = resources.files("booklet.templates") / "words" / f"{name}.po"
    compiled = io.BytesIO()
    write_mo(compiled, read_po(io.BytesIO(file.read_bytes()), locale=name.partition("_f")[0]))
    compiled.seek(0)
    return gettext.GNUTranslations(compiled)


def _english(value: Value) -> str:
    """A value in English (US)."""
    return str(value) if isinstance(value, str) else _speaker_of(US).say(value)


def _filled(wording: str, values: Mapping[str, str], first: First) -> str:
    """A wording with its values in place."""
    return _begun(_NAME.sub(lambda name: values[name[1]], wording), first)


def _in_french(found: re.Match[str], values: Mapping[str, str]) -> str:
    """A value after a word that runs into it: "du bloc", "à l'angle", "d'Étoile"; a patch letter stands as it is."""
    word, value = found[1] or "", values[found[2]]
    first = value.partition(" ")[0]
    for article, run_in in (("le ", {"de": "du", "à": "au"}), ("les ", {"de": "des", "à": "aux"})):
        joined = run_in.get(word.lower())
        if joined and value.startswith(article):
            joined = joined if word.islower() else joined.capitalize()
            return f"{joined} {value.removeprefix(article)}"
    if word.lower() in ("de", "que") and _VOWEL.match(first) and any(map(str.islower, first[1:])):
        return f"{word[:-1]}’{value}"
    return f"{word} {value}" if word else value


def _begun(text: str, first: First) -> str:
    """A text with the first letter that is asked for."""
    if first == "small":
        return text[:1].lower() + text[1:]
    return _large(text) if first == "large" else text


def _listed(items: list[str], style: Style, language: str) -> str:
    """Texts as a list of a language."""
    if style in _JOINTS:
        narrow = NARROW if language == FRENCH and style == "semicolons" else ""
        return (narrow + _JOINTS[style]).join(items)
    from babel.lists import format_list

    kind: Literal["or", "standard"] = "or" if style == "or" else "standard"
    return format_list(items, kind, locale=_LISTS.get(language, language.replace("-", "_")))


def _large(text: str) -> str:
    return text[:1].upper() + text[1:]
