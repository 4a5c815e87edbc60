"""Floor 10: units of a chain as they go under the needle: right sides together, the seams on one line."""

from __future__ import annotations

from booklet.drawing.ink.fills import Looks, wrong_side
from booklet.drawing.lettering.labels import letter_in
from booklet.drawing.quilts.patchwork import together
from booklet.drawing.scene import Area, Fill, Ink, Item, Label, Line
from booklet.drawing.told import piece_letter
from booklet.kit.outlines.near import ONE_POINT
from booklet.kit.outlines.plane import Box, Point, box_of, direction, dot, plus, right_of
from booklet.kit.outlines.polygon import half_plane, roomiest
from booklet.kit.records import Record
from booklet.plan import BlockPlan
from booklet.plan.cards.chaining import top_first
from booklet.sewing.assembly import Run, Step, StepKind

PLATE = (2.0, 20.0)  # mm: the plate under the needle, from left to right
NEEDLE = 13.0  # mm: how far the needle stands from the left
PEEP = 1.4  # mm by which cloth that would be hidden looks out at the right, so that it can be told
BESIDE_SEAM = 0.9  # mm from the middle of a seam to where its halo ends
ABOVE = 7.0  # mm from the top to the line of the seams


class LaidUnit(Record):
    """The patches of a unit in inches about the start of its seam, which runs to the right; the unit that
    lies on top is turned over, and comes last. `length` is that of the seam."""

    patches: tuple[tuple[str, tuple[Point, ...], bool], ...]  # piece, outline, whether on top
    length: float

    @property
    def hides(self) -> bool:
        """Whether the part on top covers what lies below."""
        left, upper, right, lower = box_of(
            p for _, points, top in self.patches if top for p in points
        )
        return all(
            left - ONE_POINT <= x <= right + ONE_POINT
            and upper - ONE_POINT <= y <= lower + ONE_POINT
            for _, points, top in self.patches
            if not top
            for x, y in points
        )

    @property
    def box(self) -> Box:
        """The box about them."""
        return box_of([*(p for _, points, _ in self.patches for p in points), (self.length, 0.0)])


class Pass(Record):
    """One seam of a step on its way under the needle: the pieces on top, and those below."""

    run: Run
    top: frozenset[str]
    below: frozenset[str]
    first_on_top: bool = True  # whether what was there before lies on what is joined to it


def can_be_laid(step: Step) -> bool:
    """Whether each part of a step is sewn to those before it by one straight seam; the edges of a curve
    do not lie on each other flat."""
    return step.kind is StepKind.STRAIGHT and len(step.runs) == len(step.join) - 1


def passes(block: BlockPlan, step: Step) -> tuple[Pass, ...]:
    """The seams of a step in sewing order. Of two parts the one to open over the seam lies on top, in a
    row the smaller one."""
    parts = [frozenset(block.assembly.units.get(name, (name,))) for name in step.join]
    if len(parts) == 2:
        top, _ = top_first(step, block.assembly, block.pressing)
        first = step.join.index(top) == 0
        above, below = parts if first else reversed(parts)
        return (Pass(step.runs[0], above, below, first),)
    found: list[Pass] = []
    done = parts[0]
    for run, part in zip(step.runs, parts[1:], strict=True):
        top_, below = sorted((part, done), key=lambda pieces: _size(block, pieces))
        found.append(Pass(run, top_, below, top_ is done))
        done |= part
    return tuple(found)


def _size(block: BlockPlan, pieces: frozenset[str]) -> tuple[int, float]:
    """How many pieces a part has, and how large it is."""
    left, upper, right, lower = box_of(
        p for id in pieces for p in block.tiling.piece(id).outline.points
    )
    return len(pieces), round((right - left) * (lower - upper), 6)


def laid(block: BlockPlan, seam_pass: Pass) -> LaidUnit:
    """The parts of a seam on each other, right sides together, all below the line of the seam."""
    run, top = seam_pass.run, seam_pass.top
    start, end = run.points[0], run.points[-1]
    seam = block.tiling.seam(run.seams[0])
    on_right = seam.between[0] if seam.start == start else seam.between[1]
    if on_right in top:
        start, end = end, start
    along = direction(start, end)
    down = right_of(along)

    def placed(p: Point, flip: float) -> Point:
        out = (p[0] - start[0], p[1] - start[1])
        return dot(out, along), flip * dot(out, down)

    found: list[tuple[str, tuple[Point, ...], bool]] = []
    for id in sorted(top | seam_pass.below, key=lambda id: (id in top, id)):
        flip = -1.0 if id in top else 1.0
        points = tuple(placed(p, flip) for p in block.tiling.piece(id).outline.points)
        found.append((id, points, id in top))
    return LaidUnit(tuple(found), dot((end[0] - start[0], end[1] - start[1]), along))


def laid_unit(
    block: BlockPlan, unit: LaidUnit, looks: Looks, scale: float, corner: Point
) -> list[Item]:
    """A laid unit on paper, the start of its seam at `corner`, its seam sewn by machine."""
    areas: list[Area] = []
    letters: list[Item] = []
    for id, points, on_top in unit.patches:
        piece = block.tiling.piece(id)
        left = corner[0] + (PEEP if unit.hides and not on_top else 0.0)
        there = tuple((left + x * scale, corner[1] + y * scale) for x, y in points)
        fill = wrong_side() if on_top else looks[piece.fabric]
        areas.append(Area(there, fill, Ink.PATCH))
        if on_top:
            letters += _letter(there, piece_letter(piece), corner)
    end = (corner[0] + unit.length * scale, corner[1])
    return [*together(areas), *letters, Line(points=(corner, end), ink=Ink.MACHINE, halo=True)]


def _letter(outline: tuple[Point, ...], text: str, at: Point) -> list[Label]:
    """The letter of a patch where it is roomiest on one side of the thread that goes on at the height of
    `at`, clear of the seam."""
    ways = ((0.0, 1.0), (0.0, -1.0))
    sides = [half_plane(outline, plus(at, way, BESIDE_SEAM), way) for way in ways]
    free = [side for side in sides if len(side) > 2]
    if not free:
        return []
    label = letter_in(max(free, key=lambda side: roomiest(side)[1]), text, 8.5, room=0.2)
    return [] if label is None else [label]


def plate(down: float, high: float, aside: float = 0.0) -> list[Item]:
    """The plate of the machine from above, `high` mm from `down`, and the two toes of its foot, the
    needle between them; all of it `aside` mm to the right."""
    left, right, needle = PLATE[0] + aside, PLATE[1] + aside, NEEDLE + aside
    upper, lower = down + 1.0, down + high
    box = ((left, upper), (right, upper), (right, lower), (left, lower))
    toes = [
        ((needle - 5.0, y), (needle + 2.5, y), (needle + 2.5, y + 2.4), (needle - 5.0, y + 2.4))
        for y in (down + ABOVE - 3.6, down + ABOVE + 1.2)
    ]
    steel = Fill("#d8d5cd")
    return [
        Area(box, Fill("#efece5"), Ink.CUT),
        *(Area(toe, steel, Ink.CUT) for toe in toes),
    ]
