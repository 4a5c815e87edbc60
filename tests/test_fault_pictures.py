"""Faults drawn: every area and distance in the picture is the one reckoned by hand beside it."""

import re
from pathlib import Path

import pytest

from booklet.__main__ import main
from booklet.drawing.ink.svg import render
from booklet.drawing.scene import Area, Ink, Label, Line, Mark, Sign
from booklet.geometry.overlay import area
from booklet.kit.outlines.plane import box_of
from booklet.recipe.checking import check_pattern
from booklet.recipe.fault_pictures import fault_scenes, stacked
from booklet.source.reader import read_folder

HEAD = """title: Quay stones
units: inch
sizes:
  lap: {title: Lap, unit: 1 in, blocks: 1}
fabrics:
  ink: {name: Dark blue, colour: "#243b6b"}
  sand: {name: Sand, colour: "#e9dcc3"}
patches:
  stone: {shape: square, side: 1}
blocks:
  pair:
"""


def scenes(folder, blocks):
    (folder / "pattern.yaml").write_text(HEAD + blocks, "utf-8")
    read = read_folder(folder)
    return [scene for _, scene in fault_scenes(read.value, check_pattern(read).diagnostics)]


def marked(scene, ink):
    return [item for item in scene.items if isinstance(item, Area | Line) and item.ink is ink]


def words(scene):
    return " ".join(item.text for item in scene.items if isinstance(item, Label))


def test_an_overlap_is_marked_measured_and_mended(tmp_path):
    """Two stones of 1 in, half upon each other: 1/2 in by 1 in; the second belongs 1/2 in further right."""
    (scene,) = scenes(tmp_path, """    pieces:
      - {id: a, patch: stone, fabric: ink, at: [0.5, 0.5]}
      - {id: b, patch: stone, fabric: sand, at: [1, 0.5]}
""")  # fmt: skip
    (wrong,), (there,) = marked(scene, Ink.WRONG), marked(scene, Ink.MENDED)
    stone = area(there.points)  # a whole stone, on paper
    assert area(wrong.points) == pytest.approx(stone / 2)
    assert box_of(there.points)[0] == pytest.approx(box_of(wrong.points)[2])  # beside the first
    assert "1: cloth upon cloth: 1/2 square inch" in words(scene)
    assert "Dashed: move b to at: [1.5, 0.5]" in words(scene)
    assert re.search(r"\ba\b.*\bb\b", words(scene))
    assert "1/2 square inch" in scene.alt


def test_a_gap_is_marked_and_measured(tmp_path):
    """A square of 1 in cut along its diagonal, one half missing: 1/2 square inch."""
    (scene,) = scenes(tmp_path, """    size: 2 x 1
    pieces:
      - {id: a, patch: stone, fabric: ink, at: [0.5, 0.5]}
      - {id: b, fabric: sand, corners: [[1, 0], [2, 0], [1, 1]]}
""")  # fmt: skip
    (gap,) = marked(scene, Ink.WRONG)
    left, top, right, bottom = box_of(gap.points)
    assert area(gap.points) == pytest.approx((right - left) * (bottom - top) / 2)
    assert gap.fill.colour == "#ffffff"  # no cloth
    assert "1: no cloth: 1/2 square inch" in words(scene)


def test_what_follows_from_one_slip_is_in_one_picture(tmp_path):
    """Nine stones of 1 in; the ring of the four sides is turned about a centre 1/4 u too far right: overlaps,
    gaps and what reaches over the edge in one picture, and dashed the ring about `[1.5, 1.5]`."""
    found = scenes(tmp_path, """    size: 3 x 3
    pieces:
      - {id: c, patch: stone, fabric: ink, at: [1.5, 1.5]}
      - {id: k, patch: stone, fabric: ink, at: [0.5, 0.5], ring: {centre: [1.5, 1.5], times: 4}}
      - {id: s, patch: stone, fabric: sand, at: [1.5, 0.5], ring: {centre: [1.75, 1.5], times: 4}}
""")  # fmt: skip
    assert len(found) == 1
    assert len(marked(found[0], Ink.WRONG)) > 3
    mended = marked(found[0], Ink.MENDED)
    assert len(mended) == 4
    assert "about centre: [1.5, 1.5]" in words(found[0])


STEPS = """    grid:
      - [ink, sand, ink]
    sew:
      - {make: ends, join: [%s]}
      - {make: all, join: [ends, %s]}
"""


def test_parts_that_do_not_touch_are_measured_and_what_lies_between_is_named(tmp_path):
    """Three squares of 1 in in a row; the first and the last lie 1 in apart, the second between them."""
    (scene,) = scenes(tmp_path, STEPS % ("r1c1, r1c3", "r1c2"))
    (arrow,) = marked(scene, Ink.ARROW)
    left, _, right, _ = box_of(arrow.points)
    wide = max(box_of(i.points)[2] for i in marked(scene, Ink.PATCH)) - min(
        box_of(i.points)[0] for i in marked(scene, Ink.PATCH)
    )
    assert right - left == pytest.approx(wide / 3)
    assert "1: 1 in apart; between them lies r1c2 (hatched)" in words(scene)


def test_parts_that_meet_in_a_point_are_ringed(tmp_path):
    (scene,) = scenes(tmp_path, """    grid:
      - [ink, sand]
      - [sand, ink]
    sew:
      - {make: across, join: [r1c1, r2c2]}
      - {make: all, join: [across, r1c2, r2c1]}
""")  # fmt: skip
    (ring,) = [item for item in scene.items if isinstance(item, Sign) and item.mark is Mark.OPEN]
    left, top, right, bottom = box_of(p for i in marked(scene, Ink.PATCH) for p in i.points)
    assert ring.at == pytest.approx(
        ((left + right) / 2, (top + bottom) / 2)
    )  # the middle of the block
    assert "meet in a point" in words(scene)


def test_a_sound_pattern_has_no_picture(tmp_path):
    assert scenes(tmp_path, STEPS % ("r1c1, r1c2", "r1c3")) == []


@pytest.mark.parametrize("code", ["overlap", "gap", "outside-block", "crossed-shape", "too-close", "does-not-touch", "unsewable-step", "blocked-set-in"])  # fmt: skip
def test_the_first_case_of_each_rule_is_drawn(tmp_path, code):
    case = (Path(__file__).parent / "cases" / f"{code}.md").read_text("utf-8")
    source = re.search(r"```yaml\n(.*?)```", case, re.S)[1]
    (tmp_path / "pattern.yaml").write_text(source, "utf-8")
    read = read_folder(tmp_path)
    found = list(fault_scenes(read.value, check_pattern(read).diagnostics))
    assert found[0][0].code == code
    svg = render(stacked([scene for _, scene in found]))
    assert svg.startswith("<svg")
    assert "nan" not in svg.lower()


def test_check_draws_into_a_file_of_its_own_only(tmp_path, capsys):
    (tmp_path / "pattern.yaml").write_text(HEAD + STEPS % ("r1c1, r1c3", "r1c2"), "utf-8")
    picture = tmp_path / "faults.svg"
    asked = ["check", str(tmp_path), "--picture"]
    assert main([*asked, str(picture)]) == 1
    assert "drew 1 of the faults" in capsys.readouterr().err
    assert "between them lies r1c2" in picture.read_text("utf-8")
    assert main([*asked, str(picture)]) == 1  # again: it is ours
    picture.write_text("<svg>a drawing of my own</svg>", "utf-8")
    assert main([*asked, str(picture)]) == 2
    assert "is no picture of faults" in capsys.readouterr().err
    assert picture.read_text("utf-8") == "<svg>a drawing of my own</svg>"
    assert main([*asked, str(tmp_path / "faults.png")]) == 2
    assert "faults.svg" in capsys.readouterr().err
    assert main([*asked, str(tmp_path / "none" / "f.svg")]) == 1
    assert "cannot write" in capsys.readouterr().err


def test_overlaps_that_close_a_ring_leave_its_middle_alone(tmp_path):
    # four squares of 2 about a middle of 2, each 0.6 too near: strips of 0.6 by 2 along its sides, not all of it
    blocks = """    size: 6 x 6
    pieces:
      - {id: c, corners: [[2, 2], [4, 2], [4, 4], [2, 4]], fabric: ink}
      - {id: n, corners: [[2, 0.6], [4, 0.6], [4, 2.6], [2, 2.6]], fabric: sand}
      - {id: e, corners: [[3.4, 2], [5.4, 2], [5.4, 4], [3.4, 4]], fabric: sand}
      - {id: s, corners: [[2, 3.4], [4, 3.4], [4, 5.4], [2, 5.4]], fabric: sand}
      - {id: w, corners: [[0.6, 2], [2.6, 2], [2.6, 4], [0.6, 4]], fabric: sand}
"""
    said = " ".join(words(scene) for scene in scenes(tmp_path, blocks))
    assert "cloth upon cloth: 1.2 square inches" in said
    assert "cloth upon cloth: 4 square" not in said
