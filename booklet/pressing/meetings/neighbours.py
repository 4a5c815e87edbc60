"""Floor 5: block against block. Which points of the rims coincide in the quilt's arrangement.

A seam end on a block's rim meets one of its neighbour's where both lie at the same place of the common
edge; the allowances of seams that face each other nest when both lie the same way round it. A straight
arrangement, or one on point, repeats, so each kind of meeting is found once and counted.
"""

from __future__ import annotations

from collections.abc import Mapping

from booklet.geometry.tiling import BlockKey, Junction, Tiling
from booklet.kit.outlines.near import TOUCH
from booklet.kit.outlines.plane import Point, box_of, turn_point
from booklet.kit.records import Record
from booklet.pattern import SetKind, Size
from booklet.pressing.meetings.arrangement import TurnedBlock, every_second, neighbours_of
from booklet.pressing.meetings.crossings import Sense, agree
from booklet.pressing.meetings.facing import facing
from booklet.pressing.meetings.places import SECOND, lattice_places
from booklet.pressing.meetings.touching_rims import RimEnd, Touch, touches
from booklet.pressing.pressing import Pressing
from booklet.pressing.strands import ray


class RimMeeting(Record):
    """Two rim points that coincide, `first` left of or above `second`, `count` times in the quilt.
    `facing` are the pairs of their seams, one of either block, that face each other."""

    first: RimEnd
    second: RimEnd
    count: int
    facing: tuple[tuple[str, str], ...]


def rim_meetings(size: Size, tilings: Mapping[str, Tiling]) -> tuple[RimMeeting, ...]:
    """All meetings of rim points in a size's quilt; `tilings` by block id. In a lattice, the meetings
    of the whole set, before a ragged rim is trimmed."""
    if size.quilt is not None and size.quilt.set is SetKind.LATTICE:
        return _in_lattice(size, tilings)
    found: dict[tuple[RimEnd, RimEnd, bool], int] = {}
    for pair, times in neighbours_of(size).items():
        if pair.first.block not in tilings or pair.second.block not in tilings:
            continue
        axis = 0 if pair.at_right else 1
        others = _edge(tilings[pair.second.block], pair.second, axis, far=False)
        for place, one in _edge(tilings[pair.first.block], pair.first, axis, far=True):
            for other_place, other in others:
                if abs(place - other_place) <= TOUCH:
                    key = (one, other, pair.at_right)
                    found[key] = found.get(key, 0) + times
    return tuple(
        RimMeeting(one, other, count, _facing(tilings, one, other, at_right=at_right))
        for (one, other, at_right), count in found.items()
    )


def _in_lattice(size: Size, tilings: Mapping[str, Tiling]) -> tuple[RimMeeting, ...]:
    """The meetings of a lattice set, whose blocks may have any outline: by placing every block."""
    found: dict[tuple[RimEnd, RimEnd], list[Touch]] = {}
    for touch in touches(lattice_places(size, tilings), tilings):
        found.setdefault((touch.first, touch.second), []).append(touch)
    return tuple(
        RimMeeting(one, other, len(alike), alike[0].facing) for (one, other), alike in found.items()
    )


def rim_clashes(size: Size, pressings: Mapping[BlockKey, Pressing]) -> tuple[bool, int]:
    """(whether all joins between blocks nest, how many pairs of facing seams lie to the same side) in
    one size's quilt, its second versions counted where they lie."""
    by_block = {
        block: pressing for (size_id, block), pressing in pressings.items() if size_id == size.id
    }
    layouts = [p.versions.layout for p in by_block.values() if p.versions is not None]
    named = every_second(size, SECOND, layouts[0]) if layouts else size
    assert named is not None
    second = {b: p.versions.second if p.versions is not None else p for b, p in by_block.items()}
    by_block |= {block + SECOND: pressing for block, pressing in second.items()}
    clashes = 0
    for meeting in rim_meetings(named, {b: p.assembly.tiling for b, p in by_block.items()}):
        one, other = (by_block[end.block] for end in (meeting.first, meeting.second))
        for a, b in meeting.facing:
            senses = (sense_of(one, a, meeting.first.at), sense_of(other, b, meeting.second.at))
            clashes += 0 if agree(senses) else meeting.count
    return clashes == 0, clashes


def sense_of(pressing: Pressing, seam_id: str, at: Point) -> Sense:
    """Whether a seam's allowance lies clockwise, on the page, round its end `at`; None if open."""
    seam = pressing.assembly.tiling.seam(seam_id)
    toward = pressing.pressed[seam_id].toward
    if toward is None:
        return None
    return (toward == seam.between[0]) == (seam.start == at)


def _edge(
    tiling: Tiling, placed: TurnedBlock, axis: int, *, far: bool
) -> list[tuple[float, RimEnd]]:
    """The rim points on one edge of a turned block with their place along it: on the right (`far`) or
    left edge for axis 0, on the bottom or top edge for axis 1."""
    left, top, right, bottom = box_of(tiling.outline.points)
    box = (right - left, bottom - top)
    turned_box = box if placed.turn % 180 == 0 else box[::-1]
    edge = turned_box[axis] if far else 0.0
    ends = []
    for junction in tiling.junctions:
        if junction.inside or not junction.seams:
            continue
        place = turned((junction.at[0] - left, junction.at[1] - top), box, placed.turn)
        if abs(place[axis] - edge) <= TOUCH:
            ends.append((place[1 - axis], _end(placed, junction)))
    return ends


def _facing(
    tilings: Mapping[str, Tiling], one: RimEnd, other: RimEnd, *, at_right: bool
) -> tuple[tuple[str, str], ...]:
    """The seams of two coinciding rim points that face each other across the edge."""
    along = (0.0, 1.0) if at_right else (1.0, 0.0)
    first, second = (
        [(id, turn_point(ray(tilings[end.block].seam(id), end.at), end.turn)) for id in end.seams]
        for end in (one, other)
    )
    return facing(along, first, second)


def _end(placed: TurnedBlock, junction: Junction) -> RimEnd:
    return RimEnd(placed.block, placed.turn, junction.at, junction.seams)


def turned(point: Point, box: Point, turn: int) -> Point:
    """A point of a width x height box once the box is turned clockwise and moved back to (0, 0)."""
    x, y = point
    width, height = box
    return {
        0: (x, y),
        90: (height - y, x),
        180: (width - x, height - y),
        270: (y, width - x),
    }[turn % 360]
