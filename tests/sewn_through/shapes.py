"""Plane figures: sides, angles, and a figure whose sides are all moved in by the allowance."""

import math

NEAR = 1e-4


def sub(a, b):
    return a[0] - b[0], a[1] - b[1]


def cross(a, b):
    return a[0] * b[1] - a[1] * b[0]


def gap(a, b):
    return math.dist(a, b)


def around(corners):
    """Every corner with the one before and the one after it."""
    count = len(corners)
    return [(corners[i - 1], corners[i], corners[(i + 1) % count]) for i in range(count)]


def turning(corners):
    """Whether the corners run clockwise on the page (y down): 1, or else -1."""
    area = sum(cross(a, b) for a, b, _ in around(corners))
    return 1 if area > 0 else -1


def clean(corners):
    """The corners without those that lie on a straight line between their neighbours."""
    return [
        tuple(b)
        for a, b, c in around(corners)
        if abs(cross(sub(b, a), sub(c, b))) > NEAR * max(gap(a, b) * gap(b, c), NEAR)
    ]


def sides(corners):
    """The length of every side, the first from the first corner to the second."""
    return [gap(b, c) for _, b, c in around(corners)]


def angles(corners):
    """The inner angle at every corner, in degrees."""
    found = []
    way = turning(corners)
    for a, b, c in around(corners):
        back, on = sub(a, b), sub(c, b)
        turn = math.degrees(math.atan2(cross(on, back), on[0] * back[0] + on[1] * back[1]))
        found.append(way * turn % 360)
    return found


def moved_sides(corners, by):
    """The figure with every side moved inward by `by` (outward if negative), corners mitred."""
    way = turning(corners)
    lines = []
    for _, b, c in around(corners):
        d = sub(c, b)
        length = math.hypot(*d)
        inward = (-d[1] / length * way, d[0] / length * way)
        lines.append(((b[0] + inward[0] * by, b[1] + inward[1] * by), d))
    found = []
    for k in range(len(lines)):
        (p, d), (q, e) = lines[k - 1], lines[k]
        t = cross(sub(q, p), e) / cross(d, e)
        found.append((p[0] + d[0] * t, p[1] + d[1] * t))
    return found


def likeness(one, other):
    """How the corners of `other` stand for those of `one`: for each corner of `one` the number of a
    corner of `other`, turned over or not, so that sides and angles agree best; and how far sides are
    off at most. None where they have not the same number of corners."""
    count = len(one)
    if count != len(other):
        return None
    s, a = sides(one), angles(one)
    best = None
    for over in (False, True):
        for shift in range(count):
            if over:
                order = [(shift - k) % count for k in range(count)]
            else:
                order = [(shift + k) % count for k in range(count)]
            seen = [other[k] for k in order]
            off = max(abs(x - y) for x, y in zip(s, sides(seen), strict=True))
            bent = max(abs(x - y) for x, y in zip(a, angles(seen), strict=True))
            key = (round(off + bent / 10, 9), over, shift)
            if best is None or key < best[0]:
                best = (key, order, off)
    return best[1], best[2]
