"""An edition that goes block by block: what is cut stands with each block, and adds up to what is cut of all."""

from functools import cache

from source_helpers import GOOD, PATTERNS, faults, pattern

from booklet.pages.composing import compose
from booklet.pages.tables.block_cuts import block_cuts
from booklet.pattern import PageOrder, Paper
from booklet.recipe import compiler

RUNNER = PATTERNS / "two_blocks_by_block"


@cache
def planned():
    return compiler.plan(compiler.check(RUNNER).value)


@cache
def page():
    plan = planned()
    return compose(plan, plan.pattern.booklet.editions[0], None, Paper.A4, ("runner",)).html


def test_what_is_cut_for_a_block():
    size = planned().sizes[0]
    gate, leaf = (
        {(str(c.title), c.fabric.id): (c.each, c.whole) for c in block_cuts(size, b)}
        for b in size.blocks
    )
    # a gate has 4 moss corners, 4 cream sides and a plum middle; 4 x 1 blocks are 2 gates and 2 leaves
    assert gate == {
        ("B square", "moss"): (4, 8), ("B square", "cream"): (4, 8), ("B square", "plum"): (1, 2),
    }  # fmt: skip
    # a leaf has 3 plum and 2 cream squares, and 4 squares of two triangles
    assert leaf == {
        ("A half-square triangle", "moss"): (4, 8), ("A half-square triangle", "cream"): (4, 8),
        ("B square", "plum"): (3, 6), ("B square", "cream"): (2, 4),
    }  # fmt: skip


def test_the_blocks_take_all_patches_that_the_plan_cuts():
    size = planned().sizes[0]
    whole: dict[tuple[str, str], int] = {}
    for block in size.blocks:
        for cut in block_cuts(size, block):
            key = str(cut.title), cut.fabric.id
            whole[key] = whole.get(key, 0) + cut.whole
    of_blocks = [patch for patch in size.cutting.patches if patch.per_block]
    assert whole == {(str(p.title), p.fabric): p.pieces for p in of_blocks}


def test_a_row_names_the_strips_that_hold_its_patches():
    size = planned().sizes[0]
    for block in size.blocks:
        for cut in block_cuts(size, block):
            (cloth,) = (c for c in size.cutting.fabrics if c.fabric == cut.fabric.id)
            held = {s.width for s in cloth.strips for u in s.uses if u.name == str(cut.title)[0]}
            assert len(str(cut.strips).split(", ")) == len(held)


def test_cutting_steps_and_pressing_stand_with_each_block():
    html = page()
    places = [
        html.index(mark)
        for mark in (
            'id="cutting"', 'id="piecing"',
            "To cut for “Gate”", 'alt="', "How to press the seams of “Gate”",
            "To cut for “Leaf”", "How to press the seams of “Leaf”",
        )
        if mark != 'alt="'
    ]  # fmt: skip
    assert places == sorted(places)
    assert html.index('id="pressing"') > places[-1]  # where blocks join
    assert html.count("How to press the seams of “Gate”") == 1


def test_the_order_is_read_and_by_page_where_nothing_is_said():
    def order(said):
        text = f"booklet: {{editions: {{course: {{pages: [cutting, piecing]{said}}}}}}}\n"
        return pattern(GOOD + text).booklet.editions[0].order

    assert order("") is order(", order: by page") is PageOrder.PAGES
    assert order(", order: by block") is PageOrder.BLOCKS


def test_an_order_that_orders_nothing_is_told():
    line = GOOD.count("\n") + 1
    text = "booklet: {editions: {course: {pages: [cutting], order: by block}}}\n"
    assert faults(GOOD + text) == [("conflicting-keys", line, 56)]
