"""The door to HiGHS: small programmes whose answers can be checked by hand."""

from __future__ import annotations

import subprocess
import sys

from booklet.kit.solver import INFINITY, Linear, Row, Variable, minimise


def test_a_linear_programme_with_its_prices() -> None:
    # two strips: x gives 2 squares for 3 in, y gives 1 square for 1 in; 5 squares: 5 y = 5 in
    answer = minimise([Variable(3), Variable(1)], [Row(((0, 2), (1, 1)), low=5)])
    assert answer is not None
    assert answer.values == (0.0, 5.0)
    assert answer.cost == 5.0
    assert answer.prices == (1.0,)  # one more square costs 1 in


def test_an_integer_programme() -> None:
    # strips of 3 pieces for 4 in, single pieces for 2 in; 4 pieces: 4 + 2 = 6 in
    answer = minimise(
        [Variable(4, whole=True), Variable(2, whole=True)], [Row(((0, 3), (1, 1)), low=4)]
    )
    assert answer is not None
    assert answer.values == (1.0, 1.0)
    assert answer.bound == answer.cost == 6.0


def test_no_solution_is_none() -> None:
    assert minimise([Variable(1, high=1)], [Row(((0, 1),), low=2)]) is None
    assert minimise([], [Row((), low=1)]) is None
    assert minimise([], []) is not None


def test_it_prints_nothing() -> None:
    code = "from booklet.kit.solver import *; minimise([Variable(1, whole=True)], [Row(((0, 1),), low=1.5)])"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout == done.stderr == ""


def test_a_known_solution_never_spoils_the_answer() -> None:
    # three kinds of strips; the known mixture costs 9, the best 8; rows must hold
    heights = (2, 3, 4, 5)
    holds = ((2, 0, 0), (1, 1, 0), (0, 0, 1), (1, 0, 1))
    demand = (2, 1, 1)
    variables = [Variable(h, whole=True) for h in heights]
    rows = [
        Row(tuple((i, float(kind[item])) for i, kind in enumerate(holds) if kind[item]), low=need)
        for item, need in enumerate(demand)
    ]
    answer = minimise(variables, rows, start=(1, 1, 1, 0))
    assert answer is not None
    assert answer.cost == 8.0  # 3 + 5
    assert answer.values == (0.0, 1.0, 0.0, 1.0)


def test_a_known_solution_stands_in_where_the_search_ends_too_early() -> None:
    answer = minimise([Variable(1, whole=True)], [Row(((0, 2),), low=3)], start=(2,))
    assert answer is not None
    assert answer.cost == 2.0


def test_a_programme_that_grows() -> None:
    # 5 squares: strips of 2 for 3 in; then strips of 5 for 4 in come to be known
    linear = Linear([(5.0, INFINITY)])
    first = linear.add(Variable(3), [(0, 2.0)])
    answer = linear.solve()
    assert answer is not None
    assert answer.cost == 7.5  # 5 / 2 * 3
    assert answer.prices == (1.5,)
    second = linear.add(Variable(4), [(0, 5.0)])
    answer = linear.solve()
    assert answer is not None
    assert (answer.values[first], answer.values[second], answer.cost) == (0.0, 1.0, 4.0)
