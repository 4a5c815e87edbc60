"""Corners that an author writes with three decimals or more draw the same block: its letters, shapes and cuts, and who sews,
are those of the exact one. (README: "three decimals or more"; a unit of 2 in makes 0.0005 of it a thousandth of an inch.)"""

import math

import pytest

from booklet.facts import facts
from booklet.recipe import compiler

HEAD = """\
title: Rounded
sizes: {{one: {{unit: {unit}, blocks: {blocks}}}}}
fabrics: {{red: {{name: R, colour: "#aa3322"}}, gold: {{name: G, colour: "#d4a72c"}}, blue: {{name: B, colour: "#2244aa"}}}}
{more}blocks:
  s:
    pieces:
"""


def written(tmp_path, pieces, places, **head):
    """The facts of the size with the corners of its pieces rounded to so many decimals."""
    lines = [
        f"      - {{id: {id}, fabric: {fabric}, corners: [{', '.join(f'[{x:.{places}f}, {y:.{places}f}]' for x, y in points)}]}}\n"
        for id, fabric, points in pieces
    ]
    text = HEAD.format(more=head.pop("more", ""), **head) + "".join(lines)
    (tmp_path / "pattern.yaml").write_text(text, encoding="utf-8")
    checked = compiler.check(tmp_path)
    assert checked.value is not None, checked.diagnostics
    return facts(compiler.plan(checked.value))["sizes"]["one"]


def star(points):
    """A star of diamonds with sides of 1 about [4, 4], and kites between its tips."""

    def at(far, turn):
        a = math.radians(turn)
        return 4 + far * math.sin(a), 4 - far * math.cos(a)

    wide = 360 / points
    half = math.cos(math.radians(wide / 2))
    for n in range(points):
        way = wide * n
        tips = at(2 * half, way - wide / 2), at(2 * half, way + wide / 2)
        yield f"g{n}", "gold", [at(0, 0), at(1, way), tips[1], at(1, way + wide)]
        yield f"k{n}", "blue", [at(1, way), tips[0], at(2, way), tips[1]]


@pytest.mark.parametrize("unit", ["1 in", "2 in"])
@pytest.mark.parametrize("points", [5, 6, 8])
def test_a_star_has_one_diamond_and_one_shape_between_whatever_its_decimals(tmp_path, points, unit):
    """With sides of 1 in all seams are long enough for the machine: 0.9995 in is no shorter for a sewer."""

    def told(places):
        size = written(tmp_path, star(points), places, unit=unit, blocks=4)
        block = size["blocks"]["s"]
        kinds = [(patch["letter"], patch["shape"]) for patch in block["patches"]]
        return kinds, block["totals"]["turns"], block["totals"]["hand_in"] > 0

    exact = told(9)
    assert len(exact[0]) == (1 if points == 6 else 2)  # six kites are the six diamonds once more
    for places in (3, 4, 5):
        assert told(places) == exact


def thirds():
    """A nine patch of 4 x 4: squares, and in its corners two triangles each."""
    at = (0, 4 / 3, 8 / 3, 4)
    for row in range(3):
        for column in range(3):
            (a, c), (b, d) = at[column : column + 2], at[row : row + 2]
            if row == 1 or column == 1:
                yield f"s{row}{column}", "red", [(a, b), (c, b), (c, d), (a, d)]
            else:
                yield f"a{row}{column}", "gold", [(a, b), (c, b), (a, d)]
                yield f"b{row}{column}", "blue", [(c, b), (c, d), (a, d)]


def test_thirds_are_squares_that_are_cut_by_the_ruler(tmp_path):
    """1.333, 1.334 and 1.333 of 1 1/2 in are squares of 2 in, cut 2 1/2 in (2 + 2 x 1/4); the square is one letter."""
    for places in (3, 4, 9):
        size = written(
            tmp_path,
            thirds(),
            places,
            unit="1 1/2 in",
            blocks="2 x 2",
            more="quilt: {set: straight}\n",
        )
        patches = size["blocks"]["s"]["patches"]
        assert [(p["letter"], p["shape"]) for p in patches] == [
            ("A", "half-square triangle"),
            ("B", "square"),
        ]
        squares = [row for row in size["rotary"] if row["for"] == "B"]
        assert [(row["cut_in"], row["by"], row["pieces"]) for row in squares] == [
            ([2.5, 2.5], "ruler", 20)
        ]
