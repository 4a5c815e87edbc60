"""Pictures of the author's on the cover, in texts and with steps; tips; the imprint and its faults."""

from pathlib import Path

import pytest

from booklet.facts import facts
from booklet.pages.composing import compose
from booklet.pages.texts.front import whole_hours
from booklet.pattern import Paper
from booklet.plan import make_plan
from booklet.recipe.compiler import check
from booklet.source.drawings.drawn_picture import shown
from booklet.source.faults import Faults

HERE = Path(__file__).parent / "patterns" / "photographs"
WORDS = "Two hands lay sea on chalk with the long edges level."


@pytest.fixture(scope="module")
def plan():
    return make_plan(check(HERE).value)


@pytest.fixture(scope="module")
def pages(plan):
    edition = plan.pattern.booklet.editions[0]
    return {paper: compose(plan, edition, paper=paper).html for paper in (None, Paper.A4)}


@pytest.mark.parametrize("paper", [None, Paper.A4])
def test_every_picture_is_shown_with_its_words(pages, paper):
    page = pages[paper]
    cover = page[page.index('class="cover-photo"') :]
    assert cover.index('alt="The mat on a table by a window."') < 30_000
    assert f'alt="{WORDS}"' in page and "data:image/svg+xml;base64," in page
    assert '<div class="own-tip" role="note"><p class="own-tip-head">Tip</p>' in page
    assert '<div class="own-caution" role="note"><p class="own-caution-head">Take care</p>' in page


@pytest.mark.parametrize("paper", [None, Paper.A4])
def test_the_imprint_stands_on_its_pages(pages, paper):
    page = pages[paper]
    assert "ISBN 978-0-306-40615-7" in page and "Bar code of the ISBN" in page
    assert '<a href="https://example.org/ferry-flags">https://example.org/ferry-flags</a>' in page
    assert '<a href="mailto:hello@example.org">hello@example.org</a>' in page


def test_a_drawing_leaves_behind_what_its_program_wrote(plan):
    drawn = plan.pattern.pictures["photos/hands.svg"]
    assert b"someone" not in drawn and b"metadata" not in drawn and drawn.count(b"<path") == 2


def test_the_cover_says_hours_begun(plan):
    size = plan.sizes[0]
    minutes = sum(s.minutes * (s.last - s.first + 1) for s in size.sittings)
    assert 60 * (whole_hours(size) - 1) < minutes <= 60 * whole_hours(size)


FAULTS = {
    "isbn: 978-0-306-40615-7|isbn: 0306406152": ["wrong-isbn", "9780306406157"],
    "isbn: 978-0-306-40615-7|isbn: 0306406153": ["wrong-isbn", "compare it"],
    "isbn: 978-0-306-40615-7|isbn: 12345": ["wrong-isbn", "all 13 digits"],
    '"https://example.org/f|"http://example.org/f': ["unsafe-link", "https://example.org/f"],
    '"https://example.org/f|"javascript:alert(1)//f': ["unsafe-link", "a mail address"],
    "picture: photos/hands.svg, |": ["missing-key", "add `picture:`"],
    ", picture text: Two hands lay sea on chalk with the long edges level.|": [
        "missing-key",
        "add `picture text:`",
    ],
    "photos/hands.svg|photos/none.svg": ["unreadable-source", "check the name"],
    "difficulty: beginner|difficulty: begginer": ["wrong-kind", "beginner"],
    "{name: Sea|{picture: photos/hands.svg, name: Sea": ["not-yet", "PNG or JPEG"],
}


@pytest.mark.parametrize("change", FAULTS)
def test_a_fault_is_told_with_its_place_and_a_way_out(tmp_path, change):
    import shutil

    shutil.copytree(HERE, tmp_path / "p")
    before, after = change.split("|")
    source = tmp_path / "p" / "pattern.yaml"
    text = source.read_text("utf-8")
    assert before in text
    source.write_text(text.replace(before, after), "utf-8")
    found = check(tmp_path / "p").diagnostics
    code, hint = FAULTS[change]
    assert [each.code for each in found] == [code]
    assert hint in (found[0].hint or "") and found[0].span.line > 1


def test_facts_tell_a_shop_what_is_published(plan):
    told = facts(plan)["published"]
    assert (told["isbn"], told["price"], told["difficulty"]) == (
        "9780306406157",
        "12 €",
        "beginner",
    )
    assert told["skills"] == ["a scant quarter inch"]
    assert told["contact"] == ["https://example.org/ferry-flags", "mailto:hello@example.org"]


def test_what_a_link_in_a_drawing_holds_is_drawn():
    text = (
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><a href="https://example.org/" target="_blank" '
        'fill="red"><path d="M0 0h9"/></a><text>To <a href="https://example.org/">here</a></text></svg>'
    )
    faults = Faults()
    drawn = shown(text, "x.svg", faults)
    assert not faults.all()
    assert '<g fill="red"><path d="M0 0h9"></path></g>' in drawn
    assert "<text>To <tspan>here</tspan></text>" in drawn and "example.org" not in drawn
