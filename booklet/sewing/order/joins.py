"""Floor 4: declared steps become drafts, one after the other, with every fault of the order found.

A faulty step is mended as well as can be (parts that do not touch are put together all the same), so
that one fault does not bring on others; a block with a fault gets no assembly.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from booklet.geometry.tiling import Tiling
from booklet.kit.diagnostic import Diagnostic, Span
from booklet.kit.records import replace
from booklet.pattern import By, DeclaredStep, Sewing
from booklet.sewing import faults
from booklet.sewing.assembly import StepKind
from booklet.sewing.drafts import Draft
from booklet.sewing.order.machine_or_hand import kind_of, sewers, sewn_by
from booklet.sewing.order.partial_seams import finishing, hold_back, toward_open
from booklet.sewing.order.stretches import Stretch, common_seams, rim_points, stretches
from booklet.sewing.order.table import OpenSeam, SewingTable, SewnUnit, free_name
from booklet.sewing.order.table_faults import apart, left_over, missing_part

Parts = list[tuple[str, Span, SewnUnit]]


class Joiner:
    """Works through the steps of one block and collects drafts and faults."""

    def __init__(self, tiling: Tiling, sewing: Sewing) -> None:
        self.tiling = tiling
        self.sewing = sewing
        self.rim = rim_points(tiling)
        self.table = SewingTable(tiling)
        self.drafts: list[Draft] = []
        self.faults: list[Diagnostic] = []
        self.makes: dict[int, str] = {}
        self.causes: dict[
            str, str
        ] = {}  # parts of faulty steps, and units not made -> the fault's cause
        self.unopened: list[
            tuple[tuple[str, str], str]
        ] = []  # between which pieces a seam is closed that was to stay open, and the fault's cause
        self.closed: list[faults.ClosedSeam] = []

    def take(self, declared: DeclaredStep) -> None:
        """Sew one declared step."""
        if declared.by is By.MACHINE and self.sewing.papers is not None:
            self._fault(declared, faults.machine_over_papers(self.tiling.block, declared))
        if declared.finish:
            self._finish(declared)
        else:
            self._join(declared)

    def _join(self, declared: DeclaredStep) -> None:
        """Join the parts of a step in their order."""
        parts = self._parts(declared)
        if len(parts) < len(declared.join):
            lost = declared.join if len(parts) > 1 else (*declared.join, declared.make)
            self.causes.update((name, self.faults[-1].cause or "") for name in lost)
        if len(parts) < 2:
            return
        n = len(self.drafts) + 1
        leave = self._left_for(declared)
        done = parts[0][2].pieces
        joins: list[tuple[Stretch, ...]] = []
        for name, span, unit in parts[1:]:
            partial = leave if name == parts[-1][0] else frozenset[str]()
            joins.append(self._meet(declared, done, name, span, unit, partial))
            done |= unit.pieces
        alias = declared.make or declared.join[0]
        new = self.table.merge([unit for _, _, unit in parts], self._name(declared), alias, n)
        self.makes[n] = new.name
        self._draft(declared, [unit for _, _, unit in parts], joins, new)

    def _fault(self, declared: DeclaredStep, fault: Diagnostic, *names: str) -> None:
        """Note a fault of a step. It follows from an earlier one if a name it speaks of is doubtful since
        then; the times of one entry have one cause."""
        earlier = next((self.causes[name] for name in names if name in self.causes), None)
        own = f"step {declared.entry + 1} of block {self.tiling.block}"
        self.faults.append(replace(fault, cause=earlier or own, follows=earlier is not None))

    def _draft(
        self,
        declared: DeclaredStep,
        parts: list[SewnUnit],
        joins: list[tuple[Stretch, ...]],
        new: SewnUnit,
    ) -> None:
        """Note down what a join does."""
        flat = tuple(stretch for join in joins for stretch in join)
        self.drafts.append(
            Draft(
                n=new.step,
                declared=declared,
                make=new.name,
                join=tuple(unit.name for unit in parts),
                parts=tuple(unit.pieces for unit in parts),
                part_steps=tuple(unit.step for unit in parts),
                stretches=flat,
                by=sewers(flat, declared, self.sewing, self.tiling),
                kind=kind_of(joins, self.tiling, partial=declared.leave is not None),
                level=new.level,
            )
        )

    def _name(self, declared: DeclaredStep) -> str:
        """The name of the unit made, its own: where the first part keeps its name, "c with a1"."""
        name = declared.make or declared.join[0]
        if name not in self.table.known:
            return name
        name = f"{name} with {declared.join[-1]}"
        return name if name not in self.table.known else free_name(self.table.known, f"{name} ")

    def _parts(self, declared: DeclaredStep) -> Parts:
        """The units a step joins, each found on the table; faults for those that are not there."""
        found: Parts = []
        for name, span in zip(declared.join, declared.join_spans, strict=True):
            unit = self.table.units.get(name)
            if unit is None:
                fault = missing_part(self.table, self.makes, self.tiling.block, name, span)
                self._fault(declared, fault, name)
            elif any(unit == other for _, _, other in found):
                self._fault(declared, faults.named_twice(self.tiling.block, name, span))
            else:
                found.append((name, span, unit))
        return found

    def _left_for(self, declared: DeclaredStep) -> frozenset[str]:
        """The pieces a partial seam is left open for."""
        if declared.leave is None:
            return frozenset()
        if declared.leave not in self.table.known:
            fault = faults.unknown_part(
                self.tiling.block, declared.leave, declared.span, self.table.known
            )
            self._fault(declared, fault, declared.leave)
        return self.table.known.get(declared.leave, frozenset())

    def _meet(
        self,
        declared: DeclaredStep,
        done: frozenset[str],
        name: str,
        span: Span,
        unit: SewnUnit,
        leave: frozenset[str],
    ) -> tuple[Stretch, ...]:
        """The stretches that join one more unit to what is there, as far as they are sewn now."""
        fewer = done if len(done) < len(unit.pieces) else unit.pieces
        near = self.table.unsewn_around(fewer)
        shared = common_seams(near, done, unit.pieces)
        if not shared:
            fault = apart(self.table, declared, self.tiling.block, name, span, unit)
            self._fault(declared, fault, *declared.join)
            return ()
        now: list[Stretch] = []
        for stretch in stretches(shared, done, self.rim):
            part, self.table.open = self._hold_back(stretch, done)
            now.extend([part] if part else [])
        if leave:
            now = self._leave_open(declared, now, leave, done, unit)
        self.table.sewn(seam.id for seam in shared)
        return tuple(now)

    def _hold_back(
        self, stretch: Stretch, done: frozenset[str]
    ) -> tuple[Stretch | None, list[OpenSeam]]:
        """What of a stretch is sewn now; what waits is noted with the open seam it continues."""
        part, still_open = hold_back(stretch, self.table.open, done, self.tiling)
        return part, list(still_open)

    def _leave_open(
        self,
        declared: DeclaredStep,
        now: list[Stretch],
        leave: frozenset[str],
        done: frozenset[str],
        unit: SewnUnit,
    ) -> list[Stretch]:
        """The one stretch of a partial join, ending short of where `leave` will come."""
        there = leave & (done | unit.pieces)
        turned = toward_open(now[0], leave, self.tiling) if len(now) == 1 and not there else None
        if turned is None:
            fault = faults.cannot_stay_open(self.tiling.block, declared, is_there=bool(there))
            self._fault(declared, fault, *declared.join)
            cause = self.faults[-1].cause or ""
            closed = [self.tiling.seam(id).between for stretch in now for id in stretch.seams]
            self.unopened += [(between, cause) for between in closed]
            return now
        last = self.tiling.seam(turned.seams[-1])
        gap = OpenSeam(
            seam=last,
            at=turned.points[-1],
            leave=declared.leave or "",
            step=len(self.drafts) + 1,
            first=done,
        )
        self.table.open.append(gap)
        return [turned]

    def _finish(self, declared: DeclaredStep) -> None:
        """Close the partial seam between two parts."""
        gap = next((gap for gap in self.table.open if self._lies(gap.seam.between, declared)), None)
        if gap is None:
            fault = faults.nothing_to_finish(
                self.tiling.block,
                declared,
                [(gap.seam.between, gap.leave) for gap in self.table.open],
                next((gap for gap in self.closed if self._lies(gap.between, declared)), None),
            )
            causes = [cause for between, cause in self.unopened if self._lies(between, declared)]
            if causes:
                self.faults.append(replace(fault, cause=causes[0], follows=True))
            else:
                self._fault(declared, fault, *declared.join)
            return
        self.table.open.remove(gap)
        self.closed.append(faults.ClosedSeam(gap.seam.between, gap.leave, declared.span))
        n = len(self.drafts) + 1
        before = self.table.holding(gap.seam.between[0])
        unit = self.table.renew(before, n)
        self.makes[n] = unit.name
        stretch = finishing(gap)
        begun = self.drafts[gap.step - 1].by[-1]
        by = sewn_by(stretch, declared, self.sewing, self.tiling)
        self.drafts.append(
            Draft(
                n=n,
                declared=declared,
                make=unit.name,
                join=declared.join,
                parts=(unit.pieces,),
                part_steps=(before.step,),
                stretches=(stretch,),
                by=(begun if declared.by is None and begun is By.HAND else by,),
                kind=StepKind.PARTIAL,
                level=unit.level,
                repeats=gap.seam.id,
            )
        )

    def _lies(self, between: tuple[str, str], declared: DeclaredStep) -> bool:
        """Whether a seam between two pieces lies between the two parts a finish names."""
        sides = [self.table.known.get(name, frozenset()) for name in declared.join]
        one, other = between
        return len(sides) == 2 and (
            (one in sides[0] and other in sides[1]) or (one in sides[1] and other in sides[0])
        )


def draft_steps(
    tiling: Tiling, steps: Iterable[DeclaredStep], sewing: Sewing, block_span: Span
) -> tuple[tuple[Draft, ...], dict[str, tuple[str, ...]], tuple[Diagnostic, ...]]:
    """The drafts of a block's steps, the pieces of every name, and the faults of the order.

    The last draft makes the block itself, whatever its step called it.
    """
    joiner = Joiner(tiling, sewing)
    for step in steps:
        joiner.take(step)
    drafts = list(joiner.drafts)
    begun = {draft.n: draft.declared for draft in drafts}
    missing = left_over(joiner.table, tiling, begun, joiner.causes, block_span)
    place = {piece.id: k for k, piece in enumerate(tiling.pieces)}
    units = {
        name: tuple(sorted(pieces, key=place.__getitem__))
        for name, pieces in sorted(joiner.table.known.items())
    }
    if drafts:
        drafts[-1] = replace(drafts[-1], make=tiling.block)
        units.setdefault(
            tiling.block, tuple(piece.id for piece in tiling.pieces)
        )  # or a piece's name
    return tuple(drafts), units, (*joiner.faults, *_after(joiner.faults, missing))


def _after(found: Sequence[Diagnostic], missing: Iterable[Diagnostic]) -> Iterator[Diagnostic]:
    """What is missing at the end, following from the first fault of the steps where there is one."""
    for fault in missing:
        yield replace(fault, cause=found[0].cause, follows=True) if found else fault
