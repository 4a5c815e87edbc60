"""Blocks and hand work by somebody who sews them from the cards: what a thread, a paper and a hand can do."""

import pytest

from booklet.kit import trade
from booklet.plan.cards.on_paper import papers_joined
from booklet.recipe import compiler
from tests import corpus

SHORT = "A thread sews less seam than it is long"


def only(name):
    """The one size and the one block of a pattern."""
    (folder,) = (folder for folder in corpus.FOLDERS if folder.name == name)
    (size,) = corpus.plan_of(folder).sizes
    (block,) = size.blocks
    return size, block


def planned(folder, text):
    """The sizes of a pattern that is written anew, each with its one block."""
    (folder / "pattern.yaml").write_text(text, encoding="utf-8")
    checked = compiler.check(folder)
    assert checked.value is not None, checked.diagnostics
    return [size.blocks[0] for size in compiler.plan(checked.value).sizes]


TWO = """title: Two
sizes:
  short: {unit: 6.6 in, blocks: 1}
  long: {unit: 6.8 in, blocks: 1}
  longer: {unit: 6.8 in, blocks: 1, sewing: {thread: 20 in}}
fabrics:
  ink: {name: Ink, colour: navy}
  sand: {name: Sand, colour: "#e9dcc3"}
blocks:
  two:
    size: 2 x 2
    pieces:
      - {id: a, corners: [[0, 0], [2, 0], [2, 1], [0, 1]], fabric: ink}
      - {id: b, corners: [[0, 1], [2, 1], [2, 2], [0, 2]], fabric: sand}
sewing: {machine from: 30 in}
"""


def test_a_route_nearly_as_long_as_its_thread_says_what_to_do(tmp_path):
    """A thread of 18 in sews 3/4 of it for certain, 13 1/2 in: a seam of 13.2 in, not one of 13.6; one of 20 in sews 15."""
    short, long, longer = planned(tmp_path, TWO)
    told = [any(SHORT in str(line) for line in b.thread_words) for b in (short, long, longer)]
    assert told == [False, True, False]
    assert 18 * trade.SEWN_BY_A_THREAD == 13.5


def test_whip_stitches_take_more_thread(tmp_path):
    """Over papers 18 in are reckoned to last for 7.2 in."""
    assert 18 * trade.WHIPPED_BY_A_THREAD == pytest.approx(7.2)
    text = TWO.replace("{machine from: 30 in}", "{by: papers}").replace("6.6 in", "3.5 in")
    told = [any(SHORT in str(line) for line in b.thread_words) for b in planned(tmp_path, text)]
    assert told == [False, True, True]  # 7, 13.6 and 13.6 in


HALF_ON_PAPER = """title: Sun
sizes:
  wall: {unit: 1 in, blocks: 1}
fabrics:
  ink: {name: Ink, colour: navy}
  sand: {name: Sand, colour: "#e9dcc3"}
blocks:
  sun:
    size: 6 x 4
    pieces:
      - {id: a, corners: [[0, 0], [2, 0], [3, 2], [0, 2]], fabric: ink}
      - {id: b, corners: [[2, 0], [6, 0], [6, 2], [3, 2]], fabric: sand}
      - {id: c, corners: [[0, 2], [6, 2], [6, 4], [0, 4]], fabric: ink}
    sew:
      - {make: top, join: [a, b], by: foundation}
      - {make: sun, join: [top, c], by: BY}
"""


@pytest.mark.parametrize("by", ["hand", "machine"])
def test_nobody_sews_by_hand_through_paper(tmp_path, by):
    """By machine the paper is sewn on and torn off afterwards; a hand needle needs the edge of the paper for its line."""
    (block,) = planned(tmp_path, HALF_ON_PAPER.replace("BY", by))
    (said,) = map(str, papers_joined(block.assembly.steps[-1], block.assembly))
    assert said.startswith("Tear the paper off" if by == "hand" else "Sew with the paper on top")
