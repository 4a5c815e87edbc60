"""Floor 4, the mosaic: which regions of a block are alike, so that what is found for one serves all.

Two regions are alike if a turn and a shift lay one on the other, patch on patch and cloth on cloth. The
sign of a region is the same for alike regions, and lists their faces in the same order.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping

from booklet.geometry.tiling import PlacedPiece, Tiling
from booklet.kit.outlines.alike import rotated
from booklet.kit.outlines.plane import Point, mean, minus, plus
from booklet.kit.records import Mutable, Record, field
from booklet.pattern import Fabric
from booklet.sewing.alike import print_ways
from booklet.sewing.mosaic.mosaic import Faces, bits

GRID = 1 / 256  # inches: places are told apart by this
ASIDE = 0.000731  # puts the grid's lines where no corner of a block is likely to lie
MOST_TRIES = 24
Mark = tuple[int, int, int]  # label, place across, place down
Sign = tuple[object, ...]


class FaceLook(Record):
    """A face as it looks: the number of its label, its middle, and its corners from there."""

    label: int
    middle: Point
    corners: tuple[Point, ...]


class Likeness(Mutable):
    """Signs of regions, each worked out once."""

    looks: tuple[FaceLook, ...]
    _known: dict[Faces, tuple[Sign, tuple[int, ...]]] = field(default_factory=dict)
    _sorts: dict[Faces, int] = field(default_factory=dict)
    _numbers: dict[Sign, int] = field(default_factory=dict)

    def sign(self, region: Faces) -> Sign:
        """The sign of a region."""
        return self.signed(region)[0]

    def sort(self, region: Faces) -> int:
        """A number that stands for the sign of a region, quicker to compare."""
        if region not in self._sorts:
            number = self._numbers.setdefault(self.sign(region), len(self._numbers))
            self._sorts[region] = number
        return self._sorts[region]

    def signed(self, region: Faces) -> tuple[Sign, tuple[int, ...]]:
        """The sign of a region and its faces in the order that alike regions share."""
        if region not in self._known:
            self._known[region] = self._signed(region)
        return self._known[region]

    def _signed(self, region: Faces) -> tuple[Sign, tuple[int, ...]]:
        faces = list(bits(region))
        if len(faces) == 1:
            return (self.looks[faces[0]].label,), (faces[0],)
        looks = self.looks
        x, y = mean([looks[f].middle for f in faces])
        far = {f: math.dist(looks[f].middle, (x, y)) for f in faces}
        groups: dict[tuple[int, int], list[int]] = {}
        for f in faces:
            groups.setdefault((looks[f].label, _cell(far[f])), []).append(f)
        lead = min(
            (k for k in groups if k[1] > 2 or len(groups) == 1),
            key=lambda k: (len(groups[k]), -k[1], k[0]),
            default=min(groups),
        )
        best: tuple[tuple[object, ...], tuple[int, ...]] | None = None
        for f in groups[lead][:MOST_TRIES]:
            angle = math.atan2(looks[f].middle[1] - y, looks[f].middle[0] - x)
            made = self._turned(faces, (x, y), -angle)
            if best is None or made < best:
                best = made
        assert best is not None
        return best

    def _turned(
        self, faces: list[int], centre: Point, angle: float
    ) -> tuple[tuple[object, ...], tuple[int, ...]]:
        """The marks of a region turned about its middle, and its faces in the order of their marks."""
        c, s = math.cos(angle), math.sin(angle)
        listed = []
        for f in faces:
            look = self.looks[f]
            middle = rotated(minus(look.middle, centre), c, s)
            spots = (plus(middle, rotated(corner, c, s)) for corner in look.corners)
            corners = sorted((_cell(x), _cell(y)) for x, y in spots)
            listed.append((look.label, tuple(corners), f))
        listed.sort()
        return tuple((label, there) for label, there, _ in listed), tuple(f for *_, f in listed)


def likeness_of(tiling: Tiling, fabrics: Mapping[str, Fabric]) -> Likeness:
    """The looks of a block's pieces. A print with a direction stands upright, so a mark above the
    middle of its piece keeps a region with it from being alike when turned."""
    labels = sorted({(p.patch, p.reversed, p.fabric) for p in tiling.pieces})
    number = {label: k for k, label in enumerate(labels)}
    looks = []
    for piece in tiling.pieces:
        ways = print_ways(fabrics.get(piece.fabric))
        looks.append(_look(piece, number[piece.patch, piece.reversed, piece.fabric], ways))
    return Likeness(tuple(looks))


def shapes_of(tiling: Tiling) -> Likeness:
    """The shapes of a block's pieces, whatever they are cut from."""
    labels = sorted({(p.patch, p.reversed) for p in tiling.pieces})
    number = {label: k for k, label in enumerate(labels)}
    return Likeness(tuple(_look(p, number[p.patch, p.reversed], ()) for p in tiling.pieces))


def _look(piece: PlacedPiece, label: int, marks: Iterable[Point]) -> FaceLook:
    points = piece.outline.points
    x, y = mean(points)
    return FaceLook(
        label, (x, y), (*((px - x, py - y) for px, py in piece.outline.corners), *marks)
    )


def _cell(x: float) -> int:
    return math.floor((x + ASIDE) / GRID + 0.5)
