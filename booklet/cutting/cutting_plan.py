"""Floor 7, the records: what is cut from which cloth, in which order, and how much to buy."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from booklet.crafts.method import Method
from booklet.crafts.rotary.marks import CutBy
from booklet.crafts.rotary.sums import SumLine
from booklet.crafts.rotary.wedges import Diagonal, Wedge, wedge_outline
from booklet.crafts.unit import TogetherUnit
from booklet.geometry.tiling import Outline
from booklet.kit.measure import ZERO, Length
from booklet.kit.outlines.plane import Point
from booklet.kit.records import Record, field
from booklet.quilt.sized import SetPattern

LAST_WIDTH = "backing last width"
"""The name of a last panel of the back that is not a whole width of the cloth."""

PANELS = ("backing", LAST_WIDTH)
"""The names of the panels of the back."""


class CutOutline(Record, kw_only=True):
    """A patch with its allowance, in the patch's own frame (the seam line is the patch's outline).

    `cut` has its sharp points trimmed; `points` are the matching points, of which an applied shape has
    none. `allowance` lies between the two lines.
    """

    seam: Outline
    cut: tuple[Point, ...]
    points: tuple[Point, ...]
    allowance: Length


class CutPatch(Record, kw_only=True):
    """What is cut for one patch letter (or part name) from one fabric, for the whole quilt.

    `cut` is the square, rectangle or strip x cross-cut that is first cut, in printed (rounded up)
    figures; `exact` the same before rounding; `pieces` how many patches are needed, `reversed` of
    them mirrored, `cuts` how many of the `cut` figures that takes. `sum` shows the arithmetic.
    """

    name: str  # patch letter or part name
    title: str  # for the reader: "A square", "sash"
    fabric: str
    method: Method
    cut: tuple[Length, Length]
    exact: tuple[float, float]
    pieces: int
    reversed: int = 0
    cuts: int
    sum: str
    angle: float | None = None  # of the cross-cut to the strip, degrees, where not square
    outline: CutOutline | None = None  # for patches
    grain: float = 0.0  # of the patch, degrees clockwise from up in the outline's frame
    per_block: tuple[tuple[str, int], ...] = ()  # (block id, pieces in one block)
    pairs: int = 0  # cuts through folded cloth, each of which gives a piece and its mirror image
    no_fold: bool = False  # mirrored equally often, but its print would lie turned on folded cloth
    gives: tuple[tuple[tuple[Wedge, ...], int], ...] = ()
    """Of squares and rectangles cut again: the triangles that a cut gives, and how many cuts give those;
    seen with `cut[0]` lying across the cloth."""
    by: CutBy = CutBy.RULER  # by template: `cut` is the cloth on which it is laid, `exact` its size
    is_applied: bool = False  # laid on a sewn block; fused where its outline has no allowance

    @property
    def is_fused(self) -> bool:
        """Whether its template is traced, reversed, on fusible web."""
        return self.is_applied and self.outline is not None and self.outline.allowance == ZERO

    @property
    def diagonals(self) -> dict[Diagonal, int]:
        """How many of the cuts are cut again in which way."""
        found: dict[Diagonal, int] = {}
        for wedges, count in self.gives:
            found[wedges[0].diagonal] = found.get(wedges[0].diagonal, 0) + count
        return found


class Placed(Record, kw_only=True):
    """One cut in the layout of a strip: `outline` in the cloth's frame (x across, y along).

    `name` and `method` are those of its CutPatch. A square or rectangle that is cut again gives `wedges`;
    what else it holds is waste. `reversed` cuts give mirrored patches. `stretch` is the length of a cut
    that is joined with others to a longer part.
    """

    name: str
    outline: tuple[Point, ...]
    method: Method
    wedges: tuple[Wedge, ...] = ()
    reversed: bool = False
    stretch: Length | None = None

    @property
    def shapes(self) -> tuple[tuple[Point, ...], ...]:
        """The outlines of the patches it gives."""
        return tuple(wedge_outline(wedge, self.outline) for wedge in self.wedges) or (self.outline,)

    @property
    def diagonal(self) -> Diagonal | None:
        """The way it is cut again, as it lies on the cloth."""
        return self.wedges[0].diagonal if self.wedges else None


class JoinedPart(Record):
    """A part joined from strips: its name, its length as cut, and the stretches it is joined from, in the
    order of the strips. Their sum less what the joins take is the length."""

    name: str
    length: Length
    stretches: tuple[Length, ...]


class StripJoin(Record, kw_only=True):
    """Strips across the cloth, `usable` long and `width` wide, that are joined end to end to longer parts
    by straight seams; each seam takes `loss`, an allowance of either strip."""

    fabric: str
    width: Length
    usable: Length
    loss: Length
    strips: int
    parts: tuple[JoinedPart, ...]


class StripUse(Record):
    """How many cuts and pieces of one thing a kind of strip gives, over all `count` strips."""

    name: str
    cuts: int
    pieces: int


class Strip(Record, kw_only=True):
    """Alike strips cut across the cloth: `width` as cut, `count` of them, what they give."""

    width: Length
    count: int
    uses: tuple[StripUse, ...]
    layouts: tuple[tuple[Placed, ...], ...]  # one for each strip
    starts: tuple[float, ...]  # y of each strip in the cloth
    lengthwise: bool = False  # a length of cloth parted along the selvedge
    folded: bool = False  # cut through two layers, the fold in the middle
    stock: int = 0  # the piece of stock (from 1) it is cut from, of cloth sold ready cut


class Buy(Record, kw_only=True):
    """What to buy, rounded up to what is sold."""

    yards: Fraction
    metres: Fraction
    yards_text: str  # "1 3/8"
    count: int | None = None  # of precuts, for fabrics sold as such
    unit: str = "yardage"


class Leftover(Record, order=True):
    """Pieces of cloth that nothing is cut from: across x along, and how many of that size."""

    across: Length
    along: Length
    count: int


class FabricPlan(Record, kw_only=True):
    """The cutting plan of one fabric in one size. `length` includes straightening and all parts;
    `lower_bound` is proven for the same parts; `sum` shows how the amount came about, line by line."""

    fabric: str
    width: Length
    strips: tuple[Strip, ...]
    length: Length
    lower_bound: Length
    area_used: float
    buy: Buy
    sum: tuple[SumLine, ...]
    leftovers: tuple[Leftover, ...] = ()  # worth keeping, the largest first
    stock: tuple[Length, Length] | None = None  # a piece of it, across x along, if sold ready cut
    least_stock: int = 0  # how many pieces of stock are needed at least
    uncut: Length = ZERO  # what is left, right across, of the length bought


class KeptForLater(Record, kw_only=True):
    """Patches of one cloth, or units made together (then without a cloth), that are cut or made in one part for a later
    one, `until`."""

    name: str
    title: str
    fabric: str | None
    count: int
    until: int


class InParts(Record, kw_only=True):
    """How a part stands among the others that are cut by one plan: what lies ready from earlier parts, what is kept for
    later ones, the length of each cloth that later parts cut (of cloth sold ready cut how many pieces), and the part in
    which each cloth is bought."""

    number: int
    ready: tuple[KeptForLater, ...]
    kept: tuple[KeptForLater, ...]
    cloth_left: Mapping[str, Length]
    pieces_left: Mapping[str, int]
    bought_in: Mapping[str, int]
    quilted: bool = True  # whether the last part joins a quilt


class CuttingPlan(Record, kw_only=True):
    """Everything cut for one size."""

    patches: tuple[CutPatch, ...]
    fabrics: tuple[FabricPlan, ...]
    together: tuple[TogetherUnit, ...] = ()
    offers: tuple[TogetherUnit, ...] = ()  # units that could be made so, if the author asked for it
    joins: tuple[StripJoin, ...] = ()  # of parts that are longer than their cloth is wide
    trims: Mapping[str, frozenset[int]] = field(
        default_factory=dict
    )  # the steps after which the unit is trimmed to size, by block
    in_parts: InParts | None = None  # of one part of a plan that is cut in several

    def pieces(self, name: str) -> int:
        """How many pieces of a patch or part are cut, of whatever fabric."""
        return sum(patch.pieces for patch in self.patches if patch.name == name)

    def joined(self, name: str) -> tuple[StripJoin, tuple[JoinedPart, ...]] | None:
        """The strips that a part is joined from, and its pieces; None where it is cut in one."""
        for join in self.joins:
            parts = tuple(part for part in join.parts if part.name == name)
            if parts:
                return join, parts
        return None

    @property
    def panels(self) -> tuple[tuple[Length, Length], ...]:
        """The panels of the back as they are cut, across the cloth x along it, in the order they are joined:
        whole ones, then a narrower last one, or one that is joined from strips across it."""
        patches = [patch for name in PANELS for patch in self.patches if patch.name == name]
        return tuple((p.cut[1], p.cut[0]) for p in patches for _ in range(p.pieces))


class CutPattern(SetPattern):
    """A set pattern with the cutting plan of every size, by size id."""

    cuts: Mapping[str, CuttingPlan]
