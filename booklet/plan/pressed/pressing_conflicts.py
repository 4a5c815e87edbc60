"""Floor 9: why not all allowances of a block can lie as they should, and the ways out, in words."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.kit.words import Phrase, listing, phrase, plural_phrase
from booklet.plan.cards.on_paper import on_paper
from booklet.plan.naming import Naming
from booklet.plan.pressed.pressing_table import card_of, sides_of
from booklet.pressing.pressing import Conflict, Demand, Layout, Pressing, WayKind, WayOut

MOST_SEAMS = 3  # of a conflict, named one by one


def conflict_words(pressing: Pressing, naming: Naming) -> Iterator[str]:
    """Why not everything lies as it should, with the ways out, the least trouble first."""
    by_kind: dict[Demand, list[Conflict]] = {}
    papers = on_paper(pressing.assembly)
    bound = [conflict for conflict in pressing.conflicts if papers.issuperset(conflict.seams)]
    if bound:
        yield phrase(
            "Where allowances lie on the same side, the order on the paper has it so: when the paper is out, press them open "
            "for a finger's width there."
        )
    for conflict in pressing.conflicts:
        if conflict in bound:
            continue
        by_kind.setdefault(conflict.kind, []).append(conflict)
    for kind, found in sorted(by_kind.items()):
        shortest = min(found, key=lambda conflict: len(conflict.seams))
        told = [_way_out(way, pressing, naming) for way in shortest.ways_out]
        out = (
            phrase("Ways out, the least trouble first: {ways}.", ways=listing(told, "semicolons"))
            if len(told) > 1
            else phrase("The way out: {way}.", way=told[0])
        )
        said = (_what(kind, len(found), pressing), _ring(shortest, naming), out)
        yield listing(said, "sentences")


def _what(kind: Demand, count: int, pressing: Pressing) -> Phrase:
    """What cannot be had."""
    if kind is Demand.FAN and pressing.fans is not None and count == pressing.fans.least:
        return plural_phrase(
            "At {n} point the allowances cannot all lie the same way round; it is proved that no plan "
            "does without.",
            "At {n} points the allowances cannot all lie the same way round; it is proved that no "
            "plan leaves fewer.",
            count,
        )
    if kind is Demand.FAN:
        return plural_phrase(
            "At {n} point the allowances cannot all lie the same way round.",
            "At {n} points the allowances cannot all lie the same way round.",
            count,
        )
    if kind is Demand.RIM:
        return plural_phrase(
            "One seam end along the edge of the block meets an allowance on its own side.",
            "{n} seam ends along the edge of the block meet an allowance on their own side.",
            count,
        )
    return plural_phrase(
        "At {n} crossing the allowances lie on the same side.",
        "At {n} crossings the allowances lie on the same side.",
        count,
    )


def _ring(conflict: Conflict, naming: Naming) -> Phrase:
    """The odd cycle in words."""
    names = list(dict.fromkeys(_seam_name(seam, naming) for seam in conflict.seams))
    count = len(conflict.seams)
    if count == 1:
        return phrase("The seam {seam} would have to lie both ways.", seam=names[0])
    if len(names) == 1:
        return phrase(
            "{count} seams {seam}, dotted in the picture, ask for opposite things of each other.",
            count=count,
            seam=names[0],
        )
    if len(names) <= MOST_SEAMS:
        return phrase(
            "The seams {seams}, dotted in the picture, ask for opposite things of each other.",
            seams=listing(names),
        )
    return phrase(
        "Round a circle of {count} seams, dotted in the picture, each forces the next to the other side, and the last the first.",
        count=count,
    )


def _seam_name(seam: str, naming: Naming) -> Phrase:
    one, other = sorted(sides_of(seam, naming).values())
    return phrase("{one} to {other}", one=one, other=other)


def _way_out(way: WayOut, pressing: Pressing, naming: Naming) -> Phrase:
    """One way out, with what is left to clash then."""
    if way.kind is WayKind.OPEN:
        return _open(way, pressing, naming)
    left = _left(way.clashes)
    if way.kind is WayKind.OPEN_ALL:
        return plural_phrase(
            "press open the seam that lies against the others there ({left})",
            "press open the {n} seams that lie against the others there ({left})",
            len(way.seams),
            left=left,
        )
    if way.kind is WayKind.TWO_VERSIONS:
        return phrase(
            "make two versions, {first} blocks V1 and {second} blocks V2, laid {layout} ({left})",
            first=way.first,
            second=way.second,
            layout=_layout(way.layout),
            left=left,
        )
    if way.clashes is None:
        return phrase("take out the stitches within the allowance at the crossing and fan it")
    return phrase(
        "take out the stitches within the allowance at the crossing and fan it ({left})", left=left
    )


def _open(way: WayOut, pressing: Pressing, naming: Naming) -> Phrase:
    """Pressing one line of sewing open."""
    if way.clashes is None:
        return phrase("press one of these seams open")
    sewn = pressing.assembly.sewn
    step = card_of(pressing, max(sewn[seam].step for seam in way.seams))
    names = list(dict.fromkeys(_seam_name(seam, naming) for seam in way.seams))
    left = _left(way.clashes)
    if len(way.seams) == 1:
        return phrase(
            "press the seam {seam} of step {step} open ({left})",
            seam=names[0],
            step=step,
            left=left,
        )
    return phrase("press the long seam of step {step} open ({left})", step=step, left=left)


def _layout(layout: Layout | None) -> Phrase:
    """How the blocks of a second version lie among the others."""
    if layout is Layout.ROWS:
        return phrase("in alternate rows")
    if layout is Layout.COLUMNS:
        return phrase("in alternate columns")
    return phrase("as on a checkerboard")


def _left(clashes: int | None) -> Phrase:
    """What is left to clash in the whole quilt."""
    if not clashes:
        return phrase("nothing clashes then")
    return plural_phrase("then {n} joint clashes", "then {n} joints clash", clashes)
