"""Floor 10: a mitred corner of a border in three pictures, from the back: marked, sewn, pressed open.

Inches about the dot at which the seams of both strips stop: x to the right and y down, the top below and to the left of
it, as the upper left corner of the front is seen from the back.
"""

from __future__ import annotations

import math
from collections.abc import Iterable

from booklet.drawing.ink.fills import wrong_side
from booklet.drawing.ink.svg import figure
from booklet.drawing.quilts.patchwork import all_pieces, trimmed
from booklet.drawing.scales import nearest_scale
from booklet.drawing.scene import Area, Figure, Ink, Item, Label, Line, Mark, Scene, Sign
from booklet.drawing.viewport import View
from booklet.kit.outlines.plane import ORIGIN, Point, rectangle
from booklet.kit.records import Record
from booklet.kit.words import Phrase, exactly, listing, phrase, words_of
from booklet.pattern import Corners
from booklet.plan import SizePlan
from booklet.quilt.sized import BorderPlan

INSIDE = 0.8  # of what reaches past the dot: so much of the top is shown
GAP = 3.0  # mm between two pictures
NAMES = 9.0  # mm below them


class _Corner(Record, kw_only=True):
    """A corner in inches: how wide the strips are finished (the level one `ends`, the upright one `sides`), how far both
    reach past the dot before they are trimmed (across, down), and the allowance."""

    sides: float
    ends: float
    across: float
    down: float
    allowance: float

    @property
    def out(self) -> float:
        """How far it is from the dot to the raw edge of the upright strip."""
        return self.sides + self.allowance

    @property
    def up(self) -> float:
        """How far it is from the dot to the raw edge of the level strip."""
        return self.ends + self.allowance

    @property
    def past(self) -> float:
        """How far anything reaches past the dot; of two widths also the strip that lies askew once the corner is folded."""
        askew = () if self.sides == self.ends else (math.hypot(self.out, self.down),)
        return max(self.across, self.down, self.out, self.up, *askew)

    @property
    def inside(self) -> float:
        """How much of the top is shown."""
        return INSIDE * self.past

    @property
    def reach(self) -> float:
        """How wide and high all that is shown is."""
        return self.past + self.inside

    @property
    def slant(self) -> Point:
        """The way of the mitre from the dot to the outer corner, one inch of it: at 45 degrees where both strips are as
        wide."""
        long = math.hypot(self.sides, self.ends)
        return self.sides / long, -self.ends / long

    def on_mitre(self, far: float) -> Point:
        """The point of the mitre, or of the line it lies on, so far from the dot."""
        return self.slant[0] * far, self.slant[1] * far

    @property
    def edge(self) -> Point:
        """Where the mitre ends at a raw edge."""
        return self.on_mitre(min(self.out / self.slant[0], self.up / -self.slant[1]))

    @property
    def crease(self) -> Point:
        """Where the fold of the top, which lies in one line with the mitre, leaves what is shown."""
        return self.on_mitre(-self.inside / max(self.slant[0], -self.slant[1]))

    @property
    def strip(self) -> tuple[Point, ...]:
        """The level strip with its allowances, as it is sewn on."""
        return (
            (-self.inside, -self.up), (self.across, -self.up),
            (self.across, self.allowance), (-self.inside, self.allowance),
        )  # fmt: skip

    @property
    def upright(self) -> tuple[Point, ...]:
        """The upright strip likewise."""
        return (
            (-self.allowance, -self.down), (self.out, -self.down),
            (self.out, self.inside), (-self.allowance, self.inside),
        )  # fmt: skip

    def folded(self, points: tuple[Point, ...]) -> tuple[Point, ...]:
        """An outline on the other side of the mitre, as it lies when the corner is folded there."""
        x, y = self.slant
        turned = ((2 * (a * x + b * y) * x - a, 2 * (a * x + b * y) * y - b) for a, b in points)
        return tuple(turned)[::-1]


def mitre_figure(size: SizePlan, width: float = 85.0) -> Figure | None:
    """The corner of the widest border with mitres; None where no border has them."""
    border = _mitred(size)
    if border is None:
        return None
    corner = _corner(size, border)
    scale = nearest_scale(lambda mm: corner.reach * mm <= (width - 2 * GAP) / 3)
    mm = scale.mm_per_inch
    level, bottom = corner.past * mm + 1, corner.reach * mm + 1
    lines = _lines_of_the_top(size, border, corner)
    items: list[Item] = []
    for n, (name, draw) in enumerate(STEPS):
        view = View(mm, (n * ((width - 2 * GAP) / 3 + GAP) + corner.inside * mm, level))
        items += draw(corner, lines, view)
        words = f"{n + 1} {words_of(size.pattern.tongue).say(name)}"
        at = (view.at((-corner.inside, 0.0))[0], bottom + 5)
        items.append(Label(at=at, text=words, size=7.5, anchor="start"))
    scene = Scene.of(
        f"{size.size.id}-mitre",
        (width, bottom + NAMES),
        items,
        phrase("A mitered corner"),
        _told(border),
    )
    return figure(scene, listing((_caption(size, border), scale.caption), "sentences"))


def _mitred(size: SizePlan) -> BorderPlan | None:
    """The widest border with mitres, of equals the outer one."""
    found = [b for b in size.quilt.borders if b.corners is Corners.MITRED]
    return max(found, key=lambda b: (max(b.widths), b.number), default=None)


def _corner(size: SizePlan, border: BorderPlan) -> _Corner:
    """The measures of its corners: a strip is cut longer than its side by as much at either end. That is shown to the
    nearest quarter of an inch, so that rulers in inches and in centimetres have one picture."""
    wide, high = float(border.sides), float(border.ends)
    ends, sides = float(border.lengths[0]), float(border.lengths[-1])
    return _Corner(
        sides=wide,
        ends=high,
        across=round(2 * (ends - float(border.outside[0]))) / 4 + wide,
        down=round(2 * (sides - float(border.outside[1]))) / 4 + high,
        allowance=float(size.pattern.allowance),
    )


def _lines_of_the_top(
    size: SizePlan, border: BorderPlan, corner: _Corner
) -> tuple[tuple[Point, ...], ...]:
    """What lies inside the border as far as it is shown: the outlines of its patches and parts from the back."""
    assert size.quilt.finished is not None
    wide, high = border.inside
    left = float(size.quilt.finished[0] - wide) / 2
    top = float(size.quilt.finished[1] - high) / 2
    deep = corner.inside - corner.allowance  # the strips' own allowances lie upon the rest
    window = rectangle(left + corner.allowance, top + corner.allowance, deep, deep)
    pieces, _ = all_pieces(size)
    shown = (trimmed(points, window) for outlines in pieces.values() for points in outlines)
    return tuple(tuple((left - x, y - top) for x, y in points) for points in shown if points)


def _cloth(view: View, *outlines: tuple[Point, ...]) -> Area:
    """Cloth from its back, without edges: where it is cut and where it just goes on is said by lines."""
    put = [view.put(points) for points in outlines]
    return Area(put[0], wrong_side(), None, tuple(put[1:]))


def _context(lines: Iterable[tuple[Point, ...]], view: View) -> list[Item]:
    """What lies in the top, pale."""
    put = [view.put(points) for points in lines if points]
    return [Area(put[0], None, Ink.CONTEXT, tuple(put[1:]))] if put else []


def _marked(c: _Corner, lines: tuple[tuple[Point, ...], ...], view: View) -> list[Item]:
    """Both strips sewn on as far as the dot, and the line to sew on ruled on the upper one."""
    out, up, s, far = c.out, c.up, c.allowance, c.inside
    corner: list[Item] = [] if c.sides == c.ends else [Sign(view.at((c.sides, -c.ends)), Mark.DOT)]
    return [
        _cloth(view, (*c.strip[:3], (0.0, s), (0.0, far), (-far, far)), c.upright),
        *_context(lines, view),
        _line(view, Ink.CUT, (-far, -up), (-s, -up)),
        _line(view, Ink.CUT, (out, -up), *c.strip[1:3], (out, s)),
        _line(view, Ink.CUT, (-far, s), (-s, s)),
        _line(view, Ink.CUT, (-s, far), *c.upright[:3]),
        _line(view, Ink.SEWN, (-far, 0.0), ORIGIN, (0.0, far)),
        _line(view, Ink.SEAM_LINE, ORIGIN, c.edge),
        _dot(view),
        *corner,
    ]


def _sewn(c: _Corner, lines: tuple[tuple[Point, ...], ...], view: View) -> list[Item]:
    """The top folded through the dot, one strip upon the other, and the seam from the dot outward. Strips of two widths lie
    askew to each other."""
    s, far = c.allowance, c.inside
    begins = (-s * c.slant[0] / -c.slant[1], s)
    below = [(-far, far)] if -c.slant[1] > c.slant[0] else []
    half = ((-far, s), begins, c.crease, *below)
    under = c.folded(((c.out, 0.0), (c.out, -c.down), (-s, -c.down), (-s, 0.0)))
    askew: list[Item] = (
        [_cloth(view, under), _line(view, Ink.CUT, *under)] if c.sides != c.ends else []
    )
    return [
        *askew,
        _cloth(view, c.strip, half),
        *_context((trimmed(points, half) for points in lines), view),
        _line(view, Ink.CUT, *c.strip),
        _line(view, Ink.FOLD, ORIGIN, c.crease),
        _line(view, Ink.SEWN, (-far, 0.0), ORIGIN),
        _line(view, Ink.MACHINE, ORIGIN, c.edge),
        _dot(view),
    ]


def _pressed(c: _Corner, lines: tuple[tuple[Point, ...], ...], view: View) -> list[Item]:
    """The corner laid flat, trimmed, with the allowances of its seam to either side."""
    out, up, s, far = c.out, c.up, c.allowance, c.inside
    cos, sin = c.slant[0], -c.slant[1]
    flaps = (
        ((-s, 0.0), (-s, (s * sin - s) / cos), ((up * cos - s) / sin, -up)),
        ((0.0, s), ((s - s * cos) / sin, s), (out, (s - out * sin) / cos)),
    )
    end = c.edge
    middle, away = (end[0] / 2, end[1] / 2), math.sqrt(2) * min(out, up) / 3
    tips = ((middle[0] + way * away * sin, middle[1] + way * away * cos) for way in (-1, 1))
    return [
        _cloth(view, ((-far, -up), (out, -up), (out, far), (-far, far))),
        *_context(lines, view),
        *(_line(view, Ink.CUT, *edge) for edge in flaps),
        _line(view, Ink.CUT, (-far, -up), (out, -up), (out, far)),
        _line(view, Ink.SEWN, (-far, 0.0), ORIGIN, (0.0, far)),
        _line(view, Ink.SEWN, ORIGIN, end),
        *(Line(points=view.put((middle, tip)), ink=Ink.ARROW, end_arrow=True) for tip in tips),
        _dot(view),
    ]


def _line(view: View, ink: Ink, *points: Point) -> Line:
    return Line(points=view.put(points), ink=ink)


def _dot(view: View) -> Sign:
    return Sign(view.at(ORIGIN), Mark.DOT)


STEPS = (
    (phrase("mark"), _marked),
    (phrase("sew"), _sewn),
    (phrase("press open"), _pressed),
)
"""The pictures in order, each with its name."""


def _caption(size: SizePlan, border: BorderPlan) -> Phrase:
    if border.sides != border.ends:
        return phrase(
            "A corner of border {n}, from the back. 1: mark the outer corner on both strips, and rule a line from the dot "
            "through it to the edge. 2: fold the top in line with it, so that both lines lie on each other, and sew from the "
            "dot outward. 3: trim to {allowance} and press the seam open.",
            n=border.number,
            allowance=exactly(size.pattern.allowance, size.pattern.units),
        )
    return phrase(
        "A corner of border {n}, from the back. 1: rule a line at 45 degrees from the dot to the edge of both strips. "
        "2: fold the top through the dot, the strips right sides together, and sew from the dot outward. "
        "3: trim to {allowance} and press the seam open.",
        n=border.number,
        allowance=exactly(size.pattern.allowance, size.pattern.units),
    )


def _told(border: BorderPlan) -> Phrase:
    if border.sides != border.ends:
        return phrase(
            "A mitered corner between two widths from the back. 1: two strips, sewn on as far as a dot, cross beyond it; a line "
            "goes from the dot through the outer corner of the border. 2: the top is folded, one strip upon the other and askew "
            "to it; the seam runs along the line. 3: the corner lies flat, with the allowances of its seam to either side."
        )
    return phrase(
        "A mitered corner from the back. 1: two strips, sewn on as far as a dot, cross beyond it; a line goes from the dot at 45 "
        "degrees to their outer edges. 2: the top is folded, one strip upon the other; the seam runs along the line. 3: the corner "
        "lies flat, with the allowances of its seam to either side."
    )
