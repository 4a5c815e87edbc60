"""The pressing solver against brute force, HiGHS and networkx."""

import itertools
import random

import networkx
import numpy as np
import pytest
from hypothesis import given, settings, strategies as st
from sampling import examples

from booklet.pressing.equations.cycle_cover import cover, covered
from booklet.pressing.equations.elimination import eliminate, elimination_order
from booklet.pressing.equations.model import Model, Term, components, holds, part
from booklet.pressing.equations.parity import Parity
from booklet.pressing.equations.solve import by_parity, solve
from tests.pressing_milp import by_milp


def brute_force(model: Model) -> int:
    """The least cost over all assignments, each a row of a table."""
    n = len(model.prefer)
    every = (np.arange(2**n)[:, None] >> np.arange(n)) & 1
    costs = sum((np.array(model.prefer[x])[every[:, x]] for x in range(n)), np.zeros(2**n, int))
    for term in model.terms:
        truths = sum((every[:, x] == positive).astype(int) for x, positive in term.literals)
        costs = costs + term.weight * ((truths > 0) & (truths < len(term.literals)))
    return int(costs.min())


def random_model(seed: int) -> Model:
    """Up to 10 (in every fourth case 14) unknowns, terms of 1 to 5 literals, like a block's."""
    pick = random.Random(seed)
    n = pick.randint(11, 14) if seed % 4 == 0 else pick.randint(1, 10)
    prefer = tuple((pick.randint(0, 9), pick.randint(0, 9)) for _ in range(n))
    terms = []
    for _ in range(pick.randint(0, 2 * n)):
        size = pick.choice((1, 2, 2, 2, 3, 4, 5))
        literals = tuple((pick.randrange(n), pick.random() < 0.5) for _ in range(size))
        terms.append(Term(literals, pick.choice((1, 5, 12))))
    return Model(prefer, tuple(terms))


@pytest.mark.parametrize("batch", range(16))
def test_the_solver_finds_what_brute_force_finds(batch: int):
    for seed in range(20 * batch, 20 * batch + 20):  # 16 * 20 = 320 random cases
        model = random_model(seed)
        found = solve(model)
        assert found.cost == model.cost(found.values) == found.bound == brute_force(model)


@pytest.mark.parametrize("seed", range(40))
def test_elimination_and_milp_agree(seed: int):
    model = random_model(seed)
    exact = eliminate(model, elimination_order(model))
    milp = by_milp(model)
    assert exact.cost == model.cost(exact.values)
    assert milp.cost == milp.bound == exact.cost


def tangled(seed: int) -> Model:
    """Twelve unknowns, every two of them tied one way or the other: 66 terms of 3."""
    pick = random.Random(seed)
    pairs = itertools.combinations(range(12), 2)
    terms = [Term(((a, True), (b, pick.random() < 0.5)), 3) for a, b in pairs]
    return Model(((1, 0),) * 12, tuple(terms))


@pytest.mark.parametrize("seed", range(8))
def test_what_is_too_wide_is_bounded_from_both_sides(seed: int):
    model = tangled(seed)
    found, best = solve(model, cells=0), brute_force(model)
    assert found.bound <= best <= found.cost == model.cost(found.values)
    assert found.cost <= best + 6  # two terms of 66 from the best, measured
    assert solve(model, cells=0) == found  # the same again


def test_a_term_of_many_literals_is_no_wider_than_two():
    # 24 wedges that want to lie alike, one fixed against them: the term breaks (5), or 23 give way (23)
    prefer = ((0, 100), *[(1, 0)] * 23)
    model = Model(prefer, (Term(tuple((x, True) for x in range(24)), 5),))
    order = elimination_order(model)
    assert (
        order.cells <= 26 * 2**3
    )  # 24 wedges and two unknowns more, of each a table of three at most
    assert eliminate(model, order).cost == 5  # a table of its own would hold 2^24 numbers


def test_a_fixed_unknown_outweighs_every_term():
    # x is wanted True at a price of 100; a term of 5 ties y to the opposite of x
    model = Model(((100, 0), (0, 1)), (Term(((0, True), (1, False)), 5),))
    assert solve(model).values == (True, False)
    assert by_milp(model).values == (True, False)


def test_terms_that_can_all_hold_leave_two_candidates():
    # a = b, b != c; a likes True (cost 0 against 3), c likes True (0 against 2): a wins
    model = Model(((3, 0), (0, 0), (2, 0)), (
        Term(((0, True), (1, True)), 10), Term(((1, True), (2, False)), 10),
    ))  # fmt: skip
    found = by_parity(model)
    assert found is not None and found.values == (True, True, False) and found.cost == 2


def test_components_are_what_terms_tie_together():
    model = Model(((0, 0),) * 5, (Term(((0, True), (3, True)), 1), Term(((2, True), (4, True)), 1)))
    assert components(model) == ((0, 3), (1,), (2, 4))
    assert part(model, (2, 4)).terms == (Term(((0, True), (1, True)), 1),)


@given(st.integers(1, 12).flatmap(lambda n: st.tuples(st.just(n), st.lists(
    st.tuples(st.integers(0, n - 1), st.integers(0, n - 1)), max_size=25))))  # fmt: skip
def test_parity_is_two_colouring(case):
    n, edges = case
    graph = networkx.Graph()
    graph.add_nodes_from(range(n))
    links = Parity(n)
    for a, b in edges:
        graph.add_edge(a, b)
        held = links.join(a, b, True)
        assert held == networkx.is_bipartite(graph)
        if not held:
            path, _ = links.path(a, b)
            assert len(path) % 2 == 1  # with the edge a-b an odd cycle
            assert path[0] == a and path[-1] == b
            assert all(graph.has_edge(x, y) for x, y in itertools.pairwise(path))
            return
    colours = networkx.bipartite.color(graph)
    for a, b in edges:
        assert (links.find(a)[1] != links.find(b)[1]) == (colours[a] != colours[b])


@settings(max_examples=examples(60))
@given(st.integers(0, 10_000))
def test_flipping_every_label_keeps_the_cost_of_the_terms(seed: int):
    model = random_model(seed)
    pick = random.Random(seed)
    values = tuple(pick.random() < 0.5 for _ in model.prefer)
    flipped = tuple(not v for v in values)
    assert [holds(t, values) for t in model.terms] == [holds(t, flipped) for t in model.terms]


@pytest.mark.parametrize("batch", range(10))
def test_the_least_given_up_is_what_brute_force_finds(batch: int):
    for seed in range(20 * batch, 20 * batch + 20):
        model = random_model(seed)
        only = Model(((0, 0),) * len(model.prefer), model.terms)  # no preferences
        found = cover(only)
        broken = {t for t, term in enumerate(only.terms) if not holds(term, found.values)}
        assert found.broken == broken
        weight = sum(only.terms[t].weight for t in broken)
        assert found.bound == weight == brute_force(only)
        whole = covered(model)
        assert whole.bound <= brute_force(model) <= whole.cost == model.cost(whole.values)


@pytest.mark.parametrize("seed", range(20))
def test_an_odd_cycle_is_odd_and_goes_round(seed: int):
    model = tangled(seed)
    cycle = cover(model).cycle
    assert len(set(cycle.terms)) == len(cycle.terms) == len(cycle.unknowns) > 1
    differ = 0
    ring = zip(cycle.terms, cycle.unknowns, (*cycle.terms[1:], cycle.terms[0]), strict=True)
    for one, x, other in ring:  # an unknown in two terms, true in one and false in the other
        signs = [dict(model.terms[t].literals)[x] for t in (one, other)]
        differ += signs[0] != signs[1]
    assert differ % 2 == 1
