"""Floor 0: exact lengths, read and printed."""

from __future__ import annotations

import contextlib
import math
from fractions import Fraction

import pytest
from hypothesis import given, strategies as st

from booklet.kit import measure
from booklet.kit.measure import (
    EIGHTH,
    MILLIMETRE,
    Length,
    MeasureError,
    Printed,
    Rounding,
    exact_text,
    length_text,
    mixed,
    read_extent,
    read_length,
    read_number,
    snapped,
)


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("2 1/2 in", Fraction(5, 2)),
        ("2½", Fraction(5, 2)),
        ('2 ½"', Fraction(5, 2)),
        ("2.5in", Fraction(5, 2)),
        ("3/4 in", Fraction(3, 4)),
        ("64 mm", Fraction(320, 127)),  # 64 / 25.4 = 640/254
        ("6.4 cm", Fraction(320, 127)),
        ("1 yd", Fraction(36)),
        ("1/8 yd", Fraction(9, 2)),  # 36 / 8
        ("0.5 m", Fraction(2500, 127)),  # 500 / 25.4
        ("(1 + 2) * 3/4", Fraction(9, 4)),
        ("-0.5", Fraction(-1, 2)),
        ("-2 1/2", Fraction(-5, 2)),
        ("2 1/2 + 1 1/4", Fraction(15, 4)),
        ("sqrt(9/4)", Fraction(3, 2)),
        ("2 * √16 - 1", Fraction(7)),
    ],
)
def test_exact_lengths(text: str, inches: Fraction) -> None:
    assert read_length(text) == Length(inches)


@pytest.mark.parametrize(
    ("text", "value"),
    [("1 + √2", 1 + math.sqrt(2)), ("3 / sqrt(2)", 3 / math.sqrt(2)), ("√(3)/2", math.sqrt(3) / 2)],
)
def test_roots(text: str, value: float) -> None:
    assert float(read_number(text)) == pytest.approx(value, abs=1e-12)


def test_a_number_of_design_units_is_not_a_length() -> None:
    extent = read_extent("1 1/2 u", bare="in")
    assert extent.in_units and extent.value == Fraction(3, 2)
    assert extent.inches(Length.of("3/4 in")) == 1.125  # 1.5 * 0.75
    with pytest.raises(MeasureError, match="design units"):
        read_length("2 u")


@pytest.mark.parametrize(
    "text",
    ["", "in", "1/0", "1 1/0", "abc", "1 2", "2 ** 3", "2√2x", "0x10", "1_000", "1e5", "1j", "__import__('os')",
     "√-1", "sqrt(-4)", "(", ")", "1 +", "1 if 2else 3", "1,5", "2 1/2 1/2", "().x", "9" * 199, "9" * 201,
     "(" * 100 + "1" + ")" * 100, "-" * 150 + "1", "100001 in", "nan", "inf", "1\n2", "½½"],
)  # fmt: skip
def test_what_is_no_length(text: str) -> None:
    with pytest.raises(MeasureError) as fault:
        read_length(text)
    message = str(fault.value)
    assert "\n" not in message and len(message) < 120


def test_a_word_that_ends_as_a_unit_does_is_told_whole() -> None:
    with pytest.raises(MeasureError, match="`top and bottom` is not a number"):
        read_length("top and bottom")  # it ends in m


@pytest.mark.parametrize(
    ("text", "instead"),
    [
        ("2√3", "2*√3"),
        ("2 sqrt(3)", "2*sqrt(3)"),
        ("2(1 + 1)", "2*(1 + 1)"),
        ("(1 + 1)√3", "(1 + 1)*√3"),
        ("(1 + 1)3", "(1 + 1)*3"),
    ],
)
def test_a_sign_left_out_is_put_in(text: str, instead: str) -> None:
    with pytest.raises(MeasureError) as fault:
        read_number(text)
    assert fault.value.hint == f"write `{instead}`"
    read_number(instead)


@pytest.mark.parametrize("text", ["1 2", "2 1/2 1/2", "2)", "√", ")", "2.5.5"])
def test_where_who_knows_what_is_left_out_nothing_is_put_in(text: str) -> None:
    with pytest.raises(MeasureError) as fault:
        read_number(text)
    assert fault.value.hint is None


def test_bare_numbers_take_the_unit_of_the_place() -> None:
    assert read_extent(3, bare="u").in_units
    assert read_length(2.54, bare="cm") == Length.of(1)  # 1 in = 2.54 cm
    assert read_extent(1e-7, bare="in").value == Fraction(1, 10**7)


def test_printing() -> None:
    assert str(Length.of("3 7/8") + Length.of("1/8")) == "4"
    assert mixed(Fraction(-5, 2)) == "-2 1/2"
    assert length_text(Length.of("4.51"), "inch", EIGHTH, Rounding.UP) == "4 5/8"  # next 1/8 above
    assert length_text(Length.of("4.51"), "inch", EIGHTH, Rounding.NEAREST) == "4 1/2"
    assert length_text(Length.of("2 1/2"), "cm") == "6.4"  # 6.35 cm, halves up
    assert length_text(Length.of("2 1/2"), "cm", how=Rounding.DOWN) == "6.3"


def test_rounding_keeps_what_is_a_multiple_already() -> None:
    nearly = Length(Fraction(5, 2) + Fraction(1, 10**8))
    assert nearly.rounded(EIGHTH, Rounding.UP) == Length.of("2 1/2")
    assert Length.of("6.4 cm").rounded(MILLIMETRE, Rounding.UP) == Length.of("6.4 cm")


def test_snapping_finds_the_simple_fraction() -> None:
    assert snapped(3.875000001) == Fraction(31, 8)
    assert snapped(6.4 / 2.54) == Fraction(320, 127)


@given(st.fractions(min_value=-1000, max_value=1000, max_denominator=64))
def test_printed_and_read_again_is_the_same(value: Fraction) -> None:
    assert read_number(mixed(value)) == value


@given(st.text(alphabet='0123456789 +-*/()√½.sqrtinu"', max_size=30))
def test_reading_gives_a_finite_number_or_a_fault(text: str) -> None:
    with contextlib.suppress(MeasureError):
        assert math.isfinite(float(read_extent(text, "in").value))


@given(
    st.fractions(min_value=0, max_value=100, max_denominator=1000),
    st.sampled_from([Fraction(1, 8), Fraction(1, 16), MILLIMETRE]),
)
def test_rounding_up_is_never_below(value: Fraction, step: Fraction) -> None:
    up = Length(value).rounded(step, Rounding.UP)
    assert Length(value) - up < Length(Fraction(1, 10**5))
    assert (up.inches / step).denominator == 1


def test_lengths_on_a_scale_are_printed_as_they_are():
    # a row of eight patches of 1 9/16 in measures 12 1/2 in, and 13 in with its allowances
    assert length_text(Length.of("1 9/16"), "inch") == "1 9/16"
    assert length_text(Length.of("2 1/16"), "inch", EIGHTH, Rounding.UP) == "2 1/16"
    assert (
        length_text(Length.of("2 1/16"), "inch", EIGHTH, Rounding.DOWN) == "2"
    )  # what is left over
    assert length_text(Length.of("0.75 cm"), "cm") == "0.75"
    assert length_text(Length.of("10.25 cm"), "cm", how=Rounding.UP) == "10.25"
    assert length_text(Length.of("18 in"), "cm") == "45.7"  # converted: to the millimetre


@pytest.mark.parametrize(
    ("written", "units", "printed"),
    [
        ("1/4 in", "inch", "1/4"),
        ("3/16 in", "inch", "3/16"),
        ("0.75 cm", "cm", "0.75"),
        ("7.5 mm", "cm", "0.75"),
        ("6 mm", "cm", "0.6"),
        ("0.625 cm", "cm", "0.625"),
        ("1/4 in", "cm", "0.635"),  # 6.35 mm exactly
        ("10 cm", "cm", "10"),
    ],
)
def test_an_allowance_is_never_rounded(written, units, printed):
    assert exact_text(Length.of(written), units) == printed


@pytest.mark.parametrize(
    ("written", "units", "kind", "said"),
    [
        ("18 in", "cm", Printed.ABOUT, "46"),  # 45.72 cm
        ("45 cm", "cm", Printed.ABOUT, "45"),
        ("45 cm", "inch", Printed.ABOUT, "18"),  # 17.72 in
        ("10 in", "cm", Printed.ABOUT, "25"),  # 25.4 cm
        ("17 1/2 in", "inch", Printed.ABOUT, "17 1/2"),  # as it was written
        ("1 1/2 in", "cm", Printed.ABOUT, "4"),  # 3.81 cm
        ("2.5 mm", "cm", Printed.ABOUT, "0.25"),  # too short to be made rougher
        ("102 cm", "cm", Printed.ENOUGH, "102"),
        ("42 in", "cm", Printed.ENOUGH, "107"),  # 106.68 cm: no less will do
        ("102 cm", "inch", Printed.ENOUGH, "40 1/4"),  # 40.16 in
        ("2 1/2 in", "cm", Printed.FINISHED, "6.4"),  # 6.35 cm
        ("2 1/2 in", "cm", Printed.CUT, "6.4"),
        ("2 1/2 in", "cm", Printed.LEFT, "6.3"),
        ("1/4 in", "cm", Printed.EXACT, "0.635"),
    ],
)
def test_every_rounding_of_a_printed_length_has_a_name(written, units, kind, said):
    assert measure.printed(Length.of(written), units, kind) == said


@pytest.mark.parametrize(
    ("degrees", "said"), [(60.0, "60"), (63.4349, "63.4"), (22.5, "22.5"), (89.97, "90")]
)
def test_an_angle_is_printed_to_a_tenth(degrees, said):
    assert measure.angle_text(degrees) == said
