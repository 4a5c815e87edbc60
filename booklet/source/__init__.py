"""Floor 2: the source. A folder becomes a Pattern, or every fault in it with its place."""

from booklet.source.reader import read_folder

__all__ = ["read_folder"]
