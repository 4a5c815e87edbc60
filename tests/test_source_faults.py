"""Floor 2: every fault is a sentence at its place, and all are told in one run."""

from __future__ import annotations

import pytest
from source_helpers import GOOD, HEAD, faults, read

RING = HEAD + "patches:\n  sq: {shape: square, side: 1}\nblocks:\n  b:\n    pieces:\n"
FAULTS = [
    # text, then code, line, column
    ("titel: x\n" + GOOD, ("unknown-key", 1, 1)),
    (GOOD.replace("title: Quay stones\n", ""), ("missing-key", 1, 1)),
    (GOOD.replace("title: Quay stones", "title: [a]"), ("wrong-kind", 1, 8)),
    (GOOD.replace("title: Quay stones", "title:"), ("wrong-kind", 1, 1)),
    (GOOD + "units: feet\n", ("wrong-kind", 10, 8)),
    (GOOD + "date: 25.11.2026\n", ("wrong-kind", 10, 7)),
    (GOOD + "date: 2026-02-30\n", ("wrong-kind", 10, 7)),
    (GOOD + "language: the English\n", ("wrong-kind", 10, 11)),
    (GOOD + "allowance: -1/4 in\n", ("bad-length", 10, 12)),
    (GOOD + "allowance: 1/4 u\n", ("bad-length", 10, 12)),
    (GOOD.replace("unit: 1 in", "unit: huge"), ("bad-length", 3, 15)),
    (GOOD.replace("unit: 1 in", "unit: 99999999 in"), ("bad-length", 3, 15)),
    (GOOD.replace("unit: 1 in", "unit: 0"), ("bad-length", 3, 15)),
    (GOOD.replace("2 x 2", "2 x 0"), ("bad-number", 3, 29)),
    (GOOD.replace("2 x 2", "2 x two"), ("bad-number", 3, 29)),
    (GOOD.replace("2 x 2", "1000001"), ("too-large", 3, 29)),
    (GOOD.replace("lap:", "lap/top:"), ("bad-name", 3, 3)),
    (GOOD.replace("unit: 1 in", "unit: 1 in, fabrics: {inc: {width: 9 in}}"), ("unknown-name", 3, 31)),
    (GOOD.replace('"#e9dcc3"', "beech"), ("wrong-kind", 6, 18)),
    (GOOD.replace('"#e9dcc3"', "red, kind: jelly"), ("wrong-kind", 6, 29)),
    (GOOD.replace('"#e9dcc3"', "red, shrinks: 99"), ("bad-number", 6, 32)),
    (GOOD.replace('"#e9dcc3"', "red, extra: -1"), ("bad-length", 6, 30)),
    (GOOD.replace('"#e9dcc3"', "red, repeat: {across: 1}"), ("missing-key", 6, 23)),
    (GOOD.replace('"#e9dcc3"', "red, direction: up"), ("wrong-kind", 6, 34)),
    (GOOD.replace("[[ink, sand]]", "[[ink], [ink, sand]]"), ("wrong-kind", 9, 19)),
    (GOOD.replace("[[ink, sand]]", "[[ink, ink/sand/ink]]"), ("wrong-kind", 9, 18)),
    (GOOD.replace("[[ink, sand]]", "[[ink, /sand]]"), ("wrong-kind", 9, 18)),
    (GOOD.replace("[[ink, sand]]", "[]"), ("wrong-kind", 9, 11)),
    (GOOD + "    columns: [1]\n", ("wrong-kind", 10, 5)),
    (GOOD + "    columns: [1, 1 in]\n", ("bad-length", 10, 5)),
    (GOOD + "    size: 6\n", ("wrong-kind", 10, 11)),
    (GOOD + "    size: 6 x -6\n", ("bad-length", 10, 11)),
    (GOOD + "patches:\n  p: {side: 1}\n", ("missing-key", 11, 3)),
    (GOOD + "patches:\n  p: {shape: sqare, side: 1}\n", ("wrong-kind", 11, 14)),
    (GOOD + "patches:\n  p: {shape: square, side: 1, grain: side 5}\n", ("bad-number", 11, 38)),
    (GOOD + "patches:\n  p: {shape: square, side: 1, grain: side}\n", ("wrong-kind", 11, 38)),
    (GOOD + "patches:\n  p: {shape: square, side: 1, anchor: top}\n", ("wrong-kind", 11, 39)),
    (GOOD + "patches:\n  p: {shape: square, side: 1, motif: maybe}\n", ("wrong-kind", 11, 38)),
    (GOOD + "patches:\n  p: {shape: diamond, side: 1, angle: 120}\n", ("bad-number", 11, 39)),
    (GOOD + "patches:\n  p: {shape: kite, length: 2, width: 1, cross: 2}\n", ("bad-length", 11, 48)),
    (GOOD + "patches:\n  p: {shape: regular polygon, sides: 2, side: 1}\n", ("bad-number", 11, 38)),
    (GOOD + "patches:\n  p: {shape: polygon, corners: [[0, 0], [1, 0]]}\n", ("wrong-kind", 11, 32)),
    (GOOD + "patches:\n  p: {shape: path, outline: M 0 0 S 1 1 Z}\n", ("wrong-kind", 11, 29)),
    (GOOD + "patches:\n  p: {shape: path, outline: M 0 0 L 1 Z}\n", ("wrong-kind", 11, 29)),
    (RING + "      - {id: a, fabric: ink, at: [0, 0]}\n", ("missing-key", 12, 9)),
    (RING + "      - {id: a, patch: sq, fabric: ink}\n", ("missing-key", 12, 9)),
    (RING + "      - {id: a, patch: st, fabric: ink, at: [0, 0]}\n", ("unknown-name", 12, 24)),
    (RING + "      - {id: a, patch: sq, fabric: ink, at: [0]}\n", ("wrong-kind", 12, 45)),
    (RING + "      - {id: a, patch: sq, fabric: ink, at: [0, 0], turn: half}\n", ("bad-number", 12, 59)),
    (RING + "      - {id: a, patch: sq, fabric: ink, at: [0, 0], beside: {piece: a, side: 1, own: 1}}\n", ("conflicting-keys", 12, 53)),
    (RING + "      - {id: a, patch: sq, fabric: ink, beside: {piece: b, side: 1, own: 1}}\n", ("unknown-name", 12, 57)),
    (RING + "      - {id: a, patch: sq, fabric: [ink, sand], at: [0, 0]}\n", ("bad-number", 12, 36)),
    (RING + "      - {id: a, patch: sq, fabric: ink, at: [0, 0]}\n" * 2, ("duplicate-name", 13, 14)),
    (GOOD + "quilt: {arrange: [[ston]]}\n", ("unknown-name", 10, 20)),
    (GOOD + "quilt: {arrange: [[stone turn 30]]}\n", ("bad-number", 10, 20)),
    (GOOD + "quilt: {set: diagonal}\n", ("wrong-kind", 10, 14)),
    (GOOD + "quilt: {set: lattice}\n", ("missing-key", 10, 1)),
    (GOOD + "quilt: {binding: {width: 2 in}}\n", ("missing-key", 10, 9)),
    (GOOD + "quilt: {borders: [{width: 1 in, fabric: moss}]}\n", ("unknown-name", 10, 41)),
    (GOOD + "sewing: {thread: 0}\n", ("bad-length", 10, 18)),
    (GOOD + "sewing: {set in by: foot}\n", ("wrong-kind", 10, 21)),
    (GOOD + "booklet: {paper: legal}\n", ("wrong-kind", 10, 18)),
    (GOOD + "booklet: {editions: {x: {pages: [covers]}}}\n", ("unknown-name", 10, 34)),
    (GOOD + "booklet: {editions: {x: {sizes: [bed]}}}\n", ("unknown-name", 10, 34)),
]  # fmt: skip


@pytest.mark.parametrize(("text", "expected"), FAULTS, ids=range(len(FAULTS)))
def test_one_fault_is_told_once_at_its_place(text, expected):
    assert faults(text) == [expected]


@pytest.mark.parametrize("text", [text for text, _ in FAULTS], ids=range(len(FAULTS)))
def test_a_message_is_a_sentence_with_a_next_step(text):
    for d in read(text).diagnostics:
        assert d.message[0] in "`" or d.message[0].islower() or d.message[0].isdigit()
        assert not d.message.endswith(".") and "\n" not in d.message
        assert d.message.count("`") % 2 == 0
        assert (d.hint and d.span.end > d.span.column) or d.span.line == 1


def test_did_you_mean():
    hints = {
        d.code: d.hint
        for d in read("titel: x\n" + GOOD.replace("[ink, sand]", "[ink, snad]")).diagnostics
    }
    assert hints == {
        "unknown-key": "did you mean `title`?",
        "unknown-name": "did you mean `sand`?",
    }


def test_all_faults_are_told_in_one_run():
    text = (
        GOOD.replace("unit: 1 in", "unit: 0").replace("[ink, sand]", "[ink, snad]")
        + "patches: {p: {shape: square, side: a lot}}\nquilt: {borders: [{width: 1 in}]}\nsowing: {}\n"
    )
    assert [code for code, _, _ in faults(text)] == [
        "bad-length", "unknown-name", "bad-length", "missing-key", "unknown-key",
    ]  # fmt: skip


def test_the_sound_part_comes_along():
    outcome = read(
        GOOD.replace("[ink, sand]", "[ink, snad]") + "quilt: {borders: [{width: 0, fabric: ink}]}\n"
    )
    assert outcome.value is not None and not outcome.value.complete
    size = outcome.value.sizes[0]
    assert "snad" in size.fabrics and size.quilt is not None and size.quilt.borders == ()
    assert outcome.value.blocks[0].pieces[1].fabrics == ("snad",)


def test_a_block_with_a_faulty_piece_is_left_out_and_so_is_its_quilt():
    text = RING + "      - {id: a, patch: sq, fabric: ink, at: [0]}\nquilt: {set: straight}\n"
    value = read(text).value
    assert value is not None and value.blocks == () and value.sizes[0].quilt is None


def test_too_many_pieces_and_steps():
    ring = "      - {{id: p{0}x, patch: sq, fabric: ink, at: [0, 0], ring: {{centre: [0, 0], times: 360}}}}\n"
    text = RING + "".join(ring.format(k) for k in range(60))  # 60 * 360 = 21600
    assert [code for code, _, _ in faults(text)] == ["too-large"]
    steps = GOOD + "    sew:\n      - {make: a#, join: [r1c1, r1c2], times: 10001}\n"
    assert [code for code, _, _ in faults(steps)] == ["too-large"]


@pytest.mark.parametrize("written", ["0,75 cm", "0,75cm"])
def test_a_decimal_comma_is_told_to_be_a_point(written):
    (fault,) = read(GOOD + f"allowance: {written}\n").diagnostics
    assert fault.message.endswith("`0,75` is not a number or plain arithmetic")
    assert fault.hint == "write it with a point: `0.75`"


def test_a_flag_of_an_arc_left_out_is_told_as_such():
    """`A 4 4 0 1 4 8`: the two radii, the turn, one flag. The next number, 4, is none, and is a number all the same."""
    outline = "M 0 8 L 0 4 A 4 4 0 1 4 8 Z"
    (fault,) = read(GOOD + f"patches:\n  p: {{shape: path, outline: {outline}}}\n").diagnostics
    assert fault.message.endswith(
        "has `4` where an arc `A` takes 0 or 1, its fourth and its fifth number"
    )
