"""Sewing: the pieces as cut, joined by the stated steps, and what the ruler says of every unit.

Each piece is laid down as it was cut. A join moves one part so that the ends of its seams come to lie on
those of the other as nearly as may be, and the two sides of every seam are measured.
"""

import math

from sewn_through.as_cut import seam_line
from sewn_through.shapes import clean, gap, likeness

TOLERANCE = (
    1 / 32
)  # inches: what the two sides of a seam may differ, and a unit from its stated size
FROM_SQUARES = ("half-square triangles", "quarter-square triangles", "half-rectangle triangles")
"""Cut by the trade's rules of 7/8 in and 1 1/4 in, a hair large (common practice): a unit may be one tolerance
larger for each of them that lies across it, until it is trimmed."""


class Piece:
    """A piece of a block: its designed corners and where the same corners lie as cut."""

    def __init__(self, designed, cut, large=False):
        self.designed, self.cut, self.large = designed, cut, large

    def at(self, point):
        """Where a point of the designed outline lies on the piece as cut."""
        if self.cut is self.designed:
            return tuple(point)
        count = len(self.designed)
        best = None
        for k in range(count):
            a, b = self.designed[k], self.designed[(k + 1) % count]
            d = (b[0] - a[0], b[1] - a[1])
            t = ((point[0] - a[0]) * d[0] + (point[1] - a[1]) * d[1]) / (d[0] ** 2 + d[1] ** 2)
            t = min(1.0, max(0.0, t))
            foot = (a[0] + t * d[0], a[1] + t * d[1])
            off = gap(foot, point)
            if best is None or off < best[0]:
                p, q = self.cut[k], self.cut[(k + 1) % count]
                best = off, (p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1]))
        return best[1]


def cut_pieces(size, block, allowance):
    """Every piece of a block as cut by its line of the cutting list, by id; and complaints."""
    lines = {}
    for row in size["rotary"]:
        lines.setdefault((row["for"], row["fabric"]), row)
    ready = {
        id
        for unit in size["together"]
        for member in unit["members"]
        for id in member["pieces"]
        if size["blocks"].get(member["block"]) is block
    }
    found, faults, known = {}, [], {}
    for piece in block["pieces"]:
        designed = [tuple(p) for p in piece["corners_in"]]
        row = lines.get((piece["patch"], piece["fabric"]))
        if piece["id"] in ready or "outline_in" in piece:
            points = [tuple(p) for p in piece.get("outline_in", piece["corners_in"])]
            found[piece["id"]] = Piece(points, points)
            continue
        if row is None:
            faults.append(f"piece {piece['id']}: no line of the cutting list gives it")
            found[piece["id"]] = Piece(designed, designed)
            continue
        key = (piece["patch"], piece["fabric"])
        if key not in known:
            known[key] = seam_line(row, designed, allowance)
        designed = clean(designed)
        alike = likeness(designed, known[key])
        if alike is None:
            faults.append(f"piece {piece['id']}: cut with {len(known[key])} corners")
            found[piece["id"]] = Piece(designed, designed)
            continue
        order, off = alike
        large = row["method"] in FROM_SQUARES
        if off > TOLERANCE and not large:
            faults.append(
                f"patch {piece['patch']} in {piece['fabric']}, {row['method']} {row['cut_in']}: a side is"
                f" {off:.3f} in off"
            )
        seen = [known[key][k] for k in order]
        found[piece["id"]] = Piece(designed, laid_over(seen, designed), large)
    return found, faults


def laid_over(points, onto):
    """The points moved and turned (turned over if need be) to lie on as many others as nearly as may be."""
    plain = fitted(points, onto)
    over = fitted([(-x, y) for x, y in points], onto)
    return min(
        (plain, over), key=lambda some: sum(gap(a, b) for a, b in zip(some, onto, strict=True))
    )


def fitted(points, onto):
    """The points moved and turned to lie on `onto` with the least squares between them."""
    return motion(points, onto)(points)


def motion(points, onto):
    """The move and turn that lays `points` on `onto` with the least squares between them."""
    n = len(points)
    mx, my = sum(x for x, _ in points) / n, sum(y for _, y in points) / n
    ox, oy = sum(x for x, _ in onto) / n, sum(y for _, y in onto) / n
    dot = turn = 0.0
    for (x, y), (u, v) in zip(points, onto, strict=True):
        x, y, u, v = x - mx, y - my, u - ox, v - oy
        dot += x * u + y * v
        turn += x * v - y * u
    size = math.hypot(dot, turn) or 1.0
    c, s = dot / size, turn / size

    def move(some):
        return [
            (ox + (x - mx) * c - (y - my) * s, oy + (x - mx) * s + (y - my) * c) for x, y in some
        ]

    return move


def sew(block, pieces):
    """Complaints about the measures of a block that is sewn from its pieces by its steps."""
    seams = {seam["id"]: seam for seam in block["seams"]}
    units = {id: {id} for id in pieces}
    faults = []
    for step in block["steps"]:
        parts = [units[name] for name in step["join"] if name in units]
        runs = [seams[id] for run in step["runs"] for id in run if id in seams]
        if step["kind"] == "partial" and step["make"] not in units and len(parts) == 2:
            parts = [{seam for s in runs for seam in s["between"]} & part for part in parts]
        whole = set(parts[0]) if parts else set()
        off_cut = _cut_off(block, step, set().union(*parts), pieces)
        for part in parts[1:]:
            faults += _join(step, pieces, whole, part, runs, off_cut)
            whole |= part
        made = max((units[name] for name in step["join"] if name in units), key=len, default=set())
        units[step["make"]] = whole | made
        if step.get("trim"):
            faults += _trimmed(step, pieces, units[step["make"]])
        elif "rectangle_in" in step or not any(pieces[id].large for id in units[step["make"]]):
            faults += _measured(step, block, pieces, units[step["make"]])
    return faults


def _cut_off(block, step, made, pieces):
    """The points on the frame of the unit that is trimmed next: what hangs over there is cut off."""
    for later in block["steps"]:
        if later["n"] >= step["n"] and later.get("trim"):
            unit = _pieces_of(block, later["make"], later["n"])
            if made <= unit:
                corners = [p for id in unit for p in pieces[id].designed]
                return lambda point: _extreme(point, corners)
    return lambda point: False


def _pieces_of(block, name, upto):
    """The pieces of a unit as the steps up to a number make it."""
    made = {piece["id"]: {piece["id"]} for piece in block["pieces"]}
    for step in block["steps"]:
        if step["n"] <= upto:
            made[step["make"]] = set().union(*(made.get(part, set()) for part in step["join"]))
    return made[name]


def _trimmed(step, pieces, unit):
    """A unit that is trimmed has its stated size, if it was no smaller before."""
    designed = [p for id in unit for p in pieces[id].designed]
    sewn = [p for id in unit for p in pieces[id].cut]
    faults = []
    for axis in (0, 1):
        found, stated = (
            max(p[axis] for p in some) - min(p[axis] for p in some) for some in (sewn, designed)
        )
        if found < stated - TOLERANCE:
            faults.append(f"{step['make']}: {found:.3f} in before it is trimmed to {stated:.3f} in")
    for id in unit:
        pieces[id] = Piece(pieces[id].designed, pieces[id].designed)
    return faults


def _join(step, pieces, whole, part, runs, off_cut):
    """Move `part` to `whole` along the seams between them, and measure both sides of each."""
    faults, mine, theirs = [], [], []
    for seam in runs:
        one, other = seam["between"]
        if other in whole and one in part:
            one, other = other, one
        if not (one in whole and other in part):
            continue
        ends = seam["from_in"], seam["to_in"]
        here = [pieces[one].at(p) for p in ends]
        there = [pieces[other].at(p) for p in ends]
        off = abs(gap(*here) - gap(*there))
        over = pieces[one].large or pieces[other].large
        if off > TOLERANCE and not (over and any(off_cut(end) for end in ends)):
            faults.append(
                f"step {step['n']}, seam {seam['id']}: {one} is {gap(*here):.3f} in long there, {other}"
                f" {gap(*there):.3f} in"
            )
        mine += there
        theirs += here
    if mine and not part & whole:
        move = motion(mine, theirs)
        for id in part:
            piece = pieces[id]
            pieces[id] = Piece(piece.designed, move(piece.cut), piece.large)
    return faults


def _measured(step, block, pieces, unit):
    """The stated size of a unit, and the one measured across and down its extreme corners."""
    designed = [p for id in unit for p in pieces[id].designed]
    sewn = [p for id in unit for p in pieces[id].cut]
    corners = [k for k, p in enumerate(designed) if _extreme(p, designed)]
    move = motion([sewn[k] for k in corners], [designed[k] for k in corners])
    sewn = move(sewn)
    faults = []
    for axis, way in enumerate(("across", "down")):
        stated = max(p[axis] for p in designed) - min(p[axis] for p in designed)
        found = max(p[axis] for p in sewn) - min(p[axis] for p in sewn)
        if abs(found - stated) > TOLERANCE * (1 + _large_across(unit, pieces, 1 - axis)):
            faults.append(f"{step['make']}: {found:.3f} in {way}, stated {stated:.3f} in")
    return faults


def _large_across(unit, pieces, axis):
    """How many triangles from squares a line at right angles to an axis may cross."""
    spans = [
        (min(p[axis] for p in pieces[id].designed), max(p[axis] for p in pieces[id].designed))
        for id in unit
        if pieces[id].large
    ]
    return max((sum(a < (x + y) / 2 < b for a, b in spans) for x, y in spans), default=0)


def _extreme(point, points):
    """Whether a point lies on the frame of the points."""
    xs, ys = [x for x, _ in points], [y for _, y in points]
    x, y = point
    return min(x - min(xs), max(xs) - x, y - min(ys), max(ys) - y) < 1e-6


def complaints(facts):
    """What does not measure as stated in any block of any size."""
    found = []
    for id, size in facts["sizes"].items():
        for name, block in size["blocks"].items():
            pieces, faults = cut_pieces(size, block, facts["allowance_in"])
            faults += sew(block, pieces)
            found += [f"{id}, block {name}: {fault}" for fault in dict.fromkeys(faults)]
    return found
