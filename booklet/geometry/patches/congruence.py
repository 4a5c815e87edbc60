"""Floor 3: finds the distinct patches among all pieces of a size and letters them.

Two pieces share a patch when a turn, or a mirroring and a turn, lays one on the other; a wish for the
grain must lie alike too. A is the smallest. Letters of two sizes agree where the blocks scale; a
pattern that mixes units with inches may letter its sizes differently.
"""

from __future__ import annotations

from collections.abc import Sequence

from booklet.crafts.figure import FlatOutline, figure_of
from booklet.crafts.forms import half_square_triangle, quarter_square_triangle
from booklet.geometry.patches.recognise import long_side, recognise
from booklet.geometry.placing.placing import LaidPiece
from booklet.geometry.tiling import Patch, PlacedPiece
from booklet.geometry.vectors import mirrored, shifted
from booklet.kit.outlines.alike import same_angle
from booklet.kit.outlines.near import DRAWN, SAME_ANGLE, SAME_LENGTH
from booklet.kit.outlines.plane import box_of, tidy_angle
from booklet.kit.outlines.polygon import area_of
from booklet.kit.records import Record, replace


class _Match(Record):
    """How a piece is had from the first piece of its class: mirrored first or not, then turned."""

    reversed: bool
    turn: float


class _Class:
    """Pieces that share a patch; the first met is its model."""

    def __init__(self, laid: LaidPiece, sign: FlatOutline, kind: object) -> None:
        self.model, self.sign, self.kind = laid, sign, kind
        self.mirror = figure_of(mirrored(laid.alone).points)
        self.area = abs(area_of(sign.corners))
        self.votes: dict[float, float] = {}  # grain in the patch's frame -> inches of rim along it
        self.reversed_too = False
        self._known: dict[object, tuple[float, list[_Match]]] = {}

    def match(self, laid: LaidPiece, sign: FlatOutline) -> _Match | None:
        """How the model gives this piece, or None."""
        if laid.motif != self.model.motif or (laid.grain is None) != (self.model.grain is None):
            return None
        key = sign.key()
        if key not in self._known:
            turns = [_Match(False, turn) for turn in self.sign.turns_onto(sign)]
            turns += [_Match(True, turn) for turn in self.mirror.turns_onto(sign)]
            self._known[key] = (sign.ways[0], turns)
        up, known = self._known[key]
        shift = sign.ways[0] - up
        options = [_Match(m.reversed, tidy_angle(m.turn + shift)) for m in known]
        options = [m for m in options if self._grain_agrees(m, laid.grain)]
        return self._best(options, laid)

    def _grain_agrees(self, match: _Match, wish: float | None) -> bool:
        if wish is None or self.model.grain is None:
            return True
        return same_angle(in_block(self.model.grain, match), wish, 180)

    def _best(self, options: list[_Match], laid: LaidPiece) -> _Match | None:
        """No mirroring if it can be; the author's own turn where a motif shows it, else the least."""
        if not options:
            return None
        authored = tidy_angle(laid.turn - self.model.turn) if laid.motif else 0.0
        return min(options, key=lambda m: (m.reversed, abs(m.turn - authored) > SAME_ANGLE, m.turn))

    def vote(self, match: _Match, direction: float, inches: float) -> None:
        """Count a straight stretch of rim in favour of a grain along it."""
        grain = tidy_angle(direction - match.turn, 180)
        grain = round(tidy_angle(-grain, 180) if match.reversed else grain, 2) % 180
        self.votes[grain] = self.votes.get(grain, 0.0) + inches

    def grain(self) -> float:
        """The straight grain of the patch: the wish, else along most of the rim, else the usual one.

        A half- or quarter-square triangle keeps the grain its name says (a short side, the long side)
        unless only the other kind of side lies on the rim.
        """
        if self.model.grain is not None:
            return self.model.grain
        outline, form, votes = self.model.alone, self.model.form, self.votes
        usual = recognise(outline, None).grain
        if form in (half_square_triangle.FORM, quarter_square_triangle.FORM):
            long = long_side(outline)
            quarter = form is quarter_square_triangle.FORM
            usual = long if quarter else usual
            named = {
                g: inches
                for g, inches in votes.items()
                if same_angle(g, long, 180, 2 * SAME_ANGLE) is quarter
            }
            votes = named or votes
        if not votes:
            return usual
        most = max(votes.values())
        leading = sorted(g for g, inches in votes.items() if inches >= most - SAME_LENGTH)
        return (
            usual
            if any(same_angle(grain, usual, 180, 2 * SAME_ANGLE) for grain in leading)
            else leading[0]
        )


def in_block(grain: float, match: _Match) -> float:
    """A patch's grain as it lies in the block for one piece, in [0, 180)."""
    return tidy_angle((-grain if match.reversed else grain) + match.turn, 180)


class BlockPieces(Record):
    """The pieces of one sound block, and for each the straight stretches it has on the rim.

    A stretch is (direction in degrees below 180, inches). Only pieces of one `kind` share a patch.
    """

    pieces: tuple[LaidPiece, ...]
    rim: tuple[tuple[tuple[float, float], ...], ...]
    kind: object = None


Lettered = tuple[tuple[PlacedPiece, ...], tuple[Patch, ...]]


def letter_pieces(blocks: Sequence[BlockPieces], ranks: Sequence[int]) -> tuple[Lettered, ...]:
    """For each block of one size its pieces with their letters, and the patches it uses, A first. Patches
    that only blocks of a higher rank have, such as those that the size does not use, are lettered later."""
    classes: list[_Class] = []
    matched = [_matches(block, classes, {}) for block in blocks]
    rank: dict[int, int] = {}
    for matches, own in zip(matched, ranks or (0,) * len(blocks), strict=True):
        for made, _ in matches:
            rank[id(made)] = min(own, rank.get(id(made), own))
    order = sorted(_ordered(classes), key=lambda made: rank[id(made)])
    names = {id(made): letters(n) for n, made in enumerate(order)}
    patches = {id(made): _patch(made, names[id(made)]) for made in classes}
    result = []
    for block, matches in zip(blocks, matched, strict=True):
        placed = tuple(
            _placed(laid, patches[id(made)], match)
            for laid, (made, match) in zip(block.pieces, matches, strict=True)
        )
        used: dict[str, list[str]] = {}
        for piece in placed:
            used.setdefault(piece.patch, []).append(piece.id)
        kept = tuple(
            replace(patches[id(made)], pieces=tuple(used[names[id(made)]]))
            for made in order
            if names[id(made)] in used
        )
        result.append((placed, kept))
    return tuple(result)


def _matches(
    block: BlockPieces, classes: list[_Class], by_bucket: dict[object, list[_Class]]
) -> list[tuple[_Class, _Match]]:
    """The class and match of every piece of a block; new classes are added. Rim votes are counted."""
    for made in classes:
        for bucket in _buckets(made.area, len(made.sign.corners), made.kind):
            by_bucket.setdefault(bucket, []).append(made)
    found = []
    for laid, rim in zip(block.pieces, block.rim, strict=True):
        sign = figure_of(laid.alone.points)
        count, area = len(sign.corners), abs(area_of(sign.corners))
        hit: tuple[_Class, _Match] | None = None
        for made in by_bucket.get(_buckets(area, count, block.kind)[1], ()):
            match = made.match(laid, sign)
            if match is not None:
                hit = (made, match)
                break
        if hit is None:
            made = _Class(laid, sign, block.kind)
            classes.append(made)
            for bucket in _buckets(area, count, block.kind):
                by_bucket.setdefault(bucket, []).append(made)
            hit = (made, _Match(False, 0.0))
        hit[0].reversed_too |= hit[1].reversed
        for direction, inches in rim:
            hit[0].vote(hit[1], direction, inches)
        found.append(hit)
    return found


def _buckets(area: float, count: int, kind: object) -> list[tuple[object, int, int]]:
    near = round(20 * area**0.5)  # a side drawn a little off takes less than that from it
    return [(kind, count, near - 1), (kind, count, near), (kind, count, near + 1)]


def _ordered(classes: list[_Class]) -> list[_Class]:
    """By area, the smallest first; equal areas by kind, then as first met."""
    by_area = sorted(classes, key=lambda made: made.area)  # stable: as first met
    group, groups = 0, dict[int, int]()
    for n, made in enumerate(by_area):
        if n and made.area - by_area[n - 1].area > DRAWN * max(1.0, made.area):
            group += 1
        groups[id(made)] = group
    met = {id(made): n for n, made in enumerate(classes)}
    kinds = {id(m): recognise(m.model.alone, m.grain()).form.rank for m in classes}
    return sorted(by_area, key=lambda m: (groups[id(m)], kinds[id(m)], met[id(m)]))


def letters(n: int) -> str:
    """A, B, … Z, AA, AB, … for 0, 1, …"""
    text = ""
    n += 1
    while n:
        n, rest = divmod(n - 1, 26)
        text = chr(ord("A") + rest) + text
    return text


def letter_rank(letter: str) -> tuple[int, str, int]:
    """The place of a patch letter among others: A, B … Z, AA; of the numbers on papers A1, A2 … A10, B1."""
    plain = letter.rstrip("0123456789")
    return len(plain), plain, int(letter[len(plain) :] or 0)


def _patch(made: _Class, letter: str) -> Patch:
    """The patch of a class, as its first piece lies, moved to (0, 0); `pieces` is filled in later."""
    left, top, _, _ = box_of(made.model.alone.points)
    grain = made.grain()
    what = recognise(made.model.alone, grain)
    outline = shifted(made.model.alone, (-left, -top))
    return Patch(
        letter=letter, form=what.form, outline=outline, area=made.area, grain=grain, motif=made.model.motif, name=what.name, pieces=(), reversed_too=made.reversed_too
    )  # fmt: skip


def _placed(laid: LaidPiece, patch: Patch, match: _Match) -> PlacedPiece:
    return PlacedPiece(
        id=laid.id, fabric=laid.fabric, patch=patch.letter, reversed=match.reversed, turn=match.turn, outline=laid.outline,
        grain=in_block(patch.grain, match), motif=laid.motif, span=laid.span,
    )  # fmt: skip
