"""Every limit of `bounds.py` is looked at before the work it saves, and is told with its place."""

import sys
from pathlib import Path

import pytest

from booklet.geometry.overlay import narrowest
from booklet.kit import bounds
from booklet.kit.diagnostic import Outcome
from booklet.pressing.layers.thickness import CHORDS, coarse
from booklet.recipe import compiler
from booklet.sewing.mosaic.straight_lines import halving_lines

sys.path.insert(0, str(Path(__file__).parent / "benchmarks"))
from bounds import SOURCES, kept, row, with_sizes
from planner_mosaics import mosaic_from

MINI = ("  mini: {title: Mini, unit: 1/2 in, blocks: 1}\n", "")


def told(tmp_path, source):
    (tmp_path / "pattern.yaml").write_text(source, encoding="utf-8")
    return [(d.code, d.span.line, d.message) for d in compiler.check(tmp_path).diagnostics]


@pytest.fixture
def no_work(monkeypatch):
    """Nothing is sewn: what is told was found before."""

    def refused(laid_out, ask):
        assert not laid_out.tilings, "the work has begun"
        return Outcome(None)

    monkeypatch.setattr("booklet.recipe.checking.assemble", refused)


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("curves, unit 100000 in", "`unit` of size `lap` is `100000 in`; no length is more than 1000 in"),
        ("curves, unit 1000 in", "beyond 1000 in (25.4 m), further than any quilt"),
        ("4000 sizes", "there are 4000 sizes; at most 60 can be worked with"),
        ("a seam of 1000 corners", "has 1001 sides; at most 400 can be worked with"),
        ("a disc of 1000 corners", "has 1000 sides; at most 400 can be worked with"),
    ],
)  # fmt: skip
def test_what_is_too_much_is_told_before_the_work(tmp_path, no_work, name, words):
    found = told(tmp_path, SOURCES[name]())
    assert found and all(line > 1 for _, line, _ in found)
    assert any(words in message for _, _, message in found), found


def test_all_sizes_together_have_a_limit(tmp_path, no_work, monkeypatch):
    # 4 sizes of a block of 14 pieces
    monkeypatch.setattr("booklet.checks.early.MOST_WORKED", 55)
    found = told(tmp_path, with_sizes(kept("nine_patch"), 4))
    assert [(c, m) for c, _, m in found if c == "too-large"] == [
        ("too-large", "the blocks have 56 pieces in all sizes together; at most 55 can be worked with")
    ]  # fmt: skip


def test_points_of_curves_have_a_limit(tmp_path, no_work, monkeypatch):
    monkeypatch.setattr("booklet.checks.early.MOST_CURVE_POINTS", 50)
    found = told(tmp_path, kept("quarter_circles"))
    assert any("the curves of block `ring` have" in m and c == "too-large" for c, _, m in found)


def test_cloth_that_there_is_not_is_told_before_much_work(tmp_path, no_work):
    found = told(tmp_path, kept("quarter_circles", ("unit: 2 in", "unit: 90 in"), MINI))
    assert {code for code, _, _ in found} == {"wider-than-cloth"}
    assert "patch `A` needs" in found[0][2]


def test_the_narrowest_strip_that_holds_an_outline():
    assert narrowest([(0, 0), (3, 0), (3, 4), (0, 4)]) == pytest.approx(3)
    assert narrowest([(0, 0), (3, 4), (0, 8), (-3, 4)]) == pytest.approx(24 / 5)  # 6 x 8 / 2 / 5
    assert narrowest([(0, 0), (1, 1), (2, 2)]) == 0


def test_every_limit_has_its_reason():
    lines = Path(bounds.__file__).read_text(encoding="utf-8").splitlines()
    named = [n for n, line in enumerate(lines) if line[:1].isupper() and " = " in line]
    assert len(named) > 20
    for n in named:
        assert lines[n + 1].startswith('"""') and ":" in lines[n + 1], lines[n]


# what made the work long


def test_long_curves_are_folded_by_few_edges_on_the_curve(tmp_path):
    (tmp_path / "pattern.yaml").write_text(
        kept("quarter_circles", ("unit: 2 in", "unit: 6 in")), encoding="utf-8"
    )
    checked = compiler.check(tmp_path).value
    pressed = checked
    fine = pressed.assemblies["lap", "ring"]
    rough = coarse(fine)
    for before, after in zip(fine.tiling.seams, rough.tiling.seams, strict=True):
        assert (before.start, before.end) == (after.start, after.end)
        assert len(after.path) <= CHORDS + 1 and set(after.path) <= set(before.path)
    # both patches keep the same points, so their areas still add up to the block's
    outlines = [piece.outline for piece in rough.tiling.pieces]
    assert sum(abs(_area(o.points)) for o in outlines) == pytest.approx(36 * 36, rel=1e-9)
    assert coarse(rough) is rough


def _area(points):
    return (
        sum(
            a[0] * b[1] - b[0] * a[1] for a, b in zip(points, [*points[1:], points[0]], strict=True)
        )
        / 2
    )


@pytest.mark.parametrize("count", [5, 12, 13, 30])
def test_a_row_is_cut_as_before_up_to_twelve_parts_and_in_halves_beyond(tmp_path, count):
    (tmp_path / "pattern.yaml").write_text(row(count), encoding="utf-8")
    assembled = compiler.check(tmp_path).value
    (assembly,) = assembled.assemblies.values()
    most = max(len(step.join) for step in assembly.steps)
    assert most == (count if count <= 12 else most) and most <= 12
    assert {id for step in assembly.steps for id in step.pieces} == {
        piece.id for piece in assembly.tiling.pieces
    }


def test_a_long_row_is_halved_whatever_lies_inside_it():
    # no point lies inside a row, so its middle is told by the ends of its lines: 1500 squares, 1499 lines
    mosaic = mosaic_from([[(n, 0), (n + 1, 0), (n + 1, 1), (n, 1)] for n in range(1500)])
    for line in halving_lines(mosaic, mosaic.whole):
        assert abs(line.side.bit_count() - 750) < 50
