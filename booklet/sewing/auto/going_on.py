"""Floor 4: the tool's own continuation of an order that an author has begun: what is sewn stays, the rest is planned."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from booklet.kit.records import Record
from booklet.kit.remembered.memory import Ask, plainly
from booklet.pattern import Fabric, Sewing
from booklet.sewing.auto.unscaled import Question, question_of
from booklet.sewing.mosaic.contracted import contracted, contracted_looks
from booklet.sewing.mosaic.likeness import likeness_of, shapes_of
from booklet.sewing.mosaic.mosaic import Faces, mosaic_of
from booklet.sewing.mosaic.trees import Tree
from booklet.sewing.planner.as_steps import in_order
from booklet.sewing.planner.best_order import Order, best_order, without_partials
from booklet.sewing.touched.begun import Begun
from booklet.sewing.touched.touches import TouchedStep


class RestOfOrder(Record):
    """What is left of an order: units, each by its faces and the card that made it (0: a patch)."""

    units: tuple[Faces, ...]
    made: tuple[int, ...]


def rest_of(begun: Begun) -> RestOfOrder:
    """What lies on the table, in the order of the block's pieces."""
    number = {piece.id: k for k, piece in enumerate(begun.tiling.pieces)}
    card = {step.n: step.card for step in begun.assembly.steps} if begun.assembly else {}
    units = [
        (sum(1 << number[p] for p in unit.pieces), card.get(unit.step, 0)) for unit in begun.table
    ]
    units.sort(key=lambda unit: unit[0] & -unit[0])
    return RestOfOrder(tuple(faces for faces, _ in units), tuple(made for _, made in units))


def continuations(
    begun: Begun, sewing: Sewing, fabrics: Mapping[str, Fabric], ask: Ask = plainly
) -> Iterator[tuple[TouchedStep, ...]]:
    """The steps that sew the rest best, then the same without partial seams of their own where it has any: for one that
    cannot be closed. None where nothing is left to join."""
    rest = rest_of(begun)
    if len(rest.units) < 2:
        yield _finishes(begun)
        return
    order = ask(search_rest, question_of(begun.tiling, sewing, fabrics), rest)
    yield _touches(order, begun)
    if order.partials:
        yield _touches(without_partials(order), begun)


def search_rest(asked: Question, rest: RestOfOrder) -> Order:
    """The best order found of what is left; its mosaic has a face for each unit."""
    costs = asked.sewing.costs
    mosaic = contracted(mosaic_of(asked.tiling, asked.sewing, costs), rest.units)
    looks = contracted_looks(likeness_of(asked.tiling, asked.fabrics), rest.units, rest.made)
    shapes = contracted_looks(shapes_of(asked.tiling), rest.units, rest.made)
    return best_order(mosaic, looks, shapes, costs)


def _finishes(begun: Begun) -> tuple[TouchedStep, ...]:
    """The partial seams that are still open, closed."""
    return tuple(TouchedStep(gap.seam.between, finish=True) for gap in begun.open)


def _touches(order: Order, begun: Begun) -> tuple[TouchedStep, ...]:
    """An order as touches, each partial seam closed as soon as what it waits for has come."""
    names = order.mosaic.names
    begins = {partial.begun: partial for partial in order.partials}
    passed = {partial.passed: partial for partial in order.partials}
    place = {name: 1 << k for k, name in enumerate(names)}
    waiting = [
        (gap, _home(gap.leave, begun), _home(gap.seam.between[0], begun)) for gap in begun.open
    ]
    found: list[TouchedStep] = []
    for unit in in_order(order.tree, order.likeness):
        partial = begins.get(unit.faces)
        leave = names[partial.leave] if partial else None
        found.append(TouchedStep(tuple(_first(part, names) for part in unit.parts), leave))
        if unit.faces in passed:
            gone = passed[unit.faces]
            a, b, leave = (names[face] for face in (*gone.seam, gone.leave))
            found.append(TouchedStep(_left_open(a, b, leave, begun), finish=True))
        for gap, coming, held in [*waiting]:
            if unit.faces & place[coming] and unit.faces & place[held]:
                found.append(TouchedStep(gap.seam.between, finish=True))
                waiting.remove((gap, coming, held))
    return tuple(found)


def _first(unit: Tree, names: Sequence[str]) -> str:
    return names[(unit.faces & -unit.faces).bit_length() - 1]


def _home(name: str, begun: Begun) -> str:
    """The first piece of the unit on the table that a piece or a unit made earlier is in by now."""
    unit = begun.unit(min(begun.pieces_of(name)))
    return next(piece.id for piece in begun.tiling.pieces if piece.id in unit.pieces)


def _left_open(one: str, other: str, leave: str, begun: Begun) -> tuple[str, str]:
    """The two pieces at the open end of the seam between two units: where a third comes."""
    a, b, c = (begun.unit(name).pieces for name in (one, other, leave))
    seams = [seam for seam in begun.tiling.seams if seam.id in begun.unsewn]
    there = {p for seam in seams if c & {*seam.between} for p in (seam.start, seam.end)}
    for seam in seams:
        x, y = seam.between
        if {seam.start, seam.end} & there and ((x in a and y in b) or (x in b and y in a)):
            return seam.between
    return one, other
