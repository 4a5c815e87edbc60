"""Floor 0: pure questions, answered once for what they read.

A question is a function without side effects of frozen records. A floor that is handed an `Ask` puts its questions
through it and need not know whether the answer is worked out or remembered.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import ParamSpec, Protocol, TypeVar

from booklet.kit.records import Record
from booklet.kit.remembered.content import Contents, Through, handed
from booklet.kit.remembered.recent import Recent

P = ParamSpec("P")
T = TypeVar("T")

ROUNDS = 5  # an answer nobody asked for in so many rounds is forgotten: as far as one goes back by undoing


_MARK = "_hands_words_through"
_WARNS = "_only_warns"
Question = TypeVar("Question", bound=Callable[..., object])


def hands_words_through(question: Question) -> Question:
    """A question that puts notes and titles of the author's into its answer, if at all, as they are: it asks
    no more than which are the same."""
    setattr(question, _MARK, True)
    return question


def only_warns(question: Question) -> Question:
    """A question whose answer is warnings and nothing else."""
    setattr(question, _WARNS, True)
    return question


class Ask(Protocol):
    """Answers a question for what it reads."""

    def __call__(self, question: Callable[P, T], /, *read: P.args, **named: P.kwargs) -> T:
        """The answer."""
        ...


def plainly(question: Callable[P, T], /, *read: P.args, **named: P.kwargs) -> T:
    """The answer, worked out."""
    return question(*read, **named)


def unwarned(ask: Ask) -> Ask:
    """Answers as `ask` does for one who reads no warnings: what only warns is not worked out."""

    def asked(question: Callable[P, T], /, *read: P.args, **named: P.kwargs) -> T:
        if getattr(question, _WARNS, False):
            return ()  # type: ignore[return-value]
        return ask(question, *read, **named)

    return asked


class _Answer(Record):
    """An answer, and what was handed through to it when it was given."""

    given: object
    through: Through


class Memory:
    """Answers by the content of what their questions read. For one thread."""

    def __init__(self, rounds: int = ROUNDS) -> None:
        self._contents = Contents(rounds)
        self._answers: Recent[bytes, _Answer] = Recent(rounds)
        self.asked = self.worked_out = 0

    def __len__(self) -> int:
        return len(self._answers)

    @property
    def held(self) -> int:
        """How many long values are held because their contents are known."""
        return len(self._contents)

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
        """The answer, from memory if the same was read before. Where other things were handed through, such as
        other places of the source, they stand in the answer."""
        if getattr(question, "__closure__", None):
            raise TypeError("a question reads what it is handed, and holds nothing itself")
        words = not getattr(question, _MARK, False)
        content = self._contents.of((question, read, named), words)
        known = self._answers.get(content.digest)
        self.asked += 1
        if known is None:
            self.worked_out += 1
            known = _Answer(question(*read, **named), content.through)
            self._answers.keep(content.digest, known)
        elif known.through != content.through:
            now = dict(zip(known.through, content.through, strict=True))
            known = _Answer(handed(known.given, now), content.through)
            self._answers.keep(content.digest, known)
        return known.given  # type: ignore[return-value]
