"""Floor 4: the runs of a step in the order in which its threads walk them.

A join of several parts has a run for each, in the order in which the author named them. A thread may need
them in another, to go on from one into the next: then that is the order of the step, since its card and its
picture must not say one thing and the hand routes another. Whatever no thread asks for stays as the author
has it, and runs by machine keep their places among those by hand.
A run that threads do not sew from one end to the other in one go (only where `routes: fewest threads`
parts it, or where it is longer than a thread) comes as the goes in which it is sewn.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from booklet.geometry.tiling import Tiling
from booklet.kit.outlines.plane import Point
from booklet.kit.records import Record, replace
from booklet.pattern import By, Sewing
from booklet.sewing.assembly import Thread
from booklet.sewing.drafts import Draft
from booklet.sewing.order.ends import blocked_set_ins
from booklet.sewing.order.stretches import Stretch, along


class Walk(Record):
    """The hand seams in the order in which they are sewn: the place of each in its step, and from which
    point its thread sews it."""

    place: Mapping[str, int]
    start: Mapping[str, Point]
    thread: Mapping[str, int]

    @classmethod
    def of(
        cls, threads: Sequence[Thread], drafts: Sequence[Draft], order: Sequence[str] = ()
    ) -> Walk:
        """The walk along all threads, step by step; `order` is that in which all seams are sewn, where it matters
        which thread comes first."""
        rank = {id: k for k, id in enumerate(order)}
        place: dict[str, int] = {}
        holding: dict[str, list[int]] = {}
        for n, thread in enumerate(threads):
            for id in thread.seams:
                holding.setdefault(id, []).append(n)
        for draft in drafts:
            home = {
                id: (run, k)
                for run, stretch in enumerate(draft.stretches)
                for k, id in enumerate(stretch.seams)
                if id != draft.repeats
            }
            through = sorted({n for id in home for n in holding.get(id, ())})
            lines = [[id for id in threads[n].seams if id in home] for n in through]
            merged = list(_merged(lines, home))
            if all(id in rank for id in merged):
                merged.sort(key=rank.__getitem__)
            place.update({id: k for k, id in enumerate(merged)})
        start = {id: p for t in threads for id, p in zip(t.seams, t.points, strict=False)}
        return cls(place, start, {id: n for n, t in enumerate(threads) for id in t.seams})

    def last(self, draft: Draft, stretch: Stretch) -> int:
        """The place of the last seam of a run that a step sews."""
        own = (id for id in stretch.seams if id != draft.repeats)
        return max((self.place.get(id, -1) for id in own), default=-1)


def _merged(lines: list[list[str]], home: Mapping[str, tuple[int, int]]) -> Iterator[str]:
    """The seams of several threads in one order that is each thread's: a run that is begun is sewn on,
    else the earliest in the join comes next."""
    last: tuple[int, int] | None = None

    def waits(line: list[str]) -> tuple[bool, int]:
        run, at = home[line[0]]
        return last is None or run != last[0] or abs(at - last[1]) != 1, run

    while lines:
        line = min(lines, key=waits)
        last = home[line[0]]
        yield line.pop(0)
        lines = [line for line in lines if line]


def in_thread_order(
    drafts: Sequence[Draft], walk: Walk, tiling: Tiling, sewing: Sewing
) -> tuple[Draft, ...]:
    """The steps with their runs in the order of the threads.

    Where that would turn at the end of a seam already sewn from edge to edge, as the author asks, the
    machine sews after the hand: it then meets the same turns as before, or fewer.
    """
    found = tuple(_reordered(draft, walk) for draft in drafts)
    if any(blocked_set_ins(found, tiling, sewing)):
        return tuple(_reordered(draft, walk, machine_last=True) for draft in drafts)
    return found


def _reordered(draft: Draft, walk: Walk, machine_last: bool = False) -> Draft:
    """One step with its hand runs sorted among themselves."""
    runs = list(zip(draft.stretches, draft.by, strict=True))
    hand = sorted(
        (run for run in runs if run[1] is By.HAND), key=lambda run: walk.last(draft, run[0])
    )
    machine = [run for run in runs if run[1] is not By.HAND]
    if machine_last:
        ordered = [*hand, *machine]
    else:
        sources = {By.HAND: iter(hand), By.MACHINE: iter(machine)}
        ordered = [next(sources[by]) for _, by in runs]
    return replace(
        draft, stretches=tuple(run for run, _ in ordered), by=tuple(by for _, by in ordered)
    )


def goes(draft: Draft, walk: Walk, tiling: Tiling) -> tuple[tuple[Stretch, By], ...]:
    """The runs of a step as they are sewn: by hand the way their threads go, parted where threads part
    them."""
    if draft.finish_begun:
        return tuple(zip(draft.stretches, draft.by, strict=True))
    by_hand = [s for s, by in zip(draft.stretches, draft.by, strict=True) if by is By.HAND]
    waiting = list(_from_corners(list(_by_thread(by_hand, walk, tiling)), by_hand, walk, tiling))
    found: list[tuple[Stretch, By]] = []
    for stretch, by in zip(draft.stretches, draft.by, strict=True):
        if by is not By.HAND:
            found.append((stretch, by))
            continue
        last = walk.last(draft, stretch)
        while waiting and walk.place[waiting[0].seams[-1]] <= last:
            found.append((waiting.pop(0), by))
    return tuple(found)


def _by_thread(runs: Sequence[Stretch], walk: Walk, tiling: Tiling) -> Iterator[Stretch]:
    """The hand runs of a step in the goes in which threads sew them."""
    home = {id: (stretch, k) for stretch in runs for k, id in enumerate(stretch.seams)}
    order = sorted(home, key=walk.place.__getitem__)
    while order:
        stretch, at = home[order[0]]
        way, count = _way(stretch, at, walk), 1
        while count < len(order) and _follows(order[count - 1], order[count], way, home, walk):
            count += 1
        yield _part(stretch, order[:count], walk, tiling)
        order = order[count:]


def _from_corners(
    parts: Sequence[Stretch], runs: Sequence[Stretch], walk: Walk, tiling: Tiling
) -> Iterator[Stretch]:
    """The goes, those two that one thread sews from a corner of a run, out and back and on, as one run."""
    k = 0
    while k < len(parts):
        whole = _one_run(parts[k], parts[k + 1], runs, walk, tiling) if k + 1 < len(parts) else None
        yield whole or parts[k]
        k += 2 if whole else 1


def _one_run(
    out: Stretch, on: Stretch, runs: Sequence[Stretch], walk: Walk, tiling: Tiling
) -> Stretch | None:
    """Two goes as a run begun at its corner, None where they are none."""
    seams = (*reversed(out.seams), *on.seams)
    whole = next((run for run in runs if set(run.seams) == set(seams)), None)
    corner = out.points[0]
    if whole is None or whole.closed or out.turns or corner != on.points[0]:
        return None
    if corner not in whole.turn_points or len({walk.thread[id] for id in seams}) > 1:
        return None
    first = frozenset(whole.sides[0])
    run = along([tiling.seam(id) for id in seams], out.points[-1], first)
    turned = tuple(k for k in run.turns if run.points[k] in whole.turn_points)
    return replace(run, turns=turned, begun=True)


def _way(stretch: Stretch, at: int, walk: Walk) -> int:
    """1 where a thread sews a seam the way its run is written down, else -1."""
    return 1 if walk.start[stretch.seams[at]] == stretch.points[at] else -1


def _follows(
    seam: str, then: str, way: int, home: Mapping[str, tuple[Stretch, int]], walk: Walk
) -> bool:
    """Whether a seam comes next to another in the same run, and is sewn the same way."""
    (stretch, at), (other, next_at) = home[seam], home[then]
    if stretch is not other or _way(other, next_at, walk) != way:
        return False
    ahead = at + way
    return next_at == (ahead % len(stretch.seams) if stretch.closed else ahead)


def _part(stretch: Stretch, seams: Sequence[str], walk: Walk, tiling: Tiling) -> Stretch:
    """Some seams of a run, or all, in this order."""
    first = frozenset(stretch.sides[0])
    part = along([tiling.seam(id) for id in seams], walk.start[seams[0]], first)
    return replace(
        part, turns=tuple(k for k in part.turns if part.points[k] in stretch.turn_points)
    )
