"""Binding beside borders that are cut along the selvedge: only where that makes no more joins than strips across."""

import pytest

from booklet.recipe import compiler

QUILT = """\
title: Tall
units: inch
sizes:
  small: {{title: Small, unit: 2 in, blocks: 2 x 4}}
  tall:
    {{title: Tall, unit: 2 in, blocks: 4 x 16, quilt: {{borders: [{{width: 5 in, fabric: x, cut: lengthwise}}]}}}}
fabrics:
  a: {{colour: red}}
  x: {{colour: green, width: 42 in, direction: {direction}}}
blocks:
  four: {{grid: [[a, a], [a, a]]}}
quilt:
  arrange: [[four]]
  borders: [{{width: 5 in, fabric: x, corners: squares, square fabric: a}}]
  binding: {{width: 2 1/2 in, fabric: x}}
"""


@pytest.fixture(scope="module", params=["any", "one-way"])
def cut(request, tmp_path_factory):
    folder = tmp_path_factory.mktemp("tall")
    text = QUILT.format(direction=request.param)
    (folder / "pattern.yaml").write_text(text, encoding="utf-8")
    return request.param, compiler.check(folder).value.cuts


def told(plan):
    (cloth,) = (cloth for cloth in plan.fabrics if cloth.fabric == "x")
    binding = sum(patch.pieces for patch in plan.patches if patch.name == "binding")
    return float(cloth.length), binding


def test_short_borders_leave_the_binding_its_long_strips(cut):
    """The top is 8 x 16 in, with its border 18 x 26: binding 2 x 18 + 2 x 26 + 10 = 98 in, of strips across
    (98 - 2.5) / (42 - 2.5) = 2.4, so 3. Beside the upright sides, 16.5 in long, it would be 98 / (16.5 - 2.5) = 7 strips.

    May the cloth be turned: 16.5 + 16.5 + 8.5 = 41.5 and 8.5 in two strips of 5.5, binding 3 x 2.5, and 1/2: 19 in.
    Of a print with an up the sides stand 16.5 high, the others beside them: 16.5 + 7.5 + 1/2 = 24.5 in."""
    direction, plans = cut
    assert told(plans["small"]) == ({"any": 19.0, "one-way": 24.5}[direction], 3)


def test_long_borders_give_fewer_strips_beside_them(cut):
    """The top is 16 x 64 in, with its border, cut along the selvedge, 26 x 74: binding 2 x 26 + 2 x 74 + 10 = 210 in, across 5.3, so 6. Beside the sides, 64.5 in
    long, 210 / (64.5 - 2.5) = 3.4, so 4, which fit with the borders: 4 x 5.5 + 4 x 2.5 = 32 of 42 in."""
    _, plans = cut
    assert told(plans["tall"])[1] == 4
