"""Floor 11, inks: the colours of a written PDF turned into what a press prints, by a colour profile; the door to
LittleCMS.

Lines and letters of ours become black ink alone, whatever the profile says: in four inks that do not meet to a hair,
fine type is blurred (common practice). Everything else goes by the profile: sRGB in, relative colorimetric, with black
point compensation. What goes in are WeasyPrint's own PDF objects; they are changed in place before they are written.
"""

from __future__ import annotations

import io
import re
import struct
import zlib
from collections.abc import Iterator
from typing import Any

from booklet.drawing.ink.colours import DARK, GREY, PALE
from booklet.kit.colour import lightness, rgb

_COLOUR = re.compile(rb"([\d.]+) ([\d.]+) ([\d.]+) (rg|RG)")
_HAIR = "#b9bec4"
_BLACK = {rgb(DARK): 1.0, (0.0, 0.0, 0.0): 1.0} | {
    rgb(c): 1 - lightness(c) / 100 for c in (GREY, PALE, _HAIR)
}
"""How much black ink stands for the inks of our pages, by their red, green and blue."""
_SOLID = {"CMYK": "/DeviceCMYK", "GRAY": "/DeviceGray"}


class ProfileError(ValueError):
    """A profile cannot be worked with; the message is a lower-case sentence."""


class Inks:
    """What a press prints for each colour. Raises ProfileError."""

    def __init__(self, profile: bytes) -> None:
        from PIL import ImageCms

        try:
            opened = ImageCms.ImageCmsProfile(io.BytesIO(profile))
            self.space = opened.profile.xcolor_space.strip()
            if self.space not in _SOLID:
                raise ProfileError(
                    f"the colour profile is of {self.space}, and a press prints CMYK or grey"
                )
            self._turn = ImageCms.buildTransform(
                ImageCms.createProfile("sRGB"),
                opened,
                "RGB",
                "CMYK" if self.space == "CMYK" else "L",
                ImageCms.Intent.RELATIVE_COLORIMETRIC,
                ImageCms.Flags.BLACKPOINTCOMPENSATION,
            )
        except (OSError, ImageCms.PyCMSError, TypeError, ValueError) as fault:
            if isinstance(fault, ProfileError):
                raise
            raise ProfileError("the colour profile is damaged: LittleCMS cannot read it") from None
        self._known: dict[tuple[float, ...], tuple[float, ...]] = {}

    @property
    def parts(self) -> str:
        """A letter for each ink."""
        return "cmyk" if self.space == "CMYK" else "k"

    def of(self, colour: tuple[float, ...]) -> tuple[float, ...]:
        """The inks of a colour, all from 0 to 1: cyan, magenta, yellow and black, or the brightness of grey."""
        if colour not in self._known:
            self._known[colour] = self._found(colour)
        return self._known[colour]

    def _found(self, colour: tuple[float, ...]) -> tuple[float, ...]:
        for ours, black in _BLACK.items():
            if all(abs(a - b) < 1 / 510 for a, b in zip(ours, colour, strict=True)):
                return (0.0, 0.0, 0.0, black) if self.space == "CMYK" else (1 - black,)
        from PIL import Image

        pixel = Image.new("RGB", (1, 1), tuple(round(255 * part) for part in colour))
        found = self.picture(pixel).getpixel((0, 0))
        return tuple(part / 255 for part in (found if isinstance(found, tuple) else (found,)))

    def picture(self, image: Any) -> Any:
        """A picture in these inks."""
        from PIL import ImageCms

        return ImageCms.applyTransform(image, self._turn)


def print_with(pdf: Any, inks: Inks) -> None:
    """Turn all colours and photographs of a PDF into inks."""
    pages = [each for each in pdf.objects if isinstance(each, dict) and each.get("Type") == "/Page"]
    contents = {page["Contents"] for page in pages}
    for each in list(pdf.objects):
        extra = getattr(each, "extra", {})
        if extra.get("Subtype") == "/Image" and extra.get("ColorSpace") == "/DeviceRGB":
            _turn_picture(each, inks)
        elif (
            extra.get("Subtype") == "/Form" or "PatternType" in extra or each.reference in contents
        ):
            _turn_drawing(each, inks)
    _name_shadings(pdf)


def _turn_drawing(stream: Any, inks: Inks) -> None:
    """Turn the colours of what is drawn, also where it is packed (`form_objects.py`)."""
    if stream.extra.get("Filter") == "/FlateDecode":
        lines = zlib.decompress(stream.stream[0]).split(b"\n")
        stream.stream = [zlib.compress(b"\n".join(_turned(lines, inks)), 9)]
    else:
        stream.stream = list(_turned(stream.stream, inks))


def _turned(items: list[Any], inks: Inks) -> Iterator[Any]:
    for item in items:
        found = _COLOUR.fullmatch(item) if isinstance(item, bytes) else None
        if found is None:
            yield item
            continue
        made = inks.of(tuple(map(float, found.groups()[:3])))
        operator = "k" if inks.space == "CMYK" else "g"
        operator = operator if found[4] == b"rg" else operator.upper()
        yield (" ".join(f"{part:.4g}" for part in made) + f" {operator}").encode()


def _turn_picture(stream: Any, inks: Inks) -> None:
    """Turn a photograph; it is kept without loss."""
    made = inks.picture(_opened(stream))
    stream.stream = [zlib.compress(made.tobytes(), 9)]
    stream.compress = False
    stream.extra.pop("DecodeParms", None)
    stream.extra |= {"ColorSpace": _SOLID[inks.space], "Filter": "/FlateDecode"}


def _opened(stream: Any) -> Any:
    """The picture of a stream: JPEG, or the packed rows of a PNG."""
    from PIL import Image

    data = b"".join(getattr(item, "data", item) for item in stream.stream)
    if stream.extra["Filter"] != "/DCTDecode":
        head = struct.pack(">IIBBBBB", stream.extra["Width"], stream.extra["Height"], 8, 2, 0, 0, 0)
        chunks = ((b"IHDR", head), (b"IDAT", data), (b"IEND", b""))
        data = b"\x89PNG\r\n\x1a\n" + b"".join(map(_chunk, chunks))
    return Image.open(io.BytesIO(data)).convert("RGB")


def _chunk(named: tuple[bytes, bytes]) -> bytes:
    name, data = named
    return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))


def _name_shadings(pdf: Any) -> None:
    """Say that gradients are of sRGB: the press turns those itself."""
    import pydyf  # type: ignore[import-untyped]
    from PIL import ImageCms

    found = [each for each in pdf.objects if isinstance(each, dict) and "ShadingType" in each]
    coloured = [each for each in found if each["ColorSpace"] != "/DeviceGray"]
    if not coloured:
        return
    known = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    undated = known[:24] + struct.pack(">6H", 2000, 1, 1, 0, 0, 0) + known[36:]
    profile = pydyf.Stream([undated], {"N": 3}, compress=True)
    pdf.add_object(profile)
    for shading in coloured:
        shading["ColorSpace"] = pydyf.Array(("/ICCBased", profile.reference))


def grey_profile() -> bytes:
    """A profile of black ink on white paper, of brightness to the power of 2.2 (ICC.1:2001-04, 6.3.3.1: a monochrome
    output profile is a description, the white of its medium, a curve and a copyright)."""
    name = b"Grey, gamma 2.2"
    described = b"desc" + bytes(4) + struct.pack(">I", len(name) + 1) + name + b"\0" + bytes(78)
    tags = {
        b"desc": described,
        b"cprt": b"text" + bytes(4) + b"No copyright, use freely\0",
        b"wtpt": b"XYZ " + bytes(4) + struct.pack(">3i", 63190, 65536, 54061),  # D50, 1/65536
        b"kTRC": b"curv" + bytes(4) + struct.pack(">IH", 1, round(2.2 * 256)),
    }
    table, body, at = b"", b"", 128 + 4 + 12 * len(tags)
    for sign, data in tags.items():
        table += sign + struct.pack(">2I", at + len(body), len(data))
        body += data + bytes(-len(data) % 4)
    size = at + len(body)
    head = struct.pack(">I4sI4s4s4s", size, bytes(4), 0x02100000, b"prtr", b"GRAY", b"XYZ ")
    head += struct.pack(">6H", 2000, 1, 1, 0, 0, 0) + b"acsp" + bytes(24)
    head += struct.pack(">I3i", 1, 63190, 65536, 54061)  # intent; the illuminant D50
    return head.ljust(128, b"\0") + struct.pack(">I", len(tags)) + table + body
