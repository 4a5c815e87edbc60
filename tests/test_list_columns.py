"""Lists in columns on paper: shared out as evenly as can be, held to every way to share them out."""

from itertools import combinations_with_replacement, pairwise
from random import Random

import pytest
from markupsafe import Markup

from booklet.drawing.lettering.text_widths import wrapped
from booklet.kit.measure import POINT_MM
from booklet.pages.style.paper import sheet_of
from booklet.pages.tables.cutlist import PrintedSumLine
from booklet.pages.views.list_columns import column_begins as columns
from booklet.pattern import Paper

LETTER = sheet_of(Paper.LETTER)


def column_begins(sums, sheet):
    """Where the columns of some sums begin, of which only the lines matter."""
    return columns("amounts", [(None, lines) for lines in sums], sheet)


def sums(*lines: int):
    """Sums of so many lines that are not broken."""
    line = PrintedSumLine(Markup("1 strip, 2 in"), Markup("2 in"), False)
    return [(line,) * count for count in lines]


def tallest(lines, begins):
    """The lines in the tallest column, where a title and what is bought with the room about them take 3 1/2."""
    cuts = [0, *sorted(begins), len(lines)]
    return max(sum(lines[a:b]) + 3.5 * (b - a) for a, b in pairwise(cuts))


def test_a_column_begins_where_the_one_before_is_as_tall_as_the_tallest_must_be():
    # 6 + 3 and the titles of both are the least that one column takes: 4 + 6 and 2 + 2 + 2 take no more than it
    assert column_begins(sums(6, 3, 3, 5, 2, 2), LETTER) == {2, 4}
    assert column_begins(sums(5), LETTER) == column_begins([], LETTER) == frozenset()


def test_no_other_way_to_share_sums_out_is_more_even():
    chance = Random(7)
    for _ in range(50):
        lines = [chance.randrange(1, 7) for _ in range(chance.randrange(1, 9))]
        begins = column_begins(sums(*lines), LETTER)
        ways = combinations_with_replacement(range(len(lines) + 1), 2)
        least = min(tallest(lines, way) for way in ways)
        assert len(begins) <= 2 and tallest(lines, begins) == least, lines


def test_tenths_of_a_point_make_no_column_taller():
    """A line of a sum takes 10.8 points and 2 stand below it, of which no computer has the exact sum: without room for that about one
    list in thirty had a column that was taller by a whole entry."""
    chance = Random(3)
    long = "2 1/2 in finished and 1/2 in for the seams of both sides make 3 in to cut, "
    lines = [Markup(long * n) for n in (1, 2, 3)]
    fill = [tall_sum([line]) for line in lines]
    assert fill[0] < fill[1] < fill[2]
    for _ in range(200):
        some = [chance.choice(lines) for _ in range(chance.randrange(2, 7))]
        (second,) = columns("sums", some, LETTER)
        least = min(max(tall_sum(some[:n]), tall_sum(some[n:])) for n in range(1, len(some)))
        assert max(tall_sum(some[:second]), tall_sum(some[second:])) == pytest.approx(least)


def tall_sum(some):
    """How tall a column of sums is: of Letter (612 - 67.5 - 54 - 20) / 2 = 235 points wide."""
    return sum(10.8 * len(wrapped(line, 8, 235.25 * POINT_MM)) + 2 for line in some)


def test_words_that_fill_two_lines_count_twice():
    # a column of Letter is (612 - 67.5 - 54 - 2 x 20.25) / 3 = 150 points wide, less 13.5 and the figure: some 30 letters
    long = PrintedSumLine(
        Markup("one more repeat, as the cloth may begin anywhere"), Markup("6 in"), False
    )
    short, three = sums(2)[0], sums(3)[0]
    assert column_begins([(long,), short, short, three], LETTER) == column_begins(
        sums(2, 2, 2, 3), LETTER
    )


def test_sums_that_take_more_than_a_page_are_left_to_flow():
    assert (
        column_begins(sums(*[12] * 6), LETTER) != frozenset()
    )  # 2 x 12 lines and titles: 370 points
    assert column_begins(sums(*[30] * 6), LETTER) == frozenset()  # 2 x 30 lines: 760 points


def test_other_lists_are_shared_out_by_the_lines_they_fill():
    tools = [Markup("Rotary cutter")] * 9 + [
        Markup("Needles, and a thread that is as thin as it is strong")
    ]
    # 9 x 1 line and one of 2: 11 lines, so that 6 of them stand in the first column and 3 + 2 in the second
    assert columns("tools", tools, LETTER) == columns("tools", tools, sheet_of(Paper.A5)) == {6}
    words = [("nest", "allowances that lock")] * 9
    assert columns("glossary", words, LETTER) == {3, 6}
    assert columns("glossary", words, sheet_of(Paper.A5)) == frozenset()  # one column
    # what is to be made stands under the last line of a card, and is two lines high
    assert columns("card", [("", Markup("Sew."))] * 4, LETTER) == {3}
    assert (
        columns("sums", [Markup("2 + 1/2 = 2 1/2")] * 80, LETTER) == frozenset()
    )  # 40 x 12.8 points: it may break
