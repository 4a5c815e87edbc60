"""Floor 6: long strips pieced from cloth. How many strips across the cloth make a length."""

from __future__ import annotations

import math
from collections.abc import Sequence

from booklet.measure import ZERO, Length

DEFAULT_LOSS = Length.of("1/2")  # a straight join takes 1/4 in of each of two strips


def strips_for_length(length: Length, usable: Length, loss: Length = ZERO) -> int:
    """How many strips `usable` long make one of `length`: ceil(length / (usable - loss)).

    `loss` is what each strip loses at its join. ValueError if nothing would be left of a strip.
    """
    useful = usable - loss
    if useful.inches <= 0:
        raise ValueError("a strip is no longer than what its join takes")
    return max(1, math.ceil(length.inches / useful.inches))


def strips_for_pieces(lengths: Sequence[Length], usable: Length, loss: Length) -> int:
    """How many strips across the cloth give all `lengths`, each within one strip where it can be.

    A length longer than a strip takes whole strips and an end; ends and short lengths are laid into
    strips longest first, each into the first strip with room (first fit decreasing). 0 where a strip is
    no longer than what its join takes.
    """
    useful = usable - loss
    if useful.inches <= 0:
        return 0
    whole, rest = 0, []
    for length in lengths:
        joined = max(0, math.ceil((length - usable).inches / useful.inches))
        whole += joined
        rest.append(length - joined * useful)
    rooms: list[Length] = []
    for need in sorted(rest, reverse=True):
        for index, room in enumerate(rooms):
            if need <= room:
                rooms[index] = room - need
                break
        else:
            rooms.append(usable - need)
    return whole + len(rooms)
