"""Changes the product in a hundred places, one at a time, and prints what no test notices.

Run: python tests/survivors.py [first number] [how many] [part of a path]
A place and its change follow from the number, so one that survives is tried again alone by: python tests/survivors.py NUMBER 1
Not run by CI: it takes some minutes. Of each change the nearest tests are tried (fewest imports away, then the smallest), for
SECONDS at most, in a process forked when all libraries are loaded; a test that fails without the change as well notices nothing.
"""

from __future__ import annotations

import ast
import compileall
import importlib
import os
import random
import resource
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from collections import deque
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from pathlib import Path
from py_compile import PycInvalidationMode

import pytest

HERE = Path(__file__).resolve().parent.parent
SECONDS = 20  # of the processor, for the tests of one change
FILES = 12  # of tests, the nearest: to read all of them takes half of that time
HANGS = 10  # a test that has taken so long has noticed an endless loop
LIBRARIES = ("networkx", "numpy", "shapely", "highspy", "weasyprint", "jinja2", "markdown", "svgwrite", "ezdxf", "pypdf", "pdfplumber", "xlsxwriter", "nh3", "babel.messages.pofile", "ruamel.yaml", "jsonschema")  # fmt: skip
UNCOUNTED = ("__init__.py", "__main__.py", "facts_schema.py", "examples.py")  # tables and doors

COMPARED = {
    ast.Lt: ("<", "<="), ast.LtE: ("<=", "<"), ast.Gt: (">", ">="), ast.GtE: (">=", ">"), ast.Eq: ("==", "!="), ast.NotEq: ("!=", "=="),
    ast.In: ("in", "not in"), ast.NotIn: ("not in", "in"), ast.Is: ("is", "is not"), ast.IsNot: ("is not", "is"),
}  # fmt: skip
RECKONED = {ast.Add: ("+", "-"), ast.Sub: ("-", "+"), ast.Mult: ("*", "/"), ast.Div: ("/", "*"), ast.FloorDiv: ("//", "/")}  # fmt: skip
JOINED = {ast.And: ("and", "or"), ast.Or: ("or", "and")}


@dataclass(frozen=True)
class Change:
    """A stretch of a module's text and what stands there instead."""

    file: str
    line: int
    start: int
    end: int
    instead: str

    def made_in(self, text: bytes) -> bytes:
        return text[: self.start] + self.instead.encode() + text[self.end :]


def changes_of(file: str, source: bytes) -> Iterator[Change]:
    """All changes of a module: another comparison, sign, constant, `and` or `or`, sides of a condition swapped, another answer."""
    starts = [0]
    for line in source.splitlines(keepends=True):
        starts.append(starts[-1] + len(line))

    def at(node: ast.AST) -> tuple[int, int]:
        return starts[node.lineno - 1] + node.col_offset, starts[node.end_lineno - 1] + node.end_col_offset  # fmt: skip

    def between(left: ast.AST, right: ast.AST, old: str, new: str) -> Iterator[Change]:
        first, last = at(left)[1], at(right)[0]
        place = source.find(old.encode(), first, last)
        if place >= 0 and b"#" not in source[first:last]:
            yield Change(file, left.end_lineno, place, place + len(old), new)

    def instead(node: ast.AST, new: str) -> Change:
        return Change(file, node.lineno, *at(node), new)

    for node in _what_runs(ast.parse(source)):
        match node:
            case ast.Compare(left=left, ops=ops, comparators=others):
                for one, op, other in zip([left, *others], ops, others, strict=False):
                    yield from between(one, other, *COMPARED[type(op)])
            case ast.BinOp(left=left, op=op, right=right) if type(op) in RECKONED:
                if not any(isinstance(side, ast.Constant) and isinstance(side.value, str) for side in (left, right)):  # fmt: skip
                    yield from between(left, right, *RECKONED[type(op)])
            case ast.BoolOp(op=op, values=values):
                for one, other in pairwise(values):
                    yield from between(one, other, *JOINED[type(op)])
            case ast.UnaryOp(op=ast.USub() | ast.Not(), operand=operand):
                yield instead(node, f"({source[slice(*at(operand))].decode()})")
            case ast.IfExp(test=test, body=body, orelse=other):
                when, then, rest = (source[slice(*at(part))].decode() for part in (test, body, other))  # fmt: skip
                yield instead(node, f"({rest}) if ({when}) else ({then})")
            case ast.Constant(value=bool()):
                yield instead(node, str(not node.value))
            case ast.Constant(value=int()):
                yield instead(node, str(node.value + 1))
            case ast.Constant(value=float()):
                yield instead(node, f"{node.value * 1.3 + (not node.value)!r}")
            case ast.Return(value=ast.expr() as value) if not isinstance(value, ast.Constant):
                yield instead(value, "None")


def _what_runs(tree: ast.AST) -> Iterator[ast.AST]:
    """The nodes of a module but for annotations, decorators, texts and `strict=True`, which only guards."""
    front = deque([tree])
    while front:
        node = front.popleft()
        if isinstance(node, ast.keyword) and node.arg == "strict":
            continue
        yield node
        for name, value in ast.iter_fields(node):
            if name not in ("annotation", "returns", "decorator_list", "type_comment"):
                listed = value if isinstance(value, list) else [value]
                front.extend(part for part in listed if isinstance(part, ast.AST) and not isinstance(part, ast.JoinedStr))  # fmt: skip


def module_of(path: Path, root: Path) -> str:
    return ".".join(path.relative_to(root).with_suffix("").parts).removesuffix(".__init__")


@cache
def imported(path: Path, root: Path) -> frozenset[Path]:
    """The modules of ours that one imports, wherever in it."""
    found = set()
    for node in ast.walk(ast.parse(path.read_bytes())):
        names = [alias.name for alias in node.names] if isinstance(node, ast.Import) else []
        if isinstance(node, ast.ImportFrom) and node.module:
            names = [node.module, *(f"{node.module}.{alias.name}" for alias in node.names)]
        for name in names:
            for base in (root, root / "tests"):
                there = base.joinpath(*name.split("."))
                found |= {p for p in (there.with_suffix(".py"), there / "__init__.py") if p.exists()}  # fmt: skip
    return frozenset(found)


@cache
def far_from(test: Path, root: Path) -> dict[Path, int]:
    """How many imports away from a file of tests each module is."""
    far, front = {test: 0}, deque([test])
    while front:
        here = front.popleft()
        for there in imported(here, root) - far.keys():
            far[there] = far[here] + 1
            front.append(there)
    return far


def nearest(module: Path, root: Path) -> list[str]:
    """The few files of tests that are nearest to a module, then by how little they import."""
    tests = sorted((root / "tests").rglob("test_*.py"))
    near = [(far_from(test, root)[module], len(far_from(test, root)), str(test)) for test in tests if module in far_from(test, root)]  # fmt: skip
    return [test for *_, test in sorted(near)[:FILES]]


class Watch:
    """A plugin that writes down where the tests are."""

    def __init__(self, note: Path) -> None:
        self.note = note

    def pytest_runtest_logstart(self, nodeid: str) -> None:
        self.note.write_text(f"at {time.process_time()} {nodeid}")

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        if report.failed:
            self.note.write_text(f"failed 0 {report.nodeid}")

    def pytest_collectreport(self, report: pytest.CollectReport) -> None:
        if report.failed:
            self.note.write_text(f"failed 0 {report.nodeid}")


def tried(tests: list[str], root: Path, seconds: int) -> str:
    """The test that failed or hung within some seconds; nothing where none did."""
    note = root / "note"
    note.write_text("at 0 none")
    child = os.fork()
    if child == 0:
        answer = 99
        try:
            spent = int(time.process_time())
            resource.setrlimit(resource.RLIMIT_CPU, (spent + seconds, spent + seconds + 1))
            answer = _run(tests, root, note)
        finally:
            os._exit(answer)
    answer = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
    state, since, name = note.read_text().split(" ", 2)
    if answer not in (0, 1, 2, -signal.SIGXCPU, -signal.SIGKILL):
        raise RuntimeError(f"the tests were not run: {answer}")
    hung = answer < 0 and seconds - float(since) > HANGS
    return name if state == "failed" or hung else ""


def _run(tests: list[str], root: Path, note: Path) -> int:
    """Run tests in this process, which is a fork, without a word."""
    os.setpgid(0, 0)
    os.chdir(root)
    quiet = os.open(os.devnull, os.O_WRONLY)
    os.dup2(quiet, 1)
    os.dup2(quiet, 2)
    sys.path[:0] = [str(root), str(root / "tests")]
    os.environ["PYTHONPATH"] = str(root)
    options = ["-x", "-q", "-p", "no:cacheprovider", "-p", "no:xdist", f"--rootdir={root}"]
    return pytest.main([*options, *tests], [Watch(note)])


def copied(root: Path) -> None:
    """The tracked files in a folder of their own, compiled so that a changed text is seen by its content."""
    listed = subprocess.run(["git", "ls-files", "-z"], cwd=HERE, capture_output=True, check=True).stdout.decode()  # fmt: skip
    for name in filter(None, listed.split("\0")):
        if (HERE / name).exists():
            (root / name).parent.mkdir(parents=True, exist_ok=True)
            shutil.copy(HERE / name, root / name)
    compileall.compile_dir(root / "booklet", quiet=2, invalidation_mode=PycInvalidationMode.CHECKED_HASH)  # fmt: skip


def chosen(root: Path, first: int, count: int, part: str) -> Iterator[tuple[int, Change]]:
    """One change for each number, drawn from all."""
    files = [path for path in sorted((root / "booklet").rglob("*.py")) if part in str(path.relative_to(root)) and path.name not in UNCOUNTED]  # fmt: skip
    listed = [change for path in files for change in changes_of(str(path.relative_to(root)), path.read_bytes())]  # fmt: skip
    for number in range(first, first + count):
        yield number, random.Random(number).choice(listed)


def main(first: int = 0, count: int = 100, part: str = "") -> None:
    """Print every change that survives, then how many did."""
    for library in LIBRARIES:
        importlib.import_module(library)
    survived, sound = 0, {"": True}
    with tempfile.TemporaryDirectory() as folder:
        root = Path(folder)
        copied(root)
        for number, change in chosen(root, first, count, part):
            path = root / change.file
            text, tests = path.read_bytes(), nearest(path, root)
            path.write_bytes(change.made_in(text))
            by = tried(tests, root, SECONDS)
            path.write_bytes(text)
            if by not in sound:
                sound[by] = not tried([by], root, 4 * SECONDS)
            if by and sound[by]:
                continue
            survived += 1
            old = text[change.start : change.end].decode()
            line = text.splitlines()[change.line - 1].decode().strip()
            print(f"{number}: {change.file}:{change.line}: `{old}` as `{change.instead}` in `{line}`", flush=True)  # fmt: skip
    print(f"{survived} of {count} survived")


if __name__ == "__main__":
    main(*(int(word) if word.isdigit() else word for word in sys.argv[1:]))
