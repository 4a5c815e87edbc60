"""Floor 1, crafts: shapes laid on a sewn ground (applied): how they are cut, with an edge to turn under or a raw one, and
stems from bias strips.

The long edges of a stem are folded to meet in the middle of its back, as tape makers do (common practice), so it is cut
twice as wide as it is to be. Its strips are cut across a strip of cloth at 45 degrees: their ends slant, and what is lost
there is the width of the strip.
"""

from __future__ import annotations

import math

from booklet.crafts.method import Family, Method
from booklet.crafts.rotary.cuts import Rotary, Wanted, singly
from booklet.crafts.rotary.nesting import row_of
from booklet.crafts.rotary.ruler import Ruler
from booklet.crafts.rotary.strips import leaning
from booklet.crafts.rotary.sums import decimal, say
from booklet.kit.measure import Length
from booklet.kit.words import Digits, phrase

TURNED = Method(
    word="template with an edge to turn under",
    title=phrase("by template, edge turned under"),
    family=Family.FREE,
    how=phrase(
        "Draw round the template on the right side, then cut; the dashed line is where the edge is turned under."
    ),
)
FUSED = Method(
    word="template on fusible web",
    title=phrase("by template on fusible web"),
    family=Family.FREE,
    how=phrase(
        "Trace the reversed template on the paper of the web, cut it out roughly, fuse it to the wrong side of the cloth "
        "and cut on the line."
    ),
)
BIAS = Method(
    word="bias strips",
    title=phrase("bias strips"),
    family=Family.SLANTED,
    by_ruler=True,
)


def bias_strips(want: Wanted, width: float, length: float, end: Length, ruler: Ruler) -> Rotary:
    """Bias strips for stems `width` wide when folded and `length` long, with an `end` more at either end; all inches.

    A strip of cloth as high as (length + ends + cut width) / sqrt 2, cut across at 45 degrees every twice the width; both
    rounded up to a mark of the ruler, since a longer or wider strip does no harm.
    """
    step = ruler.up(2 * width)
    whole = length + 2 * float(end)
    exact = (whole + float(step)) / math.sqrt(2)
    high = ruler.up(exact)
    units = ruler.units
    text = phrase(
        "folded {width}: cut 2 × {width} = {step}; line {length} + 2 × {end} = {whole}; ({whole} + {step}) ÷ √2 = {high}",
        width=Digits(decimal(width, units)),
        step=Digits(say(step.inches, units)),
        length=Digits(decimal(length, units)),
        end=Digits(say(end.inches, units)),
        whole=Digits(decimal(whole, units)),
        high=Digits(say(high.inches, units)),
    )
    shape = leaning(float(high), float(step), math.radians(45), True)
    return Rotary(
        method=BIAS,
        cut=(high, step),
        exact=(exact, 2 * width),
        sum=text,
        angle=45.0,
        grain=want.grain,
        lays=(singly(want.pieces, (row_of(shape, True),)),),
    )
