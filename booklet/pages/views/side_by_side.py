"""Floor 11, side by side: the colourways, or the layouts, of a pattern in one size: each with its quilt, all drawn at one
scale, with the cloth it takes, and with what is otherwise than in the first."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import partial

from markupsafe import Markup

from booklet.kit.records import Record, replace
from booklet.kit.words import (
    Phrase,
    Text,
    area_text,
    at_least,
    by,
    listing,
    phrase,
    plural_phrase,
    with_unit,
)
from booklet.pages.pictures.figures import Figures, Room, column_width, columns_of
from booklet.pages.pictures.typesetting import Typesetter
from booklet.pages.texts.words import Words
from booklet.pattern import Alternative, AlternativeKind, Direction, Fabric, Pattern
from booklet.plan import Plan, SizePlan
from booklet.plan.records import FabricSummary

NAMELESS = phrase("As in the pattern", context="a colorway or layout")
TALLEST = 88.0  # mm of a quilt


class ClothLine(Record, kw_only=True):
    """What is bought of one cloth; `instead` names the cloth of the first in whose place it stands, if that is called
    otherwise."""

    fabric: Fabric
    swatch: Markup
    instead: str
    buy: str
    other: str


class ShownAlternative(Record, kw_only=True):
    """A colourway or layout as it is shown; `own` marks that of the booklet, `width` is that of its quilt in hundredths
    of the widest."""

    title: Text
    own: bool
    picture: Markup
    width: float
    cloths: tuple[ClothLine, ...]
    finished: Text = ""
    made: Text = ""
    batting: Text = ""
    differences: tuple[Text, ...] = ()


class SideBySide(Record):
    """All of a kind, in rows of so many columns, with a `note` where the booklet is in one of the other kind."""

    columns: int
    rows: tuple[tuple[ShownAlternative, ...], ...]
    note: Text


def side_by_side(
    whole: Plan,
    kind: AlternativeKind,
    size: str,
    album: Callable[[SizePlan], Figures],
    room: Room,
    setter: Typesetter,
    words: Words,
) -> SideBySide | None:
    """The colourways, or layouts, of a pattern in a size; None where it has none."""
    found = [
        (one, sized)
        for one, plan in whole.side_by_side(kind)
        for sized in plan.sizes
        if sized.size.id == size
    ]
    if not found:
        return None
    columns = columns_of(room, len(found))
    widths = _widths([plan for _, plan in found], column_width(room, columns))
    page = _Page(
        columns=columns,
        pattern=whole.pattern,
        album=album,
        setter=setter,
        words=words,
        first=found[0][1],
    )
    shown = tuple(
        page.shown(one, plan, width) for (one, plan), width in zip(found, widths, strict=True)
    )
    rows = tuple(shown[k : k + columns] for k in range(0, len(shown), columns))
    return SideBySide(columns, rows, _note(whole, kind))


def _note(whole: Plan, kind: AlternativeKind) -> Text:
    """In what the pictures and amounts are otherwise than the booklet; nothing where they are not."""
    taken = whole.pattern.alternative
    if not taken or any(one.id == taken for one, _ in whole.side_by_side(kind)):
        return ""
    if kind is AlternativeKind.LAYOUT:
        return phrase("The layouts are shown and reckoned in the pattern's own cloths.")
    return phrase("The colorways are shown and reckoned in the pattern's own layout.")


def _widths(plans: Sequence[SizePlan], room: float) -> tuple[float, ...]:
    """How wide each quilt is drawn in a room of so many mm, all at one scale, in hundredths of the room; where there is no
    quilt, all of it."""
    sizes = [plan.quilt.finished for plan in plans]
    there = [(float(size[0]), float(size[1])) for size in sizes if size is not None]
    if len(there) < len(sizes):
        return (100.0,) * len(sizes)
    scale = min(room / max(w for w, _ in there), TALLEST / max(h for _, h in there))
    return tuple(round(100 * wide * scale / room, 2) for wide, _ in there)


class _Page(Record, kw_only=True):
    """What sets them: in so many columns, for a booklet of a `pattern`, beside the `first`."""

    columns: int
    pattern: Pattern
    album: Callable[[SizePlan], Figures]
    setter: Typesetter
    words: Words
    first: SizePlan

    def shown(self, one: Alternative, plan: SizePlan, width: float) -> ShownAlternative:
        """One of them, its quilt so wide."""
        figure = self.album(plan).figure(f"beside {self.columns}")
        bare = ShownAlternative(
            title=one.title or self.words.text(NAMELESS),
            own=self.is_printed(one),
            picture=self.setter.place(figure, "beside-picture", False) if figure else Markup(),
            width=width,
            cloths=tuple(map(partial(self.cloth, self.album(plan)), plan.materials)),
        )
        if one.kind is AlternativeKind.COLOURWAY:
            return replace(bare, differences=tuple(_differences(plan, self.lines)))
        units, finished, batting = plan.pattern.units, plan.quilt.finished, plan.quilt.batting
        return replace(
            bare,
            finished=area_text(finished, units) if finished else "",
            made=plural_phrase("{n} block", "{n} blocks", plan.blocks_made),
            batting=area_text(batting, units) if batting else "",
        )

    def is_printed(self, one: Alternative) -> bool:
        """Whether the booklet is in this one."""
        printed = self.pattern.alternatives_in(self.pattern.alternative)
        alike = [other for other in printed if other.kind is one.kind]
        return one.id in [other.id for other in alike] if alike else one.is_own

    @property
    def lines(self) -> dict[str, FabricSummary]:
        """What is bought of each cloth in the first."""
        return {line.fabric.id: line for line in self.first.materials}

    def cloth(self, album: Figures, line: FabricSummary) -> ClothLine:
        """The line of one cloth."""
        first = self.lines.get(line.fabric.id, line).fabric.name
        return ClothLine(
            fabric=line.fabric,
            swatch=self.setter.swatch(album, line.fabric),
            instead=first if first != line.fabric.name else "",
            buy=line.buy,
            other=line.buy_other,
        )


def _differences(plan: SizePlan, first: dict[str, FabricSummary]) -> Iterator[Text]:
    """A sentence for each cloth of which another amount is bought than in the first, with how the cloth differs."""
    for line in plan.materials:
        there = first.get(line.fabric.id)
        if there is None or there.buy == line.buy:
            continue
        told = tuple(otherwise(line.fabric, there.fabric, plan))
        if told:
            yield phrase(
                "{cloth}: {amount} in place of {first}. Other than in the first: {what}.",
                cloth=line.fabric.name,
                amount=line.buy,
                first=there.buy,
                what=listing(told, "commas"),
            )
        else:
            yield phrase(
                "{cloth}: {amount} in place of {first}, because other cloths change how it is cut.",
                cloth=line.fabric.name,
                amount=line.buy,
                first=there.buy,
            )


def otherwise(here: Fabric, first: Fabric, plan: SizePlan) -> Iterator[Text]:
    """How a cloth differs from that of the first in what its amount depends on."""
    units = plan.pattern.units
    if here.width != first.width:
        widths = at_least(here.width, units), at_least(first.width, units)
        yield phrase("usable width {width}, not {first}", width=widths[0], first=widths[1])
    if here.direction is not first.direction:
        yield _DIRECTIONS[here.direction]
    if (here.repeat, here.drop) != (first.repeat, first.drop):
        yield _repeat(here, plan)
    if here.shrinks != first.shrinks:
        share = phrase("{percent} percent", percent=f"{float(here.shrinks * 100):g}")
        yield phrase("it shrinks by {share}", share=share)
    if (here.extra, here.extra_share) != (first.extra, first.extra_share):
        yield phrase("more or less cloth to spare")
    if (here.kind, here.sold) != (first.kind, first.sold):
        yield phrase("sold otherwise")


_DIRECTIONS: dict[Direction, Phrase] = {
    Direction.ANY: phrase("a print that may be turned"),
    Direction.ONE_WAY: phrase("a one-way print"),
    Direction.STRIPE: phrase("a stripe"),
}


def _repeat(fabric: Fabric, plan: SizePlan) -> Text:
    """The repeat of a print, across and along."""
    if fabric.repeat is None:
        return phrase("a print without a repeat")
    units = plan.pattern.units
    across, along = (with_unit(side, units) for side in fabric.repeat)
    return phrase("a print that repeats every {repeat} (across × along)", repeat=by(across, along))
