"""Floor 13, the hand: the one thread that does the work, so that the page is always answered.

It is left behind when the preview ends: nobody waits for a picture that nobody will see.
"""

from __future__ import annotations

import asyncio
import threading
from collections.abc import AsyncIterator, Callable, Mapping
from contextlib import suppress
from itertools import islice
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


class ArrivingParts:
    """The parts of a page, one by one, told by the hand's thread while it sets them: name, markup, new pieces."""

    def __init__(self) -> None:
        self._loop = asyncio.get_running_loop()
        self._parts: asyncio.Queue[tuple[str, str, Mapping[str, str]] | None] = asyncio.Queue()
        self._told = 0  # how many pieces were told

    def tell(self, name: str, markup: str, pieces: Mapping[str, str], /) -> None:
        """Tell of a part, with those of all pieces so far that came with it."""
        fresh = dict(islice(pieces.items(), self._told, None))
        self._told += len(fresh)
        with suppress(RuntimeError):  # the preview has ended meanwhile
            self._loop.call_soon_threadsafe(self._parts.put_nowait, (name, markup, fresh))

    def end(self, _: object) -> None:
        """There are no more."""
        self._parts.put_nowait(None)

    async def __aiter__(self) -> AsyncIterator[tuple[str, str, Mapping[str, str]]]:
        """The parts, as they come."""
        while (part := await self._parts.get()) is not None:
            yield part
