"""Pictures of cloth: strips, precuts piece by piece, what is left over."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from booklet import compiler
from booklet.drawing.cloths.cut_names import leftover_label, widest_gap
from booklet.drawing.cloths.cutting_order import cloth_figure, strip_rows
from booklet.drawing.cloths.stock import stock_kinds
from booklet.drawing.ink.fills import looks_of

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


def test_lengthwise_strips_are_named_along_themselves():
    svg = drawn("bed", "sky").svg
    assert "border 1, sides" in svg and "rotate(-90" in svg


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


def test_a_label_without_room_is_left_out():
    assert leftover_label((0.0, 4.0), 0.0, 4.0, "12 1/2 × 4 1/2 in") == []
    (level,) = leftover_label((0.0, 60.0), 0.0, 4.0, "12 1/2 × 4 1/2 in")
    (upright,) = leftover_label((0.0, 4.0), 0.0, 60.0, "12 1/2 × 4 1/2 in")
    assert (level.turn, upright.turn) == (0.0, -90.0)
