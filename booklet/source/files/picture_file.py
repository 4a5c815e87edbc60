"""Floor 2: whether a picture is whole, of a fit size and can be decoded; and the picture as it is printed: upright, in
the colours of screens, as large as it is shown, without anything that a camera wrote beside its pixels. The door to
Pillow, which only a worker goes through (`apart.py`).
"""

from __future__ import annotations

import base64
import io
import json
import warnings
from typing import IO

from PIL import Image, ImageCms, ImageOps, JpegImagePlugin, MpoImagePlugin, PngImagePlugin

from booklet.kit.bounds import MOST_PIXELS
from booklet.kit.records import Record
from booklet.walls.wire import receive, send_words

PNG, JPEG = b"\x89PNG\r\n\x1a\n", b"\xff\xd8\xff"
_BROKEN = "unreadable-source", "is a broken picture", "save it again as PNG or JPEG"
_TURN = 0x0112  # what EXIF calls the way a camera was held
_QUALITY = 90  # of a JPEG that is written anew: no trace of it can be seen at 300 dots an inch
Fault = tuple[str, str, str]


class PrintedPicture(Record):
    """A picture as it goes into a booklet, or the fault for which it cannot."""

    data: bytes = b""
    fault: Fault | None = None


def printed_picture(data: bytes, most: tuple[int, int]) -> PrintedPicture:
    """A PNG or JPEG picture in at most so many pixels across and down, the same kind of file with its pixels alone; or
    the code, the complaint and the next thing to do."""
    if not data.startswith((PNG, JPEG)):
        fault = "unreadable-source", "is neither a PNG nor a JPEG picture", "save it as PNG or JPEG"
        return PrintedPicture(fault=fault)
    try:
        width, height = _picture(data).size
        if width * height > MOST_PIXELS:
            limit = f"at most {MOST_PIXELS // 1_000_000} million are read"
            complaint = f"has {width} x {height} pixels; {limit}"
            return PrintedPicture(fault=("too-large", complaint, "make the picture smaller"))
        _picture(data).verify()  # the check sums of a PNG, which are passed over when it is decoded
        return (
            PrintedPicture(_remade(data, most))
            if width and height
            else PrintedPicture(fault=_BROKEN)
        )
    except MemoryError:
        raise
    except Exception:  # Pillow has many for what it cannot make sense of
        return PrintedPicture(fault=_BROKEN)


def _remade(data: bytes, most: tuple[int, int]) -> bytes:
    """The bytes of a sound picture made anew; the same every time. It is made smaller first: no second one of its size
    is ever held."""
    kind = "PNG" if data.startswith(PNG) else "JPEG"
    whole = _picture(data)
    lies = whole.getexif().get(_TURN, 1) in (5, 6, 7, 8)  # on its side
    box = (most[1], most[0]) if lies else most
    fits = whole.width <= box[0] and whole.height <= box[1]
    whole.draft("RGB", box)  # of a JPEG no more is decoded than is shown
    whole.load()
    plain = whole.mode in ("L", "RGB") and not whole.info.get("icc_profile")
    if fits and kind == "JPEG" and plain and _upright(whole):
        whole.info = {}
        return _written(whole, kind, True)
    small = whole if fits else _smaller(whole, box)
    made = ImageOps.exif_transpose(_in_screen_colours(small, kind))
    see_through = made.info.get("transparency") if kind == "PNG" else None
    made.info = {"transparency": see_through} if see_through is not None else {}
    return _written(made, kind, False)


def _smaller(picture: Image.Image, box: tuple[int, int]) -> Image.Image:
    """The picture in a box; colours that are only numbered are spelled out before they are mixed."""
    if picture.mode in ("P", "1", "PA"):
        picture = picture.convert("RGBA" if "transparency" in picture.info else "RGB")
    picture.thumbnail(box, Image.Resampling.LANCZOS, reducing_gap=3.0)
    return picture


def _upright(picture: Image.Image) -> bool:
    """Whether nothing says that it is to be turned."""
    return bool(picture.getexif().get(_TURN, 1) == 1)


def _written(picture: Image.Image, kind: str, kept: bool) -> bytes:
    """The file of a picture; of a JPEG that was only read its steps of grey are `kept`, so that nothing is lost."""
    out = io.BytesIO()
    if kind == "PNG":
        picture.save(out, "PNG")
    elif kept and isinstance(picture, JpegImagePlugin.JpegImageFile) and picture.format == "JPEG":
        picture.save(out, "JPEG", quality="keep", exif=b"", comment=b"")
    else:
        picture.save(out, "JPEG", quality=_QUALITY, exif=b"", comment=b"")
    return out.getvalue()


def _in_screen_colours(picture: Image.Image, kind: str) -> Image.Image:
    """The picture in the colours that screens and pages without a profile show it in (sRGB)."""
    profile = picture.info.get("icc_profile")
    deep = {"I;16": "L", "I": "L", "F": "L"}
    if picture.mode in deep:  # 16 bits of grey: the upper eight
        picture = picture.point(lambda grey: grey / 256).convert("L")
    if kind == "JPEG" and picture.mode not in ("L", "RGB", "CMYK"):
        picture = picture.convert("RGB")
    if profile and picture.mode in ("RGB", "CMYK"):
        try:
            own = ImageCms.ImageCmsProfile(io.BytesIO(profile))
            screen = ImageCms.createProfile("sRGB")
            made = ImageCms.profileToProfile(picture, own, screen, outputMode="RGB")
            return made if made is not None else picture
        except (ImageCms.PyCMSError, OSError, ValueError):  # a profile that is none says nothing
            pass
    return picture.convert("RGB") if picture.mode == "CMYK" else picture


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
    for kind in ("PNG", "JPEG"):  # and so does making one anew
        out, turned = io.BytesIO(), Image.Exif()
        turned[_TURN] = 6
        screen = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
        Image.new("RGB", (4, 2)).save(out, kind, exif=turned, icc_profile=screen)
        assert _remade(out.getvalue(), (1, 1))
    return ()


def serve(requests: IO[bytes], answers: IO[bytes]) -> None:
    """Make one picture ready; what is asked for is how many pixels it may have across and down."""
    across, down = json.loads(receive(requests))
    made = printed_picture(receive(requests), (across, down))
    told = base64.b64encode(made.data).decode("ascii")
    send_words(answers, {"fault": made.fault, "data": told})
