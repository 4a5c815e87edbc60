"""Floor 5, the records: which way every allowance lies, and how thick the points become."""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum, StrEnum

from booklet.geometry.tiling import BlockKey
from booklet.kit.outlines.plane import Point
from booklet.kit.records import Record
from booklet.sewing.assembly import Assembled, Assembly


class JunctionKind(Enum):
    """How the allowances meet at a matching point."""

    NEST = "nest"  # two allowances lie opposite ways across a line, and lock
    FAN = "fan"
    OPEN = "open"
    CLASH = "clash"
    FREE = "free"  # nothing lies against anything: an end on one side of a line, a bend


class Reason(StrEnum):
    """Why a seam is pressed as it is, the weightiest first."""

    AUTHOR = "author"
    OPEN = "open"
    FAN = "fan"
    DARK = "dark"
    NEST = "nest"
    BULK = "bulk"
    RULE = "rule"


class Demand(StrEnum):
    """What is asked of the seams that meet at a point: nest, fan, or meet a neighbour's at the rim, each a clash where
    it does not hold; to lie flat is only a preference."""

    NEST = "nest"
    FAN = "fan"
    RIM = "rim"
    FLAT = "flat"


class WayKind(StrEnum):
    """What a way out of a conflict does."""

    OPEN = "open"  # press the seams open, as they are one line; where it was not tried, one of them
    OPEN_ALL = "open all"  # press open every seam that lies against the others where they clash
    TWO_VERSIONS = "two versions"  # make the blocks V1 and V2
    FAN = "fan"  # release the point and fan


class Pressed(Record):
    """The direction of one seam: toward a piece, or open (`toward` None), and why."""

    seam: str
    toward: str | None
    why: Reason


class PressedJunction(Record, kw_only=True):
    """A matching point inside the block; `layers` is the most cloth at or next to it.

    `clockwise` is set for a fan: True if the allowances lie clockwise seen from the back."""

    at: Point
    seams: tuple[str, ...]
    kind: JunctionKind
    layers: int
    clockwise: bool | None


class Layout(Enum):
    """Which blocks of a set are of the second version: every second one as on a chessboard (on point:
    the rows between), every second row, or every second column."""

    CHEQUER = "chequer"
    ROWS = "rows"
    COLUMNS = "columns"


class WayOut(Record, kw_only=True):
    """One way out of a conflict, for the seams named.

    `clashes` is how many are then left in the quilt, where it was tried; of the blocks of the set `first` stay as
    they are and `second`, laid as `layout`, are B."""

    kind: WayKind
    seams: tuple[str, ...] = ()
    clashes: int | None = None
    first: int = 0
    second: int = 0
    layout: Layout | None = None


class Conflict(Record):
    """Wishes that cannot all hold. `kind` is what the last of them asked at `at`. `seams` are the seams of the odd cycle, in its order; `ways_out` the least trouble first."""

    kind: Demand
    at: Point
    seams: tuple[str, ...]
    ways_out: tuple[WayOut, ...]


class FanReport(Record):
    """What can be fanned of some points. `clockwise` holds the fanned points, True for clockwise seen
    from the back; `unfanned` the others, as few as were found, and no fewer than `least` (proved) can
    be left; `odd_cycle` the seams of one odd cycle where not all can be fanned."""

    clockwise: Mapping[Point, bool]
    unfanned: tuple[Point, ...]
    odd_cycle: tuple[str, ...]
    least: int

    @property
    def all_fan(self) -> bool:
        """Whether every point can be fanned."""
        return not self.unfanned


class Release(Record):
    """A fanned point that a machine seam crosses: no stitch of the earlier `seams` may hold their
    allowances beyond `at`. They stop there; where they were sewn across, those stitches come out."""

    at: Point
    seams: tuple[str, ...]


class Versions(Record, kw_only=True):
    """The second version of a block, B, made so that neighbours nest. `second` is its pressing;
    `opposite` says that every allowance of it lies the other way from the first version's.

    `places` are the (column, row) of the B blocks in the set, from 0, row by row; `first` and `count`
    how many blocks of the first and of the second version the quilt takes."""

    second: Pressing
    opposite: bool
    layout: Layout
    places: tuple[tuple[int, int], ...]
    first: int
    count: int


class Pressing(Record, kw_only=True):
    """The pressing of one block in one size. `after` says at which step each seam is pressed:
    the number of a step, or of the last one where pressing waits for the end. `gap` is 0 where the
    directions are proven the best, else how far they may be from it, in clashes. With `versions` it is
    the pressing of the first version, A."""

    assembly: Assembly
    pressed: Mapping[str, Pressed]
    junctions: tuple[PressedJunction, ...]
    after: Mapping[str, int]
    at_end: bool  # all seams stop at their points, so everything is pressed at the end
    conflicts: tuple[Conflict, ...] = ()
    releases: tuple[Release, ...] = ()
    gap: float = 0.0
    versions: Versions | None = None
    fans: FanReport | None = None  # of the points at which all seams end; None without such


class PressedPattern(Assembled):
    """An assembled pattern with the pressing of every block in every size."""

    pressings: Mapping[BlockKey, Pressing]
