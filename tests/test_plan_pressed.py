"""Cards whose units are alike to sew and not alike to press: the card says how many go which way."""

from collections import Counter

import corpus
import pytest

from booklet.kit.records import replace
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


TURNED = """\
title: Turned
sizes: {mat: {unit: 1 in, blocks: 1 x 1}}
fabrics: {ink: {colour: navy}, sand: {colour: white}}
patches: {bar: {shape: rectangle, width: 1, height: 2}}
blocks:
  pair:
    pieces:  # ink left of sand, and the same turned by 90 degrees: ink above sand
      - {id: a, patch: bar, fabric: ink, at: [0.5, 1]}
      - {id: b, patch: bar, fabric: sand, at: [1.5, 1]}
      - {id: c, patch: bar, fabric: ink, at: [3, 0.5], turn: 90}
      - {id: d, patch: bar, fabric: sand, at: [3, 1.5], turn: 90}
    sew:
      - {make: left, join: [a, b]}
      - {make: right, join: [c, d]}
      - {make: both, join: [left, right]}
quilt: {arrange: [[pair]]}
"""


@pytest.mark.parametrize(
    ("toward", "groups"),
    [
        (("a", "c"), 1),  # both to the ink
        (("b", "d"), 1),  # both to the sand
        (("a", "d"), 2),
        (("b", "c"), 2),
        ((None, None), 1),
        ((None, "c"), 2),
    ],
)
def test_a_pair_and_the_same_pair_turned_are_alike_where_both_are_pressed_to_one_cloth(
    tmp_path, toward, groups
):
    (tmp_path / "pattern.yaml").write_text(TURNED, encoding="utf-8")
    size = corpus.plan_of(tmp_path).sizes[0]
    pressing = size.blocks[0].pressing
    steps = pressing.assembly.steps[:2]
    pressed = dict(pressing.pressed)
    for step, side in zip(steps, toward, strict=True):
        (seam,) = step.runs[0].seams
        pressed[seam] = replace(pressed[seam], toward=side)
    found = pressed_alike(steps, replace(pressing, pressed=pressed), size.size.fabrics)
    assert [step.make for group in found for step in group] == ["left", "right"]
    assert len(found) == groups
