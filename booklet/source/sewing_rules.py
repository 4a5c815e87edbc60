"""Floor 2: `sewing`: the rules that decide what a step does not say."""

from __future__ import annotations

from booklet.diagnostic import Span
from booklet.pattern import By, Ends, PressHabit, Sewing
from booklet.source.fields import Fields, Key, Table
from booklet.source.kinds import Reading, one_of
from booklet.source.node import Map
from booklet.source.quantities import count, length

MACHINE_FROM = Key(
    "machine from",
    length("zero"),
    "Seams this long or longer are sewn by machine, shorter ones by hand.",
)
SET_IN_BY = Key("set in by", one_of(By), "How pieces with corners to set in are sewn.")
ENDS = Key(
    "ends",
    one_of(Ends),
    "Where seams end: at matching points, at raw edges, or as the tool decides.",
)
THREAD = Key("thread", length(), "How long the hand-sewing thread is when it is threaded.")
PRESS = Key("press", one_of(PressHabit), "How seams are pressed where a step says nothing.")
LAYERS = Key(
    "layers",
    count(2, 99, "how many layers of cloth may lie at a point"),
    "Points at which more layers of cloth lie are marked, with advice; 8 where left out.",
)
SEWING = Table(
    "sewing", "The rules of sewing.", (MACHINE_FROM, SET_IN_BY, ENDS, THREAD, PRESS, LAYERS)
)


def read_sewing(node: Map | None, where: Span, reading: Reading) -> Sewing:
    """The sewing rules, with the usual ones for what is left out."""
    fields = Fields(node or Map((), where), SEWING, "`sewing`", where, reading)
    machine_from, thread = fields.get(MACHINE_FROM), fields.get(THREAD)
    return Sewing(
        machine_from=reading.of_units("1 in", "2.5 cm") if machine_from is None else machine_from,
        set_in_by=fields.get(SET_IN_BY) or By.HAND,
        ends=fields.get(ENDS) or Ends.AUTO,
        thread=thread or reading.of_units("18 in", "45 cm"),
        press=fields.get(PRESS) or PressHabit.AUTO,
        span=where,
        layers=fields.get(LAYERS) or 8,
    )
