"""Floor 11, printing: how the pages of a booklet come to the press, and what a reader may ask for."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from booklet.arithmetic import quoted
from booklet.measure import MM_PER_INCH, Length, MeasureError, read_length

USUAL_SHEET = Length(Fraction(1, 10) / MM_PER_INCH)
"""0.1 mm: a sheet of ordinary copy paper (common practice)."""
THICKEST = Length(Fraction(1) / MM_PER_INCH)


class PrintingError(ValueError):
    """What was asked for cannot be printed so; the message is a lower-case sentence for the reader."""


@dataclass(frozen=True, slots=True)
class Printing:
    """What is asked of the PDF files. `creep` is the thickness of one sheet of paper."""

    imposed: bool = False
    creep: Length = USUAL_SHEET
    crop_marks: bool = False
    low_ink: bool = False


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
