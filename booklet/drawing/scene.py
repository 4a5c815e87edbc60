"""Floor 10, the records: a scene is positioned marks with nothing left to decide.

Lengths are millimetres on paper, x to the right and y down. `svg.py` walks a scene and writes it; it
takes no decision about sewing.
"""

from __future__ import annotations

from collections.abc import Iterable
from enum import Enum
from typing import Literal

from booklet.kit.outlines.plane import Point, plus
from booklet.kit.records import Record, replace


class Ink(Enum):
    """The kinds of line and mark; svg.py gives each its width, dash and colour."""

    PATCH = "patch"  # outline of a patch, 0.5 mm
    FINE = "fine"  # outline of a patch in a small picture, 0.25 mm, dark
    TONAL = "tonal"  # between patches of a picture in full colour: a shade of their own colour
    HAIR = "hair"  # between patches of a whole quilt, 0.13 mm
    CONTEXT = "context"  # outline of a patch that is only context, 0.25 mm
    RIM = "rim"  # outline of a whole block or quilt, 0.7 mm
    CUT = "cut"  # cut edge, 0.25 continuous
    SEAM_LINE = "seam line"  # seam line inside an allowance, 0.25 dashed
    MACHINE = "machine"  # machine seam of this step, continuous, heaviest
    HAND = "hand"  # hand seam of this step, short dashes, heaviest
    LATER = "later"  # the part of a partial seam that stays open
    THREAD = "thread"  # thread route
    BACK = "back"  # the thread on its way back over a seam, thin
    GUIDE = "guide"  # thin dashed guide between matching points
    FOLD = "fold"  # pressing crease
    ARROW = "arrow"  # pressing and turn arrows
    FAN = "fan"  # curved arrow about a fanned point
    GRAIN = "grain"  # grain arrow
    RULE = "rule"  # test squares, measures
    LEADER = "leader"  # from a label to its place
    SEWN = "sewn"  # a seam sewn earlier
    SELVEDGE = "selvedge"
    LEFTOVER = "leftover"
    OUTLINE = "outline"  # colouring page, 0.35 mm
    WRONG = "wrong"  # about an overlap, or a place that nothing covers
    MENDED = "mended"  # where a piece would lie if its fault were mended


class Fill(Record):
    """A cloth's look: colour, hatch number (0 none), tinted for context, or its wrong side."""

    colour: str
    hatch: int = 0
    tint: bool = False
    wrong_side: bool = False


class Area(Record):
    """Closed polygons of one look, filled and outlined; `points` is the first, `more` the others."""

    points: tuple[Point, ...]
    fill: Fill | None
    ink: Ink | None
    more: tuple[tuple[Point, ...], ...] = ()


class Line(Record, kw_only=True):
    """An open line; arrowheads at its start and end where asked; `halo` lifts it off a hatch."""

    points: tuple[Point, ...]
    ink: Ink
    start_arrow: bool = False
    end_arrow: bool = False
    halo: bool = False


class Mark(Enum):
    """A small sign at a point."""

    DOT = "dot"  # start, turn or matching point
    SMALL = "small"  # a matching point passed without turning
    STOP = "stop"  # a filled dot with a short bar across the seam
    OPEN = "open"  # an open circle: a partial seam, later
    OPENED = (
        "opened"  # two strokes that part: the end of an earlier seam, spread to let a corner in
    )
    CLIP = "clip"  # a stroke that forks: the allowance of an inner corner is clipped there
    THROUGH = "through"  # a dot in a ring: the needle passes through allowances
    BACKSTITCH = "backstitch"  # a short stroke beside the seam
    NEEDLE = "needle"
    BOX = "box"
    POINT = "point"  # a matching point of a template: a fine cross in a ring
    MIDDLE = "middle"  # a short bar across a curved seam: a mark along it
    CHEVRON = "chevron"  # from action to result


class Sign(Record):
    """A mark at a point; `angle` is the direction of the seam there, degrees clockwise from up."""

    at: Point
    mark: Mark
    angle: float = 0.0


Anchoring = Literal["start", "middle", "end"]


class Label(Record, kw_only=True):
    """A text; `at` is the middle of its height at its anchor, `size` in points.

    `anchor` is its begin, middle or end; `halo` lifts it off a hatch, `plate` sets it on a white disc;
    `muted` is grey; `turn` is in degrees clockwise about `at`. `of` are the places on the picture that it
    names, if it names any: it lies nearer to one of them than to any other, or has a leader to it.
    """

    at: Point
    text: str
    size: float = 8.0
    anchor: Anchoring = "middle"
    bold: bool = False
    halo: bool = False
    accent: bool = False
    turn: float = 0.0
    plate: bool = False
    muted: bool = False
    of: tuple[Point, ...] = ()


class Place(Record):
    """Where something lies on the picture: nothing is drawn. `of` are the keys of what it shows."""

    points: tuple[Point, ...]
    of: tuple[str, ...]


Item = Area | Line | Sign | Label | Place


def moved(item: Item, by: Point) -> Item:
    """A mark elsewhere."""
    if isinstance(item, Sign | Label):
        return replace(item, at=plus(item.at, by))
    points = tuple(plus(p, by) for p in item.points)
    if isinstance(item, Area):
        more = tuple(tuple(plus(p, by) for p in outline) for outline in item.more)
        return replace(item, points=points, more=more)
    return replace(item, points=points)


class Scene(Record, kw_only=True):
    """A picture: its size in mm, its marks from back to front, its title and its alternative text."""

    name: str  # unique in the booklet; ids in the SVG start with it
    width: float
    height: float
    items: tuple[Item, ...]
    title: str
    alt: str

    @classmethod
    def of(
        cls, name: str, size: tuple[float, float], items: Iterable[Item], title: str, alt: str
    ) -> Scene:
        """A picture of these marks, `size` its width and height."""
        return cls(
            name=name, width=size[0], height=size[1], items=tuple(items), title=title, alt=alt
        )


class PlaceOutline(Record):
    """A place of a finished picture: its outline as path data (as points it would take more room than the picture), and the keys of
    what it shows."""

    path: str
    of: tuple[str, ...]


class Figure(Record, kw_only=True):
    """A finished picture for the pages. `true_size` pictures are never scaled; `places` say what lies where."""

    name: str
    svg: str
    width_mm: float
    height_mm: float
    caption: str
    alt: str
    true_size: bool = False
    places: tuple[PlaceOutline, ...] = ()
