"""Floor 4: steps as they are touched become declared steps: each with the names its author would give.

What the author has written of the same step before (its name, note, pressing, who sews it) stays its own.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from booklet.geometry.tiling import Tiling
from booklet.kit.diagnostic import Span
from booklet.kit.records import Record, replace
from booklet.pattern import DeclaredStep, Fabric, PressWish, Sewing, TurnCosts
from booklet.sewing.drafts import Draft
from booklet.sewing.mosaic.likeness import likeness_of
from booklet.sewing.mosaic.mosaic import Faces, mosaic_of
from booklet.sewing.mosaic.trees import Tree, leaf
from booklet.sewing.order.joins import Joiner
from booklet.sewing.order.table import SewnUnit, free_name
from booklet.sewing.planner.unit_names import unit_names

What = tuple[tuple[frozenset[str], ...], str | None, bool]


class TouchedStep(Record):
    """One step as it is touched: a piece of each part in their order; the piece for which the seam is left open;
    whether it closes such a seam."""

    pieces: tuple[str, ...]
    leave: str | None = None
    finish: bool = False


def touches_of(drafts: Sequence[Draft], tiling: Tiling) -> tuple[TouchedStep, ...]:
    """DeclaredStep steps as they would be touched."""
    place = {piece.id: k for k, piece in enumerate(tiling.pieces)}

    def touch(draft: Draft) -> TouchedStep:
        said = draft.declared
        if said.finish:
            return TouchedStep(tiling.seam(draft.repeats or "").between, finish=True)
        firsts = tuple(min(part, key=place.__getitem__) for part in draft.parts)
        return TouchedStep(firsts, _one_of(said.leave, drafts, place))

    return tuple(map(touch, drafts))


def _one_of(leave: str | None, drafts: Sequence[Draft], place: Mapping[str, int]) -> str | None:
    """The first piece of what a seam is left open for."""
    if leave is None or leave in place:
        return leave
    there = next(draft.pieces for draft in drafts if draft.declared.make == leave)
    return min(there, key=place.__getitem__)


def declared(
    touches: Sequence[TouchedStep],
    tiling: Tiling,
    sewing: Sewing,
    fabrics: Mapping[str, Fabric],
    written: Sequence[DeclaredStep] = (),
) -> tuple[DeclaredStep, ...]:
    """The steps that are touched, as declared ones. `written` are those in the pattern: where a step joins the same
    parts in the same order it is that step, and where it makes the same unit it has that name."""
    before = Joiner(tiling, sewing)
    for step in written:
        before.take(step)
    known = {_what(draft, tiling): draft.declared for draft in before.drafts}
    called = {d.pieces: d.declared.make for d in before.drafts if _has_a_name(d.declared)}
    names = _names(touches, tiling, sewing, fabrics, called)
    joiner, made = Joiner(tiling, sewing), list[DeclaredStep]()
    for touch in touches:
        step = _step(touch, joiner, names, known, len(made), tiling.pieces[0].span)
        made.append(step)
        joiner.take(step)
    return tuple(made)


def sewn(touches: Sequence[TouchedStep], tiling: Tiling, sewing: Sewing) -> Joiner:
    """What touched steps come to, by names of no meaning: for who asks what they do, not what they are called."""
    joiner, span = Joiner(tiling, sewing), tiling.pieces[0].span
    for touch in touches:
        if touch.finish:
            joiner.take(_plain("", touch.pieces, touch, span))
            continue
        join = tuple(joiner.table.holding(piece).name for piece in touch.pieces)
        joiner.take(_plain(free_name(joiner.table.known, "unit"), join, touch, span))
    return joiner


def _plain(
    make: str, join: tuple[str, ...], touch: TouchedStep, span: Span, entry: int = 0
) -> DeclaredStep:
    """A step that says nothing but what is joined, under these names, and what was touched for it."""
    return DeclaredStep(
        make=make,
        join=join,
        span=span,
        join_spans=(span,) * len(join),
        entry=entry,
        leave=touch.leave,
        finish=touch.finish,
    )


def _has_a_name(step: DeclaredStep) -> bool:
    """Whether a step names what it makes: one that does not keeps the name of its first part."""
    return bool(step.make) and step.make != step.join[0]


def _what(draft: Draft, tiling: Tiling) -> What:
    """What tells a step from others: its parts in their order, what it leaves open, whether it finishes."""
    if draft.repeats is not None:
        return (frozenset(tiling.seam(draft.repeats).between),), None, True
    return draft.parts, draft.declared.leave, False


def _step(
    touch: TouchedStep,
    joiner: Joiner,
    names: Mapping[frozenset[str], str],
    known: Mapping[What, DeclaredStep],
    entry: int,
    span: Span,
) -> DeclaredStep:
    """One touched step, its parts called as they stand on the table."""
    if touch.finish:
        plain = _plain("", touch.pieces, touch, span, entry)
        return known.get(((frozenset(touch.pieces),), None, True), plain)
    units = [joiner.table.holding(piece) for piece in touch.pieces]
    join = tuple(_standing(unit, joiner) for unit in units)
    parts = tuple(unit.pieces for unit in units)
    own = known.get((parts, touch.leave, False))
    whole = frozenset[str]().union(*parts)
    if own is None:
        name = names.get(whole, free_name(joiner.table.known, "unit"))
        return _plain(name, join, touch, span, entry)
    make = own.make if not _has_a_name(own) and join[0] == own.make else names.get(whole, own.make)
    return replace(own, make=make, join=join, press=_press(own, join))


def _press(own: DeclaredStep, join: tuple[str, ...]) -> PressWish | None:
    """The wish of a step whose parts may be called otherwise now."""
    wish = own.press
    if wish is None or wish.of not in own.join:
        return wish
    return replace(wish, of=join[own.join.index(wish.of)])


def _standing(unit: SewnUnit, joiner: Joiner) -> str:
    """The name by which a step calls a unit: one that a step gave it, not the table's own."""
    given = {step.declared.make for step in joiner.drafts} | {p.id for p in joiner.tiling.pieces}
    called = [name for name, there in joiner.table.units.items() if there == unit]
    return next((name for name in called if name in given), called[0])


def _names(
    touches: Sequence[TouchedStep],
    tiling: Tiling,
    sewing: Sewing,
    fabrics: Mapping[str, Fabric],
    called: Mapping[frozenset[str], str],
) -> dict[frozenset[str], str]:
    """A name for every unit made: the author's where it has one, else a usual word with a number."""
    mosaic, likeness = mosaic_of(tiling, sewing, TurnCosts()), likeness_of(tiling, fabrics)
    number = {piece.id: k for k, piece in enumerate(tiling.pieces)}
    units = list(_trees(touches, number))
    if not units or units[-1].faces != mosaic.whole:
        units.append(Tree(mosaic.whole))
    usual = unit_names(mosaic, likeness, units, tiling.block)
    made = {_pieces(unit.faces, mosaic.names): usual[unit.faces] for unit in units}
    found = {pieces: called[pieces] for pieces in made if pieces in called}
    taken = {*mosaic.names, *found.values()}
    for pieces, name in made.items():
        if pieces not in found:
            found[pieces] = name if name not in taken else free_name(taken, f"{name} ")
            taken.add(found[pieces])
    return found


def _trees(touches: Sequence[TouchedStep], number: Mapping[str, int]) -> Iterator[Tree]:
    """The units made, each with its parts."""
    home = {piece: leaf(k) for piece, k in number.items()}
    for touch in touches:
        if touch.finish:
            continue
        parts = tuple(dict.fromkeys(home[piece] for piece in touch.pieces))
        faces = 0
        for part in parts:
            faces |= part.faces
        tree = Tree(faces, parts)
        home.update((piece, tree) for piece, k in number.items() if faces >> k & 1)
        yield tree


def _pieces(faces: Faces, names: Sequence[str]) -> frozenset[str]:
    return frozenset(name for k, name in enumerate(names) if faces >> k & 1)
