"""What each picture of a block of a thousand patches takes: seconds of the processor, the dearest first.

Three blocks: squares in rows, hexagons in rings about one (each ring set in by hand), and hexagons in rows, every corner of which
is set in. Each is composed for the web and for paper, and every picture is timed as it is drawn. No picture is to take more than a second.

Run: python tests/benchmarks/pictures.py [part of a name ...]
"""

from __future__ import annotations

import math
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

from bounds import HEAD, grid, rosette

from booklet.pages.pictures.album import DrawnAlbum, drawn
from booklet.plan import make_plan
from booklet.recipe.build_options import PAPERS
from booklet.recipe.compiler import check, print_pages

SHOWN = 8  # pictures of each block that are printed


def field(across: int, down: int) -> str:
    """Hexagons in rows, joined patch by patch."""
    pieces = "".join(
        f"      - {{id: h{r}x{c}, patch: hex, fabric: {('ink', 'sand')[(r + c) % 2]}, "
        f"at: [{math.sqrt(3) * (c + r % 2 / 2):.9f}, {1.5 * r}]}}\n"
        for r in range(down)
        for c in range(across)
    )
    rows = "".join(
        f"      - {{make: row{r}, join: [{', '.join(f'h{r}x{c}' for c in range(across))}], by: hand}}\n"
        for r in range(down)
    )
    joined = ", ".join(f"row{r}" for r in range(down))
    return (
        HEAD.replace("unit: 1 in", "unit: 1/2 in")
        + f"patches: {{hex: {{shape: hexagon, side: 1}}}}\nblocks:\n  field:\n    pieces:\n{pieces}"
        f"    sew:\n{rows}      - {{make: all, join: [{joined}], by: hand}}\n"
    )


SOURCES = {
    "squares": lambda: grid(25, 40),
    "rings": lambda: rosette(18),
    "rows of hexagons": lambda: field(25, 40),
}


def timed(text: str) -> Iterator[tuple[str, int, float]]:
    """Each picture, or row of them, by its name: how many, and the seconds."""
    with tempfile.TemporaryDirectory() as home:
        (Path(home) / "pattern.yaml").write_text(text, encoding="utf-8")
        begun = time.process_time()
        found = check(Path(home))
        assert found.value is not None, [d.message for d in found.diagnostics[:3]]
        plan = make_plan(found.value)
        print(f"checked and planned in {time.process_time() - begun:.1f} s")
    taken: dict[str, tuple[int, float]] = {}

    def watched(real, counted):
        def made(self: DrawnAlbum, name: str):
            if name in self.drawn:
                return real(self, name)
            begun = time.process_time()
            found = real(self, name)
            took = time.process_time() - begun
            taken[name] = max(taken.get(name, (0, 0.0)), (counted(found), took), key=lambda t: t[1])
            return found

        return made

    figure, series = DrawnAlbum.figure, DrawnAlbum.series
    DrawnAlbum.figure = watched(figure, lambda found: 1)
    DrawnAlbum.series = watched(series, len)
    try:
        for edition in plan.pattern.booklet.editions:
            for _ in print_pages(plan, edition, drawn(plan), PAPERS):
                pass
    finally:
        DrawnAlbum.figure, DrawnAlbum.series = figure, series
    for name, (count, took) in taken.items():
        yield name, count, took


def main() -> None:
    """Print the dearest pictures of each block."""
    for name, source in SOURCES.items():
        if sys.argv[1:] and not any(part in name for part in sys.argv[1:]):
            continue
        print(f"\n{name}")
        begun = time.process_time()
        found = sorted(timed(source()), key=lambda each: -each[2])
        print(f"{len(found)} pictures and rows; all of it {time.process_time() - begun:.1f} s")
        for which, count, took in found[:SHOWN]:
            each = f", {took / count:.2f} s each of {count}" if count > 1 else ""
            print(f"  {which:28} {took:6.2f} s{each}")


if __name__ == "__main__":
    main()
