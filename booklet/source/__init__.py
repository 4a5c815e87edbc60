"""Floor 2: the source. A folder becomes a Pattern, or every fault in it with its place."""

from pathlib import Path

from booklet.diagnostic import Span
from booklet.source.faults import Faults
from booklet.source.folder import Folder
from booklet.source.reader import read_folder


def source_text(folder: Path, file: str) -> str | None:
    """The text of a file of the pattern, to show a line of it; None where it cannot be read."""
    return Folder(folder, Faults()).text(file, Span.whole(file))


__all__ = ["read_folder", "source_text"]
