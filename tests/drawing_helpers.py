"""Small hand-made records for the pictures: blocks whose pieces meet corner to corner."""

import itertools
import math

from booklet.crafts.forms import FORMS
from booklet.geometry.tiling import Junction, Outline, Patch, PlacedPiece, Seam, Side, Tiling
from booklet.kit.diagnostic import Span
from booklet.pattern import By
from booklet.plan import BlockPlan, StepCard
from booklet.pressing.pressing import JunctionKind, Pressed, PressedJunction, Pressing, Reason
from booklet.sewing.assembly import Assembly, Batch, End, Run, SewnSeam, Step, StepKind, Thread

SPAN = Span.whole("pattern.yaml")


def outline(points):
    ring = [*points, points[0]]
    return Outline(tuple(Side(a, b) for a, b in itertools.pairwise(ring)))


def area(points):
    ring = [*points, points[0]]
    return sum(a[0] * b[1] - a[1] * b[0] for a, b in itertools.pairwise(ring)) / 2


def tiling(pieces, rim, block="block"):
    """`pieces`: {id: (fabric, letter, clockwise points)}; `rim`: the block's clockwise outline."""
    placed, owners = [], {}
    for id, (fabric, letter, points) in pieces.items():
        placed.append(
            PlacedPiece(
                id=id,
                fabric=fabric,
                patch=letter,
                reversed=False,
                turn=0.0,
                outline=outline(points),
                grain=0.0,
                motif=False,
                span=SPAN,
            )
        )
        ring = [*points, points[0]]
        for a, b in itertools.pairwise(ring):
            owners[(a, b)] = id
    seams = []
    for (a, b), id in owners.items():
        other = owners.get((b, a))
        if other and list(pieces).index(id) < list(pieces).index(other):
            seams.append(
                Seam(
                    id=f"s{len(seams) + 1}",
                    between=(id, other),
                    path=(a, b),
                    length=math.dist(a, b),
                )
            )
    ends = {}
    for seam in seams:
        for at, far in ((seam.start, seam.end), (seam.end, seam.start)):
            angle = math.degrees(math.atan2(far[0] - at[0], at[1] - far[1])) % 360
            ends.setdefault(at, []).append((angle, seam.id))
    on_rim = {p for edge in owners if edge[::-1] not in owners for p in edge}
    junctions = tuple(
        Junction(at, tuple(id for _, id in sorted(ends[at])), at not in on_rim)
        for at in sorted(ends)
    )
    letters = {}
    for piece in placed:
        letters.setdefault(piece.patch, []).append(piece)
    patches = tuple(patch(letter, alike) for letter, alike in sorted(letters.items()))
    xs, ys = [p[0] for p in rim], [p[1] for p in rim]
    return Tiling(
        block=block, size="lap", outline=outline(rim), pieces=tuple(placed), patches=patches, seams=tuple(seams), junctions=junctions,
        width=max(xs) - min(xs), height=max(ys) - min(ys), area=area(rim),
    )  # fmt: skip


def patch(letter, alike):
    points = alike[0].outline.points
    left, top = min(p[0] for p in points), min(p[1] for p in points)
    moved = [(x - left, y - top) for x, y in points]
    return Patch(
        letter=letter, form=FORMS["polygon"], outline=outline(moved), area=area(points), grain=0.0, motif=False, name="patch",
        pieces=tuple(p.id for p in alike), reversed_too=False,
    )  # fmt: skip


def assembly(tiles, joins, by=By.MACHINE, ends=End.EDGE):
    """`joins`: (make, parts, times, card) in order; every join is one run along its whole seam."""
    units, steps, sewn = {}, [], {}
    for n, (make, parts, times, card) in enumerate(joins, 1):
        groups = [units.get(part, (part,)) for part in parts]
        runs, done = [], list(groups[0])
        for group in groups[1:]:
            runs.append(run(tiles, done, group, by))
            done += group
        units[make] = tuple(done)
        turns = sum(len(r.turns) for r in runs)
        kind = StepKind.SET_IN if turns else StepKind.STRAIGHT
        steps.append(
            Step(n=n, make=make, join=tuple(parts), by=by, kind=kind, turns=turns, runs=tuple(runs), pieces=tuple(done), times=times, batch=card, level=1,
                 card=card, rectangle=None, press=None, note=None, leave=None, finish=False, span=SPAN)
        )  # fmt: skip
        for r in runs:
            for seam in r.seams:
                sewn[seam] = SewnSeam(seam, n, by, (ends, ends))
    hand = [r for step in steps for r in step.runs if r.by is By.HAND]
    threads = tuple(
        Thread(seams=r.seams, points=r.points, length=float(len(r.seams)), turns=len(r.turns))
        for r in hand
    )
    chained = {}
    for step in steps:
        chained.setdefault(step.card, []).append(step.n)
    batches = tuple(Batch(n, tuple(ns), 2.5) for n, ns in sorted(chained.items()))
    return Assembly(
        tiling=tiles, steps=tuple(steps), sewn=sewn, threads=threads, batches=batches, units=units
    )


def run(tiles, one, other, by):
    """The run between two groups of pieces, end to end."""
    between = [s for s in tiles.seams if (s.between[0] in one) != (s.between[1] in one)
               and {*s.between} <= {*one, *other}]  # fmt: skip
    at = {}
    for seam in between:
        at.setdefault(seam.start, []).append(seam)
        at.setdefault(seam.end, []).append(seam)
    start = min((p for p, seams in at.items() if len(seams) == 1), default=min(at))
    points, chain = [start], []
    while True:
        ahead = [s for s in at[points[-1]] if s not in chain]
        if not ahead:
            break
        chain.append(ahead[0])
        points.append(ahead[0].end if ahead[0].start == points[-1] else ahead[0].start)
    turns = tuple(i for i in range(1, len(points) - 1) if bends(*points[i - 1 : i + 2]))
    sides = (tuple(p for p in one), tuple(p for p in other))
    return Run(
        seams=tuple(s.id for s in chain), points=tuple(points), turns=turns, by=by, sides=sides
    )


def bends(a, b, c):
    return abs((b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])) > 1e-9


def pressing(sewing, toward, fans=()):
    """`toward`: {seam: piece or None}; what is left out goes to its first piece."""
    pressed = {
        s.id: Pressed(s.id, toward.get(s.id, s.between[0]), Reason.RULE)
        for s in sewing.tiling.seams
    }
    junctions = tuple(
        PressedJunction(at=j.at, seams=j.seams, kind=JunctionKind.FAN if j.at in fans else JunctionKind.NEST, layers=7,
                        clockwise=True if j.at in fans else None)
        for j in sewing.tiling.junctions if j.inside
    )  # fmt: skip
    after = {id: s.step for id, s in sewing.sewn.items()}
    return Pressing(
        assembly=sewing, pressed=pressed, junctions=junctions, after=after, at_end=False
    )


def four_patch():
    """Four 2 in squares, two pairs joined edge to edge; fanned clockwise at the centre."""

    def square(x, y):
        return ((x, y), (x + 2.0, y), (x + 2.0, y + 2.0), (x, y + 2.0))

    tiles = tiling(
        {
            "a": ("sand", "A", square(0.0, 0.0)), "b": ("ink", "A", square(2.0, 0.0)),
            "c": ("ink", "A", square(0.0, 2.0)), "d": ("sand", "A", square(2.0, 2.0)),
        },
        ((0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0)),
    )  # fmt: skip
    joins = [
        ("pair1", ("a", "b"), 2, 1),
        ("pair2", ("c", "d"), 2, 1),
        ("block", ("pair1", "pair2"), 1, 2),
    ]
    return assembly(tiles, joins)


def box_block():
    """Three rhombs about a point, seen as a box: C is set into the pair A B by hand."""
    r = math.sqrt(3)
    o, n, ne, se, s, sw, nw = (
        (r, 2.0), (r, 0.0), (2 * r, 1.0), (2 * r, 3.0), (r, 4.0), (0.0, 3.0), (0.0, 1.0),
    )  # fmt: skip
    tiles = tiling(
        {
            "a": ("gold", "A", (nw, o, s, sw)), "b": ("rose", "A", (o, ne, se, s)),
            "c": ("sky", "A", (n, ne, o, nw)),
        },
        (n, ne, se, s, sw, nw),
    )  # fmt: skip
    return assembly(
        tiles, [("pair", ("a", "b"), 1, 1), ("block", ("pair", "c"), 1, 2)], By.HAND, End.POINT
    )


def nine_patch():
    """Nine 1 in squares in rows of three."""
    pieces = {}
    for row in range(3):
        for column in range(3):
            x, y = float(column), float(row)
            fabric = "ink" if (row + column) % 2 else "sand"
            pieces[f"r{row + 1}c{column + 1}"] = (
                fabric, "A", ((x, y), (x + 1, y), (x + 1, y + 1), (x, y + 1)),
            )  # fmt: skip
    tiles = tiling(pieces, ((0.0, 0.0), (3.0, 0.0), (3.0, 3.0), (0.0, 3.0)))
    rows = [(f"row{r}", tuple(f"r{r}c{c}" for c in (1, 2, 3)), 3, 1) for r in (1, 2, 3)]
    return assembly(tiles, [*rows, ("block", ("row1", "row2", "row3"), 1, 2)])


COLOURS = {
    "sand": "#e9dcc3", "ink": "#243b6b", "gold": "#e0a93f", "rose": "#c4667a", "sky": "#8fb3c9",
}  # fmt: skip


def block_plan(sewing, pressed=None):
    """A BlockPlan with a card for every kind of step."""
    cards = {}
    for step in sewing.steps:
        cards.setdefault(step.card, []).append(step)
    made = tuple(
        StepCard(n=n, step=steps[0], steps=tuple(steps), title=f"Sew {' to '.join(steps[0].join)}",
                 sentences=("Sew from dot to dot.",), make=len(steps), measure=None, press=("Press to one side.",), warnings=())
        for n, steps in cards.items()
    )  # fmt: skip
    pressed = pressed or pressing(sewing, {})
    return BlockPlan(
        block=None,
        tiling=sewing.tiling,
        assembly=sewing,
        pressing=pressed,
        cards=made,
        count=1,
        press_words=(),
        thread_words=(),
    )
