"""Floor 12: a document for print on its way to a worker, and what was made of it on its way back."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import IO

from booklet.exports.press.printed import PrintedFiles, PrintJob
from booklet.exports.press.printing import Printing, PrintingError
from booklet.kit.measure import Length
from booklet.pages.prepress.pdf import NoPdf
from booklet.pages.prepress.variants import Attached
from booklet.pattern import Paper
from booklet.walls.process import answer
from booklet.walls.wire import receive, receive_words, send, send_words

FAULTS = {fault.__name__: fault for fault in (NoPdf, PrintingError)}


def send_job(stream: IO[bytes], job: PrintJob) -> None:
    """Write a job."""
    asked = job.printing
    words = {
        "paper": job.paper.value,
        "imposed": asked.imposed,
        "creep": str(asked.creep.inches),
        "crop_marks": asked.crop_marks,
        "low_ink": asked.low_ink,
        "readers": job.readers,
        "attached": [(each.name, each.relation) for each in asked.attached],
    }
    send_words(stream, words)
    send(stream, job.html.encode("utf-8"))
    send(stream, asked.profile)
    for each in asked.attached:
        send(stream, each.data)


def receive_job(stream: IO[bytes]) -> PrintJob:
    """Read a job. Raises EOFError at the end."""
    words = receive_words(stream)
    html = receive(stream).decode("utf-8")
    printing = Printing(
        imposed=words["imposed"],
        creep=Length(Fraction(words["creep"])),
        crop_marks=words["crop_marks"],
        low_ink=words["low_ink"],
        profile=receive(stream),
        attached=tuple(
            Attached(str(name), receive(stream), str(relation))
            for name, relation in words["attached"]
        ),
    )
    return PrintJob(html, Paper(words["paper"]), printing, tuple(map(str, words["readers"])))


def send_printed(stream: IO[bytes], made: tuple[PrintedFiles, ...]) -> None:
    """Write the files made, copy by copy."""
    send_words(stream, {"copies": len(made)})
    for one in made:
        send_words(stream, {"files": [end for end, _ in one.files], "said": one.said})
        for _, data in one.files:
            send(stream, data)


def receive_printed(stream: IO[bytes], at: Callable[[int], None]) -> tuple[PrintedFiles, ...]:
    """Read the files made, copy by copy; `at` is told each page that is being laid out, and 0 when they are being written.
    Raises the fault that the worker met."""
    while "page" in (words := answer(stream)):
        at(int(words["page"]))
    if "fault" in words:
        raise FAULTS[words["fault"]](str(words["message"]))
    return tuple(_receive_one(stream) for _ in range(int(words["copies"])))


def _receive_one(stream: IO[bytes]) -> PrintedFiles:
    words = receive_words(stream)
    files = tuple((str(end), receive(stream)) for end in words["files"])
    return PrintedFiles(files, tuple(map(str, words["said"])))
