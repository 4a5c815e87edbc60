"""Floor 6: long strips pieced from cloth. How many strips across the cloth make a length."""

from __future__ import annotations

import math

from booklet.kit.measure import ZERO, Length


def strips_for_length(length: Length, usable: Length, loss: Length = ZERO) -> int:
    """How many strips `usable` long make one of `length`: ceil((length - loss) / (usable - loss)).

    `loss` is what each join takes, of which there is one fewer than strips. ValueError if nothing would be left
    of a strip.
    """
    useful = usable - loss
    if useful.inches <= 0:
        raise ValueError("a strip is no longer than what its join takes")
    return max(1, math.ceil((length - loss).inches / useful.inches))
