"""Floor 2: `sewing`: the rules that decide what a step does not say."""

from __future__ import annotations

from booklet.kit import trade
from booklet.kit.bounds import MOST_INCHES
from booklet.kit.diagnostic import Span
from booklet.kit.measure import Length
from booklet.pattern import (
    By,
    Ends,
    HandRoutes,
    Pace,
    PressHabit,
    RouteCosts,
    Sewing,
    ShortSeams,
    Technique,
    TurnCosts,
)
from booklet.source.tree.node import Map
from booklet.source.values.fields import Fields, Key, Table
from booklet.source.values.groups import group
from booklet.source.values.kinds import Reading, one_of
from booklet.source.values.quantities import count, length, minutes, number, speed
from booklet.source.values.wide import warn_if_wide

BY = Key(
    "by",
    one_of(Technique),
    "How all patches are sewn, where it is not by plain seams: `papers` for patches that are basted over "
    "papers and whip-stitched by hand, `foundation` for blocks sewn on printed paper, piece by piece along its lines "
    "(one block alone has a key `by` of its own).",
)
PAPER_ALLOWANCE = Key(
    "paper allowance",
    length(),
    "What is added to patches that are basted over papers; 3/8 in or 1 cm where left out (common practice).",
)
FOUNDATION_MARGIN = Key(
    "foundation margin",
    length("zero"),
    "What pieces sewn on printed paper are cut beyond their allowance, on every side; 1/4 in or 5 mm where left out "
    "(common practice: about 1/2 in round the seam line).",
)
MACHINE_FROM = Key(
    "machine from",
    length("zero"),
    "Seams this long or longer, each from end to end, are sewn by machine, shorter ones by hand. Left out: what ends at a corner to be set in is sewn by hand if shorter than 1 in (2.5 cm); longer seams that turn at one as `set in by` says, all else by machine.",
)
SET_IN_BY = Key(
    "set in by",
    one_of(By),
    "How corners are set in whose seams are long enough for the machine.",
    default="hand",
)
ENDS = Key(
    "ends",
    one_of(Ends),
    "Where seams end: at matching points, at raw edges, or as the tool decides.",
    default="auto",
)
THREAD = Key("thread", length(), "How long the hand-sewing thread is when it is threaded.")
NEW_THREAD = Key(
    "new thread",
    length("zero"),
    "What a new thread costs, as a length of seam: a hand thread goes back over sewn seam where that costs less; "
    "1 1/2 in or 4 cm where left out (an assumption).",
)
ROUTES = Key(
    "routes",
    one_of(HandRoutes),
    "How hand threads are laid out: every run whole on one thread, or the fewest threads, which may take "
    "over a run midway; `whole runs` where left out.",
    default="whole runs",
)
PRESS = Key(
    "press", one_of(PressHabit), "How seams are pressed where a step says nothing.", default="auto"
)
LAYERS = Key(
    "layers",
    count(2, 99, "how many layers of cloth may lie at a point"),
    "Points at which more layers of cloth lie are marked, with advice; 8 where left out.",
    default="8",
)
COSTS = Key(
    "costs",
    group("costs"),
    "What `sew: auto` reckons for turns and partial seams, and what routes of hand threads are reckoned by.",
)
MACHINE_SPEED = Key(
    "machine speed",
    speed(),
    "Seam sewn by machine in a minute; 10 in or 25 cm where left out (an assumption).",
)
HAND_SPEED = Key(
    "hand speed",
    speed(),
    "Seam sewn by hand in a minute; 1 in or 2.5 cm where left out (an assumption).",
)
HANDLING = Key(
    "handling",
    minutes(0, 600),
    "Minutes to lay out, pin and press one join; 1 where left out (an assumption).",
    default="1",
)
SITTING = Key(
    "sitting",
    minutes(5, 1440),
    "Minutes in one sitting; 90 where left out (an assumption).",
    default="90",
)
SEWING = Table(
    "sewing",
    "The rules of sewing.",
    (BY, PAPER_ALLOWANCE, FOUNDATION_MARGIN, MACHINE_FROM, SET_IN_BY, ENDS, THREAD, NEW_THREAD, ROUTES, PRESS, LAYERS, COSTS, MACHINE_SPEED,
     HAND_SPEED, HANDLING, SITTING),
)  # fmt: skip
ENDLESS = Length.of(MOST_INCHES)
"""No seam is so long: all are sewn by hand."""
_COST = number(0, 1000, "a cost from 0 to 1000, such as `1` or `0.5`")
PARTIAL = Key(
    "partial",
    _COST,
    "The cost of a partial seam in place of a turn; 1 where left out.",
    default="1",
)
BY_MACHINE = Key(
    "set in by machine", _COST, "The cost of a turn by machine; 1 where left out.", default="1"
)
BY_HAND = Key("set in by hand", _COST, "The cost of a turn by hand; 1 where left out.", default="1")
TURN = Key(
    "turn",
    length("zero"),
    "What a turn that costs 1 is worth, as a length of seam gone back over by hand, where orders are compared with the "
    "routes of their threads. Left out, turns come first: no thread saved is worth one more.",
)
THROUGH = Key(
    "through allowance",
    length("zero"),
    "What passing the needle through an allowance to the next seam costs, as a length of seam; 1/8 in or 3 mm where left "
    "out (a stitch or two: an assumption).",
)
GOING_BACK = Key(
    "going back",
    _COST,
    "What an inch or centimetre that a hand thread goes back over sewn seam costs, beside one sewn; 1 where left out.",
    default="1",
)
LOOSE = Key(
    "loose thread",
    _COST,
    "What an inch or centimetre of thread that lies loose behind the patches costs, beside one sewn; 4 where left out, "
    "for it catches and shows (an assumption).",
    default="4",
)
CARD = Key(
    "card",
    length("zero"),
    "What a step more to read and lay out costs, as a length of seam, where orders are compared with the routes of their "
    "threads; 1/4 in or 6 mm where left out (an assumption).",
)
COSTS_TABLE = Table(
    "costs",
    "What `sew: auto` reckons for each turn, and what the routes of hand threads are reckoned by.",
    (PARTIAL, BY_MACHINE, BY_HAND, TURN, THROUGH, GOING_BACK, LOOSE, CARD),
)


def read_sewing(node: Map | None, where: Span, reading: Reading) -> Sewing:
    """The sewing rules, with the usual ones for what is left out."""
    fields = Fields(node or Map((), where), SEWING, "`sewing`", where, reading)
    units = reading.units
    papers = fields.get(BY) is Technique.PAPERS
    warn_if_wide(PAPER_ALLOWANCE, trade.PAPER_ALLOWANCE, fields, reading)
    warn_if_wide(FOUNDATION_MARGIN, trade.FOUNDATION_MARGIN, fields, reading)
    allowance = fields.usual(PAPER_ALLOWANCE, trade.PAPER_ALLOWANCE)
    if papers:
        _by_hand_alone(fields)
    foundation = fields.get(BY) is Technique.FOUNDATION
    if foundation:
        _by_machine_alone(fields)
    machine_from = fields.get(MACHINE_FROM)
    costs = Fields(fields.get(COSTS, Map((), where)), COSTS_TABLE, "`costs`", where, reading)
    usual = ENDLESS if papers else trade.SEWN_BY_MACHINE.said_in(units)
    unsaid = machine_from is None and not papers
    return Sewing(
        machine_from=usual if machine_from is None else machine_from,
        short=ShortSeams.AT_CORNERS if unsaid else ShortSeams.ANY,
        set_in_by=fields.get(SET_IN_BY, By.HAND),
        ends=fields.get(ENDS, Ends.POINTS if papers else Ends.AUTO),
        thread=fields.usual(THREAD, trade.THREAD),
        press=fields.get(PRESS, PressHabit.OPEN if papers else PressHabit.AUTO),
        span=where,
        layers=fields.get(LAYERS, 8),
        costs=_costs(costs),
        route_costs=_route_costs(costs),
        pace=_pace(fields),
        new_thread=fields.usual(NEW_THREAD, trade.NEW_THREAD),
        routes=fields.get(ROUTES, HandRoutes.WHOLE_RUNS),
        papers=allowance if papers else None,
        foundation=foundation,
        foundation_margin=fields.usual(FOUNDATION_MARGIN, trade.FOUNDATION_MARGIN),
    )


def _by_hand_alone(fields: Fields) -> None:
    """Faults for rules that would have seams over papers sewn by machine."""
    for key, machine in ((MACHINE_FROM, True), (SET_IN_BY, fields.get(SET_IN_BY) is By.MACHINE)):
        if fields.has(key) and machine:
            message = f"`{key.name}` says what is sewn by machine, and `by: papers` that all is sewn by hand"
            fields.reading.faults.add(
                "conflicting-keys", message, fields.key_span(key), "keep one of the two"
            )


def _by_machine_alone(fields: Fields) -> None:
    """A fault for a rule that would have seams on printed paper sewn by hand."""
    if fields.has(MACHINE_FROM):
        message = "`machine from` says what is sewn by hand, and `by: foundation` that all is sewn by machine"
        where = fields.key_span(MACHINE_FROM)
        fields.reading.faults.add("conflicting-keys", message, where, "keep one of the two")


def _costs(fields: Fields) -> TurnCosts:
    """The costs written, each 1 where left out."""
    machine, hand, partial = (float(fields.get(key, 1)) for key in (BY_MACHINE, BY_HAND, PARTIAL))
    return TurnCosts(machine=machine, hand=hand, partial=partial)


def _route_costs(fields: Fields) -> RouteCosts:
    """What routes are reckoned by, with the usual costs for what is left out."""
    return RouteCosts(
        turn=fields.get(TURN),
        through=fields.usual(THROUGH, trade.THROUGH_ALLOWANCE),
        card=fields.usual(CARD, trade.CARD),
        back=float(fields.get(GOING_BACK, 1)),
        loose=float(fields.get(LOOSE, 4)),
    )


def _pace(fields: Fields) -> Pace:
    """The pace written, as we assume it where left out."""
    usual = Pace()
    return Pace(
        machine=fields.usual(MACHINE_SPEED, trade.BY_MACHINE_A_MINUTE),
        hand=fields.usual(HAND_SPEED, trade.BY_HAND_A_MINUTE),
        handling=fields.get(HANDLING, usual.handling),
        sitting=fields.get(SITTING, usual.sitting),
    )
