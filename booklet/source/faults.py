"""Floor 2: the faults found while reading, gathered so that all are reported in one run."""

from __future__ import annotations

from collections.abc import Iterable

from booklet.diagnostic import Diagnostic, Span, did_you_mean

MOST_FAULTS = 200  # of one run; whoever has more has one cause


class Faults:
    """A list of diagnostics without repeats: a value that holds for three sizes is wrong once."""

    def __init__(self) -> None:
        self._found: dict[Diagnostic, None] = {}
        self.noted = 0  # how often a fault was noted, repeats and those beyond the limit included

    def add(self, code: str, message: str, span: Span, hint: str | None = None) -> None:
        """Note a fault."""
        self.noted += 1
        if len(self._found) < MOST_FAULTS:
            self._found.setdefault(Diagnostic(code, message, span, hint))

    def extend(self, diagnostics: Iterable[Diagnostic]) -> None:
        """Note faults found elsewhere."""
        for d in diagnostics:
            self.add(d.code, d.message, d.span, d.hint)

    def unknown_name(self, noun: str, name: str, known: Iterable[str], span: Span) -> None:
        """Note a name that stands for nothing."""
        hint = did_you_mean(name, known) or f"give the pattern a {noun} of that name first"
        self.add("unknown-name", f"there is no {noun} `{name}`", span, hint)

    def all(self) -> tuple[Diagnostic, ...]:
        """The faults in the order of the source."""
        return tuple(sorted(self._found, key=lambda d: (d.span, d.code, d.message)))
