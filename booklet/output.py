"""Floor 12: writing. Files are written aside and take their places only when all are complete."""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path


class OutputError(Exception):
    """The machine would not let us write; the message is a sentence for the reader."""


class Aside:
    """A folder beside the target's files in which new files wait."""

    def __init__(self, target: Path, waiting: Path) -> None:
        self._target = target
        self._waiting = waiting
        self._names: list[str] = []

    def write(self, name: str, content: bytes) -> None:
        """Write a file that waits. Raises OutputError if the machine refuses."""
        try:
            (self._waiting / name).write_bytes(content)
        except OSError as fault:
            raise _sentence(self._target / name, fault) from None
        self._names.append(name)

    def replace(self) -> tuple[str, ...]:
        """Put every waiting file in its place and return their names. Raises OutputError."""
        for name in self._names:
            try:
                os.replace(self._waiting / name, self._target / name)
            except OSError as fault:
                raise _sentence(self._target / name, fault) from None
        return tuple(self._names)


@contextmanager
def keep_aside(target: Path) -> Iterator[Aside]:
    """An `Aside` for a folder, made if it is not there; what still waits at the end is removed."""
    try:
        target.mkdir(parents=True, exist_ok=True)
        waiting = Path(tempfile.mkdtemp(prefix=".unfinished-", dir=target))
    except OSError as fault:
        raise _sentence(target, fault) from None
    try:
        yield Aside(target, waiting)
    finally:
        shutil.rmtree(waiting, ignore_errors=True)


def write_files(folder: Path, files: Mapping[str, str]) -> None:
    """Write text files into a folder, sub-folders included. Raises OutputError."""
    for name, text in files.items():
        path = folder / name
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8", newline="\n")
        except OSError as fault:
            raise _sentence(path, fault) from None


def _sentence(path: Path, fault: OSError) -> OutputError:
    """The error as a sentence that says what to do next."""
    reason = (fault.strerror or str(fault)).lower()
    return OutputError(
        f"cannot write `{path}`: {reason}; nothing that was there has been replaced. "
        "Make room or choose another folder with --out, then build again"
    )
