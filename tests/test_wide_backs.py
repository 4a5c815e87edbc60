"""The cloth of a back with all that is cut from it, each amount with its sum."""

from __future__ import annotations

import pytest
from corpus import plan_of
from source_helpers import PATTERNS
from test_whole_quilts import plain

from booklet.drawing.ink.fills import looks_of
from booklet.drawing.quilts.back import backing_figure
from booklet.pages.tables.joining import backing_words
from booklet.pages.texts.words import Words

NAME = "wide_backs"


@pytest.fixture(scope="module")
def sizes():
    return {size.size.id: size for size in plan_of(PATTERNS / NAME).sizes}


def cloth_of(size):
    (cloth,) = (cloth for cloth in size.cutting.fabrics if cloth.fabric == "sheet")
    uses = [{use.name: use.pieces for use in strip.uses} for strip in cloth.strips]
    return float(cloth.length), cloth.buy.yards_text, uses


def test_what_a_back_lacks_comes_from_strips_across_its_cloth(sizes):
    """9 x 12 = 108 in square, the back 116; of cloth 108 in wide it lacks 116 - 107 1/2 = 8 1/2. Two strips, joined
    108 + 8 1/2 - 1/2 = 116. Binding 4 x 108 + 10 = 442 in: 5 x 108 - 4 x 2 1/4 = 531, 4 would be 425 1/4.
    116 + 2 x 8 1/2 + 5 x 2 1/4 + 1/2 = 144 3/4 in; a second length would be 116."""
    length, buy, uses = cloth_of(sizes["king"])
    assert (length, buy) == (144.75, "4 1/8")
    assert uses[:2] == [{"backing": 1}, {"backing last width": 1}]
    join, (made,) = sizes["king"].cutting.joined("backing last width")
    assert [float(s) for s in made.stretches] == [108, 8.5] and float(join.width) == 8.5


def test_borders_and_binding_lie_beside_the_last_width(sizes):
    """7 x 12 + 6 = 90 in square, the back 98 from cloth 42 in wide: of the third width 98 - 2 x 41 1/2 = 15 in. Beside it
    27 in: four border strips of 3 1/2 in, up to 90 1/2 long, and four of the binding, 2 1/2 in: 14 + 10 = 24.
    370 in of binding: 4 x 98 - 3 x 2 1/2 = 384 1/2. So 3 x 98 + 1/2 in."""
    length, buy, uses = cloth_of(sizes["queen"])
    assert (length, buy) == (294.5, "8 1/4")
    assert uses[1] == {
        "backing last width": 1,
        "border 1 top and bottom": 2,
        "border 1 sides": 2,
        "binding": 4,
    }


def test_a_print_with_an_up_keeps_its_panels_upright(sizes):
    """60 x 84 in, the back 68 x 92 of a print with an up, 60 in wide: two lengths of 92, the second 68 - 59 1/2 = 8 1/2
    wide; no strips across, where the print would lie on its side. Binding 298 in beside it: 4 x 92 - 3 x 2 1/4 = 361 1/4."""
    length, buy, uses = cloth_of(sizes["twin"])
    assert (length, buy) == (184.5, "5 1/8")
    assert uses == [{"backing": 1}, {"backing last width": 1, "binding": 4}]


def test_the_finishing_page_tells_of_the_joined_panel(sizes):
    king = sizes["king"]
    said = plain(backing_words(king, Words.of("en")))
    assert "cut 1 length of cloth, 116 in long" in said
    assert "1 for the last panel: 108 + 8½ − ½ for the join = 116 in" in said
    assert "Join all along their long sides" in said
    caption = backing_figure(king, looks_of(plan_of(PATTERNS / NAME))).caption
    assert str(caption).startswith(
        "The back: 2 panels, 1 seam, lengthwise, and 1 join in the last panel."
    )
