"""Floor 4, the records: the order in which a block is sewn.

Definitions: a step joins units along their whole common seam. A run is a list of seams sewn in one go;
it turns at a matching point where the next seam changes direction. A step of three parts has two runs.
"""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum
from types import MappingProxyType

from booklet.geometry.tiling import BlockKey, LaidOut, Tiling
from booklet.kit.diagnostic import Span
from booklet.kit.outlines.plane import Point
from booklet.kit.records import Record
from booklet.pattern import By, OwnPicture, PressWish, Size
from booklet.pattern.reads import written
from booklet.sewing.order.stretches import Stretch


class End(Enum):
    """Where sewing stops at the end of a seam: at the matching point, or off the raw edge."""

    POINT = "point"
    EDGE = "edge"


class StepKind(Enum):
    """What a step is at the needle."""

    STRAIGHT = "straight"
    SET_IN = "set-in"
    CURVED = "curved"
    PARTIAL = "partial"
    RING = "ring"


class Run(Stretch, kw_only=True):
    """A stretch of seams as it is sewn: one after the other, by machine or by hand."""

    by: By

    @property
    def goes(self) -> tuple[tuple[str, Point], ...]:
        """The seams in the order in which they are sewn, each with the point it is sewn from."""
        along = tuple(zip(self.seams, self.points, strict=False))
        if not self.begun:
            return along
        corner = self.turns[0]
        out = tuple(zip(self.seams[:corner], self.points[1 : corner + 1], strict=True))
        return (*reversed(out), *along[corner:])


class Step(Record, kw_only=True):
    """One step instance, in sewing order from n = 1.

    `pieces` are all pieces of the unit made. `times` counts the steps of the block that do the same
    (the same card, "make 4"); `batch` numbers steps that are chain-pieced together; `level` is 1 for
    joins of patches only, else one more than the highest part's. `rectangle` is the finished width
    and height in inches where the unit is one and no partial seam in it is still open.
    """

    n: int
    make: str
    join: tuple[str, ...]
    by: By
    kind: StepKind
    turns: int
    runs: tuple[Run, ...]
    pieces: tuple[str, ...]
    times: int
    batch: int
    level: int
    card: int  # alike steps share a card; cards count from 1 in sewing order
    rectangle: tuple[float, float] | None
    press: PressWish | None
    note: str | None
    leave: str | None  # the piece for which a partial seam is left open
    finish: bool  # closes an earlier partial seam
    span: Span
    titles: tuple[tuple[str, str], ...] = ()  # (language or "", what the unit is called)
    picture: OwnPicture | None = None
    section: str = ""  # the letter of the section that it sews on printed paper


class PaperSection(Record):
    """A part of a block that is sewn on one paper: its letter, its pieces in the order sewn, and those in whose likeness
    they are numbered: of the first section that is alike when turned."""

    letter: str
    pieces: tuple[str, ...]
    like: tuple[str, ...]

    @property
    def is_first(self) -> bool:
        """Whether its paper is printed; alike ones are copies of it."""
        return self.pieces == self.like


class SewnSeam(Record):
    """How a seam is sewn; `ends` in the order of the seam's start and end."""

    seam: str
    step: int
    by: By
    ends: tuple[End, End]


class WayBack(Record, kw_only=True):
    """How a thread comes from the end of one of its seams to the beginning of the next (`before`, its index) where
    that is not the same point: over these sewn seams, or `loose` behind the patches. `points` are those passed, where it
    leaves and where it sews on included; `length` in inches."""

    before: int
    seams: tuple[str, ...]
    points: tuple[Point, ...]
    length: float
    loose: bool = False


class Thread(Record, kw_only=True):
    """A hand route on one unbroken thread; `points` are those from which its seams are sewn, and where it ends.

    `through` are the indexes of the points at which the needle passes through the allowances of seams
    sewn before; `full` tells that only the length of the thread keeps it from going on, as thread `then` (by its
    number from 1) does. `length` is what it sews, in inches.
    """

    seams: tuple[str, ...]
    points: tuple[Point, ...]
    length: float
    turns: int
    through: tuple[int, ...] = ()
    full: bool = False
    then: int | None = None
    back: tuple[WayBack, ...] = ()

    @property
    def gone_back(self) -> float:
        """Inches gone back over sewn seam."""
        return sum(way.length for way in self.back if not way.loose)

    @property
    def loose(self) -> float:
        """Inches that lie loose behind the patches."""
        return sum(way.length for way in self.back if way.loose)


class Batch(Record):
    """Steps chain-pieced together: alike joins at one level, by machine. `setting_mm` is the stitch
    length that fills the seams with whole stitches, None where none fits."""

    n: int
    steps: tuple[int, ...]
    setting_mm: float | None


class Assembly(Record, kw_only=True):
    """The order of one block in one size. `units` maps every unit and piece name to its pieces."""

    tiling: Tiling
    steps: tuple[Step, ...]
    sewn: Mapping[str, SewnSeam]
    threads: tuple[Thread, ...]
    batches: tuple[Batch, ...]
    units: Mapping[str, tuple[str, ...]]
    fewest_threads: int = 0  # proven: no route takes fewer
    parted_threads: int = 0  # as many would do if threads might take over runs midway
    route_cost: float = 0.0  # of all threads, in inches of seam: `RouteCosts`
    route_gap: float = 0.0  # inches that other routes of these steps could save at most; 0: proven
    papers: tuple[PaperSection, ...] = ()  # its sections, where it is sewn on printed paper
    fewest_papers: int = 0  # proven: no fewer sections would do; 0 where the author parted it


class Assembled(LaidOut):
    """A laid-out pattern with the order of every block that can be sewn, in every size."""

    assemblies: Mapping[BlockKey, Assembly]


def alone(assembled: Assembled, size: Size) -> Assembled:
    """One size alone, without the words of the pattern: what its cuts read."""
    tilings = {(size.id, tiling.block): tiling for tiling in assembled.of_size(size)}
    known = assembled.assemblies
    assemblies = {key: known[key] for key in tilings if key in known}
    return Assembled(
        written(assembled.pattern), MappingProxyType(tilings), MappingProxyType(assemblies)
    )
