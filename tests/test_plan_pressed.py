"""Cards whose units are alike to sew and not alike to press: the card says how many go which way."""

from collections import Counter

import corpus
import pytest

from booklet.plan.pressed.pressed_alike import pressed_alike


def cards_of(name):
    """The cards of the first block of a pattern in the first size, with the size's plan."""
    size = corpus.plan_of(corpus.HERE / "patterns" / name).sizes[0]
    return size, size.blocks[0]


def test_one_of_three_alike_pairs_is_pressed_the_other_way_and_its_card_says_so():
    _, paw = cards_of("paw_prints")
    pairs = next(card for card in paw.cards if card.make == 3)
    toward = Counter(
        paw.tiling.piece(paw.pressing.pressed[seam].toward).fabric
        for step in pairs.steps
        for run in step.runs
        for seam in run.seams
    )
    assert toward == {"pine": 2, "snow": 1}
    assert pairs.press[0] == (
        "They are not all pressed alike: in each block press 2 toward A (pine print) for step 3; "
        "1 toward A (snow) for step 4."
    )


@pytest.mark.covering("patches", "blocks")
@pytest.mark.parametrize("folder", corpus.FOLDERS, ids=lambda folder: folder.name)
def test_what_a_card_says_of_pressing_holds_for_each_of_its_steps(folder):
    """A card that names one side is of steps that are pressed alike."""
    size = corpus.plan_of(folder).sizes[0]
    for block in size.blocks:
        for card in block.cards:
            kinds = pressed_alike(card.steps, block.pressing, size.size.fabrics)
            said = any("not all pressed alike" in line for line in card.press)
            named = any(line.startswith("Press toward") for line in card.press)
            assert not (len(kinds) > 1 and named and not said), card.title
