"""Floor 0: pure questions, answered once for what they read.

A question is a function without side effects of frozen records. A floor that is handed an `Ask` puts its questions
through it and need not know whether the answer is worked out or remembered.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import ParamSpec, Protocol, TypeVar

from booklet.kit.content import Contents, Spans, moved
from booklet.kit.recent import Recent

P = ParamSpec("P")
T = TypeVar("T")

ROUNDS = 5  # an answer nobody asked for in so many rounds is forgotten: as far as one goes back by undoing


class Ask(Protocol):
    """Answers a question for what it reads."""

    def __call__(self, question: Callable[P, T], /, *read: P.args, **named: P.kwargs) -> T:
        """The answer."""
        ...


def plainly(question: Callable[P, T], /, *read: P.args, **named: P.kwargs) -> T:
    """The answer, worked out."""
    return question(*read, **named)


@dataclass(frozen=True, slots=True)
class _Answer:
    """An answer, and the spans that what it read had when it was given."""

    given: object
    spans: Spans


class Memory:
    """Answers by the content of what their questions read. For one thread."""

    def __init__(self, rounds: int = ROUNDS) -> None:
        self._contents = Contents(rounds)
        self._answers: Recent[bytes, _Answer] = Recent(rounds)
        self.asked = self.worked_out = 0

    def __len__(self) -> int:
        return len(self._answers)

    def next_round(self) -> None:
        """Begin a round, such as a look at an edited pattern: what is long out of use is forgotten."""
        self._contents.next_round()
        self._answers.next_round()

    def only(self, *questions: Callable[..., object]) -> Ask:
        """Puts some questions to this memory, and has all others worked out."""

        def asked(question: Callable[P, T], /, *read: P.args, **named: P.kwargs) -> T:
            ask = self.ask if question in questions else plainly
            return ask(question, *read, **named)

        return asked

    def ask(self, question: Callable[P, T], /, *read: P.args, **named: P.kwargs) -> T:
        """The answer, from memory if the same was read before. Where it was read from other places of the
        source, the answer points to those."""
        content = self._contents.of((question, read, named))
        known = self._answers.get(content.digest)
        self.asked += 1
        if known is None:
            self.worked_out += 1
            known = _Answer(question(*read, **named), content.spans)
            self._answers.keep(content.digest, known)
        elif known.spans != content.spans:
            there = dict(zip(known.spans, content.spans, strict=True))
            known = _Answer(moved(known.given, there), content.spans)
            self._answers.keep(content.digest, known)
        return known.given  # type: ignore[return-value]
