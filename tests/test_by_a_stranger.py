"""Three patterns of the trade, reckoned by hand: a star of strips with corners set in, a pieced border, a row quilt."""

import math
import re

import corpus
import pytest
from builders import ENGLISH

from booklet.drawing.ink.fills import looks_of
from booklet.drawing.steps.step import step_figure
from booklet.pattern import By
from booklet.plan.cards.frame_words import told_in_a_row


def plan_of(name):
    (folder,) = (folder for folder in corpus.FOLDERS if folder.name == name)
    return corpus.plan_of(folder)


def cut(size):
    """Of each part or letter of each cloth: its cut in inches and the pieces."""
    return {
        (p.fabric, p.name): (tuple(round(float(x), 4) for x in p.cut), p.pieces)
        for p in size.cutting.patches
    }


def bought(size):
    return {p.fabric: (float(p.length), float(p.buy.yards)) for p in size.cutting.fabrics}


@pytest.fixture(scope="module")
def star():
    (size,) = plan_of("star_of_four_diamonds").sizes
    return size


def test_the_star_is_cut_right(star):
    """Diamonds of 2 in: strips 2/√2 + 1/2 = 1.914, by template from 2. Squares 4 + 1/2. Triangles: the long side is that of
    two squares' diagonal, 4√2 = 5.657, and 1.207: 6.864, up to 6 7/8, one square for four. The border is mitred:
    13.657 + 2 x 2 + 2 for the mitres = 19.657, up to 19 3/4."""
    found = cut(star)
    diamonds = {fabric: n for (fabric, name), (_, n) in found.items() if name == "A"}
    assert diamonds == {"ember": 8, "sun": 16, "dusk": 8}
    assert found["mist", "C"] == ((4.5, 4.5), 4)
    assert found["mist", "B"] == ((6.875, 6.875), 4)
    assert found["dusk", "border 1 sides"] == ((19.75, 2.5), 2)


def test_the_star_takes_this_cloth(star):
    """In 40 in lie 14 diamonds (2 x √2 = 2.707 each at 1.914 high, and 1.914 for the slant: 39.8). Sun: 16 in 2 strips of 2, and
    1/2 to straighten: 4 1/2. Dusk: two strips of 2 1/2, in each two of 19 3/4, one of 2, 1/2: 7 1/2. Ember: binding 4 x 17.657
    + 10 = 80.63, of strips (80.63 - 2.25) / 37.75 = 2.08, so 3 of 2 1/4 = 6 3/4, the diamonds beside the last, which is
    used for a few inches, 1/2: 7 1/4. Mist: 6 7/8 with the squares beside it, 1/2: 7 3/8."""
    assert bought(star) == {
        "ember": (7.25, 0.25), "sun": (4.5, 0.125), "dusk": (7.5, 0.25), "mist": (7.375, 0.25),
    }  # fmt: skip


def test_the_star_is_sewn_by_hand_only_where_corners_are_set_in(star):
    """Eight fours of two seams and one: 8 x (1 + 1 + 2) x 2 in = 64 in within them go through the machine. Of the fours
    among themselves 8 x 4 in and to squares and triangles 16 x 4 in, 96 in are left, and of each pair of seams that
    turn a corner both are sewn in one go. Nothing waits that the machine sews over (tests/test_pressing_waits.py)."""
    (block,) = star.blocks
    seams, sewn = block.tiling.seams, block.assembly.sewn
    assert math.isclose(sum(seam.length for seam in seams), 64 + 96, abs_tol=1e-6)
    card = {step.n: step for step in block.assembly.steps}
    for seam in seams:
        waits = block.pressing.after[seam.id] > sewn[seam.id].step
        assert not (waits and card[sewn[seam.id].step].level == 1)


def test_the_pieced_border_is_as_long_as_the_middle():
    """Middle 15 cm, teeth 3 x 5 = 15, posts 5: 25 cm; border 4: 33 cm. Teeth: 5 + 0.6 x (2 + √2) = 7.05, up to 7.1 cm; 4 x 3
    of each cloth, and of the print with an up one triangle of each square: 12 squares, of the other 6. In the corners of the
    middle 7.5 + 2.05 = 9.55, up to 9.6. Its border: 25 + 1.2 = 26.2 by 5.2, two of them along the selvedge."""
    (size,) = plan_of("pieced_border").sizes
    assert [round(float(side) * 2.54, 6) for side in size.quilt.finished] == [33, 33]
    squares = {
        (p.fabric, round(float(p.cut[0]) * 2.54, 4)): (p.cuts, p.pieces)
        for p in size.cutting.patches
        if "triangles" in p.method.word
    }
    assert squares == {("clay", 7.1): (6, 12), ("rain", 7.1): (12, 12), ("rain", 9.6): (2, 4)}
    assert [x for x in cut(size) if "border 1" in x[1]]


def test_rows_of_three_heights_add_up():
    """Down 10 + 2 + 6 = 18 in, across 2 x 8 = 16. Back 16 + 6 by 18 + 6. Binding 2 x 16 + 2 x 18 + 10 = 78 in, of strips
    (78 - 2.25) / 37.75 = 2.01: 3. Roof: 8 + 2 x 1/4 x (1 + √5) / 2 = 8.809, by template."""
    (size,) = plan_of("rows_of_heights").sizes
    assert [float(side) for side in size.quilt.finished] == [16, 18]
    found = cut(size)
    assert found["sky", "binding"][1] == 3
    assert sorted(found["cream", "backing"][0]) == [22, 24]
    (roof,) = (p for p in size.cutting.patches if "trapezoid" in p.method.word)
    assert math.isclose(roof.exact[1], 8 + (1 + math.sqrt(5)) / 4, abs_tol=1e-6)


def test_a_small_patch_that_is_set_in_keeps_its_letter():
    """Seams cross the middle of the patch in the picture: its letter lies beside them."""
    plan = plan_of("square_in_frame")
    size = next(size for size in plan.sizes if size.size.id == "mini")
    (block,) = size.blocks
    drawn = step_figure(block, block.cards[1], looks_of(plan), speaker=ENGLISH)
    assert set(re.findall(r">([AB])<", drawn.svg)) == {"A", "B"}


def test_seams_in_one_picture_are_told_in_their_order():
    """Three rows and a square: two seams from edge to edge, the last only to the dot, for a corner comes there. All stand
    in one picture, so nothing is "drawn next"."""
    edge, dot = (By.MACHINE, False, "sew to the edge."), (By.MACHINE, False, "sew to the dot.")
    assert list(told_in_a_row([edge, edge, dot])) == [
        "First, by machine, 2 seams alike: sew to the edge.",
        "Last, by machine: sew to the dot.",
    ]
