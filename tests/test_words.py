"""Languages: phrases, the catalogues, and that no word of a booklet goes past them."""

from __future__ import annotations

import base64
import gettext
import html
import io
import itertools
import pickle
import re
from dataclasses import replace
from datetime import date
from fractions import Fraction
from pathlib import Path

import catalogues
import pdfplumber
import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet import compiler, words
from booklet.drawing.lettering import MM_PER_POINT, text_width
from booklet.drawing.scene import Figure
from booklet.pages import compose, make_pdf, sheet_of
from booklet.pages.album import drawn
from booklet.pages.figures import LARGE, SMALL
from booklet.pattern import Paper
from booklet.words import (
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
PATTERNS = ("three_sizes", "market_day")
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
    assert [words_of("fr").say(s).split()[1] for s in seams] == [
        "couture,",
        "couture,",
        "coutures,",
    ]
    assert [words_of("de").say(s).split()[1] for s in seams] == ["Nähte,", "Naht,", "Nähte,"]


def test_british_words():
    say = words_of("en-GB").say
    assert say(phrase("batting", context="glossary")) == "wadding"
    assert say(phrase("Try your own colors.")) == "Try your own colours."
    assert say(phrase("By hand")) == "By hand"


def test_french_signs_keep_to_their_line():
    say = words_of("fr").say
    assert "\u00a0:" in say(phrase("Cutting {fabric}", fabric="X"))
    assert "«\u202fajuster à la page\u202f»" in say(phrase("Print at 100 %, not “fit to page”."))


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


def test_no_message_is_british():
    for found in catalogues.messages():
        for form in found.forms:
            said = re.sub(r"\{\w+\}", "", form)  # the names of values are the code's
            british = re.search(
                r"\b(colour|centre|grey|anticlockwise|metres|practise|towards)", said
            )
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


class Longer(Bracketed):
    """A language whose words are 40 percent longer than English."""

    def gettext(self, message: str) -> str:
        return re.sub(r"\{\w+\}|[A-Za-z]{3,}", lambda m: stretched(m[0]), message)


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
        texts.append(" ".join(re.findall(r"<text[^>]*>([^<]*)", svg)))
    page = re.sub(r"<style>.*?</style>|<head>.*?</head>|<desc.*?</desc>", "", page, flags=re.DOTALL)
    for svg in re.findall(r"<svg.*?</svg>", page, re.DOTALL):  # a name may go over several lines
        texts.append(" ".join(re.findall(r"<text[^>]*>([^<]*)", svg)))
    texts += re.findall(r'(?:alt|aria-label|title)="([^"]*)"', page)
    texts += re.split(r"<[^>]*>", re.sub(r"<svg.*?</svg>", "", page, flags=re.DOTALL))
    return [html.unescape(text) for text in texts if text.strip()]


def own_words(plan) -> set[str]:
    """Every word the author wrote for the reader: titles, names, notes and texts; not the source's keys."""
    pattern = plan.pattern
    found = [pattern.title, pattern.designer, pattern.summary, *pattern.texts.values()]
    found += pattern.templates.values()
    found += [size.title for size in pattern.sizes] + [block.title for block in pattern.blocks]
    found += [cloth.name for size in pattern.sizes for cloth in size.fabrics.values()]
    steps = [step for size in plan.sizes for block in size.blocks for step in block.assembly.steps]
    found += [step.make for step in steps] + [step.note or "" for step in steps]
    found += [edition.id for edition in pattern.booklet.editions]
    found += [name for edition in pattern.booklet.editions for name in edition.names]
    lesson = pattern.booklet.lesson
    found += [*lesson.homework, *(each.title for each in lesson.sessions)]
    found += [task for each in lesson.sessions for task in each.do]
    found.append("x mm min pt")  # what stands in a sum
    return {word.casefold() for word in re.findall(r"[^\W\d_]+", " ".join(map(str, found)))}


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
    folder = (
        HERE.parent / "example_pattern" if pattern == "example" else HERE / "patterns" / pattern
    )
    plan = example_plan if pattern == "example" else plan_of(folder)
    speaking(monkeypatch, Bracketed())
    own = own_words(plan)
    for edition in plan.pattern.booklet.editions:
        page = compose(plan, edition, paper=None, sizes=(plan.sizes[0].size.id,)).html
        assert astray(page, own) == []


# No language runs over


LABEL = re.compile(r"<text([^>]*)>([^<]*)</text>")
ROOT = re.compile(r'viewBox="0 0 ([\d.]+) ([\d.]+)"')


def boxes(svg: str) -> list[tuple[str, float, float, float, float]]:
    """The upright texts of a picture with their boxes: left, top, right, bottom, in mm."""
    found = []
    for attributes, text in LABEL.findall(svg):
        look = dict(re.findall(r'([\w-]+)="([^"]*)"', attributes))
        if "transform" in look or "aria-hidden" in look:
            continue  # turned along a strip; the halo of another
        size = float(look["font-size"])
        wide = text_width(html.unescape(text), size / MM_PER_POINT)
        x, y = float(look["x"]), float(look["y"])
        left = {"middle": x - wide / 2, "end": x - wide}.get(look.get("text-anchor", "start"), x)
        found.append((text, left, y - size * 0.7, left + wide, y))
    return found


def over(figure: Figure) -> list[str]:
    """The texts of a picture that stick out of it, or lie on each other."""
    across, down = (float(side) for side in ROOT.search(figure.svg).groups())
    texts = boxes(figure.svg)
    found = [t[0] for t in texts if t[1] < -0.6 or t[3] > across + 0.6 or t[4] > down + 0.6]
    words_only = [t for t in texts if len(t[0]) > 3]
    for one, other in itertools.combinations(words_only, 2):
        wide = min(one[3], other[3]) - max(one[1], other[1])
        high = min(one[4], other[4]) - max(one[2], other[2])
        if wide > 0.8 and high > 0.5:
            found.append(f"{one[0]} on {other[0]}")
    return [f"{figure.name}: {text}" for text in found]


def pictures(plan) -> list[Figure]:
    """The pictures of the first size of a plan on small and on large pages."""
    found = []
    for room in (LARGE, SMALL):
        album = drawn(plan)(plan.sizes[0], room)
        found += [figure for name in album.makers if (figure := album.figure(name)) is not None]
        rows = [name for name in album.rows if name.split()[0] != "templates" or "a5" in name]
        found += [figure for name in rows for figure in album.series(name)]
    return found


SPOKEN = {"de": None, "fr": None, "en-GB": None, "longer": Longer()}


def told_in(plan, language: str, monkeypatch):
    """The plan in a language, or in one whose words are longer."""
    if language == "longer":
        speaking(monkeypatch, Longer())
        return plan
    pattern = replace(plan.pattern, language=language)
    sizes = tuple(replace(size, pattern=pattern) for size in plan.sizes)
    return replace(plan, pattern=pattern, sizes=sizes)


@pytest.fixture(scope="module")
def small_plans():
    return {name: plan_of(HERE / "patterns" / name) for name in ("log_cabin", "quarter_round")}


@pytest.mark.parametrize("language", SPOKEN)
def test_no_word_of_a_picture_runs_over(language, monkeypatch, example_plan, small_plans):
    faults = []
    for plan in (example_plan, *small_plans.values()):
        for figure in pictures(told_in(plan, language, monkeypatch)):
            faults += over(figure)
    assert faults == []


@pytest.mark.parametrize("language", SPOKEN)
def test_no_word_of_a_page_runs_over(language, monkeypatch, small_plans):
    told = told_in(small_plans["log_cabin"], language, monkeypatch)
    assert run_over(told, Paper.A5) == []


def test_the_example_does_not_run_over_in_german(example_plan, monkeypatch):
    assert run_over(told_in(example_plan, "de", monkeypatch), Paper.A5) == []


def run_over(plan, paper: Paper) -> list[str]:
    """The words of a printed pattern that stand outside the margins of their page."""
    edition, size = plan.pattern.booklet.editions[0], plan.sizes[0].size.id
    made = make_pdf(compose(plan, edition, paper=paper, sizes=(size,)).html)
    assert made.complaints == ()
    sheet, found = sheet_of(paper), []
    narrow = min(sheet.inner, sheet.outer)
    with pdfplumber.open(io.BytesIO(made.data)) as opened:
        for number, page in enumerate(opened.pages):
            said = page.extract_words()
            bare = number == 0 or any(
                word["text"].startswith(("Schablone", "Gabarit", "Template")) for word in said
            )
            margin = sheet.bare if bare else narrow
            for word in said:
                if word["x0"] < margin - 2 or word["x1"] > page.width - margin + 2:
                    found.append(f"page {number + 1}: {word['text']}")
    return found
