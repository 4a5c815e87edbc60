"""Floor 13, reference: text set for a terminal: wrapped, in two columns."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from textwrap import indent, wrap

WIDTH = 96


def columns(rows: Iterable[tuple[str, str]], widest: int = 20) -> Iterator[str]:
    """Lines of two columns: a word, and what is said of it, wrapped beside it."""
    told = list(rows)
    room = min(max((len(word) for word, _ in told), default=0), widest)
    for word, text in told:
        first, *rest = wrap(text, WIDTH - room - 4) or [""]
        if len(word) > room:
            yield f"  {word}"
            word = ""
        yield f"  {word:<{room}}  {first}".rstrip()
        yield from (f"  {'':<{room}}  {line}" for line in rest)


def paragraph(text: str) -> list[str]:
    """A text in lines that fit."""
    return wrap(text, WIDTH)


def example(text: str) -> list[str]:
    """A piece of a pattern, set in."""
    return ["Example:", "", *indent(text.rstrip(), "    ").splitlines()]
