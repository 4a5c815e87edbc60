"""Floor 2: a small pattern to begin with: it builds as it is, and its comments teach the format."""

from __future__ import annotations

from booklet.source.schema import schema_text

SCHEMA = "pattern.schema.json"

_PATTERN = """\
# yaml-language-server: $schema=pattern.schema.json
# (Editors that read the line above complete the keys and mark slips while you type.)
#
# A pattern is this file, the texts beside it, and pictures if you like.
# Change a line, run `booklet check` in this folder, and you are told what does not fit.
# A line that begins with # is a note to yourself.

title: Lamp and Quay            # the name on the cover
designer: Your Name
version: "0.1"
units: inch                     # or cm
allowance: 1/4 in               # the seam allowance on every side of every patch
summary: Twenty lamps along the water, sewn from squares and triangles.

# Everything below is drawn in design units, written u. Each size says how long 1 u is,
# so one drawing serves every size. `blocks` is across x down.
sizes:
  cushion: {title: Cushion, unit: 1 in, blocks: 2 x 2}
  lap: {title: Lap quilt, unit: 1 1/2 in, blocks: 4 x 5}

# A colour that begins with # stands in quotes.
fabrics:
  lamp: {name: Warm yellow, colour: "#e8b23a"}
  water: {name: Deep blue, colour: "#27496d"}
  stone: {name: Pale grey, colour: "#e4e0d6"}

# The patches, by their finished size: no allowance yet, the tool adds it.
patches:
  square: {shape: square, side: 2}
  half: {shape: half-square triangle, side: 2}      # `side` is one of the two short sides

# `at` is where the middle of a patch lies: across from the left, then down from the top.
# `ring` goes round a centre, clockwise: `s` becomes s1 (top), s2 (right), s3 (bottom), s4 (left).
blocks:
  lantern:
    title: Lantern block
    size: 6 x 6
    pieces:
      - {id: c, patch: square, fabric: lamp, at: [3, 3]}
      - {id: s, patch: square, fabric: stone, at: [3, 1], ring: {centre: [3, 3], times: 4}}
      - {id: a, patch: half, fabric: water, at: [1, 1], turn: 90, ring: {centre: [3, 3], times: 4}}
      - {id: b, patch: half, fabric: stone, at: [1, 1], turn: 270, ring: {centre: [3, 3], times: 4}}

    # The order of sewing. `corner#` with `times: 4` makes corner1 to corner4, each from the a and b
    # of the same number. Leave `sew` out and the tool finds an order; leave `press` out and it finds
    # the side on which each allowance lies best.
    sew:
      - {make: corner#, join: [a#, b#], by: machine, times: 4}
      - {make: top row, join: [corner1, s1, corner2], by: machine}
      - {make: middle row, join: [s4, c, s2], by: machine, press: away from c}
      - {make: bottom row, join: [corner4, s3, corner3], by: machine}
      - {make: block, join: [top row, middle row, bottom row], by: machine}

# How the blocks become a quilt. `arrange` is repeated over it; every second lantern is turned here,
# so that the allowances of neighbours nest. The first border listed is the innermost.
quilt:
  set: straight
  arrange: [[lantern, lantern turn 90], [lantern turn 90, lantern]]
  borders: [{width: 2 in, fabric: water, corners: butted}]
  binding: {width: 2 1/2 in, fabric: lamp}
  backing: {extra: 4 in, fabric: stone}
  batting: {extra: 4 in}

# What is printed. Take a page out, or move it, and the booklet follows.
booklet:
  paper: letter                 # or a4
  class:                        # for the page `class`; times are counted from the beginning
    makes: one block            # what each student makes; `students: 12` beside it plans kits for all
    homework: [Cut the patches of one block., Sew the practice sheet once.]
    sessions: [{title: One block, minutes: 90, do: Sew the steps in order.}, {title: Pressing, minutes: 30}]
  editions:
    pattern:
      pages: [cover, text/welcome.md, materials, cutting, templates, piecing, pressing, quilt, finishing, colouring]
    handout:
      sizes: [cushion]          # names: [Ilse, Tomas] beside it makes a copy for each name of a class
      pages: [class, supplies, cutting, practice, piecing, pressing]
    # teacher: {teacher: yes, pages: [text/welcome.md, practice]} holds the notes of texts, too.
  # look: {title colour: navy, logo: logo.png, titles: {notes: My diary}} changes how it looks.
"""

_WELCOME = """\
# Welcome

Write here what you would say at the door: what this quilt is, and what the reader needs to know
before the first cut.

- Read every page once before you cut.
- Sew one block to the end before you cut the rest.

This text is Markdown: a line that begins with `#` is a heading, one that begins with `-` is an entry of
a list, and words between two asterisks are *set off*.

::: teacher
What stands between these two lines is a note. Only an edition with `teacher: yes` prints it.
:::
"""


def starter_files() -> dict[str, str]:
    """The files of a new pattern: their names in the folder, and their text."""
    return {"pattern.yaml": _PATTERN, "text/welcome.md": _WELCOME, SCHEMA: schema_text()}
