"""Floor 11, packing: the streams of a PDF are compressed once, before it is written.

WeasyPrint goes through all of a document twice when it writes: for the file, and for the digest in its identifier. For
each copy of a class it does so again.
"""

from __future__ import annotations

import zlib
from collections.abc import Iterable
from typing import Any


def pack(pdf: Any, but: Iterable[Any] = ()) -> None:
    """Compress the streams of a finished PDF that would be compressed while it is written, `but` those that are still
    written into."""
    open_ = {id(stream) for stream in but}
    for each in pdf.objects:
        if getattr(each, "compress", False) and id(each) not in open_:
            each.stream, each.compress = [packed(each.stream)], False
            each.extra["Filter"] = "/FlateDecode"


def packed(items: Iterable[Any]) -> bytes:
    """The items of a stream, compressed."""
    return zlib.compress(b"\n".join(map(_said, items)), 9)


def _said(item: Any) -> bytes:
    """What is written of one item: of words, of an object such as the number of a tag."""
    if isinstance(item, bytes):
        return item
    said: bytes = item.encode("ascii") if isinstance(item, str) else item.data
    return said
