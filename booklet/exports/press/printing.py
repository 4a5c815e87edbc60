"""Floor 11, printing: how the pages of a booklet come to the press, and what a reader may ask for."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

from booklet.kit.arithmetic import quoted
from booklet.kit.bounds import MOST_PROFILE
from booklet.kit.measure import MM_PER_INCH, Length, MeasureError, read_length
from booklet.kit.records import Record
from booklet.pages.prepress.variants import Attached
from booklet.pattern import Paper

USUAL_SHEET = Length(Fraction(1, 10) / MM_PER_INCH)
"""0.1 mm: a sheet of ordinary copy paper (common practice)."""
THICKEST = Length(Fraction(1) / MM_PER_INCH)
BLEED = {Paper.LETTER: "0.125in", Paper.HALF_LETTER: "0.125in", Paper.A4: "3mm", Paper.A5: "3mm"}
"""How far beyond the trim goes what runs to the edge: what print shops ask for (common practice)."""


class PrintingError(ValueError):
    """What was asked for cannot be printed so; the message is a lower-case sentence for the reader."""


class Printing(Record, kw_only=True):
    """What is asked of the PDF files. `creep` is the thickness of one sheet of paper; with a colour `profile` they are for
    a press, and with files `attached` for an archive."""

    imposed: bool = False
    creep: Length = USUAL_SHEET
    crop_marks: bool = False
    low_ink: bool = False
    profile: bytes = b""
    attached: tuple[Attached, ...] = ()


PLAIN = Printing()


def read_creep(text: str) -> Length:
    """The thickness of a sheet, such as `0.1 mm` or `0.004 in`; a bare number is millimetres.

    Raises PrintingError with a sentence.
    """
    try:
        number = Fraction(text.strip())
        length = Length(number / MM_PER_INCH)
    except (ValueError, ZeroDivisionError):
        try:
            length = read_length(text)
        except MeasureError:
            raise PrintingError(
                f"{quoted(text)} is no length; give the thickness of one sheet, as `0.1 mm`"
            ) from None
    if not Length.of(0) <= length <= THICKEST:
        raise PrintingError(
            f"no sheet of paper is {quoted(text.strip())} thick; give the thickness of one sheet, as `0.1 mm`"
        )
    return length


def read_profile(file: Path) -> bytes:
    """The colour profile of a press that stands in a file, as far as its head tells (ICC.1:2022, 7.2); whether it can be
    worked with is found by the worker that lays pages out. Raises PrintingError with a sentence."""
    shown = quoted(file.name)
    try:
        if not file.is_file():
            raise PrintingError(f"there is no file {shown}; give the profile your print shop names")
        with file.open("rb") as opened:
            data = opened.read(MOST_PROFILE + 1)
    except OSError:
        raise PrintingError(f"{shown} cannot be read; check who may read it") from None
    if len(data) > MOST_PROFILE:
        raise PrintingError(
            f"{shown} has more than {MOST_PROFILE // 2**20} MB, and no colour profile has so much"
        )
    if data[36:40] != b"acsp" or int.from_bytes(data[:4], "big") != len(data):
        raise PrintingError(
            f"{shown} is no colour profile, or not all of it; a profile of a press ends in `.icc`"
        )
    if (data[12:16], data[16:20]) not in ((b"prtr", b"CMYK"), (b"prtr", b"GRAY")):
        raise PrintingError(
            f"{shown} is a colour profile, but not of a press that prints CMYK or grey; ask your print shop for theirs"
        )
    return data


def with_bleed(html: str, paper: Paper) -> str:
    """A page whose ground runs on beyond the trim (`[data-bleed]` in `print.css`)."""
    bleed = BLEED[paper]
    rules = f"<style>@page {{ bleed: {bleed} }} :root {{ --bleed: {bleed} }}</style>\n</head>"
    marked = html.replace("<html ", "<html data-bleed ", 1)
    return marked.replace("</head>", rules, 1)
