"""Floor 3: brings the faults of a block together that come from one slip, and finds what would mend it.

Overlaps, pieces outside and near misses of the same entries of the source hang together, and so do the gaps
beside them. Gaps alone hang together where they lie beside the same entries, as those of a ring do.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from booklet.geometry.soundness.sites import Fault, Site
from booklet.geometry.soundness.subdivision import Subdivision
from booklet.geometry.soundness.trials import Way, repair
from booklet.kit.records import replace
from booklet.pattern import Piece

REST = "mend the other faults here first: the gap may come from them"
Slip = tuple[frozenset[int], list[Fault]]  # places of the entries in the source; their faults


def by_slip(site: Site, parts: Subdivision, faults: Sequence[Fault]) -> tuple[Fault, ...]:
    """The same faults, those of one slip with one cause; the first of each says what mends it, where a
    trial shows that. Of a trial that makes the whole block sound all other faults are consequences."""
    found: list[Fault] = []
    slips = _slips(site, faults)
    ways = [_way(site, parts, entries, group) for entries, group in slips]
    if (one := next((n for n, way in enumerate(ways) if way is not None), None)) is not None:
        others = [fault for n, (_, group) in enumerate(slips) for fault in group if n != one]
        slips, ways = [(slips[one][0], [*slips[one][1], *others])], [ways[one]]
    for number, ((_, group), way) in enumerate(zip(slips, ways, strict=True), 1):
        first = group[0].diagnostic
        mended = _helped(group, way)
        together = [mended, *(_after(first.code, fault) for fault in group[1:])]
        cause = f"slip {number} in block {site.block.id}" if len(group) > 1 else None
        found += [_caused(fault, cause, fault is not mended) for fault in together]
    return tuple(found)


def _way(
    site: Site, parts: Subdivision, entries: frozenset[int], group: Sequence[Fault]
) -> Way | None:
    """What mends the faults of a slip, where a trial shows it."""
    if group[0].diagnostic.code == "too-close":
        return None
    return repair(site, parts.border, _likeliest(site, entries, group))


def _helped(group: Sequence[Fault], way: Way | None) -> Fault:
    """The first fault with what mends it: the way that was found, where it is to be written, or what another of them knows."""
    first = group[0]
    span = first.diagnostic.span
    if way is None:
        knows = next((fault for fault in group if fault.mended), first)
        hint, there = knows.diagnostic.hint, knows.mended
    else:
        hint, there, span = way
        told = (fault.diagnostic.hint or "" for fault in group)  # the same, and which side it meets
        hint = next((more for more in told if more.startswith(hint)), hint)
    found = replace(first.diagnostic, hint=hint, span=span)
    return replace(first, diagnostic=found, mended=there)


def _likeliest(site: Site, entries: frozenset[int], group: Sequence[Fault]) -> list[Piece]:
    """The entries of a slip: those in most of its faults first, those turned before others, the later
    before the earlier."""
    pieces = [site.block.pieces[place] for place in sorted(entries, reverse=True)]
    met = Counter(id(site.pieces[index].piece) for fault in group for index in fault.about)
    return sorted(pieces, key=lambda piece: (-met[id(piece)], not piece.turn))


def _after(code: str, fault: Fault) -> Fault:
    """A fault that is not told first; a gap beside other faults is not to be filled."""
    if fault.diagnostic.code != "gap" or code == "gap":
        return fault
    return replace(fault, diagnostic=replace(fault.diagnostic, hint=REST))


def _caused(fault: Fault, cause: str | None, follows: bool) -> Fault:
    return replace(fault, diagnostic=replace(fault.diagnostic, cause=cause, follows=follows))


def _slips(site: Site, faults: Sequence[Fault]) -> list[Slip]:
    """The faults that hang together, gaps behind the others."""
    slips: list[Slip] = []
    place = {id(piece): n for n, piece in enumerate(site.block.pieces)}

    def entries(fault: Fault) -> frozenset[int]:
        return frozenset(place[id(site.pieces[index].piece)] for index in fault.about)

    for fault in (fault for fault in faults if fault.diagnostic.code != "gap"):
        own = entries(fault)
        met = [slip for slip in slips if slip[0] & own]
        slips = [slip for slip in slips if not slip[0] & own]
        before = [earlier for slip in met for earlier in slip[1]]
        slips.append((own.union(*(slip[0] for slip in met)), [*before, fault]))
    alone: dict[frozenset[int], list[Fault]] = {}
    for gap in (fault for fault in faults if fault.diagnostic.code == "gap"):
        own = entries(gap)
        home = next((slip[1] for slip in slips if slip[0] & own), None)
        (alone.setdefault(own, []) if home is None else home).append(gap)
    return slips + list(alone.items())
