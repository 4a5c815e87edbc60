"""Floor 9: what a step card says, composed from how its seams run, end, turn and are pressed."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from booklet.pattern import By
from booklet.plan.words import listed, plural, sentence, spoken
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
        unit = self.unit(step)
        return unit if unit[-1].isdigit() else f"the {unit}"

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
    if step.finish:
        return f"Close the seam between {_together(step.join, naming)}"
    if step.kind is Kind.PARTIAL:
        return f"Sew {parts[0]} to {listed(parts[1:])}, part of the way"
    if step.kind is Kind.RING:
        return f"Close the ring: {_together(step.join, naming)}"
    if step.kind is Kind.SET_IN:
        host, guests = _host_and_guests(step, naming)
        return f"Set {_together(guests, naming)} into {naming.part(host)}"
    if len(parts) == 2:
        return f"Sew {parts[0]} to {parts[1]}"
    if len(parts) == 3 and parts[0] == parts[2]:
        return f"Sew {_one(step.join[0], naming)} to either end of {parts[1]}"
    return f"Sew {_together(step.join, naming)} together"


def _host_and_guests(step: Step, naming: Naming) -> tuple[str, tuple[str, ...]]:
    """The bigger part takes the smaller ones in."""
    units = naming.assembly.units
    host = max(step.join, key=lambda name: (len(units.get(name, (name,))), name))
    return host, tuple(name for name in step.join if name != host)


def _one(name: str, naming: Naming) -> str:
    """One of several alike: "A", "a wing"."""
    step = naming.made_in.get(name)
    return naming.piece(name) if step is None else f"a {naming.unit(step)}"


def _together(names: Sequence[str], naming: Naming) -> str:
    """Parts in words, alike ones counted: "A and C", "2 rows", "2 rows and C"."""
    counts = Counter(naming.part(name) for name in names)
    words = []
    for name in dict.fromkeys(names):
        part = naming.part(name)
        if count := counts.pop(part, 0):
            words.append(part if count == 1 else _several(count, name, naming))
    return listed(words)


def _several(count: int, name: str, naming: Naming) -> str:
    step = naming.made_in.get(name)
    return f"{count} {naming.piece(name)}" if step is None else plural(count, naming.unit(step))


def what_to_do(step: Step, naming: Naming, made: int) -> Iterator[str]:
    """The sentences of a card; `made` is how many alike units the whole quilt needs."""
    runs = step.runs
    said = [_run(run, step, naming.assembly) for run in runs]
    if len(said) > 1 and len(set(said)) == 1:
        yield sentence(said[0].replace(": sew", f", {_each(len(said))}: sew", 1))
    else:
        leads = ["First, ", *["Then, "] * (len(said) - 1)] if len(said) > 1 else [""]
        yield from (sentence(lead + text) for lead, text in zip(leads, said, strict=True))
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


def _each(count: int) -> str:
    """A number of runs that are sewn alike."""
    return "both seams" if count == 2 else f"each of the {count} seams"


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


def look_alikes(step: Step, naming: Naming) -> Iterator[str]:
    """Warnings about parts that are easily mistaken for each other."""
    tiling = naming.assembly.tiling
    letters = {tiling.piece(name).patch for name in step.join if name not in naming.made_in}
    for letter in sorted(letters):
        if tiling.patch(letter).reversed_too:
            yield f"{letter} and {letter} reversed are mirror images: lay them out as drawn before you sew."


def thread_lines(assembly: Assembly, measure: Iterable[str]) -> Iterator[str]:
    """One line for each hand route; `measure` gives their lengths in words."""
    for number, (thread, length) in enumerate(zip(assembly.threads, measure, strict=True), start=1):
        turns = f", {plural(thread.turns, 'turn')}" if thread.turns else ""
        yield f"Thread {number}: {plural(len(thread.seams), 'seam')}, {length}{turns}."
