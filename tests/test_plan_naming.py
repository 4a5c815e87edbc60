"""What units are called: by their titles, by usual words, else by their step; short names are never said."""

from pathlib import Path

import corpus
import pytest

from booklet.kit.words import worded, words_of
from booklet.plan.words import UNIT_WORDS, several, spoken
from booklet.recipe import compiler

PATTERNS = Path(__file__).parent / "patterns"
TEXT = (PATTERNS / "titled_steps" / "pattern.yaml").read_text("utf-8")


@pytest.fixture
def cards(tmp_path):
    """The cards of the block, in a language, with parts of the pattern replaced."""

    def run(language="en", *changes):
        text = TEXT.replace("language: de", f"language: {language}")
        for old, new in changes:
            assert old in text
            text = text.replace(old, new)
        (tmp_path / "pattern.yaml").write_text(text, "utf-8")
        checked = compiler.check(tmp_path)
        assert checked.value is not None, checked.diagnostics
        return compiler.plan(checked.value).sizes[0].blocks[0].cards

    return run


def said(cards, language="en"):
    say = words_of(language).say
    return "\n".join(
        say(text)
        for card in cards
        for text in (card.title, card.makes, *card.takes, *card.sentences, *card.press)
    )


@pytest.mark.parametrize("language", ["en", "en-GB", "de", "fr"])
def test_no_short_name_is_said(cards, language):
    words = said(cards(language), language).split()
    assert not {"u1", "u2", "u3", "u4", "u", "U1", "rad"} & set(words)


def test_a_title_is_said_in_the_language_of_the_booklet(cards):
    assert "sail" in said(cards("en")) and "Segel" not in said(cards("en"))
    assert "Segel" in said(cards("de"), "de") and "sail" not in said(cards("de"), "de")
    # French has no title and there is none for any language: the unit goes by its step
    assert "Segel" not in said(cards("fr"), "fr") and "sail" not in said(cards("fr"), "fr")


def test_a_plain_title_holds_in_every_language(cards):
    change = ("title: {en: sail, de: Segel}", "title: Voile")
    for language in ("en", "de", "fr"):
        assert "Voile" in said(cards(language, change), language)


def test_a_usual_word_is_said_in_every_language(cards):
    made = {language: [words_of(language).say(c.makes) for c in cards(language)] for language in ("en", "de", "fr")}  # fmt: skip
    assert made["en"][-3:] == ["Top half", "Bottom half", "The block"]
    assert made["de"][-3:] == ["Hälfte oben", "Hälfte unten", "Der Block"]
    assert made["fr"][-3:] == ["Moitié du haut", "Moitié du bas", "Le bloc"]


def test_a_wrong_language_of_a_title_is_told(tmp_path):
    (tmp_path / "pattern.yaml").write_text(TEXT.replace("{en: sail", "{no: sail"), "utf-8")
    faults = compiler.check(tmp_path).diagnostics
    assert {fault.code for fault in faults} == {"wrong-kind"}
    assert "one of `en`" in str(faults[0].message)


def test_words_in_a_language_of_the_same_kind():
    given = (("en", "wing"), ("de", "Flügel"))
    assert worded(given, "en-GB") == "wing" and worded(given, "de") == "Flügel"
    assert worded(given, "fr") is None and worded((("", "x"),), "fr") == "x"


@pytest.mark.parametrize(
    ("name", "alike", "words"),
    [
        ("pair1", True, "pair"),
        ("pair1", False, "pair 1"),
        ("row_2", False, "row 2"),
        ("part b", False, "part"),  # a part of another step: told apart by its step
        ("Half", True, "half"),
        ("top-row", False, "top row"),
        ("u1", True, None),
        ("nw", False, None),
        ("lantern_x", False, None),
    ],
)
def test_which_names_are_words(name, alike, words):
    assert spoken(name, alike) == words


@pytest.mark.parametrize(
    ("unit", "words"),
    [
        (UNIT_WORDS["half"], "2 halves"),
        (UNIT_WORDS["row"], "2 rows"),
        ("leaf", "2 × leaf"),
        ("body", "2 × body"),
        ("patch", "2 × patch"),
        ("goose", "2 × goose"),
        ("eight points", "2 × eight points"),
        ("wing", "2 wings"),
    ],
)
def test_only_a_plain_word_gets_an_s(unit, words):
    assert several(2, unit) == words


def test_alike_parts_are_counted_and_so_is_what_lies_beside_them():
    checked = compiler.check(PATTERNS / "log_cabin").value
    for block in compiler.plan(checked).sizes[0].blocks:
        for card in block.cards:
            figures = [part for part in card.takes if part[:1].isdigit()]
            letters = [part for part in card.takes if len(part) == 1]
            assert not (figures and letters), card.takes


ALIKE = """
title: Four
units: inch
sizes: {lap: {title: Lap, unit: 2 in, blocks: 2 x 2}}
fabrics: {ink: {name: Ink, colour: navy}, sand: {name: Sand, colour: silver}}
blocks:
  four:
    grid: [[ink, sand], [sand, ink]]
    sew:
      - {make: half1, join: [r1c1, r1c2]}
      - {make: half2, join: [r2c2, r2c1]}
      - {make: all, join: [half1, half2]}
"""


def test_where_both_parts_have_one_name_pressing_goes_by_the_arrow(tmp_path):
    (tmp_path / "pattern.yaml").write_text(ALIKE, "utf-8")
    last = compiler.plan(compiler.check(tmp_path).value).sizes[0].blocks[0].cards[-1]
    assert last.title == "Sew 2 halves together"
    assert "Press each allowance as its arrow shows." in last.press
    assert not any("toward the half" in text for text in last.press)


def test_cards_that_share_title_and_unit_are_told_apart_by_what_they_are_for():
    (size,) = corpus.plan_of(PATTERNS / "striped_leaves").sizes
    titles = [str(card.title) for card in size.blocks[0].cards]
    # two pairs of half squares whose stripes run otherwise: one for the first row, one for the last
    assert [title for title in titles if title.startswith("Sew A (Rouge) to A")] == [
        "Sew A (Rouge) to A (Crème), for step 4",
        "Sew A (Rouge) to A (Crème), for step 5",
    ]
    assert len(set(titles)) == len(titles)


@pytest.mark.parametrize("name", ["wheel", "wheel_by_hand", "wheel_of_five", "partial_by_tool"])
def test_no_card_takes_what_it_makes_itself(name):
    sizes = corpus.plan_of(PATTERNS / name).sizes
    assert any(card.step.finish for size in sizes for card in size.blocks[0].cards)
    for size in sizes:
        (block,) = size.blocks
        closing = [card for card in block.cards if card.step.finish]
        for card in closing:  # the seam is closed on what the step before has made
            assert card.takes == (f"the block (step {card.n - 1})",)
        assert not any(f"(step {card.n})" in part for card in block.cards for part in card.takes)
