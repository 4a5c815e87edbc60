"""Blocks of the trade by another hand, reckoned by hand: what is pressed when two versions lock, what lies at a tee, how large a turned shape is."""

import math

import corpus
import pytest

from booklet.crafts.rotary.sums import adding_up
from booklet.drawing.templates.template_lines import template_lines
from booklet.plan.pressed.pressing_words import pressing_summary
from booklet.pressing.pressing import JunctionKind
from booklet.recipe import compiler

OTHER_WAY = "For 2 blocks, version V2, press the other way."


def test_a_card_tells_how_the_second_version_is_pressed():
    """2 x 2 moons lock if every second is pressed the other way round: what a card presses as sewn, it has to say for both."""
    _, block = corpus.only("moon")
    versions = block.pressing.versions
    assert versions is not None and versions.opposite and (versions.first, versions.count) == (2, 2)
    assert [str(card.press[-1]) for card in block.cards] == [OTHER_WAY] * 4


def test_a_seam_left_half_sewn_is_pressed_when_it_is_closed():
    """Four rectangles of 12 x 4 cm round a square of 8 cm: the first seam is pressed with the last, toward the dark stripe."""
    _, block = corpus.only("turning_frame")
    assert block.cards[0].press == ()
    assert [str(said) for said in block.cards[-1].press] == [
        "Press toward A (stripe), the darker side."
    ]


def test_at_a_tee_nothing_locks():
    """No two seams cross in a square with four rectangles round it: each of its four points is a tee, where one seam ends on
    another. Nothing is told to lock (common practice: allowances lock where two seams cross)."""
    _, block = corpus.only("turning_frame")
    assert {j.kind for j in block.pressing.junctions} == {JunctionKind.FREE}
    assert list(pressing_summary(block.pressing)) == []


def test_the_size_of_a_turned_shape_is_its_own():
    """The leaf is two curves with ends 2 u apart, 3 x 0.8 x t (1 - t) u to either side: 0.6 u in the middle. So 1.2 x 2 in, which
    is 1 3/16 in by the nearest 1/16 in, however it lies; turned by 20 degrees its box would be 1.88 in high."""
    size, _ = corpus.only("wreath")
    (leaf,) = (patch for patch in size.cutting.patches if patch.title == "C leaf")
    assert "finished 1 3/16 in × 2 in over all" in map(str, template_lines(size, [leaf], False, 0))
    assert math.isclose(2 * 0.8 * 3 * 0.25, 1.2)


def test_a_sum_adds_up_as_it_is_printed():
    """8.4853 + 2.0654 = 10.5507: by two decimals each 8.49 + 2.07 were 10.56. 2.0003 is more than 2, and is not printed as 2."""
    assert adding_up(8.4853, 10.5507, "inch") == ("8.49", "2.06", "10.55")
    assert adding_up(1.4849, 2.0003, "inch") == ("1.4849", "0.5154", "2.0003")


def test_a_bias_strip_is_as_long_as_its_line():
    """A ring of 3.5 in radius that stops 0.1 in short: 7 pi - 0.1 = 21.89 in, and 1/4 in more at either end, 22.39 in. Cut at 45
    degrees 3/4 in wide it takes (22.39 + 0.75) / sqrt 2 = 16.36 in of cloth, 16 3/8 in by the ruler."""
    size, _ = corpus.only("wreath")
    (stem,) = (patch for patch in size.cutting.patches if patch.title == "D stem")
    assert math.isclose(7 * math.pi - 0.1 + 0.5, 22.39, abs_tol=0.005)
    assert stem.sum.endswith("line 21.89 + 2 × 1/4 = 22.39; (22.39 + 3/4) ÷ √2 = 16 3/8")


BLOCK = """title: Try
sizes:
  lap: {unit: 1 in, blocks: 1 x 1}
fabrics:
  ink: {name: Ink, colour: navy}
patches:
  sq: {shape: square, side: 2}
  tri: {shape: half-square triangle, side: 2}
blocks:
  b:
    size: 4 x 4
    pieces:
      - {id: a, patch: sq, fabric: ink, at: [1, 1]}
      - {id: c, patch: sq, fabric: ink, at: [3, 1]}
      - {id: d, patch: sq, fabric: ink, at: [1, 3]}
      - {id: e, patch: tri, fabric: ink, at: [3, 3]}
      - {id: f, patch: tri, fabric: ink, at: [3, 3], turn: 180}
quilt:
  arrange: [[b]]
"""
SEWN = """    sew:
      - {make: top, join: [a, c], leave: d}
      - {make: corner, join: [e, f]}
      - {make: low, join: [d, corner]}
      - {make: b, join: [top, low]}
quilt:"""


def told(tmp_path, text):
    """What is found in a pattern of this text that is no consequence of another: its line, its words, the way out."""
    (tmp_path / "pattern.yaml").write_text(text, encoding="utf-8")
    found = [d for d in compiler.check(tmp_path).diagnostics if not d.follows]
    return [(d.span.line, d.message, d.hint) for d in found]


@pytest.mark.parametrize(
    ("slip", "line", "hint"),
    [
        # one square too low or far away: only its own place leaves no gap, and the line to change is its own
        ({"at: [3, 1]": "at: [3, 1.1]"}, 14, "move `c` to `at: [3, 1]`, where it meets side 2 of `f`"),
        ({"at: [3, 1]": "at: [3, 5]"}, 14, "move `c` to `at: [3, 1]`"),
        ({"ink, at: [3, 3]}": "ink, at: [4, 3]}"}, 16, "move `e` to `at: [3, 3]`, where it meets side 1 of `f`"),
        # four squares of 2 by 2 fill 4 x 4, whatever the size says
        ({"4 x 4": "6 x 4"}, 11, "write `size: 4 x 4`, or add the pieces that are missing"),
        ({"4 x 4": "4 x 3"}, 11, "write `size: 4 x 4`, or move or shorten the pieces that reach beyond it"),
        # five shapes are triangles
        ({"half-square triangle": "triangle"}, 8, "did you mean `equilateral triangle`, `half-square triangle`, "
         "`isosceles triangle`, `quarter-square triangle` or `right triangle`?"),
        ({"quilt:\n": "  quilt:\n"}, 18,
         "begin the line of `quilt` in the first column, and move what belongs to it as far"),
        ({"quilt:\n": "  quilt:\n", "  arrange": "    arrange"}, 18,
         "begin the line of `quilt` in the first column, and move what belongs to it as far"),
        ({"title": "  title"}, 2, "let `title`, `sizes` and the like all begin in the first column"),
        # a seam left open between two parts is closed between these two, not with the piece that came in between
        ({"quilt:": SEWN.replace("b, join", "x, join").replace("\nquilt", "\n      - {finish: [a, d]}\nquilt")}, 23,
         "write `finish: [a, c]`: that seam was left open for `d`"),
        ({"quilt:": SEWN.replace(", leave: d", "").replace("corner, join: [e, f]", "top, join: [top, e]")}, 20,
         "leave `make` out: what is made then keeps the name `top`"),
    ],
)  # fmt: skip
def test_what_a_beginner_is_told_to_do_next_mends_it(tmp_path, slip, line, hint):
    text = BLOCK
    for written, slipped in slip.items():
        assert written in text
        text = text.replace(written, slipped, 1)
    assert (line, hint) in [(found[0], found[2]) for found in told(tmp_path, text)]


def test_a_ring_of_stem_is_told_to_end_before_it_meets_itself(tmp_path):
    ring = "    applied:\n      - {stem: M 1 2 A 1 1 0 1 1 3 2 A 1 1 0 1 1 1 2, width: 1/4, fabric: ink}\nquilt:"
    ((_, message, hint),) = told(tmp_path, BLOCK.replace("quilt:", ring))
    assert "crosses or touches itself" in message and hint.startswith(
        "end its line a little before"
    )
    open_ = ring.replace("0 1 1 1 2, width", "0 0 1 1.005 2.1, width")  # 0.1 u short
    assert told(tmp_path, BLOCK.replace("quilt:", open_)) == []


def test_a_thread_that_waits_within_a_step_is_told():
    """The second ring of a rosette of 19, 1/2 in a side: 18 seams to the first ring and 12 between its own patches, 15 in. The
    thread of the first ring (12 seams, 6 in) sews the first of its twelve runs and, when the ring has come round, the last."""
    (folder,) = (folder for folder in corpus.FOLDERS if folder.name == "hexagon_rosette_2")
    (size,) = (size for size in corpus.plan_of(folder).sizes if size.size.id == "mini")
    first, second = size.blocks[0].cards
    told = "These 12 seams take 2 threads: the routes show where each goes on; let one that waits hang."
    assert told in map(str, second.sentences)
    assert not any("one that waits" in str(said) for said in first.sentences)  # sewn in one go


def test_two_pieces_that_lie_wrong_are_each_told_their_place(tmp_path):
    """Sixteen squares of 1 u; one lies 0.3 u too far to the right, one 0.3 u too low: no single change makes the block sound."""
    at = {(x, y): [x + 0.5, y + 0.5] for y in range(4) for x in range(4)}
    at[1, 0], at[2, 2] = [1.8, 0.5], [2.5, 2.8]
    pieces = [
        f"      - {{id: p{x}{y}, patch: sq, fabric: ink, at: {place}}}"
        for (x, y), place in at.items()
    ]
    head, tail = BLOCK.replace("side: 2}", "side: 1}").split("    pieces:\n")
    text = f"{head}    pieces:\n" + "\n".join(pieces) + "\nquilt:" + tail.split("quilt:")[1]
    found = [
        (line, hint)
        for line, _, hint in told(
            tmp_path, text.replace("  tri: {shape: half-square triangle, side: 1}\n", "")
        )
    ]
    first = 1 + text[: text.index("p00")].count("\n") - 1  # the patch that is taken out stood above
    assert found == [
        (first + 1, "move `p10` to `at: [1.5, 0.5]`, where it meets side 4 of `p20`"),
        (first + 10, "move `p22` to `at: [2.5, 2.5]`, where it meets side 1 of `p23`"),
    ]
