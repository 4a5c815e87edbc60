"""A few numbers out of the many that `fuzz_long.py` tries: no mutation of a pattern ends in a traceback."""

import pytest
from fuzz_long import checked, set_pages
from hypothesis import given, settings, strategies as st
from mutations import corpus, mutated
from sampling import examples

SMALL = (
    "nine_patch",
    "four_patch",
    "drawn_star",
    "quarter_circles",
    "log_cabin",
    "metric",
    "square_in_square",
)


@settings(max_examples=examples(60), deadline=None, derandomize=True)
@given(st.integers(0, 2**32))
def test_whatever_is_changed_there_is_an_outcome(number):
    checked(number, SMALL)


def test_the_corpus_is_whole_and_a_number_means_one_source():
    assert {name for name, _, _ in corpus()} >= set(SMALL) and len(corpus()) > 30
    assert mutated(5) == mutated(5) and mutated(5) != mutated(6)


@pytest.mark.parametrize("number", range(4))
def test_pages_of_sound_mutations_can_be_set(number):
    for other in range(1000 * number, 1000 * number + 1000):
        _, outcome = checked(other, SMALL)
        if outcome.value is not None:
            assert set_pages(outcome, with_pdf=False) >= 0
            return
    pytest.fail("all mutations have faults")
