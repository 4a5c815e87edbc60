"""The bed a size is made for: how the quilt lies on it, and what is said where it is too small."""

import json
import re

import corpus
import pytest
from source_helpers import HEAD, PATTERNS, faults

from booklet.facts import facts_text
from booklet.kit.measure import Length
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
    62 and 8 in on either side are 78; 6 x 10 + 7 x 2 = 74 and 6 1/2 in are 87. What the hint says is what is then made."""
    sashed = TEXT.replace(
        "arrange: [[stone]]",
        "arrange: [[stone]], sashing: {width: 2 in, fabric: sand, outside: yes}",
    )
    small = sashed.replace("blocks: 9 x 10", "blocks: 2 x 2")
    (fault,) = checked(tmp_path, "{mattress: full}", small).diagnostics
    written = "sides: 8 in, top and bottom: 6 1/2 in"
    assert fault.hint == (
        f"`blocks: 5 x 6` and a border of `{written}`, in a straight set make 78 x 87 in"
    )
    taken = sashed.replace("blocks: 9 x 10", "blocks: 5 x 6").replace(
        "outside: yes}", f"outside: yes}}, borders: [{{{written}, fabric: ink}}]"
    )
    found = checked(tmp_path, "{mattress: full}", taken)
    assert found.diagnostics == ()
    assert [float(x) for x in found.value.quilts["queen"].finished] == [78, 87]


def test_the_hint_gives_the_border_two_widths_where_that_comes_nearer(tmp_path):
    """A queen mattress of 60 x 80 with 14 in wants 88 x 94. With one border of 4 in, 8 x 9 blocks of 10 in are 88 x 98; with
    4 in at the sides and 2 in at top and bottom they are 80 + 8 = 88 by 90 + 4 = 94, just right."""
    small = TEXT.replace("blocks: 9 x 10", "blocks: 2 x 2")
    (fault,) = checked(tmp_path, "{mattress: queen, drop: 14 in}", small).diagnostics
    assert fault.hint == (
        "`blocks: 8 x 9` and a border of `sides: 4 in, top and bottom: 2 in`, in a straight set make 88 x 94 in"
    )
    border = "arrange: [[stone]], borders: [{sides: 4 in, top and bottom: 2 in, fabric: ink}]"
    taken = small.replace("blocks: 2 x 2", "blocks: 8 x 9").replace("arrange: [[stone]]", border)
    found = checked(tmp_path, "{mattress: queen, drop: 14 in}", taken)
    assert found.diagnostics == ()
    assert [float(x) for x in found.value.quilts["queen"].finished] == [88, 94]


@pytest.mark.parametrize(
    ("sashing", "count", "sides", "ends", "made"),
    [
        # 6 x 10 x √2 = 84.85: + 2 x 2 = 88.85, + 2 x 5 = 94.85
        ("", "6 x 6", "2", "5", "88.853 x 94.853"),
        # (10 + 1) x √2 = 15.56: 5 of them are 77.78, + 2 x 5 1/2 = 88.78; 6 are 93.34, + 2 x 1/2 = 94.34
        (", sashing: {width: 1 in, fabric: ink, cornerstones: sand}", "5 x 6", "5 1/2", "1/2", "88.782 x 94.338"),
    ],
)  # fmt: skip
def test_the_hint_stays_on_point(tmp_path, sashing, count, sides, ends, made):
    """A block on point takes up its diagonal, side x √2, its sashing with it; 88 x 94 in is wanted."""
    own = f"arrange: [[stone]], set: on point, setting fabric: sand{sashing}"
    small = TEXT.replace("blocks: 9 x 10", "blocks: 2 x 2").replace("arrange: [[stone]]", own)
    (fault,) = checked(tmp_path, "{mattress: queen, drop: 14 in}", small).diagnostics
    written = f"sides: {sides} in, top and bottom: {ends} in"
    assert fault.hint == (
        f"`blocks: {count}` and a border of `{written}`, set on point make {made} in"
    )
    taken = small.replace("blocks: 2 x 2", f"blocks: {count}").replace(
        own, f"{own}, borders: [{{{written}, fabric: ink}}]"
    )
    assert checked(tmp_path, "{mattress: queen, drop: 14 in}", taken).diagnostics == ()


def test_the_hint_for_a_lattice_is_one_of_its_own(tmp_path):
    """A half drop of blocks of 8 x 12 in whose every second column hangs 6 in lower: its rim filled, 7 columns are 56 in wide
    (6 are 48), 5 rows are 5 x 12 + 6 = 66 in (4 are 54), for a mattress of 40 x 50 with 5 in, which wants 50 x 55. Of small flowers whose
    columns slope, what the hint says is what is then made, and one block fewer either way is too few."""
    for name, mattress, told in (
        ("half_drop", "40 x 50", (7, 5)),
        ("flowers_in_lattice", "16 x 19", None),
    ):
        bed = f"bed: {{mattress: {mattress} in, drop: 5 in}}"
        written = (PATTERNS / name / "pattern.yaml").read_text("utf-8")
        size = re.search(r"blocks: \d+ x \d+", written)

        def small(counts, bed=bed, written=written, size=size):
            text = written.replace(size[0], f"blocks: {counts[0]} x {counts[1]}, {bed}", 1)
            found = checked(tmp_path, "", text)
            hints = [d.hint for d in found.diagnostics if d.code == "small-for-bed"]
            return hints[0] if hints else None, found.value.quilts

        hint, _ = small((3, 2))
        said = re.fullmatch(
            r"`blocks: (\d+) x (\d+)` of this lattice, with its borders, make ([\d./ ]+) x ([\d./ ]+) in",
            hint,
        )
        counts = int(said[1]), int(said[2])
        assert told in (None, counts)
        none, quilts = small(counts)
        assert none is None
        made = [Length.of(text) for text in said.groups()[2:]]
        (quilt,) = quilts.values()
        assert [float(x) for x in quilt.finished] == pytest.approx(
            [float(x) for x in made], abs=0.001
        )
        assert small((counts[0] - 1, counts[1]))[0] and small((counts[0], counts[1] - 1))[0]
