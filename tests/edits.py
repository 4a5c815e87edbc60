"""Edits of a pattern, one for every key of the format wherever a pattern of the project gives it: what an author may change.

Run: python tests/edits.py NAME … tries all edits of the patterns named against a run without memory, and prints what differs;
with `--pages` also the page of the preview, every picture of it, against one that was never shown before.
"""

from __future__ import annotations

import json
import sys
from collections import defaultdict
from collections.abc import Iterator
from functools import cache

from mutations import EXAMPLE, PATTERNS, Tree, _tree, corpus
from sampling import NAMED

from booklet.facts import facts_text
from booklet.kit.records import replace
from booklet.kit.remembered.memory import plainly
from booklet.plan import make_plan
from booklet.preview.bench.bench import Bench, Choice
from booklet.recipe.checking import check_pattern
from booklet.recipe.study import Study
from booklet.source.reader import read_folder

Place = tuple[str, ...]
Edit = tuple[str, str]  # what is changed, the text of the pattern


def as_read(document):
    """A document as its reader has it: what stands about its parts is written anew for each page."""
    return replace(document, frame={})


def folder_of(name: str):
    """The folder of a pattern."""
    return EXAMPLE if name == EXAMPLE.name else PATTERNS / name


def _groups(tree: Tree, place: Place = ()) -> Iterator[tuple[Place, dict]]:
    """Every group with keys of the format, and its place with names and numbers left out."""
    if isinstance(tree, dict):
        if not place or place[-1] not in NAMED:
            yield place, tree
        for key, value in tree.items():
            yield from _groups(value, (*place, "*" if place and place[-1] in NAMED else key))
    elif isinstance(tree, list):
        for item in tree:
            yield from _groups(item, (*place, "*"))


@cache
def _known() -> dict[Place, dict[str, list[str]]]:
    """All values, as JSON, that patterns give to the keys of groups, by place."""
    found: dict[Place, dict[str, list[str]]] = defaultdict(lambda: defaultdict(list))
    for _, text, _ in corpus():
        for place, group in _groups(json.loads(_tree(text))):
            for key, value in group.items():
                if json.dumps(value) not in found[place][key]:
                    found[place][key].append(json.dumps(value))
    return found


def edits(name: str, seen: set[tuple[Place, str]]) -> Iterator[Edit]:
    """The edits of a pattern, each a change to the pattern as it is, of keys not yet seen at their place: another value, the key
    taken out, the key put in."""
    text = next(text for other, text, _ in corpus() if other == name)
    yield "a line at the top", "# a line\n" + text
    tree = json.loads(_tree(text))
    yield "nothing", json.dumps(tree, indent=1)
    for place, group in _groups(tree):
        for key, values in _known()[place].items():
            if (place, key) in seen:
                continue
            seen.add((place, key))
            before = dict(group)
            others = [v for v in values if v != json.dumps(before.get(key))]
            for value in (others[len(others) // 2 :] + others)[:1]:
                group[key] = json.loads(value)
                yield f"{'.'.join((*place, key))} = {value[:60]}", json.dumps(tree, indent=1)
            if key in before:
                del group[key]
                yield f"no {'.'.join((*place, key))}", json.dumps(tree, indent=1)
            group.clear()
            group.update(before)


def differs(study: Study, name: str, text: str) -> str:
    """In what the study, warm from other states, differs from a run without memory; "" where in nothing."""
    read = read_folder(folder_of(name), False, text.encode())
    warm, cold = study.check(read), check_pattern(read, plainly)
    if warm.diagnostics != cold.diagnostics:
        return "faults"
    if warm.value is None or cold.value is None:
        return "" if warm.value is cold.value else "soundness"
    if warm.value != cold.value:
        return "the checked pattern"
    plans = study.plan(warm.value), make_plan(cold.value)
    if plans[0] != plans[1]:
        return "the plan"
    return "" if facts_text(plans[0]) == facts_text(plans[1]) else "the facts"


def page_differs(warm: Bench, name: str, text: str) -> str:
    """In what the page of a preview that has shown other states differs from a new one's; "" where in nothing."""
    cold = Bench(folder_of(name))
    for bench in (warm, cold):
        bench.take(read_folder(folder_of(name), False, text.encode()))
    one, other = warm.shown(Choice()), cold.shown(Choice())
    if not cold.look.sound:  # it shows a state before
        return "" if not warm.look.sound else "soundness"
    if one is None or other is None:
        return "" if one is other else "the page"
    if one.places != other.places:
        return "places"
    names = [
        n
        for n, _ in one.document.parts
        if dict(one.document.parts)[n] != dict(other.document.parts).get(n)
    ]
    names += [
        n for n, markup in one.document.pieces.items() if other.document.pieces.get(n) != markup
    ]
    return ", ".join(names) or (
        "" if as_read(one.document) == as_read(other.document) else "the document"
    )


def main() -> None:
    """Try all edits of the patterns named."""
    pages = "--pages" in sys.argv
    for name in [name for name in sys.argv[1:] if name != "--pages"]:
        study, bench, tried = Study(), Bench(folder_of(name)), 0
        for what, text in edits(name, set()):
            tried += 1
            if found := differs(study, name, text):
                print(f"{name}: {what}: {found}")
            if pages and (found := page_differs(bench, name, text)):
                print(f"{name}: {what}: {found}", flush=True)
        print(
            name, tried, "edits;", study.memory.worked_out, "of", study.memory.asked, "worked out"
        )


if __name__ == "__main__":
    main()
