"""Floor 9: which steps of one card are pressed alike. Alike to sew is not alike to press: so that seams nest,
one of three pairs may be pressed the other way, and its card has to say so."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from booklet.geometry.tiling import Seam
from booklet.kit.outlines.plane import Point
from booklet.pattern import Fabric
from booklet.pressing.pressing import Pressing
from booklet.sewing.alike import Label, Marks, are_alike, middle, print_marks
from booklet.sewing.assembly import Step

ASIDE = 0.1  # inches from the middle of a seam to the mark of its direction


def pressed_alike(
    steps: Sequence[Step], pressing: Pressing, fabrics: Mapping[str, Fabric]
) -> tuple[tuple[Step, ...], ...]:
    """The steps of one card in groups that are pressed alike up to turning, that of the first one first."""
    groups: list[tuple[Marks, list[Step]]] = []
    for step in steps:
        marks = _marks(step, pressing, fabrics)
        group = next((g for theirs, g in groups if are_alike(marks, theirs)), None)
        if group is None:
            groups.append((marks, [step]))
        else:
            group.append(step)
    return tuple(tuple(group) for _, group in groups)


def _marks(step: Step, pressing: Pressing, fabrics: Mapping[str, Fabric]) -> Marks:
    """Labelled points: corners of the patches, the up of their prints, and where each seam is pressed."""
    tiling = pressing.assembly.tiling
    marks: dict[Label, list[Point]] = {}
    for id in step.pieces:
        piece = tiling.piece(id)
        label: Label = (piece.patch, piece.reversed, piece.fabric)
        marks.setdefault(label, []).extend(piece.outline.points)
        marks.setdefault(("print", *label), []).extend(
            print_marks(piece, fabrics.get(piece.fabric))
        )
    for id in dict.fromkeys(seam for run in step.runs for seam in run.seams):
        toward = pressing.pressed[id].toward
        marks.setdefault(("press", toward is None), []).append(_mark(tiling.seam(id), toward))
    return {label: tuple(points) for label, points in marks.items()}


def _mark(seam: Seam, toward: str | None) -> Point:
    """A point a little beside the middle of a seam, on the side to which it is pressed; on it if open."""
    x, y = middle(seam.path)
    if toward is None:
        return x, y
    (ax, ay), (bx, by) = seam.start, seam.end
    reach = ASIDE / math.dist(seam.start, seam.end)
    side = reach if toward == seam.between[0] else -reach  # the right-hand piece is the first
    return x - (by - ay) * side, y + (bx - ax) * side  # y grows downward
