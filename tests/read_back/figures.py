"""Reading printed figures: "2½", "5 3⁄16" and "70,6" are numbers again, whatever the language."""

import re
import unicodedata

_VULGAR = "¼½¾⅛⅜⅝⅞"
_SMALL = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉", "01234567890123456789")
_GAP = r"[\s\u202f\xa0]"
_MIXED = rf"(?:(?:\d+(?:[.,]\d+)?{_GAP}?)?[{_VULGAR}]|(?:\d+{_GAP})?\d+[⁄/]\d+|\d+(?:[.,]\d+)?)"
_FIGURE = re.compile(_MIXED)
_LENGTH = re.compile(rf"({_MIXED}){_GAP}*(in|po|inch|cm)\b")
_TIMES = re.compile(rf"×{_GAP}*(\d+)(?![\d.,⁄/{_VULGAR}])(?!{_GAP}*(?:in|po|inch|cm)\b)")


def value(figure):
    """The number that a printed figure stands for."""
    whole = 0.0
    for part in re.findall(rf"[{_VULGAR}]|\d+[⁄/]\d+|\d+(?:[.,]\d+)?", figure):
        if part in _VULGAR:
            whole += unicodedata.numeric(part)
        elif "⁄" in part or "/" in part:
            top, bottom = re.split("[⁄/]", part)
            whole += int(top) / int(bottom)
        else:
            whole += float(part.replace(",", "."))
    return whole


def numbers(text):
    """All numbers of a text in order, mixed fractions and decimal commas read."""
    return [value(figure) for figure in _FIGURE.findall(text.translate(_SMALL))]


def lengths(text):
    """All lengths of a text in inches, those that stand with a unit."""
    found = _LENGTH.findall(text.translate(_SMALL))
    return [value(figure) / (2.54 if unit == "cm" else 1) for figure, unit in found]


def counts(text):
    """The numbers that follow a times sign before the end of a part of a list: "A square × 12"."""
    return [int(n) for n in _TIMES.findall(text)]
