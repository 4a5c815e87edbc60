"""ISBN check digits and EAN-13 bars against the worked examples and tables of the standards."""

import pytest

from booklet.drawing.bar_code import MODULE, bar_boxes, bar_code
from booklet.kit.article_numbers import bars, check_digit, check_sign_of_ten, thirteen_of_ten
from booklet.pattern import Isbn

# GS1 General Specifications, section 5.2.1.2, element patterns of number sets A, B and C as modules (from memory).
SET_A = [
    "0001101",
    "0011001",
    "0010011",
    "0111101",
    "0100011",
    "0110001",
    "0101111",
    "0111011",
    "0110111",
    "0001011",
]
SET_B = [
    "0100111",
    "0110011",
    "0011011",
    "0100001",
    "0011101",
    "0111001",
    "0000101",
    "0010001",
    "0001001",
    "0010111",
]
SET_C = [
    "1110010",
    "1100110",
    "1101100",
    "1000010",
    "1011100",
    "1001110",
    "1010000",
    "1000100",
    "1001000",
    "1110100",
]
LEFT = [
    "AAAAAA",
    "AABABB",
    "AABBAB",
    "AABBBA",
    "ABAABB",
    "ABBAAB",
    "ABBBAA",
    "ABABAB",
    "ABABBA",
    "ABBABA",
]


@pytest.mark.parametrize(
    ("number", "source"),
    [
        # 9*1 + 7*3 + 8*1 + 0*3 + 1*1 + 1*3 + 0*1 + 0*3 + 0*1 + 2*3 + 2*1 + 2*3 = 56; 60 - 56 = 4
        (
            "9780110002224",
            "ISBN Users' Manual, the worked example of the check digit (from memory)",
        ),
        # 9 + 21 + 8 + 0 + 3 + 0 + 6 + 12 + 0 + 18 + 1 + 15 = 93; 100 - 93 = 7
        ("9780306406157", "the example of ISO 2108 that handbooks give (from memory)"),
        # 6 + 2*3 + 9 + 1*3 + 0 + 4*3 + 1 + 5*3 + 0 + 0 + 2 + 1*3 = 57; 60 - 57 = 3
        ("6291041500213", "GS1, how to calculate a check digit: the example of GTIN-13"),
    ],
)
def test_the_last_digit_of_thirteen(number, source):
    assert check_digit(number[:12]) == number[12], source


def test_the_last_sign_of_ten_and_its_form_with_thirteen():
    # 0*10 + 3*9 + 0*8 + 6*7 + 4*6 + 0*5 + 6*4 + 1*3 + 5*2 = 130; 132 - 130 = 2
    assert check_sign_of_ten("030640615") == "2"
    assert thirteen_of_ten("0306406152") == "9780306406157"
    # 0*10 + 8*9 + 0*8 + 4*7 + 4*6 + 2*5 + 9*4 + 5*3 + 7*2 = 199; 209 - 199 = 10, written X
    assert check_sign_of_ten("080442957") == "X"


@pytest.mark.parametrize("first", range(10))
def test_every_first_digit_has_its_sets(first):
    number = f"{first}01234567890"
    number += check_digit(number)
    left = [
        (SET_A if kind == "A" else SET_B)[int(digit)]
        for kind, digit in zip(LEFT[first], number[1:7], strict=True)
    ]
    right = [SET_C[int(digit)] for digit in number[7:]]
    assert bars(number) == "101" + "".join(left) + "01010" + "".join(right) + "101"


def test_the_picture_has_the_modules_of_the_symbol_true_to_size():
    number = "9780306406157"
    seen = ["0"] * 95
    for box in bar_boxes(number):
        xs = [x for x, _ in box]
        first, last = (round(x / MODULE - 11, 6) for x in (min(xs), max(xs)))
        assert first == int(first) and last == int(last)
        seen[int(first) : int(last)] = "1" * int(last - first)
    assert "".join(seen) == bars(number)
    made = bar_code(Isbn("978-0-306-40615-7", number))
    # 11 + 95 + 7 modules of 0.33 mm: 37.29 mm
    assert made.true_size and made.width_mm == pytest.approx(37.29)
