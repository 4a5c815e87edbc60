"""Floor 6: backing and batting. The two layers below the top, larger than it on every side."""

from __future__ import annotations

from fractions import Fraction

from booklet.kit.measure import Length, Rounding, UnitSystem
from booklet.kit.records import Record
from booklet.kit.trade import ALLOWANCE, JOIN_WORTH, SOLD_STEP
from booklet.kit.words import Digits, Text, phrase
from booklet.pattern import Backing
from booklet.quilt.finishing.panels import BackPanels, Pieced, back_ways, best_pieced, layouts
from booklet.quilt.sized import BackingPlan
from booklet.quilt.sums import TIMES, cuttable, cutting_step, result, round_up, say, sum_line

Size = tuple[Length, Length]

NEAR_ENOUGH = Fraction(3, 4)
"""A back that stands out by so much of what was asked for still serves: 3 in of 4, with which most quilt. Our default."""


def layer_size(top: Size, extra: Length) -> Size:
    """The size of a layer that is `extra` larger than the finished top on each of its four sides."""
    return top[0] + 2 * extra, top[1] + 2 * extra


def cut_size(top: Size, extra: Length, units: UnitSystem) -> Size:
    """The size of a layer as it can be measured: rounded up where no ruler shows it."""
    width, height = layer_size(top, extra)
    return cuttable(width, units), cuttable(height, units)


def plan_backing(
    top: Size,
    backing: Backing,
    usable: Length,
    units: UnitSystem,
    upright: bool = False,
    allowance: Length | None = None,
    backs: int = 1,
) -> tuple[BackingPlan, ...]:
    """The ways to make the back of a finished top, that of least cloth first; none if the cloth is no wider than its
    seams. With `upright` its panels run down the quilt, for a print that has a top. They are joined with the `allowance`
    of the patches, so that a booklet has one; left out, with the trade's. It is never smaller than the top as it lies
    there, with that allowance on every side. Of several `backs`, one for each kit of a class, all together take as little
    as can be."""
    seam = allowance or ALLOWANCE.said_in(units)
    if usable <= 2 * seam:
        return ()
    extra = max(backing.extra, seam)  # the top reaches an allowance beyond its finished edge
    size = cut_size(top, extra, units)
    sums = layer_sums("backing", top, extra, units)
    hint = best_pieced(size, usable, seam, upright)
    ways = back_ways(size, usable, seam, JOIN_WORTH.said_in(units), upright, backs)
    return tuple(
        _planned(way, size, backing.fabric, usable, seam, units, sums, hint) for way in ways
    )


def _planned(
    way: BackPanels,
    size: Size,
    fabric: str,
    usable: Length,
    seam: Length,
    units: UnitSystem,
    sums: tuple[Text, ...],
    hint: Pieced | None,
) -> BackingPlan:
    """A back made in one of its ways, with the sums of its size and its own."""
    last = last_width(way, usable, seam, units)
    length, terms = way.length, f"{way.widths} {TIMES} {say(way.panel, units)}"
    if way.strips and last is not None:
        whole = way.widths - 1
        length = whole * way.panel + way.strips * last
        terms = f"{whole} {TIMES} {say(way.panel, units)} + {way.strips} {TIMES} {say(last, units)}"
    return BackingPlan(
        size=size,
        widths=way.widths,
        seam=way.seam,
        length=length,
        fabric=fabric,
        panel=(way.over if way.widths == 1 else usable, way.panel),
        sums=(
            *sums,
            _panel_sum(way, usable, seam, units),
            *((_last_sum(way, usable, seam, units),) if way.strips else ()),
            sum_line(phrase("backing, length of cloth"), terms, result(length, units)),
            *_pieced_sum(length, hint, units),
        ),
        last=last,
        last_sum=_last_sum(way, usable, seam, units),
        turned=way.turned,
        strips=way.strips if last is not None else 0,
        allowance=seam,
    )


def last_width(
    layout: BackPanels, usable: Length, seam: Length, units: UnitSystem
) -> Length | None:
    """As much of the last width as the others leave to cover, its seam counted, as it can be measured;
    None where that is the whole of it."""
    if layout.widths < 2:
        return None
    need = cuttable(layout.last, units)
    return need if need < usable else None


class NearlyEnough(Record):
    """A back that stands out a little less than was asked for, and takes a width of cloth less: its `extra`, its widths,
    and the length of cloth in all."""

    extra: Length
    widths: int
    length: Length


def nearly_enough(
    top: Size,
    backing: Backing,
    usable: Length,
    units: UnitSystem,
    made: BackingPlan,
    upright: bool = False,
) -> NearlyEnough | None:
    """The back that spares a width of the cloth of that `made` and still stands out by at least `NEAR_ENOUGH` of what is
    asked for; None where there is none, or where it is no shorter."""
    seam = made.allowance
    wanted = max(backing.extra, seam)
    asked = cut_size(top, wanted, units)
    ways = [
        _with_fewer(way, top, usable, units, seam)
        for way in layouts(asked, usable, seam, upright)
        if way.widths > 1
    ]
    fit = [
        way
        for way in ways
        if way.extra >= max(NEAR_ENOUGH * wanted, seam)
        and way.widths < made.widths
        and way.length < made.length
    ]
    return min(fit, key=lambda way: way.length, default=None)


def _with_fewer(
    way: BackPanels, top: Size, usable: Length, units: UnitSystem, seam: Length
) -> NearlyEnough:
    """The back of one width less: it stands out by what the others leave, on the ruler."""
    fewer = way.widths - 1
    across, along = (top[1], top[0]) if way.turned else top
    spare = fewer * usable - (fewer - 1) * 2 * seam - across
    extra = (spare / 2).rounded(cutting_step(units).inches, Rounding.DOWN)
    return NearlyEnough(extra, fewer, fewer * cuttable(along + 2 * extra, units))


def _last_sum(best: BackPanels, usable: Length, seam: Length, units: UnitSystem) -> Text:
    """How wide the last panel must be, where the rest of it is free for other things."""
    need = last_width(best, usable, seam, units)
    if need is None:
        return ""
    terms = phrase(
        "{over} − {n} × ({width} − {seam} for the seam)",
        over=Digits(say(best.over, units)),
        n=best.widths - 1,
        width=Digits(say(usable, units)),
        seam=Digits(say(2 * seam, units)),
    )
    return sum_line(phrase("backing, the last width must cover"), terms, result(need, units))


def _panel_sum(best: BackPanels, usable: Length, seam: Length, units: UnitSystem) -> Text:
    """How the number of widths came about."""
    what = (
        phrase("backing, widths over its height")
        if best.turned
        else phrase("backing, widths over its width")
    )
    if best.widths == 1:
        return phrase(
            "{what}: {length} fits in {usable}, 1 width",
            what=what,
            length=Digits(say(best.over, units)),
            usable=result(usable, units),
        )
    covers = best.widths * usable - (best.widths - 1) * 2 * seam
    return phrase(
        "{what}: {cloth} − {seams} for the seams = {covers}, enough for {length}",
        what=what,
        cloth=Digits(f"{best.widths} {TIMES} {say(usable, units)}"),
        seams=Digits(f"{best.widths - 1} {TIMES} {say(2 * seam, units)}"),
        covers=result(covers, units),
        length=result(best.over, units),
    )


def _pieced_sum(length: Length, other: Pieced | None, units: UnitSystem) -> tuple[Text, ...]:
    """What piecing would save of a `length`, for a reader who does not mind more seams; nothing if nothing."""
    if other is None or length - other.length < SOLD_STEP.inch:
        return ()
    least = result(round_up(other.length, units), units)
    if other.layout.seam == "crosswise":
        return (
            phrase(
                "backing, if more seams do no harm: {n} widths crosswise, the last pieced from "
                "{pieces} lengths side by side, take {length}",
                n=other.layout.widths,
                pieces=other.pieces,
                length=least,
            ),
        )
    return (
        phrase(
            "backing, if more seams do no harm: {n} widths lengthwise, the last pieced from {pieces} "
            "lengths side by side, take {length}",
            n=other.layout.widths,
            pieces=other.pieces,
            length=least,
        ),
    )


def layer_sums(name: str, top: Size, extra: Length, units: UnitSystem) -> tuple[str, ...]:
    """How the size of a layer came about, for the appendix."""
    titles = {
        "backing": (phrase("backing, width"), phrase("backing, height")),
        "batting": (phrase("batting, width"), phrase("batting, height")),
    }
    rows = zip(titles[name], top, layer_size(top, extra), cut_size(top, extra, units), strict=True)
    return tuple(
        sum_line(
            word,
            f"{say(inner, units)} + 2 {TIMES} {say(extra, units)}",
            result(cut, units),
            exact != cut,
        )
        for word, inner, exact, cut in rows
    )
