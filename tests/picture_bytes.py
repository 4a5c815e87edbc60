"""Small whole pictures for tests: a PNG made by hand, a JPEG by Pillow."""

import io
import struct
import zlib


def chunk(name: bytes, body: bytes) -> bytes:
    """One chunk of a PNG picture: length, name, body, check sum."""
    return struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body))


def zeros(count: int) -> bytes:
    """What zlib makes of so many zero bytes, put together of like blocks of a million: without the time and the room
    that packing a huge file takes. (The Adler sums of zeros are 1 and their count: RFC 1950.)"""
    many, rest = divmod(count, 1_000_000)
    packer = zlib.compressobj(wbits=-15)
    block = packer.compress(bytes(1_000_000)) + packer.flush(zlib.Z_FULL_FLUSH)
    last = zlib.compressobj(wbits=-15)
    end = last.compress(bytes(rest)) + last.flush()
    return b"\x78\x9c" + block * many + end + struct.pack(">HH", count % 65521, 1)


def png(width: int = 2, height: int = 2, packed: bytes | None = None) -> bytes:
    """A grey PNG picture of 8 bits a pixel; `packed` replaces its rows."""
    head = struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)
    rows = zlib.compress((b"\0" + b"\x80" * width) * height) if packed is None else packed
    body = chunk(b"IHDR", head) + chunk(b"IDAT", rows) + chunk(b"IEND", b"")
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
