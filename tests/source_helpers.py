"""Short ways to read a pattern in the tests of the source floor."""

from __future__ import annotations

import tempfile
from pathlib import Path

from booklet.kit.diagnostic import Outcome
from booklet.pattern import Block, Pattern, Size
from booklet.source.reader import read_folder

HEAD = """\
title: Quay stones
sizes:
  lap: {unit: 1 in, blocks: 2 x 2}
fabrics:
  ink: {colour: "#243b6b"}
  sand: {colour: "#e9dcc3"}
"""
STONE = """\
blocks:
  stone:
    grid: [[ink, sand]]
"""
GOOD = HEAD + STONE
PATTERNS = Path(__file__).parent / "patterns"


def read(text: str | bytes, **files: bytes) -> Outcome[Pattern]:
    """The outcome of a folder with this `pattern.yaml` and these files."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        data = text if isinstance(text, bytes) else text.encode("utf-8", "surrogatepass")
        (folder / "pattern.yaml").write_bytes(data)
        for file, content in files.items():
            (folder / file).write_bytes(content)
        return read_folder(folder)


def pattern(text: str) -> Pattern:
    """The pattern of a text without faults."""
    outcome = read(text)
    assert outcome.diagnostics == (), [d.message for d in outcome.diagnostics]
    assert outcome.value is not None and outcome.value.complete
    return outcome.value


def faults(text: str | bytes) -> list[tuple[str, int, int]]:
    """The code, line and column of each fault."""
    return [(d.code, d.span.line, d.span.column) for d in read(text).diagnostics]


def the_size(text: str) -> Size:
    return pattern(text).sizes[0]


def the_block(text: str) -> Block:
    return pattern(text).blocks[0]
