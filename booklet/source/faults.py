"""Floor 2: the faults found while reading, gathered so that all are reported in one run."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import islice

from booklet.kit.bounds import MOST_COMPARED, MOST_FAULTS
from booklet.kit.diagnostic import Diagnostic, Span, did_you_mean


def near(name: str, known: Iterable[str]) -> str | None:
    """A hint naming the nearest of the known names; of very many, only the first are compared."""
    return did_you_mean(name[:MOST_COMPARED], islice(known, MOST_COMPARED))


def invisible(code: int, span: Span) -> tuple[str, Span, str]:
    """What is said of a sign that cannot be shown: the message, its place, the next thing to do."""
    message = f"an invisible character (number {code}) stands here"
    return message, span, "delete it; it often comes along when text is pasted"


class Faults:
    """A list of diagnostics without repeats: a value that holds for three sizes is wrong once."""

    def __init__(self) -> None:
        self._found: dict[Diagnostic, None] = {}
        self.noted = 0  # how often a fault was noted, repeats and those beyond the limit included

    def add(
        self,
        code: str,
        message: str,
        span: Span,
        hint: str | None = None,
        cause: str | None = None,
        follows: bool = False,
    ) -> None:
        """Note a fault; those with one `cause` are told as one, and one that only `follows` never first."""
        self.noted += 1
        fault = Diagnostic(
            code=code, message=message, span=span, hint=hint, cause=cause, follows=follows
        )
        if fault not in self._found and len(self._found) >= MOST_FAULTS:
            fault = Diagnostic(
                code="too-large",
                message=f"there are more than {MOST_FAULTS} faults; the others are not told",
                span=Span.whole(span.file),
                hint="mend these first: many of them may have one cause",
            )
        self._found.setdefault(fault)

    def extend(self, diagnostics: Iterable[Diagnostic]) -> None:
        """Note faults found elsewhere."""
        for d in diagnostics:
            self.add(d.code, d.message, d.span, d.hint, d.cause, d.follows)

    def unknown_name(
        self, noun: str, name: str, known: Iterable[str], span: Span, hint: str | None = None
    ) -> None:
        """Note a name that stands for nothing; wherever it stands, the cause is one."""
        hint = hint or near(name, known) or f"give the pattern a {noun} of that name first"
        message = f"there is no {noun} `{name}`"
        self.add("unknown-name", message, span, hint, cause=message)

    def all(self) -> tuple[Diagnostic, ...]:
        """The faults in the order of the source."""
        return tuple(sorted(self._found, key=lambda d: (d.span, d.code, d.message)))
