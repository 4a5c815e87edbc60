"""Whole pictures pass; broken, empty and huge ones are told apart by their bytes."""

import io

import pytest
from hypothesis import given
from hypothesis import strategies as st
from picture_bytes import jpeg, png
from PIL import Image

from booklet.source.files.picture_file import picture_fault


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
        png(4, 4, pixels=b"\0\x80"),  # fewer pixels than the head says
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
    fault = picture_fault(png(60_000, 60_000, pixels=b""))  # 3600 million, a few bytes
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
