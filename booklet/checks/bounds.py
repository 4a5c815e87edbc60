"""Floor 8: a check made before anything is cut, so that a slip does not keep the machine busy."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.kit.bounds import MOST_PATCHES
from booklet.kit.diagnostic import Diagnostic, Outcome
from booklet.quilt.sized import SetPattern


def within_bounds(quilts: SetPattern) -> Outcome[SetPattern]:
    """The same pattern; no value if a quilt has more patches than its pictures can show."""
    found = tuple(_too_many(quilts))
    return Outcome(None if found else quilts, found)


def _too_many(quilts: SetPattern) -> Iterator[Diagnostic]:
    """An error for each size with too many patches."""
    pattern = quilts.pattern
    pieces = {b.id: len(b.all_members()) for b in pattern.blocks}
    for quilt in quilts.quilts.values():
        many = sum(pieces[placed.block] for placed in quilt.placed)
        if many > MOST_PATCHES:
            yield Diagnostic(
                code="too-large",
                message=f"the quilt of size `{quilt.size.id}` has {many} patches; "
                f"at most {MOST_PATCHES} can be worked with",
                span=quilt.size.blocks_span,
                hint="write fewer blocks, or make the quilt in several parts",
            )
