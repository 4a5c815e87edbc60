"""Floor 11, the teacher's notes: what stands between `::: teacher` and `:::` in a text.

A student's copy never holds a byte of them: they are taken out before anything else reads the text. So
that nothing slips through, a line that begins with `:::` and is neither of the two is a fault.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from booklet.diagnostic import Diagnostic, Span

OPEN, CLOSE, SIGN = "::: teacher", ":::", ":::"


def stretches(text: str) -> tuple[tuple[bool, str], ...]:
    """A text in stretches, those of notes marked True; the lines of signs are gone."""
    return tuple(
        (note, "\n".join(line for _, line in lines))
        for note, lines in groupby(_marked(text), key=lambda pair: pair[0])
    )


def for_students(text: str) -> str:
    """The text without its notes."""
    return "\n\n".join(words for note, words in stretches(text) if not note)


def _marked(text: str) -> Iterator[tuple[bool, str]]:
    inside = False
    for line in text.splitlines():
        said = " ".join(line.split())
        if said == OPEN:
            inside = True
        elif said == CLOSE:
            inside = False
        else:
            yield inside, line


def note_faults(file: str, text: str) -> Iterator[Diagnostic]:
    """The faults of the notes of a text: not closed, not opened, or neither."""
    opened = 0
    for number, line in enumerate(text.splitlines(), 1):
        said = " ".join(line.split())
        span = Span(file, number, 1, len(line) + 1)
        if not said.startswith(SIGN):
            continue
        if said == OPEN and not opened:
            opened = number
        elif said == CLOSE and opened:
            opened = 0
        elif said == OPEN:
            message = f"a note begins inside the note of line {opened}"
            yield Diagnostic(
                code="teacher-note",
                message=message,
                span=span,
                hint="close the first with a line `:::`",
            )
        elif said == CLOSE:
            message = "a note ends that did not begin"
            yield Diagnostic(
                code="teacher-note",
                message=message,
                span=span,
                hint="begin it with a line `::: teacher`",
            )
        else:
            message = f"`{said[:40]}` neither begins nor ends a note"
            hint = "a note begins with a line `::: teacher` and ends with a line `:::`"
            yield Diagnostic(code="teacher-note", message=message, span=span, hint=hint)
    if opened:
        span = Span(file, opened, 1, len(OPEN) + 1)
        message = "the note that begins here does not end"
        yield Diagnostic(
            code="teacher-note", message=message, span=span, hint="end it with a line `:::`"
        )
