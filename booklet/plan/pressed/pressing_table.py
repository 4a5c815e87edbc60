"""Floor 9: the table of a block's seams: which way each is pressed, when, and with what."""

from __future__ import annotations

from booklet.kit.words import Text, listing, phrase
from booklet.pattern import By
from booklet.plan.naming import Naming, reversed_letter
from booklet.plan.records import PressLine
from booklet.pressing.pressing import Pressing
from booklet.sewing.assembly import Step


def press_table(pressing: Pressing, naming: Naming) -> tuple[PressLine, ...]:
    """Every seam of the block on one line of the table: which way, when, and with what."""
    assembly = pressing.assembly
    ways: dict[tuple[tuple[str, ...], str, str, str], dict[int, int]] = {}
    for step in assembly.steps:
        if step.section:
            continue  # on printed paper the order decides, which is said once
        for seam in dict.fromkeys(s for run in step.runs for s in run.seams):
            if assembly.sewn[seam].step != step.n:
                continue  # the first part of a partial seam: pressed when it is closed
            sides = sides_of(seam, naming)
            pair = tuple(sorted(sides.values()))
            way = _way(pair, sides.get(pressing.pressed[seam].toward or ""))
            cards = ways.setdefault((pair, way, *_when(pressing, step, seam)), {})
            cards[step.card] = cards.get(step.card, 0) + 1
    alike: dict[tuple[tuple[str, ...], str, str, tuple[int, ...]], dict[str, int]] = {}
    for (pair, way, when, how), cards in ways.items():
        alike.setdefault((pair, when, how, tuple(cards)), {})[way] = sum(cards.values())
    lines = [
        PressLine(
            cards=cards,
            seams=phrase("{part} to {other}", part=pair[0], other=pair[-1]),
            count=sum(found.values()),
            toward=_counted(found),
            when=when,
            how=how,
        )
        for (pair, when, how, cards), found in alike.items()
    ]
    return tuple(sorted(lines, key=lambda line: line.cards))


def _counted(found: dict[str, int]) -> Text:
    """The ways of alike seams: "toward A", "4 toward A, 4 toward B"."""
    if len(found) == 1:
        return next(iter(found))
    ways = (phrase("{n} {way}", n=count, way=way) for way, count in sorted(found.items()))
    return listing(ways, "commas")


def sides_of(seam: str, naming: Naming) -> dict[str, str]:
    """The two pieces of a seam by their letters, with their fabrics only where the letters are alike."""
    tiling = naming.assembly.tiling
    pieces = [tiling.piece(id) for id in tiling.seam(seam).between]
    names = {p.id: reversed_letter(p.patch) if p.reversed else p.patch for p in pieces}
    if len(set(names.values())) == 1:
        return {p.id: naming.piece(p.id) for p in pieces}
    return names


def _way(pair: tuple[str, ...], toward: str | None) -> str:
    if toward is None:
        return phrase("open", context="press")
    if pair[0] == pair[1]:
        return phrase("to one side, as drawn")
    return phrase("toward {part}", part=toward)


def _when(pressing: Pressing, step: Step, seam: str) -> tuple[str, str]:
    """(when a seam is pressed, with what)."""
    last = pressing.assembly.steps[-1].n
    after = pressing.after[seam]
    iron = phrase("iron", context="press with")
    if pressing.at_end:
        return phrase("at the end", context="press"), iron
    if after != step.n:
        return phrase("after step {n}", n=card_of(pressing, after)), iron
    by_hand = pressing.assembly.sewn[seam].by is By.HAND
    finger = by_hand and step.n != last
    return phrase("as sewn"), phrase("finger-press") if finger else iron


def card_of(pressing: Pressing, step: int) -> int:
    """The card of a step by its number."""
    return next(s.card for s in pressing.assembly.steps if s.n == step)
