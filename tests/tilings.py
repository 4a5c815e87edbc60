"""Random sound tilings for tests: rectangles by through cuts, triangles by splitting, sheared and turned."""

from __future__ import annotations

import random

from booklet.kit.outlines.plane import turn_point

Corners = list[tuple[float, float]]


def guillotine(seed: int, pieces: int = 8) -> list[Corners]:
    """Rectangles cut out of a 6 x 6 square by through cuts at eighths."""
    rng = random.Random(seed)
    rects = [(0.0, 0.0, 6.0, 6.0)]
    for _ in range(200):
        if len(rects) >= pieces:
            break
        i = rng.randrange(len(rects))
        x0, y0, x1, y1 = rects[i]
        across = rng.random() < 0.5
        low, high = (x0, x1) if across else (y0, y1)
        if high - low < 0.5:
            continue
        cut = low + rng.randrange(1, int((high - low) * 8)) / 8
        halves = (
            ((x0, y0, cut, y1), (cut, y0, x1, y1))
            if across
            else ((x0, y0, x1, cut), (x0, cut, x1, y1))
        )
        rects[i : i + 1] = halves
    return [[(a, b), (c, b), (c, d), (a, d)] for a, b, c, d in rects]


def triangles(seed: int, pieces: int = 10) -> list[Corners]:
    """Triangles of a square, split again and again on a side (a T-junction) or at an inner point."""
    rng = random.Random(seed)
    found: list[Corners] = [[(0, 0), (6, 0), (6, 6)], [(0, 0), (6, 6), (0, 6)]]
    while len(found) < pieces:
        found.sort(key=lambda t: -_area(t))
        a, b, c = found.pop(rng.randrange(min(2, len(found))))
        if rng.random() < 0.5:
            t = rng.choice((0.25, 0.5, 2 / 3))
            m = (a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t)
            found += [[a, m, c], [m, b, c]]
        else:
            m = ((a[0] + b[0] + c[0]) / 3, (a[1] + b[1] + c[1]) / 3)
            found += [[a, b, m], [b, c, m], [c, a, m]]
    rng.shuffle(found)
    return found


def _area(points: Corners) -> float:
    (ax, ay), (bx, by), (cx, cy) = points
    return abs((bx - ax) * (cy - ay) - (cx - ax) * (by - ay)) / 2


def tiling(seed: int) -> tuple[list[Corners], Corners]:
    """Pieces and the outline they cover, of either kind, sheared or turned for some seeds."""
    made = guillotine(seed) if seed % 2 else triangles(seed)
    outline: Corners = [(0, 0), (6, 0), (6, 6), (0, 6)]
    shear = (0.0, 0.0, 0.37)[seed % 3]
    turn = (0, 15, 22.5, 45, 60, 90)[seed % 6]

    def move(p: tuple[float, float]) -> tuple[float, float]:
        return turn_point((p[0] + shear * p[1], p[1]), turn)

    return [[move(p) for p in corners] for corners in made], [move(p) for p in outline]
