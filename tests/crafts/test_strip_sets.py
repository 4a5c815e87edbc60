"""Strip sets by themselves: how rows are found, their figures."""

from __future__ import annotations

from crafts_helpers import RULER, asked, cuts, joined, kind

from booklet.crafts.units.strip_sets import UNIT, WAY
from booklet.kit.outlines.plane import rectangle


def test_a_row_is_read_from_the_end_that_sorts_first():
    wide, small = rectangle(0, 0, 3, 2), rectangle(3, 0, 1, 2)
    found = UNIT.find(joined((wide, "ink"), (small, "sky"), box=(4, 2)))
    assert (found.sizes, found.fabrics) == ((2, 1, 3), ("sky", "ink"))  # cut across at 2
    below = rectangle(0, 2, 3, 1)
    column = UNIT.find(joined((wide, "ink"), (below, "sky"), box=(3, 3)))
    assert column.sizes == (3, 1, 2)
    assert UNIT.find(joined((wide, "ink"), (small, "ink"), box=(4, 2))) is None


def test_sets_of_one_length_and_a_short_one():
    # 40 in - 1/2 in to straighten = 39 1/2, / 2 1/2 = 15 segments from a set: of 16, two sets of 8
    made = WAY.figures(kind((2.0, 1.0, 3.0), ("sky", "ink"), 16), asked())
    assert (made.each, made.rounds, str(made.across)) == (8, 2, "2 1/2")
    assert cuts(made) == [("sky", "20 1/2", 2), ("ink", "20 1/2", 2)]  # 1/2 + 8 x 2 1/2
    few = WAY.figures(kind((2.0, 1.0, 3.0), ("sky", "ink"), 4), asked())
    assert cuts(few) == [("sky", "10 1/2", 1), ("ink", "10 1/2", 1)]  # 1/2 + 4 x 2 1/2


def test_three_are_not_worth_it_and_the_reason_is_said():
    alike = kind((2.0, 1.0, 3.0), ("sky", "ink"), 3)
    assert WAY.figures(alike, asked()) is None
    assert "at most `3` are alike" in UNIT.unfit([alike], RULER, "lap").says
    between = kind((2.0, 1.03, 3.0), ("sky", "ink"), 9)
    assert "between the marks" in UNIT.unfit([between], RULER, "lap").says
