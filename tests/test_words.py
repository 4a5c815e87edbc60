"""Languages: phrases, the catalogues, and that no word of a booklet goes past them."""

from __future__ import annotations

import base64
import gettext
import html
import itertools
import math
import pickle
import re
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from pathlib import Path

import catalogues
import corpus
import pytest
from hypothesis import given, strategies as st

from booklet.drawing.lettering.text_widths import text_width
from booklet.drawing.scene import Figure
from booklet.kit import words
from booklet.kit.measure import POINT_MM
from booklet.kit.records import replace
from booklet.kit.words import (
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
from booklet.pages.composing import compose
from booklet.pages.pictures.album import drawn
from booklet.pages.pictures.figures import LARGE, SMALL
from booklet.pages.prepress import pdf
from booklet.pattern import Paper
from booklet.plan.words import KNOWN_WORDS, numbered, one as one_of, several, spoken, the

HERE = Path(__file__).parent
PATTERNS = ("three_sizes", "market_day", "units_together")
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
    assert (
        say(phrase("Copy this page and try your own colors."))
        == "Copy this page and try your own colours."
    )
    assert say(phrase("By hand")) == "By hand"


def test_french_signs_keep_to_their_line():
    say = words_of("fr").say
    assert "\u00a0:" in say(phrase("Cutting {fabric}", fabric="X"))
    assert "«\u202fajuster à la page\u202f»" in say(
        phrase("Print at 100 percent, not “fit to page”.")
    )


# Catalogues


@pytest.fixture(scope="module")
def template():
    return catalogues.template()


@pytest.mark.parametrize("locale", catalogues.LOCALES)
def test_a_catalogue_is_up_to_date(locale, template):
    now = (catalogues.WORDS / f"{locale}.po").read_bytes()
    new = catalogues.written(catalogues.updated(locale, template), locale)
    is_up_to_date = now == new  # for pytest minutes pass until it has told 6,000 lines apart
    assert is_up_to_date, "run: python tests/catalogues.py"


@pytest.mark.parametrize("locale", ["fr", "fr_familiar"])
def test_french_has_one_apostrophe(locale):
    """The raised comma of print in every sentence, and no quotation marks but « » (common typographic practice)."""
    for message in catalogues.read(locale):
        strings = message.string if isinstance(message.string, tuple) else (message.string,)
        for said in strings if message.id else ():
            assert not re.search(r"""['"“”‘]""", said), f"run: python tests/catalogues.py ({said})"


@pytest.mark.parametrize("language", catalogues.FAMILIAR)
def test_who_is_addressed_can_be_addressed_as_a_friend(language):
    now = (catalogues.WORDS / f"{language}_familiar.po").read_bytes()
    friendly = catalogues.familiar(language)
    assert now == catalogues.written(friendly, f"{language}_familiar"), (
        "run: python tests/catalogues.py"
    )
    told = [(m.id, m.string) for m in friendly if m.id]
    assert told
    for message, said in told:
        assert said and not catalogues.FAMILIAR[language].search(said), f"{message!r}: {said!r}"
        assert names(said) == names(message)


def test_a_friend_is_addressed_otherwise_and_all_else_is_said_alike():
    mine = phrase("What you will make", context="page")
    assert words_of("de").say(mine) == "Was Sie nähen"
    assert words_of("de-x-familiar").say(mine) == "Was du nähst"
    assert words_of("fr").say(mine) == "Ce que vous allez faire"
    assert words_of("fr-x-familiar").say(mine) == "Ce que tu vas faire"
    assert words_of("en-x-familiar").say(mine) == "What you will make"  # English has one you
    assert words_of("de-x-familiar").say(phrase("By hand")) == "Von Hand"
    assert words_of("de-x-familiar").language == "de"  # of `lang` in pages


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
    found += [*pattern.templates.values(), *pattern.booklet.look.titles.values()]
    found += [size.title for size in pattern.sizes] + [block.title for block in pattern.blocks]
    found += [cloth.name for size in pattern.sizes for cloth in size.fabrics.values()]
    steps = [step for size in plan.sizes for block in size.blocks for step in block.assembly.steps]
    found += [step.make for step in steps] + [step.note or "" for step in steps]
    found += [edition.id for edition in pattern.booklet.editions]
    found += [name for edition in pattern.booklet.editions for name in edition.names]
    lesson = pattern.booklet.lesson
    found += [*lesson.homework, *(each.title for each in lesson.sessions)]
    found += [task for each in lesson.sessions for task in each.do]
    found += pattern.booklet.look.titles.values()
    found.append("x mm min pt abcd")  # what stands in a sum; the strips of a set
    return {word.casefold() for word in re.findall(r"[^\W\d_]+", " ".join(map(str, found)))}


def astray(page: str, own: set[str]) -> list[str]:
    """The words of a page that are neither in brackets nor the author's."""
    found = []
    for text in shown(page):
        left = re.sub(r"⟦[^⟧]*⟧", " ", text)
        for word in filter(str.isalpha, re.findall(r"[^\W\d_]+", left)):
            letter = re.fullmatch(
                r"[A-Za-z]{1,2}r?|[ivx]+", word
            )  # of a patch, a column, a strip; a small numeral
            if not letter and word.casefold() not in own and word not in FROM_BABEL:
                found.append(f"{word}: {text.strip()[:80]}")
    return found


FROM_BABEL = {"November", "and", "or"}  # dates and lists


@pytest.mark.parametrize("pattern", ("example", *PATTERNS))
def test_every_word_comes_from_a_catalogue_or_the_author(pattern, monkeypatch, example_plan):
    folder = (
        HERE.parent / "example_pattern" if pattern == "example" else HERE / "patterns" / pattern
    )
    plan = example_plan if pattern == "example" else corpus.plan_of(folder)
    speaking(monkeypatch, Bracketed())
    own = own_words(plan)
    for edition in plan.pattern.booklet.editions:
        page = compose(plan, edition, paper=None, sizes=(plan.sizes[0].size.id,)).html
        assert astray(page, own) == []


# No language runs over


LABEL = re.compile(r"<text([^>]*)>([^<]*)</text>")
ROOT = re.compile(r'viewBox="0 0 ([\d.]+) ([\d.]+)"')
TURN = re.compile(r"rotate\(([-\d.]+) ([-\d.]+) ([-\d.]+)\)")


@dataclass(frozen=True)
class Label:
    """A text of a picture: the middle of its box, its half sides, and how far it is turned."""

    text: str
    x: float
    y: float
    wide: float
    high: float
    turn: float

    def ways(self):
        """The directions along and across the line."""
        c, s = math.cos(self.turn), math.sin(self.turn)
        return (c, s), (-s, c)

    def reach(self, way) -> float:
        """Half of how much of a direction the box takes."""
        along, across = self.ways()
        return self.wide * abs(dot(along, way)) + self.high * abs(dot(across, way))

    def deep(self, other: Label) -> float:
        """How far two boxes reach into each other, in the direction in which they do least."""
        apart = (other.x - self.x, other.y - self.y)
        return min(
            self.reach(way) + other.reach(way) - abs(dot(apart, way))
            for way in (*self.ways(), *other.ways())
        )


def dot(one, other) -> float:
    return one[0] * other[0] + one[1] * other[1]


def labels(svg: str) -> list[Label]:
    """The texts of a picture, without the halos of others."""
    found = []
    for attributes, said in LABEL.findall(svg):
        look = dict(re.findall(r'([\w-]+)="([^"]*)"', attributes))
        text = html.unescape(said)
        if "aria-hidden" in look or not text.strip():
            continue
        size = float(look["font-size"])
        wide = text_width(text, size / POINT_MM)
        x, y = float(look["x"]), float(look["y"]) - size * 0.35
        x += {"middle": 0.0, "end": -wide / 2}.get(look.get("text-anchor", "start"), wide / 2)
        turned = TURN.search(look.get("transform", ""))
        if turned:
            degrees, about_x, about_y = map(float, turned.groups())
            turn = math.radians(degrees)
            c, s = math.cos(turn), math.sin(turn)
            x, y = x - about_x, y - about_y
            x, y = about_x + c * x - s * y, about_y + s * x + c * y
        found.append(Label(text, x, y, wide / 2, size * 0.35, turn if turned else 0.0))
    return found


def over(figure: Figure) -> list[str]:
    """The texts of a picture that stick out of it, or lie on each other."""
    across, down = (float(side) for side in ROOT.search(figure.svg).groups())
    texts, found = labels(figure.svg), []
    for one in texts:
        wide, high = one.reach((1.0, 0.0)), one.reach((0.0, 1.0))
        if one.x - wide < -0.6 or one.x + wide > across + 0.6:
            found.append(f"{one.text} beside the picture")
        if one.y - high < -0.6 or one.y + high > down + 0.6:
            found.append(f"{one.text} above or below the picture")
    for one, other in itertools.combinations(texts, 2):
        if one.deep(other) > 0.5:
            found.append(f"{one.text} on {other.text}")
    return [f"{figure.name}: {text}" for text in found]


def test_turned_labels_are_seen():
    # 20 mm of text at 90 degrees about its start reaches 20 mm down and half its height to a side
    svg = (
        '<svg viewBox="0 0 10 40"><text x="5" y="5" font-size="4" transform="rotate(90 5 5)">{}</text>'
        '<text x="4" y="9" font-size="4">o</text></svg>'
    )
    one, other = labels(svg.format("long word"))
    assert one.reach((0.0, 1.0)) == pytest.approx(one.wide)
    assert one.y == pytest.approx(5 + one.wide)
    assert one.deep(other) > 0.5


def pictures(plan) -> list[Figure]:
    """The pictures of the first size of a plan on small and on large pages."""
    found = []
    for room in (LARGE, SMALL):
        album = drawn(plan)(plan.sizes[0], room)
        found += [
            figure
            for name in album.single() | album.cards()
            if (figure := album.figure(name)) is not None
        ]
        rows = [name for name in album.rows if name.split()[0] != "templates" or "a5" in name]
        found += [figure for name in rows for figure in album.series(name)]
    return found


# British words are hardly longer than American
SOME = ("de", "fr", pytest.param("en-GB", marks=pytest.mark.everything), "longer")


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
    return {
        name: corpus.plan_of(HERE / "patterns" / name) for name in ("log_cabin", "quarter_round")
    }


@pytest.mark.parametrize("language", SOME)
def test_no_word_of_a_picture_runs_over(language, monkeypatch, example_plan, small_plans):
    faults = []
    for plan in (example_plan, *small_plans.values()):
        for figure in pictures(told_in(plan, language, monkeypatch)):
            faults += over(figure)
    assert faults == []


@pytest.mark.parametrize("language", [name for name in SOME if name != "de"])  # the example is
def test_no_word_of_a_page_runs_over(language, monkeypatch, small_plans):
    told = told_in(small_plans["log_cabin"], language, monkeypatch)
    assert run_over(told, Paper.A5) == []


def test_the_example_does_not_run_over_in_german(example_plan, monkeypatch):
    assert run_over(told_in(example_plan, "de", monkeypatch), Paper.A5) == []


def run_over(plan, paper: Paper) -> list[str]:
    """The lines of a printed pattern that stick out of their page or their table cell."""
    edition, size = plan.pattern.booklet.editions[0], plan.sizes[0].size.id
    return sticking_out(compose(plan, edition, paper=paper, sizes=(size,)).html)


def sticking_out(page: str) -> list[str]:
    """The lines of a printed page that stick out of it or of their table cell."""
    setter, only_data, faces, fonts, _ = pdf._maker()
    laid = setter(string=page, url_fetcher=only_data(), media_type="print").render(
        font_config=fonts, stylesheets=[faces]
    )
    found = []
    for number, one in enumerate(laid.pages, 1):
        whole = one._page_box
        for text, left, right, cell in lines_of(whole, None):
            first, last = (whole.content_box_x(), whole.content_box_x() + whole.width)
            if cell is not None:
                first, last = cell.position_x, cell.position_x + cell.margin_width()
            if left < first - SLACK or right > last + SLACK:
                found.append(f"page {number}: {text}")
    return found


SLACK = 2.5  # px: a letter may lean out of its line


def lines_of(box, cell):
    """The texts below a box: what each says, from where to where, and the cell it stands in."""
    if type(box).__name__ == "TableCellBox":
        cell = box
    if hasattr(box, "text"):
        yield box.text, box.position_x, box.position_x + box.width, cell
    for child in getattr(box, "children", ()):
        if type(child).__name__ != "MarginBox":
            yield from lines_of(child, cell)


def test_a_word_too_long_for_its_cell_is_seen():
    cells = '<td style="width: 8mm">Zwischenstreifen<td>x'
    page = f'<table style="table-layout: fixed; width: 60mm"><tr>{cells}</table>'
    assert sticking_out(page) == ["page 1: Zwischenstreifen"]
    assert sticking_out(page.replace("8mm", "50mm")) == []


HALF, QUARTER, CORNER = (KNOWN_WORDS[word] for word in ("half", "quarter", "corner"))


def test_french_words_run_into_what_follows():
    """`de` and `à` contract with an article of ours, and elide before a vowel; a patch letter stands as it is."""
    say = words_of("fr").say
    sew = "Sew {part} to {other}"
    assert say(phrase(sew, part=the(HALF), other=the(CORNER))) == "Coudre la moitié à l’angle"
    assert say(phrase(sew, part=the(HALF), other=the(QUARTER))) == "Coudre la moitié au quart"
    assert say(phrase(sew, part="A", other=one_of(HALF))) == "Coudre A à une moitié"
    of_it = "{part} lies above {other}."
    assert say(phrase(of_it, part="A", other=the(QUARTER))) == "A se trouve au-dessus du quart."
    assert say(phrase(of_it, part="A", other="E")) == "A se trouve au-dessus de E."
    assert say(phrase(of_it, part="A", other="Étoile")) == "A se trouve au-dessus d’Étoile."
    assert say(phrase(of_it, part="A", other="Lampe")) == "A se trouve au-dessus de Lampe."
    assert say(phrase(of_it, part="A", other="Le phare")) == "A se trouve au-dessus de Le phare."
    assert say(several(2, HALF, step=3)) == "2 moitiés (étape 3)"
    assert words_of("en").say(phrase(sew, part=the(HALF), other=one_of(CORNER))) == (
        "Sew the half to a corner"
    )


def test_a_french_unit_with_a_number_has_its_article():
    """ "Coudre A à chaque bout de la rangée 1", "coucher vers l’unité 2": French names nothing without its article (grammar)."""
    fr, de = words_of("fr").say, words_of("de").say
    row, unit = spoken("row1", alike=False), spoken("unit2", alike=False)
    assert fr(row) == "rangée 1"  # under its picture
    either = phrase("Sew {part} to either end of {other}", part="A", other=numbered(row))
    assert fr(either) == "Coudre A à chaque bout de la rangée 1"
    assert de(either) == "A beidseits an Reihe 1 nähen"
    assert fr(phrase("Press toward {part}.", part=numbered(unit))) == "Coucher vers l’unité 2."
    assert str(numbered(row)) == "row 1"
    assert numbered("Aile 1") == "Aile 1"  # the author's name stands as it is


def test_a_name_of_the_author_takes_no_article_of_ours():
    """ "part" is a word of French as well."""
    assert words_of("fr").say(the("part")) == "part"
    assert words_of("fr").say(the(KNOWN_WORDS["part"])) == "la partie"
