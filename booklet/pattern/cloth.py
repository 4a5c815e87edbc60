"""Floor 1, the pattern: cloth as its author names it."""

from __future__ import annotations

from enum import Enum, StrEnum
from fractions import Fraction

from booklet.kit.diagnostic import Span
from booklet.kit.measure import ZERO, Length
from booklet.kit.records import Record
from booklet.kit.trade import FAT_QUARTER


class Direction(Enum):
    """Whether a print may be turned."""

    ANY = "any"
    ONE_WAY = "one-way"
    STRIPE = "stripe"


class SoldAs(StrEnum):
    """What a cloth is bought as: by length, or ready cut."""

    YARDAGE = "yardage"
    FAT_QUARTER = "fat quarter"
    FAT_EIGHTH = "fat eighth"
    PANEL = "panel"
    STRIPS_2_1_2 = "strips 2 1/2 in"
    SQUARES_5 = "squares 5 in"
    SQUARES_10 = "squares 10 in"


class Sold(Record):
    """The step in which a fabric is sold: 1/8 yd or 10 cm unless the source says otherwise."""

    step: Length
    metric: bool


class Fabric(Record, kw_only=True):
    """A cloth: its look, its usable width, and how it is bought."""

    id: str
    name: str
    colour: str  # "#rrggbb"
    width: Length
    sold: Sold
    span: Span
    direction: Direction = Direction.ANY
    picture: str | None = None  # a file in the folder, key of Pattern.pictures
    repeat: tuple[Length, Length] | None = None  # across, along
    drop: Length = ZERO  # each column of motifs lies so much lower than the one on its left
    shrinks: Fraction = Fraction(0)  # a share: 5 percent is 1/20
    extra_share: Fraction = Fraction(0)  # added before rounding, as a share of the length
    extra: Length = ZERO  # added before rounding, as a length
    kind: SoldAs = SoldAs.YARDAGE

    @property
    def piece(self) -> tuple[Length, Length] | None:
        """One piece of a cloth that is sold ready cut, across x along; None of one sold by the length."""
        match self.kind:
            case SoldAs.YARDAGE:
                return None
            case SoldAs.FAT_QUARTER:
                return FAT_QUARTER
            case SoldAs.FAT_EIGHTH:
                return FAT_QUARTER[0], FAT_QUARTER[1] / 2
            case SoldAs.PANEL:
                return self.repeat
            case SoldAs.STRIPS_2_1_2:
                return self.width, Length.of("2 1/2")
            case SoldAs.SQUARES_5:
                return Length.of(5), Length.of(5)
            case SoldAs.SQUARES_10:
                return Length.of(10), Length.of(10)

    @property
    def usable(self) -> Length:
        """How wide the cloth is, or one piece of it where it is sold ready cut."""
        return self.piece[0] if self.piece else self.width
