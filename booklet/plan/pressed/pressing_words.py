"""Floor 9: what the booklet says of pressing a block: on its cards, and as a whole."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence

from booklet.kit.outlines.near import DRAWN
from booklet.kit.words import Phrase, Text, large, listing, phrase, plural_phrase
from booklet.pattern import Fabric
from booklet.plan.naming import Naming
from booklet.plan.pressed.pressed_alike import pressed_alike
from booklet.plan.pressed.pressing_table import card_of
from booklet.pressing.pressing import JunctionKind, PressedJunction, Pressing, Reason
from booklet.sewing.assembly import Step, StepKind


def how_to_press_all(
    steps: Sequence[Step], pressing: Pressing, naming: Naming, fabrics: Mapping[str, Fabric]
) -> Iterator[str]:
    """The pressing sentences of a card for all its steps, which may not be pressed alike, in both versions."""
    later = _later(steps, pressing)
    if later:
        yield phrase("Leave these allowances until step {card}.", card=listing(later, "or"))
        return
    yield from _how_in_the_first(steps, pressing, naming, fabrics)
    yield from _in_the_second(steps, pressing)


def _in_the_second(steps: Sequence[Step], pressing: Pressing) -> Iterator[str]:
    """How what is pressed at a card is pressed in the blocks of the second version, where they differ."""
    versions = pressing.versions
    if versions is None or pressing.at_end or steps[0].section:
        return  # said of the whole block, or of the paper
    now, second = {step.n for step in steps}, versions.second.pressed
    ways = [
        (way.toward, second[seam].toward)
        for seam, way in pressing.pressed.items()
        if pressing.after[seam] in now
    ]
    if all(first == other for first, other in ways):
        return
    if all(first != other or first is None for first, other in ways):
        yield plural_phrase(
            "For {n} block, version V2, press the other way.",
            "For {n} blocks, version V2, press the other way.",
            versions.count,
        )
    else:
        yield plural_phrase(
            "For {n} block, version V2, press as its pressing picture shows.",
            "For {n} blocks, version V2, press as their pressing picture shows.",
            versions.count,
        )


def _how_in_the_first(
    steps: Sequence[Step], pressing: Pressing, naming: Naming, fabrics: Mapping[str, Fabric]
) -> Iterator[str]:
    """The pressing sentences of a card in a block of the first version."""
    step = steps[0]
    kinds = pressed_alike(steps, pressing, fabrics)
    if step.section or len(kinds) == 1 or pressing.at_end:
        yield from how_to_press(step, pressing, naming)
        return
    uses = [used_in(kind, pressing.assembly.steps) for kind in kinds]
    yield phrase(
        "They are not all pressed alike: in each block press {ways}.",
        ways=listing(
            tuple(
                _kind_words(kind, cards, pressing, naming, first=kind is kinds[0])
                for kind, cards in zip(kinds, uses, strict=True)
            ),
            "semicolons",
        ),
    )
    if len(set().union(*uses)) < sum(map(len, uses)):  # a step takes units of two kinds
        yield phrase("The pressing picture shows which goes where.")
    yield from _fans_now(step, pressing)
    yield from _releases_now(step, pressing)


def _later(steps: Sequence[Step], pressing: Pressing) -> tuple[int, ...]:
    """The cards until which the seams of a card are left, in order; none if they are pressed as sewn."""
    waiting = () if pressing.at_end else [s for s in steps if not _stays_open(s)]
    after = {
        pressing.after[seam]
        for step in waiting
        for run in step.runs
        for seam in run.seams
        if pressing.after[seam] > step.n and not step.section
    }
    return tuple(sorted({card_of(pressing, n) for n in after}))


def used_in(steps: Sequence[Step], all_steps: Sequence[Step]) -> tuple[int, ...]:
    """The cards that take what these steps make."""
    takers = (
        next((later.card for later in all_steps[step.n :] if step.make in later.join), None)
        for step in steps
    )
    return tuple(sorted({card for card in takers if card is not None}))


def _kind_words(
    steps: Sequence[Step], cards: Sequence[int], pressing: Pressing, naming: Naming, first: bool
) -> Text:
    """How many of a card's units are pressed one way, and for which steps: "2 toward A for step 3"."""
    seams = [seam for run in steps[0].runs for seam in run.seams]
    side = _side(steps[0], pressing, naming, seams)
    n, uses = len(steps), for_steps(cards)
    if side == "open":
        return phrase("{n} open {uses}", n=n, uses=uses)
    if side is not None:
        return phrase("{n} toward {part} {uses}", n=n, part=side, uses=uses)
    if first:
        return phrase("{n} as drawn here {uses}", n=n, uses=uses)
    return phrase("{n} as the pressing picture shows {uses}", n=n, uses=uses)


def for_steps(cards: Sequence[int]) -> Phrase:
    """For which steps something is made: "for step 3", "for steps 2 and 3"."""
    return plural_phrase(
        "for step {steps}", "for steps {steps}", len(cards), steps=listing(tuple(cards))
    )


def how_to_press(step: Step, pressing: Pressing, naming: Naming) -> Iterator[str]:
    """The pressing sentences of one step."""
    seams = [seam for run in step.runs for seam in run.seams]
    if _stays_open(step) or not seams:
        return
    if step.section:
        yield phrase("Press each piece over as soon as it is sewn on, away from those before it.")
        return
    if pressing.at_end:
        if step.n == pressing.assembly.steps[-1].n:
            yield phrase("Now press the whole block: the pressing picture shows which way.")
        return
    yield from _toward(step, pressing, naming, seams)
    yield from _fans_now(step, pressing)
    yield from _releases_now(step, pressing)


def _stays_open(step: Step) -> bool:
    """Whether a step leaves a seam half sewn: it is pressed when it is closed."""
    return step.kind is StepKind.PARTIAL and not step.finish


def _toward(step: Step, pressing: Pressing, naming: Naming, seams: list[str]) -> Iterator[str]:
    """Which way the seams of a step are pressed."""
    side = _side(step, pressing, naming, seams)
    if side is None:
        yield phrase("Press each allowance as its arrow shows.")
    elif side == "open":
        yield phrase("Press the allowances open.")
    elif all(pressing.pressed[seam].why is Reason.DARK for seam in seams):
        yield phrase("Press toward {part}, the darker side.", part=side)
    else:
        yield phrase("Press toward {part}.", part=side)


def _side(step: Step, pressing: Pressing, naming: Naming, seams: Sequence[str]) -> Text | None:
    """The part toward which all seams of a step are pressed, "open", or None where no one name tells it."""
    units = naming.assembly.units
    sides: dict[Text, None] = {}
    for seam in seams:
        toward = pressing.pressed[seam].toward
        part = next((p for p in step.join if toward in units.get(p, (p,))), None)
        sides[naming.part(part) if part else "open"] = None
    if len(sides) > 1:
        return None
    (name,) = sides
    both = Counter(map(naming.part, step.join))[name] > 1  # both sides have that name
    return None if both else name


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
        elif len(some) == len(fans) == 1:
            groups.append(
                phrase("the point clockwise") if clockwise else phrase("the point counterclockwise")
            )
        elif some and clockwise:
            groups.append(plural_phrase("{n} point clockwise", "{n} points clockwise", len(some)))
        elif some:
            groups.append(
                plural_phrase(
                    "{n} point counterclockwise", "{n} points counterclockwise", len(some)
                )
            )
    return listing(groups)


def _is_centre(junction: PressedJunction, pressing: Pressing) -> bool:
    """Whether a point is the middle of the block."""
    points = pressing.assembly.tiling.outline.points
    return all(
        abs(at - (min(values) + max(values)) / 2) < DRAWN
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


def over_papers() -> Iterator[Text]:
    """What is said of pressing a block whose patches were basted over papers."""
    yield phrase(
        "Every allowance lies folded over its own paper: all seams are open, and nothing is pressed on the way."
    )
    yield phrase(
        "Take out a paper when all its edges are sewn. Where an edge of the block is still free, leave its papers in "
        "until the block is joined to the next, or press the fold well before you take them out."
    )
    yield phrase(
        "When all papers are out, press from the wrong side with the allowances as they lie, then once from the right."
    )
