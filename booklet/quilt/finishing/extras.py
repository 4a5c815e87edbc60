"""Floor 6: what a quilt may need beside its layers: a hanging sleeve, the back that closes a cushion."""

from __future__ import annotations

from booklet.kit.measure import Length, UnitSystem
from booklet.kit.records import Record, replace
from booklet.kit.trade import ENVELOPE_HEM
from booklet.kit.words import phrase
from booklet.pattern import Envelope, Sleeve
from booklet.quilt.sized import Part
from booklet.quilt.sums import MINUS, TIMES, cut_line, cuttable, result, say, sewable, sum_line

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
        cut_line(
            phrase("sleeve, width"),
            f"2 {TIMES} {say(rule.finished, units)} + 2 {TIMES} {say(rule.seam, units)}",
            cut[0],
            wide,
            units,
        ),
        cut_line(
            phrase("sleeve, length"),
            f"{say(edge, units)} + {say(rule.longer, units)}",
            cut[1],
            long,
            units,
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


ENVELOPE = "envelope back"
"""The name of the part that closes a cushion."""


def envelope_part(front: Size, wish: Envelope, allowance: Length, units: UnitSystem) -> Part:
    """The two halves of the back of a cushion, (width, height) finished as its front is: each as wide as the front with
    its allowances, and half as high, with half of the overlap, one allowance and a hem."""
    (width, height), hem = front, ENVELOPE_HEM.said_in(units)
    finished = width, (height + wish.lap) / 2
    exact = width + 2 * allowance, finished[1] + allowance + hem
    cut = sewable(exact[0], units), cuttable(exact[1], units)
    sums = (
        cut_line(
            phrase("envelope back, width"),
            f"{say(width, units)} + 2 {TIMES} {say(allowance, units)}",
            exact[0],
            cut[0],
            units,
        ),
        cut_line(
            phrase("envelope back, height of each half"),
            f"({say(height, units)} + {say(wish.lap, units)}) / 2 + {say(allowance, units)} + {say(hem, units)}",
            exact[1],
            cut[1],
            units,
        ),
    )
    return Part(
        name=ENVELOPE,
        title=phrase("envelope back, halves"),
        fabric=wish.fabric,
        shape="rectangle",
        finished=finished,
        cut=cut,
        count=2,
        long=False,
        places=(),
        sums=sums,
    )
