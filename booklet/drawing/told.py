"""Floor 10: what a picture shows, told in sentences, for those who cannot see it."""

from __future__ import annotations

from booklet.pattern import By
from booklet.plan import BlockPlan, StepCard
from booklet.sewing.assembly import End, Run


def told_step(block: BlockPlan, card: StepCard) -> str:
    """The step picture in words: the parts with their pieces, the run, its ends, the pressing."""
    step = card.step
    parts = ", ".join(_part(block, name) for name in step.join)
    sentences = [f"Left, the parts: {parts}."]
    sentences += [_run(block, run) for run in step.runs]
    if step.leave is not None:
        sentences.append("The seam stops half way, at the open circle; the rest waits.")
    sentences.append(f"Right, the unit sewn, {len(step.pieces)} pieces.")
    return " ".join([*sentences, *card.press])


def _part(block: BlockPlan, name: str) -> str:
    """A part with its patch letters: "unit pair1 (A, B)"; a piece by its letter."""
    pieces = block.assembly.units.get(name, (name,))
    letters = [block.tiling.piece(id).patch for id in pieces]
    if len(letters) == 1:
        return f"patch {letters[0]}"
    counted = [
        f"{letters.count(x)} {x}" if letters.count(x) > 1 else x for x in sorted(set(letters))
    ]
    return f"the unit of {', '.join(counted)}"


def _run(block: BlockPlan, run: Run) -> str:
    """One run in words."""
    how = "by hand" if run.by is By.HAND else "by machine"
    seams = "one seam" if len(run.seams) == 1 else f"{len(run.seams)} seams in a row"
    turns = len(run.turns)
    bends = "" if not turns else ", with one turn" if turns == 1 else f", with {turns} turns"
    start, end = end_at(block, run, 0), end_at(block, run, -1)
    return f"Sew {how} along {seams}{bends}, from the {start.value} to the {end.value}."


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
