"""Floor 10: what a picture shows, told in sentences, for those who cannot see it."""

from __future__ import annotations

from booklet.drawing.steps.units import StepPart, exploded, stage_parts
from booklet.geometry.tiling import PlacedPiece
from booklet.kit.outlines.plane import bearing
from booklet.kit.words import Phrase, Text, large, listing, phrase, plural_phrase
from booklet.pattern import By
from booklet.plan import BlockPlan, StepCard
from booklet.plan.cards.frame_words import frame_heads
from booklet.plan.cards.frames import frames, is_framed
from booklet.quilt.assembling.joining import TOP
from booklet.sewing.assembly import End, Run, Step


def piece_letter(piece: PlacedPiece) -> str:
    """The letter of a piece as printed: "Br" for B reversed."""
    return piece.patch + ("r" if piece.reversed else "")


def told_step(block: BlockPlan, card: StepCard) -> Text:
    """The step picture in words: where the parts lie, the run, its ends, the pressing."""
    step = card.step
    if is_framed(step, block.assembly):
        return listing(
            [
                *_frames(block, step),
                *_made(block, card, phrase("At the end", context="picture")),
                *card.press,
            ],
            "sentences",
        )
    sentences: list[Text] = [phrase("Left, what to sew.")]
    parts = exploded(block.assembly, step, 1.0)
    if step.finish or len(step.join) < 2:
        sentences.append(phrase("The unit is whole but for one open seam."))
    else:
        sentences += _places(block, parts)
    sentences += [_run(block, run, _order(n, len(step.runs))) for n, run in enumerate(step.runs)]
    if step.leave is not None:
        sentences.append(
            phrase("Stop half way along, at the open circle; the rest waits for a later step.")
        )
    return listing(
        [*sentences, *_made(block, card, phrase("Right", context="picture")), *card.press],
        "sentences",
    )


def _made(block: BlockPlan, card: StepCard, place: Text) -> list[Text]:
    """The unit made, and how many of it."""
    count = len(card.step.pieces)
    sentences: list[Text] = []
    if card.measure:
        sentences.append(
            plural_phrase(
                "{place}, the unit made: {n} piece, {measure} with its allowances.",
                "{place}, the unit made: {n} pieces, {measure} with its allowances.",
                count,
                place=place,
                measure=card.measure,
            )
        )
    elif block.tiling.block == TOP:
        sentences.append(
            plural_phrase(
                "{place}, the unit made: {n} block.",
                "{place}, the unit made: {n} blocks.",
                count,
                place=place,
            )
        )
    else:
        sentences.append(
            plural_phrase(
                "{place}, the unit made: {n} piece.",
                "{place}, the unit made: {n} pieces.",
                count,
                place=place,
            )
        )
    if card.make > 1:
        sentences.append(phrase("Make {n}.", n=card.make))
    return sentences


def _frames(block: BlockPlan, step: Step) -> list[Text]:
    """The frames of a step drawn run by run, in their order."""
    said: list[Text] = []
    row = frames(step, block.assembly)
    for frame in row:
        heads = frame_heads(frame, frame is row[0], frame is row[-1])
        for stage, head in zip(frame.stages, heads, strict=True):
            parts = stage_parts(block.assembly, step, stage, 1.0)
            places = (
                _places(block, parts)
                if len(stage.parts) > 1
                else [phrase("Both sides of the seam hang together already.")]
            )
            told = listing([*places, _run(block, stage.run, "")], "sentences")
            said.append(phrase("Picture “{head}”: {told}", head=head, told=told))
    return said


def _places(block: BlockPlan, parts: tuple[StepPart, ...]) -> list[Text]:
    """Where each part stands from the one that stays: "Patch C lies above the unit of A and B." """
    still = next((part for part in parts if part.away == (0.0, 0.0)), parts[0])
    others = [part for part in parts if part is not still]
    host = _beside(block, still)
    same = _part(block, still)
    named = [_part(block, part) for part in others]
    told = [_told_apart(part, named.count(same)) if part == same else part for part in named]
    return [_lies(large(said), part.away, host) for said, part in zip(told, others, strict=True)]


def _told_apart(part: Phrase, many: int) -> Phrase:
    """One of `many` parts named as the one they are seen from: the other, or another."""
    values = dict(part.values)
    if "block" in values:
        title = values["block"]
        if many == 1:
            return phrase("the other block {block}", block=title)
        return phrase("another block {block}", block=title)
    if "letter" in values:
        letter = values["letter"]
        if many == 1:
            return phrase("the other patch {letter}", letter=letter)
        return phrase("another patch {letter}", letter=letter)
    patches = values["patches"]
    if many == 1:
        return phrase("the other unit of {patches}", patches=patches)
    return phrase("another unit of {patches}", patches=patches)


def _lies(part: Text, away: tuple[float, float], host: Text) -> Text:
    """Where a part lies on the page, seen from another."""
    return (
        phrase("{part} lies above {other}.", part=part, other=host),
        phrase("{part} lies above and to the right of {other}.", part=part, other=host),
        phrase("{part} lies to the right of {other}.", part=part, other=host),
        phrase("{part} lies below and to the right of {other}.", part=part, other=host),
        phrase("{part} lies below {other}.", part=part, other=host),
        phrase("{part} lies below and to the left of {other}.", part=part, other=host),
        phrase("{part} lies to the left of {other}.", part=part, other=host),
        phrase("{part} lies above and to the left of {other}.", part=part, other=host),
    )[round(bearing(away) / 45) % 8]


def _beside(block: BlockPlan, part: StepPart) -> Text:
    """A part from which another is seen: some languages give it another case."""
    said = _part(block, part)
    values = dict(said.values)
    if "block" in values:
        return phrase("block {block}", context="beside", block=values["block"])
    if "letter" in values:
        return phrase("patch {letter}", context="beside", letter=values["letter"])
    return phrase("the unit of {patches}", context="beside", patches=values["patches"])


def _part(block: BlockPlan, part: StepPart) -> Phrase:
    """A part with its patch letters: "the unit of 2 A and B", "patch C"; in a top, whose pieces are blocks, "block #3"."""
    letters = [piece_letter(block.tiling.piece(id)) for id in part.pieces]
    if len(letters) == 1 and block.tiling.block == TOP:
        return phrase("block {block}", block=letters[0])
    if len(letters) == 1:
        return phrase("patch {letter}", letter=letters[0])
    counted = [
        phrase("{n} {piece}", n=letters.count(x), piece=x) if letters.count(x) > 1 else x
        for x in sorted(set(letters))
    ]
    return phrase("the unit of {patches}", patches=listing(counted))


def _order(n: int, many: int) -> str:
    """Which of several runs."""
    if many == 1:
        return ""
    return "first" if n == 0 else "last" if n == many - 1 else "then"


def _run(block: BlockPlan, run: Run, order: str) -> Text:
    """One run in words."""
    ends = {
        End.POINT: phrase("its matching point", context="end of a run"),
        End.EDGE: phrase("the raw edge", context="end of a run"),
    }
    start, end = ends[end_at(block, run, 0)], ends[end_at(block, run, -1)]
    how = _how(run.by, order)
    if run.turns:
        last = sum(k > 0 for k in run.turns) + 2
        if run.begun:
            return phrase(
                "{how}: one run from dot 1 to dot 2 at {start}, back over that seam to dot 1, turning at {dots}, to dot "
                "{last} at {end}.",
                how=how,
                start=start,
                dots=listing([phrase("dot {n}", n=n) for n in (1, *range(3, last))]),
                last=last,
                end=end,
            )
        return phrase(
            "{how}: one run from dot 1 at {start}, turning at {dots}, to dot {last} at {end}.",
            how=how,
            start=start,
            dots=listing([phrase("dot {n}", n=n) for n in range(2, last)]),
            last=last,
            end=end,
        )
    if run.points[0] == run.points[-1]:
        return phrase("{how}: one seam all the way round, which ends where it began.", how=how)
    crossed = len(run.seams) - 1
    if any(len(block.tiling.seam(id).path) > 2 for id in run.seams):
        return _curved(how, start, end, crossed)
    if crossed:
        return plural_phrase(
            "{how}: one straight seam from {start} to {end}, over {n} crossing.",
            "{how}: one straight seam from {start} to {end}, over {n} crossings.",
            crossed,
            how=how,
            start=start,
            end=end,
        )
    return phrase("{how}: one straight seam from {start} to {end}.", how=how, start=start, end=end)


def _curved(how: Text, start: Text, end: Text, crossed: int) -> Text:
    """The same of a run that bends."""
    if not crossed:
        return phrase(
            "{how}: one curved seam from {start} to {end}.", how=how, start=start, end=end
        )
    return plural_phrase(
        "{how}: one curved seam from {start} to {end}, over {n} crossing.",
        "{how}: one curved seam from {start} to {end}, over {n} crossings.",
        crossed,
        how=how,
        start=start,
        end=end,
    )


def _how(by: By, order: str) -> Text:
    """By hand or by machine, and which of several runs."""
    if order == "last":
        return phrase("Last, by hand") if by is By.HAND else phrase("Last, by machine")
    if order == "first":
        return phrase("First, by hand") if by is By.HAND else phrase("First, by machine")
    if order == "then":
        return phrase("Then, by hand") if by is By.HAND else phrase("Then, by machine")
    return phrase("By hand") if by is By.HAND else phrase("By machine")


def end_at(block: BlockPlan, run: Run, which: int) -> End:
    """Where a run starts (0) or stops (-1): at its point or at the raw edge."""
    seam, at = block.tiling.seam(run.seams[which]), run.points[which]
    ends = block.assembly.sewn[seam.id].ends
    return ends[0] if seam.start == at else ends[1]


def told_pressing(block: BlockPlan) -> Text:
    """The pressing picture in words: which way every allowance lies, then how the points meet."""
    tiling, pressed = block.tiling, block.pressing.pressed
    ways: dict[Text, int] = {}
    for seam in tiling.seams:
        if seam.id not in pressed:
            continue
        letters = [tiling.piece(id).patch for id in seam.between]
        toward = pressed[seam.id].toward
        joined = listing(letters)
        if toward is None:
            words = phrase("between {patches} open", patches=joined)
        elif letters[0] == letters[1]:
            words = phrase("between {patches} to one side, as drawn", patches=joined)
        else:
            words = phrase(
                "between {patches} toward {patch}",
                patches=joined,
                patch=tiling.piece(toward).patch,
            )
        ways[words] = ways.get(words, 0) + 1
    lines = [
        phrase("{way} ({n} times)", way=words, n=count) if count > 1 else words
        for words, count in ways.items()
    ]
    sentences: list[Text] = [phrase("The block from the back, so left and right are swapped.")]
    if lines:
        sentences.append(phrase("Allowances lie: {ways}.", ways=listing(lines, "semicolons")))
    return listing([*sentences, *block.press_words], "sentences")
