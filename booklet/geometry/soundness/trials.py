"""Floor 3: finds the one slip behind a block that is not sound: an entry laid otherwise, for which it is.

Each of a few entries is laid again in its other turns, mirrored, by its other sides, or moved to where its
sides meet others; every trial lays the whole block and takes the one-chain test, so that what a hint
proposes has been seen to hold. Effort is counted in pieces laid, never timed.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from fractions import Fraction

from booklet.geometry import overlay
from booklet.geometry.placing.placing import LaidPiece, place_pieces
from booklet.geometry.soundness.sites import Points, Site
from booklet.geometry.soundness.subdivision import subdivide
from booklet.geometry.tiling import Outline, Side
from booklet.geometry.words import place_text
from booklet.kit.diagnostic import Span
from booklet.kit.measure import Extent
from booklet.kit.outlines.near import ONE_POINT
from booklet.kit.outlines.plane import Point, length_of, minus, plus, turn_point
from booklet.kit.records import replace
from booklet.pattern import At, Beside, Piece

EFFORT = 6_000  # pieces laid in all trials of one block
MOST_ENTRIES = 4  # entries that are tried
MOST_MOVES = 24  # places that are tried for one entry
_TURNS = (0, 90, 180, 270, 45, 135, 225, 315, *(n for n in range(15, 360, 15) if n % 45))
Place = tuple[Extent, Extent]
Trial = tuple[Piece, str]  # an entry laid otherwise, and the hint that says how
Way = tuple[
    str, tuple[Points, ...], Span
]  # a hint, the outlines it leads to, where it is to be written


def repair(site: Site, border: Outline | None, entries: Sequence[Piece]) -> Way | None:
    """The hint of the first trial that makes the block sound, the outlines of the entry as it lies then, and where
    that is written; None if none does.

    `entries` are the likeliest first.
    """
    effort = EFFORT
    for entry in entries[:MOST_ENTRIES]:
        for changed, hint in _trials(site, border, entry):
            effort -= len(site.pieces)
            if effort < 0:
                return None
            if (there := _sound(site, border, entry, changed)) is not None:
                return hint, there, next(laid.span for laid in site.pieces if laid.piece is entry)
    return None


def _sound(
    site: Site, border: Outline | None, entry: Piece, changed: Piece
) -> tuple[Points, ...] | None:
    """The outlines of an entry that is changed, if the block is sound then."""
    pieces = tuple(changed if piece is entry else piece for piece in site.block.pieces)
    laid, faults = place_pieces(replace(site.block, pieces=pieces), site.unit, site.units)
    outlines = [piece.outline for piece in laid]
    if faults or overlay.overlapping_pairs([outline.points for outline in outlines], most=1):
        return None
    parts = subdivide(outlines, border)
    if not parts.is_sound() or parts.near:
        return None
    return tuple(piece.outline.points for piece in laid if piece.piece is changed)


def _trials(site: Site, border: Outline | None, entry: Piece) -> Iterator[Trial]:
    """An entry laid in other ways, the likeliest first."""
    name = f"`{entry.id}`"
    if isinstance(entry.placed, Beside):
        sides = len(next(laid for laid in site.pieces if laid.piece is entry).outline.sides)
        for own in range(1, sides + 1):
            if own != entry.placed.own:
                changed = replace(entry, placed=replace(entry.placed, own=own))
                yield changed, f"lay {name} by another of its sides: `own: {own}`"
        return
    for turn in _TURNS:
        if turn != entry.turn % 360:
            yield replace(entry, turn=float(turn)), f"turn {name}: write `turn: {turn}`"
    yield replace(entry, flip=not entry.flip), _flip_words(entry, name)
    if isinstance(entry.placed, At):
        yield from _moved(site, border, entry, entry.placed)


def _flip_words(entry: Piece, name: str) -> str:
    return f"take `flip` away from {name}" if entry.flip else f"mirror {name}: write `flip: yes`"


def _moved(site: Site, border: Outline | None, entry: Piece, at: At) -> Iterator[Trial]:
    """An entry at other places, so that its sides, or its corners, meet others. Of a ring first its copies otherwise."""
    own = [laid for laid in site.pieces if laid.piece is entry]
    yield from _ring_otherwise(site, entry, at, own)
    others = [laid.outline for laid in site.pieces if laid.piece is not entry]
    meeting = (
        minus(theirs.start, side.end)
        for outline in others
        for theirs in outline.sides
        for laid in own
        for side in laid.outline.sides
        if _fit(theirs, side)
    )
    for shift in _nearest(meeting)[:MOST_MOVES]:
        yield _shifted(site, entry, at, shift, whole=True)
    corners = (
        minus(theirs, corner)
        for outline in (*others, *([border] if border is not None else ()))
        for theirs in outline.corners
        for laid in own
        for corner in laid.outline.corners
    )
    for shift in _nearest(corners)[:MOST_MOVES]:
        yield _shifted(site, entry, at, shift, whole=True)


def _ring_otherwise(site: Site, entry: Piece, at: At, own: Sequence[LaidPiece]) -> Iterator[Trial]:
    """The copies of a ring at the centre of it, about another centre, or closed so that their sides meet."""
    ring = entry.ring
    if ring is None:
        return
    middle = place_text(_inches(site, ring.centre), site.unit)
    changed = replace(entry, placed=replace(at, position=ring.centre))
    yield changed, f"move `{entry.id}` to the centre of its ring: `at: {middle}`"
    for centre in _other_centres(site, ring.centre):
        changed = replace(entry, ring=replace(ring, centre=centre))
        place = place_text(_inches(site, centre), site.unit)
        yield changed, f"turn the copies of `{entry.id}` about `centre: {place}`"
    for shift in _nearest(_closing(own, 360 / ring.times))[:MOST_MOVES]:
        yield _shifted(site, entry, at, shift, whole=False)


def _other_centres(site: Site, own: Place) -> list[Place]:
    """The centres that other rings of the block have."""
    rings = [piece.ring for piece in site.block.pieces if piece.ring is not None]
    return [place for place in dict.fromkeys(ring.centre for ring in rings) if place != own]


def _nearest(shifts: Iterator[Point]) -> list[Point]:
    """Moves without repeats and without standing still, the shortest first."""
    unique = {(round(x, 9), round(y, 9)): (x, y) for x, y in shifts}
    real = [shift for shift in unique.values() if math.dist(shift, (0, 0)) > ONE_POINT]
    return sorted(real, key=lambda shift: (round(math.dist(shift, (0, 0)), 6), shift))


def _fit(theirs: Side, own: Side) -> bool:
    """Whether two sides are alike and run opposite ways, as those of neighbours do."""
    ahead, back = minus(theirs.end, theirs.start), minus(own.start, own.end)
    lengths = length_of(theirs.points) - length_of(own.points)
    return math.dist(ahead, back) < ONE_POINT and abs(lengths) < ONE_POINT


def _closing(own: Sequence[LaidPiece], step: float) -> Iterator[Point]:
    """The moves of a ring's first copy after which a side of it meets one of the second.

    The second moves by the same turned by `step`: s - turned(s) = where the side should be.
    """
    if len(own) < 2:
        return
    first, second = own[0].outline, own[1].outline
    for side in first.sides:
        for theirs in second.sides:
            if _fit(theirs, side):
                yield _undone(minus(theirs.start, side.end), step)


def _undone(gap: Point, step: float) -> Point:
    """The s with s - (s turned clockwise by `step` degrees) = gap; a full turn has none and is not asked."""
    half = turn_point(
        gap, 90 - step / 2
    )  # s - turned(s) is s turned by step/2 - 90, times 2 sin(step/2)
    scale = 2 * turn_point((0.0, -1.0), step / 2)[0]
    return half[0] / scale, half[1] / scale


def _shifted(site: Site, entry: Piece, at: At, shift: Point, whole: bool) -> Trial:
    """The entry moved; `whole` moves the centre of its ring with it."""
    place = plus(_inches(site, at.position), shift)
    changed = replace(entry, placed=replace(at, position=_units(site, place)))
    hint = f"move `{entry.id}` to `at: {place_text(place, site.unit)}`"
    if entry.ring is not None and whole:
        centre = plus(_inches(site, entry.ring.centre), shift)
        ring = replace(entry.ring, centre=_units(site, centre))
        changed = replace(changed, ring=ring)
        hint += f", and the centre of its ring to `centre: {place_text(centre, site.unit)}`"
    return changed, hint


def _inches(site: Site, place: Place) -> Point:
    return place[0].inches(site.unit), place[1].inches(site.unit)


def _units(site: Site, place: Point) -> Place:
    """A place in inches as the source would say it."""
    x, y = (Extent(Fraction(value / float(site.unit)), in_units=True) for value in place)
    return x, y
