"""Floor 12: the master. Starts workers once for a build, as many as there are cores and work for, and hands out
documents; whatever happens to a worker becomes a sentence.
"""

from __future__ import annotations

import io
import os
import shutil
import tempfile
import threading
from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor

from booklet.exports.press.printed import PrintedFiles, PrintJob
from booklet.kit.bounds import WORKER_MEMORY, WORKER_SECONDS, WORKERS
from booklet.layouts.print_jobs import receive_printed, send_job
from booklet.walls.limits import Limits
from booklet.walls.process import Worker, WorkerGone

LIMITS = Limits(WORKER_SECONDS, WORKER_MEMORY)
_DOCUMENTS_EACH = 3  # for fewer, a further worker is not worth its start
_AHEAD = 2  # documents that may wait for a worker: enough that none stands idle


class WallError(Exception):
    """A document would not be laid out within the limits; the message is a sentence for the reader."""


class _Seat:
    """A worker's place, with the thread that waits for it and the number of jobs it has."""

    def __init__(self) -> None:
        self.worker: Worker | None = None
        self.thread = ThreadPoolExecutor(1)
        self.waiting = 0


class Layouts:
    """Lays out documents in worker processes. To be closed at the end, whatever happens."""

    def __init__(self, documents: int) -> None:
        count = max(1, min(_cores(), WORKERS, documents // _DOCUMENTS_EACH))
        self.ahead = _AHEAD * count
        """How many documents are worth handing in before the first is asked for."""
        self._aside = tempfile.mkdtemp(prefix="booklet-")
        self._all: list[Worker] = []
        self._lock = threading.Lock()
        self._closed = False
        self._seats = tuple(_Seat() for _ in range(count))
        self._taken: dict[str, _Seat] = {}
        if documents:  # it loads its libraries while the first page is composed
            self._seats[0].worker = self._started()

    def submit(
        self,
        job: PrintJob,
        title: str,
        at: Callable[[int], None] = lambda page: None,
        kin: str = "",
    ) -> Future[tuple[PrintedFiles, ...]]:
        """Hand in a job; its result raises NoPdf, PrintingError or WallError, which names the `title`. `at` is
        told each page that is begun. Jobs of one `kin` show the same pictures: one worker gets them, and draws each
        picture once."""
        seat = self._seat(kin)
        seat.waiting += 1
        asked = io.BytesIO()  # of a page with signs of all kinds half as large as its text
        send_job(asked, job)
        return seat.thread.submit(self._done, seat, asked, title, at)

    def close(self) -> None:
        """End all workers at once."""
        with self._lock:
            self._closed = True
            workers = list(self._all)
        for worker in workers:
            worker.kill()
        for seat in self._seats:
            seat.thread.shutdown(wait=True, cancel_futures=True)
        for worker in workers:
            worker.close()
        shutil.rmtree(self._aside, ignore_errors=True)

    def _seat(self, kin: str) -> _Seat:
        """Where a job goes: to its kin, if no other worker has much less to do."""
        free = min(self._seats, key=lambda seat: seat.waiting)
        own = self._taken.get(kin, free)
        self._taken[kin] = free if own.waiting > free.waiting + _AHEAD else own
        return self._taken[kin]

    def _started(self) -> Worker:
        """A new worker, which writes only where we clear up."""
        with self._lock:
            if self._closed:
                raise WallError("the build was stopped")
            self._all.append(Worker("booklet.layouts.worker", LIMITS, self._aside))
            return self._all[-1]

    def _done(
        self, seat: _Seat, asked: io.BytesIO, title: str, at: Callable[[int], None]
    ) -> tuple[PrintedFiles, ...]:
        """The result of a job, as it is `asked` of the worker, in a thread that waits for it."""
        pages = [0]

        def told(page: int) -> None:
            pages.append(page)
            if page:
                at(page)

        try:
            worker = seat.worker = seat.worker or self._started()
            with worker.asked() as (requests, answers):
                requests.write(asked.getbuffer())
                requests.flush()
                asked.close()
                return receive_printed(answers, told)
        except WorkerGone as gone:
            seat.worker = None
            raise WallError(_sentence(pages, title, str(gone))) from None
        finally:
            seat.waiting -= 1


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
