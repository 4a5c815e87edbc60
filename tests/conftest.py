"""Options and paths that all tests share."""

import gc
import io
import sys
from importlib import import_module
from pathlib import Path

import pytest
from hypothesis import settings

from booklet.walls.process import Worker

sys.path.insert(0, str(Path(__file__).parent))

import sampling

gc.set_threshold(
    20_000, 10, 10
)  # laying pages out makes many objects that live: looking at them all takes a fifth


def pytest_addoption(parser):
    parser.addoption(
        "--record-golden", action="store_true", help="write the kept pictures and texts anew"
    )
    parser.addoption(
        "--everything",
        action="store_true",
        help="let every sweep go over every pattern, and try every random case",
    )


OF_FACTS = {"test_facts.py", "test_sewn_through.py"}  # they try all patterns but the large ones
CHANCE = {"seed", "batch", "number"}  # the names of what random cases begin from
EVERYTHING = "everything: left to a run with --everything, for a case beside it asks the same"
COVERING = "covering(*parts, also=()): sweeps over the patterns that cover these parts of a source"


def pytest_configure(config):
    config.addinivalue_line("markers", COVERING)
    config.addinivalue_line("markers", EVERYTHING)
    sampling.everything = config.getoption("--everything") or any("[" in a for a in config.args)
    # how long a machine takes is no property
    settings.register_profile("untimed", deadline=None, max_examples=sampling.examples(100))
    settings.load_profile("untimed")


def pytest_collection_modifyitems(config, items):
    """Of what is alike a part is tried (`sampling.py`), unless `--everything` or a single case is asked for. What the files ask
    of one pattern stands together, so that it is checked and planned once (`corpus.py`)."""
    if not sampling.everything:
        out = {item for item in items if not _is_tried(item)}
        config.hook.pytest_deselected(items=[item for item in items if item in out])
        items[:] = [item for item in items if item not in out]
    items.sort(key=lambda item: _pattern_of(item) or "~")


def pytest_collection_finish():
    """What is there by now stays to the end: it need not be looked at again and again."""
    gc.collect()
    gc.freeze()


def _is_tried(item):
    params = getattr(getattr(item, "callspec", None), "params", {})
    numbers = [v for name, v in params.items() if name in CHANCE and isinstance(v, int)]
    if item.get_closest_marker("everything") is not None:
        return False
    covering, pattern = item.get_closest_marker("covering"), _pattern_of(item)
    if covering is not None and pattern is not None:
        also = set(covering.kwargs.get("also", ()))
        return pattern in (sampling.cover(*covering.args) | also) - sampling.LARGE
    if pattern in sampling.LARGE and item.path.name in OF_FACTS:
        return False
    return all(sampling.is_tried(item.path.name, number) for number in numbers)


def _pattern_of(item):
    """The pattern that a test of a sweep is about: the first word of its brackets, if there is such a folder."""
    named = item.name.partition("[")[2].partition("]")[0].partition("-")[0]
    return named if named in PATTERNS else None


PATTERNS = {
    "example_pattern",
    *(path.name for path in (Path(__file__).parent / "patterns").iterdir()),
}


@pytest.fixture(scope="module")
def read_here():
    """Drawings and pictures are read in this process, without a worker: sooner, and counted by coverage."""
    from booklet.source.files.apart import ReadingWorkers
    from booklet.walls.process import answer
    from booklet.walls.wire import send

    def told(self, serves, file, data, span, asked=""):
        requests, answers = io.BytesIO(), io.BytesIO()
        send(requests, (asked or file).encode("utf-8", "surrogatepass"))
        send(requests, data)
        requests.seek(0)
        import_module(serves).serve(requests, answers)
        answers.seek(0)
        return answer(answers)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(ReadingWorkers, "told", told)
        yield


@pytest.fixture(scope="session", autouse=True)
def _kept_workers():
    """A worker that one test has started serves the next (`kept_workers.py`)."""
    from kept_workers import Bench

    from booklet.layouts import pool
    from booklet.walls import process

    bench = Bench()
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(pool, "Worker", bench.worker)
        patch.setattr(process, "Worker", bench.worker)
        yield
    bench.close()


@pytest.fixture
def fresh_workers(_kept_workers, monkeypatch):
    """Each build and each reading starts its own workers, as it does for a user."""
    from booklet.layouts import pool
    from booklet.walls import process

    monkeypatch.setattr(pool, "Worker", Worker)
    monkeypatch.setattr(process, "Worker", Worker)


@pytest.fixture(scope="session")
def _memory():
    """Some twenty files of tests check the patterns: what is alike in them is sewn and searched once in each process."""
    from booklet.kit.remembered.memory import Memory
    from booklet.recipe import checking

    memory = Memory(
        rounds=200
    )  # turns from file to file, after which what none of them asked is forgotten
    asked = memory.only(
        checking.assemble_block, checking.with_routes, checking.search_order, checking.search_tree
    )
    patched = pytest.MonkeyPatch()
    patched.setattr(checking, "of_one_run", lambda: asked)
    yield memory
    patched.undo()


@pytest.fixture(scope="module", autouse=True)
def _searched_once(_memory):
    _memory.next_round()


@pytest.fixture(scope="session")
def example_checked():
    """The example pattern, computed once for all tests."""
    import corpus

    return corpus.checked(corpus.EXAMPLE).value


@pytest.fixture(scope="session")
def example_plan():
    """The plan of all sizes of the example pattern."""
    import corpus

    return corpus.plan_of(corpus.EXAMPLE)


@pytest.fixture(scope="session")
def example_html(example_plan):
    """Print pages of the example, each composed once: of an edition, size and paper."""
    from functools import cache

    import corpus

    from booklet.pages.composing import compose

    @cache
    def composed(edition, size, paper):
        found = next(e for e in example_plan.pattern.booklet.editions if e.id == edition)
        figures = corpus.figures_of(corpus.EXAMPLE)
        return compose(example_plan, found, figures, paper, (size,)).html

    return composed


@pytest.fixture(scope="session")
def example_print(example_html):
    """The PDFs of these pages, each made once."""
    from functools import cache

    from booklet.pages.prepress.pdf import make_pdf
    from booklet.pages.style.fonts import boxed

    @cache
    def printed(edition, size, paper):
        return make_pdf(boxed(example_html(edition, size, paper))).data

    return printed
