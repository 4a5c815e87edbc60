"""Floor 7: one plan of the whole cloth, cut in several parts. Nothing is planned anew, so that nothing is bought twice.

A strip is cut whole in the part that first needs a piece of it; what it gives beside that is kept for the parts after. So
every cut of the plan belongs to one part, and what the parts cut, kept pieces included, is what the whole cuts.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby

from booklet.crafts.unit import TogetherUnit
from booklet.cutting.cutting_plan import (
    CutPatch,
    CuttingPlan,
    FabricPlan,
    InParts,
    KeptForLater,
    Placed,
    Strip,
    StripUse,
)
from booklet.kit.measure import ZERO, Length
from booklet.kit.records import Mutable, Record, field, replace
from booklet.kit.words import phrase

Line = tuple[str, str]
"""What is counted together: a cloth, and the letter or the name of what is cut from it."""


def in_parts(
    whole: CuttingPlan, counts: Mapping[str, int], part_of: Mapping[str, int], parts: int
) -> tuple[CuttingPlan, ...]:
    """The plan of each part, in order. `counts` tells how many of each block the size has, `part_of` in which part (from
    1) each is sewn; all that is cut for no block is of the last."""
    division = _Division(whole=whole, counts=counts, part_of=part_of, parts=parts)
    return tuple(division.plans())


class _Lot(Record):
    """What is cut at once: a strip, or a piece of cloth sold ready cut with all its strips. `rows` are the numbers of its
    kinds of strips in the cloth's plan, each with the number of the strip."""

    fabric: str
    rows: tuple[tuple[int, int], ...]
    cuts: tuple[Placed, ...]

    @property
    def gives(self) -> Counter[Line]:
        """How many pieces of each line it gives."""
        found: Counter[Line] = Counter()
        for cut in self.cuts:
            found[self.fabric, cut.name] += len(cut.shapes)
        return found


class _Division(Mutable, kw_only=True):
    """Deals the strips of a plan to the parts, one after the other."""

    whole: CuttingPlan
    counts: Mapping[str, int]
    part_of: Mapping[str, int]
    parts: int
    lots: list[_Lot] = field(default_factory=list)
    lines: dict[Line, list[CutPatch]] = field(default_factory=dict)
    wanted: dict[Line, list[int]] = field(default_factory=dict)  # by part
    rounds: dict[str, list[int]] = field(default_factory=dict)  # by unit made together

    def plans(self) -> Iterator[CuttingPlan]:
        """The plan of each part."""
        for patch in self.whole.patches:
            self.lines.setdefault((patch.fabric, patch.name), []).append(patch)
        self.lots = [lot for cloth in self.whole.fabrics for lot in _lots(cloth)]
        self.rounds = {unit.name: self._rounds(unit) for unit in self.whole.together}
        self.wanted = {line: self._wanted(line) for line in self.lines}
        cut = self._dealt()
        for number in range(1, self.parts + 1):
            yield self._plan(number, cut)

    def _units(self, unit: TogetherUnit) -> list[int]:
        """How many units each part takes."""
        found = [0] * self.parts
        for block, _ in unit.members:
            found[self.part_of[block] - 1] += self.counts.get(block, 0)
        return found

    def _rounds(self, unit: TogetherUnit) -> list[int]:
        """How many rounds of a unit are made in each part: as few as it needs beside what is left of earlier ones."""
        taken, made, found = 0, 0, []
        for units in self._units(unit):
            taken += units
            more = max(0, -(-taken // unit.each) - made)
            made += more
            found.append(more)
        return found

    def _wanted(self, line: Line) -> list[int]:
        """How many pieces of a line each part needs. Where they are not all alike (mirrored, of a print with an up), or
        are no pieces of blocks, the first that needs any has them all."""
        patches, found = self.lines[line], [0] * self.parts
        for patch in patches:
            for block, each in patch.per_block:
                found[self.part_of[block] - 1] += each * self.counts.get(block, 0)
        for unit in self.whole.together:
            for cut in unit.cuts:
                if (cut.fabric, cut.name) == line:
                    per_round = cut.count // max(1, unit.rounds)
                    found = [rounds * per_round for rounds in self.rounds[unit.name]]
        pieces = sum(patch.pieces for patch in patches)
        if sum(found) != pieces:
            return [0] * (self.parts - 1) + [pieces]
        return found

    def _is_alike(self, line: Line) -> bool:
        """Whether any piece of a line may stand for any other, so that strips can be dealt out by their number."""
        patches = self.lines.get(line, [])
        if len(patches) != 1:
            return False
        patch = patches[0]
        placed = [cut for lot in self.lots for cut in lot.cuts if (lot.fabric, cut.name) == line]
        return (
            patch.reversed in (0, patch.pieces)
            and not patch.pairs
            and len({wedges for wedges, _ in patch.gives}) <= 1
            and sum(len(cut.shapes) for cut in placed) == patch.pieces
            and len(placed) == patch.cuts
            and (bool(patch.per_block) or patch.name in self._unit_cuts())
        )

    def _unit_cuts(self) -> frozenset[str]:
        return frozenset(cut.name for unit in self.whole.together for cut in unit.cuts)

    def _dealt(self) -> dict[int, int]:
        """The part in which each lot is cut, by its place."""
        alike = {line for line in self.lines if self._is_alike(line)}
        found: dict[int, int] = {}
        pool: Counter[Line] = Counter()
        for number in range(1, self.parts + 1):
            for line, wanted in self.wanted.items():
                need = wanted[number - 1]
                if not need:
                    continue
                if line not in alike:
                    self._take_all(line, number, alike, found, pool)
                while line in alike and pool[line] < need:
                    place = self._best(line, number, alike, found, pool)
                    self._take(place, number, alike, found, pool)
                pool[line] -= need
        for place, _ in enumerate(self.lots):
            found.setdefault(place, self.parts)
        return found

    def _best(
        self,
        line: Line,
        number: int,
        alike: set[Line],
        found: Mapping[int, int],
        pool: Counter[Line],
    ) -> int:
        """The lot to cut next for a line: one that gives this part the most and later ones the least."""

        def worth(place: int) -> tuple[bool, int, int, int]:
            gives = self.lots[place].gives
            now = sum(
                min(n, max(0, self.wanted[one][number - 1] - max(0, pool[one])))
                for one, n in gives.items()
                if one in self.wanted
            )
            early = any(
                one not in alike and one in self.wanted and not self.wanted[one][number - 1]
                for one in gives
            )
            return early, -now, sum(gives.values()) - now, place

        return min(
            (p for p, lot in enumerate(self.lots) if p not in found and lot.gives[line]), key=worth
        )

    def _take(
        self, place: int, number: int, alike: set[Line], found: dict[int, int], pool: Counter[Line]
    ) -> None:
        """Cut a lot in a part; with it all of each line whose pieces are not alike."""
        found[place] = number
        gives = self.lots[place].gives
        pool.update(gives)
        for line in gives:
            if line not in alike:
                self._take_all(line, number, alike, found, pool)

    def _take_all(
        self, line: Line, number: int, alike: set[Line], found: dict[int, int], pool: Counter[Line]
    ) -> None:
        for place, lot in enumerate(self.lots):
            if place not in found and lot.gives[line]:
                self._take(place, number, alike, found, pool)

    def _plan(self, number: int, cut: Mapping[int, int]) -> CuttingPlan:
        """What is cut in a part."""
        sewn = {block for block, part in self.part_of.items() if part == number}
        patches = tuple(
            replace(made, per_block=tuple(each for each in made.per_block if each[0] in sewn))
            for line, alike in self.lines.items()
            for patch in alike
            if (made := self._patch(line, patch, number, cut)) is not None
        )
        names = {(patch.fabric, patch.name) for patch in patches}
        cloths = tuple(
            _cloth(cloth, [self.lots[p] for p in sorted(cut) if cut[p] == number], now)
            for cloth in self.whole.fabrics
            for now in [self._bought_in(cloth, cut) == number]
            if any(fabric == cloth.fabric for fabric, _ in names)
        )
        return replace(
            self.whole,
            patches=patches,
            fabrics=cloths,
            together=tuple(
                some
                for unit in self.whole.together
                if (some := self._unit(unit, number, sewn)) is not None
            ),
            offers=(),
            joins=tuple(
                join
                for join in self.whole.joins
                if any((join.fabric, part.name) in names for part in join.parts)
            ),
            trims={block: steps for block, steps in self.whole.trims.items() if block in sewn},
            in_parts=InParts(
                number=number,
                ready=tuple(k for k in self._kept(number - 1, cut) if k.until == number),
                kept=tuple(self._kept(number, cut)),
                cloth_left=self._cloth_left(number, cut),
                pieces_left=self._pieces_left(number, cut),
                bought_in={
                    cloth.fabric: self._bought_in(cloth, cut) for cloth in self.whole.fabrics
                },
            ),
        )

    def _part_without_strips(self, line: Line) -> int:
        """The part of a line that lies in no strip: the first that needs any."""
        return next((n for n, need in enumerate(self.wanted[line], 1) if need), self.parts)

    def _given(self, line: Line, upto: int, cut: Mapping[int, int]) -> int:
        """How many pieces of a line are cut up to a part."""
        return sum(lot.gives[line] for p, lot in enumerate(self.lots) if cut[p] <= upto)

    def _patch(
        self, line: Line, patch: CutPatch, number: int, cut: Mapping[int, int]
    ) -> CutPatch | None:
        """A line of the cutting table as far as it is cut in a part."""
        lots = [(p, lot) for p, lot in enumerate(self.lots) if lot.gives[line]]
        if not lots:
            return patch if self._part_without_strips(line) == number else None
        mine = [lot for p, lot in lots if cut[p] == number]
        if not mine or len(mine) == len(lots):
            return patch if mine else None
        pieces = sum(lot.gives[line] for lot in mine)
        cuts = sum(one.name == patch.name for lot in mine for one in lot.cuts)
        return replace(
            patch,
            pieces=pieces,
            reversed=pieces if patch.reversed else 0,
            cuts=cuts,
            gives=tuple((wedges, cuts) for wedges, _ in patch.gives[:1]),
        )

    def _unit(self, unit: TogetherUnit, number: int, sewn: set[str]) -> TogetherUnit | None:
        """A unit made together as far as it is made, or taken ready made, in a part."""
        members = tuple(member for member in unit.members if member[0] in sewn)
        rounds = self.rounds[unit.name][number - 1]
        if not (rounds or members):
            return None
        each = max(1, unit.rounds)
        return replace(
            unit,
            members=members,
            rounds=rounds,
            units=min(rounds * unit.each, unit.units),
            cuts=tuple(replace(one, count=one.count // each * rounds) for one in unit.cuts),
        )

    def _kept(self, upto: int, cut: Mapping[int, int]) -> Iterator[KeptForLater]:
        """What is cut and made up to a part for later ones."""
        for line, patches in self.lines.items():
            without = not any(lot.gives[line] for lot in self.lots)
            total = sum(patch.pieces for patch in patches)
            if without:
                made = total if self._part_without_strips(line) <= upto else 0
            else:
                whole = self._given(line, self.parts, cut)
                made = self._given(line, upto, cut)
                made = total if made == whole else made
            for until, count in _shared(self.wanted[line], upto, made):
                title = patches[0].title
                yield KeptForLater(
                    name=line[1], title=title, fabric=line[0], count=count, until=until
                )
        for unit in self.whole.together:
            made = min(sum(self.rounds[unit.name][:upto]) * unit.each, unit.units)
            for until, count in _shared(self._units(unit), upto, made):
                yield KeptForLater(
                    name=unit.name, title=unit.name, fabric=None, count=count, until=until
                )

    def _bought_in(self, cloth: FabricPlan, cut: Mapping[int, int]) -> int:
        """The part in which a cloth is cut first."""
        strips = [cut[p] for p, lot in enumerate(self.lots) if lot.fabric == cloth.fabric]
        others = [
            self._part_without_strips(line)
            for line in self.lines
            if line[0] == cloth.fabric and not any(lot.gives[line] for lot in self.lots)
        ]
        return min((*strips, *others), default=self.parts)

    def _later(self, cloth: FabricPlan, number: int, cut: Mapping[int, int]) -> list[_Lot]:
        """What is cut of a cloth after a part."""
        return [
            lot for p, lot in enumerate(self.lots) if lot.fabric == cloth.fabric and cut[p] > number
        ]

    def _cloth_left(self, number: int, cut: Mapping[int, int]) -> dict[str, Length]:
        """The length that later parts cut of each cloth that is bought by then."""
        found = {}
        for cloth in self.whole.fabrics:
            if cloth.stock is None and self._bought_in(cloth, cut) <= number:
                rows = [row for lot in self._later(cloth, number, cut) for row in lot.rows]
                length = sum((cloth.strips[kind].width for kind, _ in rows), ZERO)
                if length > ZERO:
                    found[cloth.fabric] = length
        return found

    def _pieces_left(self, number: int, cut: Mapping[int, int]) -> dict[str, int]:
        """How many pieces of cloth sold ready cut later parts take."""
        left = {
            cloth.fabric: len(self._later(cloth, number, cut))
            for cloth in self.whole.fabrics
            if cloth.stock is not None
        }
        return {fabric: count for fabric, count in left.items() if count}


def _shared(wanted: Sequence[int], upto: int, made: int) -> Iterator[tuple[int, int]]:
    """What is left of so many made up to a part, as later parts take it: the part and how many."""
    left = made - sum(wanted[:upto])
    for until, need in enumerate(wanted[upto:], upto + 1):
        if (count := min(need, left)) > 0:
            left -= count
            yield until, count


def _lots(cloth: FabricPlan) -> Iterator[_Lot]:
    """What is cut of a cloth at once, in its order."""
    rows = [
        (strip.stock, (kind, n), layout)
        for kind, strip in enumerate(cloth.strips)
        for n, layout in enumerate(strip.layouts)
    ]
    if cloth.stock is None:
        for _, row, layout in rows:
            yield _Lot(cloth.fabric, (row,), layout)
        return
    for _, some in groupby(rows, key=lambda row: row[0]):
        piece = tuple(some)
        cuts = tuple(cut for _, _, layout in piece for cut in layout)
        yield _Lot(cloth.fabric, tuple(row for _, row, _ in piece), cuts)


def _cloth(cloth: FabricPlan, lots: Sequence[_Lot], buys: bool) -> FabricPlan:
    """A cloth as far as it is cut in a part: its strips below each other, the sum of the amount where it is bought."""
    mine = [lot for lot in lots if lot.fabric == cloth.fabric]
    chosen = {row for lot in mine for row in lot.rows}
    strips = _laid_anew(cloth, chosen, [lot.rows for lot in mine])
    length = sum((strip.width * strip.count for strip in strips), ZERO)
    buy = cloth.buy
    if buy.count is not None:
        count = len(mine)
        told = phrase("{n} {unit}", n=count, unit=buy.unit)
        yards = buy.yards * count / buy.count
        buy = replace(buy, count=count, yards=yards, yards_text=told)
    return replace(
        cloth,
        strips=strips,
        length=length if cloth.stock is None else len(mine) * cloth.stock[1],
        buy=buy,
        sum=cloth.sum if buys and cloth.stock is None else (),
        leftovers=(),
        uncut=ZERO,
    )


def _laid_anew(
    cloth: FabricPlan, chosen: set[tuple[int, int]], lots: Sequence[tuple[tuple[int, int], ...]]
) -> tuple[Strip, ...]:
    """The chosen strips of a cloth, moved up to where those that are not cut in this part lay."""
    made: list[Strip] = []
    down = 0.0
    number = {row: n for n, rows in enumerate(lots, 1) for row in rows}
    for kind, strip in enumerate(cloth.strips):
        own = [n for n in range(len(strip.layouts)) if (kind, n) in chosen]
        if not own:
            continue
        layouts, starts = [], []
        stock = number[kind, own[0]] if cloth.stock is not None else 0
        for n in own:
            start = down
            if cloth.stock is not None:
                start = strip.starts[n] + (stock - strip.stock) * float(cloth.stock[1])
            layouts.append(tuple(_moved(cut, start - strip.starts[n]) for cut in strip.layouts[n]))
            starts.append(start)
            down += float(strip.width)
        uses = strip.uses if len(own) == len(strip.layouts) else _uses(layouts)
        made.append(
            replace(
                strip,
                count=len(own),
                uses=uses,
                layouts=tuple(layouts),
                starts=tuple(starts),
                stock=stock,
            )
        )
    return tuple(made)


def _uses(layouts: Sequence[tuple[Placed, ...]]) -> tuple[StripUse, ...]:
    """What strips give, counted."""
    cuts: Counter[str] = Counter()
    pieces: Counter[str] = Counter()
    for cut in (cut for layout in layouts for cut in layout):
        cuts[cut.name] += 1
        pieces[cut.name] += len(cut.shapes)
    return tuple(StripUse(name, cuts[name], pieces[name]) for name in cuts)


def _moved(cut: Placed, dy: float) -> Placed:
    return replace(cut, outline=tuple((x, round(y + dy, 9)) for x, y in cut.outline))
