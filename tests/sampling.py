"""What the usual run of the tests tries of many that are alike; with `--everything` nothing is left out.

- A test that sweeps over the patterns says by `pytest.mark.covering` of which parts of a source its question is ("blocks",
  "quilt" …; none: of all). It is asked of as few and as small patterns as have between them every key of these parts, every
  word of the format that any pattern gives to one, and lists and groups of every order of size.
- Of random cases that are numbered every second is tried, in files that take long every fourth.
- Of the examples that hypothesis draws anew in each run a share is drawn.
"""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterator, Sequence
from functools import cache
from typing import TypeVar

from mutations import _tree, corpus

NAMED = {
    "sizes",
    "fabrics",
    "patches",
    "blocks",
    "editions",
    "colourways",
    "layouts",
}  # groups whose keys are names
LARGE = {
    "hexagon_rosette_3", "rosette_37_at_once", "rosettes_in_lattice", "rosettes_with_path", "seven_rosettes_filled", "triangles_300",
}  # fmt: skip
DEAR = {
    "test_planner_turns.py", "test_pressing_solver.py", "test_sewing_auto.py", "test_sewing_faults.py", "test_cutting_stock.py",
    "test_pressing_blocks.py", "test_cutting_plan.py", "test_sewing_walking.py",
}  # fmt: skip
LEAST = 10  # examples that are always drawn

everything = False  # conftest.py puts here what was asked for

Feature = tuple[str, ...]
Item = TypeVar("Item")


def examples(count: int) -> int:
    """How many of the examples of a property hypothesis is to draw."""
    return count if everything else max(min(count, LEAST), count // 3)


def some(all_of_them: Sequence[Item]) -> Sequence[Item]:
    """Every third of cases that follow each other, from the first."""
    return all_of_them if everything else all_of_them[::3]


def is_tried(file: str, number: int) -> bool:
    """Whether a numbered random case of a file is one of those that are tried."""
    return everything or number % (4 if file in DEAR else 2) == 0


@cache
def cover(*parts: str) -> frozenset[str]:
    """The patterns that a test asks about whose question is of some parts of a source, or of all."""
    has = {name: _features(name, parts) for name, _, _ in corpus() if name not in LARGE}
    missing, chosen = set().union(*has.values()), set()
    while missing:
        best = max(sorted(has), key=lambda name: len(has[name] & missing) / _dear(name))
        chosen.add(best)
        missing -= has[best]
    for name in sorted(chosen, key=lambda name: (-_dear(name), name)):
        if has[name] <= set().union(*(has[other] for other in chosen - {name})):
            chosen.remove(name)  # what was chosen after it has all of it, too
    return frozenset(chosen)


@cache
def _dear(name: str) -> int:
    """About how long a pattern takes, in no unit: its length in every size."""
    return len(_text_of(name)) * len(json.loads(_text_of(name))["sizes"])


@cache
def _text_of(name: str) -> str:
    return next(_tree(text) for other, text, _ in corpus() if other == name)


@cache
def _whole(name: str) -> frozenset[Feature]:
    """What a pattern has."""
    return frozenset(_told(json.loads(_text_of(name)), ()))


def _features(name: str, parts: tuple[str, ...]) -> frozenset[Feature]:
    """What a pattern has in some parts of its source, or in all."""
    return frozenset(each for each in _whole(name) if not parts or each[0] in parts)


def _told(tree: object, place: Feature) -> Iterator[Feature]:
    """Every key with its place, names left out; what words of the format it is given; how much there is of it."""
    match tree:
        case dict():
            yield from _many(tree, place) if place and place[-1] in NAMED else ()
            for key, value in tree.items():
                here = (*place, "*" if place and place[-1] in NAMED else key)
                yield here
                yield from _told(value, here)
        case list():
            yield from _many(tree, place)
            for value in tree:
                yield from _told(value, (*place, "*"))
        case str() | bool() if str(tree) in _words():
            yield (*place, f"is {tree}")


def _many(there: dict | list, place: Feature) -> Iterator[Feature]:
    """The order of size of a group or list: 1, 2 to 3, 4 to 7 …"""
    yield (*place, f"{len(there).bit_length()} bits")


@cache
def _words() -> frozenset[str]:
    """All words of the format, as its schema lists them."""
    from booklet.source.schema import schema_text

    found: Counter[str] = Counter()
    todo = [json.loads(schema_text())]
    while todo:
        match todo.pop():
            case dict() as group:
                found.update(str(each) for each in (*group.get("enum", ()), group.get("const", "")))
                todo += group.values()
            case list() as items:
                todo += items
    return frozenset(found)
