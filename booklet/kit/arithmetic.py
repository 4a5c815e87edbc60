"""Floor 0: plain arithmetic as a designer writes it: 2 1/2, 1 + √2, 3 / sqrt(2). Nothing else is run."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from fractions import Fraction
from operator import add, mul, sub, truediv
from typing import Any, NoReturn

from booklet.kit.bounds import DEEPEST_ARITHMETIC, LONGEST_ARITHMETIC

Number = Fraction | float

_VULGAR = {
    "½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
    "⅓": "1/3", "⅔": "2/3", "⅙": "1/6", "⅚": "5/6", "⅕": "1/5", "⅖": "2/5", "⅗": "3/5", "⅘": "4/5",
}  # fmt: skip
_MIXED = re.compile(r"([0-9]+)\s+([0-9]+)\s*/\s*([0-9]+)")
_COMMA = re.compile(r"[0-9]+,[0-9]+")
_FIGURES = "0123456789."
_OPENING = ("√", "sqrt", "(")
_TOKEN = re.compile(
    r"\s*(?:[0-9]+\s+[0-9]+\s*/\s*[0-9]+(?![0-9.])|[0-9]+\.[0-9]*|[0-9]+|\.[0-9]+|sqrt|√|[-+*/()])\s*"
)


class MeasureError(ValueError):
    """Text that is not a length or number: a lower-case sentence for the reader, and what to write
    instead where that is plain."""

    def __init__(self, message: str, hint: str | None = None) -> None:
        super().__init__(message)
        self.hint = hint


def read_number(text: str) -> Number:
    """The value of plain arithmetic: + - * / ( ), √ or sqrt(); exact where it is rational.

    `2 1/2` and `2½` are mixed numbers. Raises MeasureError for anything else, for division by zero
    and for a root of a negative number.
    """
    plain = text.strip()
    if len(plain) > LONGEST_ARITHMETIC:
        raise MeasureError(f"this arithmetic is longer than {LONGEST_ARITHMETIC} characters")
    for sign, spelled in _VULGAR.items():
        plain = re.sub(rf"(?<=\d)\s*{sign}", f" {spelled} ", plain).replace(sign, f"({spelled})")
    arithmetic = _Arithmetic(plain, text)
    try:
        value = arithmetic.whole()
        if not math.isfinite(float(value)):
            raise OverflowError
    except OverflowError:
        raise MeasureError(f"{quoted(text)} is larger than any quilt") from None
    return value


def quoted(text: str) -> str:
    """What was written, in backticks, on one line and cut after 40 characters."""
    plain = " ".join(text.replace("`", "'").split())
    return f"`{plain if len(plain) <= 40 else plain[:39] + '…'}`"


class _Arithmetic:
    """Reads arithmetic by descent: a sum of products of signed numbers, roots and brackets."""

    def __init__(self, plain: str, text: str) -> None:
        self._text, self._plain, self._place, self._depth = text, plain, 0, 0
        self._starts: list[int] = []  # where each token begins
        self._tokens = self._split(plain)

    def _split(self, plain: str) -> list[str]:
        """The tokens; a mixed number is one."""
        tokens, place = [], 0
        while place < len(plain):
            token = _TOKEN.match(plain, place)
            if token is None:
                self._refuse()
            tokens.append(token[0].strip())
            self._starts.append(place)
            place = token.end()
        return tokens

    def _refuse(self) -> NoReturn:
        plain = self._text.strip()
        pointed = f"write it with a point: `{plain.replace(',', '.')}`"
        hint = pointed if _COMMA.fullmatch(plain) else None
        raise MeasureError(f"{quoted(self._text)} is not a number or plain arithmetic", hint)

    def _next(self, *wanted: str) -> str | None:
        """The next token if it is one of those wanted, and step past it."""
        if self._place < len(self._tokens) and self._tokens[self._place] in wanted:
            self._place += 1
            return self._tokens[self._place - 1]
        return None

    def whole(self) -> Number:
        """The value of all tokens."""
        value = self._sum()
        if self._place < len(self._tokens):
            self._unjoined()
        return value

    def _unjoined(self) -> NoReturn:
        """Refuse two values side by side, with the sign that is missing between them: 2√3, 2(1 + 1)."""
        after = self._tokens[self._place]
        if after not in _OPENING and self._tokens[self._place - 1] != ")":
            self._refuse()  # two bare numbers: who knows what is missing between them
        if after == ")":
            self._refuse()
        before = self._plain[: self._starts[self._place]].strip()
        fit = f"{before}*{self._plain[self._starts[self._place] :].strip()}"
        message = f"{quoted(self._text)} has no sign of arithmetic before `{after}`"
        raise MeasureError(message, f"write `{fit}`")

    def _sum(self) -> Number:
        value = self._product()
        while sign := self._next("+", "-"):
            term = self._product()
            value = _exact_or_float(value, term, add if sign == "+" else sub)
        return value

    def _product(self) -> Number:
        value = self._signed()
        while sign := self._next("*", "/"):
            factor = self._signed()
            if sign == "/" and factor == 0:
                raise MeasureError(f"{quoted(self._text)} divides by zero")
            value = _exact_or_float(value, factor, mul if sign == "*" else truediv)
        return value

    def _signed(self) -> Number:
        """A number, a bracket or a root, perhaps with signs in front."""
        self._depth += 1
        if self._depth > DEEPEST_ARITHMETIC:
            self._refuse()
        value = self._unsigned()
        self._depth -= 1
        return value

    def _unsigned(self) -> Number:
        if sign := self._next("+", "-"):
            value = self._signed()
            return -value if sign == "-" else value
        if self._next("√", "sqrt"):
            return _root(self._signed(), self._text)
        if self._next("("):
            value = self._sum()
            if not self._next(")"):
                self._refuse()
            return value
        if self._place == len(self._tokens) or self._tokens[self._place][0] not in _FIGURES:
            self._refuse()
        self._place += 1
        return self._number(self._tokens[self._place - 1])

    def _number(self, token: str) -> Fraction:
        """A decimal, a whole number, or a mixed number such as 2 1/2; exact."""
        mixed_number = _MIXED.fullmatch(token)
        if mixed_number is None:
            return Fraction(token)
        whole, top, bottom = (int(part) for part in mixed_number.groups())
        if bottom == 0:
            raise MeasureError(f"{quoted(self._text)} divides by zero")
        return whole + Fraction(top, bottom)


def _exact_or_float(a: Number, b: Number, work: Callable[[Any, Any], Number]) -> Number:
    """The result of + - * / : exact where both are."""
    if isinstance(a, Fraction) and isinstance(b, Fraction):
        return work(a, b)
    return work(float(a), float(b))


def _root(value: Number, text: str) -> Number:
    """The square root: exact for a square of a fraction, else a float."""
    if float(value) < 0:
        raise MeasureError(f"{quoted(text)} takes the root of a negative number")
    if isinstance(value, Fraction):
        top, bottom = math.isqrt(value.numerator), math.isqrt(value.denominator)
        if top * top == value.numerator and bottom * bottom == value.denominator:
            return Fraction(top, bottom)
    return math.sqrt(value)
