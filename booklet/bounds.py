"""Floor 0: how much is too much. Every limit on what is read and worked with in one table, each with its reason.

A limit is looked at before the work it saves, and whoever crosses it reads a sentence with a place. Up to the limits
`check` of any pattern is to end within 20 s of processor time and 500 MiB; `tests/benchmarks/bounds.py` measures it. How
long a search may look for something better is counted in the module that searches.
"""

from __future__ import annotations

# files: read whole, so their size is asked first
MOST_TEXT = 1_000_000
"""Bytes of `pattern.yaml`, a text or a drawing: a novel."""
MOST_PICTURE = 10_000_000
"""Bytes of a picture: a photograph at full size."""
MOST_TOTAL = 100_000_000
"""Bytes of all files together: all are held in memory, and go into every web page."""
MOST_PIXELS = 50_000_000
"""Pixels of a picture: decoded it takes four bytes for each."""

# a text in Markdown
MOST_SIGNS = 100_000
"""Signs of a text: fifty pages."""
MOST_LINES = 5_000
"""Lines of a text: setting it takes time with the square of its headings, entries and rows."""
MOST_SHOWN = 200
"""Figures, tables and pictures that a text shows: each is drawn into every web page again."""
MOST_SHOWN_BYTES = 50_000_000
"""Bytes of the pictures that a text shows, each as often as it is shown: they go into every web page."""

# what is told: whoever has more has one cause
MOST_FAULTS = 200
"""Faults of one run: nobody reads more."""
MOST_COMPARED = 1_000
"""Names that are looked through for a hint: each is compared letter by letter."""

# the pattern
MOST_LIST = 20_000
"""Entries of a list where nothing less is said: they are read one by one."""
MOST_NAMED = 5_000
"""Fabrics, patches, blocks or editions: each is a row of a table that somebody reads."""
MOST_SIZES = 60
"""Sizes of a pattern: all that follows is worked out for each anew, and tables have a row for each."""
MOST_BORDERS = 20
"""Borders of a quilt: each goes all the way round and is a page of its own."""
MOST_LENGTH = 1_000
"""Inches of any length: 25 m, more than the hall a quilt hangs in."""

# a block
MOST_PIECES = 7_000
"""Pieces of a block: as many as may be worked out in one size."""
MOST_WORKED = 7_000
"""Pieces of all blocks in all sizes together: each is laid out, sewn, pressed and cut; takes 2 ms and 60 KiB."""
MOST_SIDES = 400
"""Sides of one piece: each may be a seam, which is folded over all that lies beside it."""
MOST_CURVE_POINTS = 20_000
"""Points along the curves of a block in one size: a curve strays 0.002 in at most from its chords."""
MOST_STEPS = 1_000
"""Steps of a block: a card for each, and each holds all its pieces, which are compared with all others."""
MOST_ELEMENTS = 20_000
"""Elements of a drawing, seen or not: each takes its style from those around it."""
MOST_SHAPES = 2_000
"""Shapes of a drawing: each is a piece, and is looked for among the others."""
MOST_COMMANDS = 2_000
"""Sides of one shape of a drawing: each becomes a side, or a curve with many points."""
MOST_RULES = 2_000
"""Rules of style in a drawing: each is held against each shape."""

# the quilt
MOST_BLOCKS = 10_000
"""Blocks of a quilt: its pictures show every one."""
MOST_ARRANGED = 10_000
"""Blocks that `arrange` writes down: as many as a quilt may have."""
MOST_PATCHES = 30_000
"""Patches of a quilt: its pictures show every one."""

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
