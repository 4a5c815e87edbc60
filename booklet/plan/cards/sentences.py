"""Floor 9: what a step card says, composed from how its seams run, end and turn."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Sequence

from booklet.kit.outlines.plane import Point
from booklet.kit.words import Phrase, Text, listing, phrase, plural_phrase
from booklet.pattern import By
from booklet.plan.cards.chaining import runs_through
from booklet.plan.cards.frame_words import going_round, how, told_in_a_row, told_in_order
from booklet.plan.cards.frames import Stage, is_framed, is_in_place, rows_joined, stages
from booklet.plan.cards.on_paper import papers_joined, sewn_on_paper
from booklet.plan.cards.routes import clipped_at, on_one_thread, opened_along
from booklet.plan.naming import Naming, reversed_letter
from booklet.quilt.assembling.joining import TOP
from booklet.sewing.assembly import Assembly, End, Run, Step, StepKind

MOST_TOLD = 4  # turns of a run that are told one by one


def what_to_do(step: Step, naming: Naming, made: int, papers: bool) -> Iterator[Text]:
    """The sentences of a card; `made` is how many alike units the whole quilt needs, `papers` whether its
    patches are basted over papers."""
    runs = step.runs
    if step.section:
        yield from sewn_on_paper(step, naming)
        return
    yield from _runs(step, naming.assembly)
    yield from papers_joined(step, naming.assembly)
    if papers and all(run.by is By.HAND for run in runs):
        yield from _over_papers(step, naming.assembly)
        return
    yield from _clipped(step, naming.assembly)
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
    if _is_curved(step, naming.assembly):
        yield (
            phrase(
                "Lay the marks of the curve on each other; pin them first, and ease in what lies between."
            )
            if all(run.points[0] == run.points[-1] for run in step.runs)
            else phrase(
                "Lay the marks of the curve on each other; pin them and both ends first, and ease in "
                "what lies between."
            )
        )
    if made > 1 and runs_through(step):
        yield phrase("Chain-piece them: {n} in all, one behind the other.", n=made)


def _is_curved(step: Step, assembly: Assembly) -> bool:
    """Whether any seam of a step bends, so that its marks have to be laid on each other; not where the last bit of it is
    closed."""
    seams = (assembly.tiling.seam(id) for run in step.runs for id in run.seams)
    return not step.finish and any(len(seam.path) > 2 for seam in seams)


def _over_papers(step: Step, assembly: Assembly) -> Iterator[Text]:
    """How edges folded over papers are joined: nothing has to open, since no allowance lies in a seam."""
    yield phrase(
        "Right sides together, edge on edge, a clip at each end: whip-stitch through the two folds alone, never "
        "through the papers. Begin and end with a few stitches on one spot."
    )
    if any(run.turns for run in step.runs):
        yield phrase(
            "At a turn take a second stitch in the corner, fold the papers until the next two edges lie on each "
            "other, and go on with the same thread."
        )
    if _is_curved(step, assembly):
        yield phrase("Lay the marks of the curve on each other and join them first.")


def _clipped(step: Step, assembly: Assembly) -> Iterator[Phrase]:
    """At which dots a patch has an inner corner, so that its allowance is clipped there, where it is the same in every run."""
    run, row = step.runs[0], stages(step, assembly)
    if not any(clipped_at(assembly, step, stage) for stage in row):
        return
    dots, told = _clipped_dots(row[0], step, assembly), set(dots_named(run, step, assembly))
    if dots is None or not set(dots) <= told or not _alike(_clipped_dots, row, step, assembly):
        yield phrase(
            "Clip the allowance of a patch at its inner corner, almost to the dot, so that it opens."
        )
        return
    yield plural_phrase(
        "Clip the allowance at the inner corner at dot {dots}, almost to the dot, so that it opens.",
        "Clip the allowances at the inner corners at dots {dots}, almost to the dots, so that they open.",
        len(dots),
        dots=_dots(dots),
    )


def _opened(step: Step, assembly: Assembly) -> Iterator[Phrase]:
    """At which dots the seams sewn before open to let a corner in, where it is the same in every run."""
    run, row = step.runs[0], stages(step, assembly)
    dots = _opened_dots(row[0], step, assembly)
    if dots is None or not _alike(_opened_dots, row, step, assembly):
        yield phrase(
            "Where two strokes part at a dot, spread the earlier seams open there, so that the corner goes in."
        )
        return
    if dots and not set(dots) & set(dots_named(run, step, assembly)):
        yield phrase("Spread the earlier seams open at each of them, so that the corners go in.")
    elif dots:
        yield plural_phrase(
            "Spread the earlier seam open at dot {dots}, so that the corner goes in.",
            "Spread the earlier seams open at dots {dots}, so that the corners go in.",
            len(dots),
            dots=_dots(dots),
        )


def _opened_dots(stage: Stage, step: Step, assembly: Assembly) -> list[int] | None:
    """The numbers of the dots of a stage's run at which earlier seams are spread."""
    return _turns_at(stage.run, opened_along(assembly, step, stage))


def _clipped_dots(stage: Stage, step: Step, assembly: Assembly) -> list[int] | None:
    """The numbers of the dots of a stage's run at which an inner corner is clipped."""
    return _turns_at(stage.run, clipped_at(assembly, step, stage))


def _turns_at(run: Run, places: Collection[Point]) -> list[int] | None:
    """The numbers of the dots of a run that lie at these places; None where one lies at an end, which may have no number."""
    inner = [(n, k) for n, k in enumerate(dot_points(run), 1) if k in run.turns and k]
    dots = [n for n, k in inner if run.points[k] in places]
    return dots if len(dots) == len(places) else None


def _alike(
    dots: Callable[[Stage, Step, Assembly], list[int] | None],
    row: Sequence[Stage],
    step: Step,
    assembly: Assembly,
) -> bool:
    """Whether the same dots are found in every run of a step."""
    first = dots(row[0], step, assembly)
    return all(dots(other, step, assembly) == first for other in row[1:])


def dot_points(run: Run) -> tuple[int, ...]:
    """The indexes of the points of a run that bear the dots 1, 2 and so on: where it begins, turns and ends; of one
    begun at a corner that first, then its near end."""
    inner, last = [k for k in run.turns if k], len(run.seams)
    return (inner[0], 0, *inner[1:], last) if run.begun else (0, *inner, last)


def dots_named(run: Run, step: Step, assembly: Assembly) -> tuple[int, ...]:
    """The dots of a run that turns that bear their numbers: all, but of many turns of which the words name
    none only the first and the last, for the numbers would lie over the signs."""
    inner = len([k for k in run.turns if k])
    last = inner + (
        1 if run.points[0] == run.points[-1] else 2
    )  # all the way round it ends at dot 1
    if inner > MOST_TOLD and _names_no_dots(run, step, assembly, inner):
        if run.begun:
            return (1, 2, last)
        return (1, last) if last == inner + 2 else (1,)
    return tuple(range(1, last + 1))


def _names_no_dots(run: Run, step: Step, assembly: Assembly, inner: int) -> bool:
    """Whether the words of a step name no dot of a run with so many turns."""
    row = stages(step, assembly)
    own = row[step.runs.index(run)]
    if assembly.tiling.block == TOP and rows_joined(step, assembly):
        return True
    return all(
        len(dots(own, step, assembly) or ()) in (0, inner) or not _alike(dots, row, step, assembly)
        for dots in (_opened_dots, _clipped_dots)
    )


def _dots(numbers: Sequence[int]) -> Text:
    """Dots in words: "2 and 3", "2 to 6"."""
    first, last = numbers[0], numbers[-1]
    if len(numbers) > 2 and last - first + 1 == len(numbers):
        return phrase("{first} to {last}", first=first, last=last)
    return listing([str(n) for n in numbers])


def _runs(step: Step, assembly: Assembly) -> Iterator[Text]:
    """A sentence for each run of a step, or one for all if they are sewn alike; of a step told run by run
    one for each way of sewing, and how often it comes."""
    framed = is_framed(step, assembly) or is_in_place(step, assembly)
    whole = [on_one_thread(run, assembly) and bool(run.turns) for run in step.runs]
    ways = [
        (run.by, thread, _run(run, step, assembly))
        for run, thread in zip(step.runs, whole, strict=True)
    ]
    if len(ways) > 1 and len(set(ways)) == 1:
        by, thread, what = ways[0]
        yield phrase("{how}: {what}", how=_all_alike(by, thread, len(ways)), what=what)
        yield from going_round(stages(step, assembly), assembly) if framed else ()
    elif len(ways) > 1 and not framed and assembly.tiling.block != TOP:
        yield from told_in_a_row(ways)
    elif len(ways) > 1:
        yield from told_in_order(ways, stages(step, assembly), assembly)
    else:
        by, thread, what = ways[0]
        yield phrase("{how}: {what}", how=how(by, "", thread), what=what)


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
    if step.kind is StepKind.PARTIAL and not step.finish:
        return _part_way(step, start, assembly)
    if step.finish and run.turns:
        return _closed_round(run, end)
    if step.finish and end is End.EDGE:
        return phrase("begin a few stitches before the open circle and sew on to the edge.")
    if step.finish:
        return phrase("begin a few stitches before the open circle and sew on to the dot.")
    if run.turns:
        if run.points[0] == run.points[-1]:
            return _all_round(sum(k > 0 for k in run.turns))
        path = dots_of(len(run.turns), run.begun)
        if end is End.POINT:
            return phrase("sew from {path}. Stop at the last dot.", path=path)
        return phrase("sew from {path}.", path=path)
    if run.points[0] == run.points[-1]:
        return phrase("sew all the way round, and end where you began.")
    if (start, end) == (End.EDGE, End.EDGE):
        return phrase("sew from edge to edge.")
    if (start, end) == (End.POINT, End.POINT):
        return phrase("sew from dot to dot. Stop at the dot.")
    return phrase("sew from the edge to the dot. Stop at the dot.")


def _closed_round(run: Run, end: End) -> Phrase:
    """How a partial seam is closed whose last stretch turns; the open circle is its dot 1."""
    dots = [n for n, k in enumerate(dot_points(run), 1) if k in run.turns]
    if end is End.EDGE:
        return plural_phrase(
            "begin a few stitches before the open circle, turn at dot {dots}, and sew on to the edge.",
            "begin a few stitches before the open circle, turn at dots {dots}, and sew on to the edge.",
            len(dots),
            dots=_dots(dots),
        )
    return plural_phrase(
        "begin a few stitches before the open circle, turn at dot {dots}, and sew on to the last dot.",
        "begin a few stitches before the open circle, turn at dots {dots}, and sew on to the last dot.",
        len(dots),
        dots=_dots(dots),
    )


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


def dots_of(turns: int, begun: bool = False) -> Phrase:
    """The way of a run with `turns` turns: "dot 1 to dot 2, turn, to dot 3"; of many turns, in short. One `begun` at a
    corner goes out to its near end and back."""
    if begun and turns > MOST_TOLD:
        return phrase(
            "dot 1 to dot 2, go back over that seam to dot 1, and sew on to dot {last}, turning at every dot",
            last=turns + 2,
        )
    if turns > MOST_TOLD:
        return phrase("dot 1 to dot {last}, and turn at every dot between", last=turns + 2)
    path = phrase("dot 1 to dot 2")
    if begun:
        path = phrase("dot 1 to dot 2, go back over that seam to dot 1, turn, to dot 3")
    for n in range(4 if begun else 3, turns + 3):
        path = phrase("{path}, turn, to dot {n}", path=path, n=n)
    return path


def _all_round(turns: int) -> Phrase:
    """The way of a run that ends where it began, with `turns` turns on the way."""
    if turns > MOST_TOLD or not turns:
        return phrase("sew from dot 1 all the way round, turn at every dot, and end at dot 1.")
    path = dots_of(turns - 1)
    return phrase("sew from {path}, turn, and back to dot 1.", path=path)


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
