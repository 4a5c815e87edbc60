"""Floor 9: hand routes: which are alike, where they are numbered, and what is said of them."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from booklet.geometry.tiling import Seam
from booklet.kit.plane import Point
from booklet.measure import UnitSystem
from booklet.pattern import By
from booklet.plan.frames import stage_of
from booklet.plan.words import measured
from booklet.quilt.joining import TOP
from booklet.sewing.assembly import Assembly, Retrace, Run, Step, StepKind, Thread
from booklet.sewing.order.headings import turns
from booklet.words import Listing, Phrase, phrase, plural_phrase


@dataclass(frozen=True, slots=True, kw_only=True)
class Route:
    """Alike threads of a block, told once. `threads` are their numbers from 1, the one drawn first;
    `stops` the indexes of its points that bear a number: start, turns, changes of step, and end.
    `back` is the way back from its end that saves a thread, `onward` the route that begins there."""

    n: int
    threads: tuple[int, ...]
    thread: Thread
    cards: tuple[int, ...]  # the card of each seam
    stops: tuple[int, ...]
    back: Retrace | None
    onward: int | None
    halves: tuple[int, ...] = ()  # indexes of the seams of which a first step sews but a part
    of_top: bool = False  # its patches are whole blocks


def routes(assembly: Assembly) -> tuple[Route, ...]:
    """The routes of a block, in the order in which they are begun."""
    card = {step.n: step.card for step in assembly.steps}
    back = {offer.first: offer for offer in assembly.retraces}
    kinds: dict[tuple[object, ...], list[int]] = {}
    for number, thread in enumerate(assembly.threads, 1):
        cards = tuple(card[assembly.sewn[id].step] for id in thread.seams)
        key = (cards, thread.turns, len(thread.through), round(thread.length, 3), thread.full)
        kinds.setdefault(key, []).append(number)
    place = {number: n for n, group in enumerate(kinds.values(), 1) for number in group}
    found: list[Route] = []
    for n, group in enumerate(kinds.values(), 1):
        first = next((number for number in group if number in back), group[0])
        thread = assembly.threads[first - 1]
        offer = back.get(first)
        found.append(
            Route(
                n=n,
                threads=(first, *(number for number in group if number != first)),
                thread=thread,
                cards=tuple(card[assembly.sewn[id].step] for id in thread.seams),
                stops=_stops(assembly, thread),
                back=offer,
                onward=place[offer.then] if offer else None,
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


def _stops(assembly: Assembly, thread: Thread) -> tuple[int, ...]:
    """The points of a thread that bear a number."""
    seams = [assembly.tiling.seam(id) for id in thread.seams]
    steps = [assembly.sewn[id].step for id in thread.seams]
    inner = [
        k
        for k in range(1, len(seams))
        if turns(seams[k - 1], seams[k], thread.points[k]) or steps[k] != steps[k - 1]
    ]
    return (0, *inner, len(seams))


def route_caption(route: Route, units: UnitSystem) -> Listing:
    """What stands under the picture of a route."""
    return Listing(tuple(_said(route, units)), "sentences")


def _said(route: Route, units: UnitSystem) -> Iterator[Phrase]:
    thread = route.thread
    steps = tuple(str(n) for n in dict.fromkeys(route.cards))
    length = measured(thread.length, units)
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
    for dot, before, after in _waits(route):
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
    if thread.full:
        yield phrase("It ends where the thread is used up.")
    if route.back is not None:
        yield phrase(
            "Or go back over {length} to where route {route} begins, and save a thread.",
            length=measured(route.back.length, units),
            route=route.onward or route.n,
        )


def _waits(route: Route) -> Iterator[tuple[int | None, int, int]]:
    """Where a thread waits for a later step: the number of the dot, None midway along a partial seam, the
    step before and the one after."""
    for k, (before, after) in enumerate(itertools.pairwise(route.cards), 1):
        if before != after:
            midway = k - 1 in route.halves
            yield None if midway else route.stops.index(k) + 1, before, after


def route_told(route: Route) -> Listing:
    """The picture of a route in words, for those who cannot see it."""
    last = len(route.stops)
    said = [
        phrase("From the needle at 1 along the numbers to {last}, where it is fastened.", last=last)
    ]
    ringed = tuple(str(route.stops.index(k) + 1) for k in route.thread.through if k in route.stops)
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


def opened_at(assembly: Assembly, step: Step, run: Run, at: Point) -> Iterator[tuple[Seam, bool]]:
    """The seams sewn before a run of a step that end at a point where it turns, and whether they begin
    there: their allowances are spread there, so that the corner goes in."""
    stage = stage_of(run, step, assembly)
    pieces = set(stage.pieces)
    for seam in assembly.tiling.seams:
        if at not in (seam.start, seam.end) or not pieces >= set(seam.between):
            continue
        if assembly.sewn[seam.id].step < step.n or seam.id in stage.earlier:
            yield seam, seam.start == at


def on_one_thread(run: Run, assembly: Assembly) -> bool:
    """Whether a hand run is sewn from its start to its end by one thread."""
    return run.by is By.HAND and any(_holds(thread.seams, run.seams) for thread in assembly.threads)


def _all_whole(assembly: Assembly) -> bool:
    """Whether no hand run is parted among threads."""
    runs = (run for step in assembly.steps for run in step.runs if run.by is By.HAND)
    return all(on_one_thread(run, assembly) for run in runs)


def _holds(seams: Sequence[str], run: Iterable[str]) -> bool:
    """Whether the seams of a run follow each other among those of a thread, either way."""
    there = list(run)
    spans = [list(seams[k : k + len(there)]) for k in range(len(seams) - len(there) + 1)]
    return there in spans or there[::-1] in spans


def thread_words(assembly: Assembly, units: UnitSystem) -> Iterator[Phrase]:
    """How many hand threads a block takes, and what going back would save."""
    count, least = len(assembly.threads), assembly.fewest_threads
    if assembly.parted_threads < count and _all_whole(assembly):
        yield plural_phrase(
            "The block takes {n} hand thread; every run lies whole on one of them.",
            "The block takes {n} hand threads; every run lies whole on one of them.",
            count,
        )
    elif count and count == least:
        yield plural_phrase(
            "The block takes {n} hand thread.",
            "The block takes {n} hand threads; in this order of steps no fewer will do.",
            count,
        )
    elif count:
        yield phrase(
            "The block takes {n} hand threads; at least {least} are needed.",
            n=count,
            least=least,
        )
    if assembly.retraces:
        length = measured(sum(offer.length for offer in assembly.retraces), units)
        yield plural_phrase(
            "Going back over {length} of sewn seam would save {n} of them.",
            "Going back over {length} of sewn seam in all would save {n} of them.",
            len(assembly.retraces),
            length=length,
        )
    if assembly.retrace_gap:
        yield phrase("Whether other ways back would save more could not be proven.")
