"""Floor 3: lays the applied shapes of a block on its ground, and says what cannot be sewn so.

What later shapes cover of an edge is left flat, all else is sewn down. An edge that lies just along a later one counts as
covered: the later shape's allowance, or its own flat one, lies there.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.geometry import overlay
from booklet.geometry.placing.paths import path_line
from booklet.geometry.placing.placing import LaidPiece, place_pieces
from booklet.geometry.placing.ribbons import tightest
from booklet.geometry.soundness.noding import TOO_CLOSE
from booklet.geometry.soundness.sites import Fault, LaidApplied
from booklet.geometry.words import length_words, place_words
from booklet.kit.diagnostic import Diagnostic, warning
from booklet.kit.measure import Length, UnitSystem
from booklet.kit.outlines.near import ONE_POINT, SAME_LENGTH
from booklet.kit.outlines.plane import Box, Point, box_of, length_of, overlap
from booklet.kit.records import replace
from booklet.kit.trade import LEAST_STEM
from booklet.pattern import Applied, Block, Shape

Points = Sequence[Point]
LEAST_SEEN = 0.02  # of the area of a shape: less to be seen of it is none


def lay_applied(
    block: Block, unit: Length, units: UnitSystem, edge: Points
) -> tuple[tuple[LaidApplied, ...], tuple[Fault, ...]]:
    """The shapes of a block whose outline is `edge`, in the order they are laid, and the faults found."""
    if not block.applied:
        return (), ()
    laid, placing = place_pieces(
        replace(block, pieces=tuple(each.piece for each in block.applied)), unit, units
    )
    faults = [Fault(key=(d.code, d.span), diagnostic=_renamed(d)) for d in placing]
    faults += _bent(block, laid, unit, units)
    faults += () if faults else _crossed(block, laid, unit)
    if faults:
        return (), tuple(faults)
    entry = {id: n for n, each in enumerate(block.applied) for id, _ in each.piece.members()}
    outlines = [piece.outline.points for piece in laid]
    above = _above(outlines)
    shapes = []
    for n, piece in enumerate(laid):
        covered, seen = overlay.covered_stretches(outlines[n], above[n])
        of = entry[piece.id]
        shapes.append(
            LaidApplied(
                laid=piece,
                written=block.applied[of],
                entry=of,
                seen=seen,
                covered=covered,
                **_stem(piece.piece.shape, unit),
            )
        )
    faults += _outside(block, laid, edge, units)
    faults += _hidden(block, laid, above)
    faults += _tight(block, shapes, unit, units)
    faults += _narrow(block, laid, unit, units)
    return tuple(shapes), tuple(faults)


def _renamed(found: Diagnostic) -> Diagnostic:
    """A fault of placing, which speaks of pieces."""
    return replace(found, message=found.message.replace("piece `", "applied shape `", 1))


def _once(block: Block, laid: Sequence[LaidPiece]) -> Iterator[tuple[int, LaidPiece]]:
    """The shapes, of copies in a ring only the first."""
    told = set()
    for n, piece in enumerate(laid):
        if piece.span not in told:
            told.add(piece.span)
            yield n, piece


def _crossed(block: Block, laid: Sequence[LaidPiece], unit: Length) -> Iterator[Fault]:
    """Outlines that cross themselves."""
    for _, piece in _once(block, laid):
        at = overlay.crossing_place(piece.outline.points)
        if at is not None:
            yield _fault(
                block,
                "crossed-shape",
                piece,
                f"applied shape `{piece.id}` of block `{block.id}` crosses or touches itself near "
                f"{place_words(at, unit)}",
                "draw its outline as one line round it, without loops"
                if piece.piece.shape.stem is None
                else "end its line a little before it meets itself, under a shape laid later, or draw two stems",
            )


def _outside(
    block: Block, laid: Sequence[LaidPiece], edge: Points, units: UnitSystem
) -> Iterator[Fault]:
    """Shapes that reach over the edge of the block."""
    for piece in laid:
        beyond = overlay.reach_beyond(piece.outline.points, edge)
        if beyond > TOO_CLOSE:
            yield _fault(
                block,
                "outside-block",
                piece,
                f"applied shape `{piece.id}` reaches {length_words(beyond, units)} beyond the edge of block "
                f"`{block.id}`",
                "move it inwards, make it smaller, or make the block larger",
            )


def _above(outlines: Sequence[Points]) -> list[list[Points]]:
    """For each outline the later ones that may lie on it, by the boxes round them."""
    boxes = [box_of(points) for points in outlines]
    return [
        [
            outlines[m]
            for m in range(n + 1, len(outlines))
            if overlap(_widened(boxes[n]), _widened(boxes[m]))
        ]
        for n in range(len(outlines))
    ]


def _widened(box: Box) -> Box:
    """A box a hair larger, so that what only touches it overlaps it."""
    return box[0] - SAME_LENGTH, box[1] - SAME_LENGTH, box[2] + SAME_LENGTH, box[3] + SAME_LENGTH


def _hidden(
    block: Block, laid: Sequence[LaidPiece], above: Sequence[Sequence[Points]]
) -> Iterator[Fault]:
    """Shapes of which later ones leave nothing to be seen; of copies in a ring the others follow from the first."""
    told = set()
    for n, piece in enumerate(laid):
        points = piece.outline.points
        if not above[n]:
            continue
        seen = sum(overlay.area(part) for part in overlay.difference(points, above[n]))
        if seen < LEAST_SEEN * overlay.area(points):
            fault = _fault(
                block,
                "hidden-shape",
                piece,
                f"applied shape `{piece.id}` of block `{block.id}` lies wholly under later ones",
                "write it further down in `applied`, move it, or take it out",
            )
            cause = f"hidden shape of block {block.id}, line {piece.span.line}"
            of_ring = replace(fault.diagnostic, cause=cause, follows=piece.span in told)
            told.add(piece.span)
            yield replace(fault, diagnostic=of_ring)


def _tight(
    block: Block, shapes: Sequence[LaidApplied], unit: Length, units: UnitSystem
) -> Iterator[Fault]:
    """Warnings for edges that can hardly be turned under so far: notches and shapes narrower than two allowances."""
    for n, piece in _once(block, [shape.laid for shape in shapes]):
        allowance = shapes[n].written.allowance
        if allowance is None or shapes[n].stem_width:
            continue
        by = float(allowance)
        where, what = overlay.notch(piece.outline.points, by), "has a notch or an inward curve"
        if where is None:
            where, what = overlay.thin_place(piece.outline.points, by), "is"
        if where is not None:
            yield _warning(
                block,
                "tight-allowance",
                piece,
                f"applied shape `{piece.id}` of block `{block.id}` {what} too tight near "
                f"{place_words(where, unit)} for an allowance of {length_words(by, units)} on either side",
                "write a smaller `allowance`, clip it there while sewing, or leave the edge raw (`allowance: none`)",
            )


def _stem(shape: Shape, unit: Length) -> dict[str, float]:
    """How wide and how long a stem is; nothing of any other shape."""
    if shape.stem is None or shape.outline is None:
        return {}
    line = path_line(shape.outline, float(unit))
    return {"stem_width": shape.stem.inches(unit), "stem_length": length_of(line)}


def _bent(
    block: Block, laid: Sequence[LaidPiece], unit: Length, units: UnitSystem
) -> Iterator[Fault]:
    """Stems that bend more tightly than a strip of their width can lie."""
    for _, piece in _once(block, laid):
        shape = piece.piece.shape
        if shape.stem is None or shape.outline is None:
            continue
        width, bend = shape.stem.inches(unit), tightest(path_line(shape.outline, float(unit)))
        if bend is not None and bend[1] < 0.98 * width / 2:
            near = place_words(bend[0], unit)
            yield _fault(
                block,
                "tight-stem",
                piece,
                f"stem `{piece.id}` of block `{block.id}` bends with a radius of {length_words(round(bend[1], 2), units)} near "
                f"{near}, less than half its width of {length_words(width, units)}"
                if bend[1]
                else f"stem `{piece.id}` of block `{block.id}` turns a corner near {near}, round which no strip lies flat",
                "draw the bend wider, make the stem narrower, or let two stems meet there",
            )


def _narrow(
    block: Block, laid: Sequence[LaidPiece], unit: Length, units: UnitSystem
) -> Iterator[Fault]:
    """Warnings for stems too narrow to be folded."""
    least = LEAST_STEM.said_in(units)
    for _, piece in _once(block, laid):
        stem = piece.piece.shape.stem
        if stem is not None and stem.inches(unit) < float(least) - ONE_POINT:
            yield _warning(
                block,
                "narrow-stem",
                piece,
                f"stem `{piece.id}` of block `{block.id}` is {length_words(stem.inches(unit), units)} wide; narrower than "
                f"{length_words(float(least), units)} a strip can hardly be folded",
                "make it wider, or draw it as a shape with `allowance: none`",
            )


def _fault(block: Block, code: str, piece: LaidPiece, message: str, hint: str) -> Fault:
    found = Diagnostic(code=code, message=message, span=piece.span, hint=hint)
    return Fault(key=(block.id, code, piece.id), diagnostic=found)


def _warning(block: Block, code: str, piece: LaidPiece, message: str, hint: str) -> Fault:
    found = warning(code, message, piece.span, hint)
    return Fault(key=(block.id, code, piece.id), diagnostic=found)


def kind_of(written: Applied) -> object:
    """What shapes must have in common to be cut by one template, beside their outline."""
    return written.allowance, written.title, written.piece.shape.stem
