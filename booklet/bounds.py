"""Floor 0: how much is too much. Every limit of the program in one table, each with its reason.

A limit is looked at before the work it saves, and whoever crosses it reads a sentence with a place.
"""

from __future__ import annotations

# the worker processes that lay out documents (floor 12, `walls/`)
WORKER_MEMORY = 3 << 30
"""Bytes of address space: the largest booklet of 30 000 patches takes about a third."""
WORKER_SECONDS = 300
"""Processor time for one document: a document of 100 pages takes about ten."""
WORKER_FILE = 64 << 20
"""Bytes of any file: only fonts are written, aside, for the library that sets text."""
WORKER_OPEN = 256
"""Open files: a worker reads fonts and nothing else."""
WORKERS = 4
"""Processes at once, where the machine has the cores: each needs memory of its own."""
