"""Two arcs between the same two corners that bend otherwise: the hint names both radii, whichever piece is wrong."""

import pytest

from booklet.recipe import compiler

BLOCK = """\
title: Quarter
units: inch
sizes: {{s: {{unit: 1 in, blocks: 1}}}}
fabrics: {{a: {{colour: navy}}, b: {{colour: silver}}}}
blocks:
  quarter:
    size: 6 x 6
    pieces:
      - {{id: pie, fabric: a, outline: M 0 0 L 4 0 {pie} 0 4 Z}}
      - {{id: ell, fabric: b, outline: M 4 0 L 6 0 L 6 6 L 0 6 L 0 4 {ell} 4 0 Z}}
"""


@pytest.mark.parametrize(
    ("pie", "ell", "code", "hint"),
    [
        # a quarter of a circle of 4 bulges more than an arc of 5 between the same corners: both pieces claim what lies between
        (
            "A 4 4 0 0 1", "A 5 5 0 0 0", "overlap",
            "give both curves one radius: the arc has a radius of `4` in `pie`, a radius of `5` in `ell`",
        ),
        # the other way round nobody covers it
        (
            "A 5 5 0 0 1", "A 4 4 0 0 0", "gap",
            "give both curves one radius: the arc has a radius of `5` in `pie`, a radius of `4` in `ell`",
        ),
        # a curve that is no arc has no radius
        ("A 4 4 0 0 1", "Q 3 3", "overlap", "draw the curve between `pie` and `ell` alike in both"),
    ],
)  # fmt: skip
def test_the_hint_names_both_radii(pie, ell, code, hint, tmp_path):
    (tmp_path / "pattern.yaml").write_text(BLOCK.format(pie=pie, ell=ell), encoding="utf-8")
    (fault,) = compiler.check(tmp_path).diagnostics
    assert (fault.code, fault.hint) == (code, hint)


def test_equal_radii_are_sound(tmp_path):
    text = BLOCK.format(pie="A 5 5 0 0 1", ell="A 5 5 0 0 0")
    (tmp_path / "pattern.yaml").write_text(text, encoding="utf-8")
    assert not compiler.check(tmp_path).diagnostics
