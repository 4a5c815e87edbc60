"""Blocks of the trade by another hand, reckoned by hand: what is pressed when two versions lock, what lies at a tee, how large a turned shape is."""

import math

from booklet.drawing.templates.template_lines import template_lines
from booklet.plan.pressed.pressing_words import pressing_summary
from booklet.pressing.pressing import JunctionKind
from tests import corpus

OTHER_WAY = "For 2 blocks, version V2, press the other way."


def only(name):
    """The one size and the one block of a pattern."""
    (folder,) = (folder for folder in corpus.FOLDERS if folder.name == name)
    (size,) = corpus.plan_of(folder).sizes
    (block,) = size.blocks
    return size, block


def test_a_card_tells_how_the_second_version_is_pressed():
    """2 x 2 moons lock if every second is pressed the other way round: what a card presses as sewn, it has to say for both."""
    _, block = only("moon")
    versions = block.pressing.versions
    assert versions is not None and versions.opposite and (versions.first, versions.count) == (2, 2)
    assert [str(card.press[-1]) for card in block.cards] == [OTHER_WAY] * 4


def test_a_seam_left_half_sewn_is_pressed_when_it_is_closed():
    """Four rectangles of 12 x 4 cm round a square of 8 cm: the first seam is pressed with the last, toward the dark stripe."""
    _, block = only("turning_frame")
    assert block.cards[0].press == ()
    assert [str(said) for said in block.cards[-1].press] == ["Press toward A (stripe), the darker side."]


def test_at_a_tee_nothing_locks():
    """No two seams cross in a square with four rectangles round it: each of its four points is a tee, where one seam ends on
    another. Nothing is told to lock (common practice: allowances lock where two seams cross)."""
    _, block = only("turning_frame")
    assert {j.kind for j in block.pressing.junctions} == {JunctionKind.FREE}
    assert list(pressing_summary(block.pressing)) == []


def test_the_size_of_a_turned_shape_is_its_own():
    """The leaf is two curves with ends 2 u apart, 3 x 0.8 x t (1 - t) u to either side: 0.6 u in the middle. So 1.2 x 2 in, which
    is 1 3/16 in by the nearest 1/16 in, however it lies; turned by 20 degrees its box would be 1.88 in high."""
    size, _ = only("wreath")
    (leaf,) = (patch for patch in size.cutting.patches if patch.title == "C leaf")
    assert "finished 1 3/16 in × 2 in over all" in map(str, template_lines(size, [leaf], False, 0))
    assert math.isclose(2 * 0.8 * 3 * 0.25, 1.2)


def test_a_bias_strip_is_as_long_as_its_line():
    """A ring of 3.5 in radius that stops 0.1 in short: 7 pi - 0.1 = 21.89 in, and 1/4 in more at either end, 22.39 in. Cut at 45
    degrees 3/4 in wide it takes (22.39 + 0.75) / sqrt 2 = 16.36 in of cloth, 16 3/8 in by the ruler."""
    size, _ = only("wreath")
    (stem,) = (patch for patch in size.cutting.patches if patch.title == "D stem")
    assert math.isclose(7 * math.pi - 0.1 + 0.5, 22.39, abs_tol=0.005)
    assert stem.sum.endswith("line 21.89 + 2 × 1/4 = 22.39; (22.39 + 3/4) ÷ √2 = 16 3/8")
