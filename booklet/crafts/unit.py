"""Floor 1, crafts: the records of units that are sewn from larger pieces and cut afterwards. Each kind of unit is
one file of `units/`, which makes one `Unit`."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from booklet.crafts.figure import FlatOutline
from booklet.crafts.form import Form
from booklet.crafts.pictures import Picture
from booklet.crafts.rotary.marks import HAIR, CutBy
from booklet.crafts.rotary.ruler import Ruler
from booklet.kit.measure import ZERO, Length
from booklet.kit.outlines.near import SAME_LENGTH
from booklet.kit.records import ByWord, Record
from booklet.kit.words import Phrase, Text

Members = tuple[tuple[str, frozenset[str]], ...]
"""The pieces of every unit of a kind, by block."""


class UnitPart(Record):
    """A piece of a unit as sewn: its form, its figure, its cloth."""

    form: Form
    figure: FlatOutline
    fabric: str


class JoinedUnit(Record):
    """A unit that a step makes: its parts, and its sides in inches where it is a rectangle."""

    parts: tuple[UnitPart, ...]
    rectangle: tuple[float, float] | None

    def is_box(self, width: float, height: float) -> bool:
        """Whether it is a rectangle of these sides, lying or standing."""
        found, wanted = sorted(self.rectangle or ()), sorted((width, height))
        return bool(found) and all(
            abs(a - b) < SAME_LENGTH for a, b in zip(found, wanted, strict=True)
        )


class FoundUnit(Record):
    """What a kind of unit says of a joined unit that is its own: the sizes and the fabrics by which two are alike,
    each in an order that the kind settles."""

    sizes: tuple[float, ...]
    fabrics: tuple[str, ...]


class Alike(Record):
    """Alike units of a quilt: how they were found, which they are, how many are needed."""

    found: FoundUnit
    members: Members
    count: int


class UnitAsked(Record):
    """How units are to be made: the name of the kind, the margin to trim off, the ruler, the widths of cloths."""

    name: str
    trim: Length
    ruler: Ruler
    widths: Mapping[str, Length]


class TogetherCut(Record, kw_only=True):
    """One of the pieces such units begin with: a square, or a strip of a strip set; `count` in all."""

    name: str  # "U1a", its name in the cutting table and on the cloth
    fabric: str
    cut: tuple[Length, Length]
    count: int
    exact: tuple[float, float]
    by: CutBy = CutBy.RULER

    @classmethod
    def squares(
        cls, name: str, fabric: str, side: Length, exact: float, count: int, by: CutBy = CutBy.RULER
    ) -> TogetherCut:
        """So many squares; `exact` is their side before rounding, in inches."""
        return cls(
            name=name, fabric=fabric, cut=(side, side), count=count, exact=(exact, exact), by=by
        )


class TogetherUnit(Record, kw_only=True):
    """Units of one kind made together, for the whole quilt.

    Each of `rounds` gives `each` of them; `units` are needed. `trimmed` is the unfinished size to which
    they are trimmed where they are cut large (`trims`), `across` the width at which a strip set is cut across.
    """

    name: str  # "U1"
    how: Way
    finished: tuple[Length, Length]
    trimmed: tuple[Length, Length]
    units: int
    rounds: int
    each: int
    cuts: tuple[TogetherCut, ...]
    across: Length | None
    oversize: Length
    sum: str
    members: Members

    @property
    def trims(self) -> bool:
        """Whether the sewn unit is larger than it must be, by a margin or a figure rounded up."""
        pairs = (pair for part in self.cuts for pair in zip(part.cut, part.exact, strict=True))
        return self.oversize > ZERO or any(float(cut) - exact > HAIR for cut, exact in pairs)


def made(
    how: Way,
    alike: Alike,
    asked: UnitAsked,
    *,
    finished: tuple[float, float],
    each: int,
    cuts: tuple[TogetherCut, ...],
    sum: str,
    across: Length | None = None,
    oversize: Length = ZERO,
) -> TogetherUnit:
    """The record of a kind of unit: `finished` in inches, `each` of them from one round."""
    sizes = Length.of(finished[0]), Length.of(finished[1])
    both = 2 * asked.ruler.allowance
    return TogetherUnit(
        name=asked.name,
        how=how,
        finished=sizes,
        trimmed=(sizes[0] + both, sizes[1] + both),
        units=alike.count,
        rounds=-(-alike.count // each),
        each=each,
        cuts=cuts,
        across=across,
        oversize=oversize,
        sum=sum,
        members=alike.members,
    )


Figures = Callable[[Alike, UnitAsked], TogetherUnit | None]
"""What is cut for alike units, with its sum; None where making them so is not worth it, or no ruler shows how."""


class Way(ByWord, kw_only=True):
    """One way of making a kind of unit; ways are told apart by `word`, which facts have.

    `choice` is what asks for it in the source ("yes" where the key itself names the way). `steps` says what is sewn
    and cut, numbered as the pictures, with the allowance and the width cut across as texts; `trim` what is
    trimmed off sewn units. `title` heads it, `told` is what the pictures show, in words.
    """

    choice: str
    title: Phrase
    told: Phrase
    figures: Figures
    steps: Callable[[TogetherUnit, Text, Text], tuple[Phrase, ...]]
    trim: Callable[[Text], Phrase]
    picture: Callable[[TogetherUnit], Sequence[Picture]]
    from_strips: bool = False


class Unfit(Record):
    """Why alike units are not made so, as sentences of a fault: what is found, and what to do."""

    says: str
    hint: str


class Unit(Record, kw_only=True):
    """A kind of unit that can be made from larger pieces; its `key` asks for it in the source.

    `ways` are the choices, what gives most last. `find` says whether a joined unit is of the kind; `joins` what a
    step must do to make one. `unfit` is asked why units that were found are not made, in a size of that name.
    """

    key: str
    rank: int
    doc: str
    ways: tuple[Way, ...]
    find: Callable[[JoinedUnit], FoundUnit | None]
    joins: str
    unfit: Callable[[Sequence[Alike], Ruler, str], Unfit] | None = None

    def way(self, choice: str) -> Way:
        """The way that is asked for so."""
        return next(way for way in self.ways if way.choice == choice)
