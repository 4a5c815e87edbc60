"""Floor 6: what a quilt may need beside its layers: a hanging sleeve, and room for shrinking."""

from __future__ import annotations

from dataclasses import dataclass

from booklet.measure import ZERO, Length

Size = tuple[Length, Length]


@dataclass(frozen=True, slots=True)
class SleeveRule:
    """How a hanging sleeve is made: its finished width, end hems, seam, and length beyond the edge.

    SLEEVE is the International Quilt Association's: cut 8 1/2 in wide and 2 in longer than the
    edge, hem both ends by 1 1/2 in, sew into a tube that lies 4 in wide.
    """

    finished: Length
    hem: Length
    seam: Length
    longer: Length


SLEEVE = SleeveRule(Length.of(4), Length.of("1 1/2"), Length.of("1/4"), Length.of(2))


def sleeve(edge: Length, rule: SleeveRule = SLEEVE) -> tuple[Size, Size]:
    """A hanging sleeve for a top edge: its cut size and its finished size (width, length)."""
    cut = 2 * rule.finished + 2 * rule.seam, edge + rule.longer
    return cut, (rule.finished, cut[1] - 2 * rule.hem)


def top_before_shrinking(finished: Length, share: float) -> Length:
    """The size to make so that `finished` is left after shrinking by `share`: size / (1 - share)."""
    if not 0 <= share < 1:
        raise ValueError("a quilt cannot shrink by all of itself")
    return Length.of(float(finished) / (1 - share)) if share else finished + ZERO
