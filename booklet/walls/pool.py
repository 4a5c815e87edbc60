"""Floor 12: the master. Starts workers once for a build, as many as there are cores and work for, and hands out
documents; whatever happens to a worker becomes a sentence.
"""

from __future__ import annotations

import os
import shutil
import signal
import subprocess
import sys
import tempfile
import threading
from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass
from queue import Empty, SimpleQueue

from booklet.bounds import WORKER_MEMORY, WORKER_SECONDS, WORKERS
from booklet.exports.printed import Job, Printed
from booklet.exports.printing import PrintingError
from booklet.pages.pdf import NoPdf
from booklet.walls.frames import receive, receive_words, send_job
from booklet.walls.limits import HAS_WALLS

_PATIENCE = 8  # times the processor time: a worker may share its core with others
_DOCUMENTS_EACH = 3  # for fewer, a further worker is not worth its start
_START = "import sys; sys.path[:] = sys.argv.pop(1).split('\\n'); from booklet.walls.worker import main; main()"


class WallError(Exception):
    """A document would not be laid out within the limits; the message is a sentence for the reader."""


@dataclass(slots=True)
class _Worker:
    """A worker process; `page` is the page it works on."""

    process: subprocess.Popen[bytes]
    page: int = 0
    late: bool = False


class Layouts:
    """Lays out documents in worker processes. To be closed at the end, whatever happens."""

    def __init__(
        self, documents: int, seconds: int = WORKER_SECONDS, memory: int = WORKER_MEMORY
    ) -> None:
        count = max(1, min(_cores(), WORKERS, documents // _DOCUMENTS_EACH))
        self.ahead = count
        """How many documents are worth handing in before the first is asked for."""
        self._seconds, self._memory = seconds, memory
        self._aside = tempfile.mkdtemp(prefix="booklet-")
        self._idle: SimpleQueue[_Worker] = SimpleQueue()
        self._all: list[_Worker] = []
        self._lock = threading.Lock()
        self._closed = False
        self._threads = ThreadPoolExecutor(count)
        if documents:
            self._idle.put(
                self._started()
            )  # it loads its libraries while the first page is composed

    def submit(
        self, job: Job, title: str, at: Callable[[int], None] = lambda page: None
    ) -> Future[Printed]:
        """Hand in a job; its result raises NoPdf, PrintingError or WallError, which name the `title`. `at` is
        told each page that is begun."""
        return self._threads.submit(self._done, job, title, at)

    def close(self) -> None:
        """End all workers at once."""
        with self._lock:
            self._closed = True
            workers = list(self._all)
        for worker in workers:
            worker.process.kill()
        self._threads.shutdown(wait=True, cancel_futures=True)
        for worker in workers:
            worker.process.communicate()
        shutil.rmtree(self._aside, ignore_errors=True)

    def _started(self) -> _Worker:
        """A new worker. It sees the same modules as we do, and writes only where we clear up."""
        with self._lock:
            if self._closed:
                raise WallError("the build was stopped")
            process = subprocess.Popen(
                [sys.executable, "-c", _START, "\n".join(sys.path), *self._limits()],
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                stderr=subprocess.DEVNULL,
                env=os.environ | {"TMPDIR": self._aside, "TEMP": self._aside, "TMP": self._aside},
            )
            worker = _Worker(process)
            self._all.append(worker)
            return worker

    def _limits(self) -> tuple[str, str]:
        return str(self._seconds), str(self._memory)

    def _done(self, job: Job, title: str, at: Callable[[int], None]) -> Printed:
        """The result of a job, in a thread that waits for a worker."""
        worker = self._free()
        watch = threading.Timer(self._seconds * _PATIENCE, self._end, [worker])
        watch.daemon = True
        watch.start()
        try:
            made = self._asked(worker, job, at)
        except (EOFError, OSError):
            raise WallError(self._why(worker, title)) from None
        except MemoryError:
            raise WallError(_sentence(worker.page, title, self._too_large())) from None
        finally:
            watch.cancel()
        self._idle.put(worker)
        return made

    def _free(self) -> _Worker:
        """A worker that waits, or a new one."""
        try:
            return self._idle.get_nowait()
        except Empty:
            return self._started()

    def _end(self, worker: _Worker) -> None:
        worker.late = True
        worker.process.kill()

    def _too_large(self) -> str:
        return f"needed more than {self._memory >> 20} MiB of memory"

    def _asked(self, worker: _Worker, job: Job, at: Callable[[int], None]) -> Printed:
        """Send a job and read what comes of it."""
        pipe, answers = worker.process.stdin, worker.process.stdout
        assert pipe is not None and answers is not None
        worker.page = 0
        send_job(pipe, job)
        while "page" in (words := receive_words(answers)):
            worker.page = int(words["page"])
            at(worker.page)
        if "fault" in words:
            _raise(str(words["fault"]), str(words.get("message", "")))
        files = tuple((str(end), receive(answers)) for end in words["files"])
        return Printed(files, tuple(map(str, words["said"])))

    def _why(self, worker: _Worker, title: str) -> str:
        """Why a worker has gone, as a sentence."""
        status = worker.process.wait()
        if worker.late or (HAS_WALLS and status == -signal.SIGXCPU):
            return _sentence(
                worker.page, title, f"took more than {self._seconds} s of processor time"
            )
        if HAS_WALLS and status < 0:  # libraries of the system end a process that gets no memory
            return _sentence(worker.page, title, f"{self._too_large()}, or was ended by the system")
        return _sentence(worker.page, title, f"ended with status {status}")


def _sentence(page: int, title: str, what: str) -> str:
    """What stopped a build, where, and what to do."""
    where = f"page {page} of {title}" if page else title
    return (
        f"laying out {where} {what}; what was built before is still there. Take out what is large on it (a "
        "text, a table, a picture), or build the other sizes and editions with --size and --edition"
    )


def _raise(kind: str, message: str) -> None:
    """Raise the fault that a worker has met."""
    if kind == "MemoryError":
        raise MemoryError
    if kind == "bug":
        raise RuntimeError(message)
    raise {"NoPdf": NoPdf, "PrintingError": PrintingError}[kind](message)


def _cores() -> int:
    """How many cores we may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1
