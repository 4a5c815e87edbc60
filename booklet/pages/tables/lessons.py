"""Floor 11: the class: its sessions with their times, and how long a block is reckoned to take."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import accumulate, pairwise

from booklet.kit.records import Record
from booklet.kit.words import Text, phrase
from booklet.pages.tables.methods import about
from booklet.pattern import Lesson
from booklet.plan import SizePlan

DAY = 24 * 60  # minutes


class SessionRow(Record, kw_only=True):
    """One session: from when to when, and what is done."""

    start: Text
    end: Text
    title: str
    do: tuple[str, ...]
    is_break: bool
    homework: tuple[str, ...]


def session_rows(lesson: Lesson) -> tuple[SessionRow, ...]:
    """The sessions one after the other: 60 and 45 minutes are 0–60 and 60–105, or from 9:30 on by the clock
    9:30–10:30 and 10:30–11:15; where the second has a start of its own, 18:00, 18:00–18:45."""
    ends = tuple(accumulate((each.minutes for each in lesson.sessions), initial=0))
    return tuple(
        SessionRow(
            start=by_the_clock(begin, lesson, number),
            end=by_the_clock(end, lesson, number),
            title=one.title,
            do=one.do,
            is_break=one.is_break,
            homework=one.homework,
        )
        for number, (one, (begin, end)) in enumerate(
            zip(lesson.sessions, pairwise(ends), strict=True)
        )
    )


def by_the_clock(minute: int, lesson: Lesson, session: int) -> Text:
    """A minute of the class, all its sessions counted, which lies in one of them (0 is the first): by the clock where its
    beginning is said."""
    if lesson.start is None:
        return str(minute)
    before = sum(each.minutes for each in lesson.sessions[:session])
    hours, minutes = divmod((lesson.begins[session] + minute - before) % DAY, 60)
    return phrase("{hours}:{minutes}", context="clock", hours=hours, minutes=f"{minutes:02d}")


def class_time(lesson: Lesson) -> Text:
    """The sessions together, without breaks: "3 h", "45 min", "2 h 15 min"."""
    return _lasting(session.minutes for session in lesson.sessions if not session.is_break)


def break_time(lesson: Lesson) -> Text | None:
    """The breaks together; None where there are none."""
    breaks = [session.minutes for session in lesson.sessions if session.is_break]
    return _lasting(breaks) if breaks else None


def _lasting(stretches: Iterable[int]) -> Text:
    """How long stretches of so many minutes are together."""
    hours, minutes = divmod(sum(stretches), 60)
    if not hours:
        return phrase("{minutes} min", minutes=minutes)
    if not minutes:
        return phrase("{hours} h", hours=hours)
    return phrase("{hours} h {minutes} min", hours=hours, minutes=minutes)


def block_minutes(plan: SizePlan) -> str:
    """About how many minutes a block takes to sew, up to the next five: all sittings over all blocks;
    nothing where blocks of several kinds are sewn."""
    counts = [block.count for block in plan.blocks if block.count and block.is_worked]
    if len(counts) != 1 or not plan.sittings:
        return ""
    whole = sum(s.minutes * (s.last - s.first + 1) for s in plan.sittings)
    return about(whole / counts[0])
