"""Cutting: the raw piece that each printed line of the cutting list gives, and the seam line in it.

By the trade's own ways (common practice): a square is cut as it says, a half-square triangle is half of
it, a diamond is a strip cut across at an angle. The seam line lies one allowance inside the raw edge.
"""

import math

from sewn_through.shapes import angles, clean, moved_sides, sides

PER_CUT = {
    "half-square triangles": 2,
    "quarter-square triangles": 4,
    "half-rectangle triangles": 2,
}


def raw_piece(row, outline, allowance):
    """The piece as cut by a line of the cutting list; `outline` is its seam line as designed, from
    which only the angles are taken. None where it is cut around a template, which is exact."""
    if row["by"] == "template":
        return None
    across, along = row["cut_in"]
    match row["method"]:
        case "square" | "rectangle" | "strip" | "strip along the selvedge":
            return [(0, 0), (along, 0), (along, across), (0, across)]
        case "half-square triangles" | "half-rectangle triangles":
            return [(0, 0), (along, across), (0, across)]
        case "quarter-square triangles":
            return [(0, 0), (across, 0), (across / 2, across / 2)]
        case "diamonds from a strip" | "parallelograms from a strip":
            return _slanted(across, along, row["angle"])
        case "triangles from a strip":
            return _triangle(across, row["angle"])
        case "trapezoids from a strip":
            return _trapezoid(across, along, outline)
        case "hexagons from a strip":
            return _regular(6, across / 2)
        case "octagons from a square":
            return _regular(8, across / 2)
        case "kites from a strip":
            return _fitted(outline, allowance, across, along)
    return None


def seam_line(row, outline, allowance):
    """The seam line of the piece as cut by a line of the cutting list."""
    wanted = clean(outline)
    raw = raw_piece(row, wanted, allowance)
    return wanted if raw is None else moved_sides(raw, allowance)


def _slanted(height, apart, angle):
    """A strip `height` high, cut across at `angle` every `apart`, measured square to the cuts."""
    bend = math.radians(angle)
    base, lean = apart / math.sin(bend), height / math.tan(bend)
    return [(0, 0), (base, 0), (base + lean, height), (lean, height)]


def _triangle(height, foot):
    half = height / math.tan(math.radians(foot))
    return [(half, 0), (2 * half, height), (0, height)]


def _trapezoid(height, longest, outline):
    """From a strip, its longest line as printed, its slants at the angles of the patch."""
    turn, side = angles(outline), sides(outline)
    base = max(range(4), key=lambda k: _level(k, turn, side))
    left, right = math.radians(turn[base]), math.radians(turn[(base + 1) % 4])
    a, b = height / math.tan(left), height / math.tan(right)
    return [(0, 0), (longest, 0), (longest - b, height), (a, height)]


def _level(k, turn, side):
    """The length of side `k` if the side opposite is parallel to it, else less than nothing."""
    parallel = abs(turn[(k + 1) % 4] + turn[(k + 2) % 4] - 180) < 0.01
    return side[k] if parallel else -1.0


def _regular(count, inner):
    """A regular figure whose flat sides lie `inner` from the middle."""
    out = inner / math.cos(math.pi / count)
    turn = [2 * math.pi * (k + 0.5) / count for k in range(count)]
    return [(out * math.cos(t), out * math.sin(t)) for t in turn]


def _fitted(outline, allowance, across, along):
    """The patch with its allowance, stretched to the printed height and length of a strip."""
    full = moved_sides(outline, -allowance)
    far = max((math.dist(a, b), b[0] - a[0], b[1] - a[1]) for a in full for b in full)
    best = None
    for quarter in (0.0, math.pi / 2):
        turn = quarter - math.atan2(far[2], far[1])
        c, s = math.cos(turn), math.sin(turn)
        laid = [(x * c - y * s, x * s + y * c) for x, y in full]
        wide = max(x for x, _ in laid) - min(x for x, _ in laid)
        high = max(y for _, y in laid) - min(y for _, y in laid)
        off = abs(wide - along) + abs(high - across)
        if best is None or off < best[0]:
            best = off, [(x * along / wide, y * across / high) for x, y in laid]
    return best[1]
