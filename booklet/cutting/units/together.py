"""Floor 7: units sewn from larger pieces and cut afterwards, as the author asks for it: which, how many."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from booklet.crafts.rotary.ruler import Ruler
from booklet.crafts.unit import Alike, FoundUnit, TogetherCut, TogetherUnit, Unit, UnitAsked, Way
from booklet.crafts.units import UNITS
from booklet.cutting.units.unit_candidates import Candidate, candidates
from booklet.kit.records import replace
from booklet.pattern import Size
from booklet.quilt.sized import SizedQuilt
from booklet.sewing.assembly import Assembled


def free_units(pattern: Assembled, quilt: SizedQuilt) -> tuple[Candidate, ...]:
    """The units of a size that nothing hinders from being made together."""
    return tuple(unit for unit in candidates(pattern, quilt) if unit.hindrance is None)


def made_together(
    free: Iterable[Candidate], quilt: SizedQuilt, ruler: Ruler
) -> tuple[TogetherUnit, ...]:
    """The units of a size that are made together, named U1, U2, … in the order of their kinds."""
    asked = {wish.key: wish.choice for wish in quilt.size.cutting.wishes}
    ways = {key: UNITS[key].way(choice) for key, choice in asked.items()}
    return _made(free, quilt, ruler, ways)


def offers(
    free: Iterable[Candidate], quilt: SizedQuilt, ruler: Ruler, made: tuple[TogetherUnit, ...]
) -> tuple[TogetherUnit, ...]:
    """The units that could be made together besides those that are: what to offer the author."""
    taken = {member for unit in made for member in unit.members}
    every = {key: unit.ways[-1] for key, unit in UNITS.items()}
    found = _made(free, quilt, ruler, every)
    return tuple(unit for unit in found if not taken & set(unit.members))


def _made(
    free: Iterable[Candidate], quilt: SizedQuilt, ruler: Ruler, ways: Mapping[str, Way]
) -> tuple[TogetherUnit, ...]:
    """The units of the kinds that have a way, in the order of the kinds, named as they come."""
    widths = {id: fabric.usable for id, fabric in quilt.size.fabrics.items()}
    found: list[TogetherUnit] = []
    for key, unit in UNITS.items():
        for alike in alike_units(unit, free, quilt.blocks) if key in ways else ():
            asked = UnitAsked(f"U{len(found) + 1}", quilt.size.cutting.trim, ruler, widths)
            made = ways[key].figures(alike, asked)
            if made is not None and too_large(made, quilt.size) is None:
                found.append(_of_all_kits(made, quilt.size.kits))
    return tuple(found)


def too_large(unit: TogetherUnit, size: Size) -> TogetherCut | None:
    """A cut of a unit for which one piece of its cloth, sold ready cut, is too small; None where all fit."""
    for part in unit.cuts:
        piece = size.fabrics[part.fabric].piece
        fits = piece is None or any(
            part.cut[0] <= across and part.cut[1] <= along for across, along in (piece, piece[::-1])
        )
        if not fits:
            return part
    return None


def _of_all_kits(unit: TogetherUnit, kits: int) -> TogetherUnit:
    """The unit with what is cut for it in all kits: each kit holds whole rounds, for its student makes them."""
    cuts = tuple(replace(cut, count=cut.count * kits) for cut in unit.cuts)
    return replace(unit, units=unit.units * kits, rounds=unit.rounds * kits, cuts=cuts)


def found_units(unit: Unit, among: Iterable[Candidate]) -> list[tuple[Candidate, FoundUnit]]:
    """The candidates that are of a kind, the largest first; no piece is in two of them."""
    taken: set[tuple[str, str]] = set()
    found = []
    for candidate in sorted(among, key=lambda candidate: -len(candidate.ids)):
        own = {(candidate.block, id) for id in candidate.ids}
        if own & taken or (seen := unit.find(candidate.joined)) is None:
            continue
        taken |= own
        sizes = tuple(round(size, 6) for size in seen.sizes)
        found.append((candidate, replace(seen, sizes=sizes)))
    return found


def alike_units(
    unit: Unit, among: Iterable[Candidate], blocks: Mapping[str, int]
) -> tuple[Alike, ...]:
    """The units of a kind by size and fabrics, the smallest first, with how many the quilt needs."""
    groups: dict[tuple[tuple[float, ...], tuple[str, ...]], list[tuple[Candidate, FoundUnit]]] = {}
    for candidate, seen in found_units(unit, among):
        key = tuple(round(size, 4) for size in seen.sizes), seen.fabrics
        groups.setdefault(key, []).append((candidate, seen))
    return tuple(
        Alike(
            group[0][1],
            tuple((candidate.block, candidate.ids) for candidate, _ in group),
            sum(blocks[candidate.block] for candidate, _ in group),
        )
        for _, group in sorted(groups.items())
    )
