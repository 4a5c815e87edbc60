"""The example as it is printed: true to size, pages well filled, nothing beyond its margins."""

import io
import re

import pages_sample as sample
import pdfplumber
import pytest
from builders import ENGLISH
from pdf_letters import letters_of

from booklet.pages.composing import compose
from booklet.pages.pictures.album import card_sizes, drawn
from booklet.pages.pictures.figures import LARGE, SMALL
from booklet.pages.prepress.pdf import make_pdf
from booklet.pages.sections import KINDS
from booklet.pages.style.cover import wall_of
from booklet.pages.style.paper import sheet_of
from booklet.pages.tables.cutlist import cut_lines, sum_lines
from booklet.pages.tables.joining import border_words
from booklet.pages.texts.words import Words
from booklet.pattern import Paper
from booklet.source.editions.edition_keys import PAGES

MM = 72 / 25.4


@pytest.fixture(scope="module")
def figures(example_plan):
    return drawn(example_plan)


@pytest.fixture(scope="module")
def throw(example_plan):
    return next(size for size in example_plan.sizes if size.size.id == "throw")


def pages_of(plan, figures, names, paper, size="throw"):
    html = compose(plan, sample.edition("pattern", names), figures, paper, (size,)).html
    made = make_pdf(html)
    assert made.complaints == ()
    return made.data


@pytest.mark.parametrize("paper", [Paper.LETTER, Paper.A4])
def test_the_drawn_test_squares_are_true_to_size(example_plan, figures, paper):
    data = pages_of(example_plan, figures, ("templates",), paper)
    with pdfplumber.open(io.BytesIO(data)) as opened:
        squares = [
            shape["width"]
            for shape in (*opened.pages[1].rects, *opened.pages[1].curves)
            if abs(shape["width"] - shape["height"]) < 0.02 and not shape["fill"]
        ]
    assert any(side == pytest.approx(72, abs=0.02) for side in squares)  # 1 in
    assert any(side == pytest.approx(20 * MM, abs=0.02) for side in squares)  # 2 cm = 56.69 pt
    # the cutting line of the 2 in squares C and D: 2 + 2 * 1/4 = 2 1/2 in = 180 pt
    assert sum(side == pytest.approx(180, abs=0.02) for side in squares) == 2


def test_pages_are_well_filled_and_keep_their_margins(example_plan, figures):
    names = ("cover", "text/welcome.md", "materials", "cutting", "piecing", "quilt", "finishing")
    sheet = sheet_of(Paper.LETTER)
    with letters_of(pages_of(example_plan, figures, names, Paper.LETTER)) as opened:
        for number, page in enumerate(opened.pages[1:], 2):
            body = [
                c
                for c in page.chars
                if sheet.top - 2 < c["top"] and c["bottom"] < sheet.height - sheet.bottom + 2
            ]
            lowest = max(c["bottom"] for c in body)
            assert lowest > sheet.top + sheet.depth / 3, f"page {number} ends at {lowest:.0f} pt"
            assert min(c["x0"] for c in page.chars) >= sheet.outer - 1
            assert max(c["x1"] for c in page.chars) <= sheet.width - sheet.outer + 1
            small = {round(c["size"], 1) for c in body if c["text"].strip() and c["size"] > 1}
            assert min(small) >= 6.9, f"page {number} has letters of {min(small)} pt"


def test_steps_are_drawn_large_enough(throw):
    for block in throw.blocks:
        widths = [width for width, _ in card_sizes(block, LARGE, speaker=ENGLISH)]
        assert len(widths) == len(block.cards)
        assert set(widths) <= set(LARGE.step_widths)
        # cards in a column come in pairs
        runs = "".join("p" if width == LARGE.column_mm else " " for width in widths).split()
        assert all(len(run) % 2 == 0 for run in runs)
        assert {w for w, _ in card_sizes(block, SMALL, speaker=ENGLISH)} == {SMALL.width_mm}


def test_a_cutting_list_gives_every_piece(example_plan):
    words = Words.of("en")
    for size in example_plan.sizes:
        for cloth in size.cutting.fabrics:
            lines = cut_lines(size, cloth, words)
            said = [
                str(item.pieces).replace("\u00a0", " ") for line in lines for item in line.gives
            ]
            for patch in size.cutting.patches:
                if patch.fabric != cloth.fabric or patch.method.word == "strip":
                    continue
                found = [
                    int(m[1]) for text in said if (m := re.fullmatch(re.escape(patch.title) + r" × (\d+)", text))
                ]  # fmt: skip
                assert sum(found) == patch.pieces, (size.size.id, cloth.fabric, patch.title)


def test_a_sum_ends_with_its_total(throw):
    for cloth in throw.cutting.fabrics:
        lines = sum_lines(cloth, Words.of("en"))
        assert lines[-1].total
        assert all(line.figure for line in lines)


def test_tables_compare_all_sizes_and_mark_the_one_that_is_printed(example_plan, figures):
    edition = sample.edition("pattern", ("sizes", "materials"))
    html = compose(example_plan, edition, figures, Paper.LETTER, ("throw",)).html
    assert all(size.size.title in html for size in example_plan.sizes)
    assert html.count("this booklet") == 2  # in the table of sizes and in the materials
    everything = compose(example_plan, edition, figures).html
    assert "this booklet" not in everything


def test_what_a_step_takes_is_counted(throw):
    takes = [card.takes for card in throw.blocks[0].cards]
    assert takes[0] == ("2 A", "1 B")  # an A at either end of B
    assert "the wing (step 1)" in takes[1]
    assert "2 wings (step 2)" in takes[2] or "row 1 (step 3)" in takes[5]


def test_an_author_may_name_every_page_there_is():
    assert {"text", *PAGES} == set(KINDS)


def test_border_strips_are_named_in_the_order_they_are_sewn(throw):
    # a top of 40 x 48 in and a butted border of 1 in: sides 48 + 1/2 first, then 40 + 2 + 1/2
    border = throw.quilt.borders[0]
    assert [float(length) for length in border.lengths] == [42.5, 42.5, 48.5, 48.5]
    said = str(border_words(throw, Words.of("en"), border).words)
    assert (
        said.index("48")
        < said.index("to the sides")
        < said.index("42")
        < said.index("to top and bottom")
    )


def test_the_quilt_on_the_cover_fills_its_wall_and_the_pile_stands_beside_it():
    # letter is 612 x 792 pt; less two margins of 42 pt, 528 pt are there across
    wall = wall_of(sheet_of(Paper.LETTER), "Glasshouse Evening", "A short line.")
    wide, tall = wall.hung(50, 50)
    assert wide == tall == pytest.approx(min(528, wall.picture_height))
    assert wall.hung(100, 50) == pytest.approx((528, 264))
    assert wall.beside(100, 50) == 0  # it fills the width
    narrow, high = wall.hung(25, 50)
    assert high == pytest.approx(wall.picture_height)
    assert narrow + wall.beside(25, 50) < 528


def test_a_title_that_just_fits_keeps_to_one_line():
    sheet = sheet_of(Paper.LETTER)
    one = wall_of(sheet, "Glasshouse Evening", "")  # 58 pt high: just inside 528 pt
    assert one.title == 58
    assert wall_of(sheet, "Glasshouse Evening and a longer word", "").top > one.top
