"""Floor 2: whether the bytes of a picture are whole and of a fit size, without decoding them."""

from __future__ import annotations

import zlib
from collections.abc import Iterator

from booklet.bounds import MOST_PIXELS

PNG, JPEG = b"\x89PNG\r\n\x1a\n", b"\xff\xd8\xff"
_PNG_COLOURS = {0: 1, 2: 3, 3: 1, 4: 2, 6: 4}  # colour type -> channels (PNG specification, 11.2.2)
_FRAMES = frozenset(range(0xC0, 0xD0)) - {0xC4, 0xC8, 0xCC}  # the JPEG markers that carry a size


def picture_fault(data: bytes) -> tuple[str, str, str] | None:
    """The code, the complaint and the next thing to do for a picture that cannot be printed; or None."""
    if not data.startswith((PNG, JPEG)):
        return "unreadable-source", "is neither a PNG nor a JPEG picture", "save it as PNG or JPEG"
    try:
        size = _png_size(data) if data.startswith(PNG) else _jpeg_size(data)
    except (IndexError, ValueError, zlib.error):
        size = None
    if size is None or 0 in size:
        return "unreadable-source", "is a broken picture", "save it again as PNG or JPEG"
    if size[0] * size[1] > MOST_PIXELS:
        message = (
            f"has {size[0]} x {size[1]} pixels; at most {MOST_PIXELS // 1_000_000} million are read"
        )
        return "too-large", message, "make the picture smaller"
    return None


def _png_size(data: bytes) -> tuple[int, int] | None:
    """Width and height of a whole PNG picture; None if a part is missing or damaged."""
    chunks = list(_chunks(data))
    names = [name for name, _ in chunks]
    if not names or names[0] != b"IHDR" or names[-1] != b"IEND" or len(chunks[0][1]) != 13:
        return None
    head = chunks[0][1]
    width, height = int.from_bytes(head[:4], "big"), int.from_bytes(head[4:8], "big")
    depth, colours, laced = head[8], _PNG_COLOURS.get(head[9]), head[12]
    if colours is None or width * height > MOST_PIXELS:
        return None if colours is None else (width, height)
    pixels = b"".join(body for name, body in chunks if name == b"IDAT")
    least = height * ((width * depth * colours + 7) // 8 + 1)
    packed = zlib.decompressobj()
    found = len(packed.decompress(pixels, least + 8 * height + 8))
    return (width, height) if found >= least or (laced and found) else None


def _chunks(data: bytes) -> Iterator[tuple[bytes, bytes]]:
    """Name and body of every chunk up to the end; ValueError where one is damaged."""
    at = len(PNG)
    while at < len(data):
        length = int.from_bytes(data[at : at + 4], "big")
        name, body = data[at + 4 : at + 8], data[at + 8 : at + 8 + length]
        check = data[at + 8 + length : at + 12 + length]
        if zlib.crc32(name + body).to_bytes(4, "big") != check:
            raise ValueError("a chunk is damaged")
        yield name, body
        if name == b"IEND":
            return
        at += 12 + length


def _jpeg_size(data: bytes) -> tuple[int, int] | None:
    """Width and height of a JPEG picture that has its end; None without them."""
    if b"\xff\xd9" not in data[-4096:]:
        return None
    at = 2
    while data[at] == 0xFF:
        marker = data[at + 1]
        if marker in _FRAMES:
            height, width = (int.from_bytes(data[i : i + 2], "big") for i in (at + 5, at + 7))
            return width, height
        at += 1 if marker == 0xFF else 2 + int.from_bytes(data[at + 2 : at + 4], "big")
    return None
