"""Lines are filled before they are broken, also where a fraction follows that is an element of its own."""

import io
from itertools import groupby, pairwise

import pdfplumber
import pytest

from booklet.pages.prepress.pdf import make_pdf
from booklet.pages.texts.true_fractions import quantities

WORDS = (
    "it takes 2 times so long to go over 11/16 in of seam.",
    "it takes so long to go over each of the seams 9 11/16 in of it.",
)
STYLE = (
    "@page { size: 240pt 14000pt; margin: 0 } p { margin: 0; font: 8pt/12pt Source Sans Pro } "
    ".frac, .mixed { white-space: nowrap }"
)


def lines_of(words):
    """The words of a page, line by line."""
    ordered = sorted(words, key=lambda word: (round(word["bottom"]), word["x0"]))
    return [list(line) for _, line in groupby(ordered, key=lambda word: round(word["bottom"]))]


@pytest.mark.parametrize("words", WORDS)
def test_no_word_stands_on_a_new_line_that_had_room_on_the_one_before(words):
    """175 widths from 60 pt on, 0.8 pt apart: at some of them a line is full but for the space of 1.6 pt before the fraction."""
    widths = [60 + n * 0.8 for n in range(175)]
    rows = "".join(f'<p style="width: {wide}pt">{quantities(words)}</p>' for wide in widths)
    made = make_pdf(f"<html lang=en><title>Lines</title><style>{STYLE}</style><body>{rows}</body>")
    with pdfplumber.open(io.BytesIO(made.data)) as opened:
        lines = lines_of(opened.pages[0].extract_words())
    left = iter(widths)
    for line, below in pairwise([*lines, lines[0]]):
        if line[0]["text"] == "it":
            wide = next(left)
        if below[0]["text"] != "it":
            figure = below[0]["text"][0] in "19"  # no break from it to its unit
            unit = next(w["x1"] for w in below if not figure or w["text"].endswith("in"))
            needed = line[-1]["x1"] + 2 + unit - below[0]["x0"]  # a space is 1.6 pt
            assert needed > wide - 0.5, f"{wide} pt: {below[0]['text']} had room"
    assert next(left, None) is None
