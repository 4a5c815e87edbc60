"""Floor 12: what a worker and its master say to each other. A frame is its length in four bytes, then its bytes;
nothing is unpickled, so that a worker that was taken over can send nothing but bytes.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from fractions import Fraction
from typing import IO, Any

from booklet.bounds import WORKER_FRAME
from booklet.exports.printed import Job
from booklet.exports.printing import Printing
from booklet.measure import Length
from booklet.pattern import Paper


def send(stream: IO[bytes], data: bytes) -> None:
    """Write one frame."""
    stream.write(len(data).to_bytes(4, "big"))
    stream.write(data)
    stream.flush()


def receive(stream: IO[bytes]) -> bytes:
    """Read one frame. Raises EOFError where the other side has gone."""
    length = int.from_bytes(_exactly(stream, 4), "big")
    if length > WORKER_FRAME:
        raise EOFError
    return _exactly(stream, length)


def _exactly(stream: IO[bytes], length: int) -> bytes:
    data = stream.read(length)
    if len(data) != length:
        raise EOFError
    return data


def send_words(stream: IO[bytes], words: Mapping[str, Any]) -> None:
    """Write some values as one frame."""
    send(stream, json.dumps(words).encode("utf-8"))


def receive_words(stream: IO[bytes]) -> dict[str, Any]:
    """Read some values. Raises EOFError where the other side has gone or makes no sense."""
    try:
        found = json.loads(receive(stream))
    except ValueError:
        raise EOFError from None
    if not isinstance(found, dict):
        raise EOFError
    return found


def send_job(stream: IO[bytes], job: Job) -> None:
    """Write a job."""
    asked = job.printing
    words = {
        "paper": job.paper.value,
        "imposed": asked.imposed,
        "creep": str(asked.creep.inches),
        "crop_marks": asked.crop_marks,
        "low_ink": asked.low_ink,
    }
    send_words(stream, words)
    send(stream, job.html.encode("utf-8"))


def receive_job(stream: IO[bytes]) -> Job:
    """Read a job. Raises EOFError at the end."""
    words = receive_words(stream)
    printing = Printing(
        words["imposed"], Length(Fraction(words["creep"])), words["crop_marks"], words["low_ink"]
    )
    return Job(receive(stream).decode("utf-8"), Paper(words["paper"]), printing)
