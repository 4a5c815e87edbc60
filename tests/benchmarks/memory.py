"""How much memory a build of many blocks takes: the most that its process, and each worker, held at a time.

    python tests/benchmarks/memory.py [--blocks 60] [--size cushion] [--paper a4] [--pdf]

Sixty blocks in the three sizes of the example are a thousand pages on one paper. The figures are those of Linux (`VmHWM`).
"""

from __future__ import annotations

import argparse
import re
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from preview import sampler


def children(process: int) -> list[int]:
    """The processes that a process has started; none where it has ended."""
    try:
        tasks = Path(f"/proc/{process}/task").iterdir()
        return [int(n) for task in tasks for n in (task / "children").read_text().split()]
    except OSError:
        return []


def most_held(process: int) -> int:
    """The most MiB that a process has held; 0 where it has ended."""
    try:
        status = Path(f"/proc/{process}/status").read_text()
    except OSError:
        return 0
    found = re.search(r"VmHWM:\s+(\d+)", status)
    return int(found[1]) // 1024 if found else 0


def watched(command: list[str]) -> tuple[int, int]:
    """The most that a command held, and the most that any process below it held, in MiB."""
    own = below = 0
    run = subprocess.Popen(command)
    while run.poll() is None:
        own, waiting = max(own, most_held(run.pid)), children(run.pid)
        while waiting:
            process = waiting.pop()
            below = max(below, most_held(process))
            waiting += children(process)
        time.sleep(0.05)
    return own, below


def main() -> None:
    """Print the figures."""
    asked = argparse.ArgumentParser()
    asked.add_argument("--blocks", type=int, default=60)
    asked.add_argument("--size", action="append", default=[])
    asked.add_argument("--paper", default="a4")
    asked.add_argument("--pdf", action="store_true")
    options = asked.parse_args()
    with tempfile.TemporaryDirectory() as home:
        folder = Path(home) / "pattern"
        sampler(folder, options.blocks)
        command = [sys.executable, "-m", "booklet", "build", str(folder), "--out", f"{home}/out"]
        command += ["--edition", "pattern", "--paper", options.paper, "--booklet-only", "--quiet"]
        command += [word for size in options.size for word in ("--size", size)]
        own, below = watched(command + ["--pdf"] * options.pdf)
        spent = resource.getrusage(resource.RUSAGE_CHILDREN)
    print(f"the build {own} MiB, its largest worker {below} MiB")
    print(f"processor {spent.ru_utime + spent.ru_stime:.0f} s")


if __name__ == "__main__":
    main()
