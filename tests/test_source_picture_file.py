"""Whole pictures pass; broken, empty and huge ones are told apart by their bytes."""

import io
import zlib

import pytest
from hypothesis import given, strategies as st
from picture_bytes import jpeg, png, zeros
from PIL import Image, ImageCms

from booklet.source.files.picture_file import printed_picture


def picture_fault(data):
    """The fault of a picture, or None."""
    return printed_picture(data, (300, 300)).fault


@pytest.mark.parametrize("size", [(1, 1), (7, 3), (640, 480)])
def test_whole_pictures_pass(size):
    assert picture_fault(png(*size)) is None
    assert picture_fault(jpeg(*size)) is None


@pytest.mark.parametrize("mode", ["1", "L", "LA", "P", "RGB", "RGBA", "I;16"])
def test_every_kind_of_png_passes(mode):
    out = io.BytesIO()
    Image.new(mode, (9, 5)).save(out, "PNG")
    assert picture_fault(out.getvalue()) is None


def test_a_jpeg_in_passes_and_with_colours_passes():
    out = io.BytesIO()
    Image.new("RGB", (40, 30), "red").save(out, "JPEG", progressive=True)
    assert picture_fault(out.getvalue()) is None


@pytest.mark.parametrize(
    "data",
    [
        b"\x89PNG\r\n\x1a\n",
        b"\x89PNG\r\n\x1a\n" + b"x" * 50,
        png()[:-5],  # the end is cut off
        png()[:40] + b"?" + png()[41:],  # one byte changed: the check sum is wrong
        png(4, 4, packed=zlib.compress(b"\0\x80")),  # fewer pixels than the head says
        png(0, 3),
        b"\xff\xd8\xff\xe0" + b"0" * 20,
        jpeg()[: len(jpeg()) // 2],
        b"\xff\xd8\xff\xd9",
    ],
)
def test_broken_pictures_are_told(data, monkeypatch):
    # WeasyPrint, if another test has loaded it here, lets Pillow pass over what is missing; the worker loads none
    monkeypatch.setattr("PIL.ImageFile.LOAD_TRUNCATED_IMAGES", False)
    fault = picture_fault(data)
    assert fault is not None and fault[:2] == ("unreadable-source", "is a broken picture")


def test_a_picture_of_many_pixels_is_refused_by_its_head():
    fault = picture_fault(png(60_000, 60_000, packed=zeros(0)))  # 3600 million, a few bytes
    assert fault == (
        "too-large",
        "has 60000 x 60000 pixels; at most 50 million are read",
        "make the picture smaller",
    )


def test_other_files_are_no_pictures():
    assert picture_fault(b"GIF89a")[1] == "is neither a PNG nor a JPEG picture"


@given(st.binary(max_size=200), st.sampled_from([b"", b"\x89PNG\r\n\x1a\n", b"\xff\xd8\xff"]))
def test_any_bytes_get_an_answer(data, start):
    picture_fault(start + data)


@given(st.data())
def test_a_damaged_picture_gets_an_answer(data):
    whole = bytearray(data.draw(st.sampled_from([png(5, 5), jpeg(5, 5)])))
    at = data.draw(st.integers(0, len(whole) - 1))
    whole[at] = data.draw(st.integers(0, 255))
    picture_fault(bytes(whole))


def photograph(size=(60, 40), kind="JPEG", turn=1, **more):
    """A picture, red above and blue below, with what a camera writes beside it: place, maker, a comment."""
    made = Image.new("RGB", size, "red")
    made.paste("blue", (0, size[1] // 2, *size))
    exif = Image.Exif()
    exif[0x0112], exif[0x010F] = turn, "Example Camera"
    exif.get_ifd(0x8825)[1] = "N"  # the place: north
    out = io.BytesIO()
    if kind == "JPEG":
        more |= {"comment": b"taken at home", "quality": 95}
    made.save(out, kind, exif=exif, dpi=(72, 72), **more)
    return out.getvalue()


def remade(data, most=(300, 300)):
    made = printed_picture(data, most)
    assert made.fault is None
    return made.data, Image.open(io.BytesIO(made.data))


@pytest.mark.parametrize("kind", ["JPEG", "PNG"])
@pytest.mark.parametrize("most", [(300, 300), (20, 20)])
def test_nothing_is_left_of_what_a_camera_wrote(kind, most):
    data, picture = remade(photograph(kind=kind), most)
    assert picture.format == kind and not picture.getexif() and "comment" not in picture.info
    for word in (b"Exif", b"eXIf", b"Example", b"home", b"iCCP", b"tEXt"):
        assert word not in data


def test_a_picture_has_at_most_the_pixels_it_is_printed_with():
    # 60 x 40 into a square of 20: 20 wide, and 40 / 60 * 20 = 13 high
    assert remade(photograph(), (20, 20))[1].size == (20, 13)
    assert remade(photograph(), (300, 300))[1].size == (60, 40)  # never made larger


def test_a_camera_held_upright_is_turned():
    """Turn 6 (EXIF 2.32, tag 0x0112): the first row is the right-hand side, so red stands on the right."""
    _, picture = remade(photograph(turn=6))
    assert picture.size == (40, 60)
    (red, _, blue), (other_red, _, other_blue) = (
        picture.getpixel((35, 30)),
        picture.getpixel((4, 30)),
    )
    assert red > 200 > 60 > blue and other_blue > 200 > 60 > other_red


def test_the_same_picture_gives_the_same_bytes():
    assert remade(photograph(), (20, 20))[0] == remade(photograph(), (20, 20))[0]


def test_a_jpeg_that_fits_keeps_its_steps_of_grey():
    before = photograph()
    _, picture = remade(before)
    there = Image.open(io.BytesIO(before))
    assert picture.quantization == there.quantization


def test_colours_of_another_profile_are_those_of_screens():
    """In a profile whose red is the screen's green, what is written red is seen green (ICC.1: the profile says)."""
    swapped = ImageCms.createProfile("sRGB")
    own = ImageCms.ImageCmsProfile(swapped).tobytes()
    first, second = (
        own.index(b"rXYZ"),
        own.index(b"gXYZ"),
    )  # the table of tags: their names exchanged
    table = bytearray(own)
    table[first : first + 4], table[second : second + 4] = b"gXYZ", b"rXYZ"
    _, picture = remade(photograph(icc_profile=bytes(table)))
    red, green, _ = picture.getpixel((30, 5))
    assert green > 200 > 60 > red


def test_holes_of_a_png_stay_holes():
    out = io.BytesIO()
    Image.new("RGBA", (9, 5), (255, 0, 0, 0)).save(out, "PNG")
    assert remade(out.getvalue())[1].getpixel((4, 2))[3] == 0


@pytest.mark.parametrize("mode", ["1", "L", "LA", "P", "RGB", "RGBA", "I;16"])
def test_every_kind_of_png_is_made_smaller(mode):
    out = io.BytesIO()
    Image.new(mode, (90, 50)).save(out, "PNG")
    assert remade(out.getvalue(), (30, 30))[1].size == (30, 17)  # 50 / 3, rounded


@pytest.mark.parametrize("count", [0, 5, 999_999, 1_000_000, 3_500_001])
def test_what_swells_in_the_tests_is_what_zlib_would_make(count):
    assert zlib.decompress(zeros(count)) == bytes(count)
