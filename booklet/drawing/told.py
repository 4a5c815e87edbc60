"""Floor 10: what a picture shows, told in sentences, for those who cannot see it."""

from __future__ import annotations

from booklet.drawing.plane import bearing
from booklet.drawing.units import Part, exploded
from booklet.geometry.tiling import PlacedPiece
from booklet.pattern import By
from booklet.plan import BlockPlan, StepCard
from booklet.plan.words import listed, plural
from booklet.sewing.assembly import End, Run


def piece_letter(piece: PlacedPiece) -> str:
    """The letter of a piece as printed: "Br" for B reversed."""
    return piece.patch + ("r" if piece.reversed else "")


def told_step(block: BlockPlan, card: StepCard) -> str:
    """The step picture in words: where the parts lie, the run, its ends, the pressing."""
    step = card.step
    sentences = ["Left, what to sew."]
    parts = exploded(block.assembly, step, 1.0)
    if step.finish or len(step.join) < 2:
        sentences.append("The unit is whole but for one open seam.")
    else:
        sentences += _places(block, parts)
    sentences += [_run(block, run, _order(n, len(step.runs))) for n, run in enumerate(step.runs)]
    if step.leave is not None:
        sentences.append(
            "Stop half way along, at the open circle; the rest waits for a later step."
        )
    count = len(step.pieces)
    made = f"{count} piece" if count == 1 else f"{count} pieces"
    measure = f", {card.measure} with its allowances" if card.measure else ""
    sentences.append(f"Right, the unit made: {made}{measure}.")
    if card.make > 1:
        sentences.append(f"Make {card.make}.")
    return " ".join([*sentences, *card.press])


def _places(block: BlockPlan, parts: tuple[Part, ...]) -> list[str]:
    """Where each part stands from the one that stays: "Patch C lies above the unit of A and B." """
    still = next((part for part in parts if part.away == (0.0, 0.0)), parts[0])
    others = [part for part in parts if part is not still]
    host = _part(block, still)
    return [f"{_capital(_part(block, part))} lies {_way(part.away)} {host}." for part in others]


def _way(away: tuple[float, float]) -> str:
    """A direction on the page in words."""
    names = (
        "above", "above and to the right of", "to the right of", "below and to the right of",
        "below", "below and to the left of", "to the left of", "above and to the left of",
    )  # fmt: skip
    return names[round(bearing(away) / 45) % 8]


def _part(block: BlockPlan, part: Part) -> str:
    """A part with its patch letters: "the unit of 2 A and B", "patch C"."""
    letters = [piece_letter(block.tiling.piece(id)) for id in part.pieces]
    if len(letters) == 1:
        return f"patch {letters[0]}"
    counted = [
        f"{letters.count(x)} {x}" if letters.count(x) > 1 else x for x in sorted(set(letters))
    ]
    return f"the unit of {listed(counted)}"


def _order(n: int, many: int) -> str:
    """The word before one of several runs."""
    if many == 1:
        return ""
    return "First, " if n == 0 else "Last, " if n == many - 1 else "Then, "


def _run(block: BlockPlan, run: Run, order: str) -> str:
    """One run in words."""
    how = "by hand" if run.by is By.HAND else "by machine"
    starts = {End.POINT: "its matching point", End.EDGE: "the raw edge"}
    start, end = starts[end_at(block, run, 0)], starts[end_at(block, run, -1)]
    if not run.turns:
        crossed = len(run.seams) - 1
        over = f", over {plural(crossed, 'crossing')}" if crossed else ""
        return _capital(f"{order}one straight seam {how} from {start} to {end}{over}.")
    dots = listed([f"dot {n}" for n in range(2, len(run.turns) + 2)])
    last = len(run.turns) + 2
    return _capital(
        f"{order}one run {how} from dot 1 at {start}, turning at {dots}, to dot {last} at {end}."
    )


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def end_at(block: BlockPlan, run: Run, which: int) -> End:
    """Where a run starts (0) or stops (-1): at its point or at the raw edge."""
    seam, at = block.tiling.seam(run.seams[which]), run.points[which]
    ends = block.assembly.sewn[seam.id].ends
    return ends[0] if seam.start == at else ends[1]


def told_pressing(block: BlockPlan) -> str:
    """The pressing picture in words: which way every allowance lies, then how the points meet."""
    tiling, pressed = block.tiling, block.pressing.pressed
    ways: dict[str, int] = {}
    for seam in tiling.seams:
        if seam.id not in pressed:
            continue
        letters = [tiling.piece(id).patch for id in seam.between]
        toward = pressed[seam.id].toward
        joined = " and ".join(letters)
        if toward is None:
            words = f"between {joined} open"
        else:
            words = f"between {joined} toward {tiling.piece(toward).patch}"
            if letters[0] == letters[1]:
                words = f"between {joined} to one side, as drawn"
        ways[words] = ways.get(words, 0) + 1
    lines = [f"{words}{f' ({count} times)' if count > 1 else ''}" for words, count in ways.items()]
    sentences = ["The block from the back, so left and right are swapped."]
    if lines:
        sentences.append(f"Allowances lie: {'; '.join(lines)}.")
    return " ".join([*sentences, *block.press_words])
