"""Floor 4: the turned copies of a step: which other units on the table are joined just so.

Candidates are units whose pieces look alike when turned (`mosaic/likeness.py`), side by side in the same way; which of
them are the same step is what the cards say (`alike.py`).
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence

from booklet.geometry.tiling import Tiling
from booklet.kit.outlines.near import DRAWN
from booklet.kit.outlines.plane import mean
from booklet.pattern import Fabric, Sewing
from booklet.sewing.alike import cards
from booklet.sewing.mosaic.likeness import Likeness, likeness_of
from booklet.sewing.mosaic.mosaic import Faces, bits
from booklet.sewing.order.table import SewnUnit
from booklet.sewing.touched.begun import Begun
from booklet.sewing.touched.touches import TouchedStep, sewn

MOST_TRIED = 2000  # candidates looked at
Ways = Sequence[tuple[Faces, ...]]


def alike_touches(
    touches: Sequence[TouchedStep],
    before: Begun,
    sewing: Sewing,
    fabrics: Mapping[str, Fabric],
) -> tuple[TouchedStep, ...]:
    """The last touch and all its turned copies that can be sewn beside it, none sharing a part, in the order of
    the block's pieces; `before` is what lies on the table before it."""
    last, tiling = touches[-1], before.tiling
    if last.finish or last.leave is not None:
        return (last,)
    number = {piece.id: k for k, piece in enumerate(tiling.pieces)}
    likeness = likeness_of(tiling, fabrics)
    faces = {_faces(unit, number): unit for unit in before.table}
    own = tuple(_faces(before.unit(piece), number) for piece in last.pieces)
    ways = sorted(
        _candidates(own, tuple(faces), likeness, _beside(tiling, number)),
        key=lambda way: _is_elsewhere(way, own, likeness, tiling),
    )
    found = _disjoint(own, ways)
    while others := _of_other_cards(touches, found, tiling, sewing, fabrics):
        ways = [way for way in ways if way not in others]
        found = _disjoint(own, ways)
    return tuple(_touch(way, tiling) for way in sorted(found, key=lambda w: _lowest(_together(w))))


def _disjoint(own: tuple[Faces, ...], ways: Ways) -> list[tuple[Faces, ...]]:
    """A step and as many of its copies as share no part with it or with one before."""
    found, used = [own], _together(own)
    for way in ways:
        if not _together(way) & used:
            found.append(way)
            used |= _together(way)
    return found


def _of_other_cards(
    touches: Sequence[TouchedStep], ways: Ways, tiling: Tiling, sewing: Sewing,
    fabrics: Mapping[str, Fabric],
) -> set[tuple[Faces, ...]]:  # fmt: skip
    """Which copies of the last touch, the first of the ways, are no such step: on another card, or not to be sewn."""
    made = sewn([*touches, *(_touch(way, tiling) for way in ways[1:])], tiling, sewing)
    if made.faults:
        return set(ways[1:])
    card, _ = cards(made.drafts, tiling, fabrics)
    first, *rest = (card[draft.n] for draft in made.drafts[-len(ways) :])
    return {way for way, other in zip(ways[1:], rest, strict=True) if other != first}


def _candidates(
    own: tuple[Faces, ...], table: Sequence[Faces], likeness: Likeness, beside: Sequence[Faces]
) -> Iterator[tuple[Faces, ...]]:
    """Units that look like the parts of a step and touch in the same order, the first in the block first."""
    units = sorted(table, key=_lowest)
    sign = likeness.sign(_together(own))
    tried = 0

    def grown(way: tuple[Faces, ...]) -> Iterator[tuple[Faces, ...]]:
        nonlocal tried
        tried += 1
        if len(way) == len(own):
            if way != own and likeness.sign(_together(way)) == sign:
                yield way
            return
        near = _near(_together(way), beside)
        for unit in units:
            like = likeness.sort(unit) == likeness.sort(own[len(way)])
            if like and unit not in way and (not way or unit & near) and tried < MOST_TRIED:
                yield from grown((*way, unit))

    return grown(())


def _is_elsewhere(
    way: tuple[Faces, ...], own: tuple[Faces, ...], likeness: Likeness, tiling: Tiling
) -> bool:
    """Whether a copy lies elsewhere than where a turn of the whole block about its middle would bring the step: such a
    one is taken only where it is in the way of none that does not."""
    middle = mean(tiling.outline.corners)
    for one, other in zip(way, own, strict=True):
        here, there = (
            math.dist(mean([likeness.looks[face].middle for face in bits(unit)]), middle)
            for unit in (one, other)
        )
        if abs(here - there) > DRAWN:
            return True
    return False


def _near(faces: Faces, beside: Sequence[Faces]) -> Faces:
    """The faces beside some."""
    near = 0
    for face in bits(faces):
        near |= beside[face]
    return near


def _beside(tiling: Tiling, number: Mapping[str, int]) -> list[Faces]:
    """For each face those it shares a seam with."""
    found = [0] * len(number)
    for seam in tiling.seams:
        a, b = (number[id] for id in seam.between)
        found[a] |= 1 << b
        found[b] |= 1 << a
    return found


def _touch(way: tuple[Faces, ...], tiling: Tiling) -> TouchedStep:
    """A join of units as it is touched."""
    return TouchedStep(tuple(tiling.pieces[_lowest(unit)].id for unit in way))


def _faces(unit: SewnUnit, number: Mapping[str, int]) -> Faces:
    return sum(1 << number[piece] for piece in unit.pieces)


def _together(way: tuple[Faces, ...]) -> Faces:
    return sum(way)


def _lowest(faces: Faces) -> int:
    return (faces & -faces).bit_length() - 1
