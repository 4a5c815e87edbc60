"""Floor 7: the work on one cloth. Strips that are settled (borders, binding, panels, fussy rows) and the
items that the plan is free to arrange."""

from __future__ import annotations

from booklet.crafts.method import STRIP, Method
from booklet.crafts.rotary.wedges import Gives
from booklet.cutting.cutting_plan import CutPatch, Placed, StripJoin
from booklet.cutting.strips.items import Item
from booklet.kit.measure import Length
from booklet.kit.outlines.plane import rectangle
from booklet.kit.records import Mutable, Record, field
from booklet.pattern import Fabric


class LaidStrip(Record, kw_only=True):
    """A settled strip: its height, what lies in it (the strip's upper left corner at (0, 0)), what it
    gives (name, cuts, pieces), how much of its length is used (inches), and whether the end may be used.

    One that is `lengthwise` is a length of cloth parted along the selvedge; one that is `folded` is cut
    through two layers, the fold in its middle, and free only as far as `until`."""

    height: Length
    placed: tuple[Placed, ...]
    gives: tuple[tuple[str, int, int], ...]
    used: float
    free: bool = True
    lengthwise: bool = False
    folded: bool = False
    until: float | None = None


class Owner(Record):
    """For whom the cuts of an item are: name and method of the line in the cutting table, the triangles
    that each cut gives (none where the cut is the piece), and whether they are mirrored.

    Owners of one name may be equal: what is counted of them is counted by their place in the job.
    """

    name: str
    method: Method
    gives: Gives
    reversed: bool = False


class Job(Mutable, kw_only=True):
    """Everything to cut from one fabric; `owners[i]` owns `items[i]`. Grows while it is gathered."""

    fabric: Fabric
    patches: list[CutPatch] = field(default_factory=list)
    settled: list[tuple[LaidStrip, ...]] = field(default_factory=list)
    items: list[Item] = field(default_factory=list)
    owners: list[Owner] = field(default_factory=list)
    joins: list[StripJoin] = field(default_factory=list)
    more: list[tuple[str, Length]] = field(default_factory=list)
    fussy: list[tuple[Length, Length]] = field(default_factory=list)  # as planned, at least
    area: float = 0.0

    @property
    def is_empty(self) -> bool:
        """Whether nothing is cut from the fabric."""
        return not (self.settled or self.items)


def level_strip(name: str, height: Length, length: Length) -> LaidStrip:
    """A strip that goes whole into one thing, `length` of it used."""
    return _strip_of(name, height, length, 1)


def side_by_side(
    name: str, height: Length, length: Length, count: int, usable: Length
) -> tuple[LaidStrip, ...]:
    """Strips that go into so many alike pieces of a `length`, as many in each as its `usable` length holds."""
    most = max(1, usable.inches // length.inches)
    return tuple(
        _strip_of(name, height, length, min(most, count - at)) for at in range(0, count, most)
    )


def _strip_of(name: str, height: Length, length: Length, count: int) -> LaidStrip:
    pieces = tuple(
        Placed(
            name=name,
            outline=rectangle(float(length * k), 0.0, float(length), float(height)),
            method=STRIP,
            stretch=length,
        )
        for k in range(count)
    )
    return LaidStrip(
        height=height, placed=pieces, gives=((name, count, count),), used=float(length * count)
    )
