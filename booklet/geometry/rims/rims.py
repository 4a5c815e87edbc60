"""Floor 3: fills the rim of a lattice: `rim: fill`. The lattice goes on beyond its columns and rows until its frame is
full, and of blocks that reach over the frame only what shows is sewn: part blocks, each kind a block of its own.

The frame is as large as the box round the blocks across and down. Where it lies is chosen by `centring.py`.
Fault codes: no-such-centre, no-rim and sliver-at-rim (warnings).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from booklet.geometry import overlay
from booklet.geometry.placing.placing import LaidPiece
from booklet.geometry.rims.centring import Placement, best_of, placements
from booklet.geometry.rims.ground import Ground
from booklet.geometry.rims.lattice import Cell, Lattice, lattice_steps
from booklet.geometry.rims.part_kinds import Motion, motion
from booklet.geometry.rims.part_shapes import shown_parts, sound_of
from booklet.geometry.rims.rim_faults import filled_by_itself, no_such_centre
from booklet.geometry.soundness.sites import Sound
from booklet.kit.bounds import MOST_PATCHES
from booklet.kit.diagnostic import Diagnostic
from booklet.kit.outlines.near import NOISE, SAME_LENGTH, SHARE
from booklet.kit.outlines.plane import Frame, Point, frame_of, plus, turn_point
from booklet.kit.records import Record, replace
from booklet.pattern import (
    Direction,
    Fabric,
    FilledRim,
    LaidSetting,
    Rim,
    RimPatches,
    SetKind,
    Setting,
    Size,
)

SAME_SHARE = 0.01  # of a block: shares that differ by less have one name
SIDES = ("left", "right", "top", "bottom")


class PartKind(Record, kw_only=True):
    """A kind of part block: its pieces in the frame of the block it is part of, the patches of that block, where
    it lies, and the share of the block's area that shows, where that is the same everywhere."""

    sound: Sound
    of: str
    of_patches: int
    where: tuple[str, ...]
    share: float | None

    @property
    def pieces(self) -> tuple[LaidPiece, ...]:
        """What is sewn together."""
        return self.sound.pieces


class RimFilling(Record):
    """A filled rim, and its kinds of part blocks, by the names they bear in it."""

    rim: FilledRim
    kinds: tuple[PartKind, ...]


def fill_rim(
    size: Size, sound: tuple[Sound, ...]
) -> tuple[RimFilling | None, tuple[Diagnostic, ...]]:
    """The filled rim of a size, whose blocks are these; none without one, or where the lattice has faults of
    its own, which are told where blocks are set."""
    quilt = size.quilt
    if quilt is None or quilt.set is not SetKind.LATTICE or quilt.rim is not Rim.FILL:
        return None, ()
    by_id = {made.block: made for made in sound}
    lattice = _lattice(size, by_id)
    if lattice is None:
        return None, ()
    frame, straight = _frame(lattice, size)
    wish = quilt.rim_wish
    if straight and wish.centre is None:
        return None, filled_by_itself(size)
    ground = Ground(lattice, by_id)
    tried = tuple(placements(ground, (size.across, size.down), frame))
    fitting = [one for one in tried if wish.centre in (None, one.centre)]
    if not fitting:
        assert wish.centre is not None
        return None, (no_such_centre(size, wish.centre, {one.centre for one in tried}),)
    placed = best_of(fitting, wish.patches)
    return _Filler(ground, placed, size).filled(), ()


def _lattice(size: Size, sound: Mapping[str, Sound]) -> Lattice | None:
    """The lattice of a size; None if its blocks do not fill it, or are too many."""
    assert size.quilt is not None
    rows = tuple(row for row in size.quilt.arrange if row)
    settings = [s for row in rows for s in row]
    across, down = lattice_steps(size.quilt, size)
    room = abs(across[0] * down[1] - across[1] * down[0])
    if room < NOISE or not settings or any(s.block not in sound for s in settings):
        return None
    most = max(len(sound[s.block].pieces) for s in settings)
    if size.across * size.down * most > MOST_PATCHES:
        return None
    outlines: dict[tuple[str, int], tuple[Point, ...]] = {}
    for s in settings:
        points = outline_points(sound[s.block])
        if abs(overlay.area(points) - room) > SHARE * room:
            return None
        turned = tuple(turn_point(p, s.turn % 360) for p in points)
        outlines[s.block, s.turn % 360] = turned
    return Lattice(across, down, rows, outlines)


def outline_points(sound: Sound) -> tuple[Point, ...]:
    """The outline of a sound block, with all points at which pieces meet it."""
    loop = sound.parts.border.points if sound.parts.border else sound.parts.rim_loop()
    assert loop is not None  # the block is sound
    return loop


def _frame(lattice: Lattice, size: Size) -> tuple[Frame, bool]:
    """The box round the columns and rows of a size, and whether they fill it by themselves."""
    cells = [(column, row) for row in range(size.down) for column in range(size.across)]
    frame = frame_of(p for cell in cells for p in lattice.outline(cell))
    whole = frame.width * frame.height
    return frame, abs(lattice.room * len(cells) - whole) < SHARE * whole


class _Filler:
    """Lays the blocks of one filled rim and gathers the kinds of its part blocks."""

    def __init__(self, ground: Ground, placed: Placement, size: Size) -> None:
        assert size.quilt is not None
        self.ground, self.placed, self.size = ground, placed, size
        self.patches = size.quilt.rim_wish.patches
        self.laid: list[LaidSetting] = []
        self.kinds: list[PartKind] = []
        self.like: dict[tuple[str, tuple[str, ...]], tuple[int, Motion]] = {}

    def filled(self) -> RimFilling | None:
        """The rim; None where blocks leave gaps or overlap in it."""
        frame, ground = self.placed.frame, self.ground
        covered = 0.0
        for cell in ground.lattice.reaching(frame):
            shown = sum(ground.showing(cell, frame))
            covered += shown
            if shown:
                self._lay(cell, shown)
        whole = frame.width * frame.height
        if abs(covered - whole) > SHARE * whole:
            return None
        cut = self.patches is RimPatches.CUT
        rim = FilledRim(
            centre=self.placed.centre, patches=self.patches, frame=(frame.left, frame.top, frame.width, frame.height), laid=tuple(self.laid),
            sewn=whole if cut else self.placed.sewn, cut_off=0.0 if cut else self.placed.cut_off,
            alike=self.placed.alike,
        )  # fmt: skip
        return RimFilling(rim, tuple(self.kinds))

    def _lay(self, cell: Cell, shown: float) -> None:
        """Lay the block in a cell, or the parts of it that show."""
        lattice, setting = self.ground.lattice, self.ground.lattice.setting(cell)
        origin = lattice.origin(cell)
        parts = shown_parts(self.ground, cell, self.placed.frame, self.patches)
        if parts is None:
            self.laid.append(LaidSetting(*cell, replace(setting, turn=setting.turn % 360), origin))
            return
        for part in parts:
            share = shown / sum(self.ground.areas(cell)) if len(parts) == 1 else None
            n, moved = self._kind(part, cell, share)
            turn = (setting.turn + moved.turn) % 360
            at = plus(origin, turn_point(moved.by, setting.turn))
            named = Setting(local_name(n), turn, setting.span)
            self.laid.append(LaidSetting(*cell, named, at))

    def _where(self, cell: Cell) -> tuple[str, ...]:
        """Over which edges of the top the block in a cell hangs: one, or a corner by two."""
        box, frame = frame_of(self.ground.lattice.outline(cell)), self.placed.frame
        over = (
            box.left < frame.left - SAME_LENGTH,
            box.right > frame.right + SAME_LENGTH,
            box.top < frame.top - SAME_LENGTH,
            box.bottom > frame.bottom + SAME_LENGTH,
        )
        sides = [side for side, is_over in zip(SIDES, over, strict=True) if is_over]
        if len(sides) == 2 and sides[0] in SIDES[:2] and sides[1] in SIDES[2:]:
            return (f"{sides[1]} {sides[0]}",)
        return tuple(sides)

    def _kind(
        self, part: tuple[LaidPiece, ...], cell: Cell, share: float | None
    ) -> tuple[int, Motion]:
        """The number of a part's kind, which is new or known, and how the kind is laid on the part."""
        setting, where = self.ground.lattice.setting(cell), self._where(cell)
        n, moved = self._known(part, setting) or (len(self.kinds), Motion(0, (0.0, 0.0)))
        if n == len(self.kinds):
            whole = len(self.ground.pieces(cell))
            self.kinds.append(
                PartKind(
                    sound=sound_of(local_name(n), part), of=setting.block, of_patches=whole,
                    where=where, share=share,
                )
            )  # fmt: skip
        kind = self.kinds[n]
        same = share is not None and kind.share is not None and abs(share - kind.share) < SAME_SHARE
        self.kinds[n] = replace(
            kind,
            where=tuple(dict.fromkeys((*kind.where, *where))),
            share=kind.share if same else None,
        )
        return n, moved

    def _known(self, part: tuple[LaidPiece, ...], setting: Setting) -> tuple[int, Motion] | None:
        """The kind that a part is alike to, and how the kind is laid on it."""
        whole = self.patches is RimPatches.WHOLE
        key = setting.block, tuple(piece.id for piece in part) if whole else ()
        if whole and key in self.like:
            return self.like[key]
        turns = _turns(part, self.size.fabrics)
        for n, kind in enumerate(self.kinds):
            if kind.of == setting.block:
                moved = motion(kind.pieces, part, turns)
                if moved is not None:
                    self.like[key] = n, moved
                    return n, moved
        return None


def local_name(n: int) -> str:
    """The name that a kind of part block bears until it has one in the pattern."""
    return f"part {n}"


def _turns(part: Sequence[LaidPiece], fabrics: Mapping[str, Fabric]) -> Direction:
    """How what is cut from some cloths may be turned."""
    of = {fabrics[piece.fabric].direction for piece in part if piece.fabric in fabrics}
    for direction in (Direction.ONE_WAY, Direction.STRIPE):
        if direction in of:
            return direction
    return Direction.ANY
