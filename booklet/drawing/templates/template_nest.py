"""Floor 10: templates nested on pages. Each is laid where its lowest edge ends highest on the page, in the
best of its four quarter turns, its outline kept clear of the others.

Outlines are held as cells of a grid: a cell belongs to a template if its centre lies within half the space
between templates, and half a cell's diagonal, of the outline. Where no cell is shared, the outlines are
that space apart, for the middle of any shorter gap would lie in a cell of both. All free places on a page
are found at once, by a correlation of its cells with those of the template.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache
from typing import Any

import numpy as np

from booklet.drawing.templates.template_layout import SPACE, Template, TemplateSpot
from booklet.kit.outlines.near import NOISE, NOTHING
from booklet.kit.outlines.plane import Point, box_of, corners
from booklet.kit.outlines.polygon import edges
from booklet.kit.records import Mutable, Record

CELL = 2.0  # mm
REACH = SPACE / 2 + CELL * math.sqrt(0.5)
ROUND = 12  # cells
OPEN = 3  # pages that are still looked at for room


class TurnedTemplate(Record):
    """A template as turned for the page, with the cells it needs; cell (0, 0) begins `off` mm to the left
    of and above its corner."""

    template: Template
    width: float
    height: float
    cells: Any


class NestPage(Mutable):
    """A page being filled: what lies on it, and the cells that are taken, with their spectrum."""

    spots: list[TemplateSpot]
    taken: Any
    spectrum: Any = None

    def free(self, cells: Any) -> Any:
        """For each place of the corner cell whether the cells are free there."""
        # cells that nothing takes, up to a round number of them: a prime number takes several times as long
        shape = tuple(-(-side // ROUND) * ROUND for side in self.taken.shape)
        if self.spectrum is None:
            self.spectrum = np.fft.rfft2(self.taken, shape)
        shared = np.fft.irfft2(self.spectrum * np.conj(np.fft.rfft2(cells, shape)), shape)
        return shared < 0.5


OFF = math.ceil(REACH / CELL) * CELL


def nested(
    templates: Sequence[Template], width: float, height: float
) -> tuple[tuple[tuple[TemplateSpot, ...], ...], tuple[Template, ...]]:
    """Templates page by page in a room of `width` x `height` mm, the largest first; and those too large."""
    pages: list[NestPage] = []
    large: list[Template] = []
    for template in sorted(templates, key=lambda t: (-round(_reach(t), 3), t.letter)):
        ways = [way for way in _ways(template) if way.width <= width and way.height <= height]
        if not ways:
            large.append(template)
            continue
        spot = next(
            (
                spot
                for page in pages[-OPEN:]
                if (spot := _put(page, ways, width, height)) is not None
            ),
            None,
        )
        if spot is None:
            shape = tuple(math.ceil((side + 2 * OFF) / CELL) + 1 for side in (height, width))
            pages.append(NestPage([], np.zeros(shape)))
            if _put(pages[-1], ways, width, height) is None:
                raise AssertionError("an empty page has room for a template that is small enough")
    order = {t.letter: n for n, t in enumerate(templates)}
    return (
        tuple(tuple(page.spots) for page in pages),
        tuple(sorted(large, key=lambda t: order[t.letter])),
    )


def _reach(template: Template) -> float:
    """The longer side of a template's box."""
    _, _, right, low = box_of(template.cut)
    return max(right, low)


def _ways(template: Template) -> list[TurnedTemplate]:
    """The template in its quarter turns; those that need the same cells only once."""
    found: list[TurnedTemplate] = []
    for _ in range(4):
        wide, high = template.width, template.height
        cells = _cells(template.cut, wide, high)
        if not any(np.array_equal(cells, other.cells) for other in found):
            found.append(TurnedTemplate(template, wide, high, cells))
        template = template.turned()
    return found


@lru_cache(64)  # a booklet has its templates in every edition, and lays them out anew in each
def _cells(cut: tuple[Point, ...], wide: float, high: float) -> Any:
    """The cells within REACH of the cutting line, of what it encloses and of words below it."""
    columns, rows = (math.ceil((side + 2 * OFF) / CELL) for side in (wide, high))
    x = (np.arange(columns) + 0.5) * CELL - OFF
    y = (np.arange(rows) + 0.5) * CELL - OFF
    cells = _near(cut, x[None, :], y[:, None])
    bottom = box_of(cut)[3]
    if high > bottom + NOISE:
        words = corners((0.0, bottom, wide, high))
        cells |= _near(words, x[None, :], y[:, None])
    return cells.astype(float)


def _near(outline: Sequence[Point], x: Any, y: Any) -> Any:
    """Whether points lie inside an outline or within REACH of it."""
    inside = np.zeros(np.broadcast(x, y).shape, dtype=bool)
    near = inside.copy()
    for (ax, ay), (bx, by) in edges(outline):
        dx, dy = bx - ax, by - ay
        square = dx * dx + dy * dy
        if square < NOTHING:
            continue
        # only the cells about a side can lie near to it, and only those level with it see it
        columns, rows = _cells_about(ax, bx), _cells_about(ay, by)
        column, row = x[:, columns], y[rows]
        along = np.clip(((column - ax) * dx + (row - ay) * dy) / square, 0.0, 1.0)
        gap = np.hypot(column - ax - along * dx, row - ay - along * dy)
        near[rows, columns] |= gap <= REACH
        if dy:
            level = (ay > row) != (by > row)
            inside[rows] ^= level & (x < ax + (row - ay) * dx / dy)
    return inside | near


def _cells_about(one: float, other: float) -> slice:
    """The cells in a row or column whose middles lie between two lengths or little more than REACH beside."""
    first, last = (one, other) if one < other else (other, one)
    beside = REACH + CELL + OFF
    return slice(max(0, int((first + OFF - REACH) / CELL) - 1), int((last + beside) / CELL) + 1)


def _put(
    page: NestPage, ways: Sequence[TurnedTemplate], width: float, height: float
) -> TemplateSpot | None:
    """Lay a template on a page where it ends highest, then farthest to the left; None without room."""
    best: tuple[float, float, int, TurnedTemplate, int, int] | None = None
    for number, way in enumerate(ways):
        rows = int((height - way.height) / CELL + NOISE) + 1
        columns = int((width - way.width) / CELL + NOISE) + 1
        free = np.argwhere(page.free(way.cells)[:rows, :columns])
        if not len(free):
            continue
        row, column = (int(part) for part in free[0])  # the highest, and of those the leftmost
        score = (row * CELL + way.height, column * CELL + way.width, number, way, row, column)
        if best is None or score[:3] < best[:3]:
            best = score
    if best is None:
        return None
    way, row, column = best[3:]
    tall, wide = way.cells.shape
    page.taken[row : row + tall, column : column + wide] += way.cells
    page.spectrum = None
    page.spots.append(TemplateSpot(way.template, (column * CELL, row * CELL)))
    return page.spots[-1]
