"""Floor 3: says what is wrong where a block's pieces do not cover it exactly once.

The verdict is the one-chain test of the subdivision; shapely only finds the places and the areas.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.geometry import overlay
from booklet.geometry.soundness.hints import fill_hint, move_hint
from booklet.geometry.soundness.near_misses import near_misses, untold
from booklet.geometry.soundness.noding import TOO_CLOSE
from booklet.geometry.soundness.sites import Fault, Site
from booklet.geometry.soundness.slips import by_slip
from booklet.geometry.soundness.subdivision import Subdivision
from booklet.geometry.tiling import Outline
from booklet.geometry.words import area_words, length_words, place_words
from booklet.kit.diagnostic import Diagnostic, Span
from booklet.kit.groups import tied_groups
from booklet.kit.measure import decimal_text
from booklet.kit.outlines.near import ONE_POINT
from booklet.kit.outlines.plane import Point, box_of, length_of, rectangle

MOST = 20  # diagnostics of one block; a last one says that there are more
MOST_PAIRS = 400  # overlapping pairs looked at


def shape_faults(site: Site, border: Outline | None) -> tuple[Fault, ...]:
    """A fault for every outline that crosses itself; copies of a ring are told once."""
    outlines = [piece.outline.points for piece in site.pieces]
    told: set[Span] = set()
    faults = []
    for piece, simple in zip(site.pieces, overlay.simple_ones(outlines), strict=True):
        if not simple and piece.span not in told:
            told.add(piece.span)
            at = overlay.crossing_place(piece.outline.points) or piece.outline.corners[0]
            faults.append(_crossed(site, f"piece `{piece.id}` of block", at, piece.span))
    if border is not None and not overlay.is_simple(border.points):
        at = overlay.crossing_place(border.points) or border.corners[0]
        faults.append(_crossed(site, "the outline of block", at, site.block.outline_span))
    return tuple(faults)


def no_pieces(site: Site) -> Fault:
    """The fault of a block without pieces."""
    message = f"block `{site.block.id}` has no pieces"
    hint = "add pieces that cover it"
    return Fault(
        key=(site.block.id, "gap"),
        diagnostic=Diagnostic(code="gap", message=message, span=site.block.span, hint=hint),
    )


def _crossed(site: Site, what: str, at: Point, span: Span) -> Fault:
    message = (
        f"{what} `{site.block.id}` crosses or touches itself near {place_words(at, site.unit)}"
    )
    hint = "list the corners in the order in which you meet them walking round the outline"
    return Fault(
        key=(site.block.id, "crossed-shape", span),
        diagnostic=Diagnostic(code="crossed-shape", message=message, span=span, hint=hint),
        spots=(at,),
    )


def crowded_faults(site: Site, border: Outline | None) -> tuple[Fault, ...]:
    """The overlaps of a block whose pieces lie in a heap, where noding them would take too long."""
    outlines = tuple(piece.outline for piece in site.pieces)
    if not overlay.is_crowded([outline.points for outline in outlines]):
        return ()
    rough = Subdivision(
        outlines=outlines,
        drawn=outlines,
        rings=(),
        owner={},
        repeated=(),
        rim=frozenset(),
        near=(),
        border=border,
        border_edges=frozenset(),
    )
    return _capped(site, list(_overlaps(site, rough, overlay.SLIVER)))


def find_faults(site: Site, parts: Subdivision, told: bool) -> tuple[Fault, ...]:
    """The faults of a block, none if it is sound; `told` means a piece is missing and already named.

    At most MOST are listed; one more counts those left out. Those of one slip have one cause.
    """
    if parts.is_sound():
        near = list(near_misses(site, parts, frozenset(), sound=True))
        return by_slip(site, parts, _capped(site, near))
    faults = _visible(site, parts, told, overlay.SLIVER)
    named = frozenset(name for fault in faults for name in fault.key[2:])
    faults.extend(near_misses(site, parts, named, sound=False))
    if not faults and not told:
        faults = _apart(site, parts) or _visible(site, parts, told, overlay.SLIVER / 100)
    if not faults and not told:
        faults = [untold(site, parts)]
    if faults and not told and (sized := _sized_otherwise(site, parts, faults)) is not None:
        return (sized,)
    return by_slip(site, parts, _capped(site, faults))


def _sized_otherwise(site: Site, parts: Subdivision, faults: Sequence[Fault]) -> Fault | None:
    """The one fault of a block whose pieces fill another rectangle than its own exactly; None where they do not."""
    outlines = [outline.points for outline in parts.outlines]
    left, top, right, low = box_of([point for points in outlines for point in points])
    border = box_of(parts.border.points) if parts.border is not None else None
    if border is None or border[:2] != (0, 0) or max(abs(left), abs(top)) > ONE_POINT:
        return None
    if len(outlines) == 1:
        return None  # then it is the piece that has the wrong size as well as the block
    box = rectangle(0, 0, right, low)
    if overlay.overlapping_pairs(outlines, most=1) or overlay.difference(box, outlines):
        return None
    size, own = (_across_down(site, *corner) for corner in ((right, low), border[2:]))
    larger = right > border[2] + ONE_POINT or low > border[3] + ONE_POINT
    hint = (
        "move or shorten the pieces that reach beyond it"
        if larger
        else "add the pieces that are missing"
    )
    found = Diagnostic(
        code="outside-block" if larger else "gap",
        message=f"the pieces of block `{site.block.id}` fill `{size}` exactly, but its size is `{own}`",
        span=site.block.outline_span,
        hint=f"write `size: {size}`, or {hint}",
    )
    areas = tuple(area for fault in faults for area in fault.areas)
    return Fault(key=(site.block.id, "size"), diagnostic=found, areas=areas)


def _across_down(site: Site, across: float, down: float) -> str:
    """A size as the source writes it: `6 x 4`."""
    wide, high = (decimal_text(side / float(site.unit), 9) for side in (across, down))
    return f"{wide} x {high}"


def _visible(site: Site, parts: Subdivision, told: bool, sliver: float) -> list[Fault]:
    """Overlaps, pieces outside and gaps, those thinner than `sliver` left out."""
    faults = [*_overlaps(site, parts, sliver), *_outside(site, parts)]
    return faults if told else [*faults, *_gaps(site, parts, sliver)]


def _capped(site: Site, faults: list[Fault]) -> tuple[Fault, ...]:
    """The first MOST faults, and one that says there are more."""
    if len(faults) <= MOST:
        return tuple(faults)
    message = f"block `{site.block.id}` has more than {MOST} faults; the others are not shown"
    code = faults[MOST].diagnostic.code
    hint = "repair those that are shown first"
    last = Diagnostic(code=code, message=message, span=site.block.span, hint=hint)
    return (*faults[:MOST], Fault(key=(site.block.id, "more"), diagnostic=last))


def _overlaps(site: Site, parts: Subdivision, sliver: float) -> Iterator[Fault]:
    """Pairs of pieces that share an area; pairs of the same two rings are told once."""
    outlines = [outline.points for outline in parts.outlines]
    index = overlay.PieceIndex(outlines)
    alike: dict[tuple[object, ...], list[tuple[int, int, float]]] = {}
    for first, second, area in overlay.overlapping_pairs(outlines, MOST_PAIRS, sliver):
        entries = (site.pieces[first].span, site.pieces[second].span, round(area, 6))
        alike.setdefault(entries, []).append((first, second, area))
    for pairs in list(alike.values())[: MOST + 1]:
        first, second, area = pairs[0]
        piece = site.pieces[second]
        message = (
            f"pieces {site.name(first)} and {site.name(second)} of block `{site.block.id}` overlap "
            f"by {area_words(area, site.units)}"
        )
        places = overlay.overlap_parts(outlines[first], outlines[second])
        if places:
            message += f" around {place_words(overlay.label_point(places[0]), site.unit)}"
        if len(pairs) > 1:
            more = len(pairs) - 1
            message += f", and so do{'es' if more == 1 else ''} {more} more pair{'s' * (more > 1)} of their copies"
        hint, mended, wrong = move_hint(site.pieces, parts, index, (first, second), site.unit)
        key = (site.block.id, "overlap", site.pieces[first].id, piece.id)
        about = frozenset(index for first, second, _ in pairs for index in (first, second))
        shared = tuple(
            place
            for first, second, _ in pairs[:MOST]
            for place in overlay.overlap_parts(outlines[first], outlines[second])
        )
        span = site.pieces[wrong].span
        found = Diagnostic(code="overlap", message=message, span=span, hint=hint)
        yield Fault(key=key, diagnostic=found, about=about, areas=shared, mended=mended)


def _outside(site: Site, parts: Subdivision) -> Iterator[Fault]:
    """Pieces that reach over the border the source gives."""
    if parts.border is None:
        return
    border = parts.border.points
    for n, (piece, outline) in enumerate(zip(site.pieces, parts.outlines, strict=True)):
        beyond = overlay.reach_beyond(outline.points, border)
        if beyond > TOO_CLOSE:
            message = (
                f"piece `{piece.id}` reaches {length_words(beyond, site.units)} beyond the edge of "
                f"block `{site.block.id}`"
            )
            hint = "move it inwards, make it smaller, or make the block larger"
            if (
                site.block.span.file != piece.span.file
            ):  # of a drawing, whose frame is that of its ends
                message += ": its edge bulges beyond the ends of its lines, which lie on the edge"
                hint = "draw the outer edge of the block straight: put pieces with curves inside a straight frame"
            key = (site.block.id, "outside-block", piece.id)
            found = Diagnostic(code="outside-block", message=message, span=piece.span, hint=hint)
            over = overlay.difference(outline.points, [border])
            yield Fault(key=key, diagnostic=found, about=frozenset({n}), areas=over)


def _gaps(site: Site, parts: Subdivision, sliver: float) -> Iterator[Fault]:
    """Places that no piece covers: inside the border, or enclosed by pieces where there is none."""
    outlines = [outline.points for outline in parts.outlines]
    if parts.border is None:
        empty = overlay.holes(outlines)
    else:
        empty = overlay.difference(parts.border.points, outlines)
    empty = tuple(g for g in empty if overlay.area(g) > sliver * length_of((*g, g[0])))
    for n, gap in enumerate(empty):
        message = (
            f"block `{site.block.id}` has a gap of {area_words(overlay.area(gap), site.units)} "
            f"around {place_words(overlay.label_point(gap), site.unit)}"
        )
        span = site.block.outline_span if parts.border is not None else site.block.span
        around = overlay.outlines_near(gap, outlines, TOO_CLOSE)
        found = Diagnostic(
            code="gap",
            message=message,
            span=span,
            hint=fill_hint(gap, site.pieces, parts, site.unit),
        )
        yield Fault(key=(site.block.id, "gap", n), diagnostic=found, about=around, areas=(gap,))


def _apart(site: Site, parts: Subdivision) -> list[Fault]:
    """Pieces that do not hang together by a side with the first piece."""
    groups = tied_groups(len(site.pieces), parts.beside())
    alike: dict[frozenset[int], list[int]] = {}
    for group in groups[1 : MOST + 2]:  # the copies of a ring are apart for one reason
        alike.setdefault(frozenset(id(site.pieces[i].piece) for i in group), []).extend(group)
    faults = []
    for apart in alike.values():
        one = len(apart) == 1
        names = ", ".join(site.name(i) for i in apart[:4]) + (" and more" if len(apart) > 4 else "")
        what, verb = ("piece", "shares") if one else ("pieces", "share")
        piece = site.pieces[apart[0]]
        message = (
            f"{what} {names} of block `{site.block.id}` {verb} no side with piece "
            f"{site.name(groups[0][0])} or those sewn to it"
        )
        hint = f"move {'it' if one else 'them'} so that a whole side meets, or make two blocks"
        faults.append(
            Fault(
                key=(site.block.id, "apart", piece.id),
                diagnostic=Diagnostic(code="apart", message=message, span=piece.span, hint=hint),
            )
        )
    return faults
