"""Floor 0: what the tool says about a fault, and how a stage hands on its result with its faults.

A fault is a value. A stage that can find fault returns an `Outcome`; an exception means a bug of
ours. Which rule a diagnostic belongs to is its `code`; the page of each rule is on floor 8.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from difflib import get_close_matches
from enum import Enum
from typing import Generic, TypeVar

from booklet.kit.records import Record, replace

T = TypeVar("T")
U = TypeVar("U")


class Span(Record, order=True):
    """A stretch of one line of a source file: line and columns count from 1, `end` is exclusive."""

    file: str
    line: int
    column: int
    end: int

    @classmethod
    def whole(cls, file: str) -> Span:
        """The span that stands for a file as a whole (its very beginning)."""
        return cls(file, 1, 1, 1)


class Severity(Enum):
    """How bad a diagnostic is: an error stops the build, a warning does not."""

    ERROR = "error"
    WARNING = "warning"


class Diagnostic(Record, kw_only=True):
    """One fault: rule code, one lower-case sentence, the smallest span, the next thing to do.

    One slip can bring on many faults. Those that come from one share a `cause`, any text that tells it
    from other causes; `follows` marks consequences, so that the slip itself is told first.
    """

    code: str
    message: str
    span: Span
    hint: str | None = None
    severity: Severity = Severity.ERROR
    cause: str | None = None
    follows: bool = False

    @property
    def is_error(self) -> bool:
        """Whether this diagnostic stops the build."""
        return self.severity is Severity.ERROR


def warning(code: str, message: str, span: Span, hint: str | None = None) -> Diagnostic:
    """A diagnostic that is told but does not stop the build."""
    return Diagnostic(code=code, message=message, span=span, hint=hint, severity=Severity.WARNING)


class ToldFault(Record):
    """A fault with the consequences it has: the other faults of the same cause."""

    first: Diagnostic
    following: tuple[Diagnostic, ...]


def by_cause(diagnostics: Iterable[Diagnostic]) -> tuple[ToldFault, ...]:
    """Every fault once, alone or under the one it follows from: of each cause the first fault that is no
    mere consequence, errors before warnings. The order of those told first is kept."""
    groups: dict[object, list[tuple[int, Diagnostic]]] = {}
    for place, diagnostic in enumerate(diagnostics):
        key = place if diagnostic.cause is None else diagnostic.cause
        groups.setdefault(key, []).append((place, diagnostic))
    found = []
    for group in groups.values():
        head = min(group, key=lambda one: (one[1].follows, not one[1].is_error, one[0]))
        rest = tuple(diagnostic for place, diagnostic in group if place != head[0])
        found.append((head[0], ToldFault(head[1], rest)))
    return tuple(told for _, told in sorted(found, key=lambda one: one[0]))


def told_once(
    faults: Iterable[Diagnostic], alike: Callable[[Diagnostic], object] | None = None
) -> tuple[Diagnostic, ...]:
    """The first of all faults that are alike (by default: equal), as found: what several sizes show is told for one."""
    first: dict[object, Diagnostic] = {}
    for fault in faults:
        first.setdefault(alike(fault) if alike else fault, fault)
    return tuple(first.values())


class Outcome(Record, Generic[T]):
    """What a stage returns: its value if it could make one, and every diagnostic so far.

    A value may come with errors: it then holds the sound parts, so that later stages can go on
    and all faults are reported in one run. Only the checks floor refuses a value with errors.
    """

    value: T | None
    diagnostics: tuple[Diagnostic, ...] = ()

    def then(self, stage: Callable[[T], Outcome[U]]) -> Outcome[U]:
        """The outcome of `stage` on this value, with the diagnostics of both."""
        if self.value is None:
            return Outcome(None, self.diagnostics)
        return stage(self.value).after(self.diagnostics)

    def after(self, earlier: Iterable[Diagnostic]) -> Outcome[T]:
        """This outcome with earlier diagnostics put in front."""
        return replace(self, diagnostics=(*earlier, *self.diagnostics))


_NUMBERS = {"1": "one", "2": "two", "3": "three", "4": "four", "6": "six", "8": "eight"}


def _in_words(name: str) -> str:
    """A name with its first figure as a word: `8 at a time` is nearer to `eight at a time` than to any other."""
    figure, space, rest = name.partition(" ")
    return f"{_NUMBERS[figure]} {rest}" if space and figure in _NUMBERS else name


def nearest(name: str, known: Iterable[str]) -> str | None:
    """The known name that is nearest to one; None if none is near."""
    near = get_close_matches(_in_words(name), list(known), n=1, cutoff=0.6)
    return near[0] if near else None


def did_you_mean(name: str, known: Iterable[str]) -> str | None:
    """A hint naming the nearest known name, or those that have it as one of their words, or listing the known names;
    None if there are none."""
    names = sorted(set(known))
    if not names:
        return None
    longer = [n for n in names if name in n.split()]
    if len(longer) > 1:
        *first, last = (f"`{n}`" for n in longer[:8])
        return f"did you mean {', '.join(first)} or {last}?"
    near = nearest(name, names)
    if near is not None:
        return f"did you mean `{near}`?"
    shown = ", ".join(f"`{n}`" for n in names[:12])
    return f"known here: {shown}" + (" and more" if len(names) > 12 else "")
