"""Small whole pictures for tests: a PNG made by hand, a JPEG by Pillow."""

import io
import struct
import zlib


def chunk(name: bytes, body: bytes) -> bytes:
    """One chunk of a PNG picture: length, name, body, check sum."""
    return struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body))


def png(width: int = 2, height: int = 2, pixels: bytes | None = None) -> bytes:
    """A grey PNG picture of 8 bits a pixel; `pixels` replaces its (unpacked) rows."""
    head = struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)
    rows = (b"\0" + b"\x80" * width) * height if pixels is None else pixels
    body = chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(rows)) + chunk(b"IEND", b"")
    return b"\x89PNG\r\n\x1a\n" + body


def pixels(data: bytes) -> tuple[object, ...]:
    """The size, the kind and the pixels of a picture."""
    from PIL import Image

    made = Image.open(io.BytesIO(data))
    return made.size, made.mode, made.tobytes()


def jpeg(width: int = 2, height: int = 2) -> bytes:
    """A grey JPEG picture."""
    from PIL import Image

    out = io.BytesIO()
    Image.new("L", (width, height), 128).save(out, "JPEG")
    return out.getvalue()
