"""Floor 3: a lattice with the pieces of its blocks, asked how much of each shows in a frame."""

from __future__ import annotations

from collections.abc import Mapping

from booklet.geometry.overlay import InFrame
from booklet.geometry.placing.placing import LaidPiece
from booklet.geometry.rims.lattice import Cell, Lattice
from booklet.geometry.soundness.sites import Sound
from booklet.geometry.vectors import turned
from booklet.kit.outlines.plane import Frame, Point, frame_of
from booklet.kit.outlines.polygon import area_of, centroid
from booklet.kit.records import Record

SHOWS = 1e-3  # square inches: of a patch that shows less, nothing shows


class _Turned(Record, kw_only=True):
    """The pieces of a block as it is turned, about its (0, 0)."""

    pieces: tuple[LaidPiece, ...]
    outlines: tuple[tuple[Point, ...], ...]
    areas: tuple[float, ...]
    middles: tuple[Point, ...]
    marks: tuple[tuple[Point, ...], ...]
    sizes: tuple[float, ...]
    cloths: tuple[tuple[str, float], ...]
    box: Frame
    in_frame: InFrame


class Ground:
    """The patches of a lattice without end."""

    def __init__(self, lattice: Lattice, sound: Mapping[str, Sound]) -> None:
        self.lattice = lattice
        kinds = dict.fromkeys((s.block, s.turn % 360) for row in lattice.rows for s in row)
        self._kinds = {kind: _turned(sound[kind[0]], kind[1]) for kind in kinds}

    def _of(self, cell: Cell) -> _Turned:
        setting = self.lattice.setting(cell)
        return self._kinds[setting.block, setting.turn % 360]

    def pieces(self, cell: Cell) -> tuple[LaidPiece, ...]:
        """The pieces of the block in a cell, in the block's own frame."""
        return self._of(cell).pieces

    def areas(self, cell: Cell) -> tuple[float, ...]:
        """The square inches of each."""
        return self._of(cell).areas

    def middles(self, cell: Cell) -> tuple[Point, ...]:
        """The centres of their areas, about the block's (0, 0)."""
        return self._of(cell).middles

    def marks(self, cell: Cell, n: int) -> tuple[Point, ...]:
        """The points that tell how the piece numbered n lies: its middle and its corners, about (0, 0)."""
        return self._of(cell).marks[n]

    def label(self, cell: Cell, n: int, cloths: bool) -> object:
        """What tells a piece from others that lie as it does: its size, and its cloth if asked."""
        of = self._of(cell)
        return of.cloths[n] if cloths else of.sizes[n]

    def showing(self, cell: Cell, frame: Frame) -> tuple[float, ...]:
        """How many square inches of each lie in a frame; 0 for what is too little to show."""
        own, box = self.own_frame(cell, frame), self._of(cell).box
        if (
            own.left <= box.left
            and own.top <= box.top
            and own.right >= box.right
            and own.bottom >= box.bottom
        ):
            return self._of(cell).areas
        found = self._of(cell).in_frame.areas(own)
        return tuple(area if area > SHOWS else 0.0 for area in found)

    def own_frame(self, cell: Cell, frame: Frame) -> Frame:
        """A frame as seen from the (0, 0) of the block in a cell."""
        x, y = self.lattice.origin(cell)
        return Frame(frame.left - x, frame.top - y, frame.width, frame.height)


def _turned(sound: Sound, turn: int) -> _Turned:
    outlines = tuple(turned(piece.outline, turn).points for piece in sound.pieces)
    areas = tuple(map(area_of, outlines))
    sizes = tuple(round(area, 3) for area in areas)
    middles = tuple(map(centroid, outlines))
    return _Turned(
        pieces=sound.pieces,
        outlines=outlines,
        areas=areas,
        middles=middles,
        marks=tuple((middle, *points) for middle, points in zip(middles, outlines, strict=True)),
        sizes=sizes,
        cloths=tuple((p.fabric, size) for p, size in zip(sound.pieces, sizes, strict=True)),
        box=frame_of(p for points in outlines for p in points),
        in_frame=InFrame(outlines),
    )
