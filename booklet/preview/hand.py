"""Floor 13, the hand: the one thread that does the work, so that the page is always answered.

It is left behind when the preview ends: nobody waits for a picture that nobody will see.
"""

from __future__ import annotations

import asyncio
import threading
from collections.abc import Callable
from queue import SimpleQueue
from typing import Any, TypeVar

T = TypeVar("T")


class Hand:
    """A thread that does one thing after the other."""

    def __init__(self) -> None:
        self._tasks: SimpleQueue[Callable[[], None]] = SimpleQueue()
        threading.Thread(target=self._work, name="preview", daemon=True).start()

    async def do(self, work: Callable[..., T], *values: Any) -> T:
        """What the work returns, done when all asked for before is done. Raises what it raises."""
        loop = asyncio.get_running_loop()
        answer: asyncio.Future[T] = loop.create_future()

        def task() -> None:
            try:
                made = work(*values)
            except BaseException as fault:
                self._tell(loop, answer, None, fault)
            else:
                self._tell(loop, answer, made, None)

        self._tasks.put(task)
        return await answer

    @staticmethod
    def _tell(
        loop: asyncio.AbstractEventLoop,
        answer: asyncio.Future[Any],
        made: Any,
        fault: BaseException | None,
    ) -> None:
        """Hand the result to whoever waits, if somebody still does."""

        def hand_over() -> None:
            if answer.done():
                return
            if fault is not None:
                answer.set_exception(fault)
            else:
                answer.set_result(made)

        try:
            loop.call_soon_threadsafe(hand_over)
        except RuntimeError:  # the preview has ended meanwhile
            return

    def _work(self) -> None:
        while True:
            self._tasks.get()()
