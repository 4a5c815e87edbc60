"""Floor 12: the ways in which a reader may have a pattern shown, each worked out like the pattern itself: in inches and
in centimetres, and for cloth of the widths that shops sell, or fat quarters.

No figure is converted: the pattern is checked and cut anew with other units or another cloth, by the marks of the rulers
its reader then has. A way that would be at fault is not offered.
"""

from __future__ import annotations

import hashlib
from collections.abc import Collection, Iterator

from booklet.checks.checked import CheckedPattern
from booklet.cutting.cutting_plan import JoinedPart
from booklet.drawing.scene import Figure
from booklet.kit.bounds import MOST_CLOTH_PLANS, MOST_SIZES, MOST_VIEWS
from booklet.kit.diagnostic import Outcome
from booklet.kit.measure import Length, other_units
from booklet.kit.records import Record, replace
from booklet.kit.remembered.memory import Ask
from booklet.pages.pictures.album import drawn
from booklet.pages.pictures.figures import Figures, FigureSource, Room
from booklet.pages.screen.page import OtherCloth, ScreenView
from booklet.pattern import (
    AlternativeKind,
    Edition,
    Fabric,
    ForClass,
    Pattern,
    Size,
    SoldAs,
    taken_together,
)
from booklet.pattern.spoken import voice_of
from booklet.plan import Plan, SizePlan, make_plan
from booklet.recipe.checking import check_pattern

WIDTHS = (Length.of("40 in"), Length.of("42 in"), Length.of("108 cm"), Length.of("44 in"))


def views(
    checked: CheckedPattern,
    made: Plan,
    figures: FigureSource,
    ask: Ask,
    layouts: Collection[str] = (),
) -> tuple[ScreenView, ...]:
    """All ways to show a pattern, its own first. An edition made in one of the `layouts` alone can be shown in every
    colourway."""
    pattern, own = checked.pattern, checked.pattern.units
    more = _in_all_colours(pattern, layouts)
    if more is not pattern and (plan := _planned(more, ask)) is not None:
        pattern, made, figures = more, plan, drawn(plan)
    found = [ScreenView(units=own, cloth=None, plan=made, figures=figures)]
    other = other_units(own)
    if (plan := _planned(replace(pattern, units=other), ask)) is not None:
        found.append(ScreenView(units=other, cloth=None, plan=plan, figures=drawn(plan)))
    for cloth in _cloths(pattern):
        found += _of_cloth(found, cloth, ask)
    return tuple(found)


def _in_all_colours(pattern: Pattern, layouts: Collection[str]) -> Pattern:
    """The pattern with each of its colourways in some `layouts` as well; itself where that adds none, or would be more to work
    out than a pattern may have."""
    there = {one.id for one in pattern.alternatives}
    others = [one for one in pattern.alternatives if not one.is_own]
    both = [
        taken_together(colourway, layout)
        for layout in others
        for colourway in others
        if layout.id in layouts and colourway.kind is AlternativeKind.COLOURWAY
    ]
    more = tuple(one for one in both if one.id not in there)
    if not more or len(pattern.sizes) * (1 + len(others) + len(more)) > MOST_SIZES:
        return pattern
    return replace(pattern, alternatives=(*pattern.alternatives, *more))


def _of_cloth(found: list[ScreenView], cloth: OtherCloth, ask: Ask) -> Iterator[ScreenView]:
    """The ways known, for another cloth; none if one of them cannot be, or if more than the cloth would be
    otherwise."""
    made = []
    for view in [view for view in found if view.cloth is None]:
        plan = _planned(_cut_from(view.plan.pattern, cloth), ask)
        if plan is None or not _alike(plan, view.plan):
            return
        figures = _pictured(drawn(plan), view)
        made.append(ScreenView(units=view.units, cloth=cloth, plan=plan, figures=figures))
    yield from made


def _alike(plan: Plan, other: Plan) -> bool:
    """Whether two plans sew the same blocks of patches that are cut by the same figures: pages and pictures that show
    no cloth are then the same."""
    own, others = (plan, *plan.alternatives), (other, *other.alternatives)
    return all(
        one.blocks == two.blocks and _figures(one) == _figures(two)
        for each, there in zip(own, others, strict=True)
        for one, two in zip(each.sizes, there.sizes, strict=True)
    )


def _figures(size: SizePlan) -> set[tuple[object, ...]]:
    """The patches of a size with how each is cut."""
    blocks = {letter for block in size.blocks for letter in (p.patch for p in block.tiling.laid)}
    return {(p.fabric, p.name, p.method, p.cut) for p in size.cutting.patches if p.name in blocks}


class _ClothAlbum(Record):
    """The pictures of a size: those of cloth and of what is cut long its own, all others those of another plan; where strips are
    `joined_alike`, those that show their joins, too."""

    own: Figures
    other: Figures
    joined_alike: bool

    def figure(self, name: str) -> Figure | None:
        """The figure of that name, or None."""
        return self._album(name).figure(name)

    def series(self, name: str) -> tuple[Figure, ...]:
        """The figures of a row in order."""
        return self._album(name).series(name)

    def _album(self, name: str) -> Figures:
        what = name.split(" ")[0]
        is_own = what in OF_CLOTH or (what in OF_JOINS and not self.joined_alike)
        return self.own if is_own else self.other


OF_CLOTH = {
    "angle",
    "backing",
    "bias",
    "binding",
    "cloth",
    "layers",
    "sleeve",
    "together",
}
"""The first words of the names of pictures that show how cloth is cut."""

OF_JOINS = {"border", "quilt"}
"""Likewise of those that show where strips are joined."""


def _pictured(own: FigureSource, view: ScreenView) -> FigureSource:
    """Pictures of a plan that differs from that of a view only in its cloth."""
    whole = (view.plan, *view.plan.alternatives)
    plans = tuple(plan for each in whole for plan in (each, *each.made_of_it))
    sizes = {_as(s): s for plan in plans for s in plan.sizes}

    def of(size: SizePlan, room: Room) -> Figures:
        other = sizes[_as(size)]
        alike = _joins(size) == _joins(other)
        return _ClothAlbum(own(size, room), view.figures(other, room), alike)

    return of


def _joins(size: SizePlan) -> set[tuple[Length, JoinedPart]]:
    """The parts of a size that are joined from strips, with what each join takes."""
    return {(join.loss, part) for join in size.cutting.joins for part in join.parts}


def _as(size: SizePlan) -> tuple[str, str, ForClass | None]:
    """In which colourway or layout a size is taken, and how much of it is made."""
    return size.pattern.alternative, size.size.id, size.size.in_class


def _cloths(pattern: Pattern) -> Iterator[OtherCloth]:
    """The cloths that are worth asking for: other than the pattern's, and not too many."""
    sizes = [*pattern.sizes, *(size for one in pattern.alternatives for size in one.sizes)]
    all_ = [(size, fabric) for size in sizes for fabric in size.fabrics.values()]
    sold = {fabric.width for _, fabric in all_ if fabric.kind is SoldAs.YARDAGE}
    asked: list[OtherCloth] = [w for w in WIDTHS if sold and sold != {w}]
    if any(_may_be_quarters(size, fabric) for size, fabric in all_):
        asked.append(SoldAs.FAT_QUARTER)
    others = [one for one in pattern.alternatives if one.kind is AlternativeKind.COLOURWAY]
    fit = MOST_VIEWS // (2 * max(1, len(others))) - 1  # each in two units and every colourway
    yield from asked[: max(0, min(fit, MOST_CLOTH_PLANS // max(1, len(all_))))]


def _cut_from(pattern: Pattern, cloth: OtherCloth) -> Pattern:
    """The pattern with all cloth that is sold by the length of one width, or all but the back in fat quarters."""

    def cut(sizes: tuple[Size, ...]) -> tuple[Size, ...]:
        return tuple(
            replace(
                size,
                fabrics={id: _other(size, fabric, cloth) for id, fabric in size.fabrics.items()},
            )
            for size in sizes
        )

    others = tuple(replace(one, sizes=cut(one.sizes)) for one in pattern.alternatives)
    return replace(pattern, sizes=cut(pattern.sizes), alternatives=others)


def _other(size: Size, fabric: Fabric, cloth: OtherCloth) -> Fabric:
    """A fabric of a size as another cloth; as it was where it cannot be that."""
    if isinstance(cloth, SoldAs):
        return replace(fabric, kind=cloth) if _may_be_quarters(size, fabric) else fabric
    return replace(fabric, width=cloth) if fabric.kind is SoldAs.YARDAGE else fabric


def _may_be_quarters(size: Size, fabric: Fabric) -> bool:
    """Whether fat quarters can take the place of a fabric: of one sold by the length that no back is cut from."""
    backing = size.quilt.backing if size.quilt else None
    return fabric.kind is SoldAs.YARDAGE and (backing is None or backing.fabric != fabric.id)


def _planned(pattern: Pattern, ask: Ask) -> Plan | None:
    """The plan of a pattern, or None where it has a fault."""
    checked = check_pattern(Outcome(pattern, ()), ask).value
    return make_plan(checked, ask=ask) if checked is not None else None


def key_of(pattern: Pattern, edition: Edition) -> str:
    """What tells this booklet from others where a browser keeps what its reader has chosen and ticked; the same for
    every version of it, and in every language, unless that has other units: then choices are numbered otherwise."""
    units = voice_of(pattern, edition).units
    other = "" if units == pattern.units else f"\n{units}"
    part = f"\n{edition.part}" if edition.part else ""
    taken = f"\n{edition.alternative}" if edition.alternative else ""
    named = f"{pattern.title}\n{pattern.designer}\n{edition.id}{other}{part}{taken}"
    return hashlib.sha256(named.encode("utf-8", "surrogatepass")).hexdigest()[:16]
