"""Floor 11, words: what the booklet says, as markup in the language of the pattern."""

from __future__ import annotations

from collections.abc import Callable

from markupsafe import Markup

from booklet.kit.records import Record
from booklet.kit.words import Speaker, Value, phrase, plural_phrase, words_of
from booklet.pages.texts.true_fractions import quantities


class Words(Record):
    """The speaker of a document, for its templates."""

    speaker: Speaker

    @classmethod
    def of(cls, language: str) -> Words:
        """The words of a pattern's language."""
        return cls(words_of(language))

    def text(self, said: Value) -> str:
        """Plain text in this language."""
        return said if isinstance(said, Markup) else self.speaker.say(said)

    def markup(self, said: Value) -> Markup:
        """Text in this language as markup: escaped, with true fractions; markup stays what it is."""
        return quantities(self.text(said))

    def functions(self) -> dict[str, Callable[..., Markup]]:
        """What every template may call: `t` and `tn` say phrases, `q` anything else."""
        return {"t": self.phrase, "tn": self.plural, "q": self.markup}

    def phrase(self, message: str, context: str | None = None, **values: Value) -> Markup:
        """For templates: the markup of a phrase."""
        return self.markup(phrase(message, context=context, **values))

    def plural(
        self, one: str, many: str, n: int, context: str | None = None, **values: Value
    ) -> Markup:
        """For templates: the markup of a phrase that counts."""
        return self.markup(plural_phrase(one, many, n, context=context, **values))
