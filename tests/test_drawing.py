"""Pictures: what they must hold whatever the block, and a few kept as text."""

import math
import re
import xml.etree.ElementTree as ET
from pathlib import Path

import drawing_helpers as made
import pytest
from builders import ENGLISH
from hypothesis import given, strategies as st

from booklet.drawing.ink.colours import ACCENT, DARK, GREY, WHITE
from booklet.drawing.ink.fills import ground_colour, looks, mark_colour, tinted
from booklet.drawing.ink.path_text import number
from booklet.drawing.ink.pens import PENS
from booklet.drawing.ink.svg import render
from booklet.drawing.lettering.labels import Desk
from booklet.drawing.lettering.text_widths import text_width, wrapped
from booklet.drawing.pressed.flaps import flaps_of
from booklet.drawing.pressed.pressed_block import pressing_figure
from booklet.drawing.scene import Area, Fill, Ink, Label, Line, Scene
from booklet.drawing.steps.step import step_figure
from booklet.drawing.steps.step_scale import LEAST_GAP
from booklet.drawing.steps.units import exploded, way_in
from booklet.geometry.vectors import union_outline
from booklet.kit.colour import contrast, lightness
from booklet.kit.outlines.polygon import area_of, depth, roomiest, widened
from booklet.kit.words import words_of
from booklet.sewing.assembly import End

GOLDEN = Path(__file__).parent / "golden"
LOOKS = looks(made.COLOURS, [])
BLOCKS = {"four": made.four_patch, "box": made.box_block, "nine": made.nine_patch}


def figures():
    for name, block in BLOCKS.items():
        plan = made.block_plan(block())
        for card in plan.cards:
            yield f"{name}-step-{card.n}", step_figure(plan, card, LOOKS, speaker=ENGLISH)
        yield f"{name}-press", pressing_figure(plan, 80.0, speaker=ENGLISH)


@pytest.mark.parametrize(
    ("name", "figure"), list(figures()), ids=lambda value: value if isinstance(value, str) else ""
)
def test_a_picture_is_sound_svg_and_as_recorded(name, figure, request):
    root = ET.fromstring(figure.svg)
    assert root.attrib["role"] == "img"
    assert root.attrib["width"] == f"{number(figure.width_mm)}mm"
    ids = [element.attrib["id"] for element in root.iter() if "id" in element.attrib]
    assert len(ids) == len(set(ids))
    assert all(id.startswith(figure.name) for id in ids)
    used = set(re.findall(r"url\(#([^)]+)\)", figure.svg))
    assert used <= set(ids)
    assert "http" not in re.sub(r'xmlns(:\w+)?="[^"]*"', "", figure.svg)  # nothing from outside
    assert figure.alt.endswith(".")
    golden = GOLDEN / f"{name}.svg"
    text = figure.svg.replace("><", ">\n<") + "\n"
    if request.config.getoption("--record-golden"):
        golden.write_text(text, encoding="utf-8")
    assert text == golden.read_text(encoding="utf-8")


def test_a_picture_drawn_twice_is_the_same_bytes():
    assert [f.svg for _, f in figures()] == [f.svg for _, f in figures()]


def test_no_text_is_smaller_than_seven_points():
    for _, figure in figures():
        for size in re.findall(r'font-size="([\d.]+)"', figure.svg):
            assert float(size) / (25.4 / 72) >= 7 - 0.02  # mm back to points


def test_the_seam_of_the_step_is_the_heaviest_line():
    heaviest = max(pen.width for ink, pen in PENS.items() if ink not in (Ink.MACHINE, Ink.HAND))
    assert PENS[Ink.MACHINE].width == PENS[Ink.HAND].width == 1.0  # within 0.9 and 1.2 mm
    assert heaviest <= 0.7
    assert PENS[Ink.HAND].dash and not PENS[Ink.MACHINE].dash


@pytest.mark.parametrize(
    "value,text",
    [(0.0, "0"), (-0.001, "0"), (2.5, "2.5"), (3.0, "3"), (1 / 3, "0.33"), (-1.25, "-1.25")],
)
def test_numbers_have_one_spelling(value, text):
    assert number(value) == text


def test_parts_stand_apart_at_right_angles_to_their_seam():
    sewing = made.four_patch()
    still, moved = exploded(sewing, sewing.steps[0], 0.5)
    assert still.away == (0.0, 0.0)
    assert moved.away == pytest.approx(
        (0.5, 0.0)
    )  # the seam is upright, so b moves right by the gap


def test_a_row_of_three_stands_in_a_row():
    sewing = made.nine_patch()
    aways = [part.away for part in exploded(sewing, sewing.steps[0], 0.25)]
    assert aways == [(0.0, 0.0), pytest.approx((0.25, 0.0)), pytest.approx((0.5, 0.0))]


def test_a_set_in_part_moves_along_the_bisector_of_its_corner():
    sewing = made.box_block()
    seams = [sewing.tiling.seam(id) for id in sewing.steps[1].runs[0].seams]
    way, least = way_in(seams, {"c"})
    assert way == pytest.approx((0.0, -1.0))  # the corner opens upward
    # the two seams fall by 30 degrees, so their normals make 30 degrees with straight up
    assert least == pytest.approx(math.cos(math.radians(30)))


def test_the_gap_is_never_less_than_the_least():
    sewing = made.nine_patch()
    plan = made.block_plan(sewing)
    figure = step_figure(plan, plan.cards[0], LOOKS, speaker=ENGLISH)
    scale = 25.4 / float(re.search(r"1 : ([\d.]+)", figure.caption)[1])
    _, moved, _ = exploded(sewing, sewing.steps[0], LEAST_GAP / scale)
    assert moved.away[0] * scale >= 4.0


@pytest.mark.parametrize("width", [70.0, 90.0])
def test_words_at_seams_take_no_letter_from_a_small_picture(width):
    """Three squares in a row, whose two seams are "en premier" and "en dernier" in French: where these do not fit beside each
    other, the picture has more room above and below, and each patch keeps its letter."""
    plan = made.block_plan(made.nine_patch())
    english, french = (
        step_figure(plan, plan.cards[0], LOOKS, width=width, speaker=words_of(language))
        for language in ("en", "fr")
    )
    assert (
        english.svg.count("<circle") == french.svg.count("<circle") == 3
    )  # a plate under each letter
    assert french.height_mm == pytest.approx(english.height_mm + 8)


def test_the_outline_of_a_unit_leaves_out_its_inner_seams():
    sewing = made.four_patch()
    (outline,) = union_outline(sewing.tiling, ("a", "b"))
    assert area_of(outline) == pytest.approx(8.0)  # two squares of 2 x 2
    ring = made.nine_patch().tiling
    loops = union_outline(ring, [p.id for p in ring.pieces if p.id != "r2c2"])
    # a ring has an outer outline of 9 and a hole of 1, which runs the other way
    assert sorted(round(area_of(loop), 6) for loop in loops) == [-1.0, 9.0]


def test_a_machine_seam_to_the_edge_runs_on_and_a_hand_seam_stops_at_its_dots():
    machine = made.block_plan(made.four_patch())
    hand = made.block_plan(
        made.assembly(
            made.four_patch().tiling, [("pair", ("a", "b"), 1, 1)], made.By.HAND, End.POINT
        )
    )
    by_machine = step_figure(machine, machine.cards[0], LOOKS, speaker=ENGLISH).svg
    by_hand = step_figure(hand, hand.cards[0], LOOKS, speaker=ENGLISH).svg
    assert by_machine.count("<circle") == 2  # the two plates under the letters
    assert by_hand.count("<circle") == 2 + 4  # and a dot at each end on either side
    assert "1.7 1" in by_hand and "1.7 1" not in by_machine


def test_flaps_are_as_wide_as_the_allowance_and_lie_on_their_piece():
    plan = made.block_plan(made.four_patch(), made.pressing(made.four_patch(), {"s1": "b"}))
    flap = next(f for f in flaps_of(plan, 0.25) if f.seam.id == "s1")
    assert flap.way == (1.0, 0.0)  # b lies right of the seam, seen from the front
    xs = [x for x, _ in flap.outline]
    assert max(xs) - min(xs) == pytest.approx(0.25)
    ys = [y for _, y in flap.outline]
    assert (min(ys), max(ys)) == pytest.approx((-0.25, 2.0))  # to the raw edge, and to the centre


def test_flaps_that_meet_are_mitred():
    sewing = made.box_block()
    plan = made.block_plan(
        sewing,
        made.pressing(
            sewing, {s.id: p for s, p in zip(sewing.tiling.seams, ("c", "a", "c"), strict=True)}
        ),
    )
    on_c = [f for f in flaps_of(plan, 0.25) if f.seam.id in ("s1", "s3")]
    tips = [
        max(
            f.outline,
            key=lambda p: (
                depth(p, sewing.tiling.piece("c").outline.points)
                if abs(p[0] - 3**0.5) < 1e-6
                else -9
            ),
        )
        for f in on_c
    ]
    # both end on the bisector of c's corner, 0.25 / sin 60 above it
    for tip in tips:
        assert tip == pytest.approx((3**0.5, 2 - 0.25 / math.sin(math.radians(60))))


def test_the_back_is_mirrored_and_says_so():
    sewing = made.four_patch()
    plan = made.block_plan(sewing, made.pressing(sewing, {}, [(2.0, 2.0)]))
    figure = pressing_figure(plan, 80.0, speaker=ENGLISH)
    assert "left and right are swapped" in figure.svg
    assert "left and right are swapped" in figure.alt


@given(
    st.dictionaries(
        st.sampled_from("abcdefghijklmnop"), st.integers(0, 0xFFFFFF), min_size=1, max_size=12
    )
)
def test_up_to_twelve_fabrics_each_have_a_mark_of_their_own(colours):
    named = {id: f"#{value:06x}" for id, value in colours.items()}
    marks = [fill.hatch for fill in looks(named, []).values()]
    assert len(set(marks)) == len(marks)


def test_with_more_fabrics_those_that_touch_differ():
    colours = {f"f{i:02}": "#557799" for i in range(30)}
    touching = [(f"f{i:02}", f"f{i + 1:02}") for i in range(29)]
    found = looks(colours, touching)
    assert all(found[one].hatch != found[other].hatch for one, other in touching)


@given(st.integers(0, 0xFFFFFF), st.integers(1, 12))
def test_every_hatch_stands_out_from_its_ground_in_grey(value, mark):
    for fill in (Fill(f"#{value:06x}", mark), tinted(Fill(f"#{value:06x}", mark))):
        difference = abs(lightness(mark_colour(fill)) - lightness(ground_colour(fill)))
        assert difference >= (10 if fill.tint else 20)


def test_letters_and_accents_have_contrast():
    assert all(contrast(ink, WHITE) >= 4.5 for ink in (DARK, GREY, ACCENT))  # WCAG 1.4.3


def test_contrast_of_black_and_white_is_21():
    assert contrast("#000", "#fff") == pytest.approx(21.0)


def test_text_is_wrapped_to_its_width():
    lines = wrapped("Seen from the back: left and right are swapped.", 8.0, 30.0)
    assert " ".join(lines) == "Seen from the back: left and right are swapped."
    assert all(text_width(line, 8.0) <= 30.0 for line in lines)


def test_widened_square_grows_by_the_allowance_on_every_side():
    square = ((0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0))
    assert area_of(widened(square, 0.25)) == pytest.approx(2.5**2)


def test_the_roomiest_place_of_a_triangle_is_the_middle_of_its_inner_circle():
    triangle = ((0.0, 0.0), (4.0, 0.0), (0.0, 3.0))
    at, radius = roomiest(triangle)
    assert radius > 0.79  # inner circle: (3 + 4 - 5) / 2 = 1
    assert depth(at, triangle) == pytest.approx(radius)


def test_a_scene_is_written_back_to_front():
    square = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0))
    scene = Scene(
        name="x",
        width=10,
        height=10,
        items=(
            Area(square, Fill("#ffffff"), None),
            Line(points=square, ink=Ink.CUT),
            Label(at=(1, 1), text="A & B"),
        ),
        title="T",
        alt="Alt.",
    )
    svg = render(scene)
    assert svg.index("<path") < svg.index("<text") and "A &amp; B" in svg
    assert svg.index("<title") < svg.index("<desc") < svg.index("<path")


def test_the_alternative_text_says_where_parts_lie_and_how_the_seam_runs():
    plan = made.block_plan(made.box_block())
    told = step_figure(plan, plan.cards[1], LOOKS, speaker=ENGLISH).alt
    assert "Patch A lies above the unit of 2 A." in told
    assert "By hand: one run from dot 1 at its matching point, turning at dot 2, to dot 3" in told


def test_a_number_is_not_taken_for_that_of_another_point():
    # a seam along the right side of (10, 10) drives its number to the left, where (7, 10) lies
    wall = [((12.0, 0.0), (12.0, 20.0))]
    alone = Desk(wall).beside((10.0, 10.0), "2", 8.0, (-1.0, 0.0))
    assert abs(alone.at[0] - 7.1) < 0.01 and abs(alone.at[1] - 10.0) < 0.01  # 2.9 mm to the left
    kept = Desk(wall).beside((10.0, 10.0), "2", 8.0, (-1.0, 0.0), rivals=[(7.0, 10.0)])
    assert math.dist(kept.at, (7.0, 10.0)) > math.dist(kept.at, (10.0, 10.0))
