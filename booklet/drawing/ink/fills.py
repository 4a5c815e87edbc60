"""Floor 10: the look of every cloth: its colour and a hatch of its own.

Fabrics must stay apart on a grey printout, so each has one of twelve marks; with more than twelve
fabrics those that touch still differ.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from booklet.drawing.ink.colours import DARK, WHITE
from booklet.drawing.scene import Fill
from booklet.kit.colour import lightness, mix
from booklet.plan import Plan, SizePlan
from booklet.quilt.assembling.joining import cloth

# Lines at 45, 135, 0 and 90 degrees, dots and crosses, open first and then close. The marks that
# look least alike come first, for most patterns have few fabrics.
MARKS = 12
_ORDER = (1, 9, 2, 11, 3, 4, 5, 10, 6, 12, 7, 8)

Looks = Mapping[str, Fill]


def looks_of(plan: Plan, low_ink: bool = False) -> Looks:
    """The look of every fabric of the plan by its id, the same in every size of the booklet; with
    little ink it is a tint of its colour under the same hatch."""
    colours: dict[str, str] = {}
    touching: set[tuple[str, str]] = set()
    for size in plan.sizes:
        colours.update({id: fabric.colour for id, fabric in size.size.fabrics.items()})
        touching |= _touching(size)
    found = {**looks(colours, touching), **_blocks(plan.sizes)}
    return {id: thrifty(fill) for id, fill in found.items()} if low_ink else found


def thrifty(fill: Fill) -> Fill:
    """The same cloth with a fifth of its ink: the darker of two cloths stays the darker."""
    return Fill(mix(fill.colour, WHITE, 0.8), fill.hatch)


def _blocks(sizes: Iterable[SizePlan]) -> dict[str, Fill]:
    """The look of whole blocks, of which a top is joined: pale, in the colour that most of a block has, with a
    mark for every kind of block but the first."""
    found: dict[str, Fill] = {}
    for size in sizes:
        for block in size.blocks if size.joining is not None else ():
            areas: dict[str, float] = {}
            for piece in block.tiling.pieces:
                area = block.tiling.patch(piece.patch).area
                areas[piece.fabric] = areas.get(piece.fabric, 0.0) + area
            main = size.size.fabrics[max(areas, key=lambda id: areas[id])].colour
            mark = (0, *_ORDER)[len(found) % (MARKS + 1)]
            found.setdefault(cloth(block.block.id), Fill(mix(main, WHITE, 0.55), mark))
    return found


def _touching(size: SizePlan) -> set[tuple[str, str]]:
    """The pairs of fabrics that meet at a seam of a block; quilt parts are taken to meet all."""
    pairs: set[tuple[str, str]] = set()
    for block in size.blocks:
        for seam in block.tiling.seams:
            one, other = (block.tiling.piece(id).fabric for id in seam.between)
            if one != other:
                pairs.add((min(one, other), max(one, other)))
        for shape in block.tiling.applied:  # what is laid on a block may lie on any of its cloths
            one = shape.piece.fabric
            pairs |= {
                (min(one, o.fabric), max(one, o.fabric))
                for o in block.tiling.laid
                if o.fabric != one
            }
    for part in size.quilt.parts:
        for id in size.size.fabrics:
            if id != part.fabric:
                pairs.add((min(id, part.fabric), max(id, part.fabric)))
    return pairs


def looks(colours: Mapping[str, str], touching: Iterable[tuple[str, str]]) -> Looks:
    """A look for every fabric in the order given: the first mark that no fabric has yet, then the
    mark least used that no touching fabric has. The lightest of all stays plain, as a ground."""
    near: dict[str, set[str]] = {id: set() for id in colours}
    for one, other in sorted(touching):
        if one in near and other in near:
            near[one].add(other)
            near[other].add(one)
    marks: dict[str, int] = {}
    ground = max(colours, key=lambda id: (lightness(colours[id]), id), default=None)
    if ground is not None and lightness(colours[ground]) > 60:
        marks[ground] = 0
    for id in colours:
        if id not in marks:
            marks[id] = _mark(marks, near[id])
    return {id: Fill(colours[id], marks[id]) for id in colours}


def _mark(taken: Mapping[str, int], near: set[str]) -> int:
    """The mark for one more fabric, given the marks taken and the fabrics it touches."""
    used = list(taken.values())
    barred = {taken[id] for id in near if id in taken}
    free = [mark for mark in _ORDER if mark not in barred] or list(_ORDER)
    return min(free, key=lambda mark: (used.count(mark), _ORDER.index(mark)))


def tinted(fill: Fill) -> Fill:
    """The same cloth as context."""
    return Fill(fill.colour, fill.hatch, tint=True)


def wrong_side() -> Fill:
    """The back of any cloth: white with a light weave."""
    return Fill(WHITE, wrong_side=True)


def ground_colour(fill: Fill) -> str:
    """The colour a fill is painted with: much lighter for context, white for the wrong side."""
    if fill.wrong_side:
        return WHITE
    return mix(fill.colour, WHITE, 0.72) if fill.tint else fill.colour


def mark_colour(fill: Fill) -> str:
    """The colour of a fill's hatch: it stands out from the ground by lightness alone, gently."""
    if fill.wrong_side:
        return "#dcd8cf"
    ground = ground_colour(fill)
    toward = DARK if lightness(ground) >= 42 else WHITE
    best = ground
    for share in range(1, 20):
        best = mix(ground, toward, share / 20)
        if abs(lightness(best) - lightness(ground)) >= (11 if fill.tint else 22):
            break
    return best
