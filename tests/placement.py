"""The rules of placement, walked over a finished scene: what lies where, with nothing known of how it came there.

A label is at least 7 pt and upright; its letters are clear of seams, threads, needle, arrows and other
labels, and inside the picture; where it names a dot it lies nearer to it than to any other, or a leader leads there.
"""

import itertools
import math

from booklet.drawing.lettering.text_widths import text_width
from booklet.drawing.scene import Ink, Label, Line, Mark, Sign

POINT = 25.4 / 72
HEAVY = {
    Ink.MACHINE: 0.5,
    Ink.HAND: 0.5,
    Ink.THREAD: 0.35,
    Ink.LATER: 0.25,
    Ink.ARROW: 0.3,
}  # half widths, mm
DOTS = {
    Mark.DOT: 0.9,
    Mark.SMALL: 0.65,
    Mark.STOP: 0.9,
    Mark.OPEN: 1.4,
    Mark.THROUGH: 1.7,
}  # radii, mm
HAIR = 0.02  # mm: less is not seen


def box(label):
    """The box about the letters of a label: their width, and the height of capitals."""
    wide, half = text_width(label.text, label.size), label.size * POINT * 0.33
    x = label.at[0] - {"start": 0, "middle": wide / 2, "end": wide}[label.anchor]
    return x, label.at[1] - half, x + wide, label.at[1] + half


def plate(label):
    """The radius of the disc under a label."""
    return max(label.size * POINT * 0.68, text_width(label.text, label.size) / 2 + 0.6)


def far(box, p):
    """The distance of a point from a box."""
    x, y = p
    return math.hypot(max(box[0] - x, 0, x - box[2]), max(box[1] - y, 0, y - box[3]))


def stroke_far(box, a, b):
    """The distance of a stroke from a box, by points along it a twentieth of a millimetre apart."""
    steps = max(2, math.ceil(math.dist(a, b) / 0.05))
    return min(
        far(box, (a[0] + (b[0] - a[0]) * i / steps, a[1] + (b[1] - a[1]) * i / steps))
        for i in range(steps + 1)
    )


def way(angle):
    return math.sin(math.radians(angle)), -math.cos(math.radians(angle))


def along(p, d, by):
    return p[0] + d[0] * by, p[1] + d[1] * by


def strokes(items):
    """Every heavy stroke on a picture with half its width."""
    for item in items:
        if isinstance(item, Line) and item.ink in HEAVY:
            for a, b in itertools.pairwise(item.points):
                yield a, b, HEAVY[item.ink]
        if isinstance(item, Sign) and item.mark is Mark.NEEDLE:
            yield item.at, along(item.at, way(item.angle), -8.0), 0.42
        if isinstance(item, Sign) and item.mark is Mark.STOP:
            across = way(item.angle + 90)
            yield along(item.at, across, -1.6), along(item.at, across, 1.6), 0.35
        if isinstance(item, Sign) and item.mark is Mark.CLIP:
            d = way(item.angle)
            fork = along(item.at, d, 2.9)
            yield along(item.at, d, 0.9), fork, 0.2
            for aside in (-30, 30):
                yield fork, along(fork, way(item.angle + aside), 1.5), 0.2
        if isinstance(item, Sign) and item.mark is Mark.OPENED:
            for spread in (-20, 20):
                d = way(item.angle + spread)
                yield along(item.at, d, 0.9), along(item.at, d, 4.2), 0.2


def crossing(box, other):
    return box[0] < other[2] and other[0] < box[2] and box[1] < other[3] and other[1] < box[3]


def breaches(scene):
    """What breaks a rule on a picture, in words."""
    labels = [item for item in scene.items if isinstance(item, Label)]
    dots = [(s.at, DOTS[s.mark]) for s in scene.items if isinstance(s, Sign) and s.mark in DOTS]
    leaders = [i.points for i in scene.items if isinstance(i, Line) and i.ink is Ink.LEADER]
    heavy = list(strokes(scene.items))
    for label in labels:
        here = box(label)
        if label.size < 7 or label.turn:
            yield f"“{label.text}” is {label.size} pt, turned by {label.turn}"
        if here[0] < 0 or here[1] < 0 or here[2] > scene.width or here[3] > scene.height:
            yield f"“{label.text}” leaves the picture"
        near = (here[0] - 2, here[1] - 2, here[2] + 2, here[3] + 2)
        for a, b, half in heavy:
            about = (
                min(a[0], b[0]),
                min(a[1], b[1]),
                max(a[0], b[0]) + 1e-9,
                max(a[1], b[1]) + 1e-9,
            )
            if crossing(near, about) and stroke_far(here, a, b) < half - HAIR:
                yield f"“{label.text}” lies on a stroke at {a[0]:.1f}, {a[1]:.1f}"
        for at, radius in dots:
            if far(here, at) < radius - HAIR:
                yield f"“{label.text}” lies on a dot"
        if label.of and not any(far(here, line[0]) < 0.6 and any(math.dist(line[-1], p) < 2 for p in label.of) for line in leaders):  # fmt: skip
            own = min(far(here, p) for p in label.of)
            others = [
                far(here, at) for at, _ in dots if all(math.dist(at, p) > 0.05 for p in label.of)
            ]
            if others and min(others) <= own:
                yield f"“{label.text}” is nearer to another dot than to its own"
    for one, other in itertools.combinations(labels, 2):
        if crossing(box(one), box(other)):
            yield f"“{one.text}” and “{other.text}” lie on each other"
        elif other.plate and far(box(one), other.at) < plate(other) - 0.2:
            yield f"“{one.text}” lies under the plate of “{other.text}”"
