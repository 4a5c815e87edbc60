"""Floor 13: what commands say on the terminal, and their exit statuses."""

from __future__ import annotations

import sys
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

from booklet.commands.line import console
from booklet.kit.diagnostic import Diagnostic
from booklet.kit.running.doing import told_to

SOUND, FAULTS = 0, 1


@contextmanager
def waiting() -> Iterator[None]:
    """While it lasts, a person at a terminal sees what is being worked out, once it takes more than a second."""
    if not sys.stderr.isatty():
        yield
        return
    begun = time.monotonic()

    def say(what: str) -> None:
        if time.monotonic() - begun > 1:
            print(f"\r\033[K{console.printable(what)} ...", end="", file=sys.stderr, flush=True)

    try:
        with told_to(say):
            yield
    finally:
        print("\r\033[K", end="", file=sys.stderr, flush=True)


def complain(sentence: str, status: int = FAULTS) -> int:
    """Print a sentence to standard error and return the exit status."""
    print(f"booklet: {console.printable(sentence)}", file=sys.stderr)
    return status


def tell(diagnostics: tuple[Diagnostic, ...], folder: Path) -> None:
    """Print diagnostics to standard error."""
    if diagnostics:
        print(console.as_text(diagnostics, reader(folder), str(folder)), file=sys.stderr)


def tally(diagnostics: tuple[Diagnostic, ...]) -> str:
    """How many faults there are, and where to read more about the first."""
    parts = (console.tally(diagnostics), console.more_about(diagnostics))
    return "; ".join(part for part in parts if part)


def reader(folder: Path, given: bytes | None = None) -> console.Reader:
    """What gives the text of a file of the pattern; `given` stands for `pattern.yaml`, if not None."""
    from booklet.source.files.folder import source_text  # it loads what reads a pattern

    return lambda file: source_text(folder, file, given)


def quoted(path: Path) -> str:
    """A path as it is written in a command."""
    return f'"{path}"' if " " in str(path) else str(path)


def listed(names: Sequence[str]) -> str:
    """Names with commas between."""
    return ", ".join(f"`{name}`" for name in names)
