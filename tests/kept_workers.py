"""Workers that live on from one test to the next: to start one that sets pages takes a second of the processor.

They stand behind the same walls and are the same program; only that one which has answered in good order goes back to a bench
instead of being ended. Tests of the walls, and of bytes that no chance may change, ask for the fixture `fresh_workers`.
"""

from __future__ import annotations

import shutil
import tempfile
from collections import defaultdict
from collections.abc import Iterator
from contextlib import contextmanager
from typing import IO

from booklet.walls.limits import Limits
from booklet.walls.process import Worker

MOST = 50  # times that one is taken from the bench: what it keeps stays little


class Bench:
    """The workers of a run of tests that nobody asks anything just now, by what they do and within which limits."""

    def __init__(self) -> None:
        self.free: dict[tuple[str, Limits], list[_Kept]] = defaultdict(list)
        self.aside = tempfile.mkdtemp(prefix="booklet-tests-")

    def worker(self, serves: str, limits: Limits, aside: str = "") -> _Kept:
        """One from the bench, or a new one: called as a `Worker` is."""
        free = self.free[serves, limits]
        while free:
            worker = free.pop()
            if worker.is_sound():
                return worker
        return _Kept(self, serves, limits, self.aside if aside else "")

    def close(self) -> None:
        """End them all."""
        for worker in (each for free in self.free.values() for each in free):
            worker.end()
        shutil.rmtree(self.aside, ignore_errors=True)


class _Kept(Worker):
    def __init__(self, bench: Bench, serves: str, limits: Limits, aside: str) -> None:
        super().__init__(serves, limits, aside)
        self._bench, self._kind = bench, (serves, limits)
        self._taken, self._asked, self._is_ended = 0, False, False

    def is_sound(self) -> bool:
        return not self._asked and not self._is_ended and self._process.poll() is None

    @contextmanager
    def asked(self) -> Iterator[tuple[IO[bytes], IO[bytes]]]:
        self._asked = True  # and stays so where the answer is not a good one
        with super().asked() as pipes:
            yield pipes
        self._asked = False

    def kill(self) -> None:
        if self._asked:
            self._is_ended = True
            super().kill()

    def close(self) -> None:
        self._taken += 1
        if self.is_sound() and self._taken < MOST:
            self._bench.free[self._kind].append(self)
        else:
            self.end()

    def end(self) -> None:
        self._is_ended = True
        super().kill()
        super().close()
