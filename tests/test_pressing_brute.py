"""Random blocks of at most 14 unknowns in random sets: the pressing found is the best of all."""

import random

import pytest

from booklet.pattern import By
from booklet.pressing.equations.problem import clash_cost, clashes_in, model_of
from booklet.pressing.equations.size_problem import problem_for
from booklet.pressing.equations.solve import solve
from tests.builders import block_of
from tests.pressing_helpers import sew, sewn_blocks, square
from tests.test_pressing_blocks import COLOURS, cut_up
from tests.test_pressing_neighbours import straight
from tests.test_pressing_solver import brute_force

MOST = 14
BLOCKS = 300


def grid(pick: random.Random):
    """(pieces, steps): 2 x 2 or 3 x 3 rectangles of random colours, symmetrical, sewn in rows."""
    n = pick.choice((2, 3))
    sides = [1, 1] if n == 2 else [1, pick.choice((1, 2)), 1]
    pieces = []
    for row in range(n):
        for column in range(n):
            x, y = sum(sides[:column]), sum(sides[:row])
            colour = pick.choice(COLOURS)
            pieces.append(square(f"r{row}c{column}", x, y, colour, sides[column], sides[row]))
    steps = [sew(f"row{r}", *(f"r{r}c{c}" for c in range(n))) for r in range(n)]
    return pieces, [*steps, sew("b", *(f"row{r}" for r in range(n)))]


def random_set(seed: int):
    """(size, assemblies) of a random block in a random set of quarter turns, by machine or by hand."""
    pick = random.Random(seed)
    if pick.random() < 0.7:
        pieces, steps = grid(pick)
    else:
        pieces, steps = cut_up(seed, pick.choice((3, 4))), None
    turns = [[("b", pick.choice((0, 90, 180, 270))) for _ in range(2)] for _ in range(2)]
    made = sewn_blocks(
        [block_of(pieces, id="b", steps=steps)],
        by=pick.choice(list(By)),
        across=pick.randint(2, 4),
        down=pick.randint(2, 4),
        quilt=straight(*turns),
    )
    return made.pattern.sizes[0], {"b": made.assemblies["s", "b"]}


@pytest.mark.parametrize("batch", range(10))
def test_no_pressing_of_a_random_block_is_better(batch: int):
    tied = 0
    for seed in range(batch * BLOCKS // 10, (batch + 1) * BLOCKS // 10):
        problem = problem_for(*random_set(seed))
        model = model_of(problem)
        assert len(model.prefer) <= MOST
        found = solve(model)
        best = brute_force(model)
        assert found.cost == found.bound == best
        # preferences never outweigh a clash: what is left of the cost beside them is clashes
        assert clashes_in(problem, found.values) <= best // clash_cost(problem)
        tied += bool(model.terms)
    assert tied >= 15  # of 30: things are asked of most
