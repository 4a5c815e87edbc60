"""Floor 3, the records: what a block is once its pieces are laid out in inches.

Coordinates are inches in the block's own frame, x to the right and y down; outlines run clockwise as
seen on the page, so a piece lies to the right of its outline as one walks along it. A curved side is a
chain of short straight edges; only the ends of sides are matching points.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from functools import cached_property
from types import MappingProxyType

from booklet.crafts.form import Form
from booklet.kit.diagnostic import Span
from booklet.kit.measure import Length
from booklet.kit.outlines.near import SAME_LENGTH
from booklet.kit.outlines.plane import Box, Point, box_of, length_of
from booklet.kit.records import Record, field
from booklet.pattern import By, Pattern, Size


class Side(Record):
    """One side of an outline from `start` to `end`; `via` are the points along a curved one."""

    start: Point
    end: Point
    via: tuple[Point, ...] = ()

    @property
    def points(self) -> tuple[Point, ...]:
        """All points of the side, ends included."""
        return (self.start, *self.via, self.end)


class Outline(Record, dict=True):
    """A closed outline, clockwise on the page; side N of the source is `sides[N-1]`."""

    sides: tuple[Side, ...]

    @cached_property
    def points(self) -> tuple[Point, ...]:
        """All points around the outline, those along curves included; not closed."""
        return tuple(point for side in self.sides for point in (side.start, *side.via))

    @cached_property
    def box(self) -> Box:
        """The box about the outline."""
        return box_of(self.points)

    @property
    def corners(self) -> tuple[Point, ...]:
        """The corners: the start of every side."""
        return tuple(side.start for side in self.sides)

    @property
    def is_curved(self) -> bool:
        """Whether any side is curved."""
        return len(self.points) > len(self.sides)


class Patch(Record, kw_only=True):
    """A distinct patch: congruent pieces share it, mirror images too (`reversed_too`).

    `outline` is in the patch's own frame: as its first piece lies in the block, moved so that its
    bounding box starts at (0, 0). `grain` is degrees clockwise from straight up in that frame.
    """

    letter: str  # A is the smallest; the largest comes last
    form: Form  # what the outline is, recognised from its geometry where it was drawn freely
    outline: Outline
    area: float
    grain: float
    motif: bool
    name: str  # a plain word for the shape: "square", "elongated hexagon"
    pieces: tuple[str, ...]
    reversed_too: bool
    on_paper: bool = False  # its letter is the number of a piece that is sewn on printed paper


class PlacedPiece(Record, kw_only=True):
    """A piece in its place. Turning the patch (mirrored left-right first if `reversed`) by `turn`
    degrees clockwise gives this outline up to a shift. `grain` is degrees clockwise from up in the
    block."""

    id: str
    fabric: str
    patch: str
    reversed: bool
    turn: float
    outline: Outline
    grain: float
    motif: bool
    span: Span


class AppliedShape(Record, kw_only=True):
    """A shape laid on a block, in its place; `entry` (from 0) is the entry of the source it comes from, in whose order
    shapes are laid. `allowance` is what is turned under along its edge, None where the edge is left raw.

    Of a stem, a bias strip folded to `stem_width`, `stem_length` is that of its middle line, inches.

    `seen` are the stretches of its edge that are sewn down, `covered` those that lie under later shapes and stay flat."""

    piece: PlacedPiece
    entry: int
    allowance: Length | None
    by: By
    seen: tuple[tuple[Point, ...], ...]
    covered: tuple[tuple[Point, ...], ...]
    stem_width: float
    stem_length: float

    @property
    def is_stem(self) -> bool:
        """Whether it is a bias strip."""
        return self.stem_width > 0

    @property
    def sewn(self) -> float:
        """How many inches of its edge are sewn down."""
        return sum(length_of(path) for path in self.seen)

    @property
    def flat(self) -> float:
        """How many inches of its edge lie flat under later shapes."""
        return sum(length_of(path) for path in self.covered)


class Seam(Record, kw_only=True):
    """A stretch between two matching points where exactly two pieces meet.

    Walking `path` (two points, or more along a curve) `between[0]` lies on the right hand and
    `between[1]` on the left, as seen on the page.
    """

    id: str  # s1, s2, … in the order of the pieces
    between: tuple[str, str]
    path: tuple[Point, ...]
    length: float  # inches, along the curve
    line: float = 0.0  # inches of the line that seams make by going straight on through junctions
    cornered: bool = (
        False  # whether it ends inside the block at a point where no seam goes straight on
    )

    @property
    def start(self) -> Point:
        """The matching point at which the path begins."""
        return self.path[0]

    @property
    def end(self) -> Point:
        """The matching point at which the path ends."""
        return self.path[-1]


class Junction(Record):
    """A matching point with the seams that end there, clockwise on the page from straight up."""

    at: Point
    seams: tuple[str, ...]
    inside: bool  # whether it lies inside the block, not on its rim


class Tiling(Record, dict=True, kw_only=True):
    """A block laid out for one size: sound by the one-chain test (its pieces cover it exactly once).

    Points that are equal are the same float pair everywhere in one tiling (they are clustered), so
    points may be compared and used as keys. `noded` holds, by piece id, the points around each piece
    with the corners of its neighbours that lie on its sides put in; edges of neighbours then match.
    """

    block: str
    size: str
    outline: Outline
    pieces: tuple[PlacedPiece, ...]
    patches: tuple[Patch, ...]
    seams: tuple[Seam, ...]
    junctions: tuple[Junction, ...]
    width: float
    height: float
    area: float
    noded: Mapping[str, tuple[Point, ...]] = field(default_factory=lambda: MappingProxyType({}))
    applied: tuple[AppliedShape, ...] = ()  # laid on the sewn block, the first lowest
    shapes: tuple[Patch, ...] = ()  # the patches of what is applied, by letters of their own

    @cached_property
    def _pieces(self) -> Mapping[str, PlacedPiece]:
        return {piece.id: piece for piece in reversed(self.pieces)}

    @cached_property
    def _seams(self) -> Mapping[str, Seam]:
        return {seam.id: seam for seam in reversed(self.seams)}

    @cached_property
    def _sewn(self) -> Mapping[str, float]:
        """How long the seams of each piece are."""
        sewn: dict[str, float] = {}
        for seam in self.seams:
            for id in seam.between:
                sewn[id] = sewn.get(id, 0.0) + seam.length
        return sewn

    def is_inner(self, piece: PlacedPiece) -> bool:
        """Whether a piece of straight sides has seams all round, and so lies nowhere on the rim."""
        sides = piece.outline.sides
        around = sum(math.dist(side.start, side.end) for side in sides)
        return (
            not any(side.via for side in sides)
            and around - self._sewn.get(piece.id, 0.0) < SAME_LENGTH
        )

    @property
    def laid(self) -> tuple[PlacedPiece, ...]:
        """All that a block is cut from, in the order it comes to lie: its pieces, then what is laid on them."""
        return (*self.pieces, *(shape.piece for shape in self.applied))

    @property
    def all_patches(self) -> tuple[Patch, ...]:
        """The patches of its pieces, then those of what is laid on them."""
        return (*self.patches, *self.shapes)

    def piece(self, id: str) -> PlacedPiece:
        """The piece of that id; KeyError if there is none."""
        return self._pieces[id]

    def seam(self, id: str) -> Seam:
        """The seam of that id; KeyError if there is none."""
        return self._seams[id]

    def patch(self, letter: str) -> Patch:
        """The patch of that letter, of a piece or an applied shape; KeyError if there is none."""
        for patch in self.all_patches:
            if patch.letter == letter:
                return patch
        raise KeyError(letter)


BlockKey = tuple[str, str]  # size id, block id


class LaidOut(Record):
    """A pattern with the tiling of every sound block in every size.

    Letters are shared: the same letter means the same patch in every block of a size, and, where the
    blocks scale, across the sizes.
    """

    pattern: Pattern
    tilings: Mapping[BlockKey, Tiling]

    def of_size(self, size: Size) -> tuple[Tiling, ...]:
        """The tilings of one size in the order of the pattern's blocks."""
        keys = ((size.id, block.id) for block in self.pattern.blocks)
        return tuple(self.tilings[key] for key in keys if key in self.tilings)
