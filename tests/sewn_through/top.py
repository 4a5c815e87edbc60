"""The top, its borders and its layers: blocks and parts laid out, and every length joined and measured."""

import math

from shapely import unary_union
from shapely.affinity import rotate, translate
from shapely.geometry import Polygon

from sewn_through.as_cut import seam_line
from sewn_through.sewing import TOLERANCE
from sewn_through.shapes import clean, sides

HAIR = 1e-3
LOOSE = 0.18
"""Inches: setting triangles are cut a little large and trimmed once sewn (common practice). Their square is rounded
up by at most 1/8 in, the long side of its half by √2 of that: 0.177."""


def complaints(facts):
    """What does not measure as stated in the top and its layers, in any size."""
    return [
        f"{id}: {fault}"
        for id, size in facts["sizes"].items()
        if "finished_in" in size["quilt"]
        for check in (_laid, _parts, _borders, _binding, _backing, _batting, _triangles)
        for fault in check(size, facts["allowance_in"])
    ]


def _blocks(size):
    """The outline of every block in its place in the top."""
    whole = {
        name: unary_union(
            [Polygon(p.get("outline_in", p["corners_in"])).buffer(1e-6) for p in block["pieces"]]
        )
        for name, block in size["blocks"].items()
    }
    return [
        translate(rotate(whole[p["block"]], p["turn"], origin=(0, 0)), *p["at_in"])
        for p in size["quilt"]["placed"]
    ]


def _laid(size, _):
    """Blocks and parts cover the finished top, each spot once."""
    quilt = size["quilt"]
    wide, high = quilt["finished_in"]
    figures = _blocks(size)
    if "kept_in" in quilt:
        kept = Polygon(quilt["kept_in"])
        figures = [figure.intersection(kept) for figure in figures]
    figures += [Polygon(place) for part in quilt["parts"] for place in part["places_in"]]
    whole = unary_union([figure.buffer(1e-5) for figure in figures])
    left, up, right, down = whole.bounds
    if max(abs(left), abs(up), abs(right - wide), abs(down - high)) > HAIR:
        yield f"the top lies from ({left:.3f}, {up:.3f}) to ({right:.3f}, {down:.3f}), {wide} x {high}"
    if abs(whole.area - wide * high) > HAIR * (wide + high):
        yield f"blocks and parts cover {whole.area:.2f} of {wide * high:.2f} square inches"
    area = sum(figure.area for figure in figures)
    if abs(area - wide * high) > HAIR * (wide + high):
        yield f"blocks and parts are {area:.2f} square inches, the top {wide * high:.2f}"


def _parts(size, allowance):
    """A part as cut, less the allowances, has its stated size, and the size of its places in the top."""
    rows = {row["for"]: row for row in size["rotary"]}
    for part in size["quilt"]["parts"]:
        row = rows.get(part["name"])
        if row is None or part["name"] in ("sleeve", "envelope back"):
            continue
        sewn = sides(seam_line(row, [(0, 0), (1, 0), (1, 1)], allowance))
        loose = LOOSE if "triangle" in part["shape"] else TOLERANCE
        tight = TOLERANCE
        if part["shape"] == "mitred strip":
            continue
        for place in part["places_in"]:
            for found, wanted in zip(sorted(sewn), sorted(sides(clean(place))), strict=False):
                if not -tight <= found - wanted <= loose:
                    yield f"{part['name']}: cut {row['cut_in']} it is {found:.3f} in sewn, not {wanted:.3f}"
                    break
            else:
                continue
            break


def _inside(size):
    """The size of the top within its borders."""
    quilt = size["quilt"]
    figures = _blocks(size)
    if "kept_in" in quilt:
        figures = [figure.intersection(Polygon(quilt["kept_in"])) for figure in figures]
    figures += [
        Polygon(place)
        for part in quilt["parts"]
        if not part["name"].startswith("border ")
        for place in part["places_in"]
    ]
    left, up, right, down = unary_union(figures).bounds
    return right - left, down - up


def _borders(size, allowance):
    """Each border is as long as the top it is sewn to, and the top grows by its widths: at its sides, at top and
    bottom."""
    borders = size["finishing"].get("borders", [])
    wide, high = _inside(size)
    rows = {row["for"]: row for row in size["rotary"]}
    for number, border in enumerate(borders, 1):
        sides, ends = border.get("widths_in") or [border["width_in"]] * 2
        both = 2 * allowance
        match border["corners"]:
            case "butted":
                wanted = wide + 2 * sides + both, high + both
            case "squares":
                wanted = wide + both, high + both
            case _:
                slants = [
                    2 * allowance * (beside + math.hypot(own, beside)) / own
                    for own, beside in ((ends, sides), (sides, ends))
                ]
                wanted = wide + 2 * sides + slants[0], high + 2 * ends + slants[1]
        told = border["lengths_in"]
        most = TOLERANCE if border["corners"] != "mitred" else 4
        strips = [
            strip
            for strip in zip(("top and bottom", "sides"), wanted, (ends, sides), strict=True)
            if strip[2]
        ]
        if told[::2] != told[1::2] or not border["strips"] == len(told) == 2 * len(strips):
            yield f"border {number}: {border['strips']} strips of {told}"
        for (which, need, w), length in zip(strips, told[::2], strict=True):
            if not -TOLERANCE <= length - need <= most:
                yield f"border {number}, {which}: cut {length:.3f} in, needs {need:.3f} in"
            row = rows.get(f"border {number} {which}")
            if row is None or abs(max(row["cut_in"]) - max(length, w + both)) > HAIR:
                yield f"border {number}, {which}: {length} in is told, cut is {row and row['cut_in']}"
            elif abs(min(row["cut_in"]) - min(length, w + both)) > TOLERANCE:
                yield f"border {number}, {which}: {w} in wide is told, cut is {row['cut_in']}"
        wide, high = wide + 2 * sides, high + 2 * ends
        if max(abs(a - b) for a, b in zip(border["outside_in"], (wide, high), strict=True)) > HAIR:
            yield f"after border {number} the top is {border['outside_in']}, not {wide:.3f} x {high:.3f}"
    if (
        max(abs(a - b) for a, b in zip(size["quilt"]["finished_in"], (wide, high), strict=True))
        > HAIR
    ):
        yield f"with its borders the top is {wide:.3f} x {high:.3f}, told {size['quilt']['finished_in']}"


def _binding(size, allowance):
    """The joined strips reach round the quilt, with a tail; a join at 45 degrees takes a strip's width."""
    binding = size["finishing"].get("binding")
    if not binding:
        return
    wide, high = size["quilt"]["finished_in"]
    strip, length = binding["strip_in"], binding["length_in"]
    if length < 2 * (wide + high) + strip - HAIR:
        yield f"binding: {length} in goes round {2 * (wide + high)} in without a tail"
    rows = [row for row in size["rotary"] if row["for"] == "binding"]
    if sum(row["pieces"] for row in rows) != binding["strips"]:
        yield f"binding: {binding['strips']} strips are told, cut are {rows}"
    for row in rows:
        if row["fabric"] != binding["fabric"]:
            yield f"binding: cut from {row['fabric']}"
        if binding["bias"]:
            side = row["cut_in"][0]
            lines = math.floor(side / math.sqrt(2) / strip + 1e-9)
            made = row["pieces"] * lines * math.sqrt(2) * (side - 2 * allowance)
            made -= (row["pieces"] - 1) * strip
        else:
            if abs(min(row["cut_in"]) - strip) > HAIR:
                yield f"binding: {strip} in wide is told, cut is {row['cut_in']}"
            long = max(row["cut_in"])
            made = row["pieces"] * long - (row["pieces"] - 1) * strip
        if made < length - HAIR:
            yield f"binding: the strips make {made:.3f} in, {length} in are told"


def _backing(size, _):
    """The panels, joined, cover the stated size, and that is larger than the top on every side."""
    backing = size["finishing"].get("backing")
    if not backing:
        return
    wide, high = backing["size_in"]
    top = size["quilt"]["finished_in"]
    if wide < top[0] + 1 or high < top[1] + 1:
        yield f"backing {wide} x {high} under a top {top}"
    rows = [row for row in size["rotary"] if row["for"].startswith("backing")]
    cut = sorted(tuple(row["cut_in"]) for row in rows for _ in range(row["pieces"]))
    told = sorted((p["along_cloth_in"], p["across_cloth_in"]) for p in backing["panels"])
    # a last panel that is joined from strips lies across the cloth: as wide in the back as it is high there
    turned = [
        (p["along_cloth_in"], p["across_cloth_in"]) for p in backing["panels"] if "strips" in p
    ]
    if cut != told or len(cut) != backing["widths"]:
        yield f"backing: {backing['widths']} widths are told, {told}, cut are {cut}"
    cut = [panel[::-1] if panel in turned else panel for panel in cut]
    across = sum(panel[1] for panel in cut) - (len(cut) - 1) * 2 * backing["seam_allowance_in"]
    along = min((panel[0] for panel in cut), default=0)
    covers = (across, along) if backing["panels_run"] == "down" else (along, across)
    if any(c < s - HAIR for c, s in zip(covers, (wide, high), strict=True)):
        yield f"backing: {cut} joined cover {covers}, not {wide} x {high}"
    lengths = (len(cut) - len(turned)) * along
    strips = sum(p.get("strips", 0) * p["along_cloth_in"] for p in backing["panels"])
    if backing["length_in"] < lengths + strips - HAIR:
        yield f"backing: {backing['length_in']} in is told, {cut} are cut"


def _batting(size, _):
    batting = size["finishing"].get("batting")
    if batting and any(
        b < t + 1 for b, t in zip(batting["size_in"], size["quilt"]["finished_in"], strict=True)
    ):
        yield f"batting {batting['size_in']} in a quilt {size['quilt']['finished_in']}"


def _triangles(size, _):
    """As many setting triangles as the top has room for, from squares that give as many."""
    told = size["finishing"].get("setting_triangles", {})
    parts = {part["name"]: part for part in size["quilt"]["parts"]}
    for kind, row in told.items():
        part = parts.get(f"{kind} triangle")
        if part is None or part["count"] != row["count"]:
            yield f"{row['count']} {kind} triangles are told, in the top lie {part and part['count']}"
        cut = [r for r in size["rotary"] if r["for"] == f"{kind} triangle"]
        if any(abs(r["cut_in"][0] - row["square_in"]) > HAIR for r in cut):
            yield f"{kind} triangles from squares of {row['square_in']} in, cut are {cut}"
