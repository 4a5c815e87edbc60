"""Floor 12, comparing: the changes as lines for the terminal, and as JSON for other programs."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from itertools import groupby

from booklet.comparing.changes import Change
from booklet.comparing.side import PatternState

HEADS = {
    True: "wrong in the earlier booklet: tell readers",
    False: "only nicer now: who goes by the earlier booklet makes the same quilt",
}


def lines(found: Sequence[Change], old: PatternState, new: PatternState) -> Iterator[str]:
    """The changes in English, those that make the earlier booklet wrong first."""
    yield head(old, new)
    if not found:
        yield "nothing changed for readers"
    for grave, some in groupby(found, key=lambda change: change.grave):
        yield f"{HEADS[grave]}:"
        for size, of_size in groupby(some, key=lambda change: change.size):
            yield f"  {new.size(size)}"
            for change in of_size:
                yield f"    {change.what}: {change.now} (was {change.was})"
    yield from reminder(found, old, new)


def head(old: PatternState, new: PatternState) -> str:
    """Which patterns, and which versions of them, are compared."""
    titles = [str(side.facts.get("title", "")) for side in (old, new)]
    versions = [str(side.facts.get("version", "")) or "none" for side in (old, new)]
    if titles[0] != titles[1]:
        return f"{titles[0]}, version {versions[0]}, beside another pattern: {titles[1]}, version {versions[1]}"
    if versions[0] == versions[1]:
        return f"{titles[1]}, both of version {versions[1]}"
    return f"{titles[1]}, from version {versions[0]} to {versions[1]}"


def reminder(found: Sequence[Change], old: PatternState, new: PatternState) -> Iterator[str]:
    """A line for an author whose two booklets bear one version."""
    same = old.facts.get("version") == new.facts.get("version")
    if same and any(change.grave for change in found):
        yield "both have the same `version`: change it, so that readers can tell the booklets apart"


def as_json(found: Sequence[Change]) -> str:
    """The changes as a JSON array that ends with a line break."""
    rows = [
        {
            "size": change.size,
            "about": change.about.value,
            "grave": change.grave,
            "what": str(change.what),
            "was": str(change.was),
            "now": str(change.now),
        }
        for change in found
    ]
    return json.dumps(rows, indent=1, ensure_ascii=False) + "\n"
