"""Floor 10: how large steps are drawn: each where it fits and is easily read, and those of one block at as few scales
as that allows, so that a patch is as large on one card as on the next."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import cached_property

from booklet.drawing.lettering.labels import SMALLEST, plate_radius
from booklet.drawing.scales import Scale, nearest_scale
from booklet.drawing.steps.frame_strip import (
    MORE_ROWS,
    StripPart,
    least_panels,
    may_fit,
    panels,
    strip_fits,
    strip_parts,
)
from booklet.drawing.steps.step_parts import LETTER, LETTER_CLEAR, PartsApart, parts_apart, whole
from booklet.drawing.steps.units import exploded, parts_of, shorter_side
from booklet.drawing.told import piece_letter
from booklet.kit.outlines.near import NOISE
from booklet.kit.outlines.plane import around
from booklet.kit.outlines.polygon import roomiest
from booklet.kit.records import Record, field
from booklet.kit.words import Speaker
from booklet.plan import BlockPlan
from booklet.plan.cards.frames import is_framed, is_in_place
from booklet.sewing.assembly import Step

MARGIN = 5.0  # mm about either half, for numbers and runs into the allowance
BETWEEN = 5.0  # mm between action and result
LEAST_GAP = 4.6  # mm between parts that stand apart
TALLEST = 84.0  # mm: no picture of a step is higher
LEAST_UNIT = 28.0  # mm: what a step makes is drawn at least so long where there is room
LEAST_SEAM = 7.5  # mm: so is the shortest seam of a step
FRAME_SEAM = 9.0  # mm: and of one in frames, where needle and numbers stand about it
SMALLER = 4 / 3  # so much smaller frames in several rows may be drawn for the words below them
PLACE_SEAM = 11.0  # mm: and where many parts lie in place, with numbers on both sides of it


class StepScales(Record, kw_only=True, dict=True):
    """How large one step may be drawn where pictures are `tallest` mm high at most, and frames in several rows no higher than
    what its words leave, if they can still be read then. Its parts are set apart once, and every scale is tried on them."""

    block: BlockPlan
    step: Step
    tallest: float
    speaker: Speaker
    left: float = math.inf  # mm on its page
    known: dict[tuple[float, int, float], Scale] = field(default_factory=dict)
    """By width, rows, and how high all rows may be together."""

    def fitting(self, width: float) -> Scale:
        """The largest scale of the ladder at which all of the picture fits. Frames stand in one row if they are easily
        read so, else in several."""
        one = self.in_a_row(width)
        if not self._framed:
            return one
        if self._shortest * one.mm_per_inch >= FRAME_SEAM:
            return one
        most = self.tallest * MORE_ROWS
        alone = self._in_rows(width, 99, most)
        with_words = self._in_rows(width, 99, max(self.tallest, min(most, self.left)))
        return with_words if with_words.of <= alone.of * SMALLER else alone

    def in_a_row(self, width: float) -> Scale:
        """The largest scale at which all frames fit beside each other, or the two halves."""
        return self._in_rows(width, 1, self.tallest)

    def best_width(self, widths: Sequence[float]) -> float:
        """The first of `widths` (mm) in which the picture is easily read, else the last."""
        for width in widths[:-1]:
            if self.fitting(width).mm_per_inch >= self._easily_read:
                return width
        return widths[-1]

    def narrowest(self, scale: Scale, widths: Sequence[float]) -> float:
        """The first of `widths` (mm) in which the picture fits at a scale, frames in no more rows for it, else the last."""
        for width in widths[:-1]:
            if self.in_a_row(width).of <= scale.of:
                return width
        return widths[-1]

    def _in_rows(self, width: float, most: int, together: float) -> Scale:
        """The largest scale at which the frames fit in so many rows at most, all `together` so many mm high."""
        found = self.known.get((width, most, together))
        if found is None:
            fits = self._frames_fit if self._framed else self._halves_fit
            hopeless = self._framed and not self._may_fit(0.0, width, most, together)
            found = nearest_scale(lambda scale: not hopeless and fits(scale, width, most, together))
            self.known[width, most, together] = found
        return found

    def _frames_fit(self, scale: float, width: float, most: int, together: float) -> bool:
        if not self._may_fit(scale, width, most, together):
            return False
        row = panels(self._strip, gap_at(self._shorter, scale), scale)
        return strip_fits(row, width, self.tallest, most, together)

    def _may_fit(self, scale: float, width: float, most: int, together: float) -> bool:
        """Whether frames may fit by what is cheap to ask; at no scale their words and margins alone."""
        return may_fit(least_panels(self._strip, scale), width, self.tallest, most, together)

    def _halves_fit(self, scale: float, width: float, *_rows: float) -> bool:
        gap = gap_at(self._shorter, scale)
        left, right = (half.box(gap, scale) for half in self._halves)
        across = (left[2] - left[0]) + (right[2] - right[0]) + 4 * MARGIN + BETWEEN
        down = max(left[3] - left[1], right[3] - right[1]) + 2 * MARGIN
        return across <= width and down <= self.tallest

    @cached_property
    def _framed(self) -> bool:
        return is_framed(self.step, self.block.assembly)

    @cached_property
    def _strip(self) -> tuple[StripPart, ...]:
        return strip_parts(self.block, self.step, self.speaker)

    @cached_property
    def _halves(self) -> tuple[PartsApart, PartsApart]:
        """The parts of the step, and what it makes."""
        apart = parts_apart(self.block, exploded(self.block.assembly, self.step, 1.0))
        return apart, whole(self.block, self.step)

    @cached_property
    def _shorter(self) -> float:
        return shorter(self.block, self.step)

    @cached_property
    def _shortest(self) -> float:
        """The length in inches of the shortest seam."""
        seams = [self.block.tiling.seam(id) for run in self.step.runs for id in run.seams]
        return min((seam.length for seam in seams), default=math.inf)

    @cached_property
    def _easily_read(self) -> float:
        """The mm per inch from which on it is easily read: what it makes is at least LEAST_UNIT mm long on paper, and no
        seam of it is shorter than LEAST_SEAM mm."""
        left, top, right, bottom = around(
            self.block.tiling.piece(id).outline.box for id in self.step.pieces
        )
        in_place = is_in_place(self.step, self.block.assembly)
        least = FRAME_SEAM if self._framed else PLACE_SEAM if in_place else LEAST_SEAM
        return max(LEAST_UNIT / max(right - left, bottom - top), least / self._shortest)

    def least(self, most: Scale) -> float:
        """The least mm per inch at which it is easily read, and every letter is as large as at the scale `most`."""
        least = [self._easily_read]
        for id in self.step.pieces:
            piece = self.block.tiling.piece(id)
            room = roomiest(piece.outline.points)[1]
            size = LETTER
            while size >= SMALLEST:
                needed = (plate_radius(piece_letter(piece), size) + LETTER_CLEAR) / room
                if needed <= most.mm_per_inch:
                    least.append(needed)
                    break
                size -= 0.5
        return min(max(least) - NOISE, most.mm_per_inch)


class _Range(Record):
    """The scales at which a step may be drawn: from the `least` mm per inch at which it is easily read and loses no letter
    to the `most` that fits on the page; `best` is the one it would have alone."""

    least: float
    best: Scale
    most: Scale


def shared_scales(
    steps: Sequence[StepScales], widths: Sequence[float], widest: float
) -> tuple[Scale, ...]:
    """The scales of all steps of a block: as few as may be. Alone, their pictures would be `widths` mm wide; they may be
    as wide as `widest`.

    The step that must be drawn smallest takes with it all that can be read at its largest scale, and so on with the rest.
    """
    scales: dict[int, Scale] = {}
    ranges = [_range(step, width, widest) for step, width in zip(steps, widths, strict=True)]
    while left := {n: range for n, range in enumerate(ranges) if n not in scales}:
        here = max(range.most.of for range in left.values())
        group = {n: one for n, one in left.items() if one.least <= Scale(here).mm_per_inch}
        scales |= dict.fromkeys(group, _common(tuple(group.values())))
    return tuple(scales[n] for n in range(len(ranges)))


def _range(step: StepScales, width: float, widest: float) -> _Range:
    """The scales at which a step may be drawn: alone in the first of two widths, at most in the second."""
    best, most = step.fitting(width), step.fitting(widest)
    return _Range(step.least(best), best, min(best, most, key=lambda scale: scale.of))


def _common(group: Sequence[_Range]) -> Scale:
    """The scale at which all of a group can be read: the smallest that one of them would have alone, if it is not too
    small for another, else the next."""
    least, most = max(one.least for one in group), max(one.most.of for one in group)
    had = {one.best.of for one in group if one.best.of >= most} | {most}
    return max((Scale(of) for of in had if Scale(of).mm_per_inch >= least), key=lambda s: s.of)


def shorter(block: BlockPlan, step: Step) -> float:
    """The shorter side in inches of the smaller part of a step, by which its parts stand apart; 0 where they lie in place."""
    if is_in_place(step, block.assembly):
        return 0.0
    return min(shorter_side(block.tiling, pieces) for _, pieces in parts_of(block.assembly, step))


def gap_at(shorter: float, scale: float) -> float:
    """The gap in inches: 0.16 of the shorter side of the smaller part, at least LEAST_GAP on paper; none for 0."""
    return shorter and min(max(0.16 * shorter * scale, LEAST_GAP), 12.0) / scale
