"""Floor 0: being stopped. Ctrl-C and a request to end (SIGTERM, SIGHUP) become an exception that unwinds like any
other, so that what waits aside is cleared away; and a stretch that must not be cut in two can hold them off.
"""

from __future__ import annotations

import signal
import sys
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from types import FrameType
from typing import Any

_REQUESTS = [
    number
    for name in ("SIGINT", "SIGTERM", "SIGHUP", "SIGBREAK")
    if (number := getattr(signal, name, None)) is not None
]


SWALLOWED = 8
"""Seconds of the processor, counted in whole ones, in which a library may swallow the alarm, which comes each second."""
_HEIR = "import sys; sys.stdin.buffer.read(1) or print(sys.argv[1], file=sys.stderr)"

if sys.platform != "win32":
    import resource


class Stopped(KeyboardInterrupt):
    """Somebody asked the program to end."""

    def __init__(self, number: int) -> None:
        super().__init__(number)
        self.status = 128 + number
        """The exit status that shells expect."""


class _State:
    """How many stretches hold requests off, and the one that came meanwhile."""

    held = 0
    waiting: int | None = None


def _asked(number: int, frame: FrameType | None) -> None:
    """Raise Stopped, or keep the request for the end of the stretch that holds it off."""
    if _State.held:
        _State.waiting = number
    else:
        raise Stopped(number)


@contextmanager
def watching() -> Iterator[None]:
    """While it lasts, a request to end is raised as Stopped, also where Python would only print it."""
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    before = {n: signal.signal(n, _asked) for n in _REQUESTS if _is_heeded(n)}
    hook = sys.unraisablehook
    sys.unraisablehook = _raised_again(hook)
    try:
        yield
    finally:
        sys.unraisablehook = hook
        for number, handler in before.items():
            signal.signal(number, handler)


def _is_heeded(number: int) -> bool:
    """Whether a request has an effect: one that our caller has shut off (`nohup`) stays so."""
    return signal.getsignal(number) not in (signal.SIG_IGN, None)


def _raised_again(hook: Callable[[Any], Any]) -> Callable[[Any], Any]:
    """A hook that repeats a request which came within a destructor or a callback of a library."""

    def either(lost: Any) -> None:
        if isinstance(lost.exc_value, Stopped):
            threading.Timer(0.02, _send, [lost.exc_value.status - 128]).start()
        else:
            hook(lost)

    return either


def _send(number: int) -> None:
    """Send a request to the main thread, whatever it waits for."""
    if sys.platform == "win32":
        signal.raise_signal(number)
    else:
        signal.pthread_kill(threading.main_thread().ident or 0, number)


@contextmanager
def held() -> Iterator[Callable[[], None]]:
    """While it lasts, requests wait; the function given raises Stopped if one came."""

    def heed() -> None:
        if _State.waiting is not None:
            number, _State.waiting = _State.waiting, None
            raise Stopped(number)

    _State.held += 1
    try:
        yield heed
    finally:
        _State.held -= 1
        if not _State.held:
            _State.waiting = None


@contextmanager
def within(seconds: int, memory: int, last_words: str) -> Iterator[None]:
    """While it lasts, the processor time and address space of this process are limited, as far as the system can:
    TimeoutError or MemoryError is raised, or, within one long call of a library, the system ends us. Then another
    process says our `last_words`."""
    if sys.platform == "win32" or threading.current_thread() is not threading.main_thread():
        yield
        return
    import subprocess  # loaded for the few who have pages of their own

    limits = {kind: resource.getrlimit(kind) for kind in (resource.RLIMIT_AS, resource.RLIMIT_CPU)}
    used = resource.getrusage(resource.RUSAGE_SELF)
    last = int(used.ru_utime + used.ru_stime) + 2 * seconds + SWALLOWED
    before = signal.signal(signal.SIGPROF, _late)
    heir = subprocess.Popen(
        [sys.executable, "-I", "-S", "-c", _HEIR, last_words],
        stdin=subprocess.PIPE,
        start_new_session=True,
    )
    signal.setitimer(signal.ITIMER_PROF, seconds, 1)  # again where a library swallows it
    try:
        for (kind, (soft, hard)), most in zip(limits.items(), (memory, last), strict=True):
            least = most if soft == resource.RLIM_INFINITY else min(most, soft)
            resource.setrlimit(kind, (least, hard))
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        heir.communicate(b"alive")
        signal.signal(signal.SIGPROF, before)
        for kind, former in limits.items():
            resource.setrlimit(kind, former)


def _late(number: int, frame: FrameType | None) -> None:
    raise TimeoutError
