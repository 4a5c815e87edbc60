"""Floor 4: which steps of a block do the same, so that the booklet says them once ("make 4").

Two steps are alike if a turn and a shift carry one onto the other with its patches, fabrics, parts
and seams. In which order the parts of a join are named does not matter as long as the same seams are
sewn in the same runs: a row written from left to right is the same row where the turned block has it from
right to left. A mirror image is another step unless it is also a turned copy. A one-way print stands
upright in the block, so a unit with one is alike only as it stands, one with stripes also upside down.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence

from booklet.geometry.tiling import PlacedPiece, Tiling
from booklet.kit.outlines.alike import Turn
from booklet.kit.outlines.near import DRAWN
from booklet.kit.outlines.plane import Point, mean, midpoint, plus, same_place
from booklet.pattern import Direction, Fabric
from booklet.sewing.assembly import End, SewnSeam
from booklet.sewing.drafts import Draft

SQUARE = 0.25  # inches: the side of the squares by which points near each other are found
PRINT_MARK = 0.1  # inches from the middle of a piece to the mark of its print's direction
Label = tuple[object, ...]
Marks = dict[Label, tuple[Point, ...]]
Square = tuple[float, float]
Squares = dict[Label, dict[Square, list[Point]]]


def cards(
    drafts: Sequence[Draft], tiling: Tiling, fabrics: Mapping[str, Fabric]
) -> tuple[dict[int, int], dict[int, Turn]]:
    """The card of every step, counted from 1 in sewing order, and the motion that carries each step
    onto the first of its card."""
    card: dict[int, int] = {}
    past: dict[str, int] = {}  # for each piece a number for the cards it went through so far
    numbers: dict[tuple[int, int], int] = {}
    motion: dict[int, Turn] = {}
    firsts: dict[tuple[object, ...], list[tuple[int, Marks, Squares]]] = {}
    count = 0
    points = {piece.id: piece.outline.points for piece in tiling.pieces}
    for draft in drafts:
        marks = _marks(draft, tiling, points, past, fabrics)
        kin = firsts.setdefault(_likeness(draft, marks), [])
        ways = ((n, onto(marks, theirs, squares)) for n, theirs, squares in kin)
        found = next(((n, way) for n, way in ways if way is not None), None)
        if found is None:
            count += 1
            card[draft.n] = count
            kin.append((draft.n, marks, {}))
            motion[draft.n] = Turn((0.0, 0.0), 1.0, 0.0, (0.0, 0.0))
        else:
            card[draft.n] = card[found[0]]
            motion[draft.n] = found[1]
        for piece in sorted(draft.pieces):
            so_far = (past.get(piece, 0), card[draft.n])
            past[piece] = numbers.setdefault(so_far, len(numbers) + 1)
    return card, motion


def like_ends(
    sewn: Mapping[str, SewnSeam], drafts: Sequence[Draft], card: Mapping[int, int],
    motion: Mapping[int, Turn], tiling: Tiling,
) -> dict[str, SewnSeam]:  # fmt: skip
    """The seams with the ends of alike steps made alike: where one of them stops at its point, all do.

    Stopping at the point does no harm where it is not needed, and a card can say but one thing.
    """
    stops: dict[int, list[tuple[Point, Point]]] = {}  # by card, as on its first step
    for draft in drafts:
        for _, v, w, end in _ends(draft, sewn, tiling):
            if end is End.POINT:
                moved = motion[draft.n]
                stops.setdefault(card[draft.n], []).append((moved(v), moved(w)))
    changed = dict(sewn)
    for draft in drafts:
        moved = motion[draft.n]
        for seam, v, w, end in _ends(draft, sewn, tiling):
            if end is End.EDGE and any(
                same_place(a, moved(v)) and same_place(b, moved(w))
                for a, b in stops.get(card[draft.n], ())
            ):
                changed[seam] = _stopping(changed[seam], tiling.seam(seam).start == v)
    return changed


def are_alike(marks: Marks, theirs: Marks) -> bool:
    """Whether a turn and a shift carry some marks onto all others."""
    counts = [{label: len(points) for label, points in m.items()} for m in (marks, theirs)]
    return counts[0] == counts[1] and onto(marks, theirs) is not None


def onto(marks: Marks, theirs: Marks, squares: Squares | None = None) -> Turn | None:
    """A turn and shift that carries the marks onto those of another step, label by label. `squares`
    remembers what was sorted of the other's marks."""
    squares = {} if squares is None else squares
    here, there = _centre(marks), _centre(theirs)
    label, anchor = _anchor(marks, here)
    reach = math.dist(anchor, here)
    for target in theirs.get(label, ()):
        if abs(math.dist(target, there) - reach) > DRAWN:
            continue
        angle = _angle(there, target) - _angle(here, anchor)
        way = Turn(here, math.cos(angle), math.sin(angle), there)
        if _carries(way, marks, theirs, squares):
            return way
    return None


def _anchor(marks: Marks, centre: Point) -> tuple[Label, Point]:
    """The mark farthest from the middle, with its label; of those as far the one with the last label."""
    far = {
        label: max(points, key=lambda p: round(math.dist(p, centre), 3))
        for label, points in marks.items()
        if points
    }
    reach = max(round(math.dist(p, centre), 3) for p in far.values())
    last = [label for label, p in far.items() if round(math.dist(p, centre), 3) == reach]
    label = max(last, key=repr) if len(last) > 1 else last[0]
    return label, far[label]


def _carries(way: Turn, marks: Marks, theirs: Marks, squares: Squares) -> bool:
    """Whether the motion puts every mark on one of the same label, few marks looked at first."""
    for label, points in sorted(marks.items(), key=lambda entry: len(entry[1])):
        if label not in squares:
            squares[label] = _in_squares(theirs[label])
        if not _all_land(way, points, squares[label]):
            return False
    return True


def _in_squares(points: Sequence[Point]) -> dict[Square, list[Point]]:
    """Points sorted into small squares, so that only near ones need be compared."""
    squares: dict[Square, list[Point]] = {}
    for q in points:
        squares.setdefault((q[0] // SQUARE, q[1] // SQUARE), []).append(q)
    return squares


def _all_land(way: Turn, points: Sequence[Point], on: dict[Square, list[Point]]) -> bool:
    """Whether the motion puts every point on one of the others."""
    for p in map(way, points):
        left, right = (p[0] - DRAWN) // SQUARE, (p[0] + DRAWN) // SQUARE
        top, bottom = (p[1] - DRAWN) // SQUARE, (p[1] + DRAWN) // SQUARE
        squares = {(left, top), (left, bottom), (right, top), (right, bottom)}
        if not any(same_place(p, q) for square in squares for q in on.get(square, ())):
            return False
    return True


def _marks(
    draft: Draft,
    tiling: Tiling,
    outlines: Mapping[str, tuple[Point, ...]],
    past: Mapping[str, int],
    fabrics: Mapping[str, Fabric],
) -> Marks:
    """Labelled points that tell a step: corners of its patches, the middle of each part and of each run,
    middles of its seams."""
    marks: dict[Label, list[Point]] = {}
    for pieces in draft.parts:
        corners: list[Point] = []
        for id in sorted(pieces):
            piece = tiling.piece(id)
            label: Label = ("piece", past.get(id, 0), piece.patch, piece.reversed, piece.fabric)
            marks.setdefault(label, []).extend(outlines[id])
            corners += outlines[id]
            upright = print_marks(piece, fabrics.get(piece.fabric))
            if upright:
                marks.setdefault(("print", *label), []).extend(upright)
        if len(draft.parts) > 2:  # of two parts the seam tells which piece is in which
            marks.setdefault(("part", len(pieces)), []).append(mean(corners))
    for stretch, by in zip(draft.stretches, draft.by, strict=True):
        middles = [middle(tiling.seam(seam).path) for seam in stretch.seams]
        marks.setdefault(("seam", by.value), []).extend(middles)
        if len(draft.parts) > 2:
            label = ("run", len(stretch.seams), len(stretch.turns))
            marks.setdefault(label, []).append(mean(middles))
    press, part = draft.declared.press, _wished_part(draft)
    if press is not None and part is not None:
        corners = [p for id in sorted(part) for p in outlines[id]]
        marks.setdefault(("press", press.kind.value), []).append(mean(corners))
    return {label: tuple(points) for label, points in marks.items()}


def _wished_part(draft: Draft) -> frozenset[str] | None:
    """The part toward or away from which the author wants the seams pressed."""
    press, names = draft.declared.press, draft.declared.join
    if press is None or press.of not in names or len(names) != len(draft.parts):
        return None
    return draft.parts[names.index(press.of)]


def print_marks(piece: PlacedPiece, fabric: Fabric | None) -> tuple[Point, ...]:
    """Points above (and for stripes below) the middle of a piece whose print has a direction."""
    return tuple(plus(mean(piece.outline.corners), way) for way in print_ways(fabric))


def print_ways(fabric: Fabric | None) -> tuple[Point, ...]:
    """The way from the middle of a piece to each mark of its print's direction; none where it has none."""
    if fabric is None or fabric.direction is Direction.ANY:
        return ()
    up, down = (0.0, -PRINT_MARK), (0.0, PRINT_MARK)
    return (up,) if fabric.direction is Direction.ONE_WAY else (up, down)


def _likeness(draft: Draft, marks: Marks) -> tuple[object, ...]:
    """What alike steps have in common whatever their place: kind, wishes, and the count of marks."""
    said = draft.declared
    press = said.press
    of = press.of if press is not None and _wished_part(draft) is None else None
    if of in said.join:
        of = str(
            said.join.index(of)
        )  # the end of a partial seam: both names stand for the one unit
    wanted = None if press is None else (press.kind.value, of)
    counts = tuple(sorted((repr(label), len(points)) for label, points in marks.items()))
    return (draft.kind, draft.level, said.ends, wanted, said.note, said.picture, said.titles, said.finish, said.leave is None, counts)  # fmt: skip


def _ends(
    draft: Draft, sewn: Mapping[str, SewnSeam], tiling: Tiling
) -> Iterator[tuple[str, Point, Point, End]]:
    """Both ends of each seam of a step: seam, the point, the seam's other point, how it ends."""
    for stretch in draft.stretches:
        for id in stretch.seams:
            seam, how = tiling.seam(id), sewn[id]
            if how.step == draft.n:
                yield id, seam.start, seam.end, how.ends[0]
                yield id, seam.end, seam.start, how.ends[1]


def _stopping(how: SewnSeam, at_start: bool) -> SewnSeam:
    """The seam with one more end at its point."""
    ends = (End.POINT, how.ends[1]) if at_start else (how.ends[0], End.POINT)
    return SewnSeam(how.seam, how.step, how.by, ends)


def _centre(marks: Marks) -> Point:
    """The mean of all marks."""
    return mean([p for there in marks.values() for p in there])


def middle(path: Sequence[Point]) -> Point:
    """The middle of a seam: of its path's middle points."""
    a, b = path[(len(path) - 1) // 2], path[len(path) // 2]
    return midpoint(a, b)


def _angle(a: Point, b: Point) -> float:
    return math.atan2(b[1] - a[1], b[0] - a[0])
