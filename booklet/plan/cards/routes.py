"""Floor 9: hand routes: which are alike, where they are numbered, and what is said of them."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator, Mapping, Sequence

from booklet.geometry.patches.headings import turns
from booklet.geometry.tiling import PlacedPiece, Seam
from booklet.kit import trade
from booklet.kit.measure import UnitSystem
from booklet.kit.outlines.plane import Point, inward_corners
from booklet.kit.records import Record
from booklet.kit.words import Listing, Phrase, phrase, plural_phrase, with_unit
from booklet.pattern import By
from booklet.plan.cards.frames import Stage
from booklet.quilt.assembling.joining import TOP
from booklet.sewing.assembly import Assembly, Run, Step, StepKind, Thread

MOST_TOLD = 3  # ways back of a route that are told one by one


class Stop(Record):
    """A numbered place of a route: where it is, and at which seam it is first reached: `before` that seam is sewn."""

    at: Point
    before: int


class Route(Record, kw_only=True):
    """Alike threads of a block, told once. `threads` are their numbers from 1, the one drawn first;
    `stops` are the places along it that bear a number: start, turns, changes of step, where it leaves to go back and
    where it sews on, and end. A place that is passed again keeps its number. `onward` is the route that goes on where it
    is used up."""

    n: int
    threads: tuple[int, ...]
    thread: Thread
    cards: tuple[int, ...]  # the card of each seam
    stops: tuple[Stop, ...]
    onward: int | None
    halves: tuple[int, ...] = ()  # indexes of the seams of which a first step sews but a part
    of_top: bool = False  # its patches are whole blocks


def routes(assembly: Assembly) -> tuple[Route, ...]:
    """The routes of a block, in the order in which they are begun."""
    card = {step.n: step.card for step in assembly.steps}
    kinds: dict[tuple[object, ...], list[int]] = {}
    for number, thread in enumerate(assembly.threads, 1):
        cards = tuple(card[assembly.sewn[id].step] for id in thread.seams)
        gone = tuple((way.before, way.loose, round(way.length, 3)) for way in thread.back)
        key = (cards, thread.turns, len(thread.through), round(thread.length, 3), thread.full, gone)
        kinds.setdefault(key, []).append(number)
    place = {number: n for n, group in enumerate(kinds.values(), 1) for number in group}
    found: list[Route] = []
    for n, group in enumerate(kinds.values(), 1):
        thread = assembly.threads[group[0] - 1]
        found.append(
            Route(
                n=n,
                threads=tuple(group),
                thread=thread,
                cards=tuple(card[assembly.sewn[id].step] for id in thread.seams),
                stops=_stops(assembly, thread),
                onward=place[thread.then] if thread.then else None,
                halves=_halves(assembly, thread),
                of_top=assembly.tiling.block == TOP,
            )
        )
    return tuple(found)


def _halves(assembly: Assembly, thread: Thread) -> tuple[int, ...]:
    """The indexes of the partial seams of a thread: it hangs midway along them, not at their end."""
    begun = {
        seam
        for step in assembly.steps
        if step.kind is StepKind.PARTIAL and not step.finish
        for run in step.runs
        for seam in run.seams[-1:]  # the last one is left open
    }
    return tuple(k for k, seam in enumerate(thread.seams) if seam in begun)


def _stops(assembly: Assembly, thread: Thread) -> tuple[Stop, ...]:
    """The places of a thread that bear a number, each once."""
    seams = [assembly.tiling.seam(id) for id in thread.seams]
    steps = [assembly.sewn[id].step for id in thread.seams]
    back = {way.before: way for way in thread.back}
    found = {thread.points[0]: Stop(thread.points[0], 0)}
    for k in range(1, len(seams)):
        if k in back:
            for at in (back[k].points[0], back[k].points[-1]):
                found.setdefault(at, Stop(at, k))
        elif turns(seams[k - 1], seams[k], thread.points[k]) or steps[k] != steps[k - 1]:
            found.setdefault(thread.points[k], Stop(thread.points[k], k))
    found.setdefault(thread.points[-1], Stop(thread.points[-1], len(seams)))
    return tuple(found.values())


def number_at(route: Route, at: Point) -> int:
    """The number of a place of a route."""
    return next(n for n, stop in enumerate(route.stops, 1) if stop.at == at)


def route_caption(route: Route, units: UnitSystem) -> Listing:
    """What stands under the picture of a route."""
    return Listing(tuple(_said(route, units)), "sentences")


def _said(route: Route, units: UnitSystem) -> Iterator[Phrase]:
    thread = route.thread
    steps = tuple(str(n) for n in dict.fromkeys(route.cards))
    length = with_unit(thread.length, units)
    if len(steps) == 1:
        yield plural_phrase(
            "Route {route}, step {steps}: {n} seam, {length}, on one thread.",
            "Route {route}, step {steps}: {n} seams, {length}, on one thread.",
            len(thread.seams),
            route=route.n,
            steps=steps,
            length=length,
        )
    else:
        yield plural_phrase(
            "Route {route}, steps {steps}: {n} seam, {length}, on one thread.",
            "Route {route}, steps {steps}: {n} seams, {length}, on one thread.",
            len(thread.seams),
            route=route.n,
            steps=steps,
            length=length,
        )
    if thread.turns:
        yield plural_phrase("It turns once.", "It turns {n} times.", thread.turns)
    if len(route.threads) > 1:
        n = len(route.threads)
        if route.of_top:
            yield plural_phrase("Sew it {n} time in the top.", "Sew it {n} times in the top.", n)
        else:
            yield plural_phrase(
                "Sew it {n} time in the block.", "Sew it {n} times in the block.", n
            )
    yield from _gone_back(route, units)
    yield from _hanging(route)
    if thread.full and route.onward is not None and route.onward != route.n:
        yield phrase(
            "It ends where the thread is used up: route {route} begins there with a new one.",
            route=route.onward,
        )
    elif thread.full:
        yield phrase("It ends where the thread is used up: begin a new one there.")


def _hanging(route: Route) -> Iterator[Phrase]:
    """Where a thread waits for a later step, each time if that is seldom."""
    waits = list(_waits(route))
    if len(waits) > MOST_TOLD and all(dot is not None for dot, _, _ in waits):
        yield phrase(
            "At the end of each step leave the thread hanging, at {dots} in turn, and go on from there in the next.",
            dots=tuple(str(dot) for dot, _, _ in waits),
        )
        return
    for dot, before, after in waits:
        if dot is None:
            yield phrase(
                "Leave the thread hanging at the open circle after step {before}, and go on from there "
                "in step {after}.",
                before=before,
                after=after,
            )
        else:
            yield phrase(
                "Leave the thread hanging at {dot} after step {before}, and go on from there in step {after}.",
                dot=dot,
                before=before,
                after=after,
            )


def _gone_back(route: Route, units: UnitSystem) -> Iterator[Phrase]:
    """Where a thread goes back over sewn seam, each way if they are few, and where it lies loose."""
    over = [way for way in route.thread.back if not way.loose]
    if len(over) > MOST_TOLD:
        yield phrase(
            "{n} times it goes back over sewn seam, along the thin lines: {length} in all.",
            n=len(over),
            length=with_unit(route.thread.gone_back, units),
        )
    for way in over if len(over) <= MOST_TOLD else ():
        yield phrase(
            "From {start} go back over {length} of sewn seam to {end}, along the thin line.",
            start=number_at(route, way.points[0]),
            length=with_unit(way.length, units),
            end=number_at(route, way.points[-1]),
        )
    for way in route.thread.back:
        if way.loose:
            yield phrase(
                "From {start} pass behind the patches to {end}; leave the thread easy there, {length} long.",
                start=number_at(route, way.points[0]),
                end=number_at(route, way.points[-1]),
                length=with_unit(way.length, units),
            )


def _waits(route: Route) -> Iterator[tuple[int | None, int, int]]:
    """Where a thread waits for a later step: the number of the dot, None midway along a partial seam, the
    step before and the one after."""
    back = {way.before: way for way in route.thread.back}
    for k, (before, after) in enumerate(itertools.pairwise(route.cards), 1):
        if before != after:
            midway = k - 1 in route.halves
            at = back[k].points[0] if k in back else route.thread.points[k]
            yield None if midway else number_at(route, at), before, after


def route_told(route: Route) -> Listing:
    """The picture of a route in words, for those who cannot see it."""
    last = number_at(route, route.thread.points[-1])
    said = [
        phrase("From the needle at 1 along the numbers to {last}, where it is fastened.", last=last)
    ]
    numbered = {stop.at for stop in route.stops}
    passed = dict.fromkeys(route.thread.points[k] for k in route.thread.through)
    ringed = tuple(str(number_at(route, at)) for at in passed if at in numbered)
    if route.thread.back:
        said.append(phrase("Thin lines beside the seams show where it goes back."))
    if ringed:
        said.append(phrase("The needle passes through the allowances at {dots}.", dots=ringed))
    said.append(phrase("Backstitch at the start and at the end."))
    return Listing(tuple(said), "sentences")


def hanging_words(steps: Sequence[Step], assembly: Assembly) -> Iterator[Phrase]:
    """What a card says about threads that come from an earlier step or wait for a later one."""
    card = {step.n: step.card for step in assembly.steps}
    mine = {step.n for step in steps}
    begun = 0  # threads that sew here
    came: list[int] = []
    goes: list[int] = []
    for thread in assembly.threads:
        own = tuple(dict.fromkeys(assembly.sewn[id].step for id in thread.seams))
        begun += any(step in mine for step in own)
        for before, after in itertools.pairwise(own):
            came += [card[before]] if after in mine else []
            goes += [card[after]] if before in mine else []
    if came:
        yield _coming(len(came), _steps(came))
    if goes:
        yield _going(len(goes), begun, _steps(goes))
    for step in steps[:1]:
        yield from _left_within(step, assembly)


def _left_within(step: Step, assembly: Assembly) -> Iterator[Phrase]:
    """That a thread of a step waits while other seams of it are sewn, where the routes have it go on after them."""
    at = {seam: k for k, run in enumerate(step.runs) for seam in run.seams}
    sewn = [tuple(dict.fromkeys(at[s] for s in t.seams if s in at)) for t in assembly.threads]
    waits = any(abs(b - a) > 1 for runs in sewn for a, b in itertools.pairwise(runs))
    if waits and sum(map(bool, sewn)) < len(step.runs):
        yield phrase(
            "These {seams} seams take {n} threads: the routes show where each goes on; let one that waits hang.",
            seams=len(step.runs),
            n=sum(map(bool, sewn)),
        )


def _steps(cards: Iterable[int]) -> Phrase:
    """Steps by their cards: "step 3", "steps 3 and 5"."""
    numbers = tuple(str(n) for n in sorted(set(cards)))
    if len(numbers) == 1:
        return phrase("step {n}", n=numbers[0])
    return phrase("steps {numbers}", numbers=numbers)


def _coming(count: int, steps: Phrase) -> Phrase:
    return plural_phrase(
        "Go on with the thread that hangs from {steps}: the routes show where.",
        "Go on with the {n} threads that hang from {steps}: the routes show where.",
        count,
        steps=steps,
    )


def _going(count: int, threads: int, steps: Phrase) -> Phrase:
    """How many of a card's threads are left hanging."""
    if threads == 1:
        return phrase(
            "Do not fasten off at the end: the thread goes on in {steps}, as the routes show.",
            steps=steps,
        )
    if count == threads:
        return phrase(
            "Leave the {n} threads hanging at their ends: they go on in {steps}, as the routes show.",
            n=count,
            steps=steps,
        )
    return plural_phrase(
        "Leave {n} of the {threads} threads hanging at its end: it goes on in {steps}, as the routes "
        "show.",
        "Leave {n} of the {threads} threads hanging at their ends: they go on in {steps}, as the routes "
        "show.",
        count,
        threads=threads,
        steps=steps,
    )


def opened_along(
    assembly: Assembly, step: Step, stage: Stage
) -> Mapping[Point, Sequence[tuple[Seam, bool]]]:
    """By each point where the run of a stage turns the seams sewn before that end there, and whether they begin
    there: their allowances are spread there, so that the corner goes in."""
    found: dict[Point, list[tuple[Seam, bool]]] = {}
    corners = _corners(assembly, step, stage)
    if not corners:
        return found
    pieces = set(stage.pieces)
    tiling = assembly.tiling
    ending = {
        id for junction in tiling.junctions if junction.at in corners for id in junction.seams
    }
    for seam in tiling.seams:
        for at in corners.intersection((seam.start, seam.end)) if seam.id in ending else ():
            is_sewn = assembly.sewn[seam.id].step < step.n or seam.id in stage.earlier
            if is_sewn and pieces >= set(seam.between):
                found.setdefault(at, []).append((seam, seam.start == at))
    return found


def clipped_at(
    assembly: Assembly, step: Step, stage: Stage
) -> Mapping[Point, Sequence[PlacedPiece]]:
    """By each point where the run of a stage turns the patches that have an inward corner there: no seam opens it, so its
    allowance is clipped. Of a top, whose patches are blocks, none: mostly their own seams open there."""
    tiling = assembly.tiling
    if tiling.block == TOP:
        return {}
    corners = _corners(assembly, step, stage)
    found: dict[Point, list[PlacedPiece]] = {}
    for piece in map(tiling.piece, stage.pieces if corners else ()):
        for at in corners & inward_corners(piece.outline.points).keys():
            found.setdefault(at, []).append(piece)
    return found


def _corners(assembly: Assembly, step: Step, stage: Stage) -> frozenset[Point]:
    """The points at which a stage goes round a corner: where its run turns, and, where threads part a run at a turn, where it
    meets what they sewed before."""
    run, tiling = stage.run, assembly.tiling
    if step.turns == sum(len(each.turns) for each in step.runs):
        return frozenset(run.turn_points)
    ends = {at: tiling.seam(seam) for seam, at in _ends(run)}
    parted = {
        at
        for other in step.runs[: stage.number]
        for seam, at in _ends(other)
        if at in ends and turns(tiling.seam(seam), ends[at], at)
    }
    return frozenset(parted.union(run.turn_points))


def _ends(run: Run) -> tuple[tuple[str, Point], tuple[str, Point]]:
    """The first and the last seam of a run, each with the point where the run ends there."""
    return (run.seams[0], run.points[0]), (run.seams[-1], run.points[-1])


def on_one_thread(run: Run, assembly: Assembly) -> bool:
    """Whether a hand run is sewn from its start to its end by one thread."""
    there = [seam for seam, _ in run.goes]
    return run.by is By.HAND and any(_holds(thread.seams, there) for thread in assembly.threads)


def _all_whole(assembly: Assembly) -> bool:
    """Whether no hand run is parted among threads."""
    runs = (run for step in assembly.steps for run in step.runs if run.by is By.HAND)
    return all(on_one_thread(run, assembly) for run in runs)


def _holds(seams: Sequence[str], run: Iterable[str]) -> bool:
    """Whether the seams of a run follow each other among those of a thread, either way."""
    there = list(run)
    spans = [list(seams[k : k + len(there)]) for k in range(len(seams) - len(there) + 1)]
    return there in spans or there[::-1] in spans


def thread_words(
    assembly: Assembly, units: UnitSystem, thread: float, *, papers: bool
) -> Iterator[Phrase]:
    """How many hand threads a block takes, what going back would save, and what to do where a thread, so many inches long,
    does not last for its route."""
    count = len(assembly.threads)
    if assembly.parted_threads < count and _all_whole(assembly):
        yield plural_phrase(
            "The block takes {n} hand thread; every run lies whole on one of them.",
            "The block takes {n} hand threads; every run lies whole on one of them.",
            count,
        )
    elif count and not assembly.route_gap:
        yield plural_phrase(
            "The block takes {n} hand thread; no other route costs less.",
            "The block takes {n} hand threads; no other routes cost less.",
            count,
        )
    elif count:
        yield plural_phrase(
            "The block takes {n} hand thread.", "The block takes {n} hand threads.", count
        )
    gone = sum(thread.gone_back for thread in assembly.threads)
    loose = sum(thread.loose for thread in assembly.threads)
    if gone:
        yield plural_phrase(
            "It goes back over {length} of sewn seam in all, which costs less than new threads.",
            "They go back over {length} of sewn seam in all, which costs less than new threads.",
            count,
            length=with_unit(gone, units),
        )
    if loose:
        yield phrase("{length} lies loose behind the patches.", length=with_unit(loose, units))
    lasts = thread * (trade.WHIPPED_BY_A_THREAD if papers else trade.SEWN_BY_A_THREAD)
    if any(route.length + route.gone_back > lasts for route in assembly.threads):
        yield phrase(
            "A thread sews less seam than it is long, for its stitches and its end in the needle take up some: where one runs "
            "short, fasten it off at a dot and begin the next there."
        )
