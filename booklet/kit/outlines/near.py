"""Floor 0: how near is the same. Every comparison of floats on any floor gives way by one of these.

Lengths are inches of cloth (or millimetres of paper, where nobody sees the difference). Coarser figures that are a rule
of the craft, such as what pins and fingers take up, stand with their rule.
"""

NOTHING = 1e-12
"""A product of lengths or cosines so small is 0: the lines are parallel, the side has no length."""

NOISE = 1e-9
"""What a sum of floats may be off by, whatever it is in: two scores, lengths or counts this near are equal."""

NO_LENGTH = 1e-7
"""A shorter line has no direction."""

ONE_POINT = 1e-6
"""Points this near are one point. Far above noise, far below what an author can mean to be apart."""

WHOLE = 1e-6
"""A number this near a whole one is it; so are answers of a solver, which keeps to its rows only so far."""

SNAP = 1e-6
"""A length this near a simple fraction of an inch, or a tenth of a millimetre, is that."""

TOUCH = 1e-5
"""Ends of seams of two blocks laid side by side meet: each block was turned and moved by itself."""

SAME_LENGTH = 1e-4
"""Two measures of pieces that were turned are the same length, also of angles scaled to them."""

SHARE = 1e-4
"""A share this small of a length or an area is none of it."""

DRAWN = 6e-3
"""Places and lengths as an author writes them, rounded to three decimals of a unit of up to 2 in, are the same: either end of
a side may be off by half a thousandth of it, across and down, and so may those of the side it is compared with. No thread of cloth
is so thin."""

SAME_ANGLE = 0.01
"""Directions this near, in degrees, are one: 1/64 in over 90 in."""
