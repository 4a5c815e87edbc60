"""Floor 2: the source. A folder becomes a Pattern, or every fault in it with its place."""

from typing import TYPE_CHECKING

from booklet.kit.running.later import later

if TYPE_CHECKING:
    from booklet.source.files.folder import source_text
    from booklet.source.reader import read_folder, source_files

__all__ = ["read_folder", "source_files", "source_text"]

__getattr__ = later(__name__, {"files.folder": "source_text", "reader": "read_folder source_files"})
