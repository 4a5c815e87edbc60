"""Floor 0: how much is too much. Every limit on what is read and worked with in one table, each with its reason.

A limit is looked at before the work it saves, and whoever crosses it reads a sentence with a place. Up to the limits
`check` of any pattern is to end within 20 s of processor time and 500 MiB; `tests/benchmarks/bounds.py` measures it. How
long a search may look for something better is counted in the module that searches.
"""

from __future__ import annotations

# files: read whole, so their size is asked first
MOST_TEXT = 1_000_000
"""Bytes of `pattern.yaml`, a text or a drawing: a novel."""
MOST_TEXTS = 5_000_000
"""Bytes of all texts and drawings together: reading a drawing takes up to 3.3 s and 55 MiB for a megabyte."""
MOST_PICTURE = 10_000_000
"""Bytes of a picture: a photograph at full size."""
MOST_FONT = 10_000_000
"""Bytes of a font: those for Latin letters have a tenth of it."""
MOST_TOTAL = 100_000_000
"""Bytes of all files together: all are held in memory, and go into every web page."""
MOST_PIXELS = 50_000_000
"""Pixels of a picture: decoded it takes four bytes for each."""

MOST_FACTS = 50_000_000
"""Bytes of a file of facts: ten times those of the largest pattern of ours."""
MOST_LISTED = 4_000_000
"""Bytes of the list of built files: a longer one is none of ours."""

# words and numbers of the source: each is looked at as a whole, and has a place on a page
LONGEST_NAME = 60
"""Signs of a name: it is part of a file's name, which has at most 255 bytes."""
LONGEST_WORDS = 2_000
"""Signs of a note, a summary or whatever else is written in the pattern: half a page."""
MOST_BLANKS = 500
"""Spaces and line ends in a row within a value: a pattern of ours goes through a row once for each of its signs."""
LONGEST_OUTLINE = 20_000
"""Signs of a patch's path data: its sides are counted later."""
LONGEST_ARITHMETIC = 200
"""Signs of a number or length: more than anybody can check."""
DEEPEST_ARITHMETIC = 40
"""Brackets inside one another in a number: each is a call of a function."""
MOST_INCHES = 100_000
"""Inches to which a text is read as a length at all: what is larger than `MOST_LENGTH` is said with its place."""
DEEPEST_SOURCE = 24
"""Lists and groups of the source inside one another: the format needs nine."""

# a text in Markdown
MOST_SIGNS = 100_000
"""Signs of a text: fifty pages."""
MOST_LINES = 5_000
"""Lines of a text: setting it takes time with the square of its headings, entries and rows."""
DEEPEST_TEXT = 60
"""Columns by which a line of a text is indented or quoted: fifteen levels, more than a column is wide."""
MOST_ALIKE = 200
"""Signs of one kind that Markdown looks for the other end of, in one paragraph: it looks from each to the end of it."""
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
"""Fabrics, patches or blocks: each is a row of a table that somebody reads."""
MOST_SIZES = 60
"""Sizes of a pattern, those of its colourways and layouts included: all that follows is worked out for each anew, and tables have a row
for each."""
MOST_BORDERS = 20
"""Borders of a quilt: each goes all the way round and is a page of its own."""
MOST_LENGTH = 1_000
"""Inches of any length: 25 m, more than the hall a quilt hangs in."""
MOST_LENGTH_TOLD = f"{MOST_LENGTH} in (25.4 m)"
"""The same as it is told: in both units, for where it is found those of the pattern are not known."""

# a block
MOST_PIECES = 6_000
"""Pieces of a block: as many as may be worked out in one size."""
MOST_APPLIED = 400
"""Shapes laid on a block: each is laid against all that may cover it, up to 10 s where all lie in one heap."""
MOST_ON_PAPER = 400
"""Pieces of a block sewn on printed paper: more would be a pile of papers; their sections are searched in up to 10 s."""
MOST_WORKED = 6_000
"""Pieces of all blocks in all sizes together: each is laid out, sewn, pressed and cut; takes up to 3 ms and 60 KiB."""
MOST_SIDES = 400
"""Sides of one piece: each may be a seam, which is folded over all that lies beside it."""
MOST_CURVE_POINTS = 20_000
"""Points along the curves of a block in one size: a curve strays 0.002 in at most from its chords."""
MOST_JOINED = 1_000
"""Parts that one step joins, and lines of a grid: as many as steps."""
MOST_STEPS = 1_000
"""Steps of a block: a card for each, and each holds all its pieces, which are compared with all others."""
DEEPEST_DRAWING = 64
"""Elements of a drawing inside one another: drawing programs nest a dozen."""
LONGEST_VALUE = 200_000
"""Signs of one attribute of a drawing: the most `MOST_COMMANDS` take, written at length."""
LONGEST_TRANSFORM = 2_000
"""Signs of one transform: fifty steps; each shape inside goes through all of them."""
MOST_DRAWN = 1e7
"""Largest number in a drawing, in its own units: what is larger is no quilt, and sums of it are no longer exact."""
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
MOST_PART_PATCHES = 300
"""Patches of all kinds of part blocks at filled rims, for whose orders fewer cards are looked for: 40 ms for each."""
MOST_PATCHES = 30_000
"""Patches of a quilt: its pictures show every one."""

# the booklet
MOST_EDITIONS = 40
"""Editions: each is set, drawn and printed for itself."""
MOST_PAGES = 200
"""Pages and texts that an edition names: each is set anew for every edition."""
MOST_NAMES = 60
"""Names of a class: each is a copy of its own page."""
MOST_PARTS = 24
"""Parts in which a pattern comes: two years of months; each is a booklet of its own."""
MOST_ALTERNATIVES = 8
"""Colourways, and layouts, of a pattern: each is checked, cut and drawn like the pattern itself, in every choice of the web page."""
MOST_STUDENTS = 200
"""Students of a class, and spare kits: a hall full; the kits of all are cut by one plan."""
MOST_MADE = 200
"""Blocks of one kind that each student of a class makes: more than a course of a year."""
MOST_KIT_PIECES = 30_000
"""Patches in all kits of a class together: as many as a quilt may have."""

MOST_VIEWS = 32
"""Views of a web page (units, cloths, colourways) of which one is in another colourway: each is set like a page of its own. With more
colourways fewer widths of cloth are offered."""
MOST_PAGE = 300_000
"""Bytes of a web page as it is fetched (gzipped) that holds several colourways: two seconds on a slow line. A larger one shows the pattern
as it is alone."""
MOST_CLOTH_PLANS = 120
"""Cloths, counted in each size, for which plans of other widths are worked out for the web page: each costs what
the pattern's own plan of it does."""

OWN_SECONDS = 20
"""Processor time for one page from a template of the author's own: ours take a tenth of a second."""
OWN_MEMORY = 3 << 30
"""Bytes of address space while one is set: our own pictures and figures are there already."""

# the worker processes (`walls/`): those that lay out documents, and those that read drawings and pictures
WORKER_MEMORY = 3 << 30
"""Bytes of address space: the largest booklet of 30 000 patches takes about a third."""
WORKER_SECONDS = 300
"""Processor time for one document: a document of 100 pages takes about ten."""
READER_MEMORY = 512 << 20
"""Bytes of address space: a picture of `MOST_PIXELS` is decoded in 200 MiB, the worst drawing read in 55."""
READER_SECONDS = 10
"""Processor time for one drawing or picture: the worst that is let through takes about three."""
WORKER_FILE = 64 << 20
"""Bytes of any file: only fonts are written, aside, for the library that sets text."""
WORKER_OPEN = 256
"""Open files: a worker reads fonts and nothing else."""
WORKER_FRAME = 1 << 30
"""Bytes of one document or file that a worker takes or gives: far more than a booklet of many pages has."""
WORKERS = 4
"""Processes at once, where the machine has the cores: each needs memory of its own."""

MOST_PROFILE = 16 * 2**20
"""Bytes of a colour profile: those of presses have up to 3 MB, and 9 MB with finer tables than printing shows (common practice)."""
