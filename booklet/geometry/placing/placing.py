"""Floor 3: puts the pieces of a block in their places: at, turn, flip, ring, beside.

A flipped piece is mirrored left-right first; its sides are then numbered clockwise as it lies, from the
image of its first corner.
"""

from __future__ import annotations

from math import isfinite

from booklet.crafts.form import Form
from booklet.geometry.placing.shapes import ShapeError, grain_wish, shape_outline
from booklet.geometry.tiling import Outline
from booklet.geometry.vectors import mirrored, shifted, turned
from booklet.geometry.words import length_words
from booklet.kit.diagnostic import Diagnostic, Span, did_you_mean
from booklet.kit.measure import Length, UnitSystem
from booklet.kit.outlines.near import DRAWN
from booklet.kit.outlines.plane import Point, angle_up, length_of, minus, tidy_angle
from booklet.kit.records import Record
from booklet.pattern import At, Beside, Block, Piece, Ring, Shape


class LaidPiece(Record, kw_only=True):
    """One piece laid down, not yet checked against its neighbours.

    `turn` is how far it was turned. `grain` is the author's wish in the block's frame, None where there is none.
    """

    id: str
    fabric: str
    outline: Outline
    form: Form
    turn: float
    grain: float | None
    motif: bool
    piece: Piece
    span: Span
    drawn: Outline | None = (
        None  # where a curve has other points beside its neighbours: as without them
    )

    @property
    def alone(self) -> Outline:
        """Its outline as it is whatever lies beside it: alike patches have it alike."""
        return self.drawn or self.outline


class _Form(Record):
    """A shape's outline, plain or flipped, with the grain wish in the same frame."""

    outline: Outline
    grain: float | None


class _Placer:
    """Lays the pieces of one block in one size in source order; collects faults."""

    def __init__(self, block: Block, unit: Length, units: UnitSystem) -> None:
        self._block, self._unit, self._units = block, unit, units
        self._forms: dict[tuple[int, bool], _Form] = {}
        self.laid: list[LaidPiece] = []
        self._by_id: dict[str, LaidPiece] = {}
        self._failed: set[str] = set()
        self.faults: list[Diagnostic] = []

    def lay_all(self) -> None:
        """Lay every piece that can be laid."""
        for piece in self._block.pieces:
            try:
                form = self._form(piece.shape, piece.flip)
            except ShapeError as fault:
                self._undrawable(piece, fault)
                self._failed.update(id for id, _ in piece.members())
                continue
            base = self._place(piece, form)
            if base is None:
                self._failed.update(id for id, _ in piece.members())
            else:
                self._lay(piece, form, *base)

    def _undrawable(self, piece: Piece, fault: ShapeError) -> None:
        """Say that a shape cannot be drawn, once for a patch that many pieces use."""
        shape = piece.shape
        what = (
            f"patch `{shape.id}`" if shape.id else f"piece `{piece.id}` of block `{self._block.id}`"
        )
        message = f"{what} cannot be drawn: {fault}"
        hint = "change the measures of this shape"
        self._fault("impossible-shape", message, shape.span, hint)

    def _form(self, shape: Shape, flip: bool) -> _Form:
        key = (id(shape), flip)
        if key not in self._forms:
            outline = shape_outline(shape, self._unit)
            grain = grain_wish(shape, outline)
            if flip:
                outline = mirrored(outline)
                grain = None if grain is None else -grain % 180
            self._forms[key] = _Form(outline, grain)
        return self._forms[key]

    def _place(self, piece: Piece, form: _Form) -> tuple[Outline, float] | None:
        """The outline in its place and its turn; None after a fault."""
        if isinstance(piece.placed, Beside):
            return self._beside(piece, piece.placed, form)
        x, y = 0.0, 0.0
        if isinstance(piece.placed, At):
            x, y = (extent.inches(self._unit) for extent in piece.placed.position)
        turn = piece.turn % 360 if isfinite(piece.turn) else 0.0
        return shifted(turned(form.outline, turn), (x, y)), turn

    def _beside(self, piece: Piece, beside: Beside, form: _Form) -> tuple[Outline, float] | None:
        """The piece with its own side along the other's side, on the other side of it."""
        other = self._by_id.get(beside.piece)
        if other is None and beside.piece in self._failed:
            return None  # its own fault has been told
        if other is None:
            message = f"there is no piece `{beside.piece}` before piece `{piece.id}`"
            known = did_you_mean(beside.piece, self._by_id) or "name a piece that stands further up"
            self._fault("unknown-name", message, beside.span, known)
            return None
        for name, outline, side in (
            (other.id, other.outline, beside.side),
            (piece.id, form.outline, beside.own),
        ):
            if not 1 <= side <= len(outline.sides):
                message = (
                    f"piece `{name}` has {len(outline.sides)} sides, so there is no side {side}"
                )
                hint = f"count from 1 to {len(outline.sides)}, clockwise from the first corner"
                self._fault("bad-number", message, beside.span, hint)
                return None
        theirs, own = other.outline.sides[beside.side - 1], form.outline.sides[beside.own - 1]
        lengths = length_of(theirs.points), length_of(own.points)
        if abs(lengths[0] - lengths[1]) > DRAWN:
            long, short = (length_words(value, self._units) for value in lengths)
            self._fault(
                "side-mismatch",
                f"side {beside.side} of `{other.id}` is {long} long but side {beside.own} of `{piece.id}` is {short}",
                beside.span, self._mismatch_hint(other, form, lengths, beside),
            )  # fmt: skip
            return None
        # the two sides run opposite ways: own start on their end, own end on their start
        turn = tidy_angle(angle_up(theirs.end, theirs.start) - angle_up(own.start, own.end))
        outline = turned(form.outline, turn)
        return shifted(outline, minus(theirs.end, outline.sides[beside.own - 1].start)), turn

    def _mismatch_hint(
        self, other: LaidPiece, form: _Form, lengths: tuple[float, float], beside: Beside
    ) -> str:
        """A side of the right length, if either piece has one."""
        for key, outline, wanted in (
            ("own", form.outline, lengths[0]),
            ("side", other.outline, lengths[1]),
        ):
            for n, side in enumerate(outline.sides, 1):
                if abs(length_of(side.points) - wanted) <= DRAWN:
                    return f"try `{key}: {n}`, which has the right length"
        return "choose sides of the same length, or place the piece with `at`"

    def _lay(self, piece: Piece, form: _Form, outline: Outline, turn: float) -> None:
        """Keep the piece, or the copies of its ring."""
        ring = piece.ring
        for k, (id, fabric) in enumerate(piece.members()):
            step = 360 * k / ring.times if ring else 0.0
            placed = turned(outline, step, self._centre(ring)) if ring else outline
            angle = tidy_angle(turn + step)
            grain = None if form.grain is None else tidy_angle(form.grain + angle, 180)
            laid = LaidPiece(
                id=id, fabric=fabric, outline=placed, form=piece.shape.form, turn=angle, grain=grain, motif=piece.shape.motif, piece=piece, span=piece.id_span
            )  # fmt: skip
            self.laid.append(laid)
            self._by_id[id] = laid

    def _centre(self, ring: Ring) -> Point:
        x, y = ring.centre
        return (x.inches(self._unit), y.inches(self._unit))

    def _fault(self, code: str, message: str, span: Span, hint: str | None) -> None:
        self.faults.append(Diagnostic(code=code, message=message, span=span, hint=hint))


def place_pieces(
    block: Block, unit: Length, units: UnitSystem
) -> tuple[tuple[LaidPiece, ...], tuple[Diagnostic, ...]]:
    """The pieces of a block laid in place for one length of the unit, and the faults found.

    A piece with a fault is left out, and so are pieces beside it.
    """
    placer = _Placer(block, unit, units)
    placer.lay_all()
    return tuple(placer.laid), tuple(placer.faults)
