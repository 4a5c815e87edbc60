"""Floor 0: numbers of books and articles: ISBN (ISO 2108) and the bars of an EAN-13 symbol (ISO/IEC 15420).

Sums and tables are those of the GS1 General Specifications, sections 5.2.1 and 7.9, and of the ISBN Users' Manual.
"""

from __future__ import annotations

import re

MODULES = 95
"""Of a symbol without the quiet zones beside it."""
QUIET = 11, 7
"""Modules left free on the left and the right."""
_ODD = [
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
_EVEN = [code[::-1].translate(str.maketrans("01", "10")) for code in _ODD]
_RIGHT = [code.translate(str.maketrans("01", "10")) for code in _ODD]
_SETS = [
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
_GUARD, _MIDDLE = "101", "01010"


def check_digit(first: str) -> str:
    """The last digit of a number of 13 whose first 12 are these: weights 1 and 3 in turn, filled up to tens."""
    total = sum(int(digit) * (3 if place % 2 else 1) for place, digit in enumerate(first))
    return str(-total % 10)


def check_sign_of_ten(first: str) -> str:
    """The last sign of an old ISBN whose first 9 digits are these: weights 10 to 2, filled up to elevens; X is ten."""
    total = sum(int(digit) * (10 - place) for place, digit in enumerate(first))
    return "X" if -total % 11 == 10 else str(-total % 11)


def digits_of(written: str) -> str:
    """A number without the hyphens and spaces in it."""
    return re.sub(r"[\s\u2010-\u2013-]", "", written).upper()


def thirteen_of_ten(ten: str) -> str:
    """The ISBN of 13 digits for an old one of 10."""
    return f"978{ten[:9]}{check_digit('978' + ten[:9])}"


def bars(number: str) -> str:
    """The 95 modules of the EAN-13 symbol of 13 digits, 1 for a bar and 0 for a space, from left to right."""
    sets = _SETS[int(number[0])]
    left = "".join(
        (_ODD if kind == "A" else _EVEN)[int(digit)]
        for kind, digit in zip(sets, number[1:7], strict=True)
    )
    right = "".join(_RIGHT[int(digit)] for digit in number[7:])
    return _GUARD + left + _MIDDLE + right + _GUARD
