"""Step cards, four on a sheet, and labels for stacks of cut patches."""

import io

import corpus
import pdfplumber
import pytest
from source_helpers import PATTERNS

from booklet.kit.records import replace
from booklet.kit.words import words_of
from booklet.pages.composing import compose
from booklet.pages.pictures.album import drawn
from booklet.pages.pictures.figures import CARDS, LARGE
from booklet.pages.prepress.pdf import make_pdf
from booklet.pages.style.fonts import boxed
from booklet.pages.style.paper import sheet_of
from booklet.pages.texts.words import Words
from booklet.pages.views.step_cards import StackLabel, stack_labels, step_sheets
from booklet.pattern import Paper

MM = 72 / 25.4


def plan_of(name):
    return corpus.plan_of(PATTERNS / name)


def cards(name, paper, page="step-cards"):
    """The print page of an edition of step cards, and its words page by page with their places."""
    plan = plan_of(name)
    edition = plan.pattern.booklet.editions[0]
    own = replace(edition, pages=(replace(edition.pages[0], name=page),))
    html = compose(plan, own, paper=paper, sizes=(plan.sizes[0].size.id,)).html
    made = make_pdf(boxed(html))
    assert made.complaints == ()
    with pdfplumber.open(io.BytesIO(made.data)) as opened:
        return plan.sizes[0], [(page.extract_words(), page.images) for page in opened.pages]


@pytest.mark.parametrize("paper", [Paper.A4, Paper.LETTER, Paper.A5])
def test_each_step_stands_whole_within_a_quarter_of_the_sheet(paper):
    # five steps: four cards and one; on A5 a card is the page
    size, pages = cards("wheel_by_hand", paper)
    sheet, across = sheet_of(paper), 1 if paper is Paper.A5 else 2
    wide, tall = sheet.width / across, sheet.height / across
    shown = []
    for words, _ in pages:
        if not any(word["text"] == "Make" for word in words):
            continue
        for word in words:  # clear of the cut on each side by 5 mm
            left, top = word["x0"] % wide, word["top"] % tall
            assert left > 5 * MM and left + word["x1"] - word["x0"] < wide - 5 * MM, word["text"]
            assert top > 5 * MM and top + word["bottom"] - word["top"] < tall - 5 * MM, word["text"]
        shown.append(sum(word["text"] == "Make" for word in words))
    assert shown == ([4, 1] if across == 2 else [1] * 5)
    (block,) = size.blocks
    assert len(block.cards) == 5


def test_what_is_too_long_for_a_card_goes_on_on_another():
    plan = plan_of("wheel_by_hand")
    size = plan.sizes[0]
    (block,) = size.blocks
    words = Words(words_of(plan.pattern.tongue))
    long = replace(
        block.cards[0], sentences=("Sew on, and on, and on, for all of a long line. " * 4,) * 12
    )
    longer = replace(size, blocks=(replace(block, cards=(long,)),))
    ((first, second, *_),) = step_sheets(
        longer, drawn(plan)(size, LARGE), words, sheet_of(Paper.A4)
    )
    assert (first.begins, first.ends, second.begins) == (True, False, False)
    assert first.picture is not None and first.tall > 20 and second.picture is None
    faces = [
        face
        for sheet in step_sheets(longer, drawn(plan)(size, LARGE), words, sheet_of(Paper.A4))
        for face in sheet
    ]
    assert sum(len(face.lines) for face in faces) == 1 + 12 + len(long.press) + len(
        long.warnings
    ) + bool(long.measure)
    assert faces[-1].ends


def test_pictures_are_drawn_for_the_card_and_not_made_small():
    # a quarter of A4 less 24 points on each side: 297.6 - 48 = 249.6 points, 88 mm
    plan = plan_of("wheel_by_hand")
    size = plan.sizes[0]
    words = Words(words_of(plan.pattern.tongue))
    for sheet in step_sheets(size, drawn(plan)(size, CARDS), words, sheet_of(Paper.A4)):
        for face in sheet:
            assert face.picture is not None and face.picture.width_mm <= 88.0
            assert face.wide == pytest.approx(face.picture.width_mm, abs=0.5)


def labels(name) -> dict[tuple[str, str], StackLabel]:
    plan = plan_of(name)
    made = stack_labels(plan.sizes[0], Words(words_of(plan.pattern.tongue)))
    return {(one.letter or str(one.title), one.fabric.id): one for one in made}


def test_a_label_tells_letter_cloth_count_and_size():
    # four patch, 4 x 4 blocks of two squares of each cloth: 16 * 2 = 32; 2 + 2 * 1/4 = 2 1/2 in
    found = labels("four_patch")
    for cloth in ("ink", "sand"):
        one = found["A", cloth]
        assert (one.pieces, one.reversed) == (32, 0)
        assert [figure.striptags() for figure in one.figures] == ["cut 2½ in × 2½ in"]


def test_triangles_tell_from_which_squares_they_are_cut():
    # pinwheel: half-square triangles, cut from squares finished + 7/8 in (common practice)
    texts = [f.striptags() for one in labels("pinwheel").values() for f in one.figures]
    assert any(text.startswith("from ") and text.endswith(", cut again") for text in texts), texts


def test_labels_stand_two_across_and_are_not_torn():
    _, pages = cards("four_patch", Paper.A4, "patch-labels")
    words = [word["text"] for page, _ in pages for word in page]
    assert words.count("pieces,") + words.count("pieces.") >= 2
