"""Floor 12: the master. Starts workers once for a build, as many as there are cores and work for, and hands out
documents; whatever happens to a worker becomes a sentence.
"""

from __future__ import annotations

import os
import shutil
import tempfile
import threading
from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from queue import Empty, SimpleQueue

from booklet.bounds import WORKER_MEMORY, WORKER_SECONDS, WORKERS
from booklet.exports.printed import Job, Printed
from booklet.layouts.jobs import receive_printed, send_job
from booklet.walls.limits import Limits
from booklet.walls.process import Gone, Worker

LIMITS = Limits(WORKER_SECONDS, WORKER_MEMORY)
_DOCUMENTS_EACH = 3  # for fewer, a further worker is not worth its start


class WallError(Exception):
    """A document would not be laid out within the limits; the message is a sentence for the reader."""


class Layouts:
    """Lays out documents in worker processes. To be closed at the end, whatever happens."""

    def __init__(self, documents: int) -> None:
        count = max(1, min(_cores(), WORKERS, documents // _DOCUMENTS_EACH))
        self.ahead = count
        """How many documents are worth handing in before the first is asked for."""
        self._aside = tempfile.mkdtemp(prefix="booklet-")
        self._idle: SimpleQueue[Worker] = SimpleQueue()
        self._all: list[Worker] = []
        self._lock = threading.Lock()
        self._closed = False
        self._threads = ThreadPoolExecutor(count)
        if documents:  # it loads its libraries while the first page is composed
            self._idle.put(self._started())

    def submit(
        self, job: Job, title: str, at: Callable[[int], None] = lambda page: None
    ) -> Future[tuple[Printed, ...]]:
        """Hand in a job; its result raises NoPdf, PrintingError or WallError, which names the `title`. `at` is
        told each page that is begun."""
        return self._threads.submit(self._done, job, title, at)

    def close(self) -> None:
        """End all workers at once."""
        with self._lock:
            self._closed = True
            workers = list(self._all)
        for worker in workers:
            worker.kill()
        self._threads.shutdown(wait=True, cancel_futures=True)
        for worker in workers:
            worker.close()
        shutil.rmtree(self._aside, ignore_errors=True)

    def _started(self) -> Worker:
        """A new worker, which writes only where we clear up."""
        with self._lock:
            if self._closed:
                raise WallError("the build was stopped")
            self._all.append(Worker("booklet.layouts.worker", LIMITS, self._aside))
            return self._all[-1]

    def _done(self, job: Job, title: str, at: Callable[[int], None]) -> tuple[Printed, ...]:
        """The result of a job, in a thread that waits for a worker."""
        try:
            worker = self._idle.get_nowait()
        except Empty:
            worker = self._started()
        pages = [0]

        def told(page: int) -> None:
            pages.append(page)
            if page:
                at(page)

        try:
            with worker.asked() as (requests, answers):
                send_job(requests, job)
                made = receive_printed(answers, told)
        except Gone as gone:
            raise WallError(_sentence(pages, title, str(gone))) from None
        self._idle.put(worker)
        return made


def _sentence(pages: list[int], title: str, what: str) -> str:
    """What stopped a build, where, and what to do."""
    page = pages[-1]
    where = f"laying out page {page} of" if page else "writing" if pages[1:] else "laying out"
    return (
        f"{where} {title} {what}; what was built before is still there. Take out what is large on it (a "
        "text, a table, a picture), or build the other sizes and editions with --size and --edition"
    )


def _cores() -> int:
    """How many cores we may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1
