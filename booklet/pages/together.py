"""Floor 11, units made together: what to cut, sew and cut again, in words."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from booklet.cutting.units.together_plan import Together, TogetherUnit
from booklet.pages.values import area_text, exactly
from booklet.pages.view import cut_text
from booklet.pages.words import Words
from booklet.plan import SizePlan
from booklet.words import Phrase, Text, listing, phrase, plural_phrase


@dataclass(frozen=True, slots=True)
class TogetherView:
    """A kind of unit on the page: its heading, the pieces it begins with, the steps, the picture's name."""

    heading: Markup
    begin: Markup
    steps: tuple[Markup, ...]
    picture: str


def together_views(plan: SizePlan, words: Words) -> tuple[TogetherView, ...]:
    """The units of a size that are made together."""
    return tuple(_view(plan, unit, words) for unit in plan.cutting.together)


TITLES = {
    Together.TWO: phrase("half squares, two at a time"),
    Together.FOUR: phrase("half squares, four at a time"),
    Together.EIGHT: phrase("half squares, eight at a time"),
    Together.GEESE: phrase("flying geese, four at a time"),
    Together.SQUARE: phrase("squares in a square"),
    Together.STRIPS: phrase("rows from strip sets"),
}


def _view(plan: SizePlan, unit: TogetherUnit, words: Words) -> TogetherView:
    heading = phrase(
        "{name}: {what}, {n} of them", name=unit.name, what=TITLES[unit.how], n=unit.units
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
    part, units = unit.cuts[k], plan.pattern.units
    fabric, size = plan.fabric(part.fabric).name, cut_text(part.cut[1], units)
    if unit.how is Together.STRIPS:
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
    allowance = exactly(plan.pattern.allowance, units)
    match unit.how:
        case Together.TWO:
            return (
                phrase("Lay two squares right sides together. Draw one diagonal. Sew {allowance} from it on both sides.", allowance=allowance),
                phrase("Cut on the line. Open both units and press."),
            )  # fmt: skip
        case Together.FOUR:
            return (
                phrase("Lay two squares right sides together. Sew all round, {allowance} from the edge.", allowance=allowance),
                phrase("Cut on both diagonals. Open the four units and press. Their edges are on the bias: do not pull them."),
            )  # fmt: skip
        case Together.EIGHT:
            return (
                phrase("Lay two squares right sides together. Draw both diagonals. Sew {allowance} from each on both sides.", allowance=allowance),
                phrase("Cut across the middle both ways, then on the lines. Open the eight units and press."),
            )  # fmt: skip
        case Together.GEESE:
            return (
                phrase("Lay two small squares on opposite corners of a large one, right sides together; they overlap in the middle. Draw the diagonal through both. Sew {allowance} from it on both sides, cut on the line, and press the small triangles up.", allowance=allowance),
                phrase("Lay a small square on the last corner of each half. Draw its diagonal from the corner, sew on both sides, cut on the line and press."),
            )  # fmt: skip
        case Together.SQUARE:
            return (
                phrase("Cut each square {name} once from corner to corner: 2 triangles. Sew two to opposite sides of the square {centre}, middle on middle, so that their points stand out alike at both ends, and press them outward.", name=unit.cuts[1].name, centre=unit.cuts[0].name),
                phrase("Sew two more to the other sides and press them outward too."),
            )  # fmt: skip
        case Together.STRIPS:
            across = cut_text(unit.across or unit.trimmed[1], units)
            names = "".join(part.name.removeprefix(unit.name) for part in unit.cuts)
            return (
                plural_phrase(
                    "Sew the strips together along their length in the order of their letters ({names}): {n} strip set. Press. Straighten one end and cut across every {across}.",
                    "Sew the strips together along their length in the order of their letters ({names}): {n} strip sets. Press. Straighten one end of each and cut across every {across}.",
                    unit.rounds,
                    names=names,
                    across=across,
                ),
            )  # fmt: skip


def _last(plan: SizePlan, unit: TogetherUnit) -> tuple[Phrase, ...]:
    """What one has in the end, trimmed where there is a margin."""
    size = area_text(unit.trimmed, plan.pattern.units)
    made = unit.rounds * unit.each
    end = phrase("Each measures {size}.", size=size)
    if unit.trims:
        end = phrase("Trim each to {size}, with the seam through its corners.", size=size)
        if unit.how is Together.GEESE:
            end = phrase("Trim each to {size}, one allowance beyond the point.", size=size)
        if unit.how is Together.SQUARE:
            end = phrase("Trim each to {size}, one allowance beyond the four points.", size=size)
    if made == unit.units or unit.how is Together.STRIPS:
        return (end,)
    spare = plural_phrase("{n} unit is left over.", "{n} units are left over.", made - unit.units)
    return (end, spare)
