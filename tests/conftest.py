"""Options and paths that all tests share."""

import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))


def pytest_addoption(parser):
    parser.addoption(
        "--record-golden", action="store_true", help="write the kept pictures and texts anew"
    )


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
