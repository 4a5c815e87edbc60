"""Floor 4: what a step does, before it is known how its seams end and which steps are alike."""

from __future__ import annotations

from booklet.kit.records import Record
from booklet.pattern import By, DeclaredStep
from booklet.sewing.assembly import StepKind
from booklet.sewing.order.stretches import Stretch


class Draft(Record, kw_only=True):
    """A step worked out as far as its stretches and who sews them; `by` has one entry a stretch."""

    n: int
    declared: DeclaredStep
    make: str
    join: tuple[str, ...]  # the own names of the parts
    parts: tuple[frozenset[str], ...]  # the pieces of each part of the join
    part_steps: tuple[int, ...]  # the step that made each part, 0 for a patch
    stretches: tuple[Stretch, ...]
    by: tuple[By, ...]
    kind: StepKind
    level: int
    repeats: str | None = None  # the partial seam that a finish sews to its end

    @property
    def pieces(self) -> frozenset[str]:
        """All pieces of the unit made."""
        return frozenset().union(*self.parts)

    @property
    def finish_begun(self) -> bool:
        """Whether the step sews on what an earlier step began."""
        return self.repeats is not None

    @property
    def turns(self) -> int:
        """At how many matching points the needle turns."""
        return sum(len(stretch.turns) for stretch in self.stretches)

    @property
    def step_by(self) -> By:
        """By machine only where every stretch is."""
        return By.MACHINE if all(by is By.MACHINE for by in self.by) else By.HAND
