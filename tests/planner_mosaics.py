"""Random blocks for the tests of the planner, and an order search that shares nothing with it."""

from __future__ import annotations

import random
from bisect import bisect
from functools import cache
from itertools import pairwise

from booklet.sewing.mosaic.likeness import FaceLook, Likeness
from booklet.sewing.mosaic.mosaic import Mosaic, MosaicSeam, Pair, build

Point = tuple[float, float]


def mosaic_from(polygons: list[list[Point]], names: list[str] | None = None) -> Mosaic:
    """The mosaic of polygons with whole coordinates (or any that are exact): every corner of one on a
    side of another is put in, and every straight stretch between two polygons is an edge."""
    corners = sorted({p for polygon in polygons for p in polygon})
    owner: dict[tuple[Point, Point], int] = {}
    for k, polygon in enumerate(polygons):
        for a, b in zip(polygon, [*polygon[1:], polygon[0]], strict=True):
            left, right = sorted((a[0], b[0]))
            about = corners[bisect(corners, (left - 1e-6,)) : bisect(corners, (right + 1e-6,))]
            on = sorted(
                (p for p in about if between(a, p, b)),
                key=lambda p, a=a: (p[0] - a[0]) ** 2 + (p[1] - a[1]) ** 2,
            )
            stops = [a, *on, b]
            for p, q in pairwise(stops):
                assert (p, q) not in owner, "overlap"
                owner[p, q] = k
    seams = sorted((p, q) for p, q in owner if p < q and (q, p) in owner)
    rim = {p for (a, b) in owner if (b, a) not in owner for p in (a, b)}
    # a corner that only goes straight on between the same two faces is no matching point
    points = sorted({p for seam in seams for p in seam})
    number = {p: k for k, p in enumerate(points)}
    edges = [
        MosaicSeam(
            a=owner[p, q], b=owner[q, p], u=number[p], v=number[q], weight=round(1e6 * length(p, q))
        )
        for p, q in seams
    ]
    rays: list[list[int]] = [[] for _ in points]
    for k, (p, q) in enumerate(seams):
        rays[number[p]].append(k)
        rays[number[q]].append(k)
    pairs = []
    for p, there in zip(points, rays, strict=True):
        table = {}
        if p not in rim:
            for i, e in enumerate(there):
                for f in there[i + 1 :]:
                    bent = not opposite(p, other(seams[e], p), other(seams[f], p))
                    table[e, f] = Pair(bent, float(bent), float(bent))
        pairs.append(table)
    places = tuple((1e6 * x, 1e6 * y) for x, y in points)
    inner = tuple(p not in rim for p in points)
    labels = tuple(names or [f"p{k}" for k in range(len(polygons))])
    return build(labels, tuple(edges), inner, tuple(map(tuple, rays)), tuple(pairs), places)


def between(a: Point, p: Point, b: Point) -> bool:
    """Whether p lies on the line from a to b, strictly between."""
    cross = (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])
    dot = (p[0] - a[0]) * (b[0] - p[0]) + (p[1] - a[1]) * (b[1] - p[1])
    return abs(cross) < 1e-9 and dot > 1e-9


def opposite(at: Point, a: Point, b: Point) -> bool:
    """Whether a and b lie on opposite sides of a point, on one line."""
    ux, uy, vx, vy = a[0] - at[0], a[1] - at[1], b[0] - at[0], b[1] - at[1]
    return abs(ux * vy - uy * vx) < 1e-9 and ux * vx + uy * vy < 0


def other(seam: tuple[Point, Point], p: Point) -> Point:
    return seam[1] if seam[0] == p else seam[0]


def length(a: Point, b: Point) -> float:
    return ((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5


def merged(cells: list[list[Point]], count: int, seed: int) -> list[list[Point]]:
    """Cells joined at random until `count` polygons are left, none with a hole or a pinch."""
    chance = random.Random(seed)
    parts = [list(cell) for cell in cells]
    tries = 0
    while len(parts) > count and tries < 2000:
        tries += 1
        i, j = chance.sample(range(len(parts)), 2)
        whole = united(parts[i], parts[j])
        if whole is not None:
            parts = [p for k, p in enumerate(parts) if k not in (i, j)] + [whole]
    return parts


def united(a: list[Point], b: list[Point]) -> list[Point] | None:
    """The outline of two polygons that share one chain of whole sides, without needless points kept
    out: points stay, so that later joins find whole sides. None where it would not be one outline."""
    edges = dict(zip(a, [*a[1:], a[0]], strict=True))
    more = dict(zip(b, [*b[1:], b[0]], strict=True))
    shared = {(p, q) for p, q in edges.items() if more.get(q) == p}
    if not shared:
        return None
    left = [(p, q) for p, q in edges.items() if (p, q) not in shared]
    left += [(p, q) for p, q in more.items() if (q, p) not in shared]
    after = dict(left)
    if len(after) < len(left) or not left:
        return None
    loop = [left[0][0]]
    while after[loop[-1]] != loop[0]:
        loop.append(after[loop[-1]])
    return loop if len(loop) == len(left) else None


def square_cells(side: int) -> list[list[Point]]:
    return [
        [(x, y), (x + 1, y), (x + 1, y + 1), (x, y + 1)] for y in range(side) for x in range(side)
    ]


def triangle_cells(side: int) -> list[list[Point]]:
    """Unit squares, each cut along one of its diagonals."""
    found: list[list[Point]] = []
    for y in range(side):
        for x in range(side):
            a, b, c, d = (x, y), (x + 1, y), (x + 1, y + 1), (x, y + 1)
            if (x + y) % 2:
                found += [[a, b, c], [a, c, d]]
            else:
                found += [[a, b, d], [b, c, d]]
    return found


def random_mosaic(seed: int, most: int = 12) -> Mosaic:
    """A block of 3 to `most` pieces, merged at random from squares or triangles."""
    chance = random.Random(seed)
    count = chance.randint(3, most)
    side = chance.choice((3, 4)) if seed % 2 else chance.choice((2, 3))
    cells = square_cells(side) if seed % 2 else triangle_cells(side)
    return mosaic_from([tidy(p) for p in merged(cells, count, seed)])


def tidy(polygon: list[Point]) -> list[Point]:
    """A polygon without points at which it goes straight on."""
    n = len(polygon)
    return [
        polygon[k]
        for k in range(n)
        if not between(polygon[k - 1], polygon[k], polygon[(k + 1) % n])
    ]


def rectangulation(seed: int, count: int) -> list[list[Point]]:
    """Rectangles that cover a square, made by merging unit squares only into rectangles."""
    chance = random.Random(seed)
    side = 5
    boxes = {(x, y): (x, y, x + 1, y + 1) for x in range(side) for y in range(side)}
    found = sorted(set(boxes.values()))
    tries = 0
    while len(found) > count and tries < 3000:
        tries += 1
        a, b = chance.sample(found, 2)
        whole = (min(a[0], b[0]), min(a[1], b[1]), max(a[2], b[2]), max(a[3], b[3]))
        if area(whole) == area(a) + area(b):
            found = sorted([box for box in found if box not in (a, b)] + [whole])
    return [[(a, b), (c, b), (c, d), (a, d)] for a, b, c, d in found]


def area(box: tuple[int, int, int, int]) -> int:
    return (box[2] - box[0]) * (box[3] - box[1])


def fewest_turns(mosaic: Mosaic, rings: bool = True) -> int:
    """The fewest turns of any order, by trying every way to part every connected set of faces in two
    connected ones. Shares no code with the planner, uses neither lemma nor bound.

    Without `rings` the two may meet along one stretch only, which does not end where it began.
    A set of faces is a number with a bit for each: with sets of Python the same search takes 3.6 times as long.
    """
    n = len(mosaic.names)
    beside = [0] * n
    for edge in mosaic.edges:
        beside[edge.a] |= 1 << edge.b
        beside[edge.b] |= 1 << edge.a

    @cache
    def connected(faces: int) -> bool:
        seen, front = 0, faces & -faces
        while front:
            seen |= front
            near = 0
            while front:
                f = front & -front
                front ^= f
                near |= beside[f.bit_length() - 1]
            front = near & faces & ~seen
        return seen == faces

    sides = [(1 << edge.a, 1 << edge.b, edge.u, edge.v) for edge in mosaic.edges]
    around = [sum({s for e in rays for s in sides[e][:2]}) for rays in mosaic.rays]

    def bends(a: int, b: int) -> float:
        at: dict[int, list[int]] = {}
        for k, (one, other, u, v) in enumerate(sides):
            if (one & a and other & b) or (one & b and other & a):
                at.setdefault(u, []).append(k)
                at.setdefault(v, []).append(k)
        total, ends = 0, []
        for p, there in at.items():
            if mosaic.inner[p] and not around[p] & ~(a | b) and len(there) == 2:
                total += mosaic.pairs[p][min(there), max(there)].turns
            else:
                ends.extend([p] * len(there))
        if not rings and (len(ends) != 2 or ends[0] == ends[1]):
            return float("inf")
        return total

    @cache
    def best(faces: int) -> float:
        first = faces & -faces
        others, least = faces ^ first, float("inf")
        if not others:
            return 0
        rest = others
        while rest:
            side = faces ^ rest
            if connected(side) and connected(rest):
                here = bends(side, rest)
                if here < least:
                    least = min(least, here + best(side) + best(rest))
            rest = (rest - 1) & others
        return least

    return int(best((1 << n) - 1))


def alike_by_place(polygons: list[list[Point]], labels: list[int] | None = None) -> Likeness:
    """The looks of polygons, all of them cut from one cloth unless labels are given."""
    looks = []
    for k, polygon in enumerate(polygons):
        x, y = (sum(p[i] for p in polygon) / len(polygon) for i in (0, 1))
        around = tuple((a - x, b - y) for a, b in polygon)
        looks.append(FaceLook(labels[k] if labels else len(polygon), (x, y), around))
    return Likeness(tuple(looks))
