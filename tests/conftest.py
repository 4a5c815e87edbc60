"""Options and paths that all tests share."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))


def pytest_addoption(parser):
    parser.addoption("--record-golden", action="store_true", help="write the kept pictures and texts anew")
