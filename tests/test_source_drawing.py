"""Pieces from an SVG drawing: what is read, how it is scaled, and what is refused, with its place."""

from fractions import Fraction

import pytest
from hypothesis import given, strategies as st
from source_helpers import HEAD, PATTERNS, read

from booklet.crafts.forms import FORMS
from booklet.kit.outlines.path_data import commands
from booklet.recipe.compiler import check

pytestmark = pytest.mark.usefixtures("read_here")
BLOCK = HEAD + "blocks:\n  stone:\n    drawing: stone.svg\n"
SIZED = BLOCK + "    size: 4 x 2\n"
TWO = (
    '<rect id="a" width="1" height="1" fill="#243b6b"/>\n'
    '<rect id="b" x="1" width="1" height="1" fill="#e9dcc3"/>'
)


def svg(body: str, head: str = "", root: str = "") -> bytes:
    return f'{head}<svg xmlns="http://www.w3.org/2000/svg" {root}>\n{body}\n</svg>\n'.encode()


def outcome(body: str, source: str = BLOCK, head: str = "", root: str = ""):
    return read(source, **{"stone.svg": svg(body, head, root)})


def the_block(body: str, source: str = BLOCK):
    made = outcome(body, source)
    assert made.diagnostics == (), [d.message for d in made.diagnostics]
    return made.value.blocks[0]


def corners(piece):
    return [(float(x.value), float(y.value)) for x, y in piece.shape.corners]


def faults(body: str, source: str = BLOCK, head: str = "", root: str = ""):
    found = outcome(body, source, head, root).diagnostics
    return [(d.code, d.span.file, d.span.line) for d in found]


def test_a_shape_is_a_piece_its_id_the_piece_and_its_fill_the_fabric():
    block = the_block(TWO)
    assert [(p.id, p.fabrics) for p in block.pieces] == [("a", ("ink",)), ("b", ("sand",))]
    assert corners(block.pieces[1]) == [(1, 0), (2, 0), (2, 1), (1, 1)]  # a drawing's unit is 1 u


def test_with_a_size_the_drawing_is_scaled_to_it_and_its_margin_does_not_count():
    drawn = (
        '<g transform="translate(30,7)"><rect id="a" width="50" height="50" fill="#243b6b"/>'
        '<rect id="b" x="50" width="50" height="50" fill="#e9dcc3"/></g>'
    )
    block = the_block(drawn, SIZED)  # 100 x 50 to 4 x 2: 25 to a unit
    assert corners(block.pieces[1]) == [(2, 0), (4, 0), (4, 2), (2, 2)]
    assert block.outline is not None


def test_transforms_are_applied_from_the_inside_out():
    # The triangle (0,0) (2,0) (0,1) turned a quarter clockwise: (0,0) (0,2) (-1,0); doubled: up to 4.
    drawn = '<g transform="scale(2) rotate(90)"><polygon id="a" points="0 0 2 0 0 1" fill="#243b6b"/></g>'
    (piece,) = the_block(drawn).pieces
    assert corners(piece) == [(2, 0), (2, 4), (0, 0)]  # moved 2 to the right, to begin at 0


@pytest.mark.parametrize(
    "drawn",
    [
        '<path id="a" d="M0 0h2v2h-2z" fill="#243b6b"/>',
        '<path id="a" d="M 0,0 L 2,0 2,2 0,2 Z" fill="rgb(36,59,107)"/>',
        '<path id="a" d="M0 0 2 0 2 2 0 2 0 0" fill="#243B6B"/>',  # back at its beginning
        '<polyline id="a" points="0,0 2,0 2,2 0,2 0,0" style="fill:#243b6b"/>',
        '<style>.x{fill:#243b6b}</style><polygon id="a" class="x" points="0,0 2,0 2,2 0,2"/>',
        '<g fill="#243b6b"><rect id="a" width="2" height="2"/></g>',
        '<rect id="a" width="2" height="2" fill="#e9dcc3" style="fill: #243b6b"/>',
        '<rect id="a" transform="matrix(0 1 -1 0 2 0)" width="2" height="2" fill="#243b6b"/>',
        '<rect id="a" transform="skewX(0) translate(1) rotate(180 1 1)" width="2px" height="2" fill="#243b6b"/>',
    ],
)  # fmt: skip
def test_a_square_is_the_same_square_however_it_is_drawn(drawn: str):
    (piece,) = the_block(drawn).pieces
    assert sorted(corners(piece)) == [(0, 0), (0, 2), (2, 0), (2, 2)]
    assert piece.fabrics == ("ink",)


def test_curves_stay_curves_and_a_mirrored_arc_bends_the_other_way():
    quarter = '<path id="a" d="M0 0H2A2 2 0 0 1 0 2Z" fill="#243b6b" transform="scale(-1 1)"/>'
    (piece,) = the_block(quarter).pieces
    assert piece.shape.form is FORMS["path"]
    written = tuple(commands("M 2 0 L 0 0 A 2 2 180 0 0 2 2 L 2 0 Z"))
    assert list(piece.shape.outline) == [(letter, pytest.approx(n)) for letter, n in written]


def test_shapes_that_are_not_seen_are_no_pieces():
    hidden = (
        '<rect id="x" width="9" height="9" display="none"/><defs><rect id="y" width="9" height="9"/></defs>'
        '<g visibility="hidden"><rect id="z" width="9" height="9"/></g><text>North</text>'
    )
    assert [p.id for p in the_block(hidden + TWO).pieces] == ["a", "b"]


def test_a_shape_without_an_id_is_numbered_in_the_order_drawn():
    drawn = (
        TWO.replace(' id="a"', "").replace(' id="b"', ' id="s1"')
        + '<rect x="2" width="1" height="1" fill="#243b6b"/>'
    )
    assert [p.id for p in the_block(drawn).pieces] == ["s2", "s1", "s3"]


def test_points_that_miss_by_a_hair_are_one_and_a_third_of_a_drawing_is_exact():
    # 33.3333 of 100 at 3 u: 0.99999.. is meant to be 1; the second square begins a hair later.
    drawn = (
        '<rect id="a" width="33.3333" height="33.3333" fill="#243b6b"/>'
        '<rect id="b" x="33.334" width="66.666" height="33.333" fill="#e9dcc3"/>'
    )
    block = the_block(drawn, BLOCK + "    size: 3 x 1\n")
    first, second = (piece.shape.corners for piece in block.pieces)
    assert first[1][0].value == Fraction(1) == second[0][0].value
    assert first[2][1].value == second[2][1].value == Fraction(1)


def test_a_corner_that_misses_a_slanted_side_by_a_hair_is_put_on_it():
    # The side from (0, 0) to (6, 3); the corner at (2, 1.0002) should lie on it: 2 / 2 = 1.
    drawn = (
        '<polygon id="a" points="0,0 6,3 0,3" fill="#243b6b"/>'
        '<polygon id="b" points="0,0 6,0 2,1.0002" fill="#e9dcc3"/>'
        '<polygon id="c" points="6,0 6,3 2,1.0002" fill="#243b6b"/>'
    )
    block = the_block(drawn)
    x, y = corners(block.pieces[1])[2]
    assert abs(y - x / 2) < 1e-12 and abs(x - 2) < 1e-3


@pytest.mark.parametrize(("miss", "closed"), [(0.0019, True), (0.0021, False)])
def test_a_path_that_misses_its_beginning_by_a_thousandth_of_its_size_is_closed(miss, closed):
    # 2 across: 0.001 * 2 = 0.002
    drawn = f'<path id="a" d="M0 0 L2 0 L2 1 L0 1 L0 {miss}" fill="#243b6b"/>'
    if closed:
        assert corners(the_block(drawn).pieces[0]) == [(0, 0), (2, 0), (2, 1), (0, 1)]
    else:
        assert faults(drawn) == [("bad-drawing", "stone.svg", 2)]


QUARTER = '<path id="a" d="M0 0 L2 0 A2 2 0 0 1 0 2 Z" fill="#243b6b" transform="{}"/>'


@pytest.mark.parametrize(
    ("transform", "is_round"),
    [
        ("scale(3) rotate(30)", True),
        ("matrix(1 0 0 1.0000005 0 0)", True),  # stretched by less than a millionth
        ("matrix(1 0 0 1.0000015 0 0)", False),
        ("matrix(1 0 0.0000005 1 0 0)", True),  # slanted by less than a millionth
        ("matrix(1 0 0.0000015 1 0 0)", False),
        ("matrix(3 0 0.0000025 3 0 0)", True),  # of the size: 7.5 against 9 millionths
        ("matrix(3 0 0.0000035 3 0 0)", False),  # 10.5
        ("matrix(3 0 0 3.0000025 0 0)", True),
        ("matrix(3 0 0 3.0000035 0 0)", False),
    ],
)
def test_an_arc_stays_one_where_a_transform_stretches_it_by_less_than_a_millionth(
    transform, is_round
):
    found = faults(QUARTER.format(transform))
    assert found == ([] if is_round else [("bad-drawing", "stone.svg", 2)])


LAUGHS = '<!DOCTYPE svg [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;&a;"><!ENTITY c "&b;&b;&b;&b;">]>'
OUTSIDE = '<!DOCTYPE svg [<!ENTITY far SYSTEM "file:///etc/hostname">]>'


@pytest.mark.parametrize("head", [LAUGHS, OUTSIDE])
def test_entities_are_refused_before_any_is_read(head: str):
    assert faults("<title>&c;</title>" + TWO, head=head) == [("unsafe-drawing", "stone.svg", 1)]


@pytest.mark.parametrize(
    "body",
    [
        "<script>alert(1)</script>",
        '<rect id="x" width="1" height="1" onclick="x()"/>',
        '<image href="https://example.org/x.png"/>',
        '<g xmlns:xlink="http://www.w3.org/1999/xlink"><use xlink:href="other.svg#a"/></g>',
        "<style>@import 'far.css';</style>",
        '<rect width="1" height="1" style="fill:url(http://example.org/x)"/>',
        '<foreignObject width="1" height="1"/>',
        '<animate attributeName="x"/>',
    ],
)
def test_what_could_run_or_reach_out_is_refused(body: str):
    assert faults(TWO + "\n" + body) == [("unsafe-drawing", "stone.svg", 4)]


def test_a_style_sheet_beside_the_drawing_is_refused():
    assert faults(TWO, head='<?xml-stylesheet href="a.css"?>') == [
        ("unsafe-drawing", "stone.svg", 1)
    ]


@pytest.mark.parametrize(
    ("body", "code"),
    [
        ('<path id="x" d="M2 0 L3 0 L3 1 L2 1" fill="#243b6b"/>', "bad-drawing"),  # open
        ('<path id="x" d="M2 0h1v1zM4 0h1v1z" fill="#243b6b"/>', "bad-drawing"),  # two outlines
        ('<path id="x" d="M2 0 X" fill="#243b6b"/>', "bad-drawing"),
        ('<path id="x" d="M2 0 L3" fill="#243b6b"/>', "bad-drawing"),
        ('<path id="x" d="M2 0 L3 0 Z" fill="#243b6b"/>', "bad-drawing"),  # encloses nothing
        ('<path id="x" d="" fill="#243b6b"/>', "bad-drawing"),
        ('<path id="x" d="5 5" fill="#243b6b"/>', "bad-drawing"),
        ('<path id="x" d="M2 0 A1 1 0 0 1 3 1 Z" transform="scale(1 2)" fill="#243b6b"/>', "bad-drawing"),
        ('<circle id="x" r="1" fill="#243b6b"/>', "bad-drawing"),
        ('<rect id="x" width="1" height="1" rx="0.2" fill="#243b6b"/>', "bad-drawing"),
        ('<rect id="x" width="50%" height="1" fill="#243b6b"/>', "bad-drawing"),
        ('<rect id="x" height="1" fill="#243b6b"/>', "bad-drawing"),
        ('<polygon id="x" points="0,0 1" fill="#243b6b"/>', "bad-drawing"),
        ('<rect id="x" width="1" height="1" transform="scale(0)" fill="#243b6b"/>', "bad-drawing"),
        ('<rect id="x" width="1" height="1" transform="spin(3)" fill="#243b6b"/>', "bad-drawing"),
        ('<rect id="x" width="1" height="1" transform="rotate(3 4)" fill="#243b6b"/>', "bad-drawing"),
        ('<rect id="x" width="1e9" height="1" fill="#243b6b"/>', "bad-drawing"),
        ('<use href="#a"/>', "bad-drawing"),
        ('<rect id="x" x="2" width="1" height="1" fill="#00ff00"/>', "unknown-colour"),
        ('<rect id="x" x="2" width="1" height="1" fill="none"/>', "unknown-colour"),
        ('<rect id="x" x="2" width="1" height="1" fill="url(#shade)"/>', "unknown-colour"),
        ('<rect id="a" x="2" width="1" height="1" fill="#243b6b"/>', "duplicate-name"),
        ('<rect id="x.1" x="2" width="1" height="1" fill="#243b6b"/>', "bad-name"),
        ("<rect", "bad-drawing"),
    ],
)  # fmt: skip
def test_a_faulty_shape_is_told_at_its_line(body: str, code: str):
    found = faults(TWO + "\n" + body)
    assert found[0][:2] == (code, "stone.svg") and found[0][2] in (4, 5)
    assert len(found) == 1


def test_an_unknown_colour_names_the_nearest_fabric():
    made = outcome(TWO.replace("#243b6b", "#243b6c"))
    assert made.diagnostics[0].hint == (
        "fill it with `#243b6b` for fabric `ink`, or give the pattern a fabric of that `colour`"
    )


def test_two_fabrics_of_one_colour_cannot_be_told_apart():
    same = BLOCK.replace("#e9dcc3", "#243b6b")
    assert faults(TWO.replace("#e9dcc3", "#243b6b"), same)[0][0] == "unknown-colour"


def test_a_size_of_another_form_is_a_fault_at_the_size():
    made = outcome(TWO, BLOCK + "    size: 4 x 4\n")
    (fault,) = made.diagnostics
    assert (fault.code, fault.span.file, fault.span.line) == ("bad-drawing", "pattern.yaml", 10)
    assert fault.hint == "write a size of the same form, such as `4 x 2`"  # drawn 2 x 1


@pytest.mark.parametrize(
    ("data", "code"),
    [
        (b"", "bad-drawing"),
        (b"\xff\xfe<svg/>", "unreadable-source"),
        (b"<html/>", "bad-drawing"),
        (b"<svg/>", "bad-drawing"),
        (b"<svg>" + b"<g>" * 100 + b"</g>" * 100 + b"</svg>", "too-large"),
        (b"<svg>" + b"<g/>" * 20_001 + b"</svg>", "too-large"),
        (b"<svg>" + b'<rect width="1" height="1"/>' * 2_001 + b"</svg>", "too-large"),
        (b'<svg><path d="' + b"M" * 200_001 + b'"/></svg>', "too-large"),
        (b" " * 1_000_001, "too-large"),
    ],
)
def test_no_file_is_too_strange(data: bytes, code: str):
    found = read(BLOCK, **{"stone.svg": data}).diagnostics
    assert [fault.code for fault in found] == [code]


def test_a_missing_drawing_and_one_outside_the_folder_are_told_in_the_pattern():
    assert [d.code for d in read(BLOCK).diagnostics] == ["unreadable-source"]
    assert [d.code for d in read(BLOCK.replace("stone.svg", "../stone.svg")).diagnostics] == [
        "outside-folder"
    ]


@given(st.text(alphabet='MLHVAQCZmlz0123456789.,-+ e"<>&;rect/=', max_size=60))
def test_no_path_data_raises(data: str):
    escaped = data.replace("&", "&amp;").replace("<", "&lt;").replace('"', "&quot;")
    outcome(f'<path id="x" d="{escaped}" fill="#243b6b"/>')


def test_the_drawn_star_is_sound_and_its_letters_are_those_of_a_star():
    checked = check(PATTERNS / "drawn_star")
    assert checked.diagnostics == ()
    laid_out = checked.value
    tiling = laid_out.of_size(laid_out.pattern.size("cushion"))[0]
    assert len(tiling.pieces) == 17  # 4 corners, the centre, 4 x 3 triangles
    assert [(patch.letter, patch.name) for patch in tiling.patches] == [
        ("A", "half-square triangle"),  # the rays: legs 1 x 1, half a square inch
        ("B", "square"),  # the corners: 25 mm of 100 at 4 u are 1 u, one square inch
        ("C", "quarter-square triangle"),  # base 2, height 1: one square inch
        ("D", "square"),  # the centre, 2 x 2
    ]
    assert (tiling.width, tiling.height) == (4, 4)


@pytest.mark.parametrize("ending", ["", "\n", "\r\n", "\n\n"])
def test_what_is_missing_at_the_end_is_told_on_the_last_line(ending):
    drawn = ('<svg xmlns="http://www.w3.org/2000/svg">\n<g>' + ending).encode()
    (fault,) = read(BLOCK, **{"stone.svg": drawn}).diagnostics
    assert (fault.code, fault.span.line, fault.span.column) == ("bad-drawing", 2, 4)
