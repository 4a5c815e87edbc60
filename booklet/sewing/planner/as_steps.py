"""Floor 4, the planner: an order written out as steps, as an author would declare them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from booklet.geometry.tiling import Tiling
from booklet.kit.diagnostic import Span
from booklet.pattern import DeclaredStep, Fabric, Sewing
from booklet.sewing.mosaic.likeness import Likeness, likeness_of, shapes_of
from booklet.sewing.mosaic.mosaic import Faces, Mosaic, mosaic_of
from booklet.sewing.mosaic.trees import Tree
from booklet.sewing.planner.best_order import Order, best_order
from booklet.sewing.planner.spared_turns import SparedTurn
from booklet.sewing.planner.unit_names import unit_names


def find_order(
    tiling: Tiling,
    sewing: Sewing,
    fabrics: Mapping[str, Fabric],
    first_told: bool = False,
) -> Order:
    """The best order found for a block of two pieces or more; if `first_told`, the first of the cheapest."""
    mosaic = mosaic_of(tiling, sewing, sewing.costs)
    shapes = shapes_of(tiling)
    return best_order(mosaic, likeness_of(tiling, fabrics), shapes, sewing.costs, first_told)


def steps_of(order: Order, tiling: Tiling) -> tuple[DeclaredStep, ...]:
    """The steps of an order: low levels first, alike units side by side, so that they can be chained."""
    mosaic, likeness = order.mosaic, order.likeness
    units = in_order(order.tree, likeness)
    names = unit_names(mosaic, likeness, units, tiling.block)
    begun = {partial.begun: partial for partial in order.partials}
    passed = {partial.passed: partial for partial in order.partials}
    span = tiling.pieces[0].span
    steps: list[DeclaredStep] = []
    for unit in units:
        steps.append(_join(unit, names, begun.get(unit.faces), mosaic, span, len(steps)))
        if unit.faces in passed:
            steps.append(_finish(passed[unit.faces], mosaic, span, len(steps)))
    return tuple(steps)


def in_order(tree: Tree, likeness: Likeness) -> list[Tree]:
    """The units by level, alike ones side by side, then by their first pieces."""
    units = list(tree.units())
    first: dict[object, int] = {}
    for unit in sorted(units, key=_first):
        first.setdefault((unit.level, likeness.sign(unit.faces)), _first(unit))
    return sorted(units, key=lambda u: (u.level, first[u.level, likeness.sign(u.faces)], _first(u)))


def _first(unit: Tree) -> Faces:
    return unit.faces & -unit.faces


def _join(
    unit: Tree,
    names: Mapping[Faces, str],
    partial: SparedTurn | None,
    mosaic: Mosaic,
    span: Span,
    entry: int,
) -> DeclaredStep:
    join = tuple(names[part.faces] for part in unit.parts)
    return DeclaredStep(
        make=names[unit.faces],
        join=join,
        span=span,
        join_spans=(span,) * len(join),
        entry=entry,
        leave=mosaic.names[partial.leave] if partial else None,
    )


def _finish(partial: SparedTurn, mosaic: Mosaic, span: Span, entry: int) -> DeclaredStep:
    join: Sequence[str] = [mosaic.names[f] for f in partial.seam]
    return DeclaredStep(
        make="", join=tuple(join), span=span, join_spans=(span, span), entry=entry, finish=True
    )
