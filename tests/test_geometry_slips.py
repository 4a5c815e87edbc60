"""One slip in a block is told once, with the trial that mends it; what follows from it is marked."""

import pytest

from booklet.commands.line import console
from booklet.geometry.words import area_words, length_words
from booklet.kit.diagnostic import by_cause
from booklet.recipe import compiler

HEAD = """
title: Slips
units: inch
sizes: {{small: {{title: Small, unit: 1 in, blocks: 1}}}}
fabrics: {{leaf: {{name: Leaf, colour: green}}, sand: {{name: Sand, colour: olive}}}}
patches:
  hex: {{shape: hexagon, side: 1}}
  point: {{shape: diamond, side: 1, angle: 60, anchor: corner 3}}
  long: {{shape: diamond, side: 1, angle: 60}}
  half: {{shape: half-square triangle, side: 1}}
  stone: {{shape: square, side: 1}}
blocks:
  b:
    {size}
    pieces:
      - {pieces}
"""
ROUND = "ring: {centre: [0, 0], times: 6}"
CENTRE = "{id: c, patch: hex, fabric: sand, at: [0, 0]%s}"
STAR = (  # a star of eight half squares in a block of 4 x 4 units
    "{id: c, fabric: leaf, corners: [[1, 1], [3, 1], [3, 3], [1, 3]]}",
    "{id: k, patch: stone, fabric: sand, at: [0.5, 0.5], ring: {centre: [2, 2], times: 4}}",
    "{id: a, patch: half, fabric: leaf, at: [1.5, 0.5], ring: {centre: [2, 2], times: 4}}",
    "{id: b, patch: half, fabric: leaf, at: [2.5, 0.5], turn: 270, ring: {centre: [2, 2], times: 4}}",
    "{id: g, fabric: sand, corners: [[1, 0], [3, 0], [2, 1]], ring: {centre: [2, 2], times: 4}}",
)


@pytest.fixture
def told(tmp_path):
    """Checks a block of these pieces: what is told, each with what follows from it."""

    def run(*pieces: str, size: str = "title: B"):
        text = HEAD.format(pieces="\n      - ".join(pieces), size=size)
        (tmp_path / "pattern.yaml").write_text(text, encoding="utf-8")
        errors = [d for d in compiler.check(tmp_path).diagnostics if d.is_error]
        return by_cause(errors)

    return run


def star(old: str = "", new: str = "") -> tuple[str, ...]:
    assert not old or sum(old in piece for piece in STAR) == 1
    return tuple(piece.replace(old, new) if old else piece for piece in STAR)


SLIPS = {
    # hexagons stand on a point: one at sqrt(3) to the right of another meets it by an upright side
    "a ring turned": (
        (
            CENTRE % "",
            f"{{id: p, patch: hex, fabric: leaf, at: [sqrt(3), 0], turn: 30, {ROUND}}}",
        ),
        "turn `p`: write `turn: 0`",
    ),
    "the middle turned": (
        (
            CENTRE % ", turn: 30",
            f"{{id: p, patch: hex, fabric: leaf, at: [sqrt(3), 0], {ROUND}}}",
        ),
        "turn `c`: write `turn: 0`",
    ),
    "one of two turned": (
        (CENTRE % "", "{id: p, patch: hex, fabric: leaf, at: [sqrt(3), 0], turn: 30}"),
        "turn `p`: write `turn: 0`",
    ),
    "a star beside its centre": (
        (f"{{id: d, patch: point, fabric: leaf, at: [0, 0.5], {ROUND}}}",),
        "move `d` to the centre of its ring: `at: [0, 0]`",
    ),
    # of a diamond 1 u along a side, standing on its acute corner, the middle is sqrt(3)/2 above that corner
    "a ring not closed": (
        (f"{{id: d, patch: long, fabric: leaf, at: [0, -0.8], {ROUND}}}",),
        "move `d` to `at: [0, -0.866025404]`",
    ),
    "corners round another centre": (
        star("at: [0.5, 0.5], ring: {centre: [2, 2]", "at: [0.5, 0.5], ring: {centre: [2, 2.5]"),
        "turn the copies of `k` about `centre: [2, 2]`",
    ),
    "points turned": (star("at: [1.5, 0.5],", "at: [1.5, 0.5], turn: 90,"), "turn `a`: write `turn: 0`"),
    "points moved with their centre": (
        star(
            "at: [2.5, 0.5], turn: 270, ring: {centre: [2, 2]",
            "at: [2.75, 0.5], turn: 270, ring: {centre: [2.25, 2]",
        ),
        "move `b` to `at: [2.5, 0.5]`, and the centre of its ring to `centre: [2, 2]`",
    ),
}  # fmt: skip


@pytest.mark.parametrize("slip", SLIPS)
def test_a_slip_is_told_once_with_what_mends_it(told, slip):
    pieces, hint = SLIPS[slip]
    size = "size: 4 x 4" if pieces[0] == STAR[0] else "title: B"
    (one,) = told(*pieces, size=size)
    assert one.first.hint == hint
    assert not any("add a piece" in (fault.hint or "") for fault in one.following)


def test_the_star_without_a_slip_is_sound(told):
    assert told(*star(), size="size: 4 x 4") == ()


def test_two_slips_far_apart_are_two(told):
    # a and b overlap by a half, and so do c and d three units to the right; no side of theirs meets
    row = [
        f"{{id: {name}, patch: stone, fabric: leaf, at: [{x}, 0]}}"
        for name, x in (("a", 0), ("b", 0.5), ("c", 4), ("d", 4.5))
    ]
    assert [one.first.code for one in told(*row)] == ["overlap", "overlap"]


def test_pieces_not_there_are_told_one_by_one_and_those_of_a_ring_once(told):
    square = "{id: %s, patch: stone, fabric: leaf, at: [%s, 0.5]}"
    row = [square % (name, x) for name, x in (("a", 0.5), ("b", 2.5), ("c", 4.5))]
    gaps = told(*row, size="size: 5 x 1")  # one gap between a and b, one between b and c
    assert [one.first.code for one in gaps] == ["gap", "gap"]
    assert all("add a piece" in (one.first.hint or "") for one in gaps)
    gaps = told(*star()[:-1], size="size: 4 x 4")  # the four pieces of g
    assert [(one.first.code, len(one.following)) for one in gaps] == [("gap", 3)]


def test_nothing_that_is_there_is_said_to_be_zero():
    assert area_words(1e-9, "inch") == "less than 0.000001 square inch"
    assert area_words(1e-9, "cm") == "less than 0.000001 square centimetres"
    assert length_words(0.0, "inch") == "less than 0.000001 in"
    assert length_words(1e-5, "cm") == "0.000025 cm"  # 0.00001 * 2.54 = 0.0000254
    assert area_words(2.25, "cm") == "14.5 square centimetres"  # 2.25 * 6.4516 = 14.516
    assert length_words(2.5, "cm") == "6.35 cm"
    assert length_words(300 / 2.54, "cm") == "300 cm"  # whole hundreds keep their noughts
    assert area_words(130 / 6.4516, "cm") == "130 square centimetres"


def test_all_faults_are_in_the_lines_for_programs(told, tmp_path):
    told(*SLIPS["a ring turned"][0])
    errors = [d for d in compiler.check(tmp_path).diagnostics if d.is_error]
    lines = console.as_lines(errors).splitlines()
    # two kinds of pairs overlap, and there are gaps at the six corners of the middle
    assert len(lines) == 8 and sum("(follows from line" in line for line in lines) == 7
