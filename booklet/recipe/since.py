"""Floor 12: what changed for a reader since the last build: told from the tables and pages it wrote.

Only what the list of built files knows, and nobody changed since, is compared.
"""

from __future__ import annotations

import csv
import io
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

from booklet.recipe.inventory import Inventory
from booklet.recipe.output import digest

MATERIALS, CUTTING, STRIPS = "-materials.csv", "-cutting.csv", "-strips.csv"
_PAGES = (".html", ".pdf")
_SIZE, _WHAT, _BUY = 0, 1, 3  # columns of the materials
_MOST_TOLD = 3
Rows = list[tuple[str, ...]]


def earlier(folder: Path, listed: Inventory) -> dict[str, bytes]:
    """The tables of the last build that are still as it wrote them, by name."""
    found: dict[str, bytes] = {}
    for name, entry in listed.entries.items():
        if name.endswith((MATERIALS, CUTTING, STRIPS)) and "/" not in name:
            try:
                data = (folder / name).read_bytes()
            except OSError:
                continue
            if digest(data) == entry.content:
                found[name] = data
    return found


def told(
    before: Mapping[str, bytes],
    listed: Inventory,
    now: Mapping[str, bytes],
    made: Mapping[str, str],
    version: str,
) -> list[str]:
    """What changed, in lines: cloth to buy, cutting, pages, and a reminder of the version; none where nothing did.

    `before` and `now` are the tables; `listed` is the list of the last build, `made` the digests of all files
    of this one.
    """
    lines = [*_to_buy(before, now), *_cut(before, now), *_pages(listed, made)]
    if not lines:
        return []
    is_now = f"`version` is `{version}`: change" if version else "there is no `version`: add"
    reminder = f"{is_now} it if readers have the earlier booklet"
    return ["since the last build:", *(f"  {line}" for line in (*lines, reminder))]


def _rows(data: bytes) -> Rows:
    """The rows of a table, its heads first."""
    return [tuple(row) for row in csv.reader(io.StringIO(data.decode("utf-8-sig"), newline=""))]


def _tables(
    before: Mapping[str, bytes], now: Mapping[str, bytes], ending: str
) -> Iterator[tuple[Rows, Rows]]:
    """The rows of a table then and now, where both have the same heads."""
    for name in now:
        if name.endswith(ending) and name in before:
            old, new = _rows(before[name]), _rows(now[name])
            if old[:1] == new[:1]:
                yield old[1:], new[1:]


def _to_buy(before: Mapping[str, bytes], now: Mapping[str, bytes]) -> Iterator[str]:
    """A line about the cloth whose amount is another."""
    for old, new in _tables(before, now, MATERIALS):
        was = {(row[_SIZE], row[_WHAT]): row[_BUY] for row in old}
        buys = {(row[_SIZE], row[_WHAT]): row[_BUY] for row in new}
        other = [
            f"{', '.join(key)} {_amount(key, was, buys)}"
            for key in buys
            if was.get(key) != buys[key]
        ]
        other += [f"{', '.join(key)} no more" for key in was if key not in buys]
        if other:
            yield f"to buy: {_some(other)}"


def _amount(
    key: tuple[str, str], was: Mapping[tuple[str, str], str], buys: Mapping[tuple[str, str], str]
) -> str:
    return f"{buys[key]} (was {was[key]})" if key in was else f"{buys[key]} (new)".strip()


def _cut(before: Mapping[str, bytes], now: Mapping[str, bytes]) -> Iterator[str]:
    """A line about the rows of cutting and strips that are others."""
    parts = []
    for ending, what in ((CUTTING, "what is cut"), (STRIPS, "strips")):
        for old, new in _tables(before, now, ending):
            fresh, gone = Counter(new) - Counter(old), Counter(old) - Counter(new)
            if fresh or gone:
                count = max(fresh.total(), gone.total())
                sizes = list(dict.fromkeys(row[_SIZE] for row in (*fresh, *gone)))
                parts.append(f"{count} of {len(new)} rows of {what} ({_some(sizes)})")
    if parts:
        yield f"cutting: {' and '.join(parts)}"


def _pages(listed: Inventory, made: Mapping[str, str]) -> Iterator[str]:
    """A line about the web pages and PDF files that are others."""
    again = [name for name in made if name.endswith(_PAGES) and name in listed.entries]
    again = [name for name in again if "/" not in name]  # the chapters of a site say the same
    changed = [name for name in again if listed.entries[name].content != made[name]]
    if changed:
        yield f"pages: {len(changed)} of {len(again)} files differ, {_some(changed)}"


def _some(words: Sequence[str]) -> str:
    """The first few of some words, and how many more there are."""
    more = len(words) - _MOST_TOLD
    return "; ".join(words[:_MOST_TOLD]) + (f" and {more} more" if more > 0 else "")
