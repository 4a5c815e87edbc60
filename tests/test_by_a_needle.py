"""Blocks and hand work by somebody who sews them from the cards: what a thread, a paper and a hand can do."""

import math
from collections import Counter

import corpus
import pytest

from booklet.geometry import lay_out
from booklet.kit import trade
from booklet.pattern import By
from booklet.plan.cards.on_paper import papers_joined
from booklet.recipe import compiler
from booklet.sewing.assembly import StepKind
from booklet.source.reader import read_folder

SHORT = "A thread sews less seam than it is long"


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
    assert pytest.approx(7.2) == 18 * trade.WHIPPED_BY_A_THREAD
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


def test_two_rounds_are_sewn_by_machine_with_a_partial_seam_each():
    """About a square of 1 in: its sides are 4 x 1 in, then 4 x 1 1/2 between the rectangles of the first round, 4 x 4 round it and
    4 x 1 1/2 between those of the second, 32 in. Either round is begun half and closed last (common practice); the second
    was closed by setting in its last rectangle by hand, 7 in, for the seam to leave open was not the last of its step."""
    _, block = corpus.only("two_rounds")
    steps = block.assembly.steps
    lengths = {seam.id: seam.length for seam in block.tiling.seams}
    assert sum(lengths.values()) == pytest.approx(4 + 6 + 16 + 6)
    assert {step.by for step in steps} == {By.MACHINE} and not block.assembly.threads
    assert [step.n for step in steps if step.turns] == []
    partial = [step for step in steps if step.kind is StepKind.PARTIAL]
    assert [step.finish for step in partial].count(True) == 2 and len(partial) == 4


def test_a_star_about_a_point_takes_few_threads_and_closes_no_ring():
    """Eight points of the star have an odd number of seams: the middle seven, each inner corner three. A thread ends at two of
    them, so four are the least; five are found. None of its joins sets a part in all the way round."""
    _, block = corpus.only("star_of_seven")
    assembly = block.assembly
    at = Counter(end for seam in block.tiling.seams for end in (seam.start, seam.end))
    assert sum(n % 2 for n in at.values()) == 8
    assert 4 <= len(assembly.threads) <= 5  # there were seven
    assert sum(step.turns for step in assembly.steps) == 8
    runs = [run for step in assembly.steps for run in step.runs]
    assert not any(run.points[0] == run.points[-1] for run in runs)


def test_of_orders_that_cost_the_same_the_one_with_fewer_cards_is_told():
    """A square with four rectangles spun about it, by hand: one turn and three threads either patch by patch, on one card, or as
    it was found first, on four."""
    folder = next(folder for folder in corpus.FOLDERS if folder.name == "wheel_of_five")
    by_hand = corpus.plan_of(folder).sizes[-1].blocks[0]
    assembly = by_hand.assembly
    assert {step.by for step in assembly.steps} == {By.HAND}
    assert sum(step.turns for step in assembly.steps) == 1 and len(assembly.threads) == 3
    assert len(by_hand.cards) == 1


EIGHT = """title: Eight
sizes:
  wall: {unit: 2 in, blocks: 1}
fabrics:
  ink: {name: Ink, colour: navy}
blocks:
  ring:
    pieces:
"""


def test_three_decimals_are_enough_for_a_unit_of_two_inches(tmp_path):
    """Eight trapezoids between octagons of radius 1 and 2, about an octagon: each corner is off by up to 0.0005 x 2 in across and down, so a
    side by 0.0028 in, and two sides from each other by twice that. They were two templates."""

    def corner(k, radius):
        turn = math.radians(45 * k - 22.5)
        return [round(radius * math.sin(turn), 3), round(-radius * math.cos(turn), 3)]

    outlines = [[corner(k, 1), corner(k, 2), corner(k + 1, 2), corner(k + 1, 1)] for k in range(8)]
    outlines.append([corner(k, 1) for k in range(8)])
    pieces = (f"      - {{id: a{k}, corners: {o}, fabric: ink}}\n" for k, o in enumerate(outlines))
    (tmp_path / "pattern.yaml").write_text(EIGHT + "".join(pieces), encoding="utf-8")
    laid = lay_out(read_folder(tmp_path).value).value
    (tiling,) = laid.tilings.values()
    assert len({piece.patch for piece in tiling.pieces}) == 2


STAR = r"""title: Star
sizes:
  wall: {unit: 1 in, blocks: 1}
fabrics:
  ink: {name: Ink, colour: navy}
  sand: {name: Sand, colour: "#e9dcc3"}
  clay: {name: Clay, colour: "#b5583a"}
blocks:
  star:
    grid:
      - [sand, ink/sand, ink\sand, sand]
      - [ink/sand, clay, clay, ink\sand]
      - [sand\ink, clay, clay, sand/ink]
      - [sand, sand\ink, sand/ink, sand]
    columns: [4, 4, 4, 4]
    rows: [4, 4, 4, 4]
"""


def test_units_that_are_called_alike_are_counted_at_once(tmp_path):
    """Four rows of two kinds, two of each, are "4 rows"; the card says below from which steps they come. It said "2 rows and 2
    rows"."""
    (block,) = planned(tmp_path, STAR)
    card = block.cards[-1]
    assert str(card.title) == "Sew 4 rows together"
    assert [str(part) for part in card.takes] == ["2 rows (step 2)", "2 rows (step 3)"]
