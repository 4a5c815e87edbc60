"""What the booklet says of threads and chains, from small patterns worked out by hand."""

from pathlib import Path

import corpus
import pytest

from booklet.drawing.steps.chain_laid import Pass, can_be_laid, laid, passes
from booklet.plan.cards.chaining import is_chained, top_first
from booklet.plan.cards.routes import on_one_thread, route_caption, route_told, routes
from booklet.recipe import compiler

PATTERNS = Path(__file__).parent / "patterns"

SQUARES = """
title: Squares
units: inch
allowance: 1/4 in
sizes: {lap: {unit: 1 in, blocks: 2 x 1}}
fabrics: {sand: {name: Sand, colour: "#e0d0b0"}, ink: {name: Ink, colour: "#203040"}}
patches: {plain: {shape: square, side: 2}}
blocks:
  left:
    size: 4 x 4
    pieces:
      - {id: a, patch: plain, fabric: sand, at: [1, 1]}
      - {id: b, patch: plain, fabric: ink, at: [3, 1]}
      - {id: c, patch: plain, fabric: ink, at: [1, 3]}
      - {id: d, patch: plain, fabric: sand, at: [3, 3]}
    sew: [{make: pair1, join: [a, b]}, {make: pair2, join: [c, d]}, {make: left, join: [pair1, pair2]}]
  right:
    size: 4 x 4
    pieces:
      - {id: a, patch: plain, fabric: ink, at: [1, 1]}
      - {id: b, patch: plain, fabric: sand, at: [1, 3]}
      - {id: c, patch: plain, fabric: ink, at: [3, 1]}
      - {id: d, patch: plain, fabric: ink, at: [3, 3]}
    sew: [{make: post, join: [a, b]}, {make: dark, join: [c, d]}, {make: right, join: [post, dark]}]
sewing: {machine from: HOW}
quilt: {set: straight, arrange: [[left, right]]}
"""


FEWEST = "5 in, routes: fewest threads"


def plan_of(folder):
    checked = compiler.check(folder)
    assert checked.value is not None, checked.diagnostics
    return compiler.plan(checked.value)


def squares(folder, how):
    (folder / "pattern.yaml").write_text(SQUARES.replace("HOW", how), encoding="utf-8")
    return plan_of(folder).sizes[0].blocks


@pytest.fixture(scope="module")
def star():
    plan = corpus.plan_of(PATTERNS / "star_8")
    return next(size for size in plan.sizes if size.size.id == "mini").blocks[0]


def test_alike_pairs_of_two_blocks_are_one_chain(tmp_path):
    left, right = squares(tmp_path, "1 in")
    # left has 2 pairs of sand and ink, right has 1: 3 in all; right's two dark squares are others
    assert "Step 1 of right makes the same: chain all 3 together." in left.cards[0].sentences
    assert "Step 1 of left makes the same: chain all 3 together." in right.cards[0].sentences
    assert not any("makes the same" in line for line in right.cards[1].sentences)


def test_the_part_to_which_the_seam_is_pressed_lies_on_top(tmp_path):
    left, _ = squares(tmp_path, "1 in")
    card = left.cards[0]
    assert is_chained(card) and can_be_laid(card.step)
    # pressed toward the dark side (common practice), so ink lies on sand and is opened over the seam
    toward = left.pressing.pressed[card.step.runs[0].seams[0]].toward
    assert top_first(card.step, left.assembly, left.pressing)[0] == toward
    assert any(
        line.startswith("Lay A (") and line.endswith("every one the same way round.")
        for line in card.sentences
    )


def test_a_laid_unit_lies_below_the_line_of_its_seam(tmp_path):
    left, _ = squares(tmp_path, "1 in")
    step = left.cards[0].step
    unit = laid(left, Pass(step.runs[0], frozenset("a"), frozenset("b")))
    # two 2 in squares right sides together: one square, its seam along the top
    assert unit.length == 2
    assert unit.box == (0, 0, 2, 2)
    assert [(id, on_top) for id, _, on_top in unit.patches] == [("b", False), ("a", True)]


def test_hanging_threads_are_told_on_both_cards(tmp_path):
    left, _ = squares(tmp_path, FEWEST)
    # by hand: both pairs' threads end at the centre and each sews half of the long seam
    assert [route.threads for route in routes(left.assembly)] == [(1, 2)]
    assert left.thread_words == ("The block takes 2 hand threads; no other routes cost less.",)
    assert (
        "Leave the 2 threads hanging at their ends: they go on in step 2, as the routes show."
        in left.cards[0].sentences
    )
    assert (
        "Go on with the 2 threads that hang from step 1: the routes show where."
        in left.cards[1].sentences
    )
    # the long seam is told as it is sewn: one half by each thread, from the middle outward
    halves = left.cards[1].step.runs
    assert [len(run.seams) for run in halves] == [1, 1] and halves[0].points[0] == halves[1].points[
        0
    ]
    assert all(on_one_thread(run, left.assembly) for run in halves)


def test_the_thread_of_a_partial_seam_hangs_midway_at_the_open_circle():
    (size,) = corpus.plan_of(PATTERNS / "wheel_by_hand").sizes
    (block,) = size.blocks
    first = routes(block.assembly)[0]
    # along the side of the hub, 2 in, and on along the blade, 2 in; step 1 sews half of the first
    assert first.cards == (1, 5) and first.halves == (0,)
    assert route_caption(first, "inch") == (
        "Route 1, steps 1 and 5: 2 seams, 4 in, on one thread. Leave the thread hanging at the open "
        "circle after step 1, and go on from there in step 5."
    )


def test_a_long_seam_is_not_parted_and_no_thread_hangs_before_it(tmp_path):
    left, _ = squares(tmp_path, "5 in")
    assert [route.threads for route in routes(left.assembly)] == [(1, 2), (3,)]
    assert left.thread_words[0] == (
        "The block takes 3 hand threads; every run lies whole on one of them."
    )
    assert on_one_thread(left.cards[1].step.runs[0], left.assembly)
    # the long seam goes straight on past the centre, in one step: no number stands there
    assert [[stop.before for stop in route.stops] for route in routes(left.assembly)] == [
        [0, 1],
        [0, 2],
    ]
    assert not any("hang" in line for card in left.cards for line in card.sentences)


def test_a_route_tells_its_turns_and_where_the_needle_passes_through(tmp_path):
    left, _ = squares(tmp_path, FEWEST)
    (route,) = routes(left.assembly)
    # 2 in to the centre, a turn past the other pair's seam, and 2 in along half of the long seam
    assert [stop.before for stop in route.stops] == [0, 1, 2]
    assert route_caption(route, "inch") == (
        "Route 1, steps 1 and 2: 2 seams, 4 in, on one thread. It turns once. "
        "Sew it 2 times in the block. "
        "Leave the thread hanging at 2 after step 1, and go on from there in step 2."
    )
    assert "passes through the allowances at 2." in route_told(route)


def test_ways_back_are_told_under_the_routes_and_drawn():
    (size,) = corpus.plan_of(PATTERNS / "rosette_petal_by_petal").sizes
    (block,) = size.blocks
    (route,) = routes(block.assembly)
    # 12 seams of 3/4 in, 9 in, and out and back along a petal five times, 3 3/4 in: 12 3/4 in of 18; the last petal's second
    # seam ends the thread at the rim
    said = str(route_caption(route, "inch"))
    assert "12 seams, 9 in, on one thread." in said
    assert "5 times it goes back over sewn seam, along the thin lines: 3 3/4 in in all." in said
    assert block.thread_words == (
        "The block takes 1 hand thread; no other route costs less.",
        "It goes back over 3 3/4 in of sewn seam in all, which costs less than new threads.",
    )
    # the heart has six corners, the petals six seams that end at the rim: 12 numbers, though it comes by the
    # corners twice
    assert len(route.stops) == 12
    assert len({stop.at for stop in route.stops}) == 12
    step = block.cards[0].step
    # the first run is straight; then each is begun at the corner, out to the rim, back, and on along the heart
    assert [run.begun for run in step.runs] == [False, True, True, True, True, True]
    corner = step.runs[1].points[1]
    assert [start for _, start in step.runs[1].goes] == [corner, corner]


def test_few_ways_back_are_told_one_by_one():
    (size,) = [s for s in corpus.plan_of(PATTERNS / "star_8").sizes if s.size.id == "mini"]
    (block,) = size.blocks
    told = [str(route_caption(route, "inch")) for route in routes(block.assembly)]
    assert any("go back over 1/2 in of sewn seam to" in said for said in told)


def test_every_seam_by_hand_lies_on_one_route_only(star):
    told = [seam for thread in star.assembly.threads for seam in thread.seams]
    assert len(told) == len(set(told)) == len(star.tiling.seams)
    assert sum(len(route.threads) for route in routes(star.assembly)) == len(star.assembly.threads)


def test_a_partial_seam_that_is_closed_round_corners_says_where_it_turns(tmp_path):
    """Four mitred trapezoids round a square: the first is sewn to it half way, and the last seam goes on along the square to
    its corner, turns there, and runs out between the first and the fourth trapezoid to the edge."""
    lap = "[[2, 2], [4, 2], [5, 1], [1, 1]]"
    (tmp_path / "pattern.yaml").write_text(
        f"""\
title: Lapped
sizes: {{one: {{unit: 2 in, blocks: 1}}}}
fabrics: {{a: {{name: A, colour: "#aa3322"}}, b: {{name: B, colour: "#e9dcc3"}}}}
blocks:
  s:
    pieces:
      - {{id: m, corners: [[2, 2], [4, 2], [4, 4], [2, 4]], fabric: a}}
      - {{id: r, corners: {lap}, fabric: b, ring: {{centre: [3, 3], times: 4}}}}
    sew:
      - {{make: w, join: [m, r1], leave: r4, by: machine}}
      - {{join: [w, r2], by: machine}}
      - {{join: [w, r3], by: machine}}
      - {{join: [w, r4], by: machine}}
      - {{finish: [m, r1], by: machine}}
""",
        encoding="utf-8",
    )
    (size,) = compiler.plan(compiler.check(tmp_path).value).sizes
    (closed,) = (card for card in size.blocks[0].cards if card.step.finish)
    assert closed.sentences[0] == (
        "By machine: begin a few stitches before the open circle, turn at dot 2, and sew on to the edge."
    )


def test_a_partial_seam_says_where_to_stop_and_who_sews_the_rest():
    (block,) = corpus.plan_of(PATTERNS / "wheel").sizes[0].blocks
    begun = next(card for card in block.cards if card.step.leave is not None)
    closed = next(card for card in block.cards if card.step.finish)
    assert f"about half way; step {closed.n} sews the rest." in " ".join(begun.sentences)
    assert "begin a few stitches before the open circle" in closed.sentences[0]
    assert not any("Chain-piece" in line for line in closed.sentences)
    assert len(closed.takes) == 1  # the whole unit, not the two patches at the seam


def test_a_curved_seam_is_pinned_with_the_hollow_side_on_top():
    block = corpus.plan_of(PATTERNS / "quarter_circles").sizes[0].blocks[0]
    card = block.cards[0]
    assert any("Lay the marks of the curve on each other" in line for line in card.sentences)
    top, below = top_first(card.step, block.assembly, block.pressing)
    # the quarter circle bulges into the other patch: that is the hollow one (common practice)
    areas = {name: block.tiling.patch(block.tiling.piece(name).patch).name for name in (top, below)}
    assert "quarter" in areas[below], areas


def test_a_row_of_three_goes_under_the_needle_once_for_each_seam():
    plan = corpus.plan_of(PATTERNS.parent.parent / "example_pattern")
    (block,) = plan.sizes[1].blocks
    step = block.cards[0].step  # a wing: a glint at either end of a ledge
    first, then = passes(block, step)
    assert (first.top, first.below) == ({"p1"}, {"t1"})  # the smaller patch on top
    assert (then.top, then.below) == ({"q1"}, {"p1", "t1"})
    # the seam of a glint with the ledge, 1 x 1 units from corner to corner: √2 in
    assert laid(block, first).length == pytest.approx(2**0.5)
