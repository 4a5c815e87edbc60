"""A pattern that is typed letter by letter, saved after every few: what the preview holds, and whether it is ever at a loss.

    python tests/benchmarks/saves.py [PATTERN] [--saves 1000]

The text is typed from its first letter to its last, and again with other figures until so many saves are made. Printed is
the memory of the process after every tenth of them; from the first full text on it should not grow.
"""

from __future__ import annotations

import argparse
import gc
import re
import shutil
import tempfile
import time
from itertools import islice
from pathlib import Path

from booklet.preview.bench.bench import Bench, Choice

HOUSE = Path(__file__).parent.parent


def memory() -> float:
    """The MiB of memory that the process holds now."""
    status = Path("/proc/self/status").read_text()
    return int(re.search(r"VmRSS:\s+(\d+)", status)[1]) / 1024


def typed(text: str, saves: int):
    """The text at each save: at first ever longer, then with ever other figures in one of its lines."""
    step = max(1, 2 * len(text) // saves)
    yield from (text[:end] for end in range(1, len(text), step))
    for n in range(saves):
        yield re.sub(r"width: \d+", f"width: {2 + n % 7}", text) + f"# {n}\n"
        yield text[: len(text) - n % len(text)]


def main() -> None:
    """Print the table."""
    asked = argparse.ArgumentParser()
    asked.add_argument("pattern", type=Path, nargs="?", default=HOUSE / "patterns" / "four_patch")
    asked.add_argument("--saves", type=int, default=1000)
    options = asked.parse_args()
    with tempfile.TemporaryDirectory() as home:
        folder = Path(home) / "pattern"
        shutil.copytree(options.pattern, folder)
        source = folder / "pattern.yaml"
        bench, text, begun, sound = Bench(folder), source.read_text("utf-8"), time.time(), 0
        for n, now in enumerate(islice(typed(text, options.saves), options.saves), 1):
            source.write_text(now, "utf-8")
            bench.refresh()
            bench.shown(Choice())
            assert not bench.look.trouble, bench.look.trouble
            sound += bench.look.sound
            if n % (options.saves // 10) == 0:
                gc.collect()
                print(
                    f"{n:5} saves, {sound:4} of them sound: {memory():6.0f} MiB, {time.time() - begun:5.0f} s",
                    flush=True,
                )


if __name__ == "__main__":
    main()
