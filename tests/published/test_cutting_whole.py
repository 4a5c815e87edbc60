"""Published figures that only a whole pattern shows: log lengths, strip sets, drafted stars.

Figures of topic 1 that do not apply: `cut-equi-03` and `cut-tri-iso-01` count rows of triangles that fill a
quilt without blocks, which no pattern of this format is.
"""

from pathlib import Path

import pytest
from builders import METHODS

from booklet.kit.arithmetic import read_number
from booklet.recipe.compiler import check

HEAD = """\
title: Published
sizes: {one: {unit: 1 in, blocks: 4 x 4}}
fabrics: {centre: {}, pale: {}, blue: {}}
quilt: {arrange: [[it]]}
"""


def plan_of(tmp_path: Path, blocks: str):
    (tmp_path / "pattern.yaml").write_text(HEAD + blocks, "utf-8")
    outcome = check(tmp_path)
    assert outcome.value is not None, [d.message for d in outcome.diagnostics]
    return outcome.value.cuts["one"]


def log_cabin(centre: float, logs: list[tuple[str, float]]) -> str:
    """A block of logs added clockwise from the top about a centre; each is as long as the side so far."""
    left, top, right, bottom = 0.0, 0.0, centre, centre
    pieces = [("c", "centre", (left, top, right, bottom))]
    for k, (fabric, w) in enumerate(logs):
        box = (
            (left, top - w, right, top), (right, top, right + w, bottom),
            (left, bottom, right, bottom + w), (left - w, top, left, bottom),
        )[k % 4]  # fmt: skip
        left, top = min(left, box[0]), min(top, box[1])
        right, bottom = max(right, box[2]), max(bottom, box[3])
        pieces.append((f"l{k + 1}", fabric, box))
    lines = [
        f"      - {{id: {id}, fabric: {fabric}, corners: [[{a - left}, {b - top}], [{c - left}, {b - top}],"
        f" [{c - left}, {d - top}], [{a - left}, {d - top}]]}}"
        for id, fabric, (a, b, c, d) in pieces
    ]
    return "\n".join(["blocks:", "  it:", "    pieces:", *lines, ""])


@pytest.mark.parametrize(
    ("centre", "logs", "printed", "block"),
    [
        (  # log-guild, Brunswick Quilters: centre 3 in as cut, logs 1 3/4 in
            2.5, [("pale" if k % 4 < 2 else "blue", 1.25) for k in range(12)],
            [3, 4.25, 4.25, 5.5, 5.5, 6.75, 6.75, 8, 8, 9.25, 9.25, 10.5], 10.5,
        ),
        (  # log-asym, Julie K Quilts, 2016: centre 2 in, neutral logs 1 1/4 in, blue ones 2 in as cut
            1.5, [("pale", 0.75) if k % 4 < 2 else ("blue", 1.5) for k in range(12)],
            [2, 2.75, 2.75, 4.25, 4.25, 5, 5, 6.5, 6.5, 7.25, 7.25, 8.75], 8.75,
        ),
    ],
)  # fmt: skip
def test_log_lengths(tmp_path, centre, logs, printed, block):
    plan = plan_of(tmp_path, log_cabin(centre, logs))
    lengths = [
        float(max(p.cut))
        for p in plan.patches
        if p.fabric != "centre"
        for _ in range(p.pieces // 16)
    ]
    assert sorted(lengths) == printed
    assert max(lengths) == block  # the last log is as long as the block before it is sewn


def test_a_nine_patch_from_strip_sets(tmp_path):
    # nine-patch-strip, All People Quilt: 6 in nine-patch, strips and segments 2 1/2 in, two segments of one
    # set and one of the other for each block
    plan = plan_of(
        tmp_path,
        "cutting: {strip sets: yes}\nblocks:\n  it:\n    grid: [[blue, pale, blue], [pale, blue, pale], [blue, pale, blue]]\n"
        "    columns: [2, 2, 2]\n    rows: [2, 2, 2]\n",
    )
    assert [float(unit.across) for unit in plan.together] == [2.5, 2.5]
    assert {float(cut.cut[1]) for unit in plan.together for cut in unit.cuts} == {2.5}
    assert sorted(unit.units for unit in plan.together) == [16, 32]  # 16 blocks x 1 and x 2
    assert not [p for p in plan.patches if p.method == METHODS["square"]]


@pytest.mark.parametrize(
    ("written", "printed", "tolerance"),
    [  # drafting figures from the chapter "8-Pointed Star Blocks", pp. 59-67, written as a designer would
        ("6 / (3 + 2 * √2)", 1.0295, 0.0003),  # star-castle-B: diamond and square side
        ("6 / (2 + √2) * √2", 2.484, 0.0015),  # star-castle-D: A times √2
        ("15 / (2 + √2)", 4.3936, 0.001),  # star-rad-A
        ("15 / (2 + √2) / (3 + √2)", 0.9953, 0.0003),  # star-rad-C: three feathers and a diagonal
        ("15 - 2 * 4.3936 - 2 * 0.9953", 4.2222, 0.0002),  # star-rad-ctr
    ],
)
def test_drafted_stars(written, printed, tolerance):
    assert float(read_number(written)) == pytest.approx(printed, abs=tolerance)
