"""Floor 6: what a quilt may need beside its layers: a hanging sleeve."""

from __future__ import annotations

from booklet.kit.measure import Length, UnitSystem
from booklet.kit.records import Record, replace
from booklet.kit.words import phrase
from booklet.pattern import Sleeve
from booklet.quilt.sized import Part
from booklet.quilt.sums import MINUS, TIMES, cuttable, result, say, sum_line

Size = tuple[Length, Length]


class SleeveRule(Record):
    """How a hanging sleeve is made: its finished width, end hems, seam, and length beyond the edge.

    SLEEVE is the International Quilt Association's: cut 8 1/2 in wide and 2 in longer than the
    edge, hem both ends by 1 1/2 in, sew into a tube that lies 4 in wide.
    """

    finished: Length
    hem: Length
    seam: Length
    longer: Length


def sleeve_rule(finished: Length, units: UnitSystem) -> SleeveRule:
    """The rule for a tube of this finished width, in round figures of the pattern's units."""
    if units == "inch":
        return replace(SLEEVE, finished=finished)
    return SleeveRule(finished, Length.of("4 cm"), Length.of("0.6 cm"), Length.of("5 cm"))


SLEEVE = SleeveRule(Length.of(4), Length.of("1 1/2"), Length.of("1/4"), Length.of(2))


def sleeve(edge: Length, rule: SleeveRule = SLEEVE) -> tuple[Size, Size]:
    """A hanging sleeve for a top edge: its cut size and its finished size (width, length)."""
    cut = 2 * rule.finished + 2 * rule.seam, edge + rule.longer
    return cut, (rule.finished, cut[1] - 2 * rule.hem)


def sleeve_part(edge: Length, wish: Sleeve, units: UnitSystem) -> Part:
    """The strip of a hanging sleeve as a part of the quilt; joined from strips where the cloth is narrow."""
    rule = sleeve_rule(wish.width, units)
    cut, finished = sleeve(edge, rule)
    wide, long = cuttable(cut[0], units), cuttable(cut[1], units)
    sums = (
        sum_line(
            phrase("sleeve, width"),
            f"2 {TIMES} {say(rule.finished, units)} + 2 {TIMES} {say(rule.seam, units)}",
            result(wide, units),
        ),
        sum_line(
            phrase("sleeve, length"),
            f"{say(edge, units)} + {say(rule.longer, units)}",
            result(long, units),
        ),
        sum_line(
            phrase("sleeve, once hemmed"),
            f"{say(long, units)} {MINUS} 2 {TIMES} {say(rule.hem, units)}",
            result(long - 2 * rule.hem, units),
        ),
    )
    size = finished[1], finished[0]
    return Part(
        name="sleeve",
        title=phrase("sleeve"),
        fabric=wish.fabric,
        shape="rectangle",
        finished=size,
        cut=(long, wide),
        count=1,
        long=True,
        places=(),
        sums=sums,
    )
