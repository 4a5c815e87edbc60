"""Floor 3: says what an outline is (square, kite, elongated hexagon), by asking the forms."""

from __future__ import annotations

from booklet.crafts.figure import FlatOutline, curved_figure, figure_of
from booklet.crafts.form import Form
from booklet.crafts.forms import recognised
from booklet.geometry.tiling import Outline
from booklet.kit.outlines.plane import angle_up
from booklet.kit.records import Record


class Recognised(Record):
    """A form, a plain word for it, and its usual straight grain (degrees clockwise from up, below 180)."""

    form: Form
    name: str
    grain: float


def figure_in(outline: Outline) -> FlatOutline:
    """The figure of a clockwise outline."""
    if outline.is_curved:
        return curved_figure([side.points for side in outline.sides])
    return figure_of(outline.points)


def recognise(outline: Outline, grain: float | None) -> Recognised:
    """What a clockwise outline is; `grain` decides between half- and quarter-square triangles.

    Without a grain the usual one of the form is taken: for a right triangle with equal legs a short
    side, else a longest side.
    """
    figure = figure_in(outline)
    form, seen = recognised(figure, grain)
    side = figure.longest if seen.side is None else seen.side
    if figure.lines:
        line = figure.lines[side]
        return Recognised(form, seen.name, angle_up(line[0], line[-1]) % 180)
    return Recognised(form, seen.name, figure.ways[side] % 180)


def long_side(outline: Outline) -> float:
    """The direction of a longest side, degrees clockwise from up, below 180."""
    figure = figure_of(outline.points)
    return figure.ways[figure.longest] % 180
