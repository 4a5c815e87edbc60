"""The rows of a set on point: what is listed is what is sewn, corner to corner, and joins to the whole top."""

from __future__ import annotations

from functools import cache
from itertools import pairwise

import corpus
import pytest
from quilt_helpers import INK, pressed, quilt, sashing, setting, size, tiling
from shapely import Polygon
from shapely.affinity import rotate
from shapely.ops import unary_union
from source_helpers import PATTERNS

from booklet.drawing.ink.fills import looks_of
from booklet.drawing.quilts.slanted import slanted_figure
from booklet.facts import facts
from booklet.pages.tables.slanted import slanted_view
from booklet.pages.texts.words import Words
from booklet.pattern import SetKind
from booklet.plan.top.slanted_words import counted
from booklet.quilt import set_quilts
from booklet.quilt.assembling.slanted import slanted_set

NEAR = 1e-4  # inches
TWELVE = tiling("a", 12, 12)


def rows_of(across, down, sashed=False):
    more = {"sashing": sashing("2", INK)} if sashed else {}
    of = quilt((setting("a"),), set=SetKind.ON_POINT, setting_fabric=INK, **more)
    made = set_quilts(pressed((TWELVE,), size(across, down, of))).value.quilts["lap"]
    return made, slanted_set(made, {"a": TWELVE})


def short(row):
    """A row in letters: C corner triangle, T side triangle, B block, S sash, Q cornerstone, H half of one."""
    letters = {
        "side triangle": "T",
        "a": "B",
        "sash": "S",
        "cornerstone": "Q",
        "half cornerstone": "H",
    }
    inside = "".join(letters[item.name] for item in row.items)
    return "C" * (row.start is not None) + inside + "C" * (row.end is not None)


@pytest.mark.parametrize(
    ("across", "down", "rows"),
    [
        (1, 1, ["CBC"]),
        (2, 6, ["TBT", "TBBBC", "TBBBT", "TBBBT", "TBBBT", "CBBBT", "TBT"]),
        (3, 3, ["TBT", "TBBBT", "CBBBBBC", "TBBBT", "TBT"]),
        # 5 x 4: rows of 1, 3, 5, 7, 7, 5, 3 and 1, together 32 = 5 x 4 + 4 x 3
        (5, 4, ["TBT", "TBBBT", "TBBBBBT", "CBBBBBBBT", "TBBBBBBBC", "TBBBBBT", "TBBBT", "TBT"]),
        (1, 3, ["TBC", "TBT", "CBT"]),
    ],
)
def test_rows_corner_to_corner(across, down, rows):
    _, found = rows_of(across, down)
    assert [short(row) for row in found.rows] == rows


def test_rows_with_sashes():
    """2 x 3 with sashes: rows of sashes lie before, between and after the rows of blocks."""
    _, found = rows_of(2, 3, sashed=True)
    assert [short(row) for row in found.rows] == [
        "HSH", "TSBST", "HSQSQSH", "TSBSBSBSC", "HSQSQSQSH", "CSBSBSBST", "HSQSQSH", "TSBST", "HSH",
    ]  # fmt: skip
    assert [short(row) for row in rows_of(1, 1, sashed=True)[1].rows] == ["HSH", "CSBSC", "HSH"]


@pytest.mark.parametrize("sashed", [False, True])
@pytest.mark.parametrize("shape", [(1, 1), (2, 6), (3, 3), (5, 4), (1, 4), (4, 1), (7, 2)])
def test_rows_join_by_straight_seams_to_the_whole_top(shape, sashed):
    """Sewn with shapely, which shares nothing with the rows: every thing lies in one row; in a row each
    meets the next along a whole straight side; rows meet along one line; with the corner triangles they
    are the top."""
    made, found = rows_of(*shape, sashed)
    things = len(made.placed) + sum(
        len(p.places) for p in made.parts if p.name != "corner triangle"
    )
    assert sum(len(row.items) for row in found.rows) == things
    whole = []
    for row in found.rows:
        level = [rotate(Polygon(item.outline), 45, origin=(0, 0)) for item in row.items]
        for one, other in pairwise(level):
            assert one.centroid.x < other.centroid.x  # from the lower left to the upper right
            shared = one.buffer(NEAR).intersection(other).area / NEAR
            assert shared == pytest.approx(min(side(one), side(other)), abs=1e-3)
            assert one.intersection(other).area < 1e-9
        whole.append(unary_union([p.buffer(1e-7) for p in level]))
    for one, other in pairwise(whole):
        assert one.bounds[3] == pytest.approx(other.bounds[1], abs=1e-5)  # one straight seam
    corners = [c for row in found.rows for c in (row.start, row.end) if c] + [
        found.first,
        found.last,
    ]
    assert len(corners) == 4 and len({c.outline for c in corners}) == 4
    top = unary_union(
        [Polygon(i.outline).buffer(1e-7) for row in found.rows for i in row.items]
        + [Polygon(c.outline).buffer(1e-7) for c in corners]
    )
    wide, high = (float(x) for x in made.finished)
    assert top.area == pytest.approx(wide * high, rel=1e-5)


def side(polygon):
    """The upright side of a thing in a level row."""
    return polygon.bounds[3] - polygon.bounds[1]


def test_repeats_are_counted():
    assert [str(x) for x in counted(list("TBBBT"))] == ["T", "3 × B", "T"]
    assert [str(x) for x in counted(list("TSBSBST"))] == ["T", "2 × (S, B)", "S", "T"]
    assert [str(x) for x in counted(list("HSH"))] == ["H", "S", "H"]
    assert [str(x) for x in counted(list("ABCABC"))] == list("ABCABC")


@cache
def plan_of(name):
    return corpus.plan_of(PATTERNS / name)


def view_of(name, size):
    plan = next(one for one in plan_of(name).sizes if one.size.id == size)
    view = slanted_view(plan, Words.of("en"))
    return [(str(row.name), str(row.words)) for row in view.rows], view


def test_the_page_lists_each_row_with_its_triangles():
    rows, view = view_of("on_point_2_by_6", "runner")
    up, down = "Step (its top to the upper right)", "Step (its top to the lower left)"
    assert rows == [
        ("Row 1", f"side triangle, {up}, side triangle"),
        ("Row 2", f"side triangle, {up}, Plain, {down}, (corner triangle, last of all)"),
        ("Rows 3, 4 and 5", f"side triangle, {up}, Plain, {down}, side triangle"),
        ("Row 6", f"(corner triangle, last of all), {up}, Plain, {down}, side triangle"),
        ("Row 7", f"side triangle, {down}, side triangle"),
    ]
    assert str(view.after).startswith(
        "Plain always lies with its top to the upper right. Last of all"
    )


def test_one_block_has_no_rows_to_join():
    rows, view = view_of("on_point_single", "plain")
    assert rows == [
        ("Row 1", "(corner triangle, last of all), Nine patch, (corner triangle, last of all)")
    ]
    assert "opposite sides of the block" in view.lead
    framed, _ = view_of("on_point_single", "framed")
    assert framed[0] == ("Rows 1 and 2 of sashes", "half cornerstone, sash, half cornerstone")


@pytest.mark.parametrize("name", ["on_point_2_by_6", "on_point_single", "on_point_sashed"])
def test_facts_and_picture_hold_the_same_rows(name):
    plan = plan_of(name)
    for one in plan.sizes:
        told = facts(plan)["sizes"][one.size.id]["quilt"]
        blocks = [
            (item["block"], item["column"], item["row"])
            for row in told["slanted_rows"]
            for item in row["holds"]
            if item["what"] == "block"
        ]
        assert sorted(blocks) == sorted((p["block"], p["column"], p["row"]) for p in told["placed"])
        drawn = slanted_figure(one, looks_of(plan))
        numbers = [row["number"] for row in told["slanted_rows"] if row["kind"] == "blocks"]
        assert numbers == list(range(1, len(numbers) + 1))
        assert drawn is not None and all(f">{n}<" in drawn.svg for n in numbers)


def test_other_sets_have_no_slanted_rows():
    assert slanted_figure(plan_of("nine_patch").sizes[0], looks_of(plan_of("nine_patch"))) is None
    assert "slanted_rows" not in next(iter(facts(plan_of("nine_patch"))["sizes"].values()))["quilt"]
