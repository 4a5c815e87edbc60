"""Floor 12: the list of what was built. A file `.booklet-files.json` beside the booklets tells which files
the program wrote there, from which state of the pattern, so that outdated ones can be taken away.

Only files that stand in the list and are still as they were written are ever removed.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from booklet.output import Aside, digest
from booklet.pattern import Pattern

NAME = ".booklet-files.json"
_LONGEST = 4_000_000  # bytes: a list longer than this is none of ours


@dataclass(frozen=True, slots=True)
class Entry:
    """A file as it was written: the digest of its bytes and the state of the pattern it shows."""

    content: str
    state: str


@dataclass(slots=True)
class Inventory:
    """The files of a folder of booklets, by name."""

    entries: dict[str, Entry] = field(default_factory=dict)

    def renew(self, made: Mapping[str, str], state: str, gone: Iterable[str]) -> None:
        """Note the files `made`, each with the digest of its bytes, and strike those that are `gone`."""
        for name in gone:
            self.entries.pop(name, None)
        self.entries |= {name: Entry(content, state) for name, content in made.items()}

    def text(self) -> bytes:
        """The list as it is kept."""
        rows = {name: [e.content, e.state] for name, e in sorted(self.entries.items())}
        return (json.dumps({"files": rows}, indent=1, ensure_ascii=False) + "\n").encode("utf-8")


def state_of(pattern: Pattern) -> str:
    """A short name for all that a pattern says, its texts and pictures included."""
    return digest(repr(pattern).encode("utf-8", "surrogatepass"))


def read_inventory(folder: Path) -> Inventory:
    """The list of a folder; an empty one where there is none that can be understood."""
    try:
        path = folder / NAME
        if path.stat().st_size > _LONGEST:
            return Inventory()
        found = json.loads(path.read_text(encoding="utf-8"))
        rows = found["files"]
        return Inventory(
            {
                name: Entry(str(row[0]), str(row[1]))
                for name, row in rows.items()
                if name == Path(name).name and name not in ("", ".", "..")
            }
        )
    except (OSError, ValueError, KeyError, TypeError, IndexError, AttributeError, RecursionError):
        return Inventory()


def outdated(folder: Path, before: Inventory, now: Mapping[str, object], state: str) -> list[str]:
    """The files of an earlier state of the pattern that are not made anew and that nobody changed."""
    return [
        name
        for name, entry in sorted(before.entries.items())
        if name not in now and entry.state != state and _is_as_written(folder / name, entry)
    ]


def _is_as_written(path: Path, entry: Entry) -> bool:
    try:
        return (
            path.is_file() and not path.is_symlink() and digest(path.read_bytes()) == entry.content
        )
    except OSError:
        return False


def put_in_place(
    aside: Aside, target: Path, pattern: Pattern, whole: bool
) -> tuple[list[str], list[str]]:
    """Put the waiting files in their places with the list of them; the names of those, and of the
    outdated ones, which a `whole` build takes away. Raises OutputError."""
    state, listed = state_of(pattern), read_inventory(target)
    old = outdated(target, listed, aside.contents, state)
    gone = old if whole else []
    listed.renew(aside.contents, state, gone)
    aside.write(NAME, listed.text())
    return [name for name in aside.replace(gone) if name != NAME], old
