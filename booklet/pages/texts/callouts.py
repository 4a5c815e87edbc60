"""Floor 11, callouts in texts: what stands between `::: teacher`, `::: tip` or `::: caution` and `:::`.

A student's copy never holds a byte of the teacher's notes: they are taken out before anything else reads the text. So
that nothing slips through, a line that begins with `:::` and is none of these is a fault.
"""

from __future__ import annotations

from collections.abc import Iterator
from enum import Enum
from itertools import groupby

from booklet.kit.diagnostic import Diagnostic, Span, nearest
from booklet.kit.words import phrase

CLOSE, SIGN = ":::", ":::"


class Box(Enum):
    """A kind of box."""

    TEACHER = "teacher"
    TIP = "tip"
    CAUTION = "caution"


BOX_HEADS = {
    Box.TEACHER: phrase("For the teacher"),
    Box.TIP: phrase("Tip"),
    Box.CAUTION: phrase("Take care"),
}
_OPENS = {f"{SIGN} {box.value}": box for box in Box}
_CALLED = {Box.TEACHER: "note", Box.TIP: "tip", Box.CAUTION: "caution"}


def stretches(text: str) -> tuple[tuple[Box | None, str], ...]:
    """A text in stretches, each with the box that it stands in; the lines of signs are gone."""
    return tuple(
        (box, "\n".join(line for _, _, line in lines))
        for (box, _), lines in groupby(_marked(text), key=lambda row: row[:2])
    )


def for_students(text: str) -> str:
    """The text without the teacher's notes."""
    kept: list[str] = []
    inside = False
    for line in text.splitlines():
        said = " ".join(line.split())
        if said in _OPENS and not inside:
            inside = _OPENS[said] is Box.TEACHER
            kept += () if inside else (said,)
        elif said == CLOSE:
            kept.append("" if inside else said)
            inside = False
        elif not inside:
            kept.append(line)
    return "\n".join(kept)


def _marked(text: str) -> Iterator[tuple[Box | None, int, str]]:
    """Each line with its box, and which box that is."""
    inside, number = None, 0
    for line in text.splitlines():
        said = " ".join(line.split())
        if said in _OPENS:
            inside, number = _OPENS[said], number + 1
        elif said == CLOSE:
            inside, number = None, number + 1
        else:
            yield inside, number, line


def note_faults(file: str, text: str) -> Iterator[Diagnostic]:
    """The faults of the boxes of a text: not closed, not opened, or none of ours."""
    opened, called, known = 0, "note", True
    for number, line in enumerate(text.splitlines(), 1):
        said = " ".join(line.split())
        span = Span(file, number, 1, len(line) + 1)
        if not said.startswith(SIGN):
            continue
        if said in _OPENS and not opened:
            opened, called, known = number, _CALLED[_OPENS[said]], True
        elif said == CLOSE and opened:
            opened = 0
        elif said in _OPENS:
            message = f"a {_CALLED[_OPENS[said]]} begins inside the {called} of line {opened}"
            yield _fault(message, span, "close the first with a line `:::`")
        elif said == CLOSE:
            message = "a note ends that did not begin"
            yield _fault(message, span, "begin it with a line `::: teacher`")
        else:
            hint = "a note begins with a line `::: teacher`, `::: tip` or `::: caution` and ends with a line `:::`"
            near = nearest(said[:60], _OPENS)
            message = f"`{said[:40]}` neither begins nor ends a note"
            yield _fault(message, span, f"did you mean `{near}`?" if near else hint)
            if not opened:  # what was meant to begin here may end
                opened, known = number, False
    if opened and known:
        message = f"the {called} that begins here does not end"
        yield _fault(message, Span(file, opened, 1, 4), "end it with a line `:::`")


def _fault(message: str, span: Span, hint: str) -> Diagnostic:
    return Diagnostic(code="teacher-note", message=message, span=span, hint=hint)
