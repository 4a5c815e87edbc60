"""Floor 9: the title of a step's card: the verb first."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from booklet.kit.outlines.plane import box_of
from booklet.kit.words import Phrase, Text, large, listing, phrase
from booklet.plan.naming import Naming
from booklet.plan.words import one, several
from booklet.sewing.assembly import Step, StepKind

ROUND = 3  # so many parts or more are set round another, not into it


def card_title(step: Step, naming: Naming) -> Text:
    """The title of a step's card, which begins large: the verb first, as far as a language has it so."""
    return large(_title(step, naming))


def _title(step: Step, naming: Naming) -> Phrase:
    """The words of a title."""
    if step.section:
        return _on_paper(step, naming)
    parts = [naming.part(name) for name in step.join]
    if step.finish:
        return phrase("Close the seam between {parts}", parts=_together(step.join, naming))
    if step.kind is StepKind.PARTIAL:
        others = listing(parts[1:])
        return phrase("Sew {part} to {others}, part of the way", part=parts[0], others=others)
    if any(run.points[0] == run.points[-1] for run in step.runs) and len(parts) == 2:
        inner, host = sorted(step.join, key=lambda name: _room(name, naming))
        return phrase(
            "Set {part} into the middle of {host}", part=naming.part(inner), host=naming.part(host)
        )
    if step.kind is StepKind.RING:
        return phrase("Close the ring: {parts}", parts=_together(step.join, naming))
    if step.kind is StepKind.SET_IN:
        host, guests = _host_and_guests(step, naming)
        if [naming.part(guest) for guest in guests] == [naming.part(host)]:
            return _one_into_other(host, naming)
        if len(guests) >= ROUND:
            return phrase(
                "Set {parts} round {host}, one after the other",
                parts=_together(guests, naming),
                host=naming.part(host),
            )
        return phrase(
            "Set {parts} into {host}", parts=_together(guests, naming), host=naming.part(host)
        )
    if len(set(parts)) == 1:
        return phrase("Sew {parts} together", parts=_together(step.join, naming))
    if len(parts) == 2:
        return phrase("Sew {part} to {other}", part=parts[0], other=parts[1])
    if len(parts) == 3 and parts[0] == parts[2]:
        one = _one(step.join[0], naming)
        return phrase("Sew {part} to either end of {other}", part=one, other=parts[1])
    return phrase("Sew {parts} together", parts=_together(step.join, naming))


def _on_paper(step: Step, naming: Naming) -> Phrase:
    """The title of a step that sews a section on its paper."""
    first, last = naming.piece(step.join[0]), naming.piece(step.join[-1])
    if len(step.pieces) == len(naming.assembly.tiling.pieces):
        return phrase("Sew the block on its paper: {first} to {last}", first=first, last=last)
    return phrase(
        "Sew section {letter} on its paper: {first} to {last}",
        letter=step.section, first=first, last=last,
    )  # fmt: skip


def _one_into_other(name: str, naming: Naming) -> Phrase:
    """The title of a step that sets one of two alike parts into the other."""
    step = naming.made_in.get(name)
    unit = naming.piece(name) if step is None else naming.unit(step)
    return phrase("Set one {unit} into the other", unit=unit)


def _host_and_guests(step: Step, naming: Naming) -> tuple[str, tuple[str, ...]]:
    """The bigger part takes the smaller ones in; of many alike the one to which all others are joined."""
    units = naming.assembly.units
    host = max(step.join, key=lambda name: (len(units.get(name, (name,))), name))
    first = step.join[0]
    if len(step.join) > ROUND and len(units.get(first, (first,))) == len(units.get(host, (host,))):
        host = first
    return host, tuple(name for name in step.join if name != host)


def _room(name: str, naming: Naming) -> float:
    """The area of the box about a part: what lies round another is the larger, however few pieces it has."""
    pieces = naming.assembly.units.get(name, (name,))
    points = [p for id in pieces for p in naming.assembly.tiling.piece(id).outline.points]
    left, top, right, bottom = box_of(points)
    return (right - left) * (bottom - top)


def _one(name: str, naming: Naming) -> Text:
    """One of several alike: "A", "a wing"."""
    step = naming.made_in.get(name)
    if step is None:
        return naming.piece(name)
    return one(naming.unit(step))


def _together(names: Sequence[str], naming: Naming) -> Text:
    """Parts in words, alike ones counted: "A and C", "2 rows", "2 A and 1 C"; of units that are called alike, two of either of two
    steps, all at once: "4 pairs"."""
    counts = Counter(naming.part(name) for name in names)
    counted = max(counts.values()) > 1
    many: Counter[Text] = Counter()
    for name in names:
        if name in naming.made_in and counts[naming.part(name)] > 1:
            many[naming.unit(naming.made_in[name])] += 1
    words: list[Text] = []
    for name in dict.fromkeys(names):
        part, step = naming.part(name), naming.made_in.get(name)
        count = counts.pop(part, 0)
        if count > 1 and step is not None:
            count = many.pop(naming.unit(step), 0)
        if count:
            alone = count == 1 and not (counted and step is None)
            words.append(part if alone else _several(count, name, naming))
    return listing(words)


def _several(count: int, name: str, naming: Naming) -> Text:
    step = naming.made_in.get(name)
    if step is None:
        return phrase("{n} {piece}", n=count, piece=naming.piece(name))
    return several(count, naming.unit(step))
