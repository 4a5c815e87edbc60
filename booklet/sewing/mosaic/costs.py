"""Floor 4, the mosaic: what each way past a matching point costs."""

from __future__ import annotations

from booklet.kit.records import Record


class Costs(Record):
    """The cost of a turn by machine, of a turn by hand, and of a partial seam in place of a turn.

    Sewing straight past a point costs nothing. With the defaults the cheapest order is the one with the
    fewest turns; a partial seam that costs no more than the turn it saves is taken where the machine sews.
    """

    machine: float = 1.0
    hand: float = 1.0
    partial: float = 1.0

    @property
    def count_turns(self) -> bool:
        """Whether all cost 1, so that a cost is a number of turns."""
        return self.machine == self.hand == self.partial == 1.0
