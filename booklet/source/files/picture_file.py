"""Floor 2: whether a picture is whole, of a fit size and can be decoded. The door to Pillow, which only a worker goes
through (`apart.py`).
"""

from __future__ import annotations

import io
import warnings
from typing import IO

from PIL import JpegImagePlugin, MpoImagePlugin, PngImagePlugin

from booklet.bounds import MOST_PIXELS
from booklet.walls.frames import receive, send_words

PNG, JPEG = b"\x89PNG\r\n\x1a\n", b"\xff\xd8\xff"
_BROKEN = "unreadable-source", "is a broken picture", "save it again as PNG or JPEG"


def picture_fault(data: bytes) -> tuple[str, str, str] | None:
    """The code, the complaint and the next thing to do for a picture that cannot be printed; or None."""
    if not data.startswith((PNG, JPEG)):
        return "unreadable-source", "is neither a PNG nor a JPEG picture", "save it as PNG or JPEG"
    try:
        width, height = _picture(data).size
        if width * height > MOST_PIXELS:
            most = f"at most {MOST_PIXELS // 1_000_000} million are read"
            return "too-large", f"has {width} x {height} pixels; {most}", "make the picture smaller"
        _picture(data).verify()  # the check sums of a PNG, which are passed over when it is decoded
        whole = _picture(data)
        whole.draft(None, (1, 1))  # an eighth of a JPEG tells as much
        whole.load()
    except MemoryError:
        raise
    except Exception:  # Pillow has many for what it cannot make sense of
        return _BROKEN
    return None if width and height else _BROKEN


def _picture(data: bytes) -> PngImagePlugin.PngImageFile | JpegImagePlugin.JpegImageFile:
    """A picture of which only the head is read yet."""
    stream = io.BytesIO(data)
    if data.startswith(PNG):
        return PngImagePlugin.PngImageFile(stream)
    return JpegImagePlugin.JpegImageFile(stream)


def prepare() -> tuple[str, ...]:
    """What the worker may read beside what it is sent: nothing."""
    warnings.simplefilter("ignore")  # of what a picture carries beside its pixels
    assert MpoImagePlugin  # loads all that a JPEG may ask for later
    return ()


def serve(requests: IO[bytes], answers: IO[bytes]) -> None:
    """Judge one picture."""
    receive(requests)
    send_words(answers, {"fault": picture_fault(receive(requests))})
