"""Floor 6, the records: a quilt of one size, with every part that is not a patch of a block.

Coordinates are inches in the frame of the finished top, x to the right and y down.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from booklet.kit.measure import ZERO, Length
from booklet.kit.outlines.plane import Point
from booklet.kit.records import Record
from booklet.kit.words import Text
from booklet.pattern import Corners, Fold, Size
from booklet.pressing.pressing import PressedPattern
from booklet.quilt.finishing.panels import back_joins


class PlacedBlock(Record, kw_only=True):
    """A block in the top: `origin` is where its frame's (0, 0) comes to lie after turning it
    clockwise by `turn` degrees about that point."""

    block: str
    column: int
    row: int
    turn: int
    origin: Point


PartShape = Literal["rectangle", "half-square triangle", "quarter-square triangle", "mitred strip"]


class Part(Record, kw_only=True):
    """A kind of cloth part beside the patches: a sash, a cornerstone, a border side, a triangle.

    `finished` is width x height. `places` are its outlines in the top, for drawing. `lengthwise` parts
    are long and may be pieced from strips across the cloth.
    """

    name: str  # "sash", "cornerstone", "border 1 top and bottom", … the key `for` in facts
    title: str  # for the reader
    fabric: str
    shape: PartShape
    finished: tuple[Length, Length]
    cut: tuple[Length, Length]
    count: int
    long: bool
    places: tuple[tuple[Point, ...], ...]
    sums: tuple[str, ...]  # how the cut size came about, for the appendix


class BorderPlan(Record, kw_only=True):
    """One border: its cut pieces, top and bottom then sides, and how they are added."""

    number: int  # 1 is the innermost
    sides: Length  # finished widths; nought where it has none there
    ends: Length  # of top and bottom
    fabric: str
    corners: Corners
    lengths: tuple[Length, ...]  # cut lengths: of top and bottom, then of the sides, two and two
    outside: tuple[Length, Length]  # the finished top after this border
    sums: tuple[str, ...] = ()

    @property
    def inside(self) -> tuple[Length, Length]:
        """The finished size of what it goes round."""
        return self.outside[0] - 2 * self.sides, self.outside[1] - 2 * self.ends

    @property
    def widths(self) -> tuple[Length, ...]:
        """How wide it is finished: on all sides, or at its sides and at top and bottom where they differ."""
        return (self.sides,) if self.sides == self.ends else (self.sides, self.ends)


class BindingPlan(Record, kw_only=True):
    """Binding: `length` to make (perimeter and the overlap for corners and join), strips across.

    Of bias binding, `strips` counts the continuous strips: one from each `square`."""

    strip: Length
    length: Length
    strips: int
    fabric: str
    bias: bool
    fold: Fold = Fold.DOUBLE
    square: Length | None = None  # bias only: the side of the square for a continuous strip
    sums: tuple[str, ...] = ()

    def lies(self, allowance: Length) -> Length:
        """How wide the strip lies once it is folded in half, or its edge turned under by an allowance."""
        return self.strip / 2 if self.fold is Fold.DOUBLE else self.strip - allowance


class BackingPlan(Record, kw_only=True):
    """The back: `widths` of cloth joined by `seam` seams, `length` of cloth in all. They run down the
    quilt, or across it where it is `turned`. The last is a length of cloth like the others, or joined from `strips`
    across the cloth, as wide as `last` says."""

    size: tuple[Length, Length]
    widths: int
    seam: str  # "none" | "lengthwise" | "crosswise"
    length: Length
    fabric: str
    panel: tuple[Length, Length] | None = None  # one panel as cut: across the cloth x along it
    sums: tuple[str, ...] = ()
    last: Length | None = None  # as much of the last width as is needed, where that is less
    last_sum: str = ""
    turned: bool = False
    strips: int = 0
    allowance: Length = ZERO  # of its seams

    @property
    def joins(self) -> int:
        """How many seams it has."""
        return back_joins(self.widths, self.strips)

    @property
    def highest(self) -> Length:
        """How far the longest of its pieces goes along the cloth."""
        along = self.panel[1] if self.panel is not None else self.size[1]
        return max(along, self.last) if self.strips and self.last is not None else along


class BedPlan(Record, kw_only=True):
    """How a quilt lies on a mattress: the size wanted, the drop as made, what is left to tuck in."""

    mattress: tuple[Length, Length]
    wanted: tuple[Length, Length]
    drop: Length
    left: Length
    sums: tuple[Text, ...]


class SizedQuilt(Record, kw_only=True):
    """The quilt of one size. Without a quilt in the source: only `blocks` is filled, and `finished`
    is None. `blocks` maps block id to how many of it are made."""

    size: Size
    blocks: Mapping[str, int]
    finished: tuple[Length, Length] | None = None
    placed: tuple[PlacedBlock, ...] = ()
    parts: tuple[Part, ...] = ()
    borders: tuple[BorderPlan, ...] = ()
    binding: BindingPlan | None = None
    backing: BackingPlan | None = None
    other_backs: tuple[
        BackingPlan, ...
    ] = ()  # ways to make it that may buy less with all else of its cloth
    batting: tuple[Length, Length] | None = None
    joins_nest: bool = True
    seam_clashes: int = 0
    batting_sums: tuple[str, ...] = ()
    sums: tuple[str, ...] = ()  # how the finished size came about
    kept: tuple[Point, ...] | None = None  # of a ragged set: blocks are trimmed to this in the top
    bed: BedPlan | None = None

    @property
    def backs(self) -> tuple[BackingPlan, ...]:
        """The ways to make the back, that of least cloth first; none without one."""
        return (self.backing, *self.other_backs) if self.backing is not None else ()

    @property
    def has_sashes(self) -> bool:
        """Whether any sash is sewn: between the blocks of one there are none."""
        return any("sash" in part.name for part in self.parts)


class SetPattern(PressedPattern):
    """A pressed pattern with the quilt of every size, by size id."""

    quilts: Mapping[str, SizedQuilt]
