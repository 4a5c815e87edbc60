"""Floor 1, the pattern: how blocks are set, edged, backed and bound."""

from __future__ import annotations

from collections.abc import Iterator
from enum import Enum, StrEnum

from booklet.kit.diagnostic import Span
from booklet.kit.measure import Length
from booklet.kit.records import Record
from booklet.pattern.blocks import ExtentPoint


class Setting(Record):
    """A block in its place of the arrangement, turned clockwise by `turn` degrees (0 90 180 270)."""

    block: str
    turn: int
    span: Span


class Sashing(Record, kw_only=True):
    """Strips between the blocks; cornerstones are a fabric or None (then sashes run through)."""

    width: Length
    fabric: str
    cornerstones: str | None
    outside: bool
    span: Span


class Corners(Enum):
    """How the corners of a border are made."""

    BUTTED = "butted"
    MITRED = "mitred"
    SQUARES = "squares"


class BorderCut(Enum):
    """How the sides of a border are cut: along the selvedge in one piece, across the cloth (joined where
    it is not wide enough), or whichever takes less cloth."""

    AUTO = "auto"
    LENGTHWISE = "lengthwise"
    ACROSS = "across"


class Border(Record, kw_only=True):
    """One border; the first listed is the innermost. How wide its sides are finished, and its top and bottom, the
    ends: nought where it has none there."""

    sides: Length
    ends: Length
    fabric: str
    corners: Corners
    square_fabric: str | None
    span: Span
    cut: BorderCut = BorderCut.AUTO


class Fold(Enum):
    """How a binding strip lies: folded in half along its length, or single, one edge turned under."""

    DOUBLE = "double"
    SINGLE = "single"


class Binding(Record, kw_only=True):
    """Binding strips, `width` as cut."""

    width: Length
    fabric: str
    bias: bool
    span: Span
    fold: Fold = Fold.DOUBLE

    def least(self, allowance: Length) -> Length:
        """The width of a strip that, sewn on with an allowance, just reaches round the edge to that seam on the back:
        it lies on both sides of the edge and under the seam, three allowances wide, each twice or one once more."""
        return (6 if self.fold is Fold.DOUBLE else 4) * allowance


class Backing(Record):
    """The back: `extra` on each side beyond the top."""

    extra: Length
    fabric: str
    span: Span


class Batting(Record):
    """The middle layer: `extra` on each side beyond the top."""

    extra: Length
    span: Span


class Sleeve(Record):
    """A hanging sleeve on the back: the finished width of its tube."""

    width: Length
    fabric: str
    span: Span


class Envelope(Record):
    """A back that closes a cushion, in two halves whose hems overlap by so much."""

    lap: Length
    fabric: str
    span: Span


class Rim(Enum):
    """What becomes of the ragged rim of a lattice set."""

    TRIM = "trim"
    FILL = "fill"


class RimPatches(Enum):
    """How the patches at a filled rim are made: whole, so that the overhang is cut off after sewing, or cut to
    the edge of the top and its allowance."""

    WHOLE = "whole"
    CUT = "cut to size"


class Centre(Enum):
    """Which point of a lattice lies in the middle of its frame: the middle of a block, a point where the corners
    of three or more blocks meet, or the point half way between two neighbours."""

    BLOCK = "block"
    GAP = "gap"
    CORNER = "corner"


class RimWish(Record, kw_only=True):
    """What an author asks for a filled rim, and where each wish is written."""

    patches: RimPatches = RimPatches.WHOLE
    centre: Centre | None = None
    fill_span: Span | None = None
    patches_span: Span | None = None
    centre_span: Span | None = None


class Mirror(StrEnum):
    """A way in which a picture may come out the same."""

    HALF_TURN = "half turn"
    SIDES = "left to right"
    ENDS = "top to bottom"


class LaidSetting(Record):
    """A block of a lattice where it lies: its (0, 0) at `origin`, in inches of the lattice's plane."""

    column: int
    row: int
    setting: Setting
    origin: tuple[float, float]


class FilledRim(Record, kw_only=True):
    """A lattice that fills its frame (left, top, width, height in inches of its plane), part blocks and all:
    `sewn` square inches of finished patches, and what of them is cut off at the frame. `alike` are the ways in
    which the top comes out the same about its middle."""

    centre: Centre
    patches: RimPatches
    frame: tuple[float, float, float, float]
    laid: tuple[LaidSetting, ...]
    sewn: float
    cut_off: float
    alike: tuple[Mirror, ...]

    def holds(self, block: str) -> bool:
        """Whether a block lies in it."""
        return any(laid.setting.block == block for laid in self.laid)


class JoinOrder(Enum):
    """In which order the blocks of a lattice set are joined: row by row, or ring by ring from the middle."""

    ROWS = "rows"
    MIDDLE = "from the middle"


class SetKind(Enum):
    """How blocks are arranged."""

    STRAIGHT = "straight"
    ON_POINT = "on point"
    LATTICE = "lattice"


class Quilt(Record, kw_only=True):
    """How blocks become a quilt top. `arrange` is repeated over the size's blocks, row by row."""

    set: SetKind
    arrange: tuple[tuple[Setting, ...], ...]
    span: Span
    lattice: tuple[ExtentPoint, ExtentPoint] | None = None  # the across and the down step
    sashing: Sashing | None = None
    borders: tuple[Border, ...] = ()
    setting_fabric: str | None = None
    binding: Binding | None = None
    backing: Backing | None = None
    batting: Batting | None = None
    sleeve: Sleeve | None = None
    envelope: Envelope | None = None
    rim: Rim = Rim.TRIM
    join: JoinOrder = JoinOrder.ROWS
    rim_wish: RimWish = RimWish()
    filled: FilledRim | None = None  # worked out by the geometry

    def cloths(self) -> Iterator[tuple[str, Span]]:
        """Every fabric that a part of the quilt names, with the place where it does."""
        on_point = self.set is SetKind.ON_POINT
        named = [(self.setting_fabric if on_point else None, self.span)]
        if self.sashing:
            named += [(self.sashing.fabric, self.sashing.span)]
            named += [(self.sashing.cornerstones, self.sashing.span)]
        for border in self.borders:
            named += [(border.fabric, border.span), (border.square_fabric, border.span)]
        parts = (self.binding, self.backing, self.sleeve, self.envelope)
        named += [(part.fabric, part.span) for part in parts if part]
        return ((fabric, span) for fabric, span in named if fabric)
