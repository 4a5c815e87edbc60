"""Floor 10: a mitred corner of a border in three pictures, from the back: marked, sewn, pressed open.

Inches about the dot at which the seams of both strips stop: x to the right and y down, the top below and to the left of
it, as the upper left corner of the front is seen from the back.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from booklet.drawing.ink.fills import wrong_side
from booklet.drawing.ink.svg import figure
from booklet.drawing.quilts.patchwork import all_pieces, trimmed
from booklet.drawing.scales import nearest_scale
from booklet.drawing.scene import Area, Figure, Ink, Item, Label, Line, Mark, Scene, Sign
from booklet.drawing.told import allowance_words
from booklet.drawing.views import View
from booklet.kit.plane import ORIGIN, Point, rectangle
from booklet.pattern import Corners
from booklet.plan import SizePlan
from booklet.quilt.sized import BorderPlan
from booklet.words import Phrase, listing, phrase, words_of

INSIDE = 0.8  # of what reaches past the dot: so much of the top is shown
GAP = 3.0  # mm between two pictures
NAMES = 9.0  # mm below them


@dataclass(frozen=True, slots=True)
class _Corner:
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
        words = f"{n + 1}  {words_of(size.pattern.tongue).say(name)}"
        at = (view.at((-corner.inside, 0.0))[0], bottom + 5)
        items.append(Label(at=at, text=words, size=7.5, anchor="start"))
    scene = Scene(
        name=f"{size.size.id}-mitre",
        width=width,
        height=bottom + NAMES,
        items=tuple(items),
        title=phrase("A mitered corner"),
        alt=_told(),
    )
    return figure(scene, listing((_caption(size, border), scale.caption), "sentences"))


def _mitred(size: SizePlan) -> BorderPlan | None:
    """The widest border with mitres, of equals the outer one."""
    found = [b for b in size.quilt.borders if b.corners is Corners.MITRED]
    return max(found, key=lambda b: (b.width, b.number), default=None)


def _corner(size: SizePlan, border: BorderPlan) -> _Corner:
    """The measures of its corners: a strip is cut longer than its side by as much at either end."""
    allowance = float(size.pattern.allowance)
    wide = float(border.width)
    ends, sides = float(border.lengths[0]), float(border.lengths[-1])
    return _Corner(
        outer=wide + allowance,
        across=(ends - float(border.outside[0])) / 2 + wide,
        down=(sides - float(border.outside[1])) / 2 + wide,
        allowance=allowance,
    )


def _lines_of_the_top(
    size: SizePlan, border: BorderPlan, corner: _Corner
) -> tuple[tuple[Point, ...], ...]:
    """What lies inside the border as far as it is shown: the outlines of its patches and parts from the back."""
    assert size.quilt.finished is not None
    left = (float(size.quilt.finished[0]) - float(border.outside[0])) / 2 + float(border.width)
    top = (float(size.quilt.finished[1]) - float(border.outside[1])) / 2 + float(border.width)
    window = rectangle(left, top, corner.inside, corner.inside)
    pieces, _ = all_pieces(size)
    shown = (trimmed(points, window) for outlines in pieces.values() for points in outlines)
    return tuple(tuple((left - x, y - top) for x, y in points) for points in shown if points)


def _ground(corner: _Corner, view: View) -> Area:
    """The top from its back, as far as it is shown."""
    near = rectangle(-corner.inside, 0.0, corner.inside, corner.inside)
    return Area(view.put(near), wrong_side(), None)


def _context(lines: Iterable[tuple[Point, ...]], view: View) -> list[Item]:
    put = [view.put(points) for points in lines]
    return [Area(put[0], None, Ink.CONTEXT, tuple(put[1:]))] if put else []


def _marked(c: _Corner, lines: tuple[tuple[Point, ...], ...], view: View) -> list[Item]:
    """Both strips sewn on as far as the dot, and the line to sew on ruled on the upper one."""
    upright = (c.outer, c.inside), (c.outer, -c.down), (-c.allowance, -c.down), (-c.allowance, c.inside)  # fmt: skip
    items: list[Item] = [_ground(c, view), *_context(lines, view)]
    for strip in (c.strip, upright):
        items += [
            Area(view.put(strip), wrong_side(), None),
            Line(points=view.put(strip), ink=Ink.CUT),
        ]
    items.append(_line(view, Ink.SEWN, (-c.inside, 0.0), ORIGIN, (0.0, c.inside)))
    items.append(_line(view, Ink.SEAM_LINE, ORIGIN, (c.outer, -c.outer)))
    return [*items, _dot(view)]


def _sewn(c: _Corner, lines: tuple[tuple[Point, ...], ...], view: View) -> list[Item]:
    """The top folded through the dot, one strip upon the other, and the seam from the dot outward."""
    half = (-c.inside, 0.0), ORIGIN, (-c.inside, c.inside)
    folded = (trimmed(points, half) for points in lines)
    return [
        Area(view.put(half), wrong_side(), None),
        *_context((points for points in folded if points), view),
        Area(view.put(c.strip), wrong_side(), None),
        Line(points=view.put(c.strip), ink=Ink.CUT),
        _line(view, Ink.FOLD, ORIGIN, (-c.inside, c.inside)),
        _line(view, Ink.SEWN, (-c.inside, 0.0), ORIGIN),
        _line(view, Ink.MACHINE, ORIGIN, (c.outer, -c.outer)),
        _dot(view),
    ]


def _pressed(c: _Corner, lines: tuple[tuple[Point, ...], ...], view: View) -> list[Item]:
    """The corner laid flat, trimmed, with the allowances of its seam to either side."""
    o, s, far = c.outer, c.allowance, -c.inside
    lean = s * 2**0.5
    level = (far, 0.0), (far, -o), (o, -o), ORIGIN
    flap = ORIGIN, (-s, 0.0), (-s, s - lean), (o - lean, -o), (o, -o)
    items: list[Item] = [_ground(c, view), *_context(lines, view)]
    for side in (level, _across(level)):
        items.append(Area(view.put(side), wrong_side(), None))
    for side in (flap, _across(flap)):
        items.append(Area(view.put(side), wrong_side(), Ink.CUT))
    items.append(_line(view, Ink.CUT, (far, -o), (o, -o), (o, c.inside)))
    items.append(_line(view, Ink.SEWN, (far, 0.0), ORIGIN, (0.0, c.inside)))
    items.append(_line(view, Ink.SEWN, ORIGIN, (o, -o)))
    middle, away = (o / 2, -o / 2), o / 3
    for tip in ((middle[0] - away, middle[1] - away), (middle[0] + away, middle[1] + away)):
        items.append(Line(points=view.put((middle, tip)), ink=Ink.ARROW, end_arrow=True, halo=True))
    return [*items, _dot(view)]


def _across(points: tuple[Point, ...]) -> tuple[Point, ...]:
    """The mirror image on the other side of the seam at 45 degrees, clockwise again."""
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
        "A mitered corner from the back in three pictures. 1: two strips are sewn to the top as far as a dot, and cross "
        "beyond it; from the dot a line at 45 degrees goes to their outer edges. 2: the top is folded so that one strip "
        "lies on the other; the seam runs along the line, from the dot outward. 3: the corner lies flat, trimmed, and "
        "the two allowances of its seam lie to either side."
    )
