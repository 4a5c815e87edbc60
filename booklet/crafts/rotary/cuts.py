"""Floor 1, crafts: how one thing is cut, the records: what is wanted, the rows that cuts form, what comes of them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping

from booklet.crafts.figure import Points
from booklet.crafts.method import Method
from booklet.crafts.rotary.marks import CutBy, Grown
from booklet.crafts.rotary.nesting import NestedRow, row_of
from booklet.crafts.rotary.wedges import Gives, Wedge, wedge_cuts
from booklet.kit.measure import Length
from booklet.kit.outlines.alike import same_angle
from booklet.kit.outlines.near import NOISE
from booklet.kit.outlines.plane import rectangle
from booklet.kit.outlines.polygon import laid, mirrored
from booklet.kit.records import Record, field, replace


class Wanted(Record, kw_only=True):
    """What must be cut of one patch from one cloth, in plain values.

    `outline` is the seam line in the patch's frame; `laid` the same as it must lie on the cloth, for prints that
    may not be turned freely, else None. `turns` is in how many ways a square of the cloth may lie (1, 2 end for
    end, 4). `grain` is degrees clockwise from up in the patch's frame, `wished` whether the author asked for it.
    `uneven` is whether more than half of all that are cut from this cloth lie one way, and none may be turned: of a
    square cut in four most would be wasted.
    """

    letter: str
    outline: Points
    laid: Points | None
    turns: int
    grain: float
    wished: bool
    pieces: int
    reversed: int
    uneven: bool = False

    @property
    def may_turn(self) -> bool:
        """Whether a piece may lie end for end."""
        return self.turns > 1

    def ways(self, along: Iterable[float], square: bool = False) -> list[float]:
        """The directions of a figure that may lie along a strip, the best first; those of a `square` cut may
        also lie across it."""
        if self.laid is not None:
            return [d for d in along if same_angle(d, 90, 90 if square else 180)]
        return [d for d in along if not self.wished or on_grain(d, self.grain)]

    def as_cut(self, way: float) -> Points:
        """The seam outline with `way` along the strip."""
        return laid(self.outline, way) if self.laid is None else self.laid


class AlikeCuts(Record):
    """Cuts that lie in rows alike: the rows they may form (one for each way of lying), the triangles that
    each gives (none where it is the piece), and whether the pieces are mirrored."""

    rows: tuple[NestedRow, ...]
    gives: Gives
    reversed: bool

    @property
    def cuts(self) -> int:
        """How many cuts there are."""
        return len(self.gives)


class Rotary(Record, kw_only=True):
    """How a want is cut.

    `cut` is what is cut first, in printed figures, `exact` the same before rounding; each gives `per_cut`
    pieces. `sum` shows the arithmetic, `angle` is that of the cut across the strip where it is not square, and
    `grain` that of the patch, in its own frame.
    """

    method: Method
    cut: tuple[Length, Length]
    exact: tuple[float, float]
    sum: str
    grain: float
    lays: tuple[AlikeCuts, ...]
    per_cut: int = 1
    angle: float | None = None
    wedges: Mapping[Wedge, int] = field(default_factory=dict)
    """How many are wanted of each triangle of the cut; wants of one letter may come from the same cuts."""
    mirrored: frozenset[Wedge] = frozenset()  # those of them that are reversed
    by: CutBy = CutBy.RULER
    grown: Grown = ()

    @property
    def cuts(self) -> int:
        """How many of the cut figures it takes."""
        return sum(lay.cuts for lay in self.lays)


def box_rows(width: float, height: float, may_turn: bool) -> tuple[NestedRow, ...]:
    """The rows of a rectangle: lying, and standing where it may be turned."""
    rows = [row_of(rectangle(0.0, 0.0, width, height), False)]
    if may_turn and abs(width - height) > NOISE:
        rows.append(replace(row_of(rectangle(0.0, 0.0, height, width), False), turned=True))
    return tuple(rows)


def singly(cuts: int, rows: tuple[NestedRow, ...], reversed: bool = False) -> AlikeCuts:
    """So many cuts each of which is a piece."""
    return AlikeCuts(rows, ((),) * cuts, reversed)


def gives_of(lays: Iterable[AlikeCuts]) -> tuple[tuple[tuple[Wedge, ...], int], ...]:
    """The triangles that cuts give, and how many cuts give those; nothing of cuts that are pieces."""
    return tuple(Counter(gives for lay in lays for gives in lay.gives if gives).items())


def wedge_lays(
    wanted: Mapping[Wedge, int],
    turns: int,
    rows: tuple[NestedRow, ...],
    mirrored: frozenset[Wedge] = frozenset(),
) -> tuple[AlikeCuts, ...]:
    """The cuts that give triangles, a lay for each second cut; see `wedge_cuts`."""
    found = wedge_cuts(wanted, turns).values()
    return tuple(AlikeCuts(rows, gives, not mirrored.isdisjoint(gives[0])) for gives in found)


def given_grain(want: Wanted, way: float) -> float:
    """The grain that the method gives, in the patch's frame: what was asked for, else along the strip."""
    return want.grain if want.wished or want.laid is not None else way % 180


def on_grain(direction: float, grain: float) -> bool:
    """Whether a direction runs along the straight grain or across it."""
    return same_angle(direction, grain, 90)


def in_strips(want: Wanted, shape: Points, symmetric: bool) -> tuple[AlikeCuts, ...]:
    """The rows of a shape, and of its mirror image for reversed pieces that are not like the others."""
    if want.laid is not None:
        return (singly(want.pieces, (row_of(shape, want.may_turn),), want.reversed > 0),)
    back = 0 if symmetric else want.reversed
    lays = [(want.pieces - back, shape, False), (back, mirrored(shape), True)]
    return tuple(
        singly(n, (row_of(points, want.may_turn),), is_back) for n, points, is_back in lays if n
    )
