"""How pages fill: templates under their introduction, steps told by others, versions at one scale, shapes to practise."""

import io
import re

import corpus
import pages_sample as sample
import pypdf
import pytest
from source_helpers import PATTERNS

from booklet.drawing.cloths.cutting_order import is_short
from booklet.drawing.ink.fills import looks_of
from booklet.drawing.pressed.pressed_block import pressing_figure, second_figure
from booklet.drawing.quilts.quilt import layout_figure
from booklet.drawing.scene import Area
from booklet.drawing.templates.practice import practice_figure
from booklet.drawing.templates.template_pages import template_figures, template_sheets
from booklet.kit.outlines.plane import box_of, overlap
from booklet.kit.words import words_of
from booklet.pages.composing import compose
from booklet.pages.pictures.album import card_sizes, drawn
from booklet.pages.pictures.figures import LARGE, SMALL
from booklet.pages.prepress.pdf import make_pdf
from booklet.pages.style.fonts import boxed
from booklet.pages.style.paper import sheet_of
from booklet.pages.views.cards import as_before
from booklet.pages.views.route_rows import route_rows
from booklet.pattern import Paper


@pytest.fixture
def cushion(example_plan):
    return next(size for size in example_plan.sizes if size.size.id == "cushion")


def test_few_templates_stand_in_the_text(cushion):
    sheet = sheet_of(Paper.A4)
    wide, high = sheet.under_words_mm
    (figure,) = template_figures(cushion, *sheet.template_area_mm, sheet.under_words_mm)
    assert figure.true_size and figure.width_mm == wide and figure.height_mm <= high
    # without that room, a page of their own
    (page,) = template_figures(cushion, *sheet.template_area_mm)
    assert (page.width_mm, page.height_mm) == pytest.approx(sheet.template_area_mm)


def test_templates_that_need_more_have_pages_of_their_own_but_for_the_last(example_plan):
    bed = next(size for size in example_plan.sizes if size.size.id == "bed")
    sheet = sheet_of(Paper.A4)
    first, *others = template_figures(bed, *sheet.template_area_mm, sheet.under_words_mm)
    # A, B, D and E fill a page; the square C of 3 in stands under the introduction
    assert "Template C " in str(first.alt) and first.height_mm <= sheet.under_words_mm[1]
    assert {f.width_mm for f in others} == {sheet.template_area_mm[0]} and len(others) == 1
    # without that room they are as many, each on a page
    pages = template_figures(bed, *sheet.template_area_mm)
    assert len(pages) == 2 and {f.width_mm for f in pages} == {sheet.template_area_mm[0]}


def test_small_pages_have_no_room_for_templates_in_the_text():
    assert sheet_of(Paper.A5).under_words_mm is None


def test_a_turned_step_is_told_by_the_one_before(cushion):
    # row 3 is row 1 turned by half: the same patches, the same words
    (block,) = cushion.blocks
    told = {card.n: as_before(block, card) for card in block.cards}
    assert told.pop(4) == "As step 3, turned: the picture shows how it lies."
    assert set(told.values()) == {None}


def test_both_versions_have_one_scale(cushion):
    (block,) = cushion.blocks
    say = words_of("en")
    first = pressing_figure(block, 94.0, 0.25, 136.0, speaker=say)
    second = second_figure(block, 94.0, 0.25, 136.0, speaker=say)
    scales = [re.search(r"1 : [\d.]+", str(f.caption))[0] for f in (first, second)]
    assert scales[0] == scales[1]
    assert "V1" in str(first.caption) and "V2" in str(second.caption)


def test_the_layout_marks_the_second_version(cushion, example_plan):
    (block,) = cushion.blocks
    drawn = layout_figure(cushion, looks_of(example_plan), 115.0, 137.0).svg
    assert len(re.findall(r">V2<", drawn)) == len(block.pressing.versions.places) == 4


def test_every_shape_of_a_set_in_is_practised_once(cushion):
    # the pane has one inner run of 3 sides, the rows one of 5; the four panes are alike
    told = str(practice_figure(cushion, 168.0, 144.0).alt)
    assert "3: The seam of “Set E into the wing”" in told
    assert "4: The seam of “Set row 1 and row 3 into the middle”" in told
    assert "5:" not in told


ROWS = """
title: Two Rows
units: inch
sizes: {mat: {unit: 1 in, blocks: 1 x 2}}
fabrics:
  ink: {name: Ink, colour: "#243b6b"}
  sand: {name: Sand, colour: "#e9dcc3"}
patches: {square: {shape: square, side: 2}}
blocks:
  rows:
    size: 6 x 4
    pieces:
      - {id: a1, patch: square, fabric: ink, at: [1, 1]}
      - {id: a2, patch: square, fabric: sand, at: [3, 1]}
      - {id: a3, patch: square, fabric: ink, at: [5, 1]}
      - {id: b1, patch: square, fabric: sand, at: [1, 3]}
      - {id: b2, patch: square, fabric: ink, at: [3, 3]}
      - {id: b3, patch: square, fabric: sand, at: [5, 3]}
    sew:
      - {make: top, join: [a1, a2, a3], by: machine}
      - {make: bottom, join: [b1, b2, b3], by: machine}
      - {make: block, join: [top, bottom], by: machine}
"""


def test_a_step_that_lies_as_an_earlier_one_is_not_turned(tmp_path):
    # two rows of three squares, of other cloths: the second is sewn as the first, and lies as it does
    (tmp_path / "pattern.yaml").write_text(ROWS, "utf-8")
    (size,) = corpus.plan_of(tmp_path).sizes
    (block,) = size.blocks
    first, second, last = block.cards
    assert len(first.sentences) > 1
    assert [str(as_before(block, card)) for card in (first, second)] == [
        "None",
        "Sew as in step 1.",
    ]
    assert as_before(block, last) is None


def test_the_steps_of_a_block_are_drawn_at_as_few_scales_as_can_be_read(cushion):
    """A wing of 2 in must be 28 mm long (1 : 1.81 or larger), the window of 4 in with its frames has room for 1 : 2.5 at
    most: two scales at least. Alone steps 1 to 6 would have 1 : 1.5, 1.25, 3, 3, 3 and 2.5."""
    (block,) = cushion.blocks
    sizes = card_sizes(block, LARGE, speaker=words_of("en"))
    assert [scale.of for _, scale in sizes] == [1.5, 1.5, 2.5, 2.5, 2.5, 2.5]


def test_the_test_squares_stand_beside_the_lowest_templates_where_there_is_room(cushion):
    """1 in and 2 cm with 4 mm between them are 49.4 mm wide, and clear of every template; no line of the foot is kept for them."""
    sheet = sheet_of(Paper.A4)
    (laid,) = template_sheets(cushion, *sheet.template_area_mm, sheet.under_words_mm)
    left, top = laid.nook
    boxes = [box_of(item.points) for item in laid.items if isinstance(item, Area)]
    assert laid.area[1] - 1 <= top + 25.4 <= laid.area[1] + 1
    assert not any(overlap((left, top, left + 49.4, top + 25.4), box) for box in boxes)


@pytest.mark.parametrize(
    ("room", "width", "across"),
    [
        # 168 mm: three of 52.6 mm and two gaps of 5 mm are 167.8 mm; two of 81.5 mm and one gap are just 168 mm
        (LARGE, 52.6, 3), (LARGE, 60.0, 2), (LARGE, 81.5, 2), (LARGE, 84.0, 1),
        # 109.5 mm: two of 49.75 mm and a gap are 104.5 mm; a third would not fit
        (SMALL, 49.75, 2), (SMALL, 54.75, 1), (SMALL, 30.0, 2),
    ],
)  # fmt: skip
def test_as_many_routes_stand_side_by_side_as_fit(room, width, across):
    rows = route_rows([sample.fake(f"route{n}", width, 40) for n in range(6)], room)
    assert [len(row.figures) for row in rows] == [across] * (6 // across)


def test_a_table_of_many_words_does_not_stand_beside_its_picture():
    """The leaf is one line of the table, but is cut round a template, in a pair from folded cloth, as it is drawn: more words
    than have room in half a page. Squares of linen are one line and few words."""
    (size,) = corpus.plan_of(PATTERNS / "leaves_over_leaves").sizes
    short = {cloth.fabric: is_short(size, cloth) for cloth in size.cutting.fabrics}
    words = {size.fabric(id).name: is_brief for id, is_brief in short.items()}
    assert words == {"Leinen": True, "Streifen": True, "Laub": False}


def test_the_picture_of_layers_stands_under_few_words():
    # two blocks, each with a line or two about pressing: no picture of layers has a row for itself
    plan = corpus.plan_of(PATTERNS / "house_on_paper")
    edition = sample.edition("x", ("pressing",))
    html = compose(plan, edition, paper=Paper.A4).html
    words = re.findall(r'<div class="press-words">(.*?)</div>\n</div>', html, re.DOTALL)
    assert len(words) == 2 and all("<figure" in told for told in words)


def test_several_blocks_are_shown_from_the_back_in_little_room(cushion):
    """Beds: seams of 2 in, a third of 6 in, are 23 mm of 70 mm. The window alone has the whole room; a seam of 1 in in 16 in
    would be 4 mm of 70 mm, and is not shown smaller."""
    (wall,) = corpus.plan_of(PATTERNS / "sampler_six").sizes
    beds = next(block for block in wall.blocks if block.block.title == "Beds")
    figure = pressing_figure(beds, 70.0, 0.25, 140.0, speaker=words_of("en"))
    album = drawn(corpus.plan_of(PATTERNS / "sampler_six"))(wall, LARGE)
    assert album.figure(f"press {beds.block.id}").width_mm == figure.width_mm <= 70.0
    window = drawn(corpus.plan_of(corpus.EXAMPLE))(cushion, LARGE).figure("press window")
    assert 70.0 < window.width_mm <= 94.0


@pytest.mark.parametrize("paper", [Paper.A4, Paper.LETTER])
def test_a_table_of_pressing_stands_with_its_picture_where_both_have_room(paper):
    """Eleven lines under a panel of 10 in by 14 in: as high as it was drawn alone (137 mm) it filled the page."""
    plan = corpus.plan_of(PATTERNS / "cubes_in_frame")
    (block,) = plan.sizes[0].blocks
    page = compose(plan, sample.edition("x", ("before", "pressing")), paper=paper)
    pdf = pypdf.PdfReader(io.BytesIO(make_pdf(boxed(page.html)).data))
    assert len(block.press_table) > 10
    (text,) = (t for page in pdf.pages if "A curved arrow" in (t := page.extract_text()))
    assert text.count(" iron") + text.count("finger-press") >= len(block.press_table)


def test_frames_in_several_rows_leave_room_for_the_words_of_their_step(cushion):
    """On A5 the last step of the window stood in two rows at 1 : 4, and its last line on another page. What it takes is read
    from the PDF: nothing of the card comes on a second page."""
    (block,) = cushion.blocks
    plan = corpus.plan_of(corpus.EXAMPLE)
    page = compose(plan, sample.edition("x", ("piecing",)), None, Paper.A5, ("cushion",))
    pdf = pypdf.PdfReader(io.BytesIO(make_pdf(boxed(page.html)).data))
    titled = [text for p in pdf.pages if block.cards[-1].title in (text := p.extract_text())]
    assert len(titled) == 1 and "Trim it to" in titled[0] and "Make 1" in titled[0]


@pytest.mark.parametrize(
    ("pattern", "last", "before"),
    [
        ("all_scraps", "Chain 6, step 6", "Chain 5, step 5"),
        ("irish_chain", "4 blocks where they meet", "Where they meet others"),
    ],
)
def test_the_last_picture_of_a_row_has_no_page_to_itself(pattern, last, before):
    """The sixth chain, and the picture of the joins whose table says what is pressed, were all there was on a page of A4."""
    plan = corpus.plan_of(PATTERNS / pattern)
    page = compose(plan, plan.pattern.booklet.editions[0], paper=Paper.A4)
    pdf = pypdf.PdfReader(io.BytesIO(make_pdf(boxed(page.html)).data))
    (text,) = (t for page in pdf.pages if last in (t := page.extract_text()))
    assert before in text
