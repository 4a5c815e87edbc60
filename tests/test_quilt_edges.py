"""The edge of a quilt: continuous bias, the hanging sleeve and the envelope back, from the source to the page."""

from functools import cache
from pathlib import Path

from source_helpers import faults

from booklet.drawing.cloths.edges import bias_figure, envelope_figure, sleeve_figure
from booklet.drawing.ink.fills import looks_of
from booklet.kit.diagnostic import Span
from booklet.kit.measure import Length, Printed, printed
from booklet.kit.words import words_of
from booklet.pattern import Envelope
from booklet.plan import make_plan
from booklet.quilt.finishing.extras import ENVELOPE, envelope_part
from booklet.recipe.compiler import check

FOLDER = Path(__file__).parent / "patterns" / "bias_and_sleeve"


@cache
def plan():
    outcome = check(FOLDER)
    assert outcome.diagnostics == ()
    return make_plan(outcome.value)


def test_the_sleeve_is_a_part_that_is_cut_with_the_rest():
    size = plan().sizes[0]
    (part,) = [p for p in size.quilt.parts if p.name == "sleeve"]
    # 4 x 4 blocks of 4 in and borders of 2 in: 20 in wide. 20 + 2 long, 2 x 4 + 2 x 1/4 wide.
    assert part.cut == (Length.of("22"), Length.of("8 1/2"))
    assert part.finished == (Length.of("19"), Length.of("4"))  # 22 - 2 x 1 1/2 for the hems
    assert [p.pieces for p in size.cutting.patches if p.name == "sleeve"] == [1]


def test_a_narrow_cloth_gives_the_sleeve_in_joined_strips(tmp_path: Path):
    """Of another cloth than the back, beside whose panels it would be cut in one piece."""
    text = (FOLDER / "pattern.yaml").read_text("utf-8").replace("blocks: 4 x 4", "blocks: 12 x 4")
    text = text.replace("sleeve: {fabric: sand}", "sleeve: {fabric: ink}")
    (tmp_path / "pattern.yaml").write_text(text, "utf-8")
    size = make_plan(check(tmp_path).value).sizes[0]
    cloth = next(c for c in size.cutting.fabrics if c.fabric == "ink")
    used = [
        (strip.count, str(strip.width))
        for strip in cloth.strips
        for use in strip.uses
        if use.name == "sleeve"
    ]
    # 12 x 4 + 4 = 52, and 2: 54 in of sleeve from strips of 40 in: 2
    assert sum(count for count, _ in used) == 2 and {width for _, width in used} == {"8 1/2"}


def test_the_bias_square_and_its_pictures():
    size = plan().sizes[0]
    # 4 x 20 + 10 = 90 in; √(90 x 2 1/4) + 1 = 15.2, up to 16 in
    assert str(size.quilt.binding.square) == "16"
    looks = looks_of(plan())
    assert "numbered so that the slanted ends meet one line apart" in bias_figure(size, looks).svg
    assert "below the top edge" in sleeve_figure(size, looks).svg


def test_a_sleeve_needs_a_fabric():
    text = (FOLDER / "pattern.yaml").read_text("utf-8")
    assert (
        faults(text.replace("sleeve: {fabric: sand}", "sleeve: {width: 4 in}"))[0][0]
        == "missing-key"
    )


@cache
def cushions():
    outcome = check(FOLDER.parent / "cushions")
    assert outcome.diagnostics == ()
    return make_plan(outcome.value)


def test_the_halves_of_an_envelope_back():
    # common practice: each half is half the front, half the overlap, an allowance and a hem of 1 in more.
    # 16 in, overlap 4: 16 + 1/2 wide, (16 + 4) / 2 + 1/4 + 1 high; 12 in, overlap 3: 12 + 1/2, (12 + 3) / 2 + 1 1/4;
    # 24 x 12, overlap 4: 24 + 1/2, (12 + 4) / 2 + 1 1/4
    wanted = {
        "large": ("16 1/2", "11 1/4"),
        "small": ("12 1/2", "8 3/4"),
        "bolster": ("24 1/2", "9 1/4"),
    }
    for size in cushions().sizes:
        (part,) = [p for p in size.quilt.parts if p.name == ENVELOPE]
        assert (part.count, part.cut) == (2, tuple(map(Length.of, wanted[size.size.id])))
        # hemmed and sewn, both reach over the front and twice over the overlap: what the allowance and the hem take is off
        assert (
            2 * (part.cut[1] - Length.of("1 1/4")) - size.quilt.finished[1]
            == size.size.quilt.envelope.lap
        )


def test_what_is_cut_is_what_its_sum_and_the_page_say():
    allowance, lap = Length.of("0.75 cm"), Length.of("8 cm")
    # 50 cm high: (50 + 8) / 2 + 0.75 + 2 = 31.75 cm, between two marks (and 12 1/2 in by chance, which is no reason to
    # print it otherwise than 33.75); 84.853 cm wide, 3 squares of 20 cm on point: 84.853 + 1.5 = 86.353 cm
    front = Length.of(3 * 20 * 2**0.5 / 2.54), Length.of("50 cm")
    span = Span.whole("pattern.yaml")
    part = envelope_part(front, Envelope(lap, "ink", span), allowance, "cm")
    assert part.cut == (Length.of("86.4 cm"), Length.of("31.8 cm"))
    said = [words_of("en").say(line) for line in part.sums]
    assert said[0].endswith("84.853 + 2 × 0.75, rounded up = 86.4 cm")
    assert said[1].endswith("(50 + 8) / 2 + 0.75 + 2, rounded up = 31.8 cm")
    assert [printed(side, "cm", Printed.CUT) for side in part.cut] == ["86.4", "31.8"]


def test_an_envelope_back_of_a_print_with_an_up_keeps_it_up():
    size = next(size for size in cushions().sizes if size.size.id == "bolster")
    (cut,) = [p for p in size.cutting.patches if p.name == ENVELOPE]
    assert (cut.cut, cut.pieces) == ((Length.of("24 1/2"), Length.of("9 1/4")), 2)
    cloth = next(c for c in size.cutting.fabrics if c.fabric == "reeds")
    strips = [strip for strip in cloth.strips if any(use.name == ENVELOPE for use in strip.uses)]
    # upright across a cloth 40 in wide there is room for one of 24 1/2 in: two strips, each as high as the half
    assert [(strip.count, str(strip.width)) for strip in strips] == [(2, "9 1/4")]


def test_a_half_too_wide_for_a_print_with_an_up_asks_for_cloth_that_may_be_turned(tmp_path: Path):
    text = (FOLDER.parent / "cushions" / "pattern.yaml").read_text("utf-8")
    # 48 1/2 in wide and (12 + 4) / 2 + 1 1/4 = 9 1/4 in high, of cloth 40 in wide: lengthwise only
    text = text.replace("blocks: 6 x 3", "blocks: 12 x 3")
    (tmp_path / "pattern.yaml").write_text(text, "utf-8")
    (fault,) = check(tmp_path).diagnostics
    assert fault.code == "wider-than-cloth" and "48 1/2 in" in fault.message
    assert fault.hint is not None and fault.hint.startswith("use a fabric that may be turned")
    (tmp_path / "pattern.yaml").write_text(text.replace(", direction: one-way", ""), "utf-8")
    assert check(tmp_path).value is not None


def test_the_picture_of_an_envelope_back_shows_the_overlap():
    drawn = envelope_figure(cushions().sizes[0], looks_of(cushions()))
    assert ">4 in<" in drawn.svg and "half 2 lies over it" in drawn.svg
