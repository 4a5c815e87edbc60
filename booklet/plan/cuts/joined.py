"""Floor 9: parts longer than the cloth is wide, in words: which strips are joined to which length."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from booklet.cutting.cutting_plan import CuttingPlan, JoinedPart, StripJoin
from booklet.kit.measure import ZERO, Length, UnitSystem
from booklet.kit.records import Record
from booklet.kit.words import Digits, Text, listing, phrase, plural_phrase
from booklet.quilt.sums import TIMES, adds, result, say


def join_sum(join: StripJoin, part: JoinedPart, units: UnitSystem) -> Text:
    """How a part comes to its length: "40 + 33 − 1/2 for the join = 72 1/2 in"."""
    count, loss = len(part.stretches) - 1, say(join.loss, units)
    taken = loss if count == 1 else f"{count} {TIMES} {loss}"
    return plural_phrase(
        "{stretches} − {loss} for the join = {length}",
        "{stretches} − {loss} for the joins = {length}",
        count,
        stretches=Digits(adds(part.stretches, units)),
        loss=Digits(taken),
        length=result(part.length, units),
    )


class JoinedStrips(Record):
    """How some parts are joined from strips: what to do, and a sum for each length to make."""

    begin: Text
    sums: tuple[Text, ...]

    @property
    def sentence(self) -> Text:
        """Both in one sentence."""
        sums = listing(self.sums, "semicolons")
        return phrase("{begin}: {sums}.", begin=self.begin, sums=sums)


def joined_words(
    cutting: CuttingPlan, names: Sequence[tuple[str, Text]], units: UnitSystem
) -> JoinedStrips | None:
    """How some parts (name, what for) of one width are joined; None where all are cut in one."""
    found = [(title, made) for name, title in names if (made := cutting.joined(name)) is not None]
    if not found:
        return None
    join = found[0][1][0]
    begin = plural_phrase(
        "Join {n} strip {width} wide, raw edge on raw edge, with straight seams, and press the seams open",
        "Join {n} strips {width} wide, raw edge on raw edge, with straight seams, and press the seams open",
        join.strips,
        width=result(join.width, units),
    )
    told = tuple(
        phrase("{n} for {part}: {sum}", n=count, part=title, sum=join_sum(strips, part, units))
        for title, (strips, parts) in found
        for part, count in Counter(parts).items()
    )
    return JoinedStrips(begin, told)


def joins_at(part: JoinedPart, loss: Length) -> tuple[Length, ...]:
    """Where the seams of a joined part lie, from its beginning."""
    found, end = list[Length](), ZERO
    for stretch in part.stretches[:-1]:
        end = end + stretch - (loss if found else ZERO)
        found.append(end - loss / 2)
    return tuple(found)
