"""Floor 0: what is being worked out, for whoever waits for it or stops it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager


class _Now:
    """What was being worked out when somebody asked to stop, and who is told of each new thing."""

    stopped_at: str | None = None
    listener: Callable[[str], None] | None = None


@contextmanager
def doing(what: str) -> Iterator[None]:
    """While it lasts, this is what is being worked out ("working out ...")."""
    if _Now.listener is not None:
        _Now.listener(what)
    try:
        yield
    except KeyboardInterrupt:
        _Now.stopped_at = _Now.stopped_at or what
        raise


@contextmanager
def told_to(listener: Callable[[str], None]) -> Iterator[None]:
    """While it lasts, a listener is told whatever is begun."""
    before, _Now.listener = _Now.listener, listener
    try:
        yield
    finally:
        _Now.listener = before


def stopped_at() -> str | None:
    """What was being worked out when somebody asked to stop, once; None if nothing was."""
    what, _Now.stopped_at = _Now.stopped_at, None
    return what
