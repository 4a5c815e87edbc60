"""Floor 12: what a worker does: it lays out one document after another (`walls/inside.py` calls it)."""

from __future__ import annotations

import gc
import logging
import os
import re
import sys
from contextlib import suppress
from typing import IO

import booklet
from booklet.exports.press.printed import printed
from booklet.exports.press.printing import PrintingError
from booklet.layouts.print_jobs import receive_job, send_printed
from booklet.pages.prepress.pdf import NoPdf, let_go, load
from booklet.walls.wire import send_words

_FONTS = ("/etc/fonts", "/usr", "/var/cache/fontconfig", "~/.fonts", "~/.local/share/fonts", "~/.cache/fontconfig")  # fmt: skip


class _Pages(logging.Handler):
    """Tells the master which page is being laid out, and that they are being written."""

    def __init__(self, out: IO[bytes]) -> None:
        super().__init__(logging.INFO)
        self._out, self._last = out, 0

    def emit(self, record: logging.LogRecord) -> None:
        """Send the number of a page once; 0 for no page any more."""
        said = record.getMessage()
        found = re.search(r"Page (\d+)$", said)
        page = int(found[1]) if found else 0 if said.startswith("Step 6") else self._last
        if page != self._last:
            self._last = page
            send_words(self._out, {"page": page})


def prepare() -> tuple[str, ...]:
    """Load the libraries; the folders of libraries and fonts, which are all that is read afterwards."""
    with suppress(NoPdf):  # said when the first document is asked for
        load()
    homes = (os.path.dirname(booklet.__file__), os.path.dirname(os.__file__))
    packages = (each for each in sys.path if each.endswith(("site-packages", "dist-packages")))
    gc.freeze()  # what was loaded stays; what documents leave behind is let go of by `let_go`
    gc.disable()
    return (*homes, *packages, *map(os.path.expanduser, _FONTS))


def serve(requests: IO[bytes], answers: IO[bytes]) -> None:
    """Lay out one document."""
    job = receive_job(requests)
    progress = logging.getLogger("weasyprint.progress")
    progress.setLevel(logging.INFO)
    progress.propagate = False
    progress.handlers = [_Pages(answers)]
    try:
        made = printed(job)
    except (NoPdf, PrintingError) as fault:
        send_words(answers, {"fault": type(fault).__name__, "message": str(fault)})
    else:
        send_printed(answers, made)
    let_go()
