"""Floor 8: the only door to a CheckedPattern, and the list of the checks that look at the whole.

Faults that one floor can see are found on that floor; what is here needs several floors at once.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from booklet.checks.arrangement import every_place_is_taken
from booklet.checks.whole import every_name_is_used, every_seam_fits_a_thread
from booklet.cutting.cutting_plan import CutPattern
from booklet.kit.diagnostic import Diagnostic, Outcome, told_once
from booklet.kit.records import grown

Check = Callable[[CutPattern], Iterator[Diagnostic]]

CHECKS: tuple[Check, ...] = (every_name_is_used, every_place_is_taken, every_seam_fits_a_thread)


class CheckedPattern(CutPattern):
    """A pattern without errors, with everything computed so far. Made by `admit` alone.

    It grows by what the class makes of it (`class_made.py`): what one student makes, if that is not a whole size, and all
    kits together, if students are counted; by what is made in each of its parts (`parts_made.py`), if it comes in parts;
    and by the pattern in each of its colourways and layouts, each with a class and parts of its own.
    """

    student: CheckedPattern | None = None
    kits: CheckedPattern | None = None
    parts: tuple[CheckedPattern, ...] = ()
    alternatives: tuple[CheckedPattern, ...] = ()


def examine(cut: CutPattern) -> Outcome[CutPattern]:
    """The same cut pattern with what the whole-pattern checks find."""
    found = tuple(diagnostic for check in CHECKS for diagnostic in check(cut))
    return Outcome(cut, found)


def admit(outcome: Outcome[CutPattern]) -> Outcome[CheckedPattern]:
    """The checked pattern, or no value if any diagnostic of any stage is an error.

    Faults are told once, however many sizes show them, in the order of the source.
    """
    told = tidy(outcome.diagnostics)
    if outcome.value is None or any(d.is_error for d in told):
        return Outcome(None, told)
    return Outcome(grown(CheckedPattern, outcome.value), told)


def tidy(diagnostics: tuple[Diagnostic, ...]) -> tuple[Diagnostic, ...]:
    """The diagnostics without repeats, by file, line and column."""
    return tuple(sorted(told_once(diagnostics), key=lambda d: (d.span, d.code, d.message)))
