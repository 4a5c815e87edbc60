"""Binding, backing and batting: what goes round the top and below it."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st
from quilt_helpers import (
    backing,
    batting,
    binding,
    border,
    inches,
    pressed,
    quilt,
    setting,
    size,
    tiling,
)

from booklet.pattern import SetKind
from booklet.quilt import set_quilts
from booklet.quilt.finishing.backing import plan_backing
from booklet.quilt.finishing.binding import (
    bias_by_lines,
    bias_length,
    bias_square,
    bias_square_by_lines,
    plan_binding,
)
from booklet.quilt.finishing.panels import (
    best_layout,
    best_pieced,
    panels,
    panels_across,
    pieced,
)

TOP = inches(48), inches(60)


def test_straight_binding():
    plan = plan_binding(TOP, binding(), inches(40), "inch")
    assert plan is not None
    assert plan.length == inches(226)  # 2 * 48 + 2 * 60 + 10
    assert (
        plan.strips == 6
    )  # 6 strips have 5 joins, each of which takes a strip's width: 6 * 40 - 5 * 2 1/2 = 227 1/2
    assert plan.sums == (
        "binding, 4 sides: 2 × 48 + 2 × 60 + 10 = 226 in",
        "binding strips: 6 × 40 − 5 × 2 1/2 for the joins = 227 1/2 in, enough for 226 in",
    )


@given(st.integers(1, 4000), st.integers(5, 60))
def test_joined_strips_are_long_enough(length, usable):
    plan = plan_binding((inches(length), inches(0)), binding(), inches(usable), "inch")
    assert plan is not None
    # each join on the slant takes a strip width of one strip, and one strip less would not do
    assert plan.strips * usable - (plan.strips - 1) * 2.5 >= float(plan.length)
    fewer = plan.strips - 1
    assert not fewer or fewer * usable - (fewer - 1) * 2.5 < float(plan.length)


def test_bias_binding():
    plan = plan_binding(TOP, binding(bias=True), inches(40), "inch")
    assert plan is not None
    # √(226 * 2 1/2) = 23.77, + 1 for the seams, up to 25; 25 / √2 / 2 1/2 = 7.07: 7 * √2 * 24 = 237.6
    assert (plan.bias, plan.strips, plan.square) == (True, 1, inches(25))
    assert "a square of 25 in: 25 ÷ √2 ÷ 2 1/2, rounded down: 7 strips" in plan.sums[1]


def test_bias_square_wider_than_the_cloth_becomes_several():
    plan = plan_binding((inches(200), inches(200)), binding(bias=True), inches(40), "inch")
    assert plan is not None
    # 810 in: one square of √2025 + 1 = 46 in is too wide; two of √(407.5 * 2.5) + 1 = 32.9, 33 in, in which
    # lie 33 / √2 / 2.5 = 9.33: 9 * √2 * 32 = 407.29 < 407.5, so 34 in: 9 * √2 * 33 = 420
    assert (plan.strips, plan.square) == (2, inches(34))


def test_a_bias_square_holds_whole_strips_only():
    # 240 in of 2 1/4 in: the area rule takes √540 + 1 = 24.2, 25 in; but 25 / √2 / 2 1/4 = 7.86, and 7 strips
    # are 7 * √2 * 24 = 237.6 in long; 26 / √2 / 2 1/4 = 8.17: 8 * √2 * 25 = 282.8
    strip, lost = inches("9/4"), inches(1)
    assert bias_square(inches(240), strip, lost) == inches(25)
    assert float(bias_by_lines(inches(25), strip, lost)) == pytest.approx(237.59, abs=0.01)
    assert bias_square_by_lines(inches(240), strip, lost) == inches(26)


@given(st.integers(20, 700), st.integers(12, 30))
def test_the_bias_square_is_enough_when_it_is_cut_line_by_line(length, eighths):
    """Independent: the slanted piece cut into strips one by one, each as long as its edge less two seams."""
    strip = eighths / 8
    side = float(bias_square_by_lines(inches(length), inches(f"{eighths}/8"), inches(1)))
    left, got = side / 2**0.5, 0.0
    while left >= strip - 1e-9:
        left -= strip
        got += (
            side * 2**0.5 - 2 * (0.25 + 0.25) * 2**0.5
        )  # a seam at 45 degrees takes √2 of its two allowances
    assert got >= length - 1e-6


@given(st.integers(1, 2000), st.integers(4, 30), st.sampled_from(["0", "1/2", "1"]))
def test_bias_square_is_enough_and_not_a_step_more(length, eighths, loss):
    strip, lost = inches(f"{eighths}/8"), inches(loss)
    side = bias_square(inches(length), strip, lost)
    assert bias_length(side, strip, lost) >= inches(length)
    smaller = side - inches(1)
    assert smaller < lost or bias_length(smaller, strip, lost) < inches(length)


@pytest.mark.parametrize("bias", [False, True])
def test_cloth_too_narrow_for_binding(bias):
    assert plan_binding(TOP, binding(bias=bias), inches(2), "inch") is None


def test_backing_of_one_width():
    plan, *_ = plan_backing((inches(30), inches(50)), backing("4"), inches(40), "inch")
    # 38 x 58 in: one width of 40 covers 38
    assert (plan.widths, plan.seam, plan.length) == (1, "none", inches(58))
    assert plan.sums[2] == "backing, widths over its width: 38 fits in 40 in, 1 width"


def test_backing_of_one_width_lying_across():
    plan, *_ = plan_backing((inches(50), inches(30)), backing("4"), inches(40), "inch")
    assert (plan.widths, plan.seam, plan.length) == (1, "none", inches(58))
    assert plan.sums[2] == "backing, widths over its height: 38 fits in 40 in, 1 width"


def test_backing_of_two_widths():
    plan, *_ = plan_backing(TOP, backing("4"), inches(40), "inch")
    # 56 x 68 in: two lengths of 68 = 136, two of 56 = 112; 2 * 40 - 1/2 = 79 1/2 covers 68
    assert (plan.size, plan.widths) == ((inches(56), inches(68)), 2)
    assert (plan.seam, plan.length) == ("crosswise", inches(112))
    assert plan.sums == (
        "backing, width: 48 + 2 × 4 = 56 in",
        "backing, height: 60 + 2 × 4 = 68 in",
        "backing, widths over its height: 2 × 40 − 1 × 1/2 for the seams = 79 1/2 in,"
        " enough for 68 in",
        "backing, length of cloth: 2 × 56 = 112 in",
        # 56 - 39 1/2 = 16 1/2 in are wanted of the second, two side by side: 68 + (68 + 1/2) / 2
        "backing, if more seams do no harm: 2 widths lengthwise, the last pieced from 2 lengths"
        " side by side, take 102 1/4 in",
    )


@given(st.integers(1, 400), st.integers(2, 130))
def test_panels_cover_and_one_less_does_not(across, usable):
    count = panels_across(inches(across), inches(usable))
    assert count * usable - (count - 1) * 0.5 >= across
    assert count == 1 or (count - 1) * usable - (count - 2) * 0.5 < across


@given(st.integers(1, 200), st.integers(1, 200))
def test_best_backing_is_no_longer_than_either(width, height):
    both = inches(width), inches(height)
    best = best_layout(both, inches(40))
    assert best.length == min(
        panels(both, inches(40), False).length, panels(both, inches(40), True).length
    )


def test_layers_of_a_bordered_quilt():
    of = quilt(
        (setting("a"),),
        borders=(border("3"),),
        binding=binding(),
        backing=backing("3"),
        batting=batting("2"),
    )
    made = set_quilts(pressed((tiling("a", 6, 6),), size(4, 5, of)))
    assert made.diagnostics == ()
    got = made.value.quilts["lap"]
    assert got.finished == (inches(30), inches(36))  # 24 + 6, 30 + 6
    assert got.binding.length == inches(142)  # 2 * 30 + 2 * 36 + 10
    assert got.backing.size == (inches(36), inches(42))
    assert got.batting == (inches(34), inches(40))
    assert got.batting_sums[1] == "batting, height: 36 + 2 × 2 = 40 in"
    assert got.placed[0].origin == (3, 3)


def test_narrow_cloth_is_a_fault():
    of = quilt((setting("a"),), binding=binding(), backing=backing())
    made = set_quilts(pressed((tiling("a", 6, 6),), size(2, 2, of, width="1/2")))
    assert [fault.code for fault in made.diagnostics] == ["cloth-too-narrow"] * 2
    assert made.diagnostics[0].message == (
        "binding strips cannot be made from fabric `ink`, which is 1/2 in wide:"
        " the seams would take all of it"
    )


def test_finishing_in_centimetres():
    top = inches("120 cm"), inches("150 cm")
    plan = plan_binding(top, binding("6.5 cm"), inches("102 cm"), "cm")
    assert plan is not None
    assert plan.length == inches("565 cm")  # 240 + 300 + 25
    assert plan.strips == 6  # 6 * 102 - 5 * 6.5 = 579.5; 5 * 102 - 4 * 6.5 = 484
    assert plan.sums[0] == "binding, 4 sides: 2 × 120 + 2 × 150 + 25 = 565 cm"
    back, *_ = plan_backing(top, backing("10 cm"), inches("102 cm"), "cm")
    # 140 x 170 cm: two widths are 204 - 1.2; two lengths of 140 need less than two of 170
    assert (back.widths, back.seam, back.length) == (2, "crosswise", inches("280 cm"))
    assert "2 × 102 − 1 × 1.2 for the seams = 202.8 cm" in back.sums[2]


def test_a_back_is_joined_with_the_allowance_of_the_patches():
    top = inches("120 cm"), inches("150 cm")
    seam = inches("0.75 cm")
    back, *_ = plan_backing(top, backing("10 cm"), inches("102 cm"), "cm", allowance=seam)
    assert back.allowance == seam
    # two widths of 102 cm, an allowance of 0.75 cm on either side of their seam: 204 - 1.5
    assert "2 × 102 − 1 × 1.5 for the seams = 202.5 cm" in back.sums[2]


def test_layers_of_a_set_on_point_are_rounded_up():
    of = quilt(
        (setting("a"),),
        set=SetKind.ON_POINT,
        setting_fabric="sand",
        binding=binding(),
        batting=batting(),
    )
    got = set_quilts(pressed((tiling("a", 12, 12),), size(2, 3, of))).value.quilts["lap"]
    # 2 * 16.9706 + 8 = 41.94, 3 * 16.9706 + 8 = 58.91
    assert got.batting == (inches(42), inches(59))
    # 2 * 33.941 + 2 * 50.912 + 10 = 179.71
    assert got.binding.length == inches("179 3/4")
    assert got.batting_sums[0] == "batting, width: 33.941 + 2 × 4, rounded up = 42 in"


def test_pieced_last_panel():
    # 84 x 90 in from 40 in: two panels give 79 1/2; of the third 84 - 79 = 5 in are needed, eight side by
    # side from (90 + 7 * 1/2) / 8 = 11 11/16 in: 2 * 90 + 11 11/16
    got = best_pieced((inches(84), inches(90)), inches(40))
    assert got is not None
    assert (got.pieces, got.length) == (8, inches("191 11/16"))
    whole = plan_backing((inches(76), inches(82)), backing("4"), inches(40), "inch", upright=True)[
        0
    ]
    assert whole.length == inches(270)  # of a print with an up 3 * 90, lengthwise
    assert whole.sums[-1] == (
        "backing, if more seams do no harm: 3 widths lengthwise, the last pieced from 8 lengths"
        " side by side, take 191 3/4 in"
    )


def test_what_a_wide_cloth_lacks_is_joined_from_strips_across_it():
    """A back of 110 + 2 * 4 = 118 in square from cloth 108 in wide: it lacks 118 - 107 1/2 = 10 1/2 in with the allowance
    of its seam. A second length would be 118 in more; two strips of 10 1/2 in across the cloth, joined, are 216 - 1/2,
    enough for 118, and take 21 in."""
    best, *others = plan_backing((inches(110), inches(110)), backing("4"), inches(108), "inch")
    assert (best.widths, best.last, best.strips, best.length) == (
        2,
        inches("10 1/2"),
        2,
        inches(139),
    )
    assert best.joins == 2
    assert best.sums[3:5] == (
        "backing, the last width must cover: 118 − 1 × (108 − 1/2 for the seam) = 10 1/2 in",
        "backing, length of cloth: 1 × 118 + 2 × 10 1/2 = 139 in",
    )
    assert {way.length for way in others} == {inches(236), inches(139)}  # across and down alike


def test_a_join_more_in_the_back_must_spare_half_a_yard():
    """56 x 68 in from 40: two lengths of 56 across are 112, with one seam. One length of 68 and two strips of
    56 - 39 1/2 = 16 1/2 are 101, with two: 11 in less, not 18. From 44 in, 56 - 43 1/2 = 12 1/2: 68 + 2 * 12 1/2 = 93 in,
    19 less than 112."""
    assert plan_backing(TOP, backing("4"), inches(40), "inch")[0].strips == 0
    wider = plan_backing(TOP, backing("4"), inches(44), "inch")[0]
    assert (wider.length, wider.strips, wider.turned) == (inches(93), 2, False)


def test_the_strips_of_a_back_of_a_print_with_an_up_would_lie_on_their_side():
    ways = plan_backing((inches(110), inches(110)), backing("4"), inches(108), "inch", upright=True)
    assert [(way.length, way.strips) for way in ways] == [(inches(236), 0)]


@given(st.integers(41, 200), st.integers(10, 200))
def test_pieced_panels_cover_the_back(width, height):
    got = best_pieced((inches(width), inches(height)), inches(40))
    if got is not None:
        over = width if got.layout.seam == "lengthwise" else height
        whole = got.layout.widths - 1
        strip = float(got.length - whole * got.layout.panel)  # length of the pieces
        need = over - (whole * 40 - (whole - 1) * 0.5) + 0.5  # and a seam
        assert got.pieces * need <= 40
        assert got.pieces * strip - (got.pieces - 1) * 0.5 >= float(got.layout.panel) - 1e-9
        assert got.length < got.layout.length


def test_no_panel_is_pieced_from_a_heap_of_narrow_lengths():
    # 40 1/2 in to cover with 40 in of cloth: 40 1/2 - (40 - 1/2) = 1 in of a second width is wanted, and 40
    # of those lie side by side; 8 are joined: 60 + (60 + 7 * 1/2) / 8 = 67 15/16 in
    made = pieced(panels((inches("40 1/2"), inches(60)), inches(40), False), inches(40))
    assert (made.pieces, made.length) == (8, inches("67 15/16"))
