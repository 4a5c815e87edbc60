"""Floor 2: `class` of `booklet`: students, what each makes, homework, and sessions with their times."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.kit.bounds import MOST_MADE, MOST_STEPS, MOST_STUDENTS
from booklet.kit.diagnostic import Span
from booklet.pattern import Lesson, Makes, Session, Until
from booklet.source.tree.node import Map, Node, Text, shortened
from booklet.source.values.fields import Fields, Key, Table, open_fields
from booklet.source.values.groups import groups, one_or_list
from booklet.source.values.kinds import Kind, Reading, clock, name_of, wrong_kind, yes_no
from booklet.source.values.quantities import count
from booklet.source.values.wordings import wording

ONE_BLOCK = "one block"
STUDENTS_TO_A_SPARE = 10  # common practice: a spare kit for every ten students begun
_TASKS = one_or_list(wording("a task", longest=300), "a task, or a list of tasks")
_MAKES_WORDS = (
    "`one block`, the name of a size, or blocks with how many of each, such as `{window: 2}`"
)
_HOW_MANY = count(1, MOST_MADE, "a number of blocks")


def _makes(node: Node, what: str, reading: Reading) -> Makes | None:
    """What each student makes, with unknown blocks and sizes noted."""
    if isinstance(node, Map) and node.entries:
        return _some_blocks(node, what, reading)
    if not isinstance(node, Text) or node.is_empty:
        wrong_kind(node, what, _MAKES_WORDS, reading)
        return None
    name = " ".join(node.value.split())
    if name == ONE_BLOCK:
        return Makes(node.span)
    if name in reading.names.get("block", ()) and name not in reading.names.get("size", ()):
        message = f"{what} is the block `{name}` without saying how many"
        reading.faults.add("wrong-kind", message, node.span, f"write `{{{name}: 1}}`")
        return None
    size = name_of("size").read(node, what, reading)
    return None if size is None else Makes(node.span, size=size)


def _some_blocks(node: Map, what: str, reading: Reading) -> Makes | None:
    """So many of some blocks; None if any entry is faulty."""
    found: list[tuple[str, int]] = []
    for key, value in node.entries:
        block = name_of("block").read(key, what, reading)
        many = _HOW_MANY.read(value, f"`{key.value}` of {what}", reading)
        if block is not None and many is not None:
            found.append((block, many))
    return Makes(node.span, tuple(found)) if len(found) == len(node.entries) else None


_UNTIL_WORDS = (
    "the number of a step, the name of a block, or both, such as `4`, `window` or `window 4`"
)
_STEP = count(1, MOST_STEPS, "the number of a step")


def _until(node: Node, what: str, reading: Reading) -> Until | None:
    """How far is sewn, with an unknown block noted."""
    if not isinstance(node, Text) or node.is_empty:
        wrong_kind(node, what, _UNTIL_WORDS, reading)
        return None
    name, known = " ".join(node.value.split()), reading.names.get("block", ())
    head, _, tail = name.rpartition(" ")
    if name in known or not tail.isascii() or not tail.isdigit():
        block = name_of("block").read(node, what, reading)
        return None if block is None else Until(block, None, node.span)
    step = _STEP.read(Text(tail, node.span), what, reading)
    block = name_of("block").read(Text(head, node.span), what, reading) if head else None
    return None if step is None or (head and block is None) else Until(block, step, node.span)


HOMEWORK = Key("homework", _TASKS, "What is done before class.")
SESSIONS = Key(
    "sessions",
    groups("session", "a list of sessions such as `[{title: The wings, minutes: 60}]`", 40),
    "The sessions in order; their times are counted from the beginning of the class, or from its `start`, and anew from a "
    "session with a `start` of its own.",
)
START = Key("start", clock(), "When the class begins: the sessions then have clock times.")
STUDENTS = Key(
    "students",
    count(1, MOST_STUDENTS, "a number of students"),
    "How many students there are; each gets a kit, and the pages `kits`, `kit-list` and `kit-labels` are for these.",
)
SPARES = Key(
    "spare kits",
    count(0, MOST_STUDENTS, "a number of spare kits"),
    "How many kits more are made; left out, one for every ten students, begun ones too.",
)
MAKES: Key[Makes] = Key(
    "makes",
    Kind(
        _MAKES_WORDS,
        _makes,
        {
            "anyOf": [
                {"type": "string"},
                {
                    "type": "object",
                    "minProperties": 1,
                    "additionalProperties": {"type": ["integer", "string"]},
                },
            ]
        },
    ),
    "What each student makes: `one block`, the name of a size, or blocks with how many of each. Booklets with a page "
    "of the class are for that; left out, for the whole size.",
)
CLASS = Table(
    "class",
    "A class that sews from the pattern.",
    (STUDENTS, SPARES, MAKES, HOMEWORK, START, SESSIONS),
)
TITLE = Key("title", wording("a title", longest=120), "What the session is about.")
MINUTES = Key("minutes", count(1, 600, "how many minutes it takes"), "How many minutes it takes.")
DO = Key("do", _TASKS, "What is done in it, in order.")
BREAK = Key("break", yes_no(), "Whether it is a break, which is not counted as class.")
UNTIL: Key[Until] = Key(
    "until",
    Kind(_UNTIL_WORDS, _until, {"type": ["string", "integer"]}),
    "How far is sewn in it, so that the page `day` leaves the rest for later: to the end of a step, of a block, or of a step "
    "of a block. Left out, as far as its minutes reach.",
)
BEGINS = Key(
    "start",
    clock(),
    "When this session begins, where the class meets again for it, on another day say: the sessions after it follow on.",
)
BETWEEN = Key("homework", _TASKS, "What is done at home before this session.")
SESSION = Table(
    "session", "A stretch of a class.", (TITLE, MINUTES, DO, BREAK, UNTIL, BEGINS, BETWEEN)
)
DAY = 24 * 60  # minutes


def read_lesson(node: Map | None, reading: Reading) -> Lesson:
    """The class; an empty one where nothing is written."""
    if node is None:
        return Lesson()
    fields = Fields(node, CLASS, "`class` of `booklet`", node.span, reading)
    nodes = fields.get(SESSIONS) or ()
    opened = [
        open_fields(each, SESSION, f"session {number} of `class`", each.span, reading)
        for number, each in enumerate(nodes, 1)
    ]
    read = [_session(each) for each in opened if each is not None]
    students, spares = fields.get(STUDENTS), fields.get(SPARES)
    if fields.has(SPARES) and not fields.has(STUDENTS):
        fields.missing(STUDENTS, "and without students there are no kits")
    sessions = tuple(each for each in read if each is not None)
    start = fields.get(START)
    if opened and opened[0] is not None and opened[0].has(BEGINS):
        if fields.has(START):
            message = "the class and its first session have a `start` each"
            hint = "keep one of the two"
            reading.faults.add("conflicting-keys", message, opened[0].span(BEGINS), hint)
        start = opened[0].get(BEGINS)
    elif not fields.has(START) and any(each.start is not None for each in sessions):
        fields.missing(START, "and a later session begins by the clock")
    lesson = Lesson(
        homework=fields.get(HOMEWORK) or (),
        sessions=sessions,
        start=start,
        students=students,
        spares=0 if students is None else usual_spares(students) if spares is None else spares,
        makes=fields.get(MAKES),
    )
    if len(sessions) == len(opened):
        _past_midnight(lesson, [each.where for each in opened if each is not None], reading)
    return lesson


def _past_midnight(lesson: Lesson, places: Sequence[Span], reading: Reading) -> None:
    """A doubt at the first session that goes on after midnight: most likely it is on another day."""
    if lesson.start is None:
        return
    for session, begin, place in zip(lesson.sessions, lesson.begins, places, strict=False):
        if begin + session.minutes > DAY:
            hours, minutes = divmod((begin + session.minutes) % DAY, 60)
            message = f"session `{shortened(session.title)}` ends at {hours}:{minutes:02d} of the next day"
            hint = 'write when it begins, as in `start: "9:30"`, if it is on another day'
            reading.doubt("past-midnight", message, place, hint)
            return


def usual_spares(students: int) -> int:
    """One spare kit for every ten students, begun ones too: 1 for 8, 2 for 12 (common practice)."""
    return -(-students // STUDENTS_TO_A_SPARE)


def _session(fields: Fields) -> Session | None:
    """One session; it needs its title and its minutes."""
    title = fields.need(TITLE, "the page needs a word for it")
    minutes = fields.need(MINUTES, "the times of the class are worked out of it")
    if title is None or minutes is None:
        return None
    return Session(
        title=title,
        minutes=minutes,
        do=fields.get(DO) or (),
        is_break=fields.get(BREAK) or False,
        until=fields.get(UNTIL),
        start=fields.get(BEGINS),
        homework=fields.get(BETWEEN) or (),
    )
