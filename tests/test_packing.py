"""Packing: streams that are compressed before the PDF is written give the bytes that WeasyPrint writes by itself."""

import pytest
from test_copies import NAMES, sheet

from booklet.pages.prepress import pdf
from booklet.pages.prepress.packing import packed


@pytest.mark.parametrize("names", [(), NAMES[:2]], ids=["alone", "copies"])
def test_a_packed_file_is_byte_for_byte_what_is_written_without(monkeypatch, names):
    page = sheet(False)
    made = pdf.make_pdfs(page, names)
    monkeypatch.setattr(pdf, "pack", lambda pdf, but=(): None)
    assert made == pdf.make_pdfs(page, names)


def test_streams_are_packed_before_the_file_is_written(monkeypatch):
    seen = []

    def looked(pdf, but=()):
        packing(pdf, but)
        seen.extend(each for each in pdf.objects if getattr(each, "compress", False))

    packing = pdf.pack
    monkeypatch.setattr(pdf, "pack", looked)
    pdf.make_pdf(sheet(False))
    assert seen == []


def test_an_object_in_a_stream_says_its_data():
    class Number:
        data = b"<</MCID 3>>"

    whole = packed(["/P", Number(), b"BDC"])
    assert whole == packed([b"/P\n<</MCID 3>>\nBDC"])
