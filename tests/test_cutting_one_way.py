"""How each cut lies: prints with an up, stripes, shapes that differ from their mirror image. Counted by hand, and
checked by laying every patch of the quilt beside what lies on the cloth."""

from __future__ import annotations

import csv
import io
import math
from collections import Counter
from functools import cache
from itertools import product
from pathlib import Path

import corpus
import pytest
from builders import METHODS
from cutting_helpers import cut_text as cut_outcome, pattern_text, plan_of

from booklet.crafts.rotary.wedges import Diagonal, Wedge, wedge_cuts, wedge_of, wedge_outline
from booklet.exports.spreadsheets.csv_file import csv_of
from booklet.exports.spreadsheets.tables import tables
from booklet.facts import facts
from booklet.kit.words import words_of
from booklet.pages.tables.cutlist import cut_lines
from booklet.pages.texts.words import Words
from booklet.pattern import Direction
from booklet.plan import make_plan
from booklet.recipe.compiler import check

PATTERNS = Path(__file__).parent / "patterns"
SQUARE = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))
ONE_WAY, STRIPE, ANY = Direction.ONE_WAY, Direction.STRIPE, Direction.ANY


@cache
def plan(name: str):
    return corpus.plan_of(PATTERNS / name)


def lines(name: str, fabric: str, size: str = "lap"):
    (found,) = (s for s in plan(name).sizes if s.size.id == size)
    return [p for p in found.cutting.patches if p.fabric == fabric]


def line(name: str, fabric: str, piece: str, size: str = "lap"):
    (found,) = (p for p in lines(name, fabric, size) if p.name == piece)
    return found


def told(name: str, fabric: str) -> dict[str, list[str]]:
    """What the cutting list says of each thing cut from a cloth."""
    (size,) = plan(name).sizes
    (cloth,) = (c for c in size.cutting.fabrics if c.fabric == fabric)
    found: dict[str, list[str]] = {}
    words = Words(words_of(size.pattern.language))
    for row in cut_lines(size, cloth, words):
        for gives in row.gives:
            found.setdefault(str(gives.pieces).replace("\xa0", " "), []).append(
                f"{gives.figure}: {gives.how}"
            )
    return found


# The fewest squares: by hand, and by trying every number of squares cut in every way.


def turned(points, quarters):
    for _ in range(quarters):
        points = [(1 - y, x) for x, y in points]
    return frozenset((round(x, 6), round(y, 6)) for x, y in points)


def corners(wedge):
    return {
        Wedge.TOP_LEFT: [(0, 0), (1, 0), (0, 1)],
        Wedge.TOP_RIGHT: [(0, 0), (1, 0), (1, 1)],
        Wedge.BOTTOM_RIGHT: [(1, 0), (1, 1), (0, 1)],
        Wedge.BOTTOM_LEFT: [(0, 0), (1, 1), (0, 1)],
        Wedge.TOP: [(0, 0), (1, 0), (0.5, 0.5)],
        Wedge.RIGHT: [(1, 0), (1, 1), (0.5, 0.5)],
        Wedge.BOTTOM: [(1, 1), (0, 1), (0.5, 0.5)],
        Wedge.LEFT: [(0, 1), (0, 0), (0.5, 0.5)],
    }[wedge]


def serves(wanted, supplied, turns) -> bool:
    """Whether every triangle wanted can be another one of those supplied, turned as the cloth allows."""
    steps = range(0, 4, 4 // turns)
    fits = [
        [k for k, s in enumerate(supplied) if any(turned(corners(s), q) == turned(corners(w), 0) for q in steps)]
        for w in wanted
    ]  # fmt: skip
    owner: dict[int, int] = {}

    def place(w: int, seen: set[int]) -> bool:
        for k in fits[w]:
            if k not in seen:
                seen.add(k)
                if k not in owner or place(owner[k], seen):
                    owner[k] = w
                    return True
        return False

    return all(place(w, set()) for w in range(len(wanted)))


KINDS = {
    "halves": ((Wedge.TOP_LEFT, Wedge.BOTTOM_RIGHT), (Wedge.TOP_RIGHT, Wedge.BOTTOM_LEFT)),
    "quarters": ((Wedge.TOP, Wedge.RIGHT, Wedge.BOTTOM, Wedge.LEFT),),
}


def fewest(kind: str, wanted, turns: int) -> int:
    """The least number of squares, by trying every number of each second cut."""
    cuts = KINDS[kind]
    for number in range(len(wanted) + 1):
        for split in product(range(number + 1), repeat=len(cuts)):
            if sum(split) == number:
                supplied = [w for cut, n in zip(cuts, split, strict=True) for w in cut * n]
                if serves(wanted, supplied, turns):
                    return number
    raise AssertionError("each triangle from a square of its own is always enough")


@pytest.mark.parametrize("turns", [1, 2, 4])
@pytest.mark.parametrize("kind", ["halves", "quarters"])
def test_no_fewer_squares_would_do(kind, turns):
    wedges = [wedge for cut in KINDS[kind] for wedge in cut]
    for counts in product(range(3), repeat=4):
        wanted = dict(zip(wedges, counts, strict=True))
        flat = [wedge for wedge, n in wanted.items() for _ in range(n)]
        made = wedge_cuts(wanted, turns)
        cuts = [gives for some in made.values() for gives in some]
        assert len(cuts) == fewest(kind, flat, turns), wanted
        supplied = [wedge for gives in cuts for wedge in gives]
        assert len(supplied) == len(flat) and serves(flat, supplied, turns)
        assert all(
            wedge.diagonal is diagonal for diagonal in made for g in made[diagonal] for wedge in g
        )


def test_a_triangle_is_known_by_its_place():
    for wedge in Wedge:
        assert wedge_of(wedge_outline(wedge, SQUARE)) is wedge
        assert frozenset(wedge_outline(wedge, SQUARE)) == turned(corners(wedge), 0)
        assert turned(corners(wedge), 1) == turned(corners(wedge.quarter_turned), 0)
        mirror = frozenset((1 - x, y) for x, y in turned(corners(wedge), 0))
        assert mirror == turned(corners(wedge.reversed), 0)


# Triangles of one pattern, by hand.


def test_half_squares_of_a_one_way_print():
    # 4 blocks: 2 top left, 1 top right, 1 bottom right in each: 8, 4, 4. Rising squares give a top left and a
    # bottom right: max(8, 4) = 8, of which 4 give one only; falling ones a top right and a bottom left: 4, one each.
    made = line("one_way_everywhere", "rain", "A")
    assert (made.pieces, made.cuts) == (16, 12)
    assert made.diagonals == {Diagonal.RISING: 8, Diagonal.FALLING: 4}
    assert made.gives == (
        ((Wedge.TOP_LEFT, Wedge.BOTTOM_RIGHT), 4),
        ((Wedge.TOP_LEFT,), 4),
        ((Wedge.TOP_RIGHT,), 4),
    )
    assert line("one_way_everywhere", "sand", "A").cuts == 8  # 16 / 2: sand may be turned


def test_quarter_squares_of_a_one_way_print():
    made = line("one_way_everywhere", "rain", "B")  # a top and a bottom in each of 4 blocks
    assert (made.pieces, made.cuts) == (8, 4)
    assert made.gives == (((Wedge.TOP, Wedge.BOTTOM), 4),)
    assert line("one_way_everywhere", "sand", "B").cuts == 2  # 8 / 4


def test_quarters_that_all_lie_one_way_are_not_cut_from_squares(tmp_path):
    # one quarter of base 6 in in each of 11 hour blocks, all lying alike: squares of 6 + 1 1/4 = 7 1/4 in
    # would give 11 x 4 and use 11. Of two that lie opposite, squares waste no more than templates do.
    text = (PATTERNS / "quarter_squares" / "pattern.yaml").read_text(encoding="utf-8")
    text = text.replace('colour: "#33594a"', 'colour: "#33594a", direction: one-way')
    (glass,) = (p for p in plan_of(tmp_path, text, "runner").patches if p.fabric == "glass")
    assert (glass.method.word, glass.pieces, glass.cuts, glass.gives) == ("template", 11, 11, ())
    both = text.replace("[sand, glass, sand, lid]", "[sand, glass, lid, glass]")
    (glass,) = (p for p in plan_of(tmp_path, both, "runner").patches if p.fabric == "glass")
    assert (glass.method.word, glass.pieces, glass.cuts) == ("quarter-square triangles", 22, 11)


def test_half_rectangles_and_their_mirror_images():
    made = line(
        "one_way_everywhere", "rain", "C"
    )  # 4 bottom left, 4 bottom right: each from one of its own
    assert (made.pieces, made.reversed, made.cuts) == (8, 4, 8)
    assert made.diagonals == {Diagonal.RISING: 4, Diagonal.FALLING: 4}
    free = line("one_way_everywhere", "sand", "C")  # 4 / 2 on each diagonal
    assert (free.pieces, free.reversed, free.cuts) == (8, 4, 4)
    assert free.diagonals == {Diagonal.RISING: 2, Diagonal.FALLING: 2}


def test_the_list_says_so_many_on_each_diagonal():
    rain = told("one_way_everywhere", "rain")
    (how,) = rain["C right triangle × 8"]
    assert "Cut 4 once from bottom left to top right, 4 from top left to bottom right." in how
    assert "Or two at a time, right sides together and tops together" in how
    assert "Of each only 1 triangle is of use. 4 of them reversed." in how
    (how,) = rain["B quarter-square triangle × 8"]
    assert "4 squares, 5¼ in: Cut each twice from corner to corner. Of each only 2" in how.replace(
        "\xa0", " "
    )
    sand = " ".join(t for some in told("one_way_everywhere", "sand").values() for t in some)
    assert "Right side up, a long side toward you: cut" in sand


@pytest.mark.parametrize(
    ("direction", "sides", "corners_"), [("one-way", 5, 2), ("stripe", 5, 2), ("any", 3, 2)]
)
def test_setting_triangles(tmp_path, direction, sides, corners_):
    # 2 x 6 on point: 5 sides left and right, 1 above and below. One-way: max(5, 5, 1, 1) = 5 squares; stripes,
    # left and right alike: 10 / 2 = 5; else 12 / 4 = 3. Corners: one of each kind from two squares.
    text = (PATTERNS / "one_way_on_point" / "pattern.yaml").read_text(encoding="utf-8")
    made = plan_of(tmp_path, text.replace("direction: one-way", f"direction: {direction}"))
    cuts = {p.name: (p.pieces, p.cuts) for p in made.patches if p.fabric == "gulls"}
    assert cuts == {"side triangle": (12, sides), "corner triangle": (4, corners_)}


def test_setting_triangles_in_the_facts():
    finishing = facts(plan("one_way_on_point"))["sizes"]["lap"]["finishing"]
    assert finishing["setting_triangles"]["side"]["squares"] == 5
    assert finishing["setting_triangles"]["corner"]["squares"] == 2


# What lies on the cloth is what the quilt needs.


def directions(points) -> tuple[int, ...]:
    """The directions of the sides of an outline walked clockwise, in tenths of a degree; an allowance leaves
    them as they are."""
    sides = zip(points, (*points[1:], points[0]), strict=True)
    area = sum(
        ax * by - bx * ay
        for (ax, ay), (bx, by) in zip(points, (*points[1:], points[0]), strict=True)
    )
    back = 180.0 if area < 0 else 0.0
    angles = [math.degrees(math.atan2(by - ay, bx - ax)) + back for (ax, ay), (bx, by) in sides]
    steps = sorted(round(angle * 10) % 3600 for angle in angles)
    return tuple(s for k, s in enumerate(steps) if k == 0 or s - steps[k - 1] > 1)


def looks(points, direction: Direction) -> tuple[int, ...]:
    """The directions of an outline, the least of those that it may be turned to."""
    here = directions(points)
    turns = {ONE_WAY: [0], STRIPE: [0, 1800], ANY: here}[direction]
    return min(tuple(sorted(quadrant((angle - turn) % 3600) for angle in here)) for turn in turns)


def quadrant(angle: int) -> int:
    """A direction along the cloth or across it as it is, any other by its quadrant: a rectangle whose sides are
    rounded up to the ruler has a slightly other diagonal."""
    near = round(angle / 900) * 900
    return near % 3600 if abs(angle - near) <= 2 else angle // 900 * 900 + 450


FLAT = (
    METHODS["square"],
    METHODS["rectangle"],
    METHODS["half-square triangles"],
    METHODS["quarter-square triangles"],
    METHODS["half-rectangle triangles"],
    METHODS["diamonds from a strip"],
    METHODS["parallelograms from a strip"],
    METHODS["triangles from a strip"],
    METHODS["strip along the selvedge"],
)  # fmt: skip  methods whose cuts have the sides of the patch and no others


@pytest.mark.parametrize(
    "name",
    [
        "one_way_everywhere",
        "one_way_on_point",
        "one_way_strips",
        "on_point_sashed",
        "herringbone",
    ],
)
def test_every_patch_lies_on_its_cloth_as_in_the_quilt(name):
    for size in plan(name).sizes:
        wanted: Counter[object] = Counter()
        laid: Counter[object] = Counter()
        for block in size.blocks:
            for piece in block.tiling.pieces:
                direction = size.size.fabrics[piece.fabric].direction
                key = (piece.patch, piece.fabric, looks(piece.outline.points, direction))
                wanted[key] += size.quilt.blocks[block.tiling.block]
        for part in size.quilt.parts:
            direction = size.size.fabrics[part.fabric].direction
            for place in part.places:
                wanted[part.name, part.fabric, looks(place, direction)] += 1
        mitred = {part.name for part in size.quilt.parts if part.shape == "mitred strip"}
        flat = {
            (p.name, p.fabric)
            for p in size.cutting.patches
            if p.method in FLAT and p.name not in mitred
        }
        for cloth in size.cutting.fabrics:
            direction = size.size.fabrics[cloth.fabric].direction
            for cut in (c for s in cloth.strips for layout in s.layouts for c in layout):
                for shape in cut.shapes:
                    laid[cut.name, cloth.fabric, looks(shape, direction)] += 1
        assert {k: n for k, n in laid.items() if k[:2] in flat} == {
            k: n for k, n in wanted.items() if k[:2] in flat
        }
        assert flat


@pytest.mark.parametrize(
    "name", ["one_way_everywhere", "one_way_strips", "units_together", "market_day"]
)
def test_strips_give_what_the_table_asks_for(name):
    """Two lines alike but for how they lie (4 + 4 of one patch) are both counted, and nothing gives 0."""
    for size in facts(plan(name))["sizes"].values():
        asked: Counter[tuple[str, str]] = Counter()
        given: Counter[tuple[str, str]] = Counter()
        for row in size["rotary"]:
            asked[row["for"], row["fabric"]] += row["pieces"]
        for fabric, cloth in size["cutting"].items():
            for strip in cloth["strips"]:
                for use in strip["use"]:
                    assert use["pieces"] > 0
                    given[use["for"], fabric] += use["pieces"]
        joined = {(r["for"], r["fabric"]) for r in size["rotary"] if r["method"] == "strip"}
        assert {k: n for k, n in given.items() if k not in joined} == {
            k: n for k, n in asked.items() if k not in joined
        }


def test_a_patch_that_lies_in_two_directions_is_counted_whole(tmp_path):
    """4 + 4 rectangles of a one-way print, lying and standing: 8, in plan, tables and words."""
    pieces = """\
      - {id: a, corners: [[0,0],[2,0],[2,4],[0,4]], fabric: ink}
      - {id: b, corners: [[2,0],[6,0],[6,2],[2,2]], fabric: ink}
      - {id: c, corners: [[2,2],[6,2],[6,4],[2,4]], fabric: sand}"""
    cloths = '  ink: {name: Rain, colour: "#224466", direction: one-way}\n  sand: {name: Sand, colour: "#eeddcc"}'
    text = pattern_text(cloths, "  p: {shape: square, side: 1}", pieces, "4")
    (tmp_path / "pattern.yaml").write_text(text, encoding="utf-8")
    made = make_plan(check(tmp_path).value)
    size = facts(made)["sizes"]["lap"]
    uses = [u for strip in size["cutting"]["ink"]["strips"] for u in strip["use"]]
    assert sum(u["pieces"] for u in uses) == 8
    rotary = [r for r in size["rotary"] if r["fabric"] == "ink"]
    assert sorted((r["cut_in"], r["pieces"], r["up_deg"]) for r in rotary) == [
        ([2.5, 4.5], 4, 0.0),
        ([4.5, 2.5], 4, 270.0),  # the first turned clockwise, so its up is at the left
    ]
    (strips,) = (t for t in tables(made) if t.name == "strips")
    rows = list(csv.DictReader(io.StringIO(csv_of(strips).decode("utf-8-sig"))))
    assert sum(int(r["Pieces these strips give"]) for r in rows if r["Fabric"] == "Rain") == 8
    (ink,) = (line for line in made.sizes[0].materials if line.fabric.id == "ink")
    assert [str(use) for use in ink.use] == ["A rectangle × 8"]


def test_a_short_strip_set_makes_what_is_cut_from_it():
    for size in facts(plan("units_together"))["sizes"].values():
        for unit in size["together"]:
            if unit["method"] == "strip sets":
                # the strips are 1/2 in to straighten and a cut's width for each unit that they give
                sets = unit["cuts"][0]["count"]
                each = (unit["cuts"][0]["cut_in"][0] - 0.5) / unit["trim_to_in"][1]
                assert unit["made"] == sets * math.floor(each + 1e-9) >= unit["units"]


# Words, tables and borders.


def test_nothing_is_turned_on_a_one_way_print():
    text = " ".join(t for some in told("one_way_strips", "rain").values() for t in some)
    assert "end for end" not in text
    assert "Lay all with the long side at the top, as drawn." in text
    # 4 of the 12 triangles point up and lie by turns with 4 that point down; 3 more of those fill the strip
    assert "Lay 4 with the long side at the bottom and 7 with it at the top, as drawn." in text
    deck = " ".join(t for some in told("one_way_strips", "deck").values() for t in some)
    assert "end for end" in deck  # stripes may be


def test_the_table_of_cuts_counts_diagonals():
    (cutting,) = (t for t in tables(plan("one_way_everywhere")) if t.name == "cutting")
    rows = [dict(zip(cutting.heads, row, strict=True)) for row in cutting.rows]
    (rain,) = (r for r in rows if r["Fabric"] == "Rain" and r["Piece"] == "A")
    assert rain["Cut again from bottom left to top right"] == 8
    assert rain["Cut again from top left to bottom right"] == 4


BORDER = """quilt:
  set: straight
  arrange: [[boat]]
  borders: [{width: 3 in, fabric: ink, cut: CUT}]"""


@pytest.mark.parametrize(
    ("cut", "warned", "sides"),
    [("auto", "", METHODS["strip along the selvedge"]), ("across", "sides", METHODS["rectangle"]), ("lengthwise", "top and bottom", METHODS["strip along the selvedge"])],
)  # fmt: skip
def test_the_sides_of_a_one_way_border_stand(tmp_path, cut, warned, sides):
    cloths = '  ink: {name: Rain, colour: "#224466", direction: one-way}\n  sand: {name: S, colour: "#eeddcc"}'
    pieces = "      - {id: a, patch: p, fabric: sand, at: [6, 6]}"
    text = pattern_text(
        cloths, "  p: {shape: square, side: 12}", pieces, "2 x 2", BORDER.replace("CUT", cut)
    )
    outcome = cut_outcome(tmp_path, text)
    (made,) = (p for p in outcome.value.cuts["lap"].patches if p.name == "border 1 sides")
    assert made.method is sides
    told_of = [d.message for d in outcome.diagnostics]
    assert [f"border 1 {warned}" in text for text in told_of] == ([True] if warned else [])


def test_sashes_on_point_are_told_to_slant(tmp_path):
    text = (PATTERNS / "on_point_sashed" / "pattern.yaml").read_text(encoding="utf-8")
    outcome = cut_outcome(tmp_path, text.replace('"#e9dcc3"}', '"#e9dcc3", direction: one-way}'))
    assert any("does not stand upright in `sash`" in d.message for d in outcome.diagnostics)
    made = [p for p in outcome.value.cuts["lap"].patches if p.name == "sash"]
    # each of the 13 blocks has 4 sashes, two along either side of it: half lie, half stand beside the blocks
    assert len(made) == 2 and made[0].pieces == made[1].pieces


def test_triangles_upside_down_to_each_other_share_rows(tmp_path):
    """4 triangles 4 in wide and 3 in high point up, 4 down; the ruler is never turned, but they lie by turns."""
    cloths = '  ink: {name: Rain, colour: "#224466", direction: DIRECTION}\n  sand: {name: S, colour: "#eeddcc"}'
    pieces = """\
      - {id: a, corners: [[0,0],[4,0],[2,3]], fabric: ink}
      - {id: b, corners: [[4,0],[6,3],[2,3]], fabric: ink}
      - {id: c, corners: [[0,0],[2,3],[0,3]], fabric: sand}
      - {id: d, corners: [[4,0],[6,0],[6,3]], fabric: sand}"""
    lengths = {}
    for direction in ("one-way", "any"):
        text = pattern_text(cloths, "  p: {shape: square, side: 1}", pieces, "2 x 13").replace(
            "DIRECTION", direction
        )
        made = plan_of(tmp_path, text)
        (ink,) = (cloth for cloth in made.fabrics if cloth.fabric == "ink")
        lengths[direction] = ink.length
        downward = [
            sum(1 for _, y in cut.outline if y > max(q for _, q in cut.outline) - 1e-6) == 1
            for strip in ink.strips for layout in strip.layouts for cut in layout
        ]  # fmt: skip
        if direction == "one-way":
            assert (downward.count(True), downward.count(False)) == (26, 26)
    assert lengths["one-way"] == lengths["any"]


def test_a_long_sash_lies_and_is_not_told_to_stand(tmp_path):
    text = (PATTERNS / "one_way_everywhere" / "pattern.yaml").read_text(encoding="utf-8")
    outcome = cut_outcome(
        tmp_path, text.replace("unit: 1 in", "unit: 3 in")
    )  # 50 in, more than the cloth is wide
    assert not outcome.diagnostics
    (sash,) = (p for p in outcome.value.cuts["lap"].patches if p.name == "long sash")
    assert sash.method == METHODS["strip"] and float(max(sash.cut)) == 50.5


@pytest.mark.parametrize(
    ("corners_", "way"),
    [
        # a long side level, the right angle at the top right: the cut falls from top left to bottom right
        ("[[0,0],[4,0],[4,2]]", "from top left to bottom right"),
        # standing, the right angle at the top right; laid on its long side it comes to lie at the bottom right
        ("[[0,0],[2,0],[2,4]]", "from bottom left to top right"),
    ],
)
def test_half_rectangles_of_one_hand_name_their_one_diagonal(tmp_path, corners_, way):
    other = "[[0,0],[4,2],[0,2]]" if way.startswith("from top") else "[[0,0],[2,4],[0,4]]"
    pieces = f"""\
      - {{id: a, corners: {corners_}, fabric: ink}}
      - {{id: b, corners: {other}, fabric: ink}}"""
    text = pattern_text(
        '  ink: {name: Ink, colour: "#224466"}', "  p: {shape: square, side: 1}", pieces, "3"
    )
    (tmp_path / "pattern.yaml").write_text(text, encoding="utf-8")
    (size,) = make_plan(check(tmp_path).value).sizes
    (cloth,) = size.cutting.fabrics
    (row,) = cut_lines(size, cloth, Words(words_of("en")))
    (gives,) = row.gives
    assert str(gives.pieces) == "A right triangle ×\xa06" and "3 rectangles" in gives.figure
    assert f"a long side toward you: cut each once {way}." in gives.how


def test_a_single_square_is_not_told_as_each(tmp_path):
    """Two triangles for one block: one square. For two blocks four: two squares."""
    pieces = """\
      - {id: a, corners: [[0,0],[2,0],[0,2]], fabric: ink}
      - {id: b, corners: [[2,0],[2,2],[0,2]], fabric: ink}"""
    fabric, patch = '  ink: {name: Ink, colour: "#224466"}', "  p: {shape: square, side: 1}"
    told = []
    for blocks in "12":
        (tmp_path / "pattern.yaml").write_text(pattern_text(fabric, patch, pieces, blocks), "utf-8")
        (size,) = make_plan(check(tmp_path).value).sizes
        (row,) = cut_lines(size, size.cutting.fabrics[0], Words(words_of("en")))
        told.append(str(row.gives[0].how))
    assert told == [
        "Cut it once from corner to corner: 2 triangles.",
        "Cut each once from corner to corner: 2 triangles.",
    ]
