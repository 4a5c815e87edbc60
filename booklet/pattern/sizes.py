"""Floor 1, the pattern: its sizes, colourways and layouts."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum

from booklet.kit.diagnostic import Span
from booklet.kit.measure import Length
from booklet.kit.records import Record, replace
from booklet.pattern.blocks import Block, OwnPicture
from booklet.pattern.cloth import Fabric
from booklet.pattern.quilts import Quilt
from booklet.pattern.ways import Sewing, UnitCutting


class Bed(Record):
    """The bed a size is made for: a mattress by name or size, how far the quilt hangs down, what is
    tucked in under the pillows."""

    mattress: str
    drop: Length
    tuck: Length
    span: Span


KITS = "-kits"  # what the name of a size ends with where all kits of it are meant


class ForClass(Record):
    """What is made of a size in a class: so many of some blocks, or the whole size where none are named, by one student
    (`kits` is None) or from so many kits. Of a booklet in parts, what is made in `part` (from 1), for which blocks are `ready`."""

    blocks: tuple[tuple[str, int], ...] = ()
    kits: int | None = None
    part: int = 0
    ready: tuple[str, ...] = ()


class Size(Record, kw_only=True):
    """One size, with everything that holds for it. `count` is across * down, or the plain count."""

    id: str
    title: str
    unit: Length
    across: int
    down: int
    count: int
    fabrics: Mapping[str, Fabric]
    sewing: Sewing
    quilt: Quilt | None
    span: Span
    blocks_span: Span
    cutting: UnitCutting = UnitCutting()
    bed: Bed | None = None
    in_class: ForClass | None = None  # of a size as a class, or a part, makes it

    @property
    def kits(self) -> int:
        """How often all that is cut for it is cut: once for each kit of a class."""
        return (self.in_class and self.in_class.kits) or 1

    @property
    def own_id(self) -> str:
        """Its name in the pattern, also where all kits of it are meant."""
        of_kits = self.in_class is not None and self.in_class.kits is not None
        return self.id.removesuffix(KITS) if of_kits else self.id

    def patch_allowance(self, allowance: Length) -> Length:
        """What is added to a patch on every side, where the pattern's allowance is this."""
        return self.sewing.papers or allowance

    def on_foundation(self, block: Block) -> bool:
        """Whether a block is sewn on printed paper in this size."""
        return self.sewing.foundation or block.foundation

    def uses(self, block: str) -> bool:
        """Whether a block is made in this size: where there is a quilt, only what is set in it."""
        if self.in_class is not None and self.in_class.blocks:
            return block in dict(self.in_class.blocks)
        if self.quilt is None:
            return True
        if self.quilt.filled is not None:
            return self.quilt.filled.holds(block)
        return any(cell.block == block for row in self.quilt.arrange for cell in row)


class AlternativeKind(StrEnum):
    """In what an alternative differs from the pattern: its cloths, or how its blocks are set."""

    COLOURWAY = "colourway"
    LAYOUT = "layout"
    BOTH = "colourway and layout"


SINGLE_KINDS = (AlternativeKind.COLOURWAY, AlternativeKind.LAYOUT)


BETWEEN = ", "  # the names of a colourway and of a layout that are taken together; no name holds it


class Alternative(Record, kw_only=True):
    """The pattern in other cloths or set otherwise, with the `sizes` that it then has. One of each single kind is the pattern as
    it is (`is_own`): it has no sizes of its own, and no name or title where its author gives it none. One that is both is
    named by both, BETWEEN them, and has no title of its own."""

    kind: AlternativeKind
    id: str
    title: str
    span: Span
    sizes: tuple[Size, ...] = ()
    picture: OwnPicture | None = None  # for its cover
    is_own: bool = False


def taken_together(colourway: Alternative, layout: Alternative) -> Alternative:
    """A colourway and a layout together."""
    cloths = {size.id: size.fabrics for size in colourway.sizes}
    return Alternative(
        kind=AlternativeKind.BOTH,
        id=BETWEEN.join((colourway.id, layout.id)),
        title="",
        span=layout.span,
        sizes=tuple(
            replace(size, fabrics=cloths[size.id]) for size in layout.sizes if size.id in cloths
        ),
    )
