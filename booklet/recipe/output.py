"""Floor 12: writing. Files are written aside and take their places only when all are complete."""

from __future__ import annotations

import errno
import hashlib
import os
import shutil
import stat
import sys
import tempfile
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import IO

from booklet.kit.running.stopping import held

if sys.platform != "win32":
    import fcntl

_PREFIX = ".unfinished-"
SITE_END = "-site"
"""What the folder of a site ends with: the only kind of folder that a build makes among its files."""
_MARK = ".booklet-unfinished"
"""The file that tells a folder of waiting files of ours from everyone else's; locked while a build lives."""
_FULL = {errno.ENOSPC, errno.EDQUOT}
_REFUSED = {errno.EACCES, errno.EPERM, errno.EROFS}
_ASTRAY = {errno.ENOTDIR, errno.EISDIR, errno.EEXIST, errno.ENOENT}


class OutputError(Exception):
    """The machine would not let us write; the message is a sentence for the reader."""


class FilesAside:
    """A folder beside the target's files in which new files wait."""

    def __init__(self, target: Path, waiting: Path) -> None:
        self._target = target
        self._waiting = waiting
        self._names: list[str] = []
        self.contents: dict[str, str] = {}
        """The files that wait, each with the digest of its bytes."""

    def write(self, name: str, content: bytes) -> None:
        """Write a file that waits; its name may be one in a folder of a site. Raises OutputError if the machine
        refuses."""
        if name in self._names:
            raise ValueError(f"two files are called {name}")  # the source gives each its own name
        try:
            place = self._waiting / name
            place.parent.mkdir(exist_ok=True)
            place.write_bytes(content)
        except OSError as fault:
            raise OutputError(_sentence(self._target / name, fault, kept=True)) from None
        self._names.append(name)
        self.contents[name] = digest(content)

    def replace(self, outdated: Iterable[str] = ()) -> tuple[str, ...]:
        """Put every waiting file in its place, take the `outdated` ones away, and return the names of
        those placed. Raises OutputError.

        If one cannot take its place (or the user stops us), all that was there before comes back.
        """
        former = self._waiting / "former"
        placed: list[str] = []
        rooms: list[Path] = []
        name = ""
        with held() as heed:
            try:
                former.mkdir()
                for name in self._names:
                    rooms += self._room(name, former)
                    if (self._target / name).is_dir():
                        raise IsADirectoryError(errno.EISDIR, os.strerror(errno.EISDIR))
                    if os.path.lexists(self._target / name):
                        os.replace(self._target / name, former / name)
                    placed.append(name)
                    os.replace(self._waiting / name, self._target / name)
                for name in outdated:
                    self._room(name, former)
                    placed.append(name)
                    os.replace(self._target / name, former / name)
                heed()
            except BaseException as fault:
                self._restore(former, [*placed, name])
                _without_empty(rooms)
                if isinstance(fault, OSError):
                    raise OutputError(_sentence(self._target / name, fault, kept=True)) from None
                raise
        _without_empty({(self._target / name).parent for name in placed if "/" in name})
        return tuple(self._names)

    def _room(self, name: str, former: Path) -> list[Path]:
        """Make the folder of a site in which a file has its place, here and where the former one waits; those made. A
        link that stands there is not followed."""
        if "/" not in name:
            return []
        room = (self._target / name).parent
        if is_link(room):
            raise NotADirectoryError(errno.ENOTDIR, os.strerror(errno.ENOTDIR))
        (former / name).parent.mkdir(exist_ok=True)
        if room.is_dir():
            return []
        room.mkdir()
        return [room]

    def exchange(self, name: str) -> None:
        """Put one waiting file in the place of the one that is there, at once: whoever reads it sees the old or the new,
        never none. Its permissions stay. Raises OutputError."""
        place = self._target / name
        try:
            os.chmod(self._waiting / name, stat.S_IMODE(place.stat().st_mode))
            os.replace(self._waiting / name, place)
        except OSError as fault:
            raise OutputError(_sentence(place, fault, kept=True)) from None

    @contextmanager
    def for_now(self, name: str, content: bytes) -> Iterator[None]:
        """Put a file in its place at once; where what follows fails, what was there before comes back."""
        place, kept = self._target / name, self._waiting / "kept"
        with held():
            try:
                (self._waiting / "now").write_bytes(content)
                if place.is_dir() and not place.is_symlink():
                    raise IsADirectoryError(errno.EISDIR, os.strerror(errno.EISDIR))
                if os.path.lexists(place):
                    os.replace(place, kept)
                os.replace(self._waiting / "now", place)
            except OSError as fault:
                raise OutputError(_sentence(place, fault, kept=True)) from None
            try:
                yield
            except BaseException:
                with suppress(OSError):
                    if os.path.lexists(kept):
                        os.replace(kept, place)
                    else:
                        place.unlink(missing_ok=True)
                raise

    def _restore(self, former: Path, names: list[str]) -> None:
        """Take away what was put in its place, and put back what was there before."""
        for name in filter(None, names):
            with suppress(OSError):
                if os.path.lexists(former / name):
                    os.replace(former / name, self._target / name)
                elif not (self._waiting / name).exists():
                    (self._target / name).unlink(missing_ok=True)


def _without_empty(rooms: Iterable[Path]) -> None:
    """Remove the folders among these in which nothing is left."""
    for room in rooms:
        with suppress(OSError):  # a folder with files in it stays
            room.rmdir()


def digest(content: bytes) -> str:
    """A short name for some bytes."""
    return hashlib.sha256(content).hexdigest()[:32]


@contextmanager
def keep_aside(target: Path) -> Iterator[FilesAside]:
    """A `FilesAside` for a folder, made if it is not there; what still waits at the end is removed, and so is
    what builds that were killed have left."""
    before = target.exists()
    try:
        target.mkdir(parents=True, exist_ok=True)
        clear_away(target)
        with held():
            waiting = Path(tempfile.mkdtemp(prefix=_PREFIX, dir=target))
            mark = _marked(waiting)
    except OSError as fault:
        raise OutputError(_sentence(target, fault, kept=True)) from None
    try:
        yield FilesAside(target, waiting)
    finally:
        with held():
            mark.close()
            shutil.rmtree(waiting, ignore_errors=True)
            if not before:
                with suppress(OSError):  # a folder with files in it stays
                    target.rmdir()


def _marked(waiting: Path) -> IO[str]:
    """The mark of a folder of waiting files, open and locked: the system lets go of it when we end, however."""
    mark = (waiting / _MARK).open("x", encoding="utf-8")
    mark.write("files of a build that was not finished; the next build removes them\n")
    mark.flush()
    if sys.platform != "win32":
        with suppress(
            OSError
        ):  # a disk that knows no locks: then nothing of it is ever taken for dead
            fcntl.flock(mark, fcntl.LOCK_EX | fcntl.LOCK_NB)
    return mark


def clear_away(target: Path) -> None:
    """Remove the folders of waiting files that killed builds left in a folder, and no other.

    A file that such a build had taken from its place, and put none there, comes back first.
    """
    for left in sorted(target.glob(_PREFIX + "*")):
        if left.is_symlink() or not _is_abandoned(left / _MARK):
            continue
        former = left / "former"  # a link in its place would lead to files that were never here
        _bring_back(former, target)
        shutil.rmtree(left, ignore_errors=True)


def _bring_back(former: Path, target: Path) -> None:
    """Put what was taken from a folder into its place again, where nothing else has it; no link is followed."""
    for taken in () if is_link(former) else sorted(former.glob("*")):
        place = target / taken.name
        if not os.path.lexists(place):
            with suppress(OSError):
                os.replace(taken, place)
        elif taken.is_dir() and place.is_dir() and not is_link(place):
            _bring_back(taken, place)  # a site, some of whose files were replaced


def _is_abandoned(mark: Path) -> bool:
    """Whether the build that set a mark is dead: its lock is free (Windows: the file can be removed)."""
    if mark.is_symlink() or not mark.is_file():
        return False
    try:
        if sys.platform == "win32":
            mark.unlink()
        else:
            with mark.open("r+", encoding="utf-8") as file:
                fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        return False
    return True


def refuse_link(folder: Path, target: Path) -> None:
    """Raise OutputError where a folder brings along a link in the place its booklets go to: it would lead
    wherever its maker wanted. A link outside the folder is the user's own."""
    home, end = Path(os.path.abspath(folder)), Path(os.path.abspath(target))
    inside = [p for p in (end, *end.parents) if home in p.parents]
    link = next(filter(is_link, inside), None)
    if link is not None:
        raise OutputError(
            f"`{link}` is a link that the pattern's folder brings along; nothing was written. Take it away, "
            "or choose a folder outside with --out"
        )


def is_link(path: Path) -> bool:
    """Whether a path is a link, also that of Windows that is no symbolic one (known from Python 3.12 on)."""
    asked = getattr(path, "is_junction", None)
    return path.is_symlink() or (asked is not None and bool(asked()))


def write_files(folder: Path, files: Mapping[str, str]) -> None:
    """Write new text files into a folder, sub-folders included. Raises OutputError.

    A file that is there already is never replaced.
    """
    for name, text in files.items():
        path = folder / name
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
            with path.open("x", encoding="utf-8", newline="\n") as file:
                file.write(text)
        except OSError as fault:
            raise OutputError(_sentence(path, fault, kept=False)) from None


def _sentence(path: Path, fault: OSError, kept: bool) -> str:
    """The fault as a sentence: what could not be written, why, what is still there, what to do."""
    reason = (fault.strerror or str(fault) or "the machine refuses").lower()
    still = "; nothing that was there has been replaced" if kept else ""
    return f"cannot write `{path}`: {reason}{still}. {_next(fault.errno, kept)}"


def _next(number: int | None, building: bool) -> str:
    """What to do about a refusal, as a sentence."""
    other = "choose another folder with --out" if building else "choose another folder"
    if number in _FULL:
        return f"Make room on the disk, or {other}, and try again"
    if number == errno.ENAMETOOLONG:
        return "Give the pattern, its editions or its sizes shorter names, and try again"
    if number in _REFUSED:
        return f"Ask who may write there, or {other}, and try again"
    if number in _ASTRAY:
        return f"Look what stands there already, or {other}, and try again"
    return f"Look whether the disk is sound, or {other}, and try again"
