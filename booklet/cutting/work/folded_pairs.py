"""Floor 7: pairs from folded cloth. Folded along the selvedge, every cut through both layers gives a patch and
its mirror image."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.crafts.method import Method
from booklet.crafts.rotary.cuts import AlikeCuts, Rotary
from booklet.crafts.rotary.nesting import NestedRow
from booklet.crafts.rotary.ruler import Ruler
from booklet.cutting.cloth.jobs import Job, LaidStrip
from booklet.cutting.cloth.precuts import stock_of
from booklet.cutting.cutting_plan import Placed
from booklet.cutting.demand import Want
from booklet.kit.measure import Length
from booklet.kit.outlines.near import NOISE
from booklet.kit.outlines.plane import Point
from booklet.kit.outlines.polygon import at_origin, mirrored
from booklet.kit.records import replace
from booklet.pattern import Direction

Cut = tuple[Want, Rotary]


def pairs_of(cuts: Sequence[Cut]) -> dict[int, int | None]:
    """The wants (by their number) whose pieces can be cut in pairs, each with the number of the want that
    the mirror images are; None where they are pieces of the want itself.

    A patch mirrored equally often; of a print with an up only where the two lie on the cloth as each
    other's mirror image, since a fold along the selvedge keeps the print upright.
    """
    found: dict[int, int | None] = {}
    for number, (want, made) in enumerate(cuts):
        if number in found or made.per_cut != 1 or want.patch.motif or stock_of(want.fabric):
            continue
        if want.laid is None:
            if len(made.lays) == 2 and made.lays[0].cuts == made.lays[1].cuts:
                found[number] = None
            continue
        for other in range(number + 1, len(cuts)):
            if other not in found and _mirror_each_other(cuts[number], cuts[other]):
                found[number], found[other] = other, number
                break
    return found


def unfoldable(cuts: Sequence[Cut]) -> set[int]:
    """The wants (by their number) of patches mirrored equally often whose print does not let them be cut
    from folded cloth: some would lie turned."""
    found: set[int] = set()
    paired = pairs_of(cuts)
    by_patch: dict[tuple[str, str], list[int]] = {}
    for number, (want, made) in enumerate(cuts):
        if want.laid is not None and made.per_cut == 1 and not want.patch.motif:
            by_patch.setdefault((want.patch.letter, want.fabric.id), []).append(number)
    for numbers in by_patch.values():
        some = [cuts[number][0] for number in numbers]
        mirrored_too = sum(w.pieces for w in some) == 2 * sum(w.reversed for w in some)
        if mirrored_too and not any(number in paired for number in numbers):
            found.update(numbers)
    return found


def _mirror_each_other(one: Cut, other: Cut) -> bool:
    (want, made), (back, likewise) = one, other
    if (want.patch.letter, want.fabric.id) != (back.patch.letter, back.fabric.id):
        return False
    if want.pieces != back.pieces or len(made.lays) != 1 or len(likewise.lays) != 1:
        return False
    assert want.laid is not None and back.laid is not None
    image = mirrored(want.laid)
    images = [image]
    if want.fabric.direction is Direction.STRIPE:
        images.append(at_origin([(-x, -y) for x, y in image]))
    return _corners(want.laid) != _corners(back.laid) and any(
        _corners(i) == _corners(back.laid) for i in images
    )


def _corners(points: Sequence[Point]) -> list[tuple[float, float]]:
    return sorted((round(x, 4) + 0.0, round(y, 4) + 0.0) for x, y in at_origin(points))


def folded_strips(
    job: Job, name: str, method: Method, lay: AlikeCuts, ruler: Ruler
) -> tuple[LaidStrip, ...] | None:
    """Strips across the folded cloth with the pieces of a lay and as many mirrored, from the selvedges towards
    the fold; of the ways a row may lie the one that takes least cloth. None where no piece fits on half
    the width."""
    half, pairs = float(job.fabric.width) / 2, lay.cuts
    best: tuple[LaidStrip, ...] | None = None
    for row in lay.rows:
        most = _most(row, half, pairs)
        if not most:
            continue
        cut = Placed(name=name, outline=(), method=method, reversed=lay.reversed)
        strips = tuple(
            _folded(cut, row, min(most, pairs - first), ruler.room(row.height), 2 * half)
            for first in range(0, pairs, most)
        )
        if best is None or _height(strips) < _height(best):
            best = strips
    return best


def _height(strips: tuple[LaidStrip, ...]) -> Length:
    return len(strips) * strips[0].height


def _most(row: NestedRow, room: float, pairs: int) -> int:
    most = 0
    while most < pairs and row.length(most + 1) <= room + NOISE:
        most += 1
    return most


def _folded(cut: Placed, row: NestedRow, count: int, height: Length, width: float) -> LaidStrip:
    """One strip: pieces like `cut` from one selvedge on, their mirror images from the other."""
    near = [row.outline(index) for index in range(count)]
    far = [tuple((width - x, y) for x, y in reversed(outline)) for outline in near]
    placed = (
        *(replace(cut, outline=outline) for outline in near),
        *(replace(cut, outline=outline, reversed=not cut.reversed) for outline in reversed(far)),
    )
    used = row.length(count)
    gives = ((cut.name, 2 * count, 2 * count),)
    return LaidStrip(
        height=height, placed=placed, gives=gives, used=used, until=width - used, folded=True
    )
