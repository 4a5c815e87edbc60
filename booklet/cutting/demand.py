"""Floor 7: what must be cut. Gathers the pieces of all blocks of a size into wants, one for each patch,
fabric and (for prints with an up) way of lying on the cloth."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Container, Iterator

from booklet.crafts.rotary.cuts import Wanted
from booklet.crafts.rotary.ruler import Ruler
from booklet.cutting.patches.rims import lies_on_rim
from booklet.geometry.patches.congruence import letter_rank
from booklet.geometry.tiling import LaidOut, Patch, PlacedPiece, Tiling
from booklet.kit.diagnostic import Span
from booklet.kit.measure import ZERO, Length
from booklet.kit.outlines.alike import corner_set
from booklet.kit.outlines.plane import Point, angle_up
from booklet.kit.outlines.polygon import at_origin
from booklet.kit.records import Mutable, field, replace
from booklet.kit.trade import FUSED_MARGIN
from booklet.pattern import Block, Direction, Fabric, Piece, Size
from booklet.quilt.sized import SizedQuilt

TURNS = {Direction.ONE_WAY: 1, Direction.STRIPE: 2, Direction.ANY: 4}
"""In how many ways a square of a cloth may lie."""

CutKey = tuple[str, str, tuple[tuple[float, float], ...]]


class Want(Mutable, kw_only=True):
    """Pieces of one patch in one fabric that are cut alike, for the whole quilt.

    `laid` is the seam outline as it must lie on the cloth (up is up), for prints that may not be turned
    freely; None where it may lie as is best. `grain` is degrees clockwise from up in the patch's frame,
    `wished` whether the author asked for it, `uneven` whether most of this patch in this fabric lie one way that
    they must keep. `edge` is of an applied shape: what is turned under along it, none where it is fused.
    """

    patch: Patch
    fabric: Fabric
    grain: float
    wished: bool
    laid: tuple[Point, ...] | None
    span: Span
    rough: Length | None  # sewn on printed paper: what it is cut beyond its allowance
    edge: Length | None
    stem: tuple[float, float] | None  # how wide and how long, where it is a bias strip
    pieces: int = 0
    reversed: int = 0
    uneven: bool = False
    per_block: dict[str, int] = field(default_factory=dict)
    members: list[tuple[Tiling, PlacedPiece]] = field(default_factory=list)

    def ruler(self, ruler: Ruler) -> Ruler:
        """The ruler with what lies round it on the cloth: an allowance, or what a fused shape is cut roughly by."""
        if self.edge is None:
            return ruler.of_patches
        around = self.edge if self.edge > ZERO else FUSED_MARGIN.said_in(ruler.units)
        return replace(ruler, allowance=around, papers=None)

    @property
    def plain(self) -> Wanted:
        """What the crafts know of it: how it is cut does not ask where it came from."""
        return Wanted(
            letter=self.patch.letter,
            outline=self.patch.outline.points,
            laid=self.laid,
            turns=TURNS[self.fabric.direction],
            grain=self.grain,
            wished=self.wished,
            pieces=self.pieces,
            reversed=self.reversed,
            uneven=self.uneven,
        )


def wants_of(
    pattern: LaidOut, quilt: SizedQuilt, without: Container[tuple[str, str]]
) -> tuple[Want, ...]:
    """The wants of one size, for all its kits, in the order of the letters, then of the fabrics.

    `without` are the (block, piece)s that come about in another way.
    """
    size = quilt.size
    written = {block.id: _written(block) for block in pattern.pattern.blocks}
    found: dict[CutKey, Want] = {}
    for tiling in pattern.of_size(size):
        count = quilt.blocks.get(tiling.block, 0) * size.kits
        if count <= 0:
            continue
        on_paper = {patch.letter for patch in tiling.patches if patch.on_paper}
        for piece in tiling.pieces:
            if piece.fabric in size.fabrics and (tiling.block, piece.id) not in without:
                rough = size.sewing.foundation_margin if piece.patch in on_paper else None
                wished = written[tiling.block].get(piece.id)
                _add(found, tiling, piece, wished, size, count, rough=rough)
        for shape in (each for each in tiling.applied if each.piece.fabric in size.fabrics):
            edge = shape.allowance if shape.allowance is not None else ZERO
            stem = (shape.stem_width, shape.stem_length) if shape.is_stem else None
            _add(found, tiling, shape.piece, None, size, count, edge=edge, stem=stem)
    _mark_uneven(found.values())
    fabrics = list(size.fabrics)
    return tuple(
        sorted(
            found.values(),
            key=lambda w: (letter_rank(w.patch.letter), fabrics.index(w.fabric.id)),
        )
    )


def _mark_uneven(wants: Collection[Want]) -> None:
    """Mark the wants of a patch and a print with an up of which more than half lie one way."""
    every: Counter[tuple[str, str]] = Counter()
    most: Counter[tuple[str, str]] = Counter()
    for want in wants:
        key = (want.patch.letter, want.fabric.id)
        every[key] += want.pieces
        most[key] = max(most[key], want.pieces)
    for want in wants:
        key = (want.patch.letter, want.fabric.id)
        want.uneven = want.fabric.direction is Direction.ONE_WAY and 2 * most[key] > every[key]


def relative_grain(piece: PlacedPiece, direction: float) -> float:
    """A direction in the block as one in the frame of the piece's patch; degrees clockwise from up."""
    back = direction - piece.turn
    return (-back if piece.reversed else back) % 360


def _add(
    found: dict[CutKey, Want],
    tiling: Tiling,
    piece: PlacedPiece,
    written: Piece | None,
    size: Size,
    count: int,
    *,
    rough: Length | None = None,
    edge: Length | None = None,
    stem: tuple[float, float] | None = None,
) -> None:
    patch, fabric = tiling.patch(piece.patch), size.fabrics[piece.fabric]
    free = fabric.direction is Direction.ANY or stem is not None  # a stem turns with its line
    laid = None if free else at_origin(piece.outline.points)
    if laid is not None and fabric.direction is Direction.STRIPE:
        laid = min(laid, at_origin([(-x, -y) for x, y in laid]), key=corner_set)
    key = (piece.patch, piece.fabric, corner_set(laid) if laid else ())
    wished = written is not None and written.shape.grain is not None
    want = found.get(key)
    if want is None:
        grain = patch.grain if laid is None else relative_grain(piece, 0.0)
        want = found[key] = Want(
            patch=patch,
            fabric=fabric,
            grain=grain,
            wished=wished,
            laid=laid,
            span=piece.span,
            rough=rough,
            edge=edge,
            stem=stem,
        )
    want.wished = want.wished or wished
    want.pieces += count
    want.reversed += count if piece.reversed else 0
    want.per_block[tiling.block] = want.per_block.get(tiling.block, 0) + 1
    want.members.append((tiling, piece))


def _written(block: Block) -> dict[str, Piece]:
    return {id: piece for piece in block.pieces for id, _ in piece.members()}


def rims(tiling: Tiling, piece: PlacedPiece) -> Iterator[float]:
    """The directions of the straight sides of a piece that lie on the rim of its block."""
    if tiling.is_inner(piece):
        return
    for side in piece.outline.sides:
        if not side.via and lies_on_rim(side.start, side.end, tiling.outline):
            yield angle_up(side.start, side.end)
