"""Languages: phrases, the catalogues, and that no word of a booklet goes past them."""

from __future__ import annotations

import base64
import gettext
import html
import pickle
import re
from datetime import date
from fractions import Fraction
from pathlib import Path

import catalogues
import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet import compiler, words
from booklet.pages import compose
from booklet.pattern import Paper
from booklet.words import (
    LANGUAGES,
    Digits,
    Speaker,
    in_units,
    large,
    listing,
    phrase,
    plural_phrase,
    small,
    words_of,
)

HERE = Path(__file__).parent
PATTERNS = ("three_sizes", "log_cabin", "quarter_round", "market_day")
TRANSLATED = ("de", "fr")


# Phrases


def test_a_phrase_is_its_english():
    said = phrase("Sew {part} to {other}", part="A", other=("B", "C"))
    assert said == "Sew A to B and C"
    assert plural_phrase("{n} seam", "{n} seams", 1) == "1 seam"
    assert plural_phrase("{n} seam", "{n} seams", 0) == "0 seams"
    assert listing(("A", "B", "C"), "or") == "A, B or C"
    assert listing((phrase("One."), phrase("Two.")), "sentences") == "One. Two."
    assert pickle.loads(pickle.dumps(said)).message == "Sew {part} to {other}"


def test_a_value_that_is_missing_is_a_bug():
    with pytest.raises(KeyError):
        phrase("Sew {part}")


def test_braces_in_a_value_stay():
    assert phrase("{name} × {n}", name="{n} or {x}", n=2) == "{n} or {x} × 2"


@given(st.text(), st.text())
def test_any_name_stands_as_it_is_written(one, other):
    said = phrase("{a} and {b}", a=one, b=other)
    assert said == f"{one} and {other}"
    assert words_of("de").say(said).startswith(one)


def test_first_letters():
    title = phrase("Sew {part}", part="A")
    assert large("the wing") == "The wing"
    assert small(title) == "sew A"
    assert words_of("de").say(phrase("{title}: {words}", title=large(title), words="x")) != ""


@pytest.mark.parametrize(
    ("language", "listed", "length", "day"),
    [
        ("en", "A, B and C", "6.5 cm", "November 25, 2026"),
        ("en-GB", "A, B and C", "6.5 cm", "25 November 2026"),
        ("de", "A, B und C", "6,5 cm", "25. November 2026"),
        ("fr", "A, B et C", "6,5 cm", "25 novembre 2026"),
    ],
)
def test_lists_figures_and_dates(language, listed, length, day):
    say = words_of(language).say
    assert say(("A", "B", "C")) == listed
    assert say(in_units("6.5", "cm")) == length
    assert say(date(2026, 11, 25)) == day
    assert say(Fraction(5, 2)) == say(Digits("2.5"))
    assert say("2.5, as the author wrote") == "2.5, as the author wrote"


def test_plural_rules():
    # French says nought in the singular, German and English in the plural
    seams = [plural_phrase("{n} seam, lengthwise", "{n} seams, lengthwise", n) for n in (0, 1, 2)]
    assert [words_of("fr").say(s).split()[1] for s in seams] == ["couture,", "couture,", "coutures,"]
    assert [words_of("de").say(s).split()[1] for s in seams] == ["Nähte,", "Naht,", "Nähte,"]


def test_british_words():
    say = words_of("en-GB").say
    assert say(phrase("batting", context="glossary")) == "wadding"
    assert say(phrase("Try your own colors.")) == "Try your own colours."
    assert say(phrase("By hand")) == "By hand"


def test_french_signs_keep_to_their_line():
    assert "\u00a0:" in words_of("fr").say(phrase("Cutting {fabric}", fabric="X"))


# Catalogues


@pytest.fixture(scope="module")
def template():
    return catalogues.template()


@pytest.mark.parametrize("locale", catalogues.LOCALES)
def test_a_catalogue_is_up_to_date(locale, template):
    now = (catalogues.WORDS / f"{locale}.po").read_bytes()
    new = catalogues.written(catalogues.updated(locale, template), locale)
    assert now == new, "run: python tests/catalogues.py"


@pytest.mark.parametrize("locale", TRANSLATED)
def test_a_catalogue_is_complete(locale):
    for message in catalogues.read(locale):
        if not message.id:
            continue
        ids = message.id if isinstance(message.id, tuple) else (message.id,)
        strings = message.string if isinstance(message.string, tuple) else (message.string,)
        assert len(strings) == len(ids) and all(strings), f"{locale}: {message.id} has no words"
        assert not message.fuzzy, f"{locale}: {message.id} is fuzzy"


@pytest.mark.parametrize("locale", catalogues.LOCALES)
def test_a_translation_has_the_values_of_its_message(locale):
    for message in catalogues.read(locale):
        if not message.id:
            continue
        ids = message.id if isinstance(message.id, tuple) else (message.id,)
        strings = message.string if isinstance(message.string, tuple) else (message.string,)
        for one, said in zip(ids, strings, strict=True):
            may_count = {"n"} if len(ids) > 1 else set()  # "one square" need not say the figure
            assert names(one) ^ names(said) <= may_count, f"{locale}: {said!r} for {one!r}"
            assert said == said.strip()


def names(text: str) -> set[str]:
    return set(re.findall(r"\{(\w+)\}", text))


def test_no_message_is_british_and_its_british_differ():
    for found in catalogues.messages():
        for form in found.forms:
            british = re.search(r"\b(colour|centre|grey|anticlockwise|metres|practise|towards)", form)
            assert not british, f"{found.file}: write {form!r} as in America"


def test_the_english_catalogue_has_all_that_differs():
    told = {m.id if isinstance(m.id, str) else m.id[0] for m in catalogues.read("en_GB") if m.id}
    for found in catalogues.messages():
        if catalogues.british(found.forms[0]) != found.forms[0]:
            assert found.forms[0] in told


# No word goes past the catalogues


class Bracketed(gettext.NullTranslations):
    """A language that says English with every word of its own in brackets."""

    def gettext(self, message: str) -> str:
        return "".join(
            part if part.startswith("{") or not part.strip() else f"⟦{part}⟧"
            for part in re.split(r"(\{\w+\})", message)
        )

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return self.gettext(super().ngettext(msgid1, msgid2, n))

    def pgettext(self, context: str, message: str) -> str:
        return self.gettext(message)

    def npgettext(self, context: str, msgid1: str, msgid2: str, n: int) -> str:
        return self.gettext(super().ngettext(msgid1, msgid2, n))


class Longer(gettext.NullTranslations):
    """A language whose words are 40 percent longer than English."""

    def gettext(self, message: str) -> str:
        return re.sub(r"\{\w+\}|[A-Za-z]{3,}", lambda m: stretched(m[0]), message)

    ngettext = Bracketed.ngettext
    pgettext = Bracketed.pgettext
    npgettext = Bracketed.npgettext


def stretched(word: str) -> str:
    return word if word.startswith("{") else word + "nenenenene"[: max(1, round(len(word) * 0.4))]


def speaking(monkeypatch, catalogue, language="en-US"):
    """From now on every booklet speaks so."""
    speaker = Speaker(language, catalogue)
    monkeypatch.setattr(words, "_speaker_of", lambda spoken: speaker)


def plan_of(folder: Path):
    checked = compiler.check(folder).value
    assert checked is not None
    return compiler.plan(checked)


def shown(page: str) -> list[str]:
    """All that a reader sees or hears: text, labels, alternatives, the texts of pictures."""
    texts = []
    for data in re.findall(r"data:image/svg\+xml;base64,([\w+/=]+)", page):
        svg = base64.b64decode(data).decode("utf-8")
        texts += re.findall(r"<text[^>]*>([^<]*)", svg) + re.findall(r"<tspan[^>]*>([^<]*)", svg)
    page = re.sub(r"<style>.*?</style>|<head>.*?</head>|<desc.*?</desc>", "", page, flags=re.DOTALL)
    texts += re.findall(r'(?:alt|aria-label|title)="([^"]*)"', page)
    texts += re.split(r"<[^>]*>", page)
    return [html.unescape(text) for text in texts if text.strip()]


def own_words(folder: Path) -> set[str]:
    """Every word the author wrote, in the pattern and its texts."""
    found = ""
    for file in (*folder.rglob("*.yaml"), *folder.rglob("*.md"), *folder.rglob("*.html")):
        found += file.read_text("utf-8") + " "
    found += "x A B mm min pt booklet"  # letters of versions, and what stands in a sum
    return {word.casefold() for word in re.findall(r"[^\W\d_]+", found)}


def astray(page: str, own: set[str]) -> list[str]:
    """The words of a page that are neither in brackets nor the author's."""
    found = []
    for text in shown(page):
        left = re.sub(r"⟦[^⟧]*⟧", " ", text)
        for word in filter(str.isalpha, re.findall(r"[^\W\d_]+", left)):
            letter = re.fullmatch(r"[A-Za-z]{1,2}r?", word)  # of a patch, a column, a strip
            if not letter and word.casefold() not in own and word not in FROM_BABEL:
                found.append(f"{word}: {text.strip()[:80]}")
    return found


FROM_BABEL = {"November", "and", "or"}  # dates and lists


@pytest.mark.parametrize("pattern", ("example", *PATTERNS))
def test_every_word_comes_from_a_catalogue_or_the_author(pattern, monkeypatch, example_plan):
    folder = HERE.parent / "example_pattern" if pattern == "example" else HERE / "patterns" / pattern
    plan = example_plan if pattern == "example" else plan_of(folder)
    speaking(monkeypatch, Bracketed())
    own = own_words(folder)
    for edition in plan.pattern.booklet.editions:
        page = compose(plan, edition, paper=None, sizes=(plan.sizes[0].size.id,)).html
        assert astray(page, own) == []
