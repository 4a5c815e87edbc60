"""Floor 0: a worker from inside. It loads what it works with, raises its walls, then answers until its pipe is closed.

The module it works for has `prepare`, which loads all libraries and tells what may be read afterwards, and `serve`, which
reads one request and answers it.
"""

from __future__ import annotations

import errno
import os
import signal
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from importlib import import_module
from traceback import extract_tb
from typing import IO

from booklet.walls.limits import Limits, shut_in
from booklet.walls.process import NO_FILE, NO_MEMORY
from booklet.walls.wire import send_words

Serve = Callable[[IO[bytes], IO[bytes]], None]


def main() -> None:
    """Work until the master closes the pipe. Standard output is the pipe: nothing else may write there."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C is the master's business
    requests, answers = sys.stdin.buffer, os.fdopen(os.dup(1), "wb")
    os.dup2(2, 1)
    name, aside, *numbers = sys.argv[1:]
    limits = Limits(*map(int, numbers))
    limits.raised()
    limits.renewed()
    with _walls_met():
        module = import_module(name)
        shut_in(module.prepare(), aside)
        while True:
            limits.renewed()
            _answer(module.serve, requests, answers)


def _answer(serve: Serve, requests: IO[bytes], answers: IO[bytes]) -> None:
    """Answer one request. Raises EOFError at the end of the pipe."""
    try:
        serve(requests, answers)
    except (EOFError, MemoryError, BrokenPipeError):
        raise
    except Exception as fault:
        if isinstance(fault, OSError) and fault.errno == errno.EFBIG:
            raise
        place = extract_tb(fault.__traceback__)[-1]
        told = f"{type(fault).__name__}: {fault} ({os.path.basename(place.filename)}, line {place.lineno})"
        send_words(answers, {"bug": told})


@contextmanager
def _walls_met() -> Iterator[None]:
    """Ends the process with a status that tells which wall it met: what is left of it is not to be trusted."""
    try:
        yield
    except EOFError:
        return
    except MemoryError:
        os._exit(NO_MEMORY)
    except OSError as fault:
        os._exit(NO_FILE if fault.errno == errno.EFBIG else 1)
