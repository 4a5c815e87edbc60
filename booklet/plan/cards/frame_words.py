"""Floor 9: what is said of the frames of a step: each way of sewing once, then how often it comes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from booklet.kit.words import Phrase, Text, phrase, plural_phrase
from booklet.pattern import By
from booklet.plan.cards.frames import Stage, StageFrame, clockwise, kinds_of, repeats
from booklet.quilt.assembling.joining import TOP
from booklet.sewing.assembly import Assembly

Way = tuple[By, bool, Text]  # by what, whether on one thread, and how: "sew from dot to dot."


def told_in_order(
    ways: Sequence[Way], stages: Sequence[Stage], assembly: Assembly
) -> Iterator[Text]:
    """The sentences of a step told run by run, those that the pictures show together said together."""
    said: set[Way] = set()
    again = 0  # frames in a row that are sewn in ways told before
    seen = list(zip(ways, kinds_of(stages, assembly), strict=True))
    alike = ways if assembly.tiling.block == TOP else seen
    for at, span, more in repeats(alike[:-1]):
        for number in range(at, at + span):
            if ways[number] in said:
                again += 1
                continue
            yield from _again(again)
            again = 0
            yield _one(ways[number], "first" if number == 0 else "then", said)
        if more:
            yield from _again(again)
            again = 0
            row = stages[at : at + span * (more + 1)]
            yield _more(more, span, clockwise(row, assembly))
    yield from _again(again)
    yield _one(ways[-1], "last", said)


def told_in_a_row(ways: Sequence[Way]) -> Iterator[Text]:
    """The sentences of a step whose runs stand in one picture: those alike that follow each other said together."""
    groups = [list(group) for _, group in groupby(ways)]
    for number, group in enumerate(groups):
        place = "first" if number == 0 else "last" if number == len(groups) - 1 else "then"
        by, thread, what = group[0]
        said = how(by, place, thread)
        if len(group) == 1:
            yield phrase("{how}: {what}", how=said, what=what)
        else:
            yield phrase("{how}, {n} seams alike: {what}", how=said, n=len(group), what=what)


def _again(count: int) -> Iterator[Text]:
    """That the next frames are sewn in ways told before."""
    if count:
        yield plural_phrase(
            "Then, as drawn next, in a way you have sewn before.",
            "Then the next {n}, as drawn, in ways you have sewn before.",
            count,
        )


def _one(way: Way, place: str, said: set[Way]) -> Text:
    """How one run is sewn; of a way that was told before only that it comes again."""
    if way in said:
        return phrase("Last, once more in the same way, as drawn.")
    said.add(way)
    by, thread, what = way
    return phrase("{how}: {what}", how=how(by, place, thread), what=what)


def how(by: By, place: str, thread: bool) -> Phrase:
    """By machine or by hand, which of several runs, and whether on one thread."""
    if thread:
        return {
            "": phrase("By hand, on one thread"),
            "first": phrase("First, by hand, on one thread"),
            "then": phrase("Then, by hand, on one thread"),
            "last": phrase("Last, by hand, on one thread"),
        }[place]
    if by is By.HAND:
        return {
            "": phrase("By hand"),
            "first": phrase("First, by hand"),
            "then": phrase("Then, by hand"),
            "last": phrase("Last, by hand"),
        }[place]
    return {
        "": phrase("By machine"),
        "first": phrase("First, by machine"),
        "then": phrase("Then, by machine"),
        "last": phrase("Last, by machine"),
    }[place]


def _more(count: int, span: int, round_: bool | None) -> Phrase:
    """How often the same comes again, and which way round."""
    if span > 1:
        return plural_phrase(
            "Then these {span} in turn once more.",
            "Then these {span} in turn, {n} times more.",
            count,
            span=span,
        )
    if round_ is None:
        return plural_phrase("Then the same once more.", "Then the same {n} times more.", count)
    if round_:
        return plural_phrase(
            "Then the same, clockwise, once more.",
            "Then the same, clockwise, {n} times more.",
            count,
        )
    return plural_phrase(
        "Then the same, counterclockwise, once more.",
        "Then the same, counterclockwise, {n} times more.",
        count,
    )


def going_round(stages: Sequence[Stage], assembly: Assembly) -> Iterator[Phrase]:
    """Which way round the runs of a step follow each other, where they are all told at once."""
    way = clockwise(stages, assembly) if len(stages) > 2 else None
    if way is not None:
        yield (
            phrase("Go round clockwise, as drawn.")
            if way
            else phrase("Go round counterclockwise, as drawn.")
        )


def frame_heads(frame: StageFrame, first: bool, last: bool) -> tuple[Phrase, ...]:
    """What stands above each picture of a frame: "First", "Then, 4 times, clockwise"."""
    heads = []
    for number in range(len(frame.stages)):
        if last:
            place = phrase("Last", context="frame")
        elif first and number == 0:
            place = phrase("First", context="frame")
        else:
            place = phrase("Then", context="frame")
        heads.append(_head(place, frame))
    return tuple(heads)


def _head(place: Phrase, frame: StageFrame) -> Phrase:
    """A heading with how often and which way round."""
    n = frame.more + 1
    if n == 1:
        return place
    if len(frame.stages) > 1:
        return phrase("{place}, {n} times in turn", place=place, n=n)
    if frame.clockwise is None:
        return phrase("{place}, {n} times", place=place, n=n)
    if frame.clockwise:
        return phrase("{place}, {n} times, clockwise", place=place, n=n)
    return phrase("{place}, {n} times, counterclockwise", place=place, n=n)
