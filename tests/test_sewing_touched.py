"""An order that is only begun: what is told of it, what is alike, and how the tool goes on."""

from pathlib import Path

import pytest

from booklet.pattern import By
from booklet.recipe.checking import lay_out_folder
from booklet.sewing.assembly import End
from booklet.sewing.auto.finding import planned
from booklet.sewing.auto.going_on import continuations
from booklet.sewing.stage import assemble_block
from booklet.sewing.touched.begun import begin
from booklet.sewing.touched.corners import corners_left_open, must_turn
from booklet.sewing.touched.likes import alike_touches
from booklet.sewing.touched.touches import TouchedStep, declared, touches_of

HERE = Path(__file__).parent
NAMES = ("wheel", "star_8", "storm_at_sea", "hexagon_rosette", "three_diamonds", "log_cabin", "titled_steps",
         "tumbling_blocks", "kite_wheel", "orange_peel", "partial_by_tool", "geese_round")  # fmt: skip


DEAR = ("storm_at_sea", "geese_round")


class Block:
    """The first block of a pattern in its first size that has it."""

    def __init__(self, name):
        laid = lay_out_folder(HERE / "patterns" / name).value
        (size, block), self.tiling = next(iter(laid.tilings.items()))
        self.size, self.block = laid.pattern.size(size), laid.pattern.block(block)
        rules = self.size.sewing, self.size.fabrics
        self.steps = (
            planned(self.tiling, *rules)[1] if self.block.steps is None else self.block.steps
        )

    def named(self, touches, written=()):
        return declared(touches, self.tiling, self.size.sewing, self.size.fabrics, written)

    def begun(self, steps):
        return begin(self.tiling, steps, self.size.sewing, self.size.fabrics)

    def touched(self, touches):
        return self.begun(self.named(touches))


@pytest.fixture(
    scope="module",
    params=[
        pytest.param(name, marks=pytest.mark.everything) if name in DEAR else name for name in NAMES
    ],
)
def block(request):
    return Block(request.param)


def test_the_whole_order_is_told_as_the_block_is(block):
    whole = assemble_block(
        block.tiling, block.block, block.size.sewing, block.size.fabrics, share=0.0
    ).value
    begun = block.begun(block.steps)
    assert begun.is_whole
    assert begun.assembly.threads == whole.threads
    assert begun.assembly.sewn == whole.sewn
    told = [(s.make, s.turns, s.by, s.card, s.times, s.runs) for s in whole.steps]
    assert [(s.make, s.turns, s.by, s.card, s.times, s.runs) for s in begun.assembly.steps] == told


def test_the_first_steps_are_told_as_those_of_the_whole(block):
    whole = block.begun(block.steps).assembly
    for count in range(1, len(block.steps)):
        part = block.begun(block.steps[:count]).assembly
        assert [(s.turns, s.by, s.kind) for s in part.steps] == [
            (s.turns, s.by, s.kind) for s in whole.steps[:count]
        ]
        sewn = {seam for step in part.steps for run in step.runs for seam in run.seams}
        assert {seam.id for seam in part.tiling.seams} == sewn


def test_a_corner_said_to_stay_open_does(block):
    """Wherever it was said at a step, the whole order turns at the point, and the step's seams stop there."""
    whole = block.begun(block.steps)
    turns = {p for d in whole.drafts for s in d.stretches for p in s.turn_points}
    waits = {gap.at for n in range(len(block.steps)) for gap in block.begun(block.steps[:n]).open}
    for count in range(1, len(block.steps)):
        begun = block.begun(block.steps[:count])
        for corner in set(corners_left_open(begun, begun.drafts[-1])) - waits:
            assert corner in turns
            for seam in (s for d in begun.drafts[-1:] for st in d.stretches for s in st.seams):
                path, ends = block.tiling.seam(seam), whole.assembly.sewn[seam].ends
                if corner in (path.start, path.end):
                    assert ends[corner == path.end] is End.POINT


def test_steps_as_they_are_written_stay_what_they_are(block):
    if block.block.steps is None:
        pytest.skip("the order is left to the tool")
    touches = touches_of(block.begun(block.steps).drafts, block.tiling)
    again = block.named(touches, block.block.steps)
    said = [
        (s.make, s.join, s.by, s.ends, s.press, s.leave, s.finish, s.note, s.titles) for s in again
    ]
    assert said == [
        (s.make, s.join, s.by, s.ends, s.press, s.leave, s.finish, s.note, s.titles)
        for s in block.steps
    ]


def test_the_tool_goes_on_from_anywhere_and_no_worse_than_it_would_have(block):
    """Of an order that the tool found, what is left after some steps is one way to go on: it finds one with no more turns
    (a partial seam, which is taken in place of a turn, counted as one)."""
    steps = planned(block.tiling, block.size.sewing, block.size.fabrics)[1]
    touches = touches_of(block.begun(steps).drafts, block.tiling)

    def turns(drafts):
        return sum(d.turns for d in drafts) + sum(d.declared.leave is not None for d in drafts)

    for count in {0, 1, len(touches) // 2, len(touches) - 1}:
        first = touches[:count]
        ways = (
            block.touched((*first, *more))
            for more in continuations(block.touched(first), block.size.sewing, block.size.fabrics)
        )
        found = next(way for way in ways if way.is_whole and not way.faults)
        assert touches_of(found.drafts, block.tiling)[:count] == first
        assert turns(found.drafts) <= turns(block.begun(steps).drafts)


def test_at_a_t_the_stem_may_come_last_or_has_to_turn():
    """Four squares in two pairs: about the middle four seams lie at right angles. Once one pair is sewn, two of the three
    left go straight on; once two seams in a corner are sewn, the two left turn."""
    four = Block("four_patch")
    middle = next(j.at for j in four.tiling.junctions if j.inside)
    seams = {frozenset(s.between): s.id for s in four.tiling.seams}
    every = frozenset(seams.values())
    assert not must_turn(four.tiling, every, middle)
    assert not must_turn(four.tiling, every - {seams[frozenset("ab")]}, middle)
    left = every - {seams[frozenset("ab")], seams[frozenset("ac")]}
    assert must_turn(four.tiling, left, middle)
    assert corners_left_open(*_last(four, TouchedStep(("a", "b")))) == ()
    assert corners_left_open(*_last(four, TouchedStep(("a", "b")), TouchedStep(("a", "c")))) == (
        middle,
    )


def _last(block, *touches):
    begun = block.touched(touches)
    return begun, begun.drafts[-1]


def test_turned_copies_share_no_part_and_stand_in_the_order_of_the_block():
    """Eight diamonds about a star's middle: of the pairs that follow each other round there are four."""
    star = Block("star_8")
    start = star.touched(())
    found = alike_touches((TouchedStep(("d2", "d3")),), start, star.size.sewing, star.size.fabrics)
    assert [touch.pieces for touch in found] == [("d8", "d1"), ("d2", "d3"), ("d4", "d5"), ("d6", "d7")]  # fmt: skip
    again = star.touched(found).assembly
    assert {(step.card, step.times) for step in again.steps} == {(1, 4)}


def test_both_sides_of_a_seam_that_is_finished_are_those_of_its_walk():
    """The wheel's first seam, hub to blade 1, is finished last, with the seam of blade 1 and blade 4 beyond it: the hub and
    blade 4 lie on one hand, blade 1 on the other."""
    wheel = Block("wheel")
    last = wheel.begun(wheel.steps).assembly.steps[-1]
    assert last.finish
    assert [run.sides for run in last.runs] == [(("c", "a4"), ("a1",))]
    assert last.runs[0].by is By.MACHINE
