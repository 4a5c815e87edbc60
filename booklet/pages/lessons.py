"""Floor 11: the class: its sessions with their times, and how long a block is reckoned to take."""

from __future__ import annotations

from dataclasses import dataclass

from booklet.pages.ways import about
from booklet.pattern import Lesson
from booklet.plan import SizePlan
from booklet.words import Text, phrase


@dataclass(frozen=True, slots=True)
class SessionRow:
    """One session: from which minute of the class to which, and what is done."""

    start: int
    end: int
    title: str
    do: tuple[str, ...]


def session_rows(lesson: Lesson) -> tuple[SessionRow, ...]:
    """The sessions one after the other, without breaks: 60 and 45 minutes are 0 – 60 and 60 – 105."""
    rows: list[SessionRow] = []
    for session in lesson.sessions:
        start = rows[-1].end if rows else 0
        rows.append(SessionRow(start, start + session.minutes, session.title, session.do))
    return tuple(rows)


def class_time(lesson: Lesson) -> Text:
    """The sessions together: "3 h", "45 min", "2 h 15 min"."""
    hours, minutes = divmod(sum(session.minutes for session in lesson.sessions), 60)
    if not hours:
        return phrase("{minutes} min", minutes=minutes)
    if not minutes:
        return phrase("{hours} h", hours=hours)
    return phrase("{hours} h {minutes} min", hours=hours, minutes=minutes)


def block_minutes(plan: SizePlan) -> str:
    """About how many minutes a block takes to sew, up to the next five: all sittings over all blocks;
    nothing where blocks of several kinds are sewn."""
    counts = [block.count for block in plan.blocks if block.count and block.is_sewn]
    if len(counts) != 1 or not plan.sittings:
        return ""
    whole = sum(s.minutes * (s.last - s.first + 1) for s in plan.sittings)
    return about(whole / counts[0])
