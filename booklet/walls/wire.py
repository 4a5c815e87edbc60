"""Floor 0: what a worker and its master say to each other. A frame is its length in four bytes, then its bytes;
nothing is unpickled, so that a worker that was taken over can send nothing but bytes.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import IO, Any

from booklet.kit.bounds import WORKER_FRAME


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
    except (ValueError, RecursionError):
        raise EOFError from None
    if not isinstance(found, dict):
        raise EOFError
    return found
