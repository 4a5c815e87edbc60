"""Pictures of cloth: strips, precuts piece by piece, what is left over."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from booklet.drawing.cloths.cut_names import CutNames, roman, widest_gap
from booklet.drawing.cloths.cutting_order import cloth_figure, strip_rows
from booklet.drawing.cloths.stock import stock_kinds
from booklet.drawing.ink.fills import looks_of
from booklet.kit.words import words_of
from booklet.recipe import compiler

FOLDER = Path(__file__).parent / "patterns" / "market_day"


@cache
def plan():
    checked = compiler.check(FOLDER)
    assert checked.value is not None, checked.diagnostics
    return compiler.plan(checked.value)


def of(size_id, fabric):
    size = next(size for size in plan().sizes if size.size.id == size_id)
    return size, next(cloth for cloth in size.cutting.fabrics if cloth.fabric == fabric)


def drawn(size_id, fabric):
    return cloth_figure(*of(size_id, fabric), looks_of(plan()))


def test_precuts_that_are_cut_alike_are_drawn_once():
    # 84 squares of 3 1/2 in, 4 from each square of 10 in: 21 alike
    _, cloth = of("bed", "rust")
    (kind,) = stock_kinds(cloth)
    assert kind.numbers == tuple(range(1, 22))
    assert [row.count for row in strip_rows(cloth)] == [21, 21]  # two strips of each
    assert "× 21" in drawn("bed", "rust").svg


def test_every_precut_is_drawn():
    _, cloth = of("throw", "rust")  # 54 squares, 16 from each: 3 full ones and one more
    numbers = [number for kind in stock_kinds(cloth) for number in kind.numbers]
    assert sorted(numbers) == [1, 2, 3, 4]


def test_the_size_of_what_is_left_over_is_said():
    svg = drawn("bed", "sky").svg
    _, cloth = of("bed", "sky")
    assert float(cloth.uncut) >= 1.5
    assert "40 × " in svg  # of the length bought


def test_names_stand_upright_on_lengthwise_strips_too():
    svg = drawn("bed", "sky").svg  # the strips of its borders lie along the selvedge
    assert "border 1, sides" in svg and "rotate(-90" not in svg


@pytest.mark.parametrize(
    ("spans", "gap"),
    [
        ([], (0, 100)),
        ([(0, 30)], (30, 100)),
        ([(0, 30), (70, 100)], (30, 70)),  # folded cloth: the middle
        ([(0, 10), (50, 55)], (55, 100)),
    ],
)
def test_the_widest_gap(spans, gap):
    shapes = [("A", ((a, 0.0), (b, 0.0), (b, 5.0), (a, 5.0))) for a, b in spans]
    assert widest_gap(shapes, 0.0, 100.0) == gap


def test_what_has_no_room_gets_a_numeral_that_is_explained_below():
    names = CutNames({})
    # a low stretch has room for a size across, none where it is lower than a line of 3 mm
    (level,) = names.left_over((0.0, 60.0), 0.0, 4.0, "12 1/2 × 4 1/2 in")
    assert (level.text, level.turn) == ("12 1/2 × 4 1/2 in", 0.0)
    assert names.left_over((0.0, 60.0), 0.0, 2.0, "12 1/2 × 4 1/2 in") == []
    # a narrow one has a numeral, and two alike have the same; the words stand below, upright
    (first,) = names.left_over((0.0, 4.0), 10.0, 60.0, "4 1/2 × 30 in")
    (again,) = names.left_over((10.0, 14.0), 10.0, 60.0, "4 1/2 × 30 in")
    assert (first.text, again.text, first.turn) == ("i", "i", 0.0)
    ((line,), high) = names.explained(0.0, 80.0, 100.0, words_of("en"))
    assert line.text.replace("\xa0", " ") == "i = 4 1/2 × 30 in" and high > 3.0
    names.left_over((20.0, 24.0), 10.0, 60.0, "7 × 3 in")
    ((french,), _) = names.explained(0.0, 80.0, 100.0, words_of("fr"))
    assert " in\u202f; ii" in french.text.replace(
        "\xa0", " "
    )  # French sets a space before a semicolon
    del names.numerals["7 × 3 in"]
    # a place that is taken gets none, and no numeral stands below for it
    assert names.left_over((0.0, 4.0), 10.0, 60.0, "2 × 30 in") == []
    assert len(names.explained(0.0, 80.0, 100.0, words_of("en"))[0]) == 1


def test_numerals_are_those_of_the_romans():
    assert [roman(n) for n in (1, 4, 6, 9, 14)] == ["i", "iv", "vi", "ix", "xiv"]
