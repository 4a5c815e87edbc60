"""Floor 1, crafts: the record of a patch form. Each form is one file of `forms/`, which makes one of these."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from booklet.crafts.figure import FlatOutline, Points
from booklet.crafts.measures import Measure, Measures, Sizes
from booklet.crafts.method import Method
from booklet.crafts.rotary.cuts import Rotary, Wanted
from booklet.crafts.rotary.ruler import Ruler
from booklet.kit.measure import Extent, Length, Number
from booklet.kit.records import ByWord, Record, field


class Seen(Record):
    """What a form says of an outline that is its own: the word the booklet uses for it, and the side along which
    the straight grain usually runs (None: a longest one)."""

    name: str
    side: int | None = None


class SizeFault(Record):
    """Why sizes cannot go together: the measure at fault, a code, the rest of a sentence that begins with the
    measure, and what to do."""

    measure: Measure
    code: str
    says: str
    hint: str


Recogniser = Callable[[FlatOutline, float | None], Seen | None]
"""Whether an outline is of the form; the grain (degrees clockwise from up, or None) may decide between two."""

Cutter = Callable[[Wanted, FlatOutline, Ruler], Rotary | None]
"""How the form is cut; None where its grain lies along no side that could lie along a strip: by template."""


class Form(ByWord, kw_only=True):
    """A form of patches: one object for each, equal by its word.

    `rank` is its place among the forms: in the reference, in the lettering of patches of equal area, and in
    recognising, where the first that knows an outline has it. `sides` is their number, 0 where the shape tells.
    `corners` gives them in inches, clockwise, x right and y down, about any origin; None for forms that are drawn
    freely. `implied` are the measures left out: a number, or another measure. `sample` is the example of the
    reference, `written` that of a free form as text.
    """

    rank: int
    must: tuple[Measure, ...]
    recognise: Recogniser
    may: tuple[Measure, ...] = ()
    sides: int = 0
    corners: Callable[[Measures], Points] | None = None
    implied: Mapping[str, Measure | int] = field(default_factory=dict)
    amiss: Callable[[Sizes], SizeFault | None] | None = None
    cut: Cutter | None = None
    method: Method | None = None
    sample: Mapping[str, int] = field(default_factory=dict)
    written: str = ""

    def complete(self, sizes: Sizes) -> dict[str, Extent | Number]:
        """The sizes with those that are implied where they are left out."""
        found = dict(sizes)
        for name, meant in self.implied.items():
            if isinstance(meant, int):
                found.setdefault(name, meant)
            elif meant.name in found:
                found.setdefault(name, found[meant.name])
        return found

    def laid_out(self, sizes: Sizes, unit: Length) -> Points | None:
        """The corners of a shape of this form in inches, for a length of the design unit; None where it is drawn
        freely. Raises ShapeError where its measures make no shape."""
        if self.corners is None:
            return None
        return self.corners(Measures(self.word, self.complete(sizes), unit))

    @property
    def is_free(self) -> bool:
        """Whether it is drawn freely, so that it has no measures."""
        return self.corners is None

    @property
    def measures(self) -> tuple[Measure, ...]:
        """All that it takes, those it must have first."""
        return (*self.must, *self.may)

    def __repr__(self) -> str:
        return f"<form {self.word}>"
