"""Floor 13, reference: the groups of keys, and single keys, as `booklet help` tells them."""

from __future__ import annotations

import re
from collections.abc import Iterator
from textwrap import indent
from typing import Any

from booklet.reference.terminal import columns, example, paragraph
from booklet.source.examples import EXAMPLES
from booklet.source.pattern_keys import PATTERN
from booklet.source.schema import TABLES
from booklet.source.values.fields import Key, Table

GROUPS: tuple[Table, ...] = (PATTERN, *TABLES)
NAMES = {
    "size": "lap",
    "fabric": "floral",
    "patch": "gem",
    "block": "lantern",
    "edition": "handout",
    "colourway": "dusk",
    "layout": "ring",
    "setting": "lap",
}
"""A name for the example of each group that has names of the designer's."""
_IN_UNITS = ("patch", "block", "piece", "ring", "beside")  # groups whose bare numbers are in u
_LENGTHS = ("a length", "a point", "a list of points", "a list of lengths", "a size such")


def inner(key: Key[Any]) -> Table | None:
    """The group that stands at a key, alone, in a list or by names; None if its value is no group."""
    found = re.search(r"#/\$defs/([a-z]+)", repr(key.kind.schema))
    return None if found is None else next(t for t in TABLES if t.name == found[1])


def places(name: str) -> list[tuple[Table, Key[Any]]]:
    """The groups that take a key of a name, with the key."""
    return [(table, key) for table in GROUPS for key in table.keys if key.name == name]


def words() -> list[str]:
    """All names of groups and keys."""
    return sorted({table.name for table in GROUPS} | {k.name for t in GROUPS for k in t.keys})


def told(name: str) -> list[str]:
    """The lines about a group or a key of a name; none if there is neither."""
    groups = [table for table in GROUPS if table.name == name]
    keys = places(name)
    for _, key in keys:
        if (within := inner(key)) is not None and within not in groups:
            groups.append(within)
    lines: list[str] = []
    for table in groups:
        lines += [*_group(table), ""]
    alone = [(table, key) for table, key in keys if inner(key) is None]
    if alone:
        lines += [*_keys(name, alone), ""]
    return lines[:-1]


def _group(table: Table) -> Iterator[str]:
    """A group: what it is, where it stands, its keys, an example."""
    yield from paragraph(f"{table.name}: {table.doc}")
    yield from paragraph(f"Where: {_where(table)}.")
    yield ""
    yield from columns((_starred(key), _about(key)) for key in table.keys)
    if notes := _notes(table):
        yield f"  ({notes})"
    yield ""
    yield from example(_in_place(table))


def markdown(table: Table) -> str:
    """A group in Markdown: what it is, where it stands, its keys, an example."""
    rows = "\n".join(
        f"- `{key.name}`{' (must be there)' if key.required else ''}: {_about(key)}"
        for key in table.keys
    )
    notes = "; ".join(dict.fromkeys(filter(None, (_bare(table, key) for key in table.keys))))
    said = f"\n\nOf these {notes}." if notes else ""
    return f"{table.doc}\n\nWhere: {_where(table)}.\n\n{rows}{said}\n\n```yaml\n{_in_place(table)}\n```\n"


def _notes(table: Table) -> str:
    """What holds for the keys of a group."""
    star = ["* must be there"] if any(key.required for key in table.keys) else []
    bare = list(dict.fromkeys(filter(None, (_bare(table, key) for key in table.keys))))
    return "; ".join([*star, *bare])


def _in_place(table: Table) -> str:
    """The example of a group at the first key where it may stand."""
    text = EXAMPLES[table.name].rstrip()
    if table is PATTERN:
        return text
    key = next(key for owner in GROUPS for key in owner.keys if inner(key) is table)
    if table.name in NAMES:
        return f"{key.name}:\n{_under(f'  {NAMES[table.name]}:', text, 4)}"
    if "array" in repr(key.kind.schema):
        first, *rest = text.splitlines()
        return "\n".join([f"{key.name}:", f"  - {first}", *(f"    {line}" for line in rest)])
    return _under(f"{key.name}:", text, 2)


def _under(head: str, text: str, deep: int) -> str:
    """A group at its key: on the same line where it has brackets, else below it, set in."""
    return f"{head} {text}" if text.startswith("{") else f"{head}\n{indent(text, ' ' * deep)}"


def _where(table: Table) -> str:
    """Where a group may stand, in words."""
    if table is PATTERN:
        return "`pattern.yaml` itself"
    found = [
        f"`{key.name}` {_of(owner)}"
        for owner in GROUPS
        for key in owner.keys
        if inner(key) is table
    ]
    return " and ".join(found)


def _of(table: Table) -> str:
    return "at the top of `pattern.yaml`" if table is PATTERN else f"in `{table.name}`"


def _starred(key: Key[Any]) -> str:
    return f"{key.name} *" if key.required else key.name


def _about(key: Key[Any]) -> str:
    """What a key means and takes, in a few sentences."""
    parts = [key.doc]
    within = inner(key)
    if within is not None:
        parts.append(f"Its keys: `booklet help {within.name}`.")
    elif not key.kind.words.startswith("how "):
        parts.append(f"Takes {key.kind.words}.")
    if key.default is not None and "left out" not in key.doc:
        parts.append(f"Left out: `{key.default}`.")
    return " ".join(parts)


def _bare(table: Table, key: Key[Any]) -> str:
    """What a number without a unit means at a key; nothing where none is a length."""
    if not key.kind.words.startswith(_LENGTHS):
        return ""
    if table.name in _IN_UNITS:
        return "a bare number is in design units, u"
    return "a bare number is in the pattern's `units`"


def _keys(name: str, found: list[tuple[Table, Key[Any]]]) -> Iterator[str]:
    """A key that is no group, at each place where it may stand."""
    yield f"{name}: a key"
    yield ""
    yield from columns(((_of(table), _about(key)) for table, key in found), 28)
    for note in dict.fromkeys(filter(None, (_bare(table, key) for table, key in found))):
        yield f"  ({note})"
    shown = next(
        (t for t, _ in found if re.search(rf"\b{re.escape(name)}:", EXAMPLES[t.name])), None
    )
    if shown is not None:
        yield ""
        yield from example(_line_with(name, EXAMPLES[shown.name]))


def _line_with(name: str, text: str) -> str:
    """The line of an example that holds a key, or the whole of one that goes on below it."""
    lines = text.splitlines()
    at = next(n for n, line in enumerate(lines) if re.search(rf"\b{re.escape(name)}:", line))
    below = [*lines[at + 1 :], ""]
    return text if below[0].startswith(" ") else lines[at]
