"""Options and paths that all tests share."""

import gc
import io
import sys
from importlib import import_module
from pathlib import Path
from zlib import crc32

import pytest
from hypothesis import settings

sys.path.insert(0, str(Path(__file__).parent))
gc.set_threshold(
    20_000, 10, 10
)  # laying pages out makes many objects that live: looking at them all takes a fifth
settings.register_profile("untimed", deadline=None)  # how long a machine takes is no property
settings.load_profile("untimed")


def pytest_addoption(parser):
    parser.addoption(
        "--record-golden", action="store_true", help="write the kept pictures and texts anew"
    )
    parser.addoption(
        "--everything",
        action="store_true",
        help="let every sweep go over every pattern, and try every random case",
    )


LARGEST = {"rosettes_in_lattice", "seven_rosettes_filled"}  # other files try these
LARGE = LARGEST | {"hexagon_rosette_3", "rosette_37_at_once", "rosettes_with_path", "triangles_300"}
HALF_SWEEPS = {"test_placement.py", "test_planner_patterns.py", "test_read_back.py"}
DEAR_SWEEPS = HALF_SWEEPS | {"test_planner_editor.py", "test_sewn_through.py"}
CHANCE = {"seed", "batch", "number"}  # the names of what random cases begin from


def pytest_collection_modifyitems(config, items):
    """A dozen files sweep over all patterns. Five of them, which take long, leave the large ones out, build and facts the two
    largest, and three of the five go over another half of the rest each; of random cases that are numbered every second
    one is tried. `--everything` leaves nothing out.

    What the files ask of one pattern stands together, so that it is checked and planned once (`corpus.py`)."""
    if not config.getoption("--everything"):
        out = [item for item in items if _is_left_out(item) or _is_odd(item)]
        config.hook.pytest_deselected(items=out)
        items[:] = [item for item in items if item not in set(out)]
    items.sort(key=lambda item: _pattern_of(item) or "~")


def _is_left_out(item):
    file, pattern = item.path.name, _pattern_of(item)
    if pattern is None or file not in DEAR_SWEEPS:
        return pattern in LARGEST and file in {"test_patterns_build.py", "test_facts.py"}
    half = crc32(f"{pattern} {file}".encode()) % 2 == 0
    return pattern in LARGE or (file in HALF_SWEEPS and half)


def _is_odd(item):
    """Whether a test is one of random cases, with an odd number."""
    params = getattr(getattr(item, "callspec", None), "params", {})
    numbers = [v for name, v in params.items() if name in CHANCE and isinstance(v, int)]
    return any(number % 2 for number in numbers)


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
    from booklet.source.files.apart import Apart
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
        patch.setattr(Apart, "told", told)
        yield


@pytest.fixture(scope="session")
def _memory():
    """Some twenty files of tests check the patterns: what is alike in them is sewn and searched once in each process."""
    from booklet import checking
    from booklet.memory import Memory

    memory = Memory(rounds=500)  # tests, after which what none of them asked is forgotten
    asked = memory.only(
        checking.assemble_block, checking.with_routes, checking.search_order, checking.search_tree
    )
    patched = pytest.MonkeyPatch()
    patched.setattr(checking, "of_one_run", lambda: asked)
    yield memory
    patched.undo()


@pytest.fixture(autouse=True)
def _searched_once(_memory):
    _memory.next_round()


@pytest.fixture(scope="session")
def example_checked():
    """The example pattern, computed once for all tests."""
    from booklet.compiler import check

    return check(Path(__file__).parent.parent / "example_pattern").value


@pytest.fixture(scope="session")
def example_plan(example_checked):
    """The plan of all sizes of the example pattern."""
    from booklet.plan import make_plan

    return make_plan(example_checked)


@pytest.fixture(scope="session")
def example_print(example_plan):
    """Print pages of the example and their PDFs, each made once: (edition, size, paper) → both."""
    from functools import cache

    from booklet.pages import compose, make_pdf
    from booklet.pages.pictures.album import drawn
    from booklet.pages.style.fonts import boxed

    figures = drawn(example_plan)

    @cache
    def made(edition, size, paper):
        found = next(e for e in example_plan.pattern.booklet.editions if e.id == edition)
        html = compose(example_plan, found, figures, paper, (size,)).html
        return html, make_pdf(boxed(html)).data

    return made
