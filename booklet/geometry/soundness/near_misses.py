"""Floor 3: points of a block that are neither together nor apart."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.geometry.loops import Edge
from booklet.geometry.soundness.sites import Fault, Site
from booklet.geometry.soundness.subdivision import Subdivision, ring_edges
from booklet.geometry.words import length_words, place_words
from booklet.kit.diagnostic import Diagnostic
from booklet.kit.outlines.plane import Point, off_line

EXACTLY = "write the numbers exactly, such as `1/3` or `sqrt(2)`, or with six decimals"


def near_misses(
    site: Site, parts: Subdivision, named: frozenset[object], sound: bool
) -> Iterator[Fault]:
    """Points that are neither together nor apart, once for every pair of pieces not already named."""
    if not parts.near:
        return
    on_curve = {p for outline in parts.outlines for side in outline.sides for p in side.via}
    at_point: dict[Point, list[int]] = {}
    at_edge: dict[Edge, list[int]] = {}
    for index, outline in enumerate(parts.outlines):
        for edge in ring_edges(outline.points):
            at_point.setdefault(edge[0], []).append(index)
            at_edge.setdefault((min(edge), max(edge)), []).append(index)
    told: set[tuple[int, int]] = set()
    for point, edge in parts.near:
        if sound and (point in on_curve or edge[0] in on_curve or edge[1] in on_curve):
            continue  # a curve may run close by without harm
        pairs = [
            (min(a, b), max(a, b))
            for a in at_point.get(point, ())
            for b in at_edge.get(edge, ())
            if a != b
        ]
        pair = min(pairs, default=None)
        if pair is None or pair in told or named & {site.pieces[i].id for i in pair}:
            continue
        told.add(pair)
        curved = point in on_curve and (edge[0] in on_curve or edge[1] in on_curve)
        yield _too_close(site, pair, point, off_line(point, *edge), curved)


def _too_close(
    site: Site, pair: tuple[int, int], at: Point, by: float, curved: bool = False
) -> Fault:
    first, second = pair
    what = "the curved sides of pieces" if curved else "pieces"
    message = (
        f"{what} {site.name(first)} and {site.name(second)} of block `{site.block.id}` miss each other "
        f"by {length_words(by, site.units)} near {place_words(at, site.unit)}: too close to tell whether they meet"
    )
    hint = EXACTLY
    if curved:
        hint = "draw the curve alike in both: an arc of the same radius, or the same control points"
    piece = site.pieces[second]
    key = (site.block.id, "too-close", site.pieces[first].id, piece.id)
    found = Diagnostic(code="too-close", message=message, span=piece.span, hint=hint)
    return Fault(key=key, diagnostic=found, about=frozenset(pair), spots=(at,))


def untold(site: Site, parts: Subdivision) -> Fault:
    """The chain test failed by less than the eye can find: named at the first edge without a match."""
    if parts.repeated:
        edge, index = parts.repeated[0]
        return _too_close(site, (parts.owner[edge], index), edge[0], 0.0)
    wrong = sorted(parts.rim ^ parts.border_edges) or sorted(parts.rim)
    edge = wrong[0]
    index = parts.owner.get(edge, 0)
    message = (
        f"piece {site.name(index)} of block `{site.block.id}` does not quite meet its neighbour or the "
        f"block's edge near {place_words(edge[0], site.unit)}"
    )
    hint = EXACTLY
    piece = site.pieces[index]
    key = (site.block.id, "too-close", piece.id)
    return Fault(
        key=key,
        diagnostic=Diagnostic(code="too-close", message=message, span=piece.span, hint=hint),
    )
