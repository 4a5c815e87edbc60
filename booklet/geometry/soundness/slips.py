"""Floor 3: brings the faults of a block together that come from one slip, and finds what would mend it.

Overlaps, pieces outside and near misses of the same entries of the source hang together, and so do the gaps
beside them. Gaps alone hang together where they lie beside the same entries, as those of a ring do.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from booklet.geometry.soundness.sites import Fault, Points, Site
from booklet.geometry.soundness.subdivision import Subdivision
from booklet.geometry.soundness.trials import repair
from booklet.kit.records import replace
from booklet.pattern import Piece

REST = "mend the other faults here first: the gap may come from them"
Slip = tuple[frozenset[int], list[Fault]]  # places of the entries in the source; their faults


def by_slip(site: Site, parts: Subdivision, faults: Sequence[Fault]) -> tuple[Fault, ...]:
    """The same faults, those of one slip with one cause; the first of each says what mends it, where a
    trial shows that."""
    found: list[Fault] = []
    for number, (entries, group) in enumerate(_slips(site, faults), 1):
        first = group[0].diagnostic
        likely = _likeliest(site, entries, group)
        way = None if first.code == "too-close" else repair(site, parts.border, likely)
        mended = _helped(group, way)
        together = [mended, *(_after(first.code, fault) for fault in group[1:])]
        cause = f"slip {number} in block {site.block.id}" if len(group) > 1 else None
        found += [_caused(fault, cause, fault is not mended) for fault in together]
    return tuple(found)


def _helped(group: Sequence[Fault], way: tuple[str, tuple[Points, ...]] | None) -> Fault:
    """The first fault with what mends it: the way that was found, or what another of them knows."""
    first = group[0]
    if way is None:
        knows = next((fault for fault in group if fault.mended), first)
        hint, there = knows.diagnostic.hint, knows.mended
    else:
        hint, there = way
    return replace(first, diagnostic=replace(first.diagnostic, hint=hint), mended=there)


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
