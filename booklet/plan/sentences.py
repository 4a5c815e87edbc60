"""Floor 9: what a step card says, composed from how its seams run, end, turn and are pressed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from booklet.pattern import By
from booklet.plan.words import listed, plural, sentence, spoken
from booklet.pressing.pressing import Pressing
from booklet.sewing.assembly import Assembly, End, Kind, Run, Step


@dataclass(frozen=True, slots=True)
class Naming:
    """How the parts of one block are named for its reader."""

    assembly: Assembly
    fabric_names: dict[str, str]
    fabrics_of: dict[str, set[str]]  # patch letter -> fabrics it is cut from in this block
    made_in: dict[str, Step]  # unit name -> the step that makes it

    @classmethod
    def of(cls, assembly: Assembly, fabric_names: dict[str, str]) -> Naming:
        """The naming for a block's assembly."""
        fabrics_of: dict[str, set[str]] = {}
        for piece in assembly.tiling.pieces:
            fabrics_of.setdefault(piece.patch, set()).add(piece.fabric)
        made_in = {step.make: step for step in assembly.steps if step.make}
        return cls(assembly, fabric_names, fabrics_of, made_in)

    def piece(self, id: str) -> str:
        """A piece by its letter, with its fabric where the letter comes in more than one."""
        piece = self.assembly.tiling.piece(id)
        name = f"{piece.patch} reversed" if piece.reversed else piece.patch
        if len(self.fabrics_of[piece.patch]) > 1:
            name += f" ({self.fabric_names[piece.fabric].lower()})"
        return name

    def part(self, name: str) -> str:
        """A part of a step: a piece by its letter, or a unit by its spoken name."""
        step = self.made_in.get(name)
        if step is None:
            return self.piece(name)
        return f"the {self.unit(step)}"

    def unit(self, step: Step) -> str:
        """The spoken name of what a step makes."""
        if step is self.assembly.steps[-1] or step.make == self.assembly.tiling.block:
            return "block"
        return spoken(step.make, alike=step.times > 1)

    def taken(self, name: str) -> str:
        """A part with where it comes from: "pair (step 1)"."""
        step = self.made_in.get(name)
        if step is None:
            return self.piece(name)
        return f"{self.unit(step)} (step {step.card})"


def card_title(step: Step, naming: Naming) -> str:
    """The title of a step's card: the verb first."""
    parts = [naming.part(name) for name in step.join]
    first, rest = parts[0], parts[1:]
    if step.finish:
        return f"Close the seam between {listed(parts)}"
    if step.kind is Kind.PARTIAL:
        return f"Sew {first} to {listed(rest)}, part of the way"
    if step.kind is Kind.RING:
        return f"Close the ring: {listed(parts)}"
    if step.kind is Kind.SET_IN:
        host, guest = _host_and_guest(step, naming)
        return f"Set {guest} into {host}"
    return f"Sew {listed(parts)} together" if len(parts) > 2 else f"Sew {first} to {rest[0]}"


def _host_and_guest(step: Step, naming: Naming) -> tuple[str, str]:
    """The bigger part takes the smaller one in."""
    units = naming.assembly.units
    ordered = sorted(step.join, key=lambda name: len(units.get(name, (name,))))
    host, guests = ordered[-1], [name for name in step.join if name != ordered[-1]]
    return naming.part(host), listed([naming.part(name) for name in guests])


def what_to_do(step: Step, naming: Naming, made: int) -> Iterator[str]:
    """The sentences of a card; `made` is how many alike units the whole quilt needs."""
    runs = step.runs
    for number, run in enumerate(runs):
        lead = ""
        if len(runs) > 1:
            lead = ("First" if number == 0 else "Then" if number < len(runs) - 1 else "Last") + ", "
        yield sentence(lead + _run(run, step, naming.assembly))
    if any(run.by is By.MACHINE and run.turns for run in runs):
        yield "At each turn leave the needle down, lift the foot and turn the work."
    if any(run.by is By.HAND for run in runs):
        yield "Backstitch where the thread starts and ends. " + (
            "At a turn pass the needle through the allowances at the dot, never over them."
            if any(run.turns for run in runs)
            else "Do not sew through a crossing allowance."
        )
    if step.by is By.MACHINE and made > 1 and not any(run.turns for run in runs):
        yield f"Chain-piece them: {made} for the quilt, one behind the other."


def _run(run: Run, step: Step, assembly: Assembly) -> str:
    """How one run is sewn, in lower case."""
    how = "by hand" if run.by is By.HAND else "by machine"
    if step.kind is Kind.PARTIAL and not step.finish:
        return f"{how}: sew from dot 1 and stop at the open circle; the rest waits for a later step"
    if step.finish:
        return f"{how}: sew the part that was left open"
    start, end = run_ends(run, assembly)
    if run.turns:
        stops = [f"dot {n}" for n in range(1, len(run.turns) + 3)]
        path = f"from {stops[0]} to {', turn, to '.join(stops[1:])}"
        thread = ", on one thread" if run.by is By.HAND else ""
        return f"{how}{thread}: sew {path}" + (
            ". Stop at the last dot." if end is End.POINT else "."
        )
    if (start, end) == (End.EDGE, End.EDGE):
        return f"{how}: sew from edge to edge."
    if (start, end) == (End.POINT, End.POINT):
        return f"{how}: sew from dot to dot. Stop at the dot."
    return f"{how}: sew from the edge to the dot. Stop at the dot."


def run_ends(run: Run, assembly: Assembly) -> tuple[End, End]:
    """How a run begins and ends: at a point or off the raw edge."""
    return _end(run.seams[0], run.points[0], assembly), _end(
        run.seams[-1], run.points[-1], assembly
    )


def _end(seam_id: str, at: tuple[float, float], assembly: Assembly) -> End:
    seam, sewn = assembly.tiling.seam(seam_id), assembly.sewn[seam_id]
    return sewn.ends[0] if seam.start == at else sewn.ends[1]


def how_to_press(step: Step, pressing: Pressing, naming: Naming) -> Iterator[str]:
    """The pressing sentences of a card."""
    seams = [seam for run in step.runs for seam in run.seams]
    if step.finish or step.kind is Kind.PARTIAL or not seams:
        return
    if all(pressing.after[seam] != step.n for seam in seams):
        when = pressing.after[seams[0]]
        last = pressing.assembly.steps[-1].n
        yield (
            "Leave the pressing to the end."
            if when == last
            else "Press later, with the step that closes the unit."
        )
        return
    units = naming.assembly.units
    sides: dict[str, None] = {}
    for seam in seams:
        toward = pressing.pressed[seam].toward
        part = next((p for p in step.join if toward in units.get(p, (p,))), None)
        sides[naming.part(part) if part else "open"] = None
    if list(sides) == ["open"]:
        yield "Press the allowances open."
    elif len(sides) == 1:
        yield f"Press toward {next(iter(sides))}."
    else:
        yield "Press each allowance as its arrow shows."


def look_alikes(step: Step, naming: Naming) -> Iterator[str]:
    """Warnings about parts that are easily mistaken for each other."""
    tiling = naming.assembly.tiling
    letters = {tiling.piece(name).patch for name in step.join if name not in naming.made_in}
    for letter in sorted(letters):
        if tiling.patch(letter).reversed_too:
            yield f"{letter} and {letter} reversed are mirror images: lay them out as drawn before you sew."


def pressing_summary(pressing: Pressing) -> Iterator[str]:
    """The pressing of the block in words."""
    kinds = [junction.kind.value for junction in pressing.junctions]
    fans = [j for j in pressing.junctions if j.clockwise is not None]
    if pressing.at_end:
        yield "Every seam stops at its points, so leave all pressing to the end."
    if fans:
        clockwise = sum(bool(j.clockwise) for j in fans)
        ways = []
        if clockwise:
            ways.append(f"clockwise at {plural(clockwise, 'point')}")
        if len(fans) - clockwise:
            ways.append(f"anticlockwise at {plural(len(fans) - clockwise, 'point')}")
        yield f"The allowances fan, seen from the back: {listed(ways)}."
    if count := kinds.count("nest"):
        yield f"At {plural(count, 'crossing')} the allowances lie in opposite directions and lock."
    if count := kinds.count("open"):
        yield f"At {plural(count, 'point')} the allowances are pressed open."
    if count := kinds.count("clash"):
        yield f"At {plural(count, 'point')} the allowances lie on top of each other: press these hard, or open."


def thread_lines(assembly: Assembly, measure: Iterable[str]) -> Iterator[str]:
    """One line for each hand route; `measure` gives their lengths in words."""
    for number, (thread, length) in enumerate(zip(assembly.threads, measure, strict=True), start=1):
        turns = f", {plural(thread.turns, 'turn')}" if thread.turns else ""
        yield f"Thread {number}: {plural(len(thread.seams), 'seam')}, {length}{turns}."
