"""Floor 13, writing: one change of the author's own source, which can be undone until the next save.

The new text is written aside and takes the old one's place when it is whole. The old one is kept in memory, so that nothing
but the source is ever written. Whoever else has saved it meanwhile is never overwritten.
"""

from __future__ import annotations

import os
import stat
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

from booklet.kit.records import Record
from booklet.preview.serving.page_changes import digest
from booklet.recipe.output import OutputError, keep_aside
from booklet.source.files.folder import SOURCE

_BOM = "\ufeff"


class Unwritten(Exception):
    """Nothing was written; the message is a sentence that says why, and what to do."""


class _Kept(Record):
    """A change that can be undone: what it was, the bytes before and after."""

    what: str
    before: bytes
    after: bytes


class Writer:
    """Writes the source of one folder. For one thread."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._kept: _Kept | None = None
        self.written = 0
        """How often the source was written."""

    @property
    def undoable(self) -> str:
        """What can be undone; empty where nothing can, for instance because the source was saved since."""
        if self._kept is None:
            return ""
        with suppress(OSError):
            if (self._folder / SOURCE).read_bytes() == self._kept.after:
                return self._kept.what
        return ""

    def change(self, seen: str, what: str, edited: Callable[[str], str | None]) -> None:
        """Put the edited text in place of the one that was `seen` (its digest). Raises Unwritten."""
        before = self._read()
        try:
            whole = before.decode("utf-8")
        except UnicodeDecodeError:
            raise Unwritten(f"{SOURCE} is not written in UTF-8; nothing was written") from None
        text = whole.removeprefix(_BOM)
        if digest(text).hex() != seen:
            raise Unwritten(
                f"{SOURCE} was saved since this page showed it; nothing was written. Look at what is there now, "
                "then write again"
            )
        made = edited(text)
        if made is None:
            raise Unwritten(
                f"the place in {SOURCE} cannot be found safely; nothing was written. Write it there by hand"
            )
        after = (whole[: len(whole) - len(text)] + made).encode("utf-8")
        if after == before:
            raise Unwritten(f"{SOURCE} says so already; nothing was written")
        self._put(before, after)
        self._kept = _Kept(what, before, after)

    def undo(self) -> str:
        """Put back the text from before the last change; what it was. Raises Unwritten."""
        kept = self._kept
        if kept is None:
            raise Unwritten("there is no change to undo")
        if self._read() != kept.after:
            self._kept = None
            raise Unwritten(
                f"{SOURCE} was saved by another editor since; nothing was put back. Undo it there"
            )
        self._put(kept.after, kept.before)
        self._kept = None
        return kept.what

    def _read(self) -> bytes:
        """The bytes of the source, a file of its own in the folder. Raises Unwritten."""
        path = self._folder / SOURCE
        try:
            if not stat.S_ISREG(os.lstat(path).st_mode):
                raise Unwritten(
                    f"{SOURCE} is a link, or no file; nothing was written. Write where it leads to by hand"
                )
            return path.read_bytes()
        except FileNotFoundError:
            raise Unwritten(
                f"{SOURCE} is no longer in {self._folder}; nothing was written. Put it back, then write again"
            ) from None
        except OSError as fault:
            why = (fault.strerror or "the machine refuses").lower()
            raise Unwritten(f"{SOURCE} cannot be read: {why}; nothing was written") from None

    def _put(self, before: bytes, after: bytes) -> None:
        """Put new bytes in place of those before. Raises Unwritten."""
        try:
            with keep_aside(self._folder) as aside:
                aside.write(SOURCE, after)
                if self._read() != before:
                    raise Unwritten(f"{SOURCE} was saved just now; nothing was written")
                aside.exchange(SOURCE)
                self.written += 1
        except OutputError as fault:
            why = str(fault).rpartition(". ")[0] or str(fault)
            raise Unwritten(
                f"{why}. Ask who may write there, or write it by hand into a copy of the folder"
            ) from None
