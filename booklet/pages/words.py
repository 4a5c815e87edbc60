"""Floor 11, words: every generated sentence of the pages comes from one catalogue per language."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources

from markupsafe import Markup, escape

from booklet.pages.quantities import quantities

FALLBACK = "en"
Entry = str | Mapping[str, str] | list[str]


@dataclass(frozen=True, slots=True)
class Words:
    """The sentences of one language, by dotted key."""

    language: str
    entries: Mapping[str, Entry]

    def text(self, key: str, **values: object) -> str:
        """The plain sentence of `key`, its `{names}` filled; `n` chooses the plural form.

        KeyError for an unknown key: that is a bug of a template.
        """
        entry = self.entries[key]
        if isinstance(entry, Mapping):
            entry = entry["one" if values.get("n") == 1 else "other"]
        if not isinstance(entry, str):
            raise KeyError(f"{key} is a list")
        return entry.format(**values)

    def markup(self, key: str, **values: object) -> Markup:
        """The sentence of `key` as markup, values escaped, lengths set as true fractions."""
        return quantities(self.text(key, **values))

    def items(self, key: str) -> tuple[Markup, ...]:
        """The sentences of a list in the catalogue, as markup."""
        entry = self.entries[key]
        return tuple(quantities(line) for line in entry if isinstance(entry, list))

    def has(self, key: str) -> bool:
        """Whether the catalogue has that key."""
        return key in self.entries

    def series(self, parts: list[str] | tuple[str, ...]) -> str:
        """A list in words: "a", "a and b", "a, b and c"."""
        if len(parts) < 2:
            return "".join(parts)
        return self.text("list.last", first=", ".join(parts[:-1]), last=parts[-1])


def _flat(table: Mapping[str, object], prefix: str = "") -> dict[str, Entry]:
    """The dotted keys of nested TOML tables; a table of `one` and `other` is one entry in two forms."""
    found: dict[str, Entry] = {}
    for key, value in table.items():
        if isinstance(value, Mapping) and set(value) != {"one", "other"}:
            found |= _flat(value, f"{prefix}{key}.")
        elif isinstance(value, (str, Mapping, list)):
            found[prefix + key] = value
    return found


@cache
def words_of(language: str) -> Words:
    """The catalogue of a language such as "en" or "en-GB"; English where there is none."""
    folder = resources.files("booklet.templates") / "words"
    for name in (language, language.split("-")[0], FALLBACK):
        file = folder / f"{name}.toml"
        if name.replace("-", "").isalnum() and file.is_file():
            return Words(name, _flat(tomllib.loads(file.read_text("utf-8"))))
    raise KeyError(FALLBACK)


def plain(text: object) -> Markup:
    """Text escaped and nothing else."""
    return escape(text)
