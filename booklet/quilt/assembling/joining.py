"""Floor 6: a top is sewn like a block. Where the seams between blocks are not straight, the blocks laid are the
pieces of a tiling, and its order, runs, ends, threads and pressing are worked out by floors 4 and 5.

The order is rows: the blocks of a row, alike rows alike, then row to row; or, if asked, from the middle: the
middle block, then all blocks that touch it, clockwise, then all that touch those. Either joins a block only to
what it touches, and closes every inner point with one turn, which is the least there can be. In a half drop straight seams
part the columns: there the blocks of a column come first, then column to column, and nothing turns.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Container, Iterable, Iterator, Mapping, Sequence
from enum import Enum
from types import MappingProxyType

from booklet.crafts.forms import form_named
from booklet.geometry.layout import tiled
from booklet.geometry.soundness.sites import Sound
from booklet.geometry.soundness.subdivision import subdivide
from booklet.geometry.tiling import Outline, Patch, PlacedPiece, Side, Tiling
from booklet.kit.outlines.plane import Point, box_of, mean
from booklet.kit.outlines.polygon import without_straight_points
from booklet.kit.records import Record, replace
from booklet.pattern import (
    Block,
    DeclaredStep,
    Fabric,
    JoinOrder,
    PressKind,
    PressWish,
    Quilt,
    SetKind,
    Size,
)
from booklet.pressing.meetings.touching_rims import BlockInPlace
from booklet.pressing.pressing import Pressing
from booklet.pressing.stage import press_size
from booklet.quilt.assembling.row_pressing import RowPart, RowPartKind, in_rows
from booklet.quilt.assembling.top_pressing import Points, PressedTop
from booklet.quilt.sized import PlacedBlock, SizedQuilt
from booklet.sewing.stage import assemble_block

TOP = "the-top."  # the name of the whole, which no block can have
NUMBER = "#"  # before the number of a part block
MOST = 400  # blocks: of more the pictures would show nothing, and working them out takes minutes


class JoinedIn(Enum):
    """In which order the blocks of a top are joined."""

    ROWS = "rows"
    COLUMNS = "columns"
    MIDDLE = "from the middle"


class Joining(Record, kw_only=True):
    """How the blocks of a top are sewn together: the blocks laid, by the ids of the pieces they are, and the
    order and pressing of their seams. `titles` and what stands for the `letters` of the blocks, by their ids."""

    order: JoinedIn
    titles: Mapping[str, str]
    letters: Mapping[str, str]
    block: Block
    laid: Mapping[str, PlacedBlock]
    pressing: Pressing


def joining_of(
    quilt: SizedQuilt,
    top: PressedTop | None,
    tilings: Mapping[str, Tiling],
    titles: Mapping[str, str],
    allowance: float,
) -> Joining | None:
    """How the blocks of a quilt are joined where no straight seam does it; None where rows of straight seams do,
    or of more blocks than can be shown. `tilings` and `titles` by block id, `allowance` in inches."""
    written = quilt.size.quilt
    if written is None or written.set is not SetKind.LATTICE or top is None or top.rows:
        return None
    if not 1 < len(quilt.placed) <= MOST:
        return None
    laid = _by_name(quilt.placed)
    letters = _letters(tilings, titles, {cell.block for row in written.arrange for cell in row})
    tiling = _tiling(laid, tilings, letters)
    order = _order(written, tiling)
    steps = tuple(_steps(written, order, laid, tiling, top))
    span = written.span
    block = Block(
        id=TOP,
        title="",
        pieces=(),
        outline=None,
        steps=steps,
        span=span,
        outline_span=span,
        sew_span=span,
    )
    made = assemble_block(tiling, block, quilt.size.sewing, as_joined=True).value
    if made is None:
        return None
    made = replace(made, tiling=replace(tiling, size=quilt.size.id))
    pressed, _ = press_size(_as_size(quilt.size, tilings), {TOP: made}, allowance)
    return Joining(
        order=order,
        titles=titles,
        letters=letters,
        block=block,
        laid=MappingProxyType(laid),
        pressing=pressed[TOP],
    )


def cloth(block: str) -> str:
    """The cloth that a whole block is drawn as."""
    return f"block {block}"


def block_of(cloth: str) -> str:
    """The block that is drawn as a cloth."""
    return cloth.removeprefix("block ")


def _by_name(placed: Sequence[PlacedBlock]) -> dict[str, PlacedBlock]:
    """Blocks laid by their names, which say row and column from 1: "r1c2"; where parts of a block share its
    place, "r1c2.2" too."""
    first_row, first_column = min(at.row for at in placed), min(at.column for at in placed)
    found: dict[str, PlacedBlock] = {}
    for at in placed:
        name = f"r{at.row - first_row + 1}c{at.column - first_column + 1}"
        same = sum(other == name or other.startswith(f"{name}.") for other in found)
        found[f"{name}.{same + 1}" if same else name] = at
    return found


def _letters(
    tilings: Mapping[str, Tiling], titles: Mapping[str, str], arranged: Container[str]
) -> Mapping[str, str]:
    """What stands for the letter of each block: its title, or its id where two share a title; of a part block,
    which is not among those arranged, its number in the picture of the quilt, marked, for plain ones are dots."""
    said = Counter(titles.values())
    return {
        block: f"{NUMBER}{number}"
        if block not in arranged
        else (titles[block] if said[titles[block]] == 1 else block)
        for number, block in enumerate(tilings, 1)
    }


def _tiling(
    laid: Mapping[str, PlacedBlock], tilings: Mapping[str, Tiling], letters: Mapping[str, str]
) -> Tiling:
    """The blocks laid as the pieces of one tiling."""
    outlines = [_outline(at, tilings) for at in laid.values()]
    parts = subdivide(outlines, None)
    span = next(iter(tilings.values())).pieces[0].span
    placed = tuple(
        PlacedPiece(
            id=id,
            fabric=cloth(at.block),
            patch=letters[at.block],
            reversed=False,
            turn=float(at.turn),
            outline=outline,
            grain=0.0,
            motif=False,
            span=span,
        )
        for (id, at), outline in zip(laid.items(), parts.outlines, strict=True)
    )
    used = dict.fromkeys(at.block for at in laid.values())
    patches = tuple(_patch(letters[block], placed, tilings[block]) for block in used)
    return tiled(Sound(TOP, (), parts), placed, patches)


def _outline(at: PlacedBlock, tilings: Mapping[str, Tiling]) -> Outline:
    """The outline of a block where it lies, without points along its straight sides."""
    place = BlockInPlace(at.block, at.turn, at.origin).place
    outline = tilings[at.block].outline
    if outline.is_curved:
        sides = (
            Side(place(s.start), place(s.end), tuple(map(place, s.via))) for s in outline.sides
        )
        return Outline(tuple(sides))
    points = without_straight_points(tuple(map(place, outline.points)))
    return Outline(tuple(Side(a, b) for a, b in zip(points, (*points[1:], points[0]), strict=True)))


def _patch(letter: str, placed: Sequence[PlacedPiece], tiling: Tiling) -> Patch:
    """A kind of block as the patch that its pieces are."""
    pieces = tuple(piece.id for piece in placed if piece.patch == letter)
    return Patch(
        letter=letter, form=form_named("polygon"), outline=tiling.outline, area=tiling.area, grain=0.0,
        motif=False, name="block", pieces=pieces, reversed_too=False,
    )  # fmt: skip


def _as_size(size: Size, tilings: Mapping[str, Tiling]) -> Size:
    """The size as the pressing of its joins reads it: a cloth for each block, none darker than the other."""
    like = next(iter(size.fabrics.values()))
    cloths: dict[str, Fabric] = {
        cloth(block): replace(like, id=cloth(block), colour="#888888") for block in tilings
    }
    return replace(size, fabrics=MappingProxyType(cloths), quilt=None)


def _order(quilt: Quilt, tiling: Tiling) -> JoinedIn:
    """The order asked for; columns where straight seams part them, and not the rows."""
    if quilt.join is JoinOrder.MIDDLE:
        return JoinedIn.MIDDLE
    boxes = [box_of(piece.outline.points) for piece in tiling.pieces]
    on_their_side = [
        RowPart(kind=RowPartKind.BLOCK, left=top, top=left, right=bottom, bottom=right)
        for left, top, right, bottom in boxes
    ]
    return JoinedIn.ROWS if in_rows(on_their_side) is None else JoinedIn.COLUMNS


def _steps(
    quilt: Quilt,
    order: JoinedIn,
    laid: Mapping[str, PlacedBlock],
    tiling: Tiling,
    top: PressedTop,
) -> Iterator[DeclaredStep]:
    """The steps of the order asked for."""
    touching: dict[str, set[str]] = {id: set() for id in laid}
    for seam in tiling.seams:
        one, other = seam.between
        touching[one].add(other)
        touching[other].add(one)
    wish = PressWish(PressKind.OPEN, None, quilt.span) if top.points is Points.ODD else None
    joins = {
        JoinedIn.MIDDLE: _from_middle,
        JoinedIn.ROWS: _by_rows,
        JoinedIn.COLUMNS: _by_columns,
    }[order]
    for n, (make, join) in enumerate(joins(laid, tiling, touching)):
        yield DeclaredStep(
            make=make,
            join=join,
            span=quilt.span,
            join_spans=(quilt.span,) * len(join),
            entry=n,
            press=wish,
        )


_Joins = Iterator[tuple[str, tuple[str, ...]]]


def _by_rows(
    laid: Mapping[str, PlacedBlock], tiling: Tiling, touching: Mapping[str, set[str]]
) -> _Joins:
    """The rows, each from left to right, then all of them from the top down."""
    rows: dict[int, list[str]] = {}
    for id, at in sorted(laid.items(), key=lambda item: (item[1].row, item[1].column)):
        rows.setdefault(at.row, []).append(id)
    return _by_lines("row", rows.values(), touching)


def _by_columns(
    laid: Mapping[str, PlacedBlock], tiling: Tiling, touching: Mapping[str, set[str]]
) -> _Joins:
    """The columns, each from the top down, then all of them from left to right."""
    columns: dict[float, list[str]] = {}
    boxes = {id: box_of(tiling.piece(id).outline.points) for id in laid}
    for id in sorted(boxes, key=lambda id: (round(boxes[id][0], 6), boxes[id][1])):
        columns.setdefault(round(boxes[id][0], 6), []).append(id)
    return _by_lines("column", columns.values(), touching)


def _by_lines(
    kind: str, lines: Iterable[Sequence[str]], touching: Mapping[str, set[str]]
) -> _Joins:
    """The rows (or columns), then all of them. One whose blocks do not all hang together is as many as hang
    together."""
    units: dict[str, tuple[str, ...]] = {}
    for line in lines:
        for part in _hanging(line, touching):
            name = f"{kind}{len(units) + 1}" if len(part) > 1 else part[0]
            units[name] = part
            if len(part) > 1:
                yield name, part
    if len(units) > 1:
        yield TOP, tuple(_each_touching(units, touching))


def _hanging(row: Sequence[str], touching: Mapping[str, set[str]]) -> Iterator[tuple[str, ...]]:
    """The parts of a row of which each block touches the one before it."""
    part: list[str] = []
    for id in row:
        if part and part[-1] not in touching[id]:
            yield tuple(part)
            part = []
        part.append(id)
    yield tuple(part)


def _each_touching(
    units: Mapping[str, tuple[str, ...]], touching: Mapping[str, set[str]]
) -> Iterator[str]:
    """The units in their order, but each after one that it touches."""
    waiting = list(units)
    there: set[str] = set()
    while waiting:
        near = (u for u in waiting if not there or any(touching[id] & there for id in units[u]))
        unit = next(near, waiting[0])
        waiting.remove(unit)
        there |= set(units[unit])
        yield unit


def _from_middle(
    laid: Mapping[str, PlacedBlock], tiling: Tiling, touching: Mapping[str, set[str]]
) -> _Joins:
    """The middle block with all that touch it, clockwise from the top, then ring by ring outward."""
    at = {id: mean(tiling.piece(id).outline.points) for id in laid}
    left, top = min(x for x, _ in at.values()), min(y for _, y in at.values())
    right, bottom = max(x for x, _ in at.values()), max(y for _, y in at.values())
    heart = ((left + right) / 2, (top + bottom) / 2)
    first = min(laid, key=lambda id: (round(math.dist(at[id], heart), 6), id))
    there, unit, n = {first}, first, 0
    while len(there) < len(laid):
        ring = {id for id in laid if id not in there and touching[id] & there}
        around = sorted(ring, key=lambda id: _clockwise(at[id], at[first]))
        there |= ring
        n += 1
        name = f"middle{n}" if len(there) < len(laid) else TOP
        yield name, (unit, *around)
        unit = name


def _clockwise(point: Point, centre: Point) -> float:
    """How far round a centre a point lies, clockwise from straight up; radians."""
    angle = math.atan2(point[0] - centre[0], centre[1] - point[1])
    return round(angle % math.tau, 6) % round(math.tau, 6)
