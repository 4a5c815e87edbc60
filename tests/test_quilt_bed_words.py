"""The command `bed`: the size wanted with its sums, layouts, what to write in the pattern, what is refused."""

from __future__ import annotations

import pytest

from booklet.__main__ import main
from booklet.quilt.beds.bed_words import BedError, bed_text


def test_a_queen_bed(capsys):
    assert main(["bed", "queen", "--block", "10", "in", "--drop", "14", "in"]) == 0
    said = capsys.readouterr().out
    assert "width:  60 + 2 × 14 of drop = 88 in" in said
    assert "length: 80 + 14 of drop at the foot = 94 in" in said
    # 7 * 10 + 2 * 8 = 86, 8 * 10 + 2 * 8 = 96: off by 2 and 2; 9 x 9 without: by 2 and 4
    assert (
        "7 x 8 blocks (56), a border of 8 in: 86 x 96 in; 2 in less across, 2 in more down" in said
    )
    # with two widths 8 * 10 + 2 * 4 = 88 and 9 * 10 + 2 * 2 = 94; 8 * 10 + 2 * 7 = 94 would differ more from 4
    assert (
        "8 x 9 blocks (72), a border of 4 in at the sides, 2 in at top and bottom: 88 x 94 in; just right across, "
        "just right down" in said
    )
    assert "hangs down 14 in" in said  # (88 - 60) / 2
    assert "0 in is left to tuck in" in said  # 94 - 80 - 14
    written = "blocks: 8 x 9, quilt: {borders: [{sides: 4 in, top and bottom: 2 in, fabric: …}]}"
    assert written in said


def test_one_width_of_border_is_proposed_where_two_come_no_nearer():
    # 60 + 2 * 12 = 84, 80 + 12 = 92: 6 * 12 + 2 * 6 = 84 and 92 = 80 + 2 * 6, of blocks 12 x 20 in
    said = bed_text("queen", "12 x 20 in")
    assert "6 x 4 blocks (24), a border of 6 in: 84 x 92 in" in said
    assert "at top and bottom" not in said


def test_centimetres_with_sashing_and_the_usual_tuck():
    said = bed_text("uk double", "30 cm", tuck="", sashing="3 cm")
    # 135 + 60 = 195; 190 + 30 + 30 = 250; 6 * 30 + 5 * 3 = 195; 8 * 30 + 7 * 3 = 261
    assert "190 + 30 of drop at the foot + 30 to tuck under the pillows = 250 cm" in said
    assert "6 x 8 blocks (48), no border: 195 x 261 cm; just right across, 11 cm more down" in said


def test_a_mattress_given_as_a_size():
    said = bed_text("60 x 80 in", "12 x 14 in", border="0 in")
    assert "The mattress is 60 x 80 in" in said
    assert "7 x 7 blocks (49), no border: 84 x 98 in" in said
    assert "borders" not in said


@pytest.mark.parametrize(
    ("words", "reason"),
    [
        ("bed quen --block 10", "there is no bed `quen`; did you mean `queen`?"),
        ("bed sofa --block 10", "known here: `cal king`, `crib`"),
        ("bed king --block q", "the block cannot be read"),
        ("bed king --block 1/2 in", "smaller than 1 in"),
        ("bed king --block 10 --drop -3 in", "drop"),
        ("bed king --block 1 x 2 x 3", "more than two sizes"),
    ],
)
def test_what_cannot_be_understood(words, reason, capsys):
    try:
        status = main(words.split())
    except SystemExit as end:
        status = end.code
    assert status == 2
    assert reason in capsys.readouterr().err


def test_a_fault_is_a_sentence():
    with pytest.raises(BedError, match="design units"):
        bed_text("king", "10 u")
