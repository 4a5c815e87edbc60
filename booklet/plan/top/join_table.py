"""Floor 9: the table of the joins of a top: which way the seams of its rows and borders are pressed.

It says what the equations of the quilt floor gave; alike rows and alike borders are said once.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.kit.records import Record
from booklet.kit.words import Phrase, Text, listing, phrase, plural_phrase
from booklet.plan.records import JoinLine
from booklet.pressing.pressing import JunctionKind
from booklet.quilt.assembling.joining import Joining
from booklet.quilt.assembling.row_pressing import PressedRow, RowPartKind
from booklet.quilt.assembling.top_pressing import Points, PressedTop

STRIPS = {RowPartKind.SASH, RowPartKind.STONE}


class _Row(Record):
    """A row of the set: which it is of all, from 0, its number among the rows of blocks (0 for a row of
    sashes), and the joints with the rows before and after it."""

    row: PressedRow
    index: int
    number: int
    joints: tuple[int, int]


def join_table(top: PressedTop, joining: Joining | None = None) -> tuple[JoinLine, ...]:
    """Every kind of seam that joins the parts of a top, in the order of sewing; `joining` is how the blocks of a lattice
    are sewn together."""
    lattice = _sewn_through(joining) if joining is not None and not joining.pressing.at_end else ()
    between = lattice or _lattice(top)
    return (*_rows(top), *between, *_corner_triangles(top), *_borders(top))


def _rows(top: PressedTop) -> Iterator[JoinLine]:
    """The seams in the rows, alike rows once, and those between rows."""
    alike: dict[tuple[bool, Text], list[_Row]] = {}
    rows = list(_numbered(top.rows))
    for row in rows:
        if row.row.right:
            alike.setdefault((row.number > 0, _way(row.row, top.slanted)), []).append(row)
    blocks = max((row.number for row in rows), default=0)
    for (_, way), found in sorted(alike.items(), key=lambda kind: not kind[0][0]):  # blocks first
        locks = _joints(found)
        seams = _in_rows(found, blocks, slanted=top.slanted)
        yield JoinLine(seams, way, _meets(found, locks), locks)
    if len(rows) > 1:
        yield _between_rows(top)


def _numbered(rows: Sequence[PressedRow]) -> Iterator[_Row]:
    """The rows with their numbers and joints."""
    number = before = 0
    for index, row in enumerate(rows):
        strips = set(row.kinds) <= STRIPS
        number += not strips
        yield _Row(row, index, 0 if strips else number, (before, row.locks))
        before = row.locks


def _way(row: PressedRow, slanted: bool) -> Phrase:
    """Which way all seams of a row lie, or each, from its left end."""
    if RowPartKind.SASH in row.kinds and row.toward(RowPartKind.SASH):
        return phrase("toward the sashes")
    if len(set(row.right)) == 1:
        return _sideways(row.right[0], slanted)
    ways = listing([_sideways(right, slanted) for right in row.right], "commas")
    return phrase("in turn from the left end: {ways}", ways=ways)


def _sideways(right: bool, slanted: bool) -> Phrase:
    if slanted:
        return phrase("toward the upper right") if right else phrase("toward the lower left")
    return phrase("to the right") if right else phrase("to the left")


def _in_rows(found: Sequence[_Row], blocks: int, *, slanted: bool) -> Phrase:
    """Which rows the seams are in."""
    numbers = [row.number for row in found]
    if not numbers[0]:
        return phrase("in every row of sashes")
    if len(numbers) == blocks:
        return phrase("in every row of blocks") if blocks > 1 else phrase("in the row of blocks")
    if slanted:
        return plural_phrase(
            "in slanted row {rows}", "in slanted rows {rows}", len(numbers), rows=tuple(numbers)
        )
    return plural_phrase("in row {rows}", "in rows {rows}", len(numbers), rows=tuple(numbers))


def _joints(found: Sequence[_Row]) -> int:
    """At how many joints the seams of some rows lock with their neighbours, each joint counted once."""
    joints: dict[int, int] = {}
    for row in found:
        joints |= {row.index - 1: row.joints[0], row.index: row.joints[1]}
    return sum(joints.values())


def _meets(found: Sequence[_Row], locks: int) -> Phrase:
    """What the seams of some rows meet."""
    clashes = sum(row.row.clashes for row in found)
    if clashes:
        return plural_phrase(
            "{n} lies on the same side as one of the next row: press it open",
            "{n} lie on the same side as one of the next row: press them open",
            clashes,
        )
    return _locks(locks)


def _locks(joints: int) -> Phrase:
    if not joints:
        return phrase("nothing to lock with")
    return plural_phrase("they lock at {n} joint", "they lock at {n} joints", joints)


def _between_rows(top: PressedTop) -> JoinLine:
    """The long seams between rows. No other seam faces them, so they are free."""
    seams = phrase("between the rows")
    if any(RowPartKind.SASH in row.kinds and set(row.kinds) <= STRIPS for row in top.rows):
        return JoinLine(seams, phrase("toward the rows of sashes"), _locks(0))
    way = phrase("toward the lower right") if top.slanted else phrase("down", context="press")
    return JoinLine(seams, way, _locks(0))


def _sewn_through(joining: Joining) -> tuple[JoinLine, ...]:
    """The seams of a lattice whose rows are sewn from edge to edge, so that no point can be fanned: as rows are pressed;
    nothing where the seams of a row, or those between rows, do not all lie one way."""
    tiling, pressed = joining.pressing.assembly.tiling, joining.pressing.pressed
    top = min(at.row for at in joining.laid.values())
    in_rows: dict[int, set[bool]] = {}
    between: set[bool] = set()
    for seam in tiling.seams:
        toward = pressed[seam.id].toward
        if toward is None:
            return ()
        (other,) = (id for id in seam.between if id != toward)
        to, off = joining.laid[toward], joining.laid[other]
        if to.row == off.row:
            in_rows.setdefault(to.row - top + 1, set()).add(to.column > off.column)
        else:
            between.add(to.row > off.row)
    if len(between) > 1 or any(len(ways) > 1 for ways in in_rows.values()):
        return ()
    alike: dict[bool, list[int]] = {}
    for number, (right,) in sorted(in_rows.items()):
        alike.setdefault(right, []).append(number)
    lines = [
        JoinLine(
            plural_phrase("in row {rows}", "in rows {rows}", len(rows), rows=tuple(rows)),
            _sideways(right, slanted=False),
            _locks(joints),
            joints,
        )
        for right, rows in alike.items()
        for joints in [_locked(joining, rows, top)]
    ]
    if between:
        way = (
            phrase("down", context="press") if between == {True} else phrase("up", context="press")
        )
        lines.append(JoinLine(phrase("between the rows"), way, _locks(0)))
    return tuple(lines)


def _locked(joining: Joining, rows: Sequence[int], top: int) -> int:
    """At how many joints the seams of some rows lock."""
    tiling, laid = joining.pressing.assembly.tiling, joining.laid

    def is_theirs(id: str) -> bool:
        one, other = (laid[piece].row - top + 1 for piece in tiling.seam(id).between)
        return one == other and one in rows

    nests = (j for j in joining.pressing.junctions if j.kind is JunctionKind.NEST)
    return sum(any(map(is_theirs, junction.seams)) for junction in nests)


def _lattice(top: PressedTop) -> Iterator[JoinLine]:
    """The seams between blocks that lie in no rows."""
    seams = phrase("between the blocks")
    match top.points:
        case Points.FAN:
            way = phrase(
                "the same way round each point where blocks meet: clockwise at one, counterclockwise "
                "at the next"
            )
            yield JoinLine(seams, way, phrase("every point lies flat"))
        case Points.ODD:
            why = phrase("not all points can lie the same way round")
            yield JoinLine(seams, phrase("open", context="press"), why)
        case Points.NONE:
            yield JoinLine(seams, phrase("to either side"), _locks(0))
        case None:
            return


def _corner_triangles(top: PressedTop) -> Iterator[JoinLine]:
    if top.corner_triangles:
        yield JoinLine(phrase("at the corner triangles"), phrase("toward the triangle"), _locks(0))


def _borders(top: PressedTop) -> Iterator[JoinLine]:
    """The seams of borders, those made alike once."""
    alike: dict[tuple[PressedRow, ...], list[int]] = {}
    for number, rows in enumerate(top.borders, 1):
        alike.setdefault(rows, []).append(number)
    for rows, numbers in alike.items():
        yield from _border(rows, _border_name(numbers))


def _border_name(numbers: Sequence[int]) -> Phrase:
    return plural_phrase("border {which}", "borders {which}", len(numbers), which=tuple(numbers))


def _border(rows: Sequence[PressedRow], name: Phrase) -> Iterator[JoinLine]:
    """The seams of one border, or of several alike: its strips, its corner squares or its miters."""
    squares = [row for row in rows if RowPartKind.SQUARE in row.kinds]
    joints = sum(row.locks for row in rows)
    outward = all(row.toward(RowPartKind.BORDER) for row in rows if RowPartKind.TOP in row.kinds)
    yield JoinLine(
        phrase("{border}, inner edge", border=name),
        phrase("toward the border") if outward else phrase("away from the border"),
        _locks(joints),
        joints,
    )
    if squares:
        strip = all(row.toward(RowPartKind.BORDER) for row in squares)
        yield JoinLine(
            phrase("{border}, corners", border=name),
            phrase("toward the strip") if strip else phrase("toward the square"),
            _locks(joints),
            joints,
        )
    if not rows:
        yield JoinLine(
            phrase("{border}, mitered corners", border=name),
            phrase("open", context="press"),
            _locks(0),
        )
