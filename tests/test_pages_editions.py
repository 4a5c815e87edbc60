"""Editions: the order of pages, cautions, fill, the teacher's notes, a class by name."""

import io
import re
from functools import cache
from pathlib import Path

import corpus
import pages_sample as sample
import pypdf
import pypdfium2
import pytest
from corpus import documents
from markupsafe import Markup

from booklet.kit.colour import contrast
from booklet.kit.records import replace
from booklet.pages.composing import compose
from booklet.pages.sections import entries
from booklet.pages.style.paper import sheet_of
from booklet.pages.texts.callouts import for_students, note_faults, stretches
from booklet.pages.texts.templating import template_text
from booklet.pattern import Paper

PATTERNS = Path(__file__).parent / "patterns"

# The order of pages


def test_the_pages_come_as_a_sewer_needs_them(example_plan):
    edition = example_plan.pattern.booklet.editions[0]
    assert [entry.kind.name for entry in entries(edition)] == [
        "cover", "text", "sizes", "materials", "before", "cutting", "templates", "piecing", "pressing",
        "quilt", "finishing", "glossary", "amounts", "colouring",
    ]  # fmt: skip


@cache
def words(html):
    return Markup(html).striptags()


def test_within_its_page_each_thing_has_its_place(example_html):
    html = example_html("pattern", "throw", Paper.LETTER)
    order = [
        "What you need to know", "Tools", "Test your allowance", "Stitches", "Marking", "Pressing",
        "Cut in the order listed", "Solid line: cut", "Sew the steps in order", "How to read the pictures",
        "Window block", "Make 4", "Chains", "Hand routes", "Each block is shown from the back", "Rows",
        "Borders", "Layers", "Binding", "Label", "matching point", "The lengths are added up", "Copy this page",
    ]  # fmt: skip
    body, at = html[html.index("<main>") :], 0
    for said in order:
        found = body.find(said, at)
        assert found >= 0, f"{said!r} does not follow"
        at = found


@pytest.mark.parametrize("edition", ["pattern", "handout"])
def test_each_caution_stands_once_before_its_danger(example_html, edition):
    size = "throw" if edition == "pattern" else "cushion"
    html = example_html(edition, size, Paper.A5)
    text = html[html.index("<main>") :]
    dangers = {  # the page before you start tests the allowance, where it is asked for
        "pattern": ("Cut three strips", "Sew them side by side", "Press both seams"),
        "handout": ('class="cut"', 'class="card"', 'class="card"'),
    }
    cautions = ("The rotary cutter is a blade.", "Take your foot off the pedal", "The iron burns.")
    for caution, danger in zip(cautions, dangers[edition], strict=True):
        assert text.count(caution) == 1
        assert text.index(caution) < text.index(danger)


def test_every_step_but_the_last_shows_where_it_lies(example_html):
    html = example_html("pattern", "throw", Paper.LETTER)
    assert html.count('class="card"') - html.count('class="thumb"') == 1


def test_the_glossary_holds_no_word_that_is_not_used(example_html):
    html = example_html("pattern", "throw", Paper.LETTER)
    head, _, tail = html.partition('id="glossary"')
    shown = words(head + tail[tail.index("</section>") :]).casefold()
    for word in ("matching point", "binding", "backing", "selvedge", "grain"):
        assert word in shown
    assert "cornerstone" not in tail  # the throw has no sashes


# No page nearly empty


@pytest.mark.parametrize(
    ("edition", "size", "paper"),
    [
        ("pattern", "throw", Paper.LETTER),
        ("pattern", "throw", Paper.A5),
        pytest.param("pattern", "throw", Paper.A4, marks=pytest.mark.everything),
        pytest.param("pattern", "throw", Paper.HALF_LETTER, marks=pytest.mark.everything),
        ("handout", "cushion", Paper.A5),
    ],
)
def test_no_page_is_less_than_a_third_full(example_print, edition, size, paper):
    sheet = sheet_of(paper)
    printed = pypdfium2.PdfDocument(example_print(edition, size, paper))
    for number, page in enumerate(printed, 1):
        image = page.render(scale=0.5, grayscale=True).to_numpy()
        page.close()
        top, foot = int(sheet.top / 2) - 2, int((sheet.height - sheet.bottom) / 2) + 2
        inked = (image[top:foot] < 245).any(axis=1).nonzero()[0]
        assert len(inked), f"page {number} is empty"
        # a third, less a line or two: what is read of the picture ends above its last descender
        assert inked.max() >= (foot - top) * 0.31, f"page {number} is nearly empty"
    printed.close()


@pytest.mark.parametrize(("name", "washed"), [("shrinking_cloth", True), ("nine_patch", False)])
def test_cloth_that_shrinks_is_washed_before_it_is_cut(name, washed):
    plan = corpus.plan_of(PATTERNS / name)
    for page in ("materials", "supplies"):
        html = compose(plan, sample.edition("x", (page,)), sample.figures, None).html
        said = "Wash before you cut: Denim and Linen. The amounts allow for what shrinks." in html
        assert said == washed  # the ticking does not shrink


@pytest.mark.parametrize(("name", "turns"), [("flowers_in_lattice", True), ("nine_patch", False)])
def test_blocks_whose_edges_turn_corners_are_set_in(name, turns):
    plan = corpus.plan_of(PATTERNS / name)
    html = compose(plan, sample.edition("x", ("quilt",)), sample.figures, None).html
    assert ("Their edges turn corners" in html) == turns


def test_margins_are_mirrored_and_wider_at_the_fold():
    for paper in Paper:
        sheet = sheet_of(paper)
        assert sheet.inner > sheet.outer
        assert sheet.inner >= 49.5  # 17 mm: room for a staple or three holes


# Notes for the teacher


NOTED = "# Class\n\nSew.\n\n::: teacher\nWatch the corners: heron.\n:::\n\nPress."


def with_text(text, **changes):
    plan = sample.plan()
    pattern = replace(plan.pattern, texts={"text/a.md": text}, **changes)
    return replace(
        plan, pattern=pattern, sizes=tuple(replace(s, pattern=pattern) for s in plan.sizes)
    )


def test_a_note_stands_in_the_copy_of_the_teacher_alone():
    edition = sample.edition("x", ("text/a.md",))
    for paper in (None, Paper.A4):
        student = compose(with_text(NOTED), edition, sample.figures, paper, ("lap",)).html
        assert "heron" not in student
        assert "Press." in student
        teacher = replace(edition, teacher=True)
        page = compose(with_text(NOTED), teacher, sample.figures, paper, ("lap",)).html
        assert "Watch the corners: heron." in page
        assert 'role="note"' in page
        assert page.index("Sew.") < page.index("heron") < page.index("Press.")


def test_no_byte_of_a_note_is_in_a_students_pdf(example_plan, example_html, example_print):
    notes = [
        words
        for file in example_plan.pattern.texts.values()
        for note, words in stretches(file)
        if note
    ]
    assert len(notes) == 2
    html = example_html("handout", "cushion", Paper.A5)
    data = example_print("handout", "cushion", Paper.A5)
    text = " ".join(
        " ".join(p.extract_text() for p in pypdf.PdfReader(io.BytesIO(data)).pages).split()
    )
    for note in notes:
        for sentence in note.replace("\n", " ").split(". "):
            start = " ".join(sentence.split())[:30]
            assert start not in html
            assert start not in text


@pytest.mark.parametrize(
    ("text", "codes"),
    [
        (NOTED, 0), ("::: teacher\nx", 1), (":::\n", 1), ("::: techer\nx\n:::", 1),
        ("::: teacher\n::: teacher\n:::", 1), (":::teacher\nx", 1), ("  ::: teacher\nx\n :::", 0),
    ],
)  # fmt: skip
def test_a_line_that_looks_like_a_note_is_one_or_a_fault(text, codes):
    assert len(list(note_faults("text/a.md", text))) == codes


def test_what_is_left_for_students_keeps_its_order():
    assert for_students("a\n::: teacher\nb\n:::\nc") == "a\n\nc"


# A class by name


def test_each_name_of_a_class_has_a_copy():
    edition = replace(sample.HANDOUT, names=("Ilse", "Ömer", "Ilse", "雪"))
    made = list(documents(sample.plan(), edition, (Paper.A4,), figures=sample.figures))
    names = [document.name for document in made]
    assert len(set(names)) == 5  # one web page, four copies
    assert names[1].endswith("-a4-01-ilse.pdf")
    assert names[3].endswith("-a4-03-ilse.pdf")
    assert '<b class="reader">Ilse</b>' in made[1].html
    assert '<b class="reader">Ömer</b>' in made[2].html
    assert made[1].title.endswith(", Ilse")
    assert ">Ilse</b>" not in made[0].html  # the web page has a line to write on


def test_without_names_there_is_a_line_to_write_on():
    made = list(documents(sample.plan(), sample.HANDOUT, (Paper.A4,), figures=sample.figures))
    assert len(made) == 2
    assert "name-line" in made[1].html


# Colours


def test_every_colour_of_text_can_be_read_on_every_ground():
    sheets = [template_text(name) or "" for name in ("style.css", "print.css", "screen.css")]
    named = dict(re.findall(r"(--[a-z]+): (#[0-9a-f]{6})", sheets[0]))
    text, ground = set(), {"#ffffff"}
    for name, value in re.findall(r"(?<![-\w])(color|background): ([^;}]+)", " ".join(sheets)):
        value = re.sub(r"var\((--[a-z]+)\)", lambda m: named[m[1]], value.strip())
        value = "#ffffff" if value == "#fff" else value
        if value.removesuffix(" !important") in ("inherit", "none"):
            continue
        assert re.fullmatch("#[0-9a-f]{6}", value), value
        (text if name == "color" else ground).add(value)
    assert {named["--ink"], named["--quiet"], named["--accent"]} <= text
    for colour in text:
        for behind in ground:
            assert contrast(colour, behind) >= 4.5, (colour, behind)
