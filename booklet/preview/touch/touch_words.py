"""Floor 13, touch words: what is said of a touch, in sentences that can be read out."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence

from booklet.geometry.tiling import Tiling
from booklet.geometry.words import length_words
from booklet.kit.measure import UnitSystem
from booklet.kit.outlines.plane import Point
from booklet.pattern import By, Size
from booklet.pressing.pressing import JunctionKind, Pressing
from booklet.sewing.assembly import Step, StepKind
from booklet.sewing.drafts import Draft
from booklet.sewing.faults import listed
from booklet.sewing.order.machine_or_hand import is_too_short
from booklet.sewing.planner.judge import count
from booklet.sewing.touched.begun import Begun

FEW = 6  # names told one by one
NO_BREAK = "\u00a0"
_KINDS = {JunctionKind.NEST: "nests", JunctionKind.FAN: "fans", JunctionKind.OPEN: "is pressed open",
          JunctionKind.CLASH: "clashes", JunctionKind.FREE: "lies free"}  # fmt: skip
_MANY = {JunctionKind.NEST: "nest", JunctionKind.FAN: "fan", JunctionKind.OPEN: "are pressed open",
         JunctionKind.CLASH: "clash", JunctionKind.FREE: "lie free"}  # fmt: skip


def sewn_words(draft: Draft, size: Size, tiling: Tiling, units: UnitSystem) -> str:
    """How a step is sewn: what it is at the needle, its turns, by machine or by hand and why."""
    runs = len(draft.stretches)
    what = {
        StepKind.STRAIGHT: "One straight seam" if runs == 1 else f"{runs} straight seams",
        StepKind.CURVED: "One curved seam" if runs == 1 else f"{runs} seams, some curved",
        StepKind.SET_IN: "Set in",
        StepKind.PARTIAL: "The partial seam closed"
        if draft.finish_begun
        else f"A partial seam, its end left open for `{draft.declared.leave}`",
        StepKind.RING: "A ring is closed",
    }[draft.kind]
    turned = f"{count(draft.turns, 'turn')}" + (" (set-in corners)" if draft.turns else "")
    return f"{what}, {turned}, {_by_words(draft, size, tiling, units)}."


def _by_words(draft: Draft, size: Size, tiling: Tiling, units: UnitSystem) -> str:
    """By machine or by hand, or one after the other, and why by hand."""
    if len(set(draft.by)) > 1:
        hand = sum(by is By.HAND for by in draft.by)
        return f"{count(hand, 'run')} by hand and {count(len(draft.by) - hand, 'run')} by machine"
    if draft.step_by is By.MACHINE:
        return "by machine"
    if draft.declared.by is By.HAND:
        return "by hand, as the step says"
    if any(is_too_short(stretch, size.sewing, tiling) for stretch in draft.stretches):
        least = length_words(float(size.sewing.machine_from), units).replace(" ", NO_BREAK)
        return f"by hand, since a seam is shorter than {least} (`machine from`)"
    return "by hand, since it turns (`set in by`)"


def corner_words(corners: Sequence[Point], stops: Sequence[Point], tiling: Tiling) -> str:
    """Which corners a step leaves open, and where else it stops."""
    said = []
    if corners:
        where = "; ".join(_at(tiling, p) for p in corners)
        noun = "corner stays" if len(corners) == 1 else f"{len(corners)} corners stay"
        said.append(f"Stop at the point: the {noun} open for what is set in there ({where}).")
    else:
        said.append("No corner has to stay open.")
    if stops:
        noun = "more point" if corners else "point"
        said.append(f"It stops at {count(len(stops), noun)} inside the block.")
    return " ".join(said)


def _at(tiling: Tiling, point: Point) -> str:
    """A point by the pieces that meet there."""
    seams = next(j.seams for j in tiling.junctions if j.at == point)
    names = dict.fromkeys(piece for id in seams for piece in tiling.seam(id).between)
    return f"where {listed(names)} meet"


def thread_words(before: int, after: int, draft: Draft) -> str:
    """What a step does to the hand threads."""
    if By.HAND not in draft.by:
        return f"No hand thread: {count(after, 'thread')} so far, as before."
    if after == before:
        return f"It goes on with a thread that hangs there: {count(after, 'thread')} so far, none more."
    if after < before:
        return f"It joins threads: {count(after, 'thread')} so far, {before - after} fewer."
    return f"{count(after, 'hand thread')} so far, {after - before} more."


def card_words(step: Step, before: int, after: int) -> str:
    """What a step does to the cards."""
    if after == before:
        return (
            f"The same card as an earlier step (make {step.times}): {count(after, 'card')} so far."
        )
    return f"A card of its own, the {_nth(after)}."


def _nth(number: int) -> str:
    ends = {1: "st", 2: "nd", 3: "rd"}
    return f"{number}{'th' if number % 100 in (11, 12, 13) else ends.get(number % 10, 'th')}"


def press_words(step: Step, before: Pressing | None, after: Pressing) -> str:
    """Which way a step is pressed as far as the block is sewn, and what becomes of the points it closes."""
    ways = dict.fromkeys(after.pressed[id].toward for run in step.runs for id in run.seams)
    toward = listed(way for way in ways if way) if any(ways) else ""
    said = [f"Pressed toward {toward}" if toward else "Pressed open"]
    if len(ways) > FEW:
        said = [f"Pressed to {len(ways)} sides"]
    known = {j.at for j in before.junctions} if before else set()
    said.append(_points_closed(Counter(j.kind for j in after.junctions if j.at not in known)))
    clashes = sum(j.kind is JunctionKind.CLASH for j in after.junctions)
    said.append(f"{clashes or 'no'} {'clash' if clashes < 2 else 'clashes'} so far")
    return "; ".join(said) + "."


def _points_closed(kinds: Counter[JunctionKind]) -> str:
    """What becomes of the points that a step closes."""
    if not kinds:
        return "it closes no point"
    if kinds.total() == 1:
        return f"the point it closes {_KINDS[next(iter(kinds))]}"
    if len(kinds) == 1:
        return f"the {kinds.total()} points it closes {_MANY[next(iter(kinds))]}"
    each = [f"{n} {_KINDS[kind] if n == 1 else _MANY[kind]}" for kind, n in kinds.items()]
    return f"of the {kinds.total()} points it closes {', '.join(each[:-1])} and {each[-1]}"


def unit_words(begun: Begun, size: Size, pieces: frozenset[str], name: str) -> str:
    """A unit on the table in words, for who cannot see it."""
    if len(pieces) == 1:
        return piece_words(begun.tiling, size, name)
    return f"{name}: {len(pieces)} pieces sewn together"


def piece_words(tiling: Tiling, size: Size, id: str) -> str:
    """A piece in words: its name, its patch, its fabric."""
    piece = tiling.piece(id)
    patch = tiling.patch(piece.patch)
    reversed_ = " reversed" if piece.reversed else ""
    cloth = size.fabrics[piece.fabric].name
    return f"{id}: {patch.name} {patch.letter}{reversed_} of {cloth}"


def hand_words(name: str, near: Sequence[str]) -> str:
    """What is in hand, and what it touches."""
    more = f" and {len(near) - FEW} more" if len(near) > FEW else ""
    names = ", ".join(f"`{one}`" for one in near[:FEW])
    there = f"It touches {names}{more}" if near else "It touches nothing on the table"
    return f"`{name}` in hand. {there}."


def sum_words(begun: Begun, sums: Mapping[str, int]) -> str:
    """The sums of what is sewn so far, and what is left."""
    clashes = f"{sums['clashes'] or 'no'} {'clash' if sums['clashes'] < 2 else 'clashes'}"
    counts = {"step": len(begun.drafts), "turn": sums["turns"], "hand thread": sums["threads"], "card": sums["cards"]}  # fmt: skip
    said = ", ".join((*(count(number, noun) for noun, number in counts.items()), clashes))
    rest = "the block is sewn" if begun.is_whole else f"{len(begun.table)} parts on the table"
    if len(begun.table) == 1 and begun.open:
        rest = "all parts are joined"
    still = f", {count(len(begun.open), 'seam')} left open" if begun.open else ""
    return f"{said}; {rest}{still}."


def elsewhere_words(found: Sequence[tuple[Size, By]]) -> Iterator[str]:
    """In which other sizes a step is sewn by somebody else."""
    for by in dict.fromkeys(by for _, by in found):
        sizes = [size.title for size, other in found if other is by]
        who = "hand" if by is By.HAND else "machine"
        yield f"In {' and '.join(sizes)} it is sewn by {who}."
