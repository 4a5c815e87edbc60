"""Floor 11: the letter that goes out before a class, as Markdown and as HTML to paste: when, what is made, what lies in the
kit, what to bring, what to do before.

Both are written from the same lines. It is plain text of ours and the author's: whatever could be markup is escaped.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from markupsafe import Markup

from booklet.kit.records import Record
from booklet.kit.words import Text, Value, phrase
from booklet.pages.naming import chosen_sizes, name_parts
from booklet.pages.tables.kits import kit_view, makes_words
from booklet.pages.tables.lessons import (
    SessionRow,
    break_time,
    by_the_clock,
    class_time,
    session_rows,
)
from booklet.pages.tables.view import tools
from booklet.pages.texts.words import Words
from booklet.pattern import Edition, Lesson
from booklet.plan import Plan, SizePlan
from booklet.source.values.names import file_part


class LetterPart(Record):
    """A stretch of the letter: a heading, if it has one, sentences, and the lines of a list."""

    heading: str
    sentences: tuple[str, ...]
    lines: tuple[str, ...] = ()


def letters_of(
    plan: Plan, edition: Edition, sizes: tuple[str, ...] = ()
) -> Iterator[tuple[str, bytes]]:
    """Names and bytes of the letters of an edition with the page of the class, for each of its sizes; none of the
    teacher's own copy."""
    lesson = plan.pattern.booklet.lesson
    if edition.teacher or lesson == Lesson() or not any(p.name == "class" for p in edition.pages):
        return
    shown = plan.shown_by(edition)
    for size in chosen_sizes(plan, edition, sizes):
        parts = letter(shown, size)
        stem = "-".join((*name_parts(plan.pattern, edition), file_part(size.size.id)))
        yield f"{stem}-class-letter.md", markdown_of(parts).encode()
        yield f"{stem}-class-letter.html", html_of(parts, plan.pattern.language).encode()


def letter(plan: Plan, size: SizePlan) -> tuple[LetterPart, ...]:
    """The letter for those who make a size, part by part."""
    words = Words.of(plan.pattern.tongue)
    lesson, pattern = plan.pattern.booklet.lesson, plan.pattern
    opening = LetterPart(pattern.title, tuple(_said(words, _opening(lesson, size))))
    needed = LetterPart(
        words.text(phrase("Please bring")),
        (),
        tuple(
            Markup(t).striptags()
            for t in tools((size,), words, pattern.booklet.paper, is_cut=plan.kits is not None)
        ),
    )
    homework = LetterPart(words.text(phrase("Before class")), (), lesson.homework)
    sessions = tuple(line for row in session_rows(lesson) for line in _lines(row, words))
    if lesson.start is None:
        head = phrase("In class, in minutes from the beginning")
    else:
        head = phrase("In class")
    parts = (
        opening,
        _cloth(plan, size, words),
        needed,
        homework,
        LetterPart(words.text(head), (), sessions),
    )
    return tuple(part for part in parts if part.sentences or part.lines)


def _lines(row: SessionRow, words: Words) -> Iterator[str]:
    """A session with its times, after what is done at home before it."""
    for task in row.homework:
        yield words.text(phrase("At home: {task}", task=task))
    yield f"{words.text(row.start)}–{words.text(row.end)}  {row.title}"


def _said(words: Words, said: Iterator[Value]) -> Iterator[str]:
    return map(words.text, said)


def _opening(lesson: Lesson, size: SizePlan) -> Iterator[Text]:
    """What is made, and when."""
    yield phrase("In our class you make {what}.", what=makes_words(size))
    if not lesson.sessions:
        return
    whole = sum(session.minutes for session in lesson.sessions)
    if lesson.meetings > 1:
        yield phrase(
            "We meet {n} times, first at {start}.",
            n=lesson.meetings,
            start=by_the_clock(0, lesson, 0),
        )
    elif lesson.start is not None:
        yield phrase(
            "We begin at {start} and end at {end}.",
            start=by_the_clock(0, lesson, 0),
            end=by_the_clock(whole, lesson, len(lesson.sessions) - 1),
        )  # fmt: skip
    breaks = break_time(lesson)
    if breaks:
        yield phrase(
            "Together {time} of class, and {breaks} of breaks.",
            time=class_time(lesson),
            breaks=breaks,
        )
    else:
        yield phrase("Together {time} of class, without breaks.", time=class_time(lesson))


def _cloth(plan: Plan, size: SizePlan, words: Words) -> LetterPart:
    """What lies in the kit, or the cloth to bring."""
    kit = kit_view(plan, size.size.id, words)
    if kit is not None:
        lines = tuple(
            f"{row.pieces} × {words.text(row.title)}, {row.fabric.name}" for row in kit.rows
        )
        if kit.batting:
            lines += (f"1 × {words.text(phrase('Batting'))}, {words.text(kit.batting)}",)
        told = phrase("You get a kit with all cloth, cut: {n} pieces.", n=kit.pieces)
        return LetterPart(words.text(phrase("In your kit")), (words.text(told),), lines)
    lines = tuple(
        words.text(
            phrase(
                "{cloth}: {amount} ({other})",
                cloth=line.fabric.name,
                amount=line.buy,
                other=line.buy_other,
            )
        )
        for line in size.materials
    )
    return LetterPart(words.text(phrase("Cloth to bring")), (), lines)


def markdown_of(parts: tuple[LetterPart, ...]) -> str:
    """The letter as Markdown; signs that mean something there are escaped."""
    found = []
    for number, part in enumerate(parts):
        found.append(f"{'#' if number == 0 else '##'} {_plain(part.heading)}")
        if part.sentences:
            found.append(_plain(" ".join(part.sentences)))
        if part.lines:
            found.append("\n".join(f"- {_plain(line)}" for line in part.lines))
    return "\n\n".join(found) + "\n"


def _plain(text: str) -> str:
    """A line of text that Markdown shows as it is."""
    line = re.sub(r"([\\`*_{}\[\]<>#|~&!])", r"\\\1", " ".join(text.split()))
    return re.sub(r"^(\d+)([.)])|^([+-])", r"\1\\\2\3", line)


def html_of(parts: tuple[LetterPart, ...], language: str) -> str:
    """The letter as plain HTML without a style: it takes that of the mail or page into which it is pasted."""
    found = [Markup('<meta charset="utf-8">\n<div lang="{}">').format(language)]
    for number, part in enumerate(parts):
        level = 1 if number == 0 else 2
        found.append(Markup("<h{0}>{1}</h{0}>").format(level, part.heading))
        if part.sentences:
            found.append(Markup("<p>{}</p>").format(" ".join(part.sentences)))
        if part.lines:
            items = Markup("\n").join(Markup("<li>{}</li>").format(line) for line in part.lines)
            found.append(Markup("<ul>\n{}\n</ul>").format(items))
    return str(Markup("\n").join([*found, Markup("</div>")])) + "\n"
