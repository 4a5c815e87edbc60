"""Floor 12: the study of a pattern that is looked at again and again, as its author edits it.

Whatever is worked out of a pattern is the answer to a question of one block or one size, and depends on what the question
reads, and on nothing else (`memory.py`, `reads.py`). Equal questions are answered once: an edit costs what it touches.
The stages are the same as in a run that remembers nothing, and so are their results.
"""

from __future__ import annotations

from collections.abc import Sequence

from booklet.checks.checked import CheckedPattern
from booklet.kit.diagnostic import Outcome
from booklet.kit.remembered.memory import Ask, Memory
from booklet.kit.remembered.settled import settled
from booklet.pattern import Pattern
from booklet.plan import Plan, make_plan
from booklet.recipe.checking import check_pattern


class Study:
    """One pattern in all the states it is looked at; what no recent state asked for is forgotten. For one thread."""

    def __init__(self) -> None:
        self.memory = Memory()
        self._last: Pattern | None = None

    @property
    def ask(self) -> Ask:
        """Puts a question to the memory: pictures are remembered through it as well."""
        return self.memory.ask

    def check(self, read: Outcome[Pattern]) -> Outcome[CheckedPattern]:
        """The checked pattern of what was read, as `check_pattern` gives it."""
        self.memory.next_round()
        if read.value is not None:
            self._last = settled(read.value, self._last)
            read = Outcome(self._last, read.diagnostics)
        return check_pattern(read, self.ask)

    def plan(self, checked: CheckedPattern, sizes: Sequence[str] | None = None) -> Plan:
        """The plan of the sizes asked for, or of all, as `make_plan` gives it."""
        return make_plan(checked, sizes, self.ask)
