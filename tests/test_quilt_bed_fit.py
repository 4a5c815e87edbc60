"""The bed a size is made for: how the quilt lies on it, and what is said where it is too small."""

import json

import corpus
import pytest
from source_helpers import HEAD, faults

from booklet.facts import facts_text
from booklet.recipe import compiler

TEXT = (
    HEAD.replace(
        "lap: {unit: 1 in, blocks: 2 x 2}", "queen: {unit: 5 in, blocks: 9 x 10, bed: BED}"
    )
    + "blocks:\n  stone:\n    grid: [[ink, sand], [sand, ink]]\nquilt: {arrange: [[stone]]}\n"
)


def checked(tmp_path, bed: str, text: str = TEXT):
    (tmp_path / "pattern.yaml").write_text(text.replace("BED", bed), "utf-8")
    return compiler.check(tmp_path)


def test_a_quilt_that_is_large_enough(tmp_path):
    found = checked(tmp_path, "{mattress: queen, drop: 14 in, tuck: 6 in}")
    assert found.diagnostics == ()
    bed = found.value.quilts["queen"].bed
    # 9 x 10 = 90 wide: (90 - 60) / 2 = 15 in down; 100 - 80 - 15 = 5 in left to tuck
    assert (float(bed.drop), float(bed.left)) == (15, 5)
    assert [float(x) for x in bed.wanted] == [88, 100]  # 60 + 2 x 14, 80 + 14 + 6
    printed = json.loads(facts_text(compiler.plan(found.value)))
    corpus.schema_of_facts().validate(printed)
    assert printed["sizes"]["queen"]["finishing"]["bed"]["drop_in"] == 15


def test_the_hint_names_a_layout_that_comes_near(tmp_path):
    (fault,) = checked(tmp_path, "{mattress: king, drop: 14 in}").diagnostics
    assert fault.code == "small-for-bed"
    # 76 + 28 = 104 wide, 80 + 14 = 94 long: 9 x 8 blocks of 10 in and 7 in all round are 104 x 94
    assert fault.hint == "`blocks: 9 x 8` and a border of 7 in, in a straight set make 104 x 94 in"


@pytest.mark.parametrize("mattress", ["quene", "60 x", "0.1 x 5 in", "60 x 80 x 90 in"])
def test_a_mattress_that_is_none_is_told_at_its_place(tmp_path, mattress):
    (fault,) = checked(tmp_path, f"{{mattress: {mattress}}}").diagnostics
    assert (fault.code, fault.span.line) == ("unknown-value", 3)


def test_a_bed_needs_a_mattress():
    assert faults(TEXT.replace("BED", "{drop: 14 in}"))[0][0] == "missing-key"


def test_the_hint_counts_the_sashing_round_the_outside(tmp_path):
    """A full mattress of 54 x 75 with 12 in wants 78 x 87. Blocks of 10 in in sashes of 2 in, outside too: 5 x 10 + 6 x 2 =
    62 and 8 in on either side are 78; 6 x 10 + 7 x 2 = 74 and 8 in are 90. What the hint says is what is then made."""
    sashed = TEXT.replace(
        "arrange: [[stone]]",
        "arrange: [[stone]], sashing: {width: 2 in, fabric: sand, outside: yes}",
    )
    small = sashed.replace("blocks: 9 x 10", "blocks: 2 x 2")
    (fault,) = checked(tmp_path, "{mattress: full}", small).diagnostics
    assert fault.hint == "`blocks: 5 x 6` and a border of 8 in, in a straight set make 78 x 90 in"
    taken = sashed.replace("blocks: 9 x 10", "blocks: 5 x 6").replace(
        "outside: yes}", "outside: yes}, borders: [{width: 8 in, fabric: ink}]"
    )
    found = checked(tmp_path, "{mattress: full}", taken)
    assert found.diagnostics == ()
    assert [float(x) for x in found.value.quilts["queen"].finished] == [78, 90]
