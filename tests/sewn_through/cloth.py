"""The cloth: all cuts laid as listed, strip by strip, on cloth as long and as wide as is bought."""

import math
from collections import Counter, defaultdict
from fractions import Fraction
from itertools import pairwise

from shapely import STRtree
from shapely.geometry import Polygon

from sewn_through.as_cut import PER_CUT, raw_piece
from sewn_through.shapes import clean, likeness, moved_sides

HAIR = 1e-4  # inches: float noise
LEAST_STRAIGHTENING = 0.25  # inches cut off for a first straight edge, common practice
BY_LENGTH = ("binding", "backing")  # drawn as long as it is used


def complaints(facts):
    """What does not fit on the cloth that is bought, or is not cut from it."""
    found = []
    for id, size in facts["sizes"].items():
        outlines = {
            patch["letter"]: patch.get("outline_in", patch["corners_in"])
            for block in size["blocks"].values()
            for patch in (*block["patches"], *block.get("shapes", ()))
        }
        parts = {part["name"] for part in size["quilt"].get("parts", [])}
        for name, cloth in size["cutting"].items():
            rows = [row for row in size["rotary"] if row["fabric"] == name]
            faults = [
                *_length(cloth),
                *_bought(cloth),
                *_left_over(cloth),
                *_laid(cloth),
                *_given(cloth, rows),
                *_figures(cloth, rows, outlines, parts, facts["allowance_in"]),
                *_rough(size, rows, outlines, facts["allowance_in"]),
                *_stems(size, rows),
            ]
            found += [f"{id}, cloth {name}: {fault}" for fault in dict.fromkeys(faults)]
    return found


def _rough(size, rows, outlines, allowance):
    """A piece for printed paper lies in its rectangle, straight along one of its sides or of the block, with allowance
    and margin on every side; and the rectangle is no more than a mark of the ruler larger."""
    more = 2 * (allowance + size.get("foundation_margin_in", 0))
    for row in (row for row in rows if row["method"] == "rough rectangle"):
        points = outlines[row["for"]]
        sides = [math.atan2(b[1] - a[1], b[0] - a[0]) for a, b in pairwise([*points, points[0]])]
        cut = sorted(row["cut_in"])
        fits = [sorted(side + more for side in _turned_size(points, way)) for way in (0.0, *sides)]
        if not any(
            all(-HAIR < c - f < size["ruler_in"] + HAIR for c, f in zip(cut, fit, strict=True))
            for fit in fits
        ):
            yield f"{row['for']} is cut {row['cut_in']}, and takes one of {fits}"


def _stems(size, rows):
    """A bias strip is at least twice as wide as its stem, and longer than its line by something at either end when its
    slanting ends are cut square: of a strip of cloth so high, cut at 45 degrees."""
    for row in (row for row in rows if row["method"] == "bias strips"):
        high, wide = row["cut_in"]
        square = high * math.sqrt(2) - wide
        for block in size["blocks"].values():
            for shape in block.get("applied", ()):
                if (shape["patch"], shape["fabric"]) != (row["for"], row["fabric"]):
                    continue
                if wide < 2 * shape["stem_width_in"] - HAIR:
                    yield f"{row['for']} is cut {wide} wide for a stem of {shape['stem_width_in']}"
                if square < shape["stem_length_in"] + 0.4:
                    yield f"{row['for']} gives {square:.3f} for a stem {shape['stem_length_in']} long"


def _turned_size(points, angle):
    """Width and height of an outline turned back by an angle."""
    sin, cos = math.sin(angle), math.cos(angle)
    return _size([(x * cos + y * sin, y * cos - x * sin) for x, y in points])


def _strips(cloth):
    """Every strip: its kind, where it begins along the cloth, and its cuts."""
    return [
        (strip, laid["at_in"], laid["cuts"]) for strip in cloth["strips"] for laid in strip["laid"]
    ]


def _length(cloth):
    """The strips lie one after another within the length of cloth, its edge straightened first."""
    sold = cloth.get("sold_as_in")
    for strip in cloth["strips"]:
        if strip["count"] != len(strip["laid"]):
            yield f"{strip['count']} strips of {strip['cut_in']}, {len(strip['laid'])} are laid"
    by_piece = defaultdict(list)
    for strip, at, _ in _strips(cloth):
        by_piece[strip.get("piece", 0)].append((at, strip["cut_in"]))
    for piece, some in by_piece.items():
        some.sort()
        for (one, high), (other, _) in pairwise(some):
            if one + high > other + HAIR:
                yield f"the strip at {one} reaches into that at {other}"
        whole = sum(high for _, high in some)
        room = sold[1] if sold else cloth["length_in"] - LEAST_STRAIGHTENING
        if whole > room + HAIR:
            yield f"strips of {whole:.3f} in from {room:.3f} in of cloth (piece {piece})"
    if sold and max(by_piece) > cloth["buy"]["pieces"]:
        yield f"cut from {max(by_piece)} pieces, {cloth['buy']['pieces']} are bought"


def _bought(cloth):
    """What is bought is as long as the plan once it has shrunk, in yards and in metres alike."""
    buy = cloth["buy"]
    if "sold_as_in" in cloth:
        return
    text = sum(Fraction(part) for part in buy["yards"].split())
    if abs(float(text) - buy["yards_decimal"]) > 1e-6:
        yield f"{buy['yards']} yd are told, and {buy['yards_decimal']}"
    left = 1 - cloth["shrinks"]
    for inches, said in (
        (buy["yards_decimal"] * 36, f"{buy['yards']} yd"),
        (buy["metres"] / 0.0254, f"{buy['metres']} m"),
    ):
        if inches * left < cloth["length_in"] - HAIR:
            yield f"{said} leaves {inches * left:.2f} in, {cloth['length_in']} in are needed"
    if cloth["lower_bound_in"] > cloth["length_in"] + HAIR:
        yield f"proven to need {cloth['lower_bound_in']} in, planned {cloth['length_in']} in"


def _left_over(cloth):
    """What is said to be left over is no wider than the cloth, and no longer than it is bought; what is
    bought beyond what is proven is told in per cent."""
    sold, buy = cloth.get("sold_as_in"), cloth["buy"]
    long = sold[1] if sold else max(buy["yards_decimal"] * 36, buy["metres"] / 0.0254)
    for across, along in (left["size_in"] for left in cloth["left_over"]):
        if across > cloth["width_in"] + HAIR or along > long + HAIR:
            yield f"{across} x {along} in are said to be left of {cloth['width_in']} x {long:.2f} in"
    over = 100 * (cloth["length_in"] / cloth["lower_bound_in"] - 1)
    if abs(over - cloth["gap_percent"]) > 1e-3:
        yield f"{cloth['gap_percent']} % above what is proven, {over:.3f} % by the figures"


def _laid(cloth):
    """Every cut lies within its strip and the width of the cloth, and on no other."""
    figures, about = [], []
    for strip, at, cuts in _strips(cloth):
        top, end = at, at + strip["cut_in"]
        for cut in cuts:
            xs, ys = zip(*cut["outline_in"], strict=True)
            if min(xs) < -HAIR or max(xs) > cloth["width_in"] + HAIR:
                yield f"{cut['for']} ends {max(xs):.3f} in across cloth {cloth['width_in']} in wide"
            if min(ys) < top - HAIR or max(ys) > end + HAIR:
                yield f"{cut['for']} is {max(ys) - min(ys):.3f} in high, its strip {strip['cut_in']} in"
            figures.append(Polygon(cut["outline_in"]))
            about.append(cut["for"])
    if not figures:
        return
    tree = STRtree(figures)
    pairs = zip(*tree.query(figures, predicate="intersects"), strict=True)
    for one, other in ((a, b) for a, b in pairs if a < b):
        if figures[one].intersection(figures[other]).area > HAIR * 5:
            yield f"{about[one]} lies on {about[other]}"


def _given(cloth, rows):
    """The list of strips gives as many pieces as the list of cuts says, and as many cuts are laid."""
    told, laid = Counter(), Counter()
    for strip in cloth["strips"]:
        for use in strip["use"]:
            told[use["for"]] += use["pieces"]
    for _, _, cuts in _strips(cloth):
        laid.update(cut["for"] for cut in cuts)
    pieces, cuts, per = Counter(), Counter(), {}
    for row in rows:
        pieces[row["for"]] += row["pieces"]
        cuts[row["for"]] += row["cuts"]
        per[row["for"]] = PER_CUT.get(row["method"], 1)
    for name in sorted({*told, *pieces}):
        if told[name] != pieces[name]:
            yield f"{name}: the strips give {told[name]} pieces, {pieces[name]} are cut"
        joined = any(_is_joined(row, cloth) for row in rows if row["for"] == name)
        if laid[name] != cuts[name] and not (joined and laid[name] > cuts[name]):
            yield f"{name}: {laid[name]} cuts are laid, {cuts[name]} are told"


def _is_joined(row, cloth):
    """Whether a part is cut across the cloth and longer than that is wide, so that it is joined from strips."""
    return row["method"] == "strip" and max(row["cut_in"]) > cloth["width_in"] + HAIR


def _figures(cloth, rows, outlines, parts, allowance):
    """Every cut that is laid has the printed size; what is joined has it when its stretches are sewn."""
    wanted = defaultdict(list)
    for row in rows:
        wanted[row["for"]].append(row)
    stretches = defaultdict(list)
    seen = set()
    for strip, _, cuts in _strips(cloth):
        for cut in cuts:
            name, points = cut["for"], cut["outline_in"]
            size = _size(points)
            key = (name, len(points), *(round(x, 3) for x in size))
            if key in seen and name not in parts:
                continue
            seen.add(key)
            if not wanted[name]:
                yield f"{name} is laid and in no list"
                continue
            if name in BY_LENGTH or name.startswith("backing"):
                if not any(
                    min(abs(s - c) for s in size for c in row["cut_in"]) < HAIR
                    for row in wanted[name]
                ):
                    yield f"{name} is laid {size}, listed {wanted[name][0]['cut_in']}"
                continue
            if name in parts and _is_joined(wanted[name][0], cloth):
                stretches[name].append((size, strip))
                continue
            if not any(_is_cut(points, row, outlines.get(name), allowance) for row in wanted[name]):
                yield f"{name} is laid {size}, listed {[row['cut_in'] for row in wanted[name]]}"
    for name, some in stretches.items():
        row = wanted[name][0]
        high, long = sorted(row["cut_in"])
        if any(abs(size[1] - high) > HAIR for size, _ in some):
            yield f"{name}: joined from strips of another width than {high} in"
        joins = len(some) - row["pieces"]
        sewn = sum(size[0] for size, _ in some) - joins * 2 * allowance
        if sewn < row["pieces"] * long - HAIR:
            yield f"{name}: joined strips are {sewn:.3f} in long, {row['pieces']} x {long} in are needed"


def _size(points):
    xs, ys = zip(*points, strict=True)
    return round(max(xs) - min(xs), 6), round(max(ys) - min(ys), 6)


def _is_cut(points, row, outline, allowance):
    """Whether a cut has the size of a line of the list."""
    size, listed = _size(points), row["cut_in"]
    if (
        row["method"] in PER_CUT
        or row["method"] in ("square", "rectangle", "octagons from a square", "rough rectangle")
        or "strip" in (row["method"].split()[0],)
    ):
        return all(abs(a - b) < HAIR for a, b in zip(sorted(size), sorted(listed), strict=True))
    if row["method"] == "bias strips":
        area = listed[0] * listed[1] * math.sqrt(2)  # across the strip at 45 degrees
        return math.isclose(size[1], listed[0], abs_tol=HAIR) and math.isclose(
            Polygon(points).area, area, abs_tol=1e-3
        )
    if (
        row["method"] == "template on fusible web"
    ):  # cut out roughly, as large as the list says up to a mark of the ruler
        return all(0 <= b - a < 0.125 for a, b in zip(sorted(size), sorted(listed), strict=True))
    if "outline_in" not in row:
        return False
    raw = raw_piece(row, clean(outline), allowance)
    if raw is None and _holds(points, moved_sides(clean(outline), -allowance)):
        return True  # with full points, which its template trims
    if raw is None:
        whole = row["outline_in"]
        return math.isclose(Polygon(points).area, Polygon(whole).area, abs_tol=1e-3) or _holds(
            points, whole
        )
    alike = likeness(clean(points), raw)
    return alike is not None and alike[1] < 1e-3


def _holds(points, whole):
    """Whether a laid figure has room for a template."""
    alike = likeness(clean(points), clean(whole))
    return alike is not None and alike[1] < 1e-3
