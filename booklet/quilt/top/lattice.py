"""Floor 6: the lattice set. Blocks of any outline, one step apart across and one step apart down.

Each row begins within one step of the row above (in a half drop, each column), so that the top stays upright. Where its rim is ragged
the top is trimmed straight, and a warning says how much comes off; or, if asked, the geometry has filled its
frame with part blocks, so that nothing of the size is lost.
"""

from __future__ import annotations

from collections.abc import Mapping

from booklet.geometry import overlay
from booklet.geometry.rims.lattice import lattice_origin, lattice_steps
from booklet.geometry.soundness.subdivision import clusters
from booklet.geometry.tiling import Tiling
from booklet.geometry.words import area_words
from booklet.kit.diagnostic import Diagnostic, warning
from booklet.kit.measure import Length, UnitSystem
from booklet.kit.outlines.plane import Frame, Point, frame_of, shifted, turn_point
from booklet.kit.records import Record, replace
from booklet.pattern import Quilt, Rim, Size
from booklet.quilt.sized import PlacedBlock
from booklet.quilt.sums import result
from booklet.quilt.top.rims import inner_rectangle
from booklet.quilt.top.straight import Cell, arranged

FITS = 1e-3  # square inches for a block as large as the lattice's cell
Faults = tuple[Diagnostic, ...]


class LatticeSet(Record):
    """A lattice set that fits: each cell with its block's origin, and the frame kept of the whole."""

    cells: tuple[tuple[Cell, Point], ...]
    kept: Frame
    whole: Frame


def _outline(cell: Cell, at: Point, tilings: Mapping[str, Tiling]) -> tuple[Point, ...]:
    points = tilings[cell.setting.block].outline.points
    return shifted(tuple(turn_point(p, cell.setting.turn) for p in points), at)


def _shared(outlines: list[tuple[Point, ...]]) -> list[tuple[Point, ...]]:
    """The outlines with points that coincide made equal, so that no hairline stays between blocks."""
    stands_for = clusters(point for outline in outlines for point in outline)
    return [tuple(stands_for[point] for point in outline) for outline in outlines]


def fit_lattice(
    quilt: Quilt, size: Size, tilings: Mapping[str, Tiling], units: UnitSystem
) -> tuple[LatticeSet | None, Faults]:
    """The lattice set of a size and a warning if it is trimmed, or None with its faults."""
    across, down = lattice_steps(quilt, size)
    room = abs(across[0] * down[1] - across[1] * down[0])
    if room < FITS:
        return None, (_flat(quilt),)
    cells = tuple(arranged(quilt, size.across, size.down))
    if any(cell.setting.block not in tilings for cell in cells):
        return None, ()
    if faults := _wrong_areas(cells, tilings, room, size, units):
        return None, faults
    placed = tuple((cell, lattice_origin(cell.column, cell.row, across, down)) for cell in cells)
    outlines = _shared([_outline(cell, at, tilings) for cell, at in placed])
    if fault := _overlap(cells, outlines, units):
        return None, (fault,)
    rims = overlay.union(outlines)
    gaps = [hole for hole in overlay.holes(outlines) if overlay.area(hole) > FITS]
    if len(rims) != 1 or gaps:
        return None, (_gap(quilt, gaps[0][0] if gaps else rims[-1][0], units),)
    whole = frame_of(rims[0])
    if quilt.filled is not None:
        frame = Frame(*quilt.filled.frame)
        laid = tuple((Cell(a.column, a.row, a.setting), a.origin) for a in quilt.filled.laid)
        return LatticeSet(laid, frame, frame), ()
    if abs(overlay.area(rims[0]) - whole.width * whole.height) < FITS:
        return LatticeSet(placed, whole, whole), ()
    kept = inner_rectangle(rims[0])
    if kept is None:
        return None, (_all_rim(quilt, size),)
    if quilt.rim is Rim.FILL:
        return LatticeSet(placed, kept, whole), ()  # why it is not filled has been told
    return LatticeSet(placed, kept, whole), (_ragged(quilt, size, whole, kept, units),)


def lattice_extent(
    counts: tuple[int, int],
    size: Size,
    quilt: Quilt,
    tilings: Mapping[str, Tiling],
    units: UnitSystem,
) -> tuple[Length, Length] | None:
    """How wide and how high the lattice of a size would be in other numbers of blocks, across and down: its box where its
    rim is filled, else what is kept of it. None where it cannot be laid so."""
    across, down = counts
    other = replace(size, across=across, down=down, count=across * down)
    laid, _ = fit_lattice(replace(quilt, filled=None), other, tilings, units)
    if laid is None:
        return None
    kept = laid.whole if quilt.rim is Rim.FILL else laid.kept
    return Length.of(kept.width), Length.of(kept.height)


def place_lattice(lattice: LatticeSet, corner: Point) -> tuple[PlacedBlock, ...]:
    """Every block in its place; `corner` is the top left of the trimmed set in the finished top, so
    what is trimmed away lies beyond it."""
    dx, dy = corner[0] - lattice.kept.left, corner[1] - lattice.kept.top
    return tuple(
        cell.placed(cell.setting.turn, (at[0] + dx, at[1] + dy)) for cell, at in lattice.cells
    )


def _wrong_areas(
    cells: tuple[Cell, ...],
    tilings: Mapping[str, Tiling],
    room: float,
    size: Size,
    units: UnitSystem,
) -> Faults:
    """A fault for every block that is not as large as the cell of the lattice."""
    faults: dict[str, Diagnostic] = {}
    for cell in cells:
        block, area = cell.setting.block, tilings[cell.setting.block].area
        if abs(area - room) > FITS * max(1.0, room):
            does = "leave gaps" if area < room else "overlap"
            message = (
                f"block `{block}` covers {area_words(area, units)} in size `{size.id}`, but one step across"
                f" and one down span {area_words(room, units)}: the blocks would {does}"
            )
            hint = "correct the steps of `lattice`; written as `3 u` they grow with the block"
            fault = Diagnostic(
                code="set-not-filled", message=message, span=cell.setting.span, hint=hint
            )
            faults.setdefault(block, fault)
    return tuple(faults.values())


def _overlap(
    cells: tuple[Cell, ...], outlines: list[tuple[Point, ...]], units: UnitSystem
) -> Diagnostic | None:
    pairs = overlay.overlapping_pairs(outlines, 1)
    if not pairs:
        return None
    first, second, area = pairs[0]
    one, other = cells[first], cells[second]
    message = (
        f"block `{one.setting.block}` in row {one.row + 1}, column {one.column + 1} and block"
        f" `{other.setting.block}` in row {other.row + 1}, column {other.column + 1} of the lattice"
        f" overlap by {area_words(area, units)}"
    )
    hint = "correct the steps of `lattice`, or the turns in `arrange`"
    return Diagnostic(code="set-not-filled", message=message, span=other.setting.span, hint=hint)


def _gap(quilt: Quilt, at: Point, units: UnitSystem) -> Diagnostic:
    x, y = (result(Length.of(v), units) for v in at)
    message = f"the blocks of the lattice set leave a gap {x} across and {y} down"
    hint = "correct the steps of `lattice`, or the turns in `arrange`"
    return Diagnostic(code="set-not-filled", message=message, span=quilt.span, hint=hint)


def _flat(quilt: Quilt) -> Diagnostic:
    message = "the steps of the lattice lie in one line, so its rows would lie on each other"
    return Diagnostic(
        code="set-not-filled",
        message=message,
        span=quilt.span,
        hint="let `down` lead to the next row",
    )


def _all_rim(quilt: Quilt, size: Size) -> Diagnostic:
    message = (
        f"the lattice set of size `{size.id}` is all ragged rim: no straight-sided top can be cut"
        f" from {size.across} x {size.down} blocks"
    )
    return Diagnostic(
        code="set-not-filled", message=message, span=size.blocks_span, hint="take more blocks"
    )


def _ragged(quilt: Quilt, size: Size, whole: Frame, kept: Frame, units: UnitSystem) -> Diagnostic:
    wide, high = (result(Length.of(x), units) for x in (kept.width, kept.height))
    off = max(
        kept.left - whole.left,
        kept.top - whole.top,
        whole.left + whole.width - kept.left - kept.width,
        whole.top + whole.height - kept.top - kept.height,
    )
    return warning(
        "ragged-rim",
        f"the rim of the lattice set of size `{size.id}` is ragged: it is trimmed to"
        f" {wide} x {high}, up to {result(Length.of(off), units)} off a side",
        quilt.span,
        "write `rim: fill` to fill it with part blocks, or say in a text how to trim it",
    )
