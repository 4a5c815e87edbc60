"""Floor 10: a mitred corner of a border in three pictures, from the back: marked, sewn, pressed open.

Inches about the dot at which the seams of both strips stop: x to the right and y down, the top below and to the left of
it, as the upper left corner of the front is seen from the back.
"""

from __future__ import annotations

from collections.abc import Iterable

from booklet.drawing.ink.fills import wrong_side
from booklet.drawing.ink.svg import figure
from booklet.drawing.quilts.patchwork import all_pieces, trimmed
from booklet.drawing.scales import nearest_scale
from booklet.drawing.scene import Area, Figure, Ink, Item, Label, Line, Mark, Scene, Sign
from booklet.drawing.told import allowance_words
from booklet.drawing.viewport import View
from booklet.kit.outlines.plane import ORIGIN, Point, rectangle
from booklet.kit.records import Record
from booklet.kit.words import Phrase, listing, phrase, words_of
from booklet.pattern import Corners
from booklet.plan import SizePlan
from booklet.quilt.sized import BorderPlan

INSIDE = 0.8  # of what reaches past the dot: so much of the top is shown
GAP = 3.0  # mm between two pictures
NAMES = 9.0  # mm below them


class _Corner(Record):
    """A corner in inches: how far it is from the dot to the outer raw edge, how far the strips reach past the dot
    before they are trimmed (across, down), and the allowance."""

    outer: float
    across: float
    down: float
    allowance: float

    @property
    def past(self) -> float:
        """How far anything reaches past the dot."""
        return max(self.across, self.down, self.outer)

    @property
    def inside(self) -> float:
        """How much of the top is shown."""
        return INSIDE * self.past

    @property
    def reach(self) -> float:
        """How wide and high all that is shown is."""
        return self.past + self.inside

    @property
    def strip(self) -> tuple[Point, ...]:
        """The level strip with its allowances, as it is sewn on."""
        return (
            (-self.inside, -self.outer), (self.across, -self.outer),
            (self.across, self.allowance), (-self.inside, self.allowance),
        )  # fmt: skip


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
        f"{size.size.id}-mitre", (width, bottom + NAMES), items, phrase("A mitered corner"), _told()
    )
    return figure(scene, listing((_caption(size, border), scale.caption), "sentences"))


def _mitred(size: SizePlan) -> BorderPlan | None:
    """The widest border with mitres, of equals the outer one."""
    found = [b for b in size.quilt.borders if b.corners is Corners.MITRED]
    return max(found, key=lambda b: (b.sides, b.number), default=None)


def _corner(size: SizePlan, border: BorderPlan) -> _Corner:
    """The measures of its corners: a strip is cut longer than its side by as much at either end. That is shown to the
    nearest quarter of an inch, so that rulers in inches and in centimetres have one picture."""
    allowance = float(size.pattern.allowance)
    wide = float(border.sides)
    ends, sides = float(border.lengths[0]), float(border.lengths[-1])
    return _Corner(
        outer=wide + allowance,
        across=round(2 * (ends - float(border.outside[0]))) / 4 + wide,
        down=round(2 * (sides - float(border.outside[1]))) / 4 + wide,
        allowance=allowance,
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
    o, s, far = c.outer, c.allowance, c.inside
    return [
        _cloth(
            view,
            (*c.strip[:3], (0.0, s), (0.0, far), (-far, far)),
            ((-s, -c.down), (o, -c.down), (o, far), (-s, far)),
        ),
        *_context(lines, view),
        _line(view, Ink.CUT, (-far, -o), (-s, -o)),
        _line(view, Ink.CUT, (o, -o), *c.strip[1:3], (o, s)),
        _line(view, Ink.CUT, (-far, s), (-s, s)),
        _line(view, Ink.CUT, (-s, far), (-s, -c.down), (o, -c.down), (o, far)),
        _line(view, Ink.SEWN, (-far, 0.0), ORIGIN, (0.0, far)),
        _line(view, Ink.SEAM_LINE, ORIGIN, (o, -o)),
        _dot(view),
    ]


def _sewn(c: _Corner, lines: tuple[tuple[Point, ...], ...], view: View) -> list[Item]:
    """The top folded through the dot, one strip upon the other, and the seam from the dot outward."""
    s, far = c.allowance, c.inside
    half = (-far, s), (-s, s), (-far, far)
    return [
        _cloth(view, c.strip, half),
        *_context((trimmed(points, half) for points in lines), view),
        _line(view, Ink.CUT, *c.strip),
        _line(view, Ink.FOLD, ORIGIN, (-far, far)),
        _line(view, Ink.SEWN, (-far, 0.0), ORIGIN),
        _line(view, Ink.MACHINE, ORIGIN, (c.outer, -c.outer)),
        _dot(view),
    ]


def _pressed(c: _Corner, lines: tuple[tuple[Point, ...], ...], view: View) -> list[Item]:
    """The corner laid flat, trimmed, with the allowances of its seam to either side."""
    o, s, far = c.outer, c.allowance, c.inside
    lean = s * 2**0.5
    flap = (-s, 0.0), (-s, s - lean), (o - lean, -o)
    middle, away = (o / 2, -o / 2), o / 3
    tips = ((middle[0] + way * away, middle[1] + way * away) for way in (-1, 1))
    return [
        _cloth(view, ((-far, -o), (o, -o), (o, far), (-far, far))),
        *_context(lines, view),
        *(_line(view, Ink.CUT, *edge) for edge in (flap, _across(flap))),
        _line(view, Ink.CUT, (-far, -o), (o, -o), (o, far)),
        _line(view, Ink.SEWN, (-far, 0.0), ORIGIN, (0.0, far)),
        _line(view, Ink.SEWN, ORIGIN, (o, -o)),
        *(Line(points=view.put((middle, tip)), ink=Ink.ARROW, end_arrow=True) for tip in tips),
        _dot(view),
    ]


def _across(points: tuple[Point, ...]) -> tuple[Point, ...]:
    """The mirror image on the other side of the seam at 45 degrees."""
    return tuple((-y, -x) for x, y in reversed(points))


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
    return phrase(
        "A corner of border {n}, from the back. 1: rule a line at 45 degrees from the dot to the edge of both strips. "
        "2: fold the top through the dot, the strips right sides together, and sew from the dot outward. "
        "3: trim to {allowance} and press the seam open.",
        n=border.number,
        allowance=allowance_words(size),
    )


def _told() -> Phrase:
    return phrase(
        "A mitered corner from the back. 1: two strips, sewn on as far as a dot, cross beyond it; a line goes from the dot at 45 "
        "degrees to their outer edges. 2: the top is folded, one strip upon the other; the seam runs along the line. 3: the corner "
        "lies flat, with the allowances of its seam to either side."
    )
