"""Floor 1, the pattern: how a quilter likes to sew, press and make units."""

from __future__ import annotations

from enum import Enum

from booklet.kit.diagnostic import Span
from booklet.kit.measure import ZERO, Length
from booklet.kit.records import Record
from booklet.kit.trade import (
    BY_HAND_A_MINUTE,
    BY_MACHINE_A_MINUTE,
    CARD,
    FOUNDATION_MARGIN,
    NEW_THREAD,
    THROUGH_ALLOWANCE,
)
from booklet.pattern.blocks import By, Ends


class PressHabit(Enum):
    """The pattern's habit of pressing where a step says nothing."""

    AUTO = "auto"
    DARK = "dark"
    OPEN = "open"
    FAN = "fan"


class Technique(Enum):
    """A way in which all patches of a size are sewn, where it is not plain piecing."""

    PAPERS = "papers"  # basted over papers, whip-stitched along their folds, by hand
    FOUNDATION = "foundation"  # sewn on printed paper, piece by piece along its lines, by machine


class BlockTechnique(Enum):
    """A way in which all patches of one block are sewn, whatever the others are."""

    FOUNDATION = "foundation"


class TurnCosts(Record):
    """What `sew: auto` reckons for a turn by machine, a turn by hand, and a partial seam in its place.

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


class RouteCosts(Record, kw_only=True):
    """What the route of a hand thread costs besides a new thread, reckoned in seam to sew: an inch gone back costs
    `back` inches, an inch of thread that lies loose `loose` inches. `turn` None: no thread saved is worth a turn."""

    turn: Length | None = None
    through: Length = THROUGH_ALLOWANCE.inch
    card: Length = CARD.inch  # what a card more to read costs
    back: float = 1.0
    loose: float = 4.0


class Pace(Record):
    """How fast is sewn, in inches and joins a minute, and how long a sitting is.

    The values left out are assumptions of ours, not measurements: they are printed beside every
    estimate, and a teacher sets them for the class.
    """

    machine: Length = BY_MACHINE_A_MINUTE.inch  # a minute
    hand: Length = BY_HAND_A_MINUTE.inch  # a minute
    handling: float = 1.0  # minutes to lay out, pin and press one join
    sitting: float = 90.0  # minutes


class HandRoutes(Enum):
    """What hand threads are laid out for."""

    WHOLE_RUNS = "whole runs"  # no thread takes over a run midway
    FEWEST_THREADS = "fewest threads"


class ShortSeams(Enum):
    """Which seams shorter than `machine from` are sewn by hand."""

    ANY = "any"  # all on a shorter line: the author has said from where on the machine sews
    AT_CORNERS = "at corners"  # those that end where a corner is set in; the machine sews others edge to edge


class Sewing(Record, kw_only=True):
    """The sewing rules of a size."""

    machine_from: Length
    set_in_by: By
    ends: Ends
    thread: Length
    press: PressHabit
    span: Span
    layers: int = 8  # points where more layers of cloth lie are marked, with advice
    costs: TurnCosts = TurnCosts()
    pace: Pace = Pace()
    new_thread: Length = NEW_THREAD.inch  # a way back over sewn seams up to here beats a new thread
    routes: HandRoutes = HandRoutes.WHOLE_RUNS
    papers: Length | None = None  # what is folded over papers, where patches are basted over them
    route_costs: RouteCosts = RouteCosts()
    foundation: bool = False  # all blocks are sewn on printed paper
    foundation_margin: Length = FOUNDATION_MARGIN.inch  # beyond the allowance of their pieces
    short: ShortSeams = ShortSeams.ANY


class UnitWish(Record):
    """A wish that units be made together: the key of their kind, the way asked for, and its place."""

    key: str
    choice: str
    span: Span


class UnitCutting(Record):
    """How units are made where there is a choice; `trim` is a margin to trim off sewn units."""

    wishes: tuple[UnitWish, ...] = ()
    trim: Length = ZERO
    ruler: Length | None = None  # how far its marks lie apart; 1/8 in or 1 mm where left out
