"""Floor 2: the pictures that texts show, so that they are read with the folder."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from posixpath import dirname, join, normpath

from booklet.kit.diagnostic import Span
from booklet.source.files.folder import Folder

_IMAGE = re.compile(r"!\[[^\]]*\]\(\s*<?([^)\s>]+)")


def pictures_of_texts(texts: Mapping[str, str], files: Folder) -> dict[str, Span]:
    """The pictures named in Markdown texts that lie in the folder, with the place of the first naming.

    A name is looked up beside its text first, then from the folder's top. What is not there is a
    fault of the text, found when the text is checked.
    """
    found: dict[str, Span] = {}
    for file, text in sorted(texts.items()):
        for name, span in pictures_named(file, text):
            for path in places_of(file, name):
                inside = not path.startswith(("..", "/")) and ":" not in path
                if inside and files.exists(path):
                    found.setdefault(path, span)
                    break
    return found


def places_of(file: str, name: str) -> tuple[str, str]:
    """Where a picture named in a text may lie: beside the text, or from the folder's top."""
    return normpath(join(dirname(file), name)), normpath(name)


def pictures_named(file: str, text: str) -> Iterator[tuple[str, Span]]:
    """The names of pictures in a text, with their places."""
    for number, line in enumerate(text.splitlines(), 1):
        for match in _IMAGE.finditer(line):
            yield match.group(1), Span(file, number, match.start(1) + 1, match.end(1) + 1)
