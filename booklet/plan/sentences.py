"""Floor 9: what a step card says, composed from how its seams run, end, turn and are pressed."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from booklet.pattern import By
from booklet.plan.routes import on_one_thread, opened_at
from booklet.plan.words import UNIT_WORDS, spoken
from booklet.sewing.assembly import Assembly, End, Kind, Run, Step
from booklet.words import Phrase, Text, listing, phrase, plural_phrase

NO_NAME = " with "  # in the name of a unit to which the author gave none


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

    def piece(self, id: str) -> Text:
        """A piece by its letter, with its fabric where the letter comes in more than one."""
        piece = self.assembly.tiling.piece(id)
        name = reversed_letter(piece.patch) if piece.reversed else piece.patch
        if len(self.fabrics_of[piece.patch]) > 1:
            return phrase("{piece} ({fabric})", piece=name, fabric=self.fabric_names[piece.fabric])
        return name

    def part(self, name: str) -> Text:
        """A part of a step: a piece by its letter, or a unit by its spoken name."""
        step = self.made_in.get(name)
        if step is None:
            return self.piece(name)
        if NO_NAME in step.make and step is not self.assembly.steps[-1]:
            return phrase("the unit of step {step}", step=step.card)
        unit = self.unit(step)
        return unit if unit[-1].isdigit() else phrase("the {unit}", unit=unit)

    def unit(self, step: Step) -> Text:
        """The spoken name of what a step makes."""
        if step is self.assembly.steps[-1] or step.make == self.assembly.tiling.block:
            return UNIT_WORDS["block"]
        if NO_NAME in step.make:
            return UNIT_WORDS["unit"]
        return spoken(step.make, alike=step.times > 1)

    def taken(self, names: Iterable[str]) -> tuple[Text, ...]:
        """Parts in order with their number, and where units come from: "2 A", "the wing (step 1)",
        "2 sides (step 2)", "row 1 (step 3)"."""
        found: dict[tuple[Text, int], int] = {}
        for name in names:
            step = self.made_in.get(name)
            key = (self.piece(name), 0) if step is None else (self.unit(step), step.card)
            found[key] = found.get(key, 0) + 1
        return tuple(_taken(part, card, n) for (part, card), n in found.items())


def reversed_letter(letter: str) -> Text:
    """A patch turned over, by its letter."""
    return phrase("{letter} reversed", letter=letter)


def _taken(part: Text, card: int, n: int) -> Text:
    """Some alike parts: patches by their letter; units in the plural, or a single one as "the wing"."""
    if not card:
        return part if n == 1 else phrase("{n} {piece}", n=n, piece=part)
    if n > 1 and part == UNIT_WORDS["half"]:
        return phrase("{n} halves (step {step})", n=n, step=card)
    if n > 1:
        return phrase("{n} {unit}s (step {step})", n=n, unit=part, step=card)
    if part[-1].isdigit():
        return phrase("{unit} (step {step})", unit=part, step=card)
    return phrase("the {unit} (step {step})", unit=part, step=card)


def card_title(step: Step, naming: Naming) -> Phrase:
    """The title of a step's card: the verb first."""
    parts = [naming.part(name) for name in step.join]
    if step.finish:
        return phrase("Close the seam between {parts}", parts=_together(step.join, naming))
    if step.kind is Kind.PARTIAL:
        others = listing(parts[1:])
        return phrase("Sew {part} to {others}, part of the way", part=parts[0], others=others)
    if step.kind is Kind.RING:
        return phrase("Close the ring: {parts}", parts=_together(step.join, naming))
    if step.kind is Kind.SET_IN:
        host, guests = _host_and_guests(step, naming)
        return phrase(
            "Set {parts} into {host}", parts=_together(guests, naming), host=naming.part(host)
        )
    if len(parts) == 2:
        return phrase("Sew {part} to {other}", part=parts[0], other=parts[1])
    if len(parts) == 3 and parts[0] == parts[2]:
        one = _one(step.join[0], naming)
        return phrase("Sew {part} to either end of {other}", part=one, other=parts[1])
    return phrase("Sew {parts} together", parts=_together(step.join, naming))


def _host_and_guests(step: Step, naming: Naming) -> tuple[str, tuple[str, ...]]:
    """The bigger part takes the smaller ones in."""
    units = naming.assembly.units
    host = max(step.join, key=lambda name: (len(units.get(name, (name,))), name))
    return host, tuple(name for name in step.join if name != host)


def _one(name: str, naming: Naming) -> Text:
    """One of several alike: "A", "a wing"."""
    step = naming.made_in.get(name)
    return naming.piece(name) if step is None else phrase("a {unit}", unit=naming.unit(step))


def _together(names: Sequence[str], naming: Naming) -> Text:
    """Parts in words, alike ones counted: "A and C", "2 rows", "2 rows and C"."""
    counts = Counter(naming.part(name) for name in names)
    words: list[Text] = []
    for name in dict.fromkeys(names):
        part = naming.part(name)
        if count := counts.pop(part, 0):
            words.append(part if count == 1 else _several(count, name, naming))
    return listing(words)


def _several(count: int, name: str, naming: Naming) -> Text:
    step = naming.made_in.get(name)
    if step is None:
        return phrase("{n} {piece}", n=count, piece=naming.piece(name))
    if naming.unit(step) == UNIT_WORDS["half"]:
        return phrase("{n} halves", n=count)
    return phrase("{n} {unit}s", n=count, unit=naming.unit(step))


def what_to_do(step: Step, naming: Naming, made: int) -> Iterator[Text]:
    """The sentences of a card; `made` is how many alike units the whole quilt needs."""
    runs = step.runs
    yield from _runs(step, naming.assembly)
    yield from _opened(step, naming.assembly)
    if any(run.by is By.MACHINE and run.turns for run in runs):
        yield phrase("At each turn leave the needle down, lift the foot and turn the work.")
    if any(run.by is By.HAND for run in runs):
        yield (
            phrase(
                "Backstitch where the thread starts and ends. At a turn pass the needle through the "
                "allowances at the dot, never over them."
            )
            if any(run.turns for run in runs)
            else phrase(
                "Backstitch where the thread starts and ends. Do not sew through a crossing allowance."
            )
        )
    if step.kind is Kind.CURVED:
        yield phrase(
            "Pin the middle of the curve and both ends first, and ease in what lies between."
        )
    if step.by is By.MACHINE and made > 1 and not step.finish and not step.turns:
        yield phrase("Chain-piece them: {n} for the quilt, one behind the other.", n=made)


def _opened(step: Step, assembly: Assembly) -> Iterator[Phrase]:
    """At which dots of a single run the seams sewn before open to let a corner in."""
    if len(step.runs) != 1:
        return
    (run,) = step.runs
    dots = [
        n for n, k in enumerate(run.turns, 2) if k and any(opened_at(assembly, step, run.points[k]))
    ]
    if dots:
        yield plural_phrase(
            "Spread the earlier seam open at dot {dots}, so that the corner goes in.",
            "Spread the earlier seams open at dots {dots}, so that the corners go in.",
            len(dots),
            dots=listing([str(n) for n in dots]),
        )


def _runs(step: Step, assembly: Assembly) -> Iterator[Text]:
    """A sentence for each run of a step, or one for all if they are sewn alike."""
    whole = [on_one_thread(run, assembly) and bool(run.turns) for run in step.runs]
    ways = [
        (run.by, thread, _run(run, step, assembly))
        for run, thread in zip(step.runs, whole, strict=True)
    ]
    alike = len(ways) > 1 and len(set(ways)) == 1
    for number, (by, thread, what) in enumerate(ways[:1] if alike else ways):
        place = "all" if alike else "" if len(ways) == 1 else "first" if number == 0 else "then"
        yield phrase("{how}: {what}", how=_how(by, place, thread, len(ways)), what=what)


def _how(by: By, place: str, thread: bool, count: int) -> Text:
    """By machine or by hand, which of several runs, and whether on one thread."""
    if place == "all":
        return _all_alike(by, thread, count)
    if thread:
        return {
            "": phrase("By hand, on one thread"),
            "first": phrase("First, by hand, on one thread"),
            "then": phrase("Then, by hand, on one thread"),
        }[place]
    if by is By.HAND:
        return {
            "": phrase("By hand"),
            "first": phrase("First, by hand"),
            "then": phrase("Then, by hand"),
        }[place]
    return {
        "": phrase("By machine"),
        "first": phrase("First, by machine"),
        "then": phrase("Then, by machine"),
    }[place]


def _all_alike(by: By, thread: bool, count: int) -> Text:
    """The same for runs that are sewn alike."""
    if thread and count == 2:
        return phrase("By hand, on one thread, both seams")
    if thread:
        return phrase("By hand, on one thread, each of the {n} seams", n=count)
    if by is By.HAND and count == 2:
        return phrase("By hand, both seams")
    if by is By.HAND:
        return phrase("By hand, each of the {n} seams", n=count)
    if count == 2:
        return phrase("By machine, both seams")
    return phrase("By machine, each of the {n} seams", n=count)


def _run(run: Run, step: Step, assembly: Assembly) -> Phrase:
    """How one run is sewn, after the colon."""
    start, end = run_ends(run, assembly)
    if step.kind is Kind.PARTIAL and not step.finish:
        return _part_way(step, start, assembly)
    if step.finish and end is End.EDGE:
        return phrase("begin a few stitches before the open circle and sew on to the edge.")
    if step.finish:
        return phrase("begin a few stitches before the open circle and sew on to the dot.")
    if run.turns:
        path = dots_of(len(run.turns))
        if end is End.POINT:
            return phrase("sew from {path}. Stop at the last dot.", path=path)
        return phrase("sew from {path}.", path=path)
    if (start, end) == (End.EDGE, End.EDGE):
        return phrase("sew from edge to edge.")
    if (start, end) == (End.POINT, End.POINT):
        return phrase("sew from dot to dot. Stop at the dot.")
    return phrase("sew from the edge to the dot. Stop at the dot.")


def _part_way(step: Step, start: End, assembly: Assembly) -> Phrase:
    """How a partial seam is sewn, and which step sews the rest."""
    own = {seam for run in step.runs for seam in run.seams}
    later = next(
        (s.card for s in assembly.steps if s.finish and own & {x for r in s.runs for x in r.seams}),
        step.card,
    )
    if start is End.EDGE:
        return phrase(
            "sew from the edge to the open circle, about half way; step {step} sews the rest.",
            step=later,
        )
    return phrase(
        "sew from the dot to the open circle, about half way; step {step} sews the rest.",
        step=later,
    )


def dots_of(turns: int) -> Phrase:
    """The way of a run with `turns` turns: "dot 1 to dot 2, turn, to dot 3"."""
    path = phrase("dot 1 to dot 2")
    for n in range(3, turns + 3):
        path = phrase("{path}, turn, to dot {n}", path=path, n=n)
    return path


def run_ends(run: Run, assembly: Assembly) -> tuple[End, End]:
    """How a run begins and ends: at a point or off the raw edge."""
    return _end(run.seams[0], run.points[0], assembly), _end(
        run.seams[-1], run.points[-1], assembly
    )


def _end(seam_id: str, at: tuple[float, float], assembly: Assembly) -> End:
    seam, sewn = assembly.tiling.seam(seam_id), assembly.sewn[seam_id]
    return sewn.ends[0] if seam.start == at else sewn.ends[1]


def look_alikes(step: Step, naming: Naming) -> Iterator[Text]:
    """Warnings about parts that are easily mistaken for each other."""
    tiling = naming.assembly.tiling
    letters = {tiling.piece(name).patch for name in step.join if name not in naming.made_in}
    for letter in sorted(letters):
        if tiling.patch(letter).reversed_too:
            yield phrase(
                "{letter} and {reversed} are mirror images: lay them out as drawn before you sew.",
                letter=letter,
                reversed=reversed_letter(letter),
            )
