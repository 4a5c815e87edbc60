"""Floor 9: what the booklet says of pressing: on the cards, for each block, and where blocks join."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from booklet.pattern import By, SetKind, Size
from booklet.plan.records import PressLine
from booklet.plan.sentences import Naming, reversed_letter
from booklet.pressing.pressing import (
    Conflict,
    JunctionKind,
    Layout,
    PressedJunction,
    Pressing,
    Versions,
    WayOut,
)
from booklet.quilt.sized import SizedQuilt
from booklet.sewing.assembly import Kind, Step
from booklet.words import Phrase, Text, large, listing, phrase, plural_phrase

MOST_SEAMS = 3  # of a conflict, named one by one


def how_to_press(step: Step, pressing: Pressing, naming: Naming) -> Iterator[str]:
    """The pressing sentences of a card."""
    seams = [seam for run in step.runs for seam in run.seams]
    if step.finish or step.kind is Kind.PARTIAL or not seams:
        return
    if pressing.at_end:
        if step.n == pressing.assembly.steps[-1].n:
            yield phrase("Now press the whole block: the pressing picture shows which way.")
        return
    now = [seam for seam in seams if pressing.after[seam] == step.n]
    if not now:
        card = _card_of(pressing, pressing.after[seams[0]])
        yield phrase("Leave these allowances until step {card}.", card=card)
        return
    yield from _toward(step, pressing, naming, seams)
    yield from _fans_now(step, pressing)
    yield from _releases_now(step, pressing)


def _toward(step: Step, pressing: Pressing, naming: Naming, seams: list[str]) -> Iterator[str]:
    """Which way the seams of a step are pressed."""
    units = naming.assembly.units
    sides: dict[Text, None] = {}
    for seam in seams:
        toward = pressing.pressed[seam].toward
        part = next((p for p in step.join if toward in units.get(p, (p,))), None)
        sides[naming.part(part) if part else "open"] = None
    if list(sides) == ["open"]:
        yield phrase("Press the allowances open.")
    elif len(sides) == 1:
        dark = all(pressing.pressed[seam].why == "dark" for seam in seams)
        name = next(iter(sides))
        yield (
            phrase("Press toward {part}, the darker side.", part=name)
            if dark
            else phrase("Press toward {part}.", part=name)
        )
    else:
        yield phrase("Press each allowance as its arrow shows.")


def _fans_now(step: Step, pressing: Pressing) -> Iterator[str]:
    """The points that are fanned after a step."""
    sewn = pressing.assembly.sewn
    fans = [
        j
        for j in pressing.junctions
        if j.clockwise is not None and max(sewn[seam].step for seam in j.seams) == step.n
    ]
    if fans:
        yield phrase("Press {points}, seen from the back.", points=_fan_words(fans, pressing))


def _fan_words(fans: Sequence[PressedJunction], pressing: Pressing) -> Text:
    """Points and the way round they are pressed: "the centre clockwise"."""
    groups: list[Text] = []
    for clockwise in (True, False):
        some = [fan for fan in fans if fan.clockwise is clockwise]
        if len(some) == 1 and _is_centre(some[0], pressing):
            groups.append(
                phrase("the center clockwise")
                if clockwise
                else phrase("the center counterclockwise")
            )
        elif some and clockwise:
            groups.append(plural_phrase("the point clockwise", "{n} points clockwise", len(some)))
        elif some:
            groups.append(
                plural_phrase(
                    "the point counterclockwise", "{n} points counterclockwise", len(some)
                )
            )
    return listing(groups)


def _is_centre(junction: PressedJunction, pressing: Pressing) -> bool:
    """Whether a point is the middle of the block."""
    points = pressing.assembly.tiling.outline.points
    return all(
        abs(at - (min(values) + max(values)) / 2) < 1e-3
        for at, values in zip(junction.at, zip(*points, strict=True), strict=True)
    )


def _releases_now(step: Step, pressing: Pressing) -> Iterator[str]:
    """Stitches that come out so that a machine-sewn crossing can be fanned."""
    sewn = pressing.assembly.sewn
    ending = {junction.at: junction.seams for junction in pressing.junctions}
    if any(
        max(sewn[seam].step for seam in ending.get(release.at, release.seams)) == step.n
        for release in pressing.releases
    ):
        yield phrase(
            "Before you press, take out the two or three stitches of the earlier seams that lie "
            "within the allowance at the crossing, so that it can turn; where you stopped at the "
            "matching point there are none."
        )


def _card_of(pressing: Pressing, step: int) -> int:
    """The card of a step by its number."""
    return next(s.card for s in pressing.assembly.steps if s.n == step)


def pressing_summary(pressing: Pressing, limit: int = 8) -> Iterator[str]:
    """The pressing of a block in words; points of more than `limit` layers are named."""
    kinds = Counter(junction.kind for junction in pressing.junctions)
    fans = [j for j in pressing.junctions if j.clockwise is not None]
    if pressing.at_end:
        yield phrase(
            "Every seam stops at its points, so every direction is still possible when the block is "
            "whole. Finger-press while you sew, where an allowance is in the way, and iron at the end."
        )
    if fans:
        yield phrase(
            "Press {points}, seen from the back: a curved arrow shows the way.",
            points=_fan_words(fans, pressing),
        )
    every = pressing.fans
    if every is not None and every.all_fan and len(fans) == len(every.clockwise) > 1:
        yield phrase(
            "Every point at which seams end can be fanned: each seam lies clockwise at one of its ends "
            "and counterclockwise at the other."
        )
    if count := kinds[JunctionKind.NEST]:
        yield plural_phrase(
            "At {n} crossing the allowances lie in opposite directions and lock.",
            "At {n} crossings the allowances lie in opposite directions and lock.",
            count,
        )
    if count := kinds[JunctionKind.OPEN]:
        yield plural_phrase(
            "At {n} point the allowances are pressed open.",
            "At {n} points the allowances are pressed open.",
            count,
        )
    if pressing.gap >= 1:
        yield phrase("A plan with fewer clashes may exist: this one is not proved the best.")
    yield from _released(pressing)
    yield from _thick(pressing, limit)


def _released(pressing: Pressing) -> Iterator[str]:
    """What is released so that machine-sewn crossings can be fanned."""
    if pressing.releases:
        yield plural_phrase(
            "Small crosses mark {n} point where seams cross by machine and are fanned. Stop the earlier "
            "seams there at the matching point when you sew; if you sewed across, take out the two or "
            "three stitches within the allowance.",
            "Small crosses mark {n} points where seams cross by machine and are fanned. Stop the "
            "earlier seams there at the matching point when you sew; if you sewed across, take out the "
            "two or three stitches within the allowance.",
            len(pressing.releases),
        )


def _thick(pressing: Pressing, limit: int) -> Iterator[str]:
    """The thickest points, with advice where they are above the limit."""
    most = max((j.layers for j in pressing.junctions), default=0)
    over = [j for j in pressing.junctions if j.layers > limit]
    if not over:
        return
    yield plural_phrase(
        "At {n} point more than {limit} layers of cloth lie on each other, up to {most}. {ways}, and "
        "press from the back.",
        "At {n} points more than {limit} layers of cloth lie on each other, up to {most}. {ways}, and "
        "press from the back.",
        len(over),
        limit=limit,
        most=most,
        ways=large(_thinner(over)),
    )


def _thinner(over: Sequence[PressedJunction]) -> Text:
    """How thick points become thinner."""
    ways = []
    if any(j.kind is not JunctionKind.OPEN for j in over):
        ways.append(phrase("press the last seam there open"))
    if any(j.kind is JunctionKind.CLASH for j in over):
        ways.append(phrase("fan the point"))
    return listing([*ways, phrase("trim the tips that stand out")], "or")


def press_table(pressing: Pressing, naming: Naming) -> tuple[PressLine, ...]:
    """Every seam of the block on one line of the table: which way, when, and with what."""
    assembly = pressing.assembly
    ways: dict[tuple[tuple[str, ...], str, str, str], dict[int, int]] = {}
    for step in assembly.steps:
        for seam in dict.fromkeys(s for run in step.runs for s in run.seams):
            if assembly.sewn[seam].step != step.n:
                continue  # the first part of a partial seam: pressed when it is closed
            sides = _sides(seam, naming)
            pair = tuple(sorted(sides.values()))
            way = _way(pair, sides.get(pressing.pressed[seam].toward or ""))
            cards = ways.setdefault((pair, way, *_when(pressing, step, seam)), {})
            cards[step.card] = cards.get(step.card, 0) + 1
    alike: dict[tuple[tuple[str, ...], str, str, tuple[int, ...]], dict[str, int]] = {}
    for (pair, way, when, how), cards in ways.items():
        alike.setdefault((pair, when, how, tuple(cards)), {})[way] = sum(cards.values())
    lines = [
        PressLine(
            cards,
            phrase("{part} to {other}", part=pair[0], other=pair[-1]),
            sum(found.values()),
            _counted(found),
            when,
            how,
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


def _sides(seam: str, naming: Naming) -> dict[str, str]:
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
        return phrase("after step {n}", n=_card_of(pressing, after)), iron
    by_hand = pressing.assembly.sewn[seam].by is By.HAND
    finger = by_hand and step.n != last
    return phrase("as sewn"), phrase("finger-press") if finger else iron


def version_words(pressing: Pressing, others: bool, on_point: bool) -> Iterator[str]:
    """The second version of a block: how many, how pressed, where; `others`: blocks of other kinds lie
    in the set too; `on_point`: so is the set."""
    versions = pressing.versions
    if versions is None:
        return
    count, other = versions.first, versions.count
    how = (
        phrase(
            "Press {count} blocks as drawn (version A) and {other} the other way round: every arrow "
            "reversed (version B).",
            count=count,
            other=other,
        )
        if versions.opposite
        else phrase(
            "Press {count} blocks as drawn (version A) and {other} as the picture of version B shows "
            "(version B).",
            count=count,
            other=other,
        )
    )
    lock = phrase("A and B then lock wherever they join.")
    yield listing((how, _laid(versions, others, on_point), lock), "sentences")


def _laid(versions: Versions, others: bool, on_point: bool) -> Text:
    """Where the two versions lie."""
    if others:
        return phrase("The small plan shows where each lies.")
    first, second = ("A", "B") if (0, 0) not in versions.places else ("B", "A")
    if on_point:
        return phrase(
            "{first} lies in the full rows, {second} in the rows between.",
            first=first,
            second=second,
        )
    if versions.layout is Layout.CHEQUER:
        return phrase(
            "Lay them out like a checkerboard, starting with {first} at the top left.", first=first
        )
    if versions.layout is Layout.ROWS:
        return phrase(
            "Lay them row by row: {first} in the first row, {second} in the next, and so on.",
            first=first,
            second=second,
        )
    return phrase(
        "Lay them column by column: {first} in the first column, {second} in the next, and so on.",
        first=first,
        second=second,
    )


def conflict_words(pressing: Pressing, naming: Naming) -> Iterator[str]:
    """Why not everything lies as it should, with the ways out, the least trouble first."""
    by_kind: dict[str, list[Conflict]] = {}
    for conflict in pressing.conflicts:
        by_kind.setdefault(conflict.kind, []).append(conflict)
    for kind, found in sorted(by_kind.items()):
        shortest = min(found, key=lambda conflict: len(conflict.seams))
        ways = {(way.kind, way.turn): way for way in shortest.ways_out}
        told = [_way_out(way, pressing, naming) for way in ways.values()]
        out = (
            phrase("Ways out, the least trouble first: {ways}.", ways=listing(told, "semicolons"))
            if len(told) > 1
            else phrase("The way out: {way}.", way=told[0])
        )
        said = (_what(kind, len(found), pressing), _ring(shortest, naming), out)
        yield listing(said, "sentences")


def _what(kind: str, count: int, pressing: Pressing) -> Phrase:
    """What cannot be had."""
    if kind == "fan" and pressing.fans is not None and count == pressing.fans.least:
        return plural_phrase(
            "At {n} point the allowances cannot all lie the same way round; it is proved that no plan "
            "does without.",
            "At {n} points the allowances cannot all lie the same way round; it is proved that no "
            "plan leaves fewer.",
            count,
        )
    if kind == "fan":
        return plural_phrase(
            "At {n} point the allowances cannot all lie the same way round.",
            "At {n} points the allowances cannot all lie the same way round.",
            count,
        )
    if kind == "rim":
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
        "Going round {count} seams, dotted in the picture, each asks the next to turn, and the last "
        "the first.",
        count=count,
    )


def _seam_name(seam: str, naming: Naming) -> Phrase:
    one, other = sorted(_sides(seam, naming).values())
    return phrase("{one} to {other}", one=one, other=other)


def _way_out(way: WayOut, pressing: Pressing, naming: Naming) -> Phrase:
    """One way out, with what is left to clash then."""
    if way.kind == "open":
        return _open(way, pressing, naming)
    left = _left(way.clashes)
    if way.kind == "open all":
        return plural_phrase(
            "press the {n} seam open that lies against the others there ({left})",
            "press the {n} seams open that lie against the others there ({left})",
            len(way.seams),
            left=left,
        )
    if way.kind == "two versions":
        return phrase(
            "make two versions, {first} blocks A and {second} blocks B, laid {layout} ({left})",
            first=way.first,
            second=way.second,
            layout=_layout(way.layout),
            left=left,
        )
    if way.kind == "turn":
        return phrase(
            "turn {second} of the {all} blocks by {turn} degrees, {layout} ({left})",
            second=way.second,
            all=way.first + way.second,
            turn=way.turn,
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
    step = _card_of(pressing, max(sewn[seam].step for seam in way.seams))
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
    """How the blocks of a second version, or turned ones, lie among the others."""
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


def joining_words(size: Size, quilt: SizedQuilt, meet: bool, versions: bool) -> Iterator[str]:
    """Pressing where blocks join: row seams, plain strips, what nests. `meet`: seam ends of blocks
    meet; `versions`: it is told already that they nest."""
    if size.quilt is None or quilt.finished is None:
        return
    if size.quilt.sashing is not None:
        yield phrase(
            "Strips lie between the blocks, and a seam that ends at a plain strip has nothing to clash "
            "with. Press the seams beside every strip toward the strip, so that they lock where the "
            "strips cross."
        )
    elif size.quilt.set is SetKind.LATTICE and size.count > 1:
        yield phrase(
            "Press the seams between blocks so that they lie the same way round each point where blocks "
            "meet: clockwise at one, counterclockwise at the next."
        )
    elif size.count > 1:
        yield phrase(
            "Join the blocks of a row, then press the seams between them to the left in the first "
            "row, to the right in the second, and so on: they lock when rows are joined. Press the "
            "seams between rows all downward."
        )
    if meet and quilt.joins_nest and not versions:
        yield phrase(
            "Where blocks join, the allowances of seams that meet lie in opposite directions and lock."
        )
    if quilt.seam_clashes:
        yield plural_phrase(
            "At {n} joint between blocks two allowances lie on the same side. Turn one of them over as "
            "you pin, or press it open.",
            "At {n} joints between blocks two allowances lie on the same side. Turn one of them over "
            "as you pin, or press it open.",
            quilt.seam_clashes,
        )
    plain = [phrase("borders", context="plain")] if quilt.borders else []
    if any("triangle" in part.shape for part in quilt.parts):
        plain.append(phrase("setting triangles", context="plain"))
    if plain:
        yield phrase(
            "{parts} are plain: the seams that end at them have nothing to clash with.",
            parts=large(listing(plain)),
        )
