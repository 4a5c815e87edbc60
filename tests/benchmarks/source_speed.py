"""How long reading takes, as a ratio to reading a block of 100 pieces; run by hand."""

from __future__ import annotations

import tempfile
import time
from pathlib import Path

from booklet.source.reader import read_folder

HEAD = """\
title: Speed
sizes:
  lap: {unit: 1 in, blocks: 2 x 2}
fabrics:
  ink: {colour: navy}
patches:
  sq: {shape: square, side: 1}
blocks:
  b:
    pieces:
"""


def text(pieces: int) -> str:
    """A row of squares and the steps that join them one by one."""
    rows = [f"      - {{id: p{k}, patch: sq, fabric: ink, at: [{k}, 0]}}\n" for k in range(pieces)]
    steps = ["    sew:\n      - {make: u1, join: [p0, p1]}\n"]
    steps += [f"      - {{make: u{k}, join: [u{k - 1}, p{k}]}}\n" for k in range(2, pieces)]
    return HEAD + "".join(rows) + "".join(steps)


def seconds(source: str) -> float:
    with tempfile.TemporaryDirectory() as name:
        (Path(name) / "pattern.yaml").write_text(source, encoding="utf-8")
        start = time.perf_counter()
        outcome = read_folder(Path(name))
        taken = time.perf_counter() - start
        assert outcome.diagnostics == (), outcome.diagnostics[:3]
        return taken


if __name__ == "__main__":
    first = seconds(text(100))
    for pieces in (100, 300, 1000, 3000, 8000):
        taken = seconds(text(pieces))
        print(f"{pieces:6d} pieces  {taken:7.2f} s  {taken / first:6.1f} times 100 pieces")
