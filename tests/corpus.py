"""The patterns of the tests and the example: checked, planned and told as facts once, while tests about them follow each other.

A dozen files sweep over all patterns; `conftest.py` puts what they ask about one pattern together.
"""

from collections.abc import Callable, Iterator, Sequence
from functools import cache, lru_cache, wraps
from pathlib import Path
from typing import TypeVar

from jsonschema.validators import validator_for

from booklet.checks.checked import CheckedPattern
from booklet.facts import facts_schema, facts_text
from booklet.kit.diagnostic import Outcome
from booklet.kit.remembered.memory import Memory
from booklet.pages.document import Document
from booklet.pages.naming import chosen_sizes
from booklet.pages.pictures.album import drawn
from booklet.pages.pictures.figures import FigureSource
from booklet.pages.screen.page import ScreenView, gathered, one_file
from booklet.pattern import Edition, Paper
from booklet.plan import BlockPlan, Plan, SizePlan
from booklet.recipe import compiler
from booklet.recipe.choices import key_of, views

HERE = Path(__file__).parent
EXAMPLE = HERE.parent / "example_pattern"
FOLDERS = tuple(sorted(f.parent for f in HERE.glob("patterns/*/pattern.yaml")))

KEPT = 6  # patterns: tests of a sweep stand together, others use a few in turn
Made = TypeVar("Made")


def kept(made: Callable[[Path], Made]) -> Callable[[Path], Made]:
    """Keep what is made of the last few patterns, and of the example to the end: most files use it."""
    of_example, of_others = cache(made), lru_cache(KEPT)(made)

    @wraps(made)
    def either(folder: Path) -> Made:
        return (of_example if folder == EXAMPLE else of_others)(folder)

    return either


@kept
def checked(folder: Path) -> Outcome[CheckedPattern]:
    """A pattern as `booklet check` finds it."""
    return compiler.check(folder)


@kept
def plan_of(folder: Path) -> Plan:
    """The plan of all sizes of a pattern."""
    outcome = checked(folder)
    assert outcome.value is not None, [d.message for d in outcome.diagnostics]
    return compiler.plan(outcome.value)


def only(name: str) -> tuple[SizePlan, BlockPlan]:
    """The one size and the one block of a pattern of the tests."""
    (folder,) = (folder for folder in FOLDERS if folder.name == name)
    (size,) = plan_of(folder).sizes
    (block,) = size.blocks
    return size, block


@kept
def figures_of(folder: Path) -> FigureSource:
    """The pictures of a pattern, each drawn when it is first asked for."""
    return drawn(plan_of(folder))


@kept
def views_of(folder: Path) -> Sequence[ScreenView]:
    """All ways in which readers may have a pattern shown on its web page."""
    outcome = checked(folder)
    assert outcome.value is not None
    return views(outcome.value, plan_of(folder), figures_of(folder), Memory().ask)


@kept
def facts_told(folder: Path) -> str:
    """The facts of a pattern as text, as `booklet facts` prints them."""
    return facts_text(plan_of(folder))


def documents(
    plan: Plan,
    edition: Edition,
    papers: Sequence[Paper],
    sizes: tuple[str, ...] = (),
    figures: FigureSource | None = None,
    web: bool = True,
) -> Iterator[Document]:
    """The documents of an edition: its web page, in its own units and cloth (if `web`), then those for print."""
    figures = figures or drawn(plan)
    chosen = tuple(size.size.id for size in chosen_sizes(plan, edition, sizes))
    if web and chosen:
        own = ScreenView(units=plan.pattern.units, cloth=None, plan=plan, figures=figures)
        yield one_file(gathered((own,), edition, chosen, key_of(plan.pattern, edition)))
    yield from compiler.print_pages(plan, edition, figures, papers, sizes)


@cache
def schema_of_facts():
    """What holds facts to their schema, which is one itself: looked at once, for that takes longer than most facts."""
    schema = facts_schema()
    validator = validator_for(schema)
    validator.check_schema(schema)
    return validator(schema)
