"""Floor 13, reference: the patterns from which the help takes its pictures: the one that `booklet new` starts, and
small ones that have what it has not."""

from __future__ import annotations

import tempfile
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path

from booklet.drawing.bar_code import bar_code
from booklet.drawing.scene import Figure
from booklet.pages.pictures.album import DrawnAlbum, drawn
from booklet.pages.pictures.figures import LARGE
from booklet.pattern import AlternativeKind, Isbn
from booklet.plan import Plan
from booklet.quilt.beds.bed_words import mattress_of
from booklet.recipe import compiler
from booklet.recipe.output import write_files
from booklet.reference.sketches import bed_sketch, day_sketch, look_sketch, sheets_sketch
from booklet.source.starter import starter_files

WALL = """\
title: Shed windows
units: inch
sizes: {wall: {title: Wall hanging, unit: 1 in, blocks: 3 x 2}}
fabrics:
  view: {name: Harbor print, colour: "#34506e", repeat: {across: 6 in, along: 4 in, drop: half}}
  sill: {name: Sill, colour: "#d8cbb2"}
  jamb: {name: Jamb, colour: "#7c6a55"}
patches:
  glass: {shape: square, side: 3, motif: yes}
  rail: {shape: rectangle, width: 3, height: 1}
blocks:
  pane:
    size: 3 x 4
    pieces:
      - {id: g, patch: glass, fabric: view, at: [1.5, 1.5]}
      - {id: s, patch: rail, fabric: sill, at: [1.5, 3.5]}
quilt:
  sashing: {width: 1 in, fabric: jamb, cornerstones: sill, outside: yes}
  backing: {fabric: sill}
  sleeve: {fabric: sill}
booklet:
  class:
    start: "9:30"
    sessions:
      - {title: One block, minutes: 90, do: Sew the steps in order.}
      - {title: Tea, minutes: 15, break: yes}
      - {title: Joining, minutes: 60, do: Join two blocks.}
  look: {title colour: "#7a2f4b", ground: "#eef2ea", titles: {notes: My diary}}
"""
CUSHION = WALL.replace("sleeve: {fabric: sill}", "envelope: {fabric: jamb}")  # one or the other
FLOWER = """\
title: Flowers in a lattice
units: inch
sizes: {mat: {title: Mat, unit: 1 in, blocks: 4 x 4}}
fabrics:
  heart: {name: Yellow, colour: "#e8b23a"}
  petal: {name: Blue, colour: "#27496d"}
patches: {hex: {shape: hexagon, side: 1}}
blocks:
  flower:
    pieces:
      - {id: c, patch: hex, fabric: heart, at: [0, 0]}
      - {id: h, patch: hex, fabric: petal, beside: {piece: c, side: 1, own: 4}, ring: {centre: [0, 0], times: 6}}
quilt: {set: lattice, lattice: {across: [5*√3/2, 3/2], down: [√3/2, 9/2]}, rim: fill}
sewing: {set in by: hand, machine from: 3 in}
"""
BED = """\
title: Checks for a bed
units: inch
sizes: {bed: {title: Bed, unit: 11 in, blocks: 4 x 5, bed: {mattress: queen, drop: 14 in, tuck: 10 in}}}
fabrics:
  ink: {name: Dark blue, colour: "#27496d"}
  sand: {name: Sand, colour: "#e9dcc3"}
blocks: {four: {grid: [[ink, sand], [sand, ink]]}}
quilt: {}
"""
MONTHS = """\
title: Two months
units: inch
sizes: {mat: {title: Mat, unit: 2 in, blocks: 2 x 2}}
fabrics:
  ink: {name: Dark blue, colour: "#27496d"}
  sand: {name: Sand, colour: "#e9dcc3"}
blocks:
  wave: {grid: [[ink, sand], [sand, ink]]}
  shore: {grid: [[sand, sand], [ink, sand]]}
quilt: {arrange: [[wave, shore], [shore, wave]]}
booklet:
  parts: [{title: First month, blocks: [wave]}, {title: The quilt, blocks: [shore], quilt: yes}]
  editions: {monthly: {parts: yes, pages: [cover, parts, cutting, piecing]}}
"""
GATES = """\
title: Gates
units: inch
sizes: {mat: {title: Mat, unit: 2 in, blocks: 3 x 3}}
fabrics:
  ink: {name: Dark blue, colour: "#27496d"}
  sand: {name: Sand, colour: "#e9dcc3"}
blocks:
  gate: {grid: [[ink, sand], [sand, ink]]}
quilt: {arrange: [[gate]], borders: [{width: 2 in, fabric: ink}]}
colourways:
  day: {title: Day}
  dusk: {title: Dusk, fabrics: {ink: {name: Plum, colour: "#4a2f4b"}, sand: {name: Rose, colour: "#d9a0a0"}}}
layouts:
  rows: {title: Rows}
  point: {title: On point, quilt: {set: on point, setting fabric: sand}}
"""
POSY = """\
title: Posy
units: inch
sizes: {mat: {title: Mat, unit: 1 in, blocks: 1}}
fabrics:
  sand: {name: Sand, colour: "#e9dcc3"}
  leaf: {name: Green, colour: "#4d7c4a"}
  petal: {name: Red, colour: "#b03a2e"}
blocks:
  posy:
    size: 6 x 6
    pieces: [{id: ground, fabric: sand, corners: [[0, 0], [6, 0], [6, 6], [0, 6]]}]
    applied:
      - {title: leaf, outline: M 1 5 C 1 3 2 2 4 2 C 4 4 3 5 1 5 Z, fabric: leaf}
      - {title: flower, outline: M 3 2 A 1 1 0 0 1 5 2 A 1 1 0 0 1 3 2 Z, fabric: petal}
"""
STARTER = ""
DRAWN = {
    "pattern": (STARTER, "cover"),
    "size": (STARTER, "sizes"),
    "bed": (BED, "sketch bed"),
    "fabric": (STARTER, "cloth stone"),
    "repeat": (WALL, "cloth view"),
    "patch": (STARTER, "patches"),
    "block": (STARTER, "block lantern"),
    "piece": (STARTER, "block lantern"),
    "ring": (STARTER, "block lantern"),
    "applied": (POSY, "step posy 1"),
    "beside": (FLOWER, "block flower"),
    "step": (STARTER, "step lantern 2"),
    "sewing": (STARTER, "press lantern"),
    "costs": (FLOWER, "thread flower"),
    "quilt": (STARTER, "quilt"),
    "lattice": (FLOWER, "quilt"),
    "sashing": (WALL, "quilt"),
    "border": (STARTER, "border"),
    "binding": (STARTER, "binding"),
    "backing": (STARTER, "backing"),
    "batting": (STARTER, "layers"),
    "sleeve": (WALL, "sleeve"),
    "envelope": (CUSHION, "envelope"),
    "cutting": (STARTER, "cloth water"),
    "booklet": (STARTER, "sketch sheets"),
    "edition": (STARTER, "sketch sheet"),
    "part": (MONTHS, "sketch sheets"),
    "colourway": (GATES, "colourway"),
    "layout": (GATES, "layout"),
    "setting": (GATES, "layout"),
    "class": (WALL, "sketch day"),
    "session": (WALL, "sketch day"),
    "cover": (STARTER, "cover"),
    "imprint": (STARTER, "sketch bars"),
    "look": (WALL, "sketch look"),
}
"""For each group of keys the pattern that shows it, and its picture: one of the album's or a sketch."""


def pictures_of(group: str) -> tuple[Figure, ...]:
    """The pictures of a group of keys; none of a group that has none."""
    text, name = DRAWN.get(group, (STARTER, ""))
    plan, album = _drawn(text)
    if name in list(AlternativeKind):
        return tuple(_alternatives(plan, AlternativeKind(name)))
    if name in _SKETCHES:
        return (_SKETCHES[name](plan),)
    if name in album.rows:
        return album.series(name)
    one = album.figure(name)
    return () if one is None else (one,)


@cache
def _drawn(text: str) -> tuple[Plan, DrawnAlbum]:
    """The plan of a pattern, and the pictures of its largest size."""
    files = {"pattern.yaml": text} if text else starter_files()
    with tempfile.TemporaryDirectory() as folder:
        write_files(Path(folder), files)
        checked = compiler.check(Path(folder)).value
    assert checked is not None  # tests build it
    plan = compiler.plan(checked)
    album = drawn(plan)(plan.sizes[-1], LARGE)
    assert isinstance(album, DrawnAlbum)
    return plan, album


def _alternatives(plan: Plan, kind: AlternativeKind) -> Iterator[Figure]:
    """The pictures of all colourways, or layouts, of a pattern."""
    figures = drawn(plan)
    for _, shown in plan.side_by_side(kind):
        figure = figures(shown.sizes[-1], LARGE).figure("beside 3")
        assert figure is not None
        yield figure


def _bed(plan: Plan) -> Figure:
    bed = plan.pattern.sizes[0].bed
    assert bed is not None
    width, length = map(float, mattress_of(bed.mattress, plan.pattern.units))
    return bed_sketch(bed, width, length, float(bed.drop.inches), float(bed.tuck.inches))


_SKETCHES: dict[str, Callable[[Plan], Figure]] = {
    "sketch bed": _bed,
    "sketch sheets": lambda plan: sheets_sketch(plan.pattern.booklet.editions),
    "sketch sheet": lambda plan: sheets_sketch(plan.pattern.booklet.editions[1:2]),
    "sketch day": lambda plan: day_sketch(plan.pattern.booklet.lesson),
    "sketch bars": lambda plan: bar_code(Isbn("978-0-306-40615-7", "9780306406157")),
    "sketch look": lambda plan: look_sketch(plan.pattern.booklet.look),
}
