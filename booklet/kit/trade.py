"""Floor 0: the trade's usual lengths, each with its reason; nowhere else is one written into a sum.

Those that an author may set are what stands in when a key is left out. A length has two values: what one would
say in inches, and what one would say in centimetres.
"""

from __future__ import annotations

from booklet.kit.measure import Length, UnitSystem
from booklet.kit.records import Record


class Usual(Record):
    """A trade's usual length, as said in inches and, rounded to what one would say, in centimetres."""

    inch: Length
    cm: Length

    @classmethod
    def of(cls, inch: str, cm: str) -> Usual:
        """The usual length from two texts, such as '10 in' and '25 cm'."""
        return cls(Length.of(inch), Length.of(cm))

    def said_in(self, units: UnitSystem) -> Length:
        """The length in a pattern's units."""
        return self.inch if units == "inch" else self.cm


# Cloth

CLOTH_WIDTH = Usual.of("40 in", "102 cm")
"""What is usable of quilting cotton once the selvedges are cut off. Common practice."""

WIDEST_CLOTH = Usual.of("126 in", "320 cm")
"""Wider than any cloth for backs (118 to 120 in, 3 m) or sheets: no cloth is woven so wide. Common practice."""

SOLD_STEP = Usual.of("4 1/2 in", "10 cm")
"""Cloth is sold by the eighth of a yard or the tenth of a metre; less saved is not worth a seam."""

LEAST_SOLD_STEP = Usual.of("1 in", "1 cm")
"""No shop cuts cloth in smaller steps: a bare `1/8` was meant as a part of a yard. Common practice."""

SHOP_STEP = Usual.of("4 1/2 in", "5 cm")
"""Shops cut cloth in eighths of a yard, or in steps of 5 cm, and in multiples of these. Common practice."""

STRAIGHTENING = Usual.of("1/2 in", "1.5 cm")
"""Cut off to make a first edge straight, of cloth and of a strip set. A quilt-shop chart of squares per yard fits
a loss of more than 0 and at most 1/2 in (Fabric Cutting Chart); the larger end is taken, since cloth must not run
out, and in centimetres what is said and marked on every ruler next above it."""

FAT_QUARTER = (Length.of(21), Length.of(18))
"""The least usable fat quarter, across x along (Langley Quilters Guild: minimum 18 x 21 in). A fat eighth is half of it along
the selvedge, 9 x 20 to 22 in. Common practice."""

LONGEST_RULER = Length.of(24)
"""No strip is cut wider than the longest ruler; what is wider is a length of cloth. Common practice."""

LAYERS = 4
"""So many layers of quilting cotton are cut at once with a rotary cutter: more shift under the ruler. Common practice."""

LEAST_SCRAP = Length.of("1 1/2")
"""A scrap narrower than this either way is not counted or named as left over. Common practice."""

# Sewing

ALLOWANCE = Usual.of("1/4 in", "0.6 cm")
"""The seam allowance of patchwork, and of the seams of a back, for which sources use 1/4 to 5/8 in."""

WIDEST_ALLOWANCE = Usual.of("1 in", "2.5 cm")
"""No seam of a quilt has a wider one; whoever writes more most likely forgot a unit. Common practice."""

SEWN_BY_MACHINE = Usual.of("1 in", "2.5 cm")
"""Shorter seams are sewn by hand: they cannot be guided under a presser foot. Our default."""

PAPER_ALLOWANCE = Usual.of("3/8 in", "1 cm")
"""What is folded over a paper: wider than a seam's allowance, so that it can be basted. Common practice."""

APPLIED_ALLOWANCE = Usual.of("1/4 in", "0.6 cm")
"""What is turned under along the edge of an applied shape: 1/8 to 1/4 in (3 to 6 mm), the smaller the finer the shape.
Common practice."""

FUSED_MARGIN = Usual.of("1/4 in", "0.5 cm")
"""What is cut roughly round a shape that is fused, web and cloth, before it is cut on its line. Common practice."""

LEAST_STEM = Usual.of("3/16 in", "0.5 cm")
"""The narrowest stem whose strip is still folded by hand or with a tape maker. Common practice."""

STEM_END = Usual.of("1/4 in", "0.6 cm")
"""What a bias stem is cut longer at either end, to be turned under or to lie under another shape. Common practice."""

WEB_WIDTH = Usual.of("17 in", "43 cm")
"""How wide paper-backed fusible web is sold at least. Common practice."""

FOUNDATION_MARGIN = Usual.of("1/4 in", "0.5 cm")
"""What pieces sewn on printed paper are cut beyond their allowance on every side, so that they cover their place when
they are turned over: with an allowance of 1/4 in about 1/2 in (1.25 cm with 0.75 cm) round the seam line. Common
practice."""

THREAD = Usual.of("18 in", "45 cm")
"""A thread for sewing by hand: longer ones tangle and fray. Common practice."""

SEWN_BY_A_THREAD, WHIPPED_BY_A_THREAD = 3 / 4, 2 / 5
"""How much seam a thread sews for certain, as a share of its length, in running stitch and in whip-stitches over papers: what lies
in the stitches and in the needle is missing. Assumptions of ours, from memory; a longer route is told what to do if it runs short."""

NEW_THREAD = Usual.of("1 1/2 in", "4 cm")
"""A way back over sewn seams up to here beats a new thread. Our default."""

BY_MACHINE_A_MINUTE = Usual.of("10 in", "25 cm")
"""Seam sewn by machine in a minute. An assumption of ours, not a measurement: printed beside every estimate."""

BY_HAND_A_MINUTE = Usual.of("1 in", "2.5 cm")
"""The same by hand."""

THROUGH_ALLOWANCE = Usual.of("1/8 in", "3 mm")
"""What passing the needle through an allowance to the next seam costs, reckoned in seam to sew: a stitch or two. Our
default."""

CARD = Usual.of("1/4 in", "6 mm")
"""What a step more to read and lay out costs, reckoned in seam to sew. Our default."""

TEST_STRIP = Usual.of("1 in", "2.5 cm")
"""The finished width of the three strips that test an allowance; they are cut an allowance wider on each side.
Common practice."""

TEST_STRIP_LENGTH = Usual.of("4 in", "10 cm")
"""How long those strips are: enough to see whether a seam runs straight. Common practice."""

# The quilt

LAYER_EXTRA = Usual.of("4 in", "10 cm")
"""How much larger than the top, on each side, back and batting are for quilting. Common practice."""

WIDEST_EXTRA = Usual.of("12 in", "30 cm")
"""Long-arm quilters ask for up to 8 in; whoever writes more than this most likely forgot a unit. Common practice."""

WIDEST_BORDER = Usual.of("24 in", "60 cm")
"""Wider than any border, for it would hang over the side of a bed by itself. Our bound."""

SLEEVE_WIDTH = Usual.of("4 in", "10 cm")
"""The finished width of a hanging sleeve (International Quilt Association)."""

ENVELOPE_LAP = Usual.of("4 in", "10 cm")
"""How far the two halves of the back of a cushion overlap, so that it does not gape. Common practice."""

ENVELOPE_HEM = Usual.of("1 in", "2 cm")
"""What the hem of each half takes: half of it is folded over twice. Common practice."""

BED_DROP = Usual.of("12 in", "30 cm")
"""How far a quilt hangs down beside a mattress, and how much is tucked under a pillow. Common practice."""

JOIN_WORTH = Usual.of("18 in", "50 cm")
"""So much less cloth, half a yard or half a metre, makes a further join in a back worth sewing. Our default."""

MITRE_SPARE = Usual.of("2 in", "5 cm")
"""A mitred border is cut so much longer than the outside of the top. Common practice."""

LEAST_STRETCH = Usual.of("2 in", "5 cm")
"""No shorter stretch is joined on: its seam would lie in the corner of the quilt. Common practice."""

# Binding

BINDING_STRIP = Usual.of("2 1/2 in", "6.5 cm")
"""The cut width of a double-fold binding. Common practice."""

WIDEST_BINDING = Usual.of("5 in", "13 cm")
"""Twice the usual strip, beyond which it is no binding but a border. Our bound."""

LEAST_GAINED = Usual.of("6 in", "15 cm")
"""What a strip of binding makes it longer by at least: with less, its joins lie nearer to each other than a hand. Our bound."""

NARROWEST_BACK = Usual.of("12 in", "30 cm")
"""Cloth narrower than this is no cloth for a back of several widths. Our bound."""

BINDING_OVERLAP = Usual.of("10 in", "25 cm")
"""What is made beyond the perimeter, for four mitred corners and the closing join. Printed sources
say 0, 8, 10, 16, 20 and 24 in; 10 in is the default (Monica Curry Quilt Design, 2019)."""

BINDING_TAIL = Usual.of("8 in", "20 cm")
"""What is left hanging where the sewing of the binding begins, to close it at the end. Common practice."""

BINDING_END = Length.of(6)
"""A shorter end of the binding is kept: sewers like some to spare."""

BIAS_SEAM_LOSS = Usual.of("1 in", "2.5 cm")
"""What the seams of continuous bias take of the square's side: fits the printed charts for squares of 12
and 13 in."""

BIAS_STEP = Usual.of("1 in", "1 cm")
"""Bias squares are cut to whole inches or centimetres. Common practice."""
