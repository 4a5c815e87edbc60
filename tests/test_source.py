"""Floor 2: what the keys of `pattern.yaml` mean, and what is taken where they are left out."""

from __future__ import annotations

from fractions import Fraction

import pytest
from source_helpers import GOOD, HEAD, PATTERNS, STONE, faults, pattern, read, the_block, the_size

from booklet.crafts.forms import FORMS
from booklet.kit.measure import Extent, Length
from booklet.pattern import (
    Anchor,
    AnchorKind,
    At,
    Beside,
    By,
    Corners,
    Ends,
    Grain,
    Paper,
    PressHabit,
    SetKind,
)
from booklet.source.reader import read_folder


@pytest.mark.parametrize("folder", sorted(PATTERNS.iterdir()), ids=lambda path: path.name)
def test_every_pattern_of_the_tests_is_read_without_a_fault(folder):
    outcome = read_folder(folder, trust_pages=True)  # one has pages of its own
    assert outcome.value is not None
    assert [d.message for d in outcome.diagnostics] == []


def test_defaults_in_inches():
    p = pattern(GOOD)
    size = p.sizes[0]
    assert (p.units, p.allowance, p.language, p.date) == ("inch", Length.of("1/4"), "en", None)
    ink = size.fabrics["ink"]
    assert (ink.width, ink.sold.step, ink.sold.metric) == (Length.of(40), Length.of("4 1/2"), False)
    assert (size.sewing.machine_from, size.sewing.thread) == (Length.of(1), Length.of(18))
    assert (size.sewing.set_in_by, size.sewing.ends) == (By.HAND, Ends.AUTO)
    assert size.sewing.press is PressHabit.AUTO
    assert size.quilt is None
    assert p.booklet.paper is Paper.LETTER
    assert [e.id for e in p.booklet.editions] == ["pattern", "handout"]
    assert "text/welcome.md" not in [page.name for page in p.booklet.editions[0].pages]


def test_defaults_in_centimetres():
    p = pattern(GOOD.replace("unit: 1 in", "unit: 2.54") + "units: cm\n")
    assert p.sizes[0].unit == Length.of(1)  # 2.54 cm
    assert p.allowance == Length.of("0.6 cm")
    ink = p.sizes[0].fabrics["ink"]
    assert (ink.width, ink.sold.step, ink.sold.metric) == (
        Length.of("102 cm"), Length.of("10 cm"), True,
    )  # fmt: skip
    assert p.booklet.paper is Paper.A4


def test_words_and_numbers_at_the_top_stay_as_written():
    p = pattern(
        GOOD + "version: 1.10\ndesigner: yes\nsummary: 'It''s: a quilt'\ndate: 2026-11-25\n"
    )
    assert (p.version, p.designer, p.summary) == ("1.10", "yes", "It's: a quilt")
    assert p.date is not None and p.date.isoformat() == "2026-11-25"


@pytest.mark.parametrize(
    ("written", "meant"),
    [('"#ABC"', "#aabbcc"), ("navy", "#000080"), ('"#243b6b"', "#243b6b"), ("Grey", "#808080")],
)
def test_colours(written, meant):
    assert the_size(GOOD.replace('"#243b6b"', written)).fabrics["ink"].colour == meant


def test_fabric_keys():
    size = the_size(
        GOOD.replace(
            'ink: {colour: "#243b6b"}',
            "ink: {name: Dark, width: 108 in, direction: stripe, repeat: {across: 12, along: 8 in},"
            " shrinks: 3 %, extra: 10%, sold by: 1/4 m, kind: strips 2 1/2 in}",
        )
    )
    ink = size.fabrics["ink"]
    assert ink.repeat == (Length.of(12), Length.of(8))
    assert (ink.shrinks, ink.extra_share, ink.extra) == (
        Fraction(3, 100), Fraction(1, 10), Length.of(0),
    )  # fmt: skip
    assert ink.sold.metric and ink.sold.step == Length.of("25 cm")
    assert ink.kind == "strips 2 1/2 in"


def test_a_size_lays_its_keys_over_those_of_the_pattern():
    p = read_folder(PATTERNS / "three_sizes").value
    assert p is not None
    pin, lap, bed = p.sizes
    assert pin.quilt and not pin.quilt.borders and pin.quilt.sashing is None
    assert pin.quilt.binding == bed.quilt.binding  # only the keys given are replaced
    assert (pin.sewing.machine_from, pin.sewing.press) == (Length.of(2), PressHabit.DARK)
    assert lap.sewing.machine_from == Length.of(1)
    assert lap.quilt and [b.corners for b in lap.quilt.borders] == [Corners.MITRED, Corners.SQUARES]
    assert lap.quilt.borders[1].sides == Length.of("1 1/2")  # 1 u of 1 1/2 in
    assert (bed.fabrics["ink"].width, bed.fabrics["ink"].name) == (Length.of(108), "Dark blue")
    assert lap.fabrics["ink"].width == Length.of(40)
    assert [(s.across, s.down, s.count) for s in p.sizes] == [(1, 1, 1), (3, 4, 12), (6, 7, 42)]
    assert [len(e.pages) for e in p.booklet.editions] == [9, 3]
    assert p.booklet.editions[1].sizes == ("pin", "lap")


@pytest.mark.parametrize("written", ["5 x 6", "5x6", "5 × 6", "5×6", '"5 x 6"'])
def test_blocks_across_and_down(written):
    size = the_size(GOOD.replace("2 x 2", written))
    assert (size.across, size.down, size.count) == (5, 6, 30)


def test_a_plain_count_of_blocks():
    assert the_size(GOOD.replace("2 x 2", "7")).count == 7
    assert faults(GOOD.replace("2 x 2", "7") + "quilt: {set: straight}\n") == [
        ("wrong-kind", 3, 29)
    ]


SHAPES = {
    "square": "side: 1",
    "rectangle": "width: 1, height: 2",
    "half-square triangle": "side: 1",
    "quarter-square triangle": "base: 1",
    "right triangle": "width: 1, height: 2",
    "equilateral triangle": "side: 1",
    "isosceles triangle": "base: 1, height: 2",
    "diamond": "side: 1, angle: 60",
    "parallelogram": "base: 2, height: 1, shift: -1/2",
    "trapezoid": "base: 2, top: 1, height: 1",
    "half hexagon": "side: 1",
    "hexagon": "side: 1",
    "elongated hexagon": "side: 1",
    "octagon": "side: 1",
    "kite": "length: 2, width: 1, cross: 1/2",
    "regular polygon": "sides: 5, side: 1",
    "polygon": "corners: [[0, 0], [1 + √2, 0], [0, 1 in]]",
    "path": "outline: M 0 0 L 1 0 Q 1 1 0 1 Z",
}


# A form that came later is tried by its own example, in its file.
SHAPES |= {
    word: ", ".join(f"{key}: {value}" for key, value in form.sample.items())
    for word, form in FORMS.items()
    if word not in SHAPES
}


@pytest.mark.parametrize("word", SHAPES)
def test_every_shape_and_each_key_it_must_have(word):
    form = FORMS[word]
    text = f"{GOOD}patches:\n  p: {{shape: {word}, {SHAPES[word]}}}\n"
    assert pattern(text).shapes[0].form is form
    without = read(f"{GOOD}patches:\n  p: {{shape: {word}}}\n")
    missing = [d for d in without.diagnostics if d.code == "missing-key"]
    assert len(missing) == len(without.diagnostics) == len(form.must)
    foreign = read(f"{GOOD}patches:\n  p: {{shape: {word}, {SHAPES[word]}, corner: 1}}\n")
    assert [d.code for d in foreign.diagnostics] == ["unknown-key"]


def test_shapes_cover_the_format():
    assert set(SHAPES) == set(FORMS)


def test_wishes_of_a_shape():
    shapes = pattern(
        f"{GOOD}patches:\n"
        "  a: {shape: square, side: 2 in, grain: side 2, motif: yes, anchor: corner 1}\n"
        "  b: {shape: elongated hexagon, side: 3/4, grain: 45, motif: false}\n"
        "  hexagon: {side: 1 1/2}\n"
    ).shapes
    assert (shapes[0].grain, shapes[0].motif, shapes[0].anchor) == (
        Grain(side=2), True, Anchor(AnchorKind("corner"), 1),
    )  # fmt: skip
    assert shapes[0].extents["side"] == Extent(Fraction(2), in_units=False)
    assert shapes[1].grain == Grain(angle=45.0)
    assert (shapes[1].numbers["angle"], shapes[1].extents["middle"].value) == (90, Fraction(3, 4))
    assert shapes[2].form is FORMS["hexagon"]  # named like a shape, so it is one


PIECES = (
    HEAD
    + """\
patches:
  hex: {shape: hexagon, side: 1}
blocks:
  rose:
    size: 6 x 5 1/2
    pieces:
      - {id: c, patch: hex, fabric: ink, at: [3, 1 + √2]}
      - {id: n, patch: hex, fabric: [ink, sand], at: [3, 1 in], turn: -90, flip: yes, ring: {centre: [3, 3], times: 4}}
      - {id: k, patch: hex, fabric: ink, beside: {piece: n1, side: 2, own: 5}}
      - {id: x, corners: [[0,0],[1,0],[0,1]], fabric: sand, grain: side 3}
      - {id: q, outline: "M0,0 h 2 v2 A2 2 0 0 1 0 0 z", fabric: sand}
"""
)


def test_pieces():
    block = the_block(PIECES)
    c, n, k, x, q = block.pieces
    assert isinstance(c.placed, At)
    assert float(c.placed.position[1].value) == pytest.approx(2.41421356)  # 1 + 1.41421356
    assert isinstance(n.placed, At) and not n.placed.position[1].in_units
    assert (n.turn, n.flip) == (-90.0, True)
    assert n.members() == (("n1", "ink"), ("n2", "sand"), ("n3", "ink"), ("n4", "sand"))
    assert isinstance(k.placed, Beside)
    assert (k.placed.piece, k.placed.side, k.placed.own) == ("n1", 2, 5)
    assert x.placed is None and x.shape.form is FORMS["polygon"] and x.shape.grain == Grain(side=3)
    assert q.shape.form is FORMS["path"]
    assert block.outline is not None
    assert [p.value for p in block.outline[2]] == [Fraction(6), Fraction(11, 2)]
    assert (c.id_span.line, c.id_span.column, c.id_span.end) == (13, 14, 15)


def test_a_grid_with_split_cells():
    block = the_block(
        HEAD + "blocks:\n  g:\n    grid:\n      - [ink, ink/sand]\n      - [sand\\ink, sand]\n"
        "    columns: [1, 2]\n    rows: [1, 1 1/2]\n"
    )
    found = {
        piece.id: (
            piece.fabrics[0],
            [(float(x.value), float(y.value)) for x, y in piece.shape.corners],
        )
        for piece in block.pieces
    }
    assert found == {
        "r1c1": ("ink", [(0, 0), (1, 0), (1, 1), (0, 1)]),
        "r1c2a": ("ink", [(1, 0), (3, 0), (1, 1)]),  # on the left, above the rising diagonal
        "r1c2b": ("sand", [(3, 0), (3, 1), (1, 1)]),
        "r2c1a": ("sand", [(0, 1), (1, 2.5), (0, 2.5)]),  # on the left, below the falling one
        "r2c1b": ("ink", [(0, 1), (1, 1), (1, 2.5)]),
        "r2c2": ("sand", [(1, 1), (3, 1), (3, 2.5), (1, 2.5)]),
    }
    assert block.outline is not None
    assert [float(p.value) for p in block.outline[2]] == [3, 2.5]


def test_a_grid_shares_the_size_of_its_block():
    block = the_block(HEAD + "blocks:\n  g: {size: 6 in x 3 in, grid: [[ink, sand, ink]]}\n")
    assert [float(x.value) for x, _ in block.pieces[1].shape.corners] == [2, 4, 4, 2]  # 6 / 3
    assert the_block(GOOD).outline[2][0].value == 2  # left out, a cell is 1 u


def test_a_cell_between_double_quotes_keeps_its_backslash():
    with_b = HEAD.replace("sand:", "bark:") + 'blocks:\n  g: {grid: [["ink\\bark"]]}\n'
    assert [d.code for d in read(with_b).diagnostics] in ([], ["unknown-name"])
    assert faults(HEAD + 'blocks:\n  g: {grid: [["ink\\sand"]]}\n')[0][0] == "unreadable-source"


QUILT = """\
quilt:
  set: on point
  arrange: [[stone, stone turn 90], [stone turn -90, stone turn 450]]
  sashing: {width: 1 1/2 in, fabric: sand, cornerstones: ink, outside: yes}
  borders: [{width: 3, fabric: ink, corners: squares, square fabric: sand}]
  setting fabric: sand
  binding: {fabric: ink, cut: bias}
  backing: {extra: 0, fabric: sand}
  batting: {}
"""


def test_a_block_that_is_to_be_mirrored_in_its_place_is_told_how():
    source = GOOD + QUILT.replace("stone turn 90]", "stone flip]", 1)
    fault = read(source).diagnostics[0]
    assert fault.code == "unknown-name" and fault.message.endswith("in its place, but not mirrored")
    assert fault.hint is not None and "a block of its own" in fault.hint


@pytest.mark.parametrize(
    ("entry", "said", "hint"),
    [
        ("stoen turned 270", "stoen", "stone turn 270"),
        ("stone trun 90", "stone trun 90", "stone turn 90"),
        ("stoen turn 90", "stoen", "stone"),
        ("stoen", "stoen", "stone"),
    ],
)
def test_a_misspelt_block_that_is_turned_is_asked_after(entry, said, hint):
    fault = read(GOOD + QUILT.replace("stone turn 90]", f"{entry}]", 1)).diagnostics[0]
    assert fault.message == f"there is no block `{said}`"
    assert fault.hint == f"did you mean `{hint}`?"


@pytest.mark.parametrize("mirrored", ["flip", "flipped", "mirrored", "reversed turn 90"])
def test_a_misspelt_block_that_is_to_be_mirrored_is_asked_after(mirrored):
    fault = read(GOOD + QUILT.replace("stone turn 90]", f"stoen {mirrored}]", 1)).diagnostics[0]
    assert fault.message == "there is no block `stoen`"
    assert fault.hint == "did you mean `stone`? It can be turned in its place, but not mirrored"


def test_a_number_after_a_name_need_not_be_a_turn():
    """`ston row 2` is near to `stone row 2`, and 2 degrees are no quarter turn."""
    named = GOOD.replace("  stone:", "  stone row 2:")
    fault = read(named + "quilt: {arrange: [[ston row 2]]}\n").diagnostics[0]
    assert fault.hint == "did you mean `stone row 2`?"


def test_what_is_said_for_a_language_is_not_asked_after_where_one_is_misspelt():
    """Of `[en, de, it]` the slip is `it`; without it `fr` has units, but nothing is made in it."""
    edition = "{pages: [cover], language: LANGUAGES, units: {fr: cm}}"
    text = GOOD + f"booklet: {{editions: {{x: {edition}}}}}\n"
    told = [d.code for d in read(text.replace("LANGUAGES", "[en, de, it]")).diagnostics]
    assert told == ["wrong-kind"]
    told = [d.code for d in read(text.replace("LANGUAGES", "[en, de]")).diagnostics]
    assert told == ["unknown-name"]


def test_the_quilt():
    quilt = the_size(GOOD + QUILT).quilt
    assert quilt is not None and quilt.set is SetKind.ON_POINT
    assert [[s.turn for s in row] for row in quilt.arrange] == [[0, 90], [270, 90]]
    assert (
        quilt.sashing is not None and quilt.sashing.outside and quilt.sashing.cornerstones == "ink"
    )
    assert quilt.borders[0].square_fabric == "sand" and quilt.setting_fabric == "sand"
    assert quilt.binding is not None and quilt.binding.bias
    assert quilt.binding.width == Length.of("2 1/2")
    assert quilt.backing is not None and quilt.backing.extra == Length.of(0)
    assert quilt.batting is not None and quilt.batting.extra == Length.of(4)


def test_the_steps_of_a_lattice():
    set_so = "quilt:\n  set: lattice\n  lattice: {across: [3, 0], down: [1.5 u, 2.6]}\n"
    quilt = the_size(GOOD + set_so).quilt
    assert quilt is not None and quilt.lattice is not None and quilt.lattice[1][0].in_units
    # a bare number outside blocks is in the pattern's units
    assert not quilt.lattice[0][0].in_units


def test_a_border_of_no_width_is_told_how_to_leave_it_out():
    """`sides: 0 in` most likely means none; of a `width`, which takes no `none`, that is not said."""
    (fault,) = read(
        GOOD + "quilt: {borders: [{width: 3 in, sides: 0 in, fabric: ink}]}\n"
    ).diagnostics
    assert fault.code == "bad-length" and fault.hint is not None
    assert fault.hint.startswith("write `none` where there is none")
    (fault,) = read(GOOD + "quilt: {borders: [{width: 0 in, fabric: ink}]}\n").diagnostics
    assert fault.hint is not None and "none" not in fault.hint


def test_one_block_needs_no_arrangement():
    quilt = the_size(GOOD + "quilt: {set: straight}\n").quilt
    assert quilt is not None and quilt.arrange[0][0].block == "stone"
    two = GOOD + "  other:\n    grid: [[ink]]\nquilt: {set: straight}\n"
    assert [code for code, _, _ in faults(two)] == ["missing-key"]


def test_stone_is_a_good_pattern():
    assert STONE in GOOD and faults(GOOD) == []
