"""The class: homework, and sessions with their times."""

import pages_sample as sample
import pytest
from source_helpers import GOOD, faults, pattern

from booklet.kit.records import replace
from booklet.pages.composing import compose
from booklet.pages.tables.lessons import break_time, class_time, session_rows
from booklet.pattern import Lesson, Paper, Session

CLASS = """\
booklet:
  class:
    homework: Cut one block.
    sessions:
      - {title: Wings, minutes: 60, do: [Step 1., Step 2.]}
      - {title: Rows, minutes: 45}
"""
LESSON = Lesson(
    homework=("Cut one block.",),
    sessions=(
        Session(title="Wings", minutes=60, do=("Step 1.", "Step 2.")),
        Session(title="Rows", minutes=45, do=()),
    ),
)


def test_a_class_is_read():
    assert pattern(GOOD + CLASS).booklet.lesson == LESSON
    assert pattern(GOOD).booklet.lesson == Lesson()


def test_sessions_follow_each_other_from_the_beginning_of_the_class():
    assert [(row.start, row.end) for row in session_rows(LESSON)] == [
        ("0", "60"),
        ("60", "105"),
    ]  # 60 + 45


def test_a_class_with_a_start_and_a_break_goes_by_the_clock():
    text = (
        'booklet: {class: {start: "11:30", sessions: [{title: Wings, minutes: 60, do: Step 1.},'
        " {title: Soup, minutes: 45, break: yes}, {title: Rows, minutes: 90}]}}\n"
    )
    lesson = pattern(GOOD + text).booklet.lesson
    rows = [(str(row.start), str(row.end), row.is_break) for row in session_rows(lesson)]
    assert rows == [("11:30", "12:30", False), ("12:30", "13:15", True), ("13:15", "14:45", False)]
    assert str(class_time(lesson)).replace("\u00a0", " ") == "2 h 30 min"  # 60 + 90
    assert str(break_time(lesson)).replace("\u00a0", " ") == "45 min"
    assert break_time(LESSON) is None


@pytest.mark.parametrize("start", ["25:00", "9.30", "9:5", "noon", "[9]"])
def test_what_is_no_time_of_day_is_told(start):
    line = GOOD.count("\n") + 1
    assert faults(GOOD + f"booklet: {{class: {{start: {start}}}}}\n") == [("wrong-kind", line, 26)]


@pytest.mark.parametrize(
    ("minutes", "said"), [((60, 45), "1 h 45 min"), ((60, 60), "2 h"), ((45,), "45 min")]
)
def test_the_time_of_a_class(minutes, said):
    lesson = Lesson(sessions=tuple(Session(title="x", minutes=each, do=()) for each in minutes))
    assert str(class_time(lesson)).replace("\u00a0", " ") == said


def test_faults_of_a_class_stand_at_their_places():
    text = "booklet:\n  class:\n    sessions: [{title: Wings}, {title: B, minutes: 0}, x]\n"
    line = GOOD.count("\n") + 3
    assert faults(GOOD + text) == [
        ("missing-key", line, 16), ("bad-number", line, 52), ("wrong-kind", line, 56),
    ]  # fmt: skip


def test_the_page_of_a_class_is_there_only_where_there_is_something_to_say():
    plan = sample.plan()
    edition = sample.edition("handout", ("class", "supplies"))
    assert 'id="class"' not in compose(plan, edition, sample.figures, Paper.A4, ("lap",)).html
    taught = replace(plan.pattern, booklet=replace(plan.pattern.booklet, lesson=LESSON))
    plan = replace(
        plan, pattern=taught, sizes=tuple(replace(s, pattern=taught) for s in plan.sizes)
    )
    html = compose(plan, edition, sample.figures, Paper.A4, ("lap",)).html
    assert 'id="class"' in html
    assert "60–105" in html
    assert "Cut one block." in html
