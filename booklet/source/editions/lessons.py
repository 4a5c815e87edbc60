"""Floor 2: `class` of `booklet`: homework, and sessions with their times."""

from __future__ import annotations

from booklet.pattern import Lesson, Session
from booklet.source.tree.node import Map, Node
from booklet.source.values.fields import Fields, Key, Table, open_fields
from booklet.source.values.groups import groups, one_or_list
from booklet.source.values.kinds import Reading, clock, yes_no
from booklet.source.values.quantities import count
from booklet.source.values.wordings import wording

_TASKS = one_or_list(wording("a task", longest=300), "a task, or a list of tasks")
HOMEWORK = Key("homework", _TASKS, "What is done before class.")
SESSIONS = Key(
    "sessions",
    groups("session", "a list of sessions such as `[{title: The wings, minutes: 60}]`", 40),
    "The sessions in order; their times are counted from the beginning of the class, or from its `start`.",
)
START = Key("start", clock(), "When the class begins: the sessions then have clock times.")
CLASS = Table("class", "A class that sews from the pattern.", (HOMEWORK, START, SESSIONS))
TITLE = Key("title", wording("a title", longest=120), "What the session is about.")
MINUTES = Key("minutes", count(1, 600, "how many minutes it takes"), "How many minutes it takes.")
DO = Key("do", _TASKS, "What is done in it, in order.")
BREAK = Key("break", yes_no(), "Whether it is a break, which is not counted as class.")
SESSION = Table("session", "A stretch of a class.", (TITLE, MINUTES, DO, BREAK))


def read_lesson(node: Map | None, reading: Reading) -> Lesson:
    """The class; an empty one where nothing is written."""
    if node is None:
        return Lesson()
    fields = Fields(node, CLASS, "`class` of `booklet`", node.span, reading)
    nodes = fields.get(SESSIONS) or ()
    read = [_session(number, each, reading) for number, each in enumerate(nodes, 1)]
    sessions = tuple(each for each in read if each is not None)
    return Lesson(fields.get(HOMEWORK) or (), sessions, fields.get(START))


def _session(number: int, node: Node, reading: Reading) -> Session | None:
    """One session; it needs its title and its minutes."""
    fields = open_fields(node, SESSION, f"session {number} of `class`", node.span, reading)
    if fields is None:
        return None
    title = fields.need(TITLE, "the page needs a word for it")
    minutes = fields.need(MINUTES, "the times of the class are worked out of it")
    if title is None or minutes is None:
        return None
    return Session(title, minutes, fields.get(DO) or (), fields.get(BREAK) or False)
