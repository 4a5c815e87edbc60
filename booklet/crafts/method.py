"""Floor 1, crafts: the ways of cutting a patch or part. Each form's own stands in its file; here what they share."""

from __future__ import annotations

from enum import Enum

from booklet.kit.records import ByWord
from booklet.kit.words import Phrase, phrase


class Family(Enum):
    """What the blade does."""

    BOX = "a square or rectangle, which is the piece"
    AGAIN = "a square or rectangle that is cut again into triangles"
    SLANTED = "across a strip at an angle"
    IN_A_ROW = "side by side along a strip, turned end for end by turns"
    FREE = "round a template"
    LONG = "a length of strip"


class Method(ByWord, kw_only=True):
    """One way of cutting, told apart by `word`, which facts have; `title` is what tables call it.

    `how` tells a cutter what to do where the family alone does not, `how_one` where it is said of a single cut. `by_ruler` is whether no template is needed
    where the ruler shows its figures; `one_sided` whether its pieces differ from their mirror images, however
    they came to be wanted; `oblong` whether its figure may lie or stand; `piece` is the name of what it gives,
    where that is not the outline's; `fussy` is whether it is cut where a motif of the print lies.
    """

    title: Phrase
    family: Family
    how: Phrase | None = None
    how_one: Phrase | None = None
    by_ruler: bool = False
    one_sided: bool = False
    oblong: bool = False
    piece: Phrase | None = None
    fussy: bool = False

    def told(self, cuts: int) -> Phrase | None:
        """What a cutter is told of so many squares or rectangles."""
        return self.how_one if cuts == 1 and self.how_one is not None else self.how


ONCE = phrase("Cut each once from corner to corner: 2 triangles.")
ONE_ONCE = phrase("Cut it once from corner to corner: 2 triangles.")
ROUND = phrase("Draw round the template, then cut.")

TEMPLATE = Method(word="template", title=phrase("by template"), family=Family.FREE, how=ROUND)
FUSSY = Method(
    word="fussy cut by template",
    title=phrase("fussy cut by template"),
    family=Family.FREE,
    how=phrase("Move the template until the motif sits in the middle."),
    fussy=True,
)
FUSSY_BOX = Method(
    word="fussy cut by the ruler",
    title=phrase("fussy cut by the ruler"),
    family=Family.BOX,
    how=phrase("Move the ruler until the motif sits in the middle."),
    by_ruler=True,
    fussy=True,
)
STRIP = Method(word="strip", title=phrase("from strips"), family=Family.LONG)
LENGTHWISE = Method(
    word="strip along the selvedge",
    title=phrase("strip along the selvedge"),
    family=Family.LONG,
    how=phrase("Cut along the selvedge, in one piece."),
    oblong=True,
)
SHARED = (TEMPLATE, FUSSY, FUSSY_BOX, STRIP, LENGTHWISE)
