"""The patterns of the tests and the example: checked, planned and told as facts once, while tests about them follow each other.

A dozen files sweep over all patterns; `conftest.py` puts what they ask about one pattern together.
"""

from functools import lru_cache
from pathlib import Path

from booklet import compiler
from booklet.checks import CheckedPattern
from booklet.diagnostic import Outcome
from booklet.facts import facts_text
from booklet.pages.pictures.album import drawn
from booklet.pages.pictures.figures import FigureSource
from booklet.plan import Plan

HERE = Path(__file__).parent
EXAMPLE = HERE.parent / "example_pattern"
FOLDERS = tuple(sorted(f.parent for f in HERE.glob("patterns/*/pattern.yaml")))

KEPT = 4  # patterns: tests of a sweep stand together, others use a few in turn


@lru_cache(KEPT)
def checked(folder: Path) -> Outcome[CheckedPattern]:
    """A pattern as `booklet check` finds it."""
    return compiler.check(folder)


@lru_cache(KEPT)
def plan_of(folder: Path) -> Plan:
    """The plan of all sizes of a pattern."""
    outcome = checked(folder)
    assert outcome.value is not None, [d.message for d in outcome.diagnostics]
    return compiler.plan(outcome.value)


@lru_cache(KEPT)
def figures_of(folder: Path) -> FigureSource:
    """The pictures of a pattern, each drawn when it is first asked for."""
    return drawn(plan_of(folder))


@lru_cache(KEPT)
def facts_told(folder: Path) -> str:
    """The facts of a pattern as text, as `booklet facts` prints them."""
    return facts_text(plan_of(folder))
