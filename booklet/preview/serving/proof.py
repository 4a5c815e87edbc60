"""Floor 13, proof: a booklet laid out on paper when a tab asks for it, as it will come out, with what is told
meanwhile. Nothing is written: the last few PDFs are kept in memory.
"""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator
from typing import Any

from booklet.exports.press.printed import PrintedFiles, PrintJob
from booklet.exports.press.printing import PLAIN, PrintingError
from booklet.layouts import Layouts, WallError
from booklet.pages.document import Document
from booklet.pages.prepress.pdf import NoPdf

KEPT = 2  # PDFs at a time
TELL = 0.3  # s between words about how far it is

Progress = tuple[str, dict[str, Any]]


class Printer:
    """Lays out one document after the other in a worker of its own, within its limits."""

    def __init__(self) -> None:
        self._layouts: Layouts | None = None
        self._made: dict[int, tuple[PrintJob, bytes]] = {}
        self._turn = asyncio.Lock()
        self._count = 0

    def found(self, number: int) -> bytes | None:
        """A PDF that is still kept."""
        return self._made[number][1] if number in self._made else None

    async def laid_out(self, document: Document) -> AsyncIterator[Progress]:
        """How far a document is, and at the end the number of its PDF, or the sentence that stopped it. What is kept is not
        laid out again, and has the number it had."""
        assert document.paper is not None
        job = PrintJob(document.html, document.paper, PLAIN)
        for number, (made, _) in self._made.items():
            if made == job:
                yield "done", {"number": number, "name": document.name}
                return
        if self._turn.locked():
            yield "stage", {"words": "waiting for another booklet to be laid out"}
        async with self._turn:
            try:
                async for told in self._one(job, document):
                    yield told
            except (NoPdf, PrintingError, WallError) as fault:
                self.close()  # a worker that was stopped is not asked again
                yield "stop", {"words": str(fault)}

    async def _one(self, job: PrintJob, document: Document) -> AsyncIterator[Progress]:
        page = [0]
        if self._layouts is None:
            self._layouts = Layouts(1)
        laying = self._layouts.submit(job, document.called, lambda n: page.__setitem__(0, n))
        waiting = asyncio.wrap_future(laying)
        while not waiting.done():
            where = f"laying out page {page[0]}" if page[0] else "reading the pages"
            yield "stage", {"words": where}
            await asyncio.wait([waiting], timeout=TELL)
        yield "done", {"number": self._keep(job, waiting.result()[0]), "name": document.name}

    def _keep(self, job: PrintJob, printed: PrintedFiles) -> int:
        """Keep the PDF; its number."""
        self._count += 1
        self._made[self._count] = (job, printed.files[0][1])
        self._made.pop(self._count - KEPT, None)
        return self._count

    def close(self) -> None:
        """End the worker."""
        if self._layouts is not None:
            self._layouts.close()
            self._layouts = None
