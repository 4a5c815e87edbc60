"""Floor 0: a worker as its master sees it: started, asked, watched by the clock; why it has gone becomes words."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import IO, Any

import booklet
from booklet.walls.limits import HAS_WALLS, Limits
from booklet.walls.wire import receive_words

NO_MEMORY, NO_FILE = 112, 113  # the status of a worker that met those walls
_PATIENCE = 8  # times the processor time: a worker may share its core with others
_ALONE = {"OPENBLAS_NUM_THREADS": "1"}  # walls stand round a thread and those it starts
_START = "import sys; sys.path[:] = sys.argv.pop(1).split('\\n'); from booklet.walls.inside import main; main()"


class WorkerGone(Exception):
    """A worker ended before it had answered; the message says what it did, as in "took more than 5 s"."""


class Worker:
    """A worker process, which does what the module `serves` says (`walls/inside.py`). To be closed at the end."""

    def __init__(self, serves: str, limits: Limits, aside: str = "") -> None:
        """Start it. It sees the modules that we see, and writes only into the folder `aside`."""
        self._limits, self._late = limits, False
        path = [str(Path(booklet.__file__).parent.parent), *sys.path]
        numbers = map(str, (limits.seconds, limits.memory, limits.file))
        self._process = subprocess.Popen(
            [sys.executable, "-I", "-S", "-c", _START, "\n".join(path), serves, aside, *numbers],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            env=os.environ
            | _ALONE
            | ({"TMPDIR": aside, "TEMP": aside, "TMP": aside} if aside else {}),
        )

    @contextmanager
    def asked(self) -> Iterator[tuple[IO[bytes], IO[bytes]]]:
        """The pipes to and from the worker, while the clock is watched. Raises Gone."""
        watch = threading.Timer(self._limits.seconds * _PATIENCE, self._end)
        watch.daemon = True
        watch.start()
        assert self._process.stdin is not None and self._process.stdout is not None
        try:
            yield self._process.stdin, self._process.stdout
        except (EOFError, OSError):
            raise WorkerGone(self._why()) from None
        finally:
            watch.cancel()

    def _end(self) -> None:
        self._late = True
        self._process.kill()

    def kill(self) -> None:
        """End the worker at once; whoever waits for it is told that it has gone."""
        self._process.kill()

    def close(self) -> None:
        """End the worker, and let go of its pipes."""
        self._process.kill()
        self._process.communicate()

    def _why(self) -> str:
        """What a worker did that has gone."""
        try:
            status = self._process.wait(timeout=1)
        except subprocess.TimeoutExpired:
            return "was answered with what makes no sense"
        memory = f"needed more than {self._limits.memory >> 20} MiB of memory"
        if self._late or (HAS_WALLS and status == -signal.SIGXCPU):
            return f"took more than {self._limits.seconds} s of processor time"
        if status == NO_MEMORY:
            return memory
        if status == NO_FILE:
            return f"needed a file of more than {self._limits.file >> 20} MiB"
        if HAS_WALLS and status < 0:  # libraries of the system end a process that gets no memory
            return f"{memory}, or was ended by the system"
        return f"ended with status {status}"


def answer(stream: IO[bytes]) -> dict[str, Any]:
    """The words of a worker. Raises RuntimeError for a bug of ours that it met, EOFError where it has gone."""
    words = receive_words(stream)
    if "bug" in words:
        raise RuntimeError(str(words["bug"])[:1_000])
    return words
