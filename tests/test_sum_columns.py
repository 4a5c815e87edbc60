"""Sums in three columns on paper: shared out as evenly as can be, held to every way to share them out."""

from itertools import combinations_with_replacement, pairwise
from random import Random

from markupsafe import Markup

from booklet.pages.style.paper import sheet_of
from booklet.pages.tables.cutlist import PrintedSumLine
from booklet.pages.views.sum_columns import column_begins
from booklet.pattern import Paper

LETTER = sheet_of(Paper.LETTER)


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
