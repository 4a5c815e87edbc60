"""When a seam is pressed: it may wait for a point that fans only as long as no machine sews over its allowance."""

import math

import pytest

from booklet.pattern import By
from booklet.plan.naming import Naming
from booklet.plan.pressed.pressing_table import press_table
from booklet.plan.pressed.pressing_words import how_to_press_all
from booklet.sewing.assembly import End
from tests.builders import fabrics_of
from tests.pressing_helpers import patch, pressed, sew

WAYS = [(math.cos(math.radians(angle)), math.sin(math.radians(angle))) for angle in (-90, 30, 150)]
NAMES = {"ink": "Dark blue", "sand": "Sand", "red": "Red"}


def at(k, x, y):
    """The point x along one edge and y along the other of diamond k, which has sides of 2."""
    (ax, ay), (bx, by) = WAYS[k], WAYS[(k + 1) % 3]
    return (x * ax + y * bx, x * ay + y * by)


def four_diamonds(k, fabrics=("ink", "sand", "sand", "ink")):
    """A diamond of four, whose edges 2 long meet at the middle of the block."""
    return [
        patch(
            f"d{k}{x}{y}",
            [at(k, x, y), at(k, x + 1, y), at(k, x + 1, y + 1), at(k, x, y + 1)],
            fabrics[2 * x + y],
        )
        for x in (0, 1)
        for y in (0, 1)
    ]


def three_of_four():
    """Three diamonds of four each: pairs and fours by machine, the three set into each other by hand."""
    pieces = [one for k in range(3) for one in four_diamonds(k)]
    machine, hand = By.MACHINE, By.HAND
    steps = [
        *(sew(f"p{k}{x}", f"d{k}{x}0", f"d{k}{x}1", by=machine) for k in range(3) for x in (0, 1)),
        *(sew(f"f{k}", f"p{k}0", f"p{k}1", by=machine) for k in range(3)),
        sew("two", "f0", "f1", by=hand),
        sew("all", "two", "f2", by=hand),
    ]
    return pressed(pieces, steps)


@pytest.fixture(scope="module")
def three():
    return three_of_four()


def test_a_pair_is_pressed_before_the_machine_crosses_it(three):
    """The pair's seam ends at the middle of its four, where step 7, 8 or 9 sews over it from edge to edge; its other
    end, on the edge that is sewn by hand in step 10 or 11, might have waited for the fan there."""
    sewn = three.assembly.sewn
    pairs = [seam for seam in sewn if sewn[seam].step <= 6]
    assert len(pairs) == 6
    assert all(three.after[seam] == sewn[seam].step for seam in pairs)


def test_no_seam_waits_until_it_is_sewn_down(three):
    """By the records alone: a run by machine that goes past a point holds what ends there to one side."""
    assembly = three.assembly
    seams = {seam.id: seam for seam in assembly.tiling.seams}
    tried = 0
    for step in assembly.steps:
        for run in step.runs:
            if run.by is By.HAND:
                continue
            for k, point in enumerate(run.points):
                if k in run.turns:
                    continue
                beside = {run.seams[max(k - 1, 0)], run.seams[min(k, len(run.seams) - 1)]}
                ends = [
                    assembly.sewn[id].ends[seams[id].end == point]
                    for id in beside
                    if point in (seams[id].start, seams[id].end)
                ]
                if End.EDGE not in ends:
                    continue
                for seam in seams.values():
                    earlier = assembly.sewn[seam.id].step < step.n
                    on_the_table = earlier and set(seam.between) <= set(step.pieces)
                    if on_the_table and point in (seam.start, seam.end):
                        tried += 1
                        assert three.after[seam.id] < step.n
    assert tried == 6  # two pairs in each of the three fours


def test_what_waits_says_for_which_steps_and_the_whole_line_waits(three):
    """The line through a four is pressed as one: both of its seams wait for the same step. The fours of steps 7 to 9
    are one card; the fan at an edge of the first two is whole with step 10 or 11."""
    assembly = three.assembly
    naming = Naming.of(assembly, NAMES)
    fours = [step for step in assembly.steps if step.n in (7, 8, 9)]
    for step in fours:
        assert len({three.after[s] for run in step.runs for s in run.seams}) == 1
    words = list(how_to_press_all(fours, three, naming, fabrics_of()))
    after = sorted({three.after[s] for step in fours for r in step.runs for s in r.seams})
    cards = [next(s.card for s in assembly.steps if s.n == n) for n in after]
    assert words == [f"Leave these allowances until step {' or '.join(map(str, cards))}."]
    whens = {line.when for line in press_table(three, naming) if line.cards == (fours[0].card,)}
    assert whens == {f"after step {card}" for card in cards}
