"""The elongated hexagon: four equal sides and two longer or shorter ones between them, cut by template."""

from __future__ import annotations

from booklet.crafts.figure import FlatOutline, Points, near
from booklet.crafts.form import Form, Seen
from booklet.crafts.measures import ANGLE, MIDDLE, SIDE, Measures
from booklet.kit.outlines.alike import same_angle
from booklet.kit.outlines.near import DRAWN
from booklet.kit.outlines.plane import cosine, sine
from booklet.kit.words import phrase


def corners(m: Measures) -> Points:
    """From the left end of the upper middle side; the points with the angle lie left and right."""
    side, half, middle = m.length(SIDE), m.angle() / 2, m.length(MIDDLE) / 2
    x, y = side * cosine(half), side * sine(half)
    return (
        (-middle, -y), (middle, -y), (middle + x, 0),
        (middle, y), (-middle, y), (-middle - x, 0),
    )  # fmt: skip


def recognise(figure: FlatOutline, _: float | None) -> Seen | None:
    """Two opposite sides of one length and four of another, alike both ways; the grain runs along the two."""
    if figure.count != 6 or figure.is_hollow:
        return None
    sides, angles = figure.sides, figure.angles
    slack = 2 * max(map(figure.slack, range(6)))
    for i in range(3):
        slanted = tuple(sides[k] for k in range(6) if k not in (i, i + 3))
        blunt = (angles[i], angles[(i + 1) % 6], angles[i + 3], angles[(i + 4) % 6])
        if (
            near(sides[i], sides[i + 3])
            and max(slanted) - min(slanted) < DRAWN
            and all(same_angle(angle, blunt[0], 360, slack) for angle in blunt)
        ):
            return Seen(phrase("elongated hexagon", context="patch"), i)
    return None


FORM = Form(
    word="elongated hexagon",
    rank=120,
    must=(SIDE,),
    may=(ANGLE, MIDDLE),
    implied={"middle": SIDE, "angle": 90},
    sides=6,
    corners=corners,
    recognise=recognise,
    sample={"side": 2},
)
