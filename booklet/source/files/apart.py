"""Floor 2: drawings and pictures are read apart, by workers behind walls that are started when the first is met.

They can end no more than themselves, and they see no file and no network where the system can keep them from it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from booklet.kit.bounds import READER_MEMORY, READER_SECONDS
from booklet.kit.diagnostic import Span
from booklet.source.faults import Faults
from booklet.source.tree.node import shortened
from booklet.walls.limits import Limits

if TYPE_CHECKING:
    from booklet.walls.process import Worker

LIMITS = Limits(READER_SECONDS, READER_MEMORY)


class ReadingWorkers:
    """The workers of one reading of a folder, by the module whose work they do. To be closed at the end."""

    def __init__(self, faults: Faults) -> None:
        self._faults, self._ended = faults, False
        self._workers: dict[str, Worker] = {}

    def told(
        self, serves: str, file: str, data: bytes, span: Span, asked: str = ""
    ) -> dict[str, Any] | None:
        """What the module `serves` says of a file, where more than its name is `asked`, of that; None, with a fault, if the worker did not live to say it.

        After that no other is started: one file that cannot be read is enough to go on with."""
        if self._ended:
            return None
        from booklet.walls.process import Worker, WorkerGone, answer
        from booklet.walls.wire import send  # few folders have drawings or pictures

        try:
            if serves not in self._workers:
                self._workers[serves] = Worker(serves, LIMITS)
            with self._workers[serves].asked() as (requests, answers):
                send(requests, (asked or file).encode("utf-8", "surrogatepass"))
                send(requests, data)
                return answer(answers)
        except WorkerGone as gone:
            self._ended = True
            message = f"reading `{shortened(file)}` {gone}"
            hint = (
                "save it again from the program that made it, simpler or smaller, or leave it out"
            )
            self._faults.add("too-large", message, span, hint)
            return None

    def close(self) -> None:
        """End the workers."""
        for worker in self._workers.values():
            worker.close()
