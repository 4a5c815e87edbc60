"""Floor 12: the list of what was built. A file `.booklet-files.json` beside the booklets tells which files
the program wrote there, from which state of the pattern, so that outdated ones can be taken away.

Only files that stand in the list and are still as they were written are ever removed or replaced. A site has a folder of
its own among them, whose files are listed like all others.
"""

from __future__ import annotations

import json
import os
import stat
from collections.abc import Callable, Iterable, Mapping
from pathlib import Path

from booklet.kit.bounds import MOST_LISTED
from booklet.kit.records import Mutable, Record, field, replace
from booklet.pattern import Pattern
from booklet.recipe.output import SITE_END, FilesAside, OutputError, digest, is_link

NAME = ".booklet-files.json"
_MOST_TOLD = 5  # names in a sentence


class WrittenFile(Record):
    """A file as it was written: the digest of its bytes and the state of the pattern it shows; `coming`
    is the digest of what a build is about to put in its place."""

    content: str
    state: str
    coming: str = ""


class Inventory(Mutable):
    """The files of a folder of booklets, by name; `fault` says why a list could not be understood."""

    entries: dict[str, WrittenFile] = field(default_factory=dict)
    fault: str | None = None

    def announce(self, made: Mapping[str, str], state: str) -> None:
        """Note what is about to be written, beside what is there: a build may be killed in between."""
        for name, content in made.items():
            there = self.entries.get(name, WrittenFile("", state))
            self.entries[name] = replace(there, coming=content)

    def renew(self, made: Mapping[str, str], state: str, gone: Iterable[str]) -> None:
        """Note the files `made`, each with the digest of its bytes, and strike those that are `gone`."""
        for name in gone:
            self.entries.pop(name, None)
        self.entries |= {name: WrittenFile(content, state) for name, content in made.items()}

    def text(self) -> bytes:
        """The list as it is kept."""
        rows = {
            name: [e.content, e.state, *filter(None, [e.coming])]
            for name, e in sorted(self.entries.items())
        }
        return (json.dumps({"files": rows}, indent=1, ensure_ascii=False) + "\n").encode("utf-8")


def state_of(pattern: Pattern) -> str:
    """A short name for all that a pattern says, its texts and pictures included."""
    return digest(repr(pattern).encode("utf-8", "surrogatepass"))


def read_inventory(folder: Path) -> Inventory:
    """The list of a folder; an empty one where there is none, or, with its fault, none to be understood."""
    path = folder / NAME
    try:
        about = path.lstat()
        if not stat.S_ISREG(about.st_mode):
            return Inventory(fault="is not a plain file")
        if about.st_size > MOST_LISTED:
            return Inventory(fault="is too long")
        rows = json.loads(path.read_text(encoding="utf-8"))["files"]
        entries = {name: WrittenFile(*map(_word, row[:3])) for name, row in rows.items()}
    except FileNotFoundError:
        return Inventory()
    except OSError:
        return Inventory(fault="cannot be read")
    except (ValueError, KeyError, TypeError, IndexError, AttributeError, RecursionError):
        return Inventory(fault="is damaged")
    strange = next((name for name in entries if not _is_ours(name)), None)
    if strange is not None:
        return Inventory(fault=f"names `{strange[:60]}`, which is no name of a file in the folder")
    return Inventory(entries)


def _word(value: object) -> str:
    if not isinstance(value, str):
        raise ValueError("a digest is a text")
    return value


def _is_ours(name: str) -> bool:
    """Whether a name is that of a file in the folder itself, or in the folder of a site in it."""
    room, between, file = name.rpartition("/")
    return _is_plain(file) and (not between or (_is_plain(room) and room.endswith(SITE_END)))


def _is_plain(name: str) -> bool:
    """Whether a name has no folder in it."""
    fits = name == Path(name).name and name not in ("", ".", "..") and "\\" not in name
    return fits and name.isprintable()


def checked_inventory(folder: Path, may_replace: bool) -> Inventory:
    """The list of a folder. Raises OutputError where it cannot be understood: then nobody knows what is whose; and
    where the folder is a file, or would lie in one."""
    there = next((each for each in (folder, *folder.parents) if each.exists()), folder)
    if there.is_file():
        raise OutputError(
            f"`{there}` is a file, not a folder; nothing was written. Choose a folder with --out"
        )
    found = read_inventory(folder)
    if found.fault and not may_replace:
        raise OutputError(
            f"the list of built files `{folder / NAME}` {found.fault}; nothing was written. Take it away, "
            "choose another folder with --out, or build with --replace, which writes it anew"
        )
    return found


def outdated(folder: Path, before: Inventory, now: Mapping[str, object], state: str) -> list[str]:
    """The files of an earlier state of the pattern that are not made anew and that nobody changed."""
    return [
        name
        for name, entry in sorted(before.entries.items())
        if name not in now and entry.state != state and _is_as_written(folder, name, entry)
    ]


def _is_as_written(folder: Path, name: str, entry: WrittenFile) -> bool:
    found = _digest_of(folder, name)
    return found is not None and found in (entry.content, entry.coming)


def _digest_of(folder: Path, name: str) -> str | None:
    """The digest of a plain file; None for anything else, and for what a link in the place of a site leads to."""
    path = folder / name
    if path.parent != folder and is_link(path.parent):
        return None
    try:
        return digest(path.read_bytes()) if stat.S_ISREG(path.lstat().st_mode) else None
    except (OSError, ValueError):
        return None


def in_the_way(folder: Path, listed: Inventory, made: Mapping[str, str]) -> list[str]:
    """The names among those `made` where something stands that a build did not write, or not so.

    A file with the very bytes that are to be written is in nobody's way.
    """
    return [
        name
        for name, content in made.items()
        if os.path.lexists(folder / name)
        and _digest_of(folder, name) != content
        and not (name in listed.entries and _is_as_written(folder, name, listed.entries[name]))
    ]


def refuse(folder: Path, listed: Inventory, made: Mapping[str, str]) -> None:
    """Raise OutputError if a file that is not ours to replace stands in the place of one of those `made`."""
    names = in_the_way(folder, listed, made)
    if not names:
        return
    shown = ", ".join(f"`{folder / name}`" for name in names[:_MOST_TOLD])
    more = f" and {len(names) - _MOST_TOLD} more" if len(names) > _MOST_TOLD else ""
    what = "was changed since it was built" if names[0] in listed.entries else "was not built by us"
    if len(names) > 1:
        what = "were not built by us, or were changed since"
    raise OutputError(
        f"in the way: {shown}{more} {what}; nothing was replaced. Choose another folder with --out, "
        "or build with --replace to write over what stands there"
    )


def guarded(aside: FilesAside, target: Path, may_replace: bool) -> Callable[[str, bytes], None]:
    """What writes a file that waits, and refuses at once where something of the user's is in its way."""
    listed = checked_inventory(target, may_replace)

    def write(name: str, content: bytes) -> None:
        if not may_replace:
            refuse(target, listed, {name: digest(content)})
        aside.write(name, content)

    return write


def put_in_place(
    aside: FilesAside, target: Path, pattern: Pattern, whole: bool, may_replace: bool = False
) -> tuple[list[str], list[str]]:
    """Put the waiting files in their places with the list of them; the names of those, and of the
    outdated ones, which a `whole` build takes away. Raises OutputError.

    The list is read again: another build may have ended meanwhile.
    """
    state, listed = state_of(pattern), checked_inventory(target, may_replace)
    if not may_replace:
        refuse(target, listed, aside.contents)
    old = outdated(target, listed, aside.contents, state)
    gone = old if whole else []
    made = dict(aside.contents)
    listed.announce(made, state)
    announced = listed.text()
    listed.renew(made, state, gone)
    aside.write(NAME, listed.text())
    with aside.for_now(NAME, announced):
        return [name for name in aside.replace(gone) if name != NAME], old
