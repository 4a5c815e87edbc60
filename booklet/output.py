"""Floor 12: writing. Files are written aside and take their places only when all are complete."""

from __future__ import annotations

import errno
import hashlib
import os
import shutil
import tempfile
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path

_FULL = {errno.ENOSPC, errno.EDQUOT}
_REFUSED = {errno.EACCES, errno.EPERM, errno.EROFS}
_ASTRAY = {errno.ENOTDIR, errno.EISDIR, errno.EEXIST, errno.ENOENT}


class OutputError(Exception):
    """The machine would not let us write; the message is a sentence for the reader."""


class Aside:
    """A folder beside the target's files in which new files wait."""

    def __init__(self, target: Path, waiting: Path) -> None:
        self._target = target
        self._waiting = waiting
        self._names: list[str] = []
        self.contents: dict[str, str] = {}
        """The files that wait, each with the digest of its bytes."""

    def write(self, name: str, content: bytes) -> None:
        """Write a file that waits. Raises OutputError if the machine refuses."""
        if name in self._names:
            raise ValueError(f"two files are called {name}")  # the source gives each its own name
        try:
            (self._waiting / name).write_bytes(content)
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
        name = ""
        try:
            former.mkdir()
            for name in self._names:
                if (self._target / name).is_dir():
                    raise IsADirectoryError(errno.EISDIR, os.strerror(errno.EISDIR))
                if (self._target / name).exists():
                    os.replace(self._target / name, former / name)
                placed.append(name)
                os.replace(self._waiting / name, self._target / name)
            for name in outdated:
                placed.append(name)
                os.replace(self._target / name, former / name)
        except BaseException as fault:
            self._restore(former, [*placed, name])
            if isinstance(fault, OSError):
                raise OutputError(_sentence(self._target / name, fault, kept=True)) from None
            raise
        return tuple(self._names)

    def _restore(self, former: Path, names: list[str]) -> None:
        """Take away what was put in its place, and put back what was there before."""
        for name in filter(None, names):
            with suppress(OSError):
                if (former / name).is_file():
                    os.replace(former / name, self._target / name)
                elif not (self._waiting / name).exists():
                    (self._target / name).unlink(missing_ok=True)


def digest(content: bytes) -> str:
    """A short name for some bytes."""
    return hashlib.sha256(content).hexdigest()[:32]


@contextmanager
def keep_aside(target: Path) -> Iterator[Aside]:
    """An `Aside` for a folder, made if it is not there; what still waits at the end is removed."""
    before = target.exists()
    try:
        target.mkdir(parents=True, exist_ok=True)
        waiting = Path(tempfile.mkdtemp(prefix=".unfinished-", dir=target))
    except OSError as fault:
        raise OutputError(_sentence(target, fault, kept=True)) from None
    try:
        yield Aside(target, waiting)
    finally:
        shutil.rmtree(waiting, ignore_errors=True)
        if not before:
            with suppress(OSError):  # a folder with files in it stays
                target.rmdir()


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
