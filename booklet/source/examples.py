"""Floor 2: an example for each group of keys, as it is written in `pattern.yaml`.

`booklet help` prints them, and the schema shows an editor the value each gives to a key.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

EXAMPLES: Mapping[str, str] = MappingProxyType(
    {
        "pattern": """\
title: Lamp and Quay
designer: Your Name
version: "0.1"
date: 2026-11-25
language: en
units: inch
allowance: 1/4 in
summary: Twenty lamps along the water.
sizes:
  lap: {title: Lap quilt, unit: 1 in, blocks: 5 x 6}
fabrics:
  ink: {name: Dark blue, colour: navy}
  sand: {name: Sand, colour: "#e9dcc3"}
patches:
  stone: {shape: square, side: 2}
blocks:
  path:
    grid: [[ink, sand], [sand, ink]]
quilt: {set: straight, arrange: [[path]]}
""",
        "size": """\
title: Lap quilt
unit: 1 1/2 in
blocks: 5 x 6
quilt: {borders: [{width: 3 in, fabric: ink}]}
fabrics: {sand: {width: 42 in}}
bed: {mattress: queen, drop: 14 in}
""",
        "bed": "{mattress: queen, drop: 14 in, tuck: 10 in}\n",
        "fabric": """\
name: Large floral
colour: "#a8332f"
picture: cloths/floral.jpg
width: 42 in
direction: one-way
repeat: {across: 12 in, along: 8 in, drop: half}
shrinks: 3 %
extra: 10 %
sold by: 1/4 yd
kind: yardage
""",
        "repeat": "{across: 12 in, along: 8 in, drop: half}\n",
        "patch": "{shape: diamond, side: 2, angle: 45, grain: side 1, motif: no, anchor: corner 3}\n",
        "block": """\
title: Lantern block
size: 4 x 2
pieces:
  - {id: a, patch: stone, fabric: ink, at: [1, 1]}
  - {id: b, patch: stone, fabric: sand, at: [3, 1]}
sew:
  - {make: block, join: [a, b], by: machine}
""",
        "piece": "{id: n, patch: wing, fabric: ink, at: [3, 1.5], turn: 90, flip: yes, ring: {centre: [3, 3], times: 4}}\n",
        "ring": "{centre: [3, 3], times: 4}\n",
        "beside": "{piece: n1, side: 2, own: 5}\n",
        "applied": "{shape: outlines.svg#leaf, title: leaf, width: 1.5, fabric: sand, at: [3, 2], turn: 30, allowance: 6 mm, by: hand}\n",
        "step": "{make: pair#, title: pair of wings, join: [c#, n#], by: machine, times: 4, ends: points, press: toward c#, note: Turn the corner at the centre., picture: photos/corner.jpg, picture text: Two fingers hold the corner open.}\n",
        "quilt": """\
set: straight
arrange: [[star, star turn 90], [star turn 90, star]]
sashing: {width: 1 1/2 in, fabric: sand, cornerstones: ink}
borders:
  - {width: 1 in, fabric: sand}
  - {width: 4 in, fabric: ink, corners: mitred}
binding: {width: 2 1/2 in, fabric: ink}
backing: {extra: 4 in, fabric: sand}
batting: {extra: 4 in}
sleeve: {fabric: sand}
""",
        "lattice": "{across: [3, 0], down: [1.5, 2.6]}\n",
        "sashing": "{width: 1 1/2 in, fabric: sand, cornerstones: ink, outside: yes}\n",
        "border": "{width: 4 in, fabric: ink, corners: squares, square fabric: sand, cut: lengthwise}\n",
        "binding": "{width: 2 1/4 in, fabric: ink, cut: bias, fold: double}\n",
        "backing": "{extra: 3 in, fabric: sand}\n",
        "batting": "{extra: 3 in}\n",
        "sleeve": "{width: 4 in, fabric: sand}\n",
        "envelope": "{lap: 5 in, fabric: sand}\n",
        "cutting": """\
half squares: eight at a time
flying geese: four at a time
strip sets: yes
square in a square: yes
trim: 1/8 in
ruler: 1/16 in
""",
        "sewing": """\
machine from: 1 in
set in by: hand
ends: auto
thread: 18 in
new thread: 1 1/2 in
routes: whole runs
press: dark
layers: 8
costs: {partial: 1, set in by machine: 2, turn: 3 in, through allowance: 1/8 in, loose thread: 3, going back: 1, card: 1/4 in}
machine speed: 10 in a minute
hand speed: 1 in a minute
handling: 1
sitting: 90
""",
        "costs": "{partial: 1, set in by machine: 2, set in by hand: 0.5}\n",
        "booklet": """\
paper: a4
editions:
  pattern: {pages: [cover, text/welcome.md, materials, cutting, templates, piecing, pressing, quilt, finishing]}
  handout: {sizes: [lap], pages: [class, supplies, cutting, piecing]}
cover: {picture: photos/lamps.jpg, picture text: The quilt on a wall by the quay., difficulty: confident beginner}
imprint: {copyright: © 2026 Your Name, contact: "https://example.org/lamps"}
parts: [{title: First month, blocks: [wave]}, {title: The quilt, quilt: yes}]
class: {students: 12, makes: one block, homework: Wind two bobbins.}
look: {title colour: navy}
""",
        "edition": "{title: {en: For the class, de: Für den Kurs}, language: [en, de], units: {en: inch, de: cm and inch}, address: {de: familiar}, pages: [class, supplies, cutting, piecing], sizes: [lap], teacher: no, names: [Ilse, Tomas], order: by block, parts: no, colourway: [day, dusk]}\n",
        "cover": """\
picture: photos/lamps.jpg
picture text: The quilt on a wall by the quay.
difficulty: confident beginner
skills: [a scant quarter inch, pressing in opposite ways]
time: yes
""",
        "imprint": """\
copyright: © 2026 Your Name
licence: You may copy it for your own class, and sell what you sew from it by hand.
isbn: 978-0-306-40615-7
price: 12 €
contact: ["https://example.org/lamps", hello@example.org]
""",
        "part": "{title: {en: First month, de: Erster Monat}, blocks: [wave, shore], quilt: no}\n",
        "class": """\
students: 12
spare kits: 1
makes: one block
homework: [Cut the patches of one block., Sew the practice sheet once.]
start: "9:30"
sessions:
  - {title: One block, minutes: 90, until: 4, do: Sew the steps in order.}
  - {title: Tea, minutes: 15, break: yes}
  - {title: All blocks, minutes: 90, start: "18:30", homework: Sew three blocks.}
""",
        "colourway": """\
title: {en: Dusk, de: Dämmerung}
fabrics:
  sand: {name: Grey, colour: "#8b8f99", width: 110 cm}
  motif: {colour: "#4a2f4b", repeat: none}
complete: no
""",
        "layout": """\
title: {en: Ring, de: Kranz}
quilt: {set: on point, setting fabric: sand}
sizes:
  lap: {blocks: 4 x 5}
""",
        "setting": "{blocks: 4 x 5, quilt: {borders: [{width: 3 in, fabric: ink}]}}\n",
        "session": "{title: One block, minutes: 90, until: 4, do: [Sew the steps in order., Press each join.]}\n",
        "look": """\
title colour: "#7a2f4b"
title font: sans
ground: "#eef2ea"
logo: logo.png
titles: {notes: My diary}
before: {cutting: text/blades.md}
after: {piecing: text/look.md}
""",
    }
)
