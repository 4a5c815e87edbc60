"""Floor 11, units made together: what to cut, sew and cut again, in words."""

from __future__ import annotations

from markupsafe import Markup

from booklet.crafts.unit import TogetherUnit
from booklet.kit.records import Record
from booklet.kit.words import Phrase, Text, area_text, exactly, listing, phrase, plural_phrase
from booklet.pages.tables.view import to_cut
from booklet.pages.texts.words import Words
from booklet.plan import SizePlan


class TogetherView(Record):
    """A kind of unit on the page: its heading, the pieces it begins with, the steps, the picture's name."""

    heading: Markup
    begin: Markup
    steps: tuple[Markup, ...]
    picture: str


def together_views(plan: SizePlan, words: Words) -> tuple[TogetherView, ...]:
    """The units of a size that are made together."""
    return tuple(_view(plan, unit, words) for unit in plan.cutting.together)


def _view(plan: SizePlan, unit: TogetherUnit, words: Words) -> TogetherView:
    heading = phrase(
        "{name}: {what}, {n} of them", name=unit.name, what=unit.how.title, n=unit.units
    )
    begin = phrase(
        "Cut {pieces}.", pieces=listing([_piece(plan, unit, k) for k in range(len(unit.cuts))])
    )
    return TogetherView(
        words.markup(heading),
        words.markup(begin),
        tuple(words.markup(step) for step in (*_steps(plan, unit), *_last(plan, unit))),
        f"together {unit.name}",
    )


def _piece(plan: SizePlan, unit: TogetherUnit, k: int) -> Text:
    """One of the pieces a unit begins with: how many, of which cloth, how large."""
    part = unit.cuts[k]
    fabric, size = plan.fabric(part.fabric).name, to_cut(plan.pattern, part.cut[1])
    if unit.how.from_strips:
        return plural_phrase(
            "{n} strip {name} of {fabric}, {width} wide",
            "{n} strips {name} of {fabric}, {width} wide",
            part.count,
            name=part.name,
            fabric=fabric,
            width=size,
        )
    return plural_phrase(
        "{n} square {name} of {fabric}, {width}",
        "{n} squares {name} of {fabric}, {width}",
        part.count,
        name=part.name,
        fabric=fabric,
        width=size,
    )


def _steps(plan: SizePlan, unit: TogetherUnit) -> tuple[Phrase, ...]:
    """What is sewn and cut, numbered as the pictures."""
    units = plan.pattern.units
    across = to_cut(plan.pattern, unit.across or unit.trimmed[1])
    return unit.how.steps(unit, exactly(plan.pattern.allowance, units), across)


def _last(plan: SizePlan, unit: TogetherUnit) -> tuple[Phrase, ...]:
    """What one has in the end, trimmed where there is a margin."""
    size = area_text(unit.trimmed, plan.pattern.units)
    made = unit.rounds * unit.each
    end = unit.how.trim(size) if unit.trims else phrase("Each measures {size}.", size=size)
    if made == unit.units or unit.how.from_strips:
        return (end,)
    spare = plural_phrase("{n} unit is left over.", "{n} units are left over.", made - unit.units)
    return (end, spare)
