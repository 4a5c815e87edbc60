"""Reading printed figures: "2½", "5 3⁄16" and "70,6" are numbers again, whatever the language."""

import re
import unicodedata

_VULGAR = "¼½¾⅛⅜⅝⅞"
_SMALL = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉", "01234567890123456789")
_FIGURE = re.compile(
    rf"(?P<whole>\d+(?:[.,]\d+)?)?(?P<space>[\s\u202f\xa0]?)"
    rf"(?:(?P<vulgar>[{_VULGAR}])|(?P<top>\d+)[⁄/](?P<bottom>\d+))|(?P<plain>\d+(?:[.,]\d+)?)"
)


def numbers(text):
    """All numbers of a text in order, mixed fractions and decimal commas read."""
    found = []
    for match in _FIGURE.finditer(text.translate(_SMALL)):
        if match["plain"]:
            found.append(float(match["plain"].replace(",", ".")))
            continue
        whole = float((match["whole"] or "0").replace(",", "."))
        if match["vulgar"]:
            whole += unicodedata.numeric(match["vulgar"])
        else:
            whole += int(match["top"]) / int(match["bottom"])
        found.append(whole)
    return found


_WITH_UNIT = re.compile(
    rf"((?:\d+(?:[.,]\d+)?)?[\s\u202f\xa0]?(?:[{_VULGAR}]|\d+[⁄/]\d+)|\d+(?:[.,]\d+)?)[\s\u202f\xa0]*(in|po|inch|cm)\b"
)


def lengths(text):
    """All lengths of a text in inches, those that stand with in or cm."""
    found = []
    for figure, unit in _WITH_UNIT.findall(text.translate(_SMALL)):
        value = numbers(figure)[-1]
        found.append(value if unit != "cm" else value / 2.54)
    return found


_TIMES = re.compile(
    rf"×[\s\u202f\xa0]*(\d+)(?![\d.,⁄/{_VULGAR}])(?![\s\u202f\xa0]*(?:in|po|inch|cm)\b)"
)


def counts(text):
    """The numbers that follow a times sign before the end of a part of a list: "A square × 12"."""
    return [int(n) for n in _TIMES.findall(text)]
