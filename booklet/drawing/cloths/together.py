"""Floor 10: units made together, in three small pictures: what is sewn, where it is cut, the unit."""

from __future__ import annotations

from booklet.cutting.units.together_plan import Together, TogetherUnit
from booklet.drawing.ink.fills import Looks, wrong_side
from booklet.drawing.ink.svg import figure
from booklet.drawing.scene import Area, Figure, Fill, Ink, Item, Label, Line, Scene
from booklet.kit.plane import Point, rectangle
from booklet.plan import SizePlan
from booklet.words import phrase

HEAD = 5.0  # mm over each picture for its number
GAP = 9.0  # mm between pictures
SIDE = 21.0  # mm: the side of the square that is drawn largest
BESIDE = 1.3  # mm from a cut to the seam beside it: more than true to scale, so that it can be seen
TOLD = {
    Together.TWO: phrase(
        "Two squares right sides together with a diagonal line. Two seams beside the line. Cut on the line: two units."
    ),
    Together.FOUR: phrase(
        "Two squares right sides together, sewn all round near the edge. Cut on both diagonals: four units."
    ),
    Together.EIGHT: phrase(
        "Two squares right sides together with both diagonals drawn. Seams on both sides of each. Cut across the middle both ways and on the diagonals: eight units."
    ),
    Together.GEESE: phrase(
        "A large square with small squares on two opposite corners and a line from corner to corner. Seams on both sides of the line. Cut on the line, a small square on the last corner of each half, sewn and cut likewise: four units."
    ),
    Together.SQUARE: phrase(
        "A square with two triangles sewn to opposite sides. Two more on the other sides. The unit: a square within a square."
    ),
    Together.STRIPS: phrase(
        "Strips sewn together along their length and cut across into equal segments."
    ),
}


def together_figure(size: SizePlan, unit: TogetherUnit, looks: Looks) -> Figure:
    """How a kind of unit is made together: pictures numbered as the sentences of the page."""
    pictures = {
        Together.TWO: _two,
        Together.FOUR: _four,
        Together.EIGHT: _eight,
        Together.GEESE: _geese,
        Together.SQUARE: _square,
        Together.STRIPS: _strips,
    }[unit.how](unit, looks)
    x, items = 1.0, list[Item]()
    for number, (wide, drawn) in enumerate(pictures, 1):
        items.append(Label((x, 2.6), str(number), 9.0, "start", bold=True))
        items += [_moved(item, x, HEAD) for item in drawn]
        x += wide + GAP
    tall = max(_depth(item) for item in items) + 1.5
    title = phrase("Making {name}", name=unit.name)
    name = f"{size.size.id}-together-{unit.name.lower()}"
    scene = Scene(name, x - GAP + 1, tall, tuple(items), title, TOLD[unit.how])
    return figure(scene, title)


Picture = tuple[float, list[Item]]  # its width and its marks, from (0, 0)


def _two(unit: TogetherUnit, looks: Looks) -> list[Picture]:
    square = _pair(looks, unit)
    line = Line(((0.0, SIDE), (SIDE, 0.0)), Ink.GUIDE, halo=True)
    seams = _beside((0.0, SIDE), (SIDE, 0.0))
    cut = Line(((-1.5, SIDE + 1.5), (SIDE + 1.5, -1.5)), Ink.CUT, halo=True)
    return [
        (SIDE, [*square, line, *seams]),
        (SIDE, [*square, *seams, cut]),
        (SIDE * 0.8, _half_square(unit, looks, SIDE * 0.8)),
    ]


def _four(unit: TogetherUnit, looks: Looks) -> list[Picture]:
    square = _pair(looks, unit)
    b = BESIDE
    ring = ((b, b), (SIDE - b, b), (SIDE - b, SIDE - b), (b, SIDE - b), (b, b))
    seam = Line(ring, Ink.MACHINE, halo=True)
    cuts = [
        Line(((-1.5, -1.5), (SIDE + 1.5, SIDE + 1.5)), Ink.CUT, halo=True),
        Line(((-1.5, SIDE + 1.5), (SIDE + 1.5, -1.5)), Ink.CUT, halo=True),
    ]
    side = SIDE * 0.62
    return [
        (SIDE, [*square, seam]),
        (SIDE, [*square, seam, *cuts]),
        (side, _half_square(unit, looks, side)),
    ]


def _eight(unit: TogetherUnit, looks: Looks) -> list[Picture]:
    square = _pair(looks, unit)
    rising, falling = ((0.0, SIDE), (SIDE, 0.0)), ((0.0, 0.0), (SIDE, SIDE))
    lines = [Line(rising, Ink.GUIDE, halo=True), Line(falling, Ink.GUIDE, halo=True)]
    seams = [*_beside(*rising), *_beside(*falling)]
    half = SIDE / 2
    cuts = [
        Line(((-1.5, half), (SIDE + 1.5, half)), Ink.CUT, halo=True),
        Line(((half, -1.5), (half, SIDE + 1.5)), Ink.CUT, halo=True),
        Line(((-1.5, SIDE + 1.5), (SIDE + 1.5, -1.5)), Ink.CUT, halo=True),
        Line(((-1.5, -1.5), (SIDE + 1.5, SIDE + 1.5)), Ink.CUT, halo=True),
    ]
    side = SIDE * 0.45
    return [
        (SIDE, [*square, *lines, *seams]),
        (SIDE, [*square, *seams, *cuts]),
        (side, _half_square(unit, looks, side)),
    ]


def _geese(unit: TogetherUnit, looks: Looks) -> list[Picture]:
    goose, sky = (looks[part.fabric] for part in unit.cuts)
    small = SIDE * float(unit.cuts[1].cut[0]) / float(unit.cuts[0].cut[0])
    first: list[Item] = [
        Area(rectangle(0, 0, SIDE, SIDE), goose, Ink.PATCH),
        *_under(rectangle(SIDE - small, 0, small, small), Ink.PATCH),
        *_under(rectangle(0, SIDE - small, small, small), Ink.PATCH),
        Line(((0.0, SIDE), (SIDE, 0.0)), Ink.GUIDE, halo=True),
        *_beside((0.0, SIDE), (SIDE, 0.0)),
    ]
    h = SIDE / 2**0.5
    s = small / 2**0.5
    up, tip = h / 2, (h, h / 2 + h)
    second: list[Item] = [
        Area(((0.0, up), (2 * h, up), tip), goose, Ink.PATCH),
        Area(((0.0, up), (h / 2, 0.0), (h, up)), sky, Ink.PATCH),
        Area(((h, up), (1.5 * h, 0.0), (2 * h, up)), sky, Ink.PATCH),
        *_under((tip, (h - s, tip[1] - s), (h, tip[1] - 2 * s), (h + s, tip[1] - s)), Ink.PATCH),
        Line((tip, (h, tip[1] - 2 * s)), Ink.GUIDE, halo=True),
        *_beside(tip, (h, tip[1] - 2 * s)),
    ]
    w = SIDE * 0.95
    third: list[Item] = [
        Area(rectangle(0, 0, w, w / 2), sky, Ink.PATCH),
        Area(((0.0, w / 2), (w / 2, 0.0), (w, w / 2)), goose, Ink.PATCH),
    ]
    return [(SIDE, first), (2 * h, second), (w, third)]


def _square(unit: TogetherUnit, looks: Looks) -> list[Picture]:
    centre, corner = (looks[part.fabric] for part in unit.cuts)
    side, half = SIDE, SIDE / 2
    tips = (half, 0.0), (side, half), (half, side), (0.0, half)
    corners = (side, 0.0), (side, side), (0.0, side), (0.0, 0.0)  # between each tip and the next

    def sewn(*places: int) -> list[Item]:
        whole = [Area(tips, centre, Ink.PATCH)]
        return [
            *whole,
            *(Area((tips[k], corners[k], tips[(k + 1) % 4]), corner, Ink.PATCH) for k in places),
        ]

    def laid(*places: int) -> list[Item]:
        """Triangles right sides together on the centre, each with its seam."""
        return [
            item
            for k in places
            for item in (
                *_under((tips[k], (half, half), tips[(k + 1) % 4]), Ink.PATCH),
                _seam(tips[k], tips[(k + 1) % 4], BESIDE),
            )
        ]

    return [
        (side, [*sewn(), *laid(0, 2)]),
        (side, [*sewn(0, 2), *laid(1, 3)]),
        (side, sewn(0, 1, 2, 3)),
    ]


def _strips(unit: TogetherUnit, looks: Looks) -> list[Picture]:
    heights = [float(part.exact[1]) for part in unit.cuts]
    scale = SIDE * 1.15 / sum(heights)
    across = float(unit.across or unit.trimmed[1]) * scale
    shown = max(2, min(4, int(46.0 / across)))
    wide = 2.0 + shown * across
    first, second = list[Item](), list[Item]()
    y = 0.0
    for part, high in zip(unit.cuts, heights, strict=True):
        first.append(Area(rectangle(0, y, wide, high * scale), looks[part.fabric], Ink.PATCH))
        second.append(Area(rectangle(0, y, across, high * scale), looks[part.fabric], Ink.PATCH))
        y += high * scale
    for k in range(shown + 1):
        x = 2.0 + k * across
        if x < wide + 0.1:
            first.append(Line(((x, -1.5), (x, y + 1.5)), Ink.CUT, halo=True))
    return [(wide, first), (across, second)]


def _pair(looks: Looks, unit: TogetherUnit) -> list[Item]:
    """Two squares right sides together: the upper one shows its wrong side, the lower one an edge."""
    below = looks[unit.cuts[0].fabric]
    return [
        Area(rectangle(0.9, 0.9, SIDE, SIDE), below, Ink.PATCH),
        *_under(rectangle(0, 0, SIDE, SIDE), Ink.PATCH),
    ]


def _under(points: tuple[Point, ...], ink: Ink) -> list[Item]:
    """A piece with its wrong side up; white below it, so that nothing shines through."""
    return [Area(points, Fill("#ffffff"), None), Area(points, wrong_side(), ink)]


def _half_square(unit: TogetherUnit, looks: Looks, side: float) -> list[Item]:
    one, other = (looks[part.fabric] for part in unit.cuts)
    return [
        Area(((0.0, 0.0), (side, 0.0), (0.0, side)), one, Ink.PATCH),
        Area(((side, 0.0), (side, side), (0.0, side)), other, Ink.PATCH),
    ]


def _beside(a: Point, b: Point) -> list[Item]:
    """The seams on both sides of a line."""
    return [_seam(a, b, BESIDE, BESIDE), _seam(a, b, -BESIDE, BESIDE)]


def _seam(a: Point, b: Point, right: float, short: float = 0.0) -> Item:
    """A seam along a line, so far to the right of it, and short of its ends."""
    length = ((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2) ** 0.5
    x, y = (b[0] - a[0]) / length, (b[1] - a[1]) / length
    first = a[0] - y * right + x * short, a[1] + x * right + y * short
    last = b[0] - y * right - x * short, b[1] + x * right - y * short
    return Line((first, last), Ink.MACHINE, halo=True)


def _moved(item: Item, x: float, y: float) -> Item:
    if isinstance(item, Area):
        return Area(tuple((p[0] + x, p[1] + y + 1.5) for p in item.points), item.fill, item.ink)
    assert isinstance(item, Line)
    return Line(tuple((p[0] + x, p[1] + y + 1.5) for p in item.points), item.ink, halo=item.halo)


def _depth(item: Item) -> float:
    return max(p[1] for p in item.points) if isinstance(item, Area | Line) else 0.0
