"""Floor 12: a worker. It raises its walls, then lays out one document after another until its pipe is closed."""

from __future__ import annotations

import logging
import os
import re
import signal
import sys
from traceback import extract_tb
from typing import IO

from booklet.exports.printed import printed
from booklet.exports.printing import PrintingError
from booklet.pages.pdf import NoPdf
from booklet.walls.frames import receive_job, send, send_words
from booklet.walls.limits import allow, raise_walls


class _Pages(logging.Handler):
    """Tells the master which page is being laid out."""

    def __init__(self, out: IO[bytes]) -> None:
        super().__init__(logging.INFO)
        self._out, self._last = out, 0

    def emit(self, record: logging.LogRecord) -> None:
        """Send the number of a page once."""
        found = re.search(r"Page (\d+)$", record.getMessage())
        if found and int(found[1]) != self._last:
            self._last = int(found[1])
            send_words(self._out, {"page": self._last})


def main() -> None:
    """Work until the master closes the pipe. Standard output is the pipe: nothing else may write there."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C is the master's business
    jobs, answers = sys.stdin.buffer, os.fdopen(os.dup(1), "wb")
    os.dup2(2, 1)
    seconds, memory = map(int, sys.argv[1:])
    raise_walls(memory)
    progress = logging.getLogger("weasyprint.progress")
    progress.setLevel(logging.INFO)
    progress.propagate = False
    progress.addHandler(_Pages(answers))
    while _one(jobs, answers, seconds):
        pass


def _one(jobs: IO[bytes], answers: IO[bytes], seconds: int) -> bool:
    """Do one job and answer; False at the end of the pipe."""
    try:
        job = receive_job(jobs)
    except EOFError:
        return False
    allow(seconds)
    try:
        made = printed(job)
    except (NoPdf, PrintingError) as fault:
        send_words(answers, {"fault": type(fault).__name__, "message": str(fault)})
    except MemoryError:
        send_words(answers, {"fault": "MemoryError"})
        return False  # what is left of us is not to be trusted
    except Exception as fault:
        place = extract_tb(fault.__traceback__)[-1]
        told = f"{type(fault).__name__}: {fault} ({os.path.basename(place.filename)}, line {place.lineno})"
        send_words(answers, {"fault": "bug", "message": told})
    else:
        send_words(answers, {"files": [end for end, _ in made.files], "said": made.said})
        for _, data in made.files:
            send(answers, data)
    return True
