"""Marks along curves lie on both templates at the same place of the seam; templates say what they are."""

import itertools
import math
from pathlib import Path

import corpus
import ezdxf
import pytest
from builders import ENGLISH

from booklet.drawing.scene import Ink, Mark
from booklet.drawing.steps import step
from booklet.drawing.templates import template_pages as templates
from booklet.drawing.templates.template_lines import template_lines
from booklet.exports.machines.dxf_file import dxf_of
from booklet.exports.machines.flat import flat_sheet
from booklet.exports.machines.svg_file import svg_of
from booklet.geometry.patches.curve_marks import curve_marks, has_hand, patch_marks
from booklet.geometry.tiling import Seam
from booklet.geometry.vectors import outline_of
from booklet.kit.outlines.plane import length_of

PATTERNS = Path(__file__).parent / "patterns"


def size_of(name, number=0):
    return corpus.plan_of(PATTERNS / name).sizes[number]


def along(path, point):
    """How far along a path a point on it lies, inches."""
    gone = 0.0
    for a, b in itertools.pairwise(path):
        if abs(math.dist(a, point) + math.dist(point, b) - math.dist(a, b)) < 1e-6:
            return gone + math.dist(a, point)
        gone += math.dist(a, b)
    raise AssertionError("the mark does not lie on the curve")


def test_a_straight_seam_has_no_mark():
    assert curve_marks(Seam(id="s1", between=("a", "b"), path=((0, 0), (9, 0)), length=9.0)) == ()


@pytest.mark.parametrize(
    ("number", "length", "shares"),
    [(0, 4.0, (0.25, 0.5, 0.75)), (1, 1.5, (0.5,))],  # a quarter of a circle: radius * pi / 2
)
def test_marks_lie_at_the_half_and_on_long_curves_at_the_quarters(number, length, shares):
    (block,) = size_of("wide_curves", number).blocks
    (seam,) = block.tiling.seams
    assert seam.length == pytest.approx(length * math.pi / 2, abs=0.002)  # 6.283 in and 2.356 in
    found = [along(seam.path, mark) / length_of(seam.path) for mark in curve_marks(seam)]
    assert found == pytest.approx(shares)


@pytest.mark.parametrize("name", ["wide_curves", "clamshells", "quarter_circles", "quarter_round"])
def test_both_patches_of_a_seam_have_its_marks_at_the_same_length(name):
    """Independent of how patches are turned: of each patch, the curved sides are walked in its own frame,
    and the lengths from a matching point to the marks are compared."""
    size = size_of(name)
    tilings = [block.tiling for block in size.blocks]
    for tiling in tilings:
        for seam in tiling.seams:
            wanted = sorted(along(seam.path, mark) for mark in curve_marks(seam))
            for id in seam.between:
                patch = tiling.patch(tiling.piece(id).patch)
                marks = patch_marks(tilings, patch.letter)
                assert any(_has(stretch, marks, wanted) for stretch in _stretches(patch, seam)), id


def _stretches(patch, seam):
    """The stretches of a patch's outline that are as long as the seam, both ways round."""
    ring = list(patch.outline.points)
    count = len(ring)
    for first in range(count):
        path = [ring[first]]
        for k in range(1, count):
            path.append(ring[(first + k) % count])
            if abs(length_of(path) - seam.length) < 1e-3:
                if abs(math.dist(path[0], path[-1]) - math.dist(seam.start, seam.end)) < 1e-3:
                    yield path
                    yield path[::-1]
                break


def _has(path, marks, wanted):
    found = []
    for mark in marks:
        try:
            found.append(along(path, mark))
        except AssertionError:
            continue
    return all(any(abs(one - other) < 2e-3 for other in found) for one in wanted)


def test_the_strokes_on_a_template_cross_the_allowance_to_its_edge():
    size = size_of("wide_curves")
    for template in templates.templates_of(size):
        assert len(template.strokes) == 3
        for a, b in template.strokes:
            # a quarter of the allowance inside the seam line, and the allowance outside: 1.25 * 6.35 mm
            assert math.dist(a, b) == pytest.approx(1.25 * 6.35)
            assert min(_gap(b, p, q) for p, q in _edges(template.cut)) < 0.05
            middle = (a[0] + (b[0] - a[0]) / 5, a[1] + (b[1] - a[1]) / 5)
            assert min(_gap(middle, p, q) for p, q in _edges(template.seam)) < 0.05


def _edges(points):
    return zip(points, (*points[1:], points[0]), strict=True)


def _gap(p, a, b):
    whole = math.dist(a, b)
    t = ((p[0] - a[0]) * (b[0] - a[0]) + (p[1] - a[1]) * (b[1] - a[1])) / whole**2
    t = min(1.0, max(0.0, t))
    return math.dist(p, (a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])))


def test_drawings_for_other_programs_carry_the_marks(tmp_path):
    size = size_of("wide_curves")
    sheet = flat_sheet(size)
    wanted = {stroke for t in sheet.templates for stroke in t.lines if _long(stroke)}
    assert len(wanted) == 6  # three on either patch
    drawing = svg_of(sheet).decode("utf-8")
    for (x, y), _ in wanted:
        assert f'x1="{x:.4f}'.rstrip("0") in drawing and f'y1="{y:.4f}'.rstrip("0") in drawing
    (tmp_path / "t.dxf").write_bytes(dxf_of(sheet))
    found = ezdxf.readfile(tmp_path / "t.dxf").modelspace().query("LINE[layer=='marks']")
    lengths = [(line.dxf.start - line.dxf.end).magnitude for line in found]
    assert sum(abs(length - 1.25 * 6.35) < 1e-3 for length in lengths) == 6


def _long(stroke):
    return abs(math.dist(*stroke) - 1.25 * 6.35) < 1e-6


def test_the_picture_of_a_step_shows_the_marks_on_both_patches(monkeypatch):
    size = size_of("wide_curves")
    (block,) = size.blocks
    scenes = []
    monkeypatch.setattr(step, "figure", lambda scene, caption: scenes.append(scene))
    step.step_figure(block, block.cards[0], _looks(size), speaker=ENGLISH)
    marks = [i for i in scenes[0].items if getattr(i, "mark", None) is Mark.MIDDLE]
    dashes = [i for i in scenes[0].items if getattr(i, "ink", None) is Ink.GUIDE]
    assert len(marks) == 6  # half and quarters, on either side of the gap
    assert len(dashes) == 5  # those of both ends and of the three marks


def _looks(size):
    from booklet.drawing.ink.fills import Fill

    return {id: Fill("#8fb3c9", n) for n, id in enumerate(size.size.fabrics, 1)}


def lines(size, letter):
    patches = [p for p in size.cutting.patches if p.name == letter and p.outline is not None]
    return [str(line) for line in template_lines(size, patches, motif=False, marks=0)]


def test_a_template_says_its_cloths_size_allowance_and_face():
    size = size_of("asymmetric_templates")
    # the right triangle: legs of 1 and 2 in; its long side is the root of 5, 2.236, nearest 2 1/4
    said = lines(size, "A")
    assert said[0] == "A right triangle"
    assert said[1].startswith("finished sides ")
    assert all(length in said[1] for length in ("1 in", "2 in", "2 1/4 in"))
    # a of fern as drawn, c of mist, f of fern: which of them lie reversed depends on which is the model
    assert said[2].startswith("for one “Gull”: 2 Fern") and "1 Mist" in said[2]
    assert "reversed" in said[2]
    assert said[3:5] == [
        "drawn as the right side of the cloth lies",
        "to mark on the wrong side, turn the template over",
    ]
    # a square has no hand: nothing is said of its face
    assert lines(size, "D") == [
        "D square",
        "finished 2 in × 2 in",
        "for one “Gull”: 1 Fern; 1 Mist",
        "allowance included; Cushion, version 1",
    ]


def test_which_outlines_have_a_hand():
    assert not has_hand(outline_of([(0, 0), (2, 0), (2, 1), (0, 1)]))
    assert not has_hand(outline_of([(0, 0), (2, 2), (0, 2)]))  # a half square
    assert has_hand(outline_of([(0, 0), (1, 2), (0, 2)]))
    assert has_hand(outline_of([(1, 0), (3, 0), (2, 1), (0, 1)]))  # a parallelogram
    assert not has_hand(outline_of([(1, 0), (2, 1), (1, 3), (0, 1)]))  # a kite
