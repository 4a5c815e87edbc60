"""Blocks sewn on printed paper: sections against brute force, cuts by hand, papers mirrored and true to size."""

import math
import random
from functools import cache
from pathlib import Path

import corpus
import numpy as np
import pytest
from planner_rectangles import rectangulations
from sewing_blocks import box, polygon, tiling_of
from shapely.geometry import MultiPoint, Polygon
from shapely.ops import unary_union
from test_templates_printed import printed

from booklet.commands import run
from booklet.drawing.templates.foundation_sheets import paper_set, sheets_wanted
from booklet.drawing.templates.foundations import foundations_of
from booklet.facts import facts
from booklet.kit.outlines.plane import box_of
from booklet.pages.composing import compose
from booklet.pattern import By, Paper, TurnCosts
from booklet.recipe import compiler
from booklet.sewing.mosaic.mosaic import mosaic_of
from booklet.sewing.planner.paper_sections import Sections
from booklet.sewing.planner.paper_steps import found_steps, search_papers

PATTERNS = Path(__file__).parent / "patterns"
GEESE, HOUSE, CABIN = ("geese_on_paper", "house_on_paper", "cabin_on_paper")
LETTER = (190.0, 240.0)


@cache
def plan(name):
    assert not corpus.checked(PATTERNS / name).diagnostics
    return corpus.plan_of(PATTERNS / name)


@cache
def told(name):
    (size,) = facts(plan(name))["sizes"].values()
    return size


# Sections


def brute(polygons):
    """The fewest sections by trying every way to part every set of pieces, on shapely's ground; None where the pieces
    cannot be sewn on paper. A part is joined along one straight line; a piece is added where the line also parts it from
    all that is there."""

    @cache
    def shape(pieces):
        return unary_union([polygons[k] for k in pieces])

    @cache
    def straight(one, other):
        common = shape(one).intersection(shape(other))
        if common.length < 1e-6:
            return None
        points = MultiPoint([p for line in getattr(common, "geoms", [common]) for p in line.coords])
        a, b = ends(points)
        whole = math.dist(a, b)
        flat = all(off(a, b, (p.x, p.y)) < 1e-6 for p in points.geoms)
        return (a, b) if flat and abs(whole - common.length) < 1e-6 else None

    @cache
    def is_section(pieces):
        if len(pieces) == 1:
            return True
        for last in pieces:
            rest = pieces - {last}
            line = straight(frozenset({last}), rest)
            if (
                line
                and sided(line, shape(rest)) * sided(line, polygons[last]) < 0
                and is_section(rest)
            ):
                return True
        return False

    @cache
    def fewest(pieces):
        if is_section(pieces):
            return 1
        first, *others = sorted(pieces)
        found = []
        for chosen in range(2 ** len(others) - 1):
            one = frozenset({first, *(k for n, k in enumerate(others) if chosen >> n & 1)})
            if shape(one).geom_type != "Polygon" or shape(pieces - one).geom_type != "Polygon":
                continue
            if straight(one, pieces - one):
                counts = fewest(one), fewest(pieces - one)
                found += [sum(counts)] if None not in counts else []
        return min(found, default=None)

    return fewest(frozenset(range(len(polygons))))


def ends(points):
    far = [(p.x, p.y) for p in points.geoms]
    return max(((a, b) for a in far for b in far), key=lambda pair: math.dist(*pair))


def off(a, b, p):
    return abs((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])) / math.dist(a, b)


def sided(line, shape):
    """1 or -1 where a shape lies on one side of a line, 0 where it lies on both."""
    (ax, ay), (bx, by) = line
    sides = [(bx - ax) * (y - ay) - (by - ay) * (x - ax) for x, y in shape.exterior.coords]
    return 1 if min(sides) > -1e-6 else -1 if max(sides) < 1e-6 else 0


def found(pieces):
    """How many sections the tool finds, proven; None where it refuses."""
    tiling = tiling_of(pieces)
    made, faults = found_steps(tiling, search_papers(tiling, sewing()))
    if made is None:
        assert [fault.code for fault in faults] == ["not-on-paper"]
        return None
    assert made.least == len(made.papers)
    assert sorted(id for paper in made.papers for id in paper) == sorted(
        p.id for p in tiling.pieces
    )
    return made.least


def sewing():
    return plan(CABIN).sizes[0].size.sewing


def test_all_rectangles_of_five_pieces_have_the_fewest_sections():
    counts = {}
    for tiles in rectangulations(5):
        boxes = [(a, b, c - a, d - b) for a, b, c, d in tiles]
        mine = found([box(f"p{n}", *each) for n, each in enumerate(boxes)])
        assert mine == brute([Polygon(corners(*each)) for each in boxes]), tiles
        counts[mine] = counts.get(mine, 0) + 1
    assert counts[None] == 2  # the pinwheel and its mirror image: no line goes through
    assert counts[1] > counts[2] > 0


def corners(x, y, w, h):
    return [(x, y), (x + w, y), (x + w, y + h), (x, y + h)]


@pytest.mark.parametrize("seed", range(10))
def test_random_slanted_blocks_have_the_fewest_sections(seed):
    polygons = sliced(random.Random(seed), 7)
    pieces = [polygon(f"p{n}", *points) for n, points in enumerate(polygons)]
    assert found(pieces) == brute([Polygon(points) for points in polygons])


def sliced(rng, count):
    """A square of 8 cut in two again and again along lines between eighths of two sides of a piece."""
    pieces = [[(0.0, 0.0), (8.0, 0.0), (8.0, 8.0), (0.0, 8.0)]]
    while len(pieces) < count:
        piece = max(pieces, key=lambda p: Polygon(p).area * rng.uniform(0.4, 1))
        i, j = sorted(rng.sample(range(len(piece)), 2))
        p, q = (between(piece, k, rng.choice((0.25, 0.5, 0.75))) for k in (i, j))
        pieces.remove(piece)
        pieces += [[p, *piece[i + 1 : j + 1], q], [q, *piece[j + 1 :], *piece[: i + 1], p]]
    return pieces


def between(points, k, share):
    (ax, ay), (bx, by) = points[k], points[(k + 1) % len(points)]
    return (ax + (bx - ax) * share, ay + (by - ay) * share)


def test_a_block_with_a_notch_is_folded_only_where_all_lies_on_one_side():
    # an L of three squares: the corner one last would have to fold over the other two, which do not touch
    assert found([box("a", 0, 0), box("b", 1, 0), box("c", 0, 1)]) == 1
    assert brute([Polygon(corners(*at, 1, 1)) for at in ((0, 0), (1, 0), (0, 1))]) == 1


def test_squares_are_parted_into_rows_and_proven_so_by_their_crossings():
    tiling = tiling_of([box(f"p{x}{y}", x, y) for x in range(9) for y in range(6)])
    made = search_papers(tiling, sewing())
    # 5 x 8 crossings; on the diagonal of them no straight line holds two, so 5 lines join sections, 6 at least
    assert made.least == 6
    assert len(found_steps(tiling, made)[0].papers) == 6


@pytest.mark.parametrize("seed", range(4))
def test_a_search_that_is_cut_short_says_no_more_than_is_proven(seed):
    polygons = sliced(random.Random(seed), 7)
    tiling = tiling_of([polygon(f"p{n}", *points) for n, points in enumerate(polygons)])
    mosaic = mosaic_of(tiling, sewing(), TurnCosts())
    short = Sections(tiling=tiling, mosaic=mosaic, most=0).found()
    assert short.least <= brute([Polygon(points) for points in polygons]) <= short.parting.count


# Numbers and order


def test_pieces_are_numbered_in_the_order_sewn_and_alike_sections_share_a_letter():
    block = told(CABIN)["blocks"]["cabin"]
    assert [section["letter"] for section in block["sections"]] == ["A"] * 4
    assert block["sections_bound"] == 4
    of = {piece["id"]: piece["patch"] for piece in block["pieces"]}
    for section in block["sections"]:
        assert [of[id] for id in section["pieces"]] == ["A1", "A2", "A3", "A4", "A5", "A6"]
        assert [id[0] for id in section["pieces"]] == [
            id[0] for id in block["sections"][0]["pieces"]
        ]


def test_every_seam_of_a_section_is_pressed_toward_the_new_piece():
    for name in (GEESE, HOUSE, CABIN):
        for block in told(name)["blocks"].values():
            place = {id: n for s in block.get("sections", ()) for n, id in enumerate(s["pieces"])}
            section = {id: k for k, s in enumerate(block.get("sections", ())) for id in s["pieces"]}
            for seam in block["seams"]:
                one, other = seam["between"]
                if place and section[one] == section[other]:
                    assert seam["press"] == f"toward {max(one, other, key=place.__getitem__)}"


def test_the_paper_is_turned_as_seldom_as_can_be():
    # two geese: A1 below, both its wings, A4 across, both its wings: the lines run up, down, across, up, down
    (block,) = plan(GEESE).sizes[0].blocks
    assert [p for (section,) in [block.assembly.papers] for p in section.pieces][::3] == [
        "g2",
        "g1",
    ]


def test_sections_are_lettered_after_the_patches_of_plain_blocks():
    blocks = told(HOUSE)["blocks"]
    assert {piece["patch"] for piece in blocks["path"]["pieces"]} == {"A"}
    assert [section["letter"] for section in blocks["house"]["sections"]] == ["B", "C"]


def test_all_is_sewn_by_machine_from_edge_to_edge():
    for block in plan(CABIN).sizes[0].blocks:
        assert all(sewn.by is By.MACHINE for sewn in block.assembly.sewn.values())
        assert all(
            end.value == "edge" for sewn in block.assembly.sewn.values() for end in sewn.ends
        )


# Cutting


def test_pieces_are_cut_as_rectangles_with_allowance_and_margin_all_round():
    cut = {row["for"]: (tuple(row["cut_in"]), row["method"]) for row in told(GEESE)["rotary"]}
    # 1/4 in allowance and 1/4 in margin on both sides: 1 in more each way
    assert cut["A1"] == ((4.0, 2.5), "rough rectangle")  # 3 + 1, 1 1/2 + 1
    assert cut["A2"] == ((2.5, 2.5), "rough rectangle")  # 1 1/2 + 1
    assert told(GEESE)["foundation_margin_in"] == 0.25


def test_in_centimetres_the_margin_makes_12_and_a_half_millimetres_round_the_seam_line():
    cut = {row["for"]: [v * 2.54 for v in row["cut_in"]] for row in told(HOUSE)["rotary"]}
    # 0.75 + 0.5 on both sides: 2.5 cm more each way
    assert cut["B1"] == pytest.approx(
        [14.5, 8.5]
    )  # the roof, 12 x 6 with its grain along the longest side
    assert cut["C2"] == pytest.approx([6.5, 4.5])  # the lintel, 4 x 2


def test_a_one_way_print_stands_upright_in_its_rectangles():
    (plan_of_water,) = (p for p in plan(GEESE).sizes[0].cutting.fabrics if p.fabric == "water")
    names = {
        placed.name for strip in plan_of_water.strips for row in strip.layouts for placed in row
    }
    assert names == {"A2", "A3", "A5", "A6"}
    text = (PATTERNS / HOUSE / "pattern.yaml").read_text(encoding="utf-8")
    one_way = text.replace('colour: "#efe6d2"', 'colour: "#efe6d2", direction: one-way')
    (west,) = (row for row in rotary_of(one_way) if row["for"] == "C3")
    # 4 x 6 stands: 6.5 across the cloth, 8.5 along it
    assert [v * 2.54 for v in west["cut_in"]] == pytest.approx([6.5, 8.5])


def rotary_of(text, tmp=None):
    import tempfile

    with tempfile.TemporaryDirectory() as folder:
        Path(folder, "pattern.yaml").write_text(text, encoding="utf-8")
        checked = compiler.check(Path(folder))
        assert checked.value is not None, checked.diagnostics
        (size,) = facts(compiler.plan(checked.value))["sizes"].values()
        return size["rotary"]


# Papers


def test_a_paper_is_the_section_mirrored_true_to_size():
    size = plan(HOUSE).sizes[0]
    gable, front = foundations_of(size, size.blocks[0])
    for paper, high in ((gable, 60), (front, 60)):
        left, top, right, low = box_of(paper.seam)
        assert (right - left, low - top) == pytest.approx(
            (120, high)
        )  # mm, from seam line to seam line
        left, top, right, low = box_of(paper.cut)
        assert (right - left, low - top) == pytest.approx((135, high + 15))  # 7.5 mm on every side
    of = {cell.text: box_of(cell.points) for cell in front.cells}
    # in the block west (C3) lies at the left, from 0 to 40 mm; seen from the back it lies at the right
    assert of["C3"] == pytest.approx((7.5 + 80, 7.5, 7.5 + 120, 7.5 + 60))
    assert of["C4"] == pytest.approx((7.5, 7.5, 7.5 + 40, 7.5 + 60))
    assert [cell.below for cell in front.cells] == [
        "Door green",
        "Lime wash",
        "Lime wash",
        "Lime wash",
    ]
    assert [side.text for side in gable.sides] == ["C"]


def test_the_facts_hold_the_printed_outline_mirrored():
    text = told(CABIN)["blocks"]["cabin"]["sections"][0]
    xs = [x for x, _ in text["printed_in"]]
    assert (min(xs), max(xs)) == (0, 5)


def test_marks_stand_where_seams_meet_the_edge_and_cross_the_allowance():
    size = plan(HOUSE).sizes[0]
    gable, _ = foundations_of(size, size.blocks[0])
    marks = [stroke for stroke in gable.strokes if math.dist(*stroke) < 12]
    # at the tip of the roof, and where the two upright seams of the front end: 40 and 80 mm along the lower edge
    assert len(marks) == 3
    assert sorted(round(a[0], 3) for a, _ in marks) == [47.5, 67.5, 87.5]
    assert all(math.dist(a, b) == pytest.approx(7.5 * 1.25) for a, b in marks)


def test_as_many_papers_are_counted_as_are_needed():
    size = plan(GEESE).sizes[0]
    made = paper_set(size, size.blocks[0], *LETTER)
    # a paper is 3 1/2 in square: two side by side and two below each other are more than the three wanted
    assert sum(map(len, made.pages)) * made.times >= 3
    assert sheets_wanted(size, *LETTER) == made.times * len(made.pages) <= 2
    # four papers of 5 1/2 in for one block: one on each sheet
    assert sheets_wanted(plan(CABIN).sizes[0], *LETTER) == 4


def test_a_paper_larger_than_the_sheet_is_tiled():
    size = plan(CABIN).sizes[0]
    made = paper_set(size, size.blocks[0], 120.0, 170.0)
    assert len(made.large) == 4 and not made.pages
    assert sheets_wanted(size, 120.0, 170.0) > 4


def test_the_printed_page_shows_each_section_true_to_size():
    made = plan(HOUSE)
    pages = printed(made, Paper.LETTER, made.sizes[0])
    lines = [np.asarray(line) for page in pages for line in page if len(line) > 2]
    # gable and front of the house, 12 x 6 cm each, within trimming lines of 13.5 x 7.5 cm
    boxes = sorted({tuple(np.round(np.ptp(line, axis=0), 1)) for line in lines})
    assert (120.0, 60.0) in boxes and (135.0, 75.0) in boxes


def test_what_lies_left_in_the_block_is_printed_right(tmp_path):
    text = (PATTERNS / HOUSE / "pattern.yaml").read_text(encoding="utf-8")
    # a door nearer to the left: west is 2 cm wide, east 6
    moved = text.replace("[[4, 8], [8, 8], [8, 12], [4, 12]]", "[[2, 8], [6, 8], [6, 12], [2, 12]]")
    moved = moved.replace("[[4, 6], [8, 6], [8, 8], [4, 8]]", "[[2, 6], [6, 6], [6, 8], [2, 8]]")
    moved = moved.replace(
        "[[0, 6], [4, 6], [4, 12], [0, 12]]", "[[0, 6], [2, 6], [2, 12], [0, 12]]"
    )
    moved = moved.replace(
        "[[8, 6], [12, 6], [12, 12], [8, 12]]", "[[6, 6], [12, 6], [12, 12], [6, 12]]"
    )
    (tmp_path / "pattern.yaml").write_text(moved, encoding="utf-8")
    made = compiler.plan(compiler.check(tmp_path).value)
    lines = [line for page in printed(made, Paper.A4, made.sizes[0]) for line in page]
    (front,) = (
        np.asarray(line)
        for line in lines
        if wide_and_high(line) == (120.0, 60.0) and below(line, lines)
    )
    left, top = front.min(axis=0)
    upright = {
        round(float(line[0][0] - left), 1)
        for line in lines
        if len(line) == 2
        and abs(line[0][0] - line[1][0]) < 0.05
        and 15 < abs(line[0][1] - line[1][1]) < 61
        and min(line[0][1], line[1][1]) > top - 1
    }
    assert upright == {60.0, 100.0}  # east's 6 cm come first from the left, west's 2 cm last


def wide_and_high(line):
    return tuple(float(side) for side in np.round(np.ptp(np.asarray(line), axis=0), 1))


def below(line, lines):
    """Whether an outline is the lower one of two alike."""
    tops = [
        np.asarray(other).min(axis=0)[1]
        for other in lines
        if wide_and_high(other) == wide_and_high(line)
    ]
    return np.asarray(line).min(axis=0)[1] == max(tops)


# Words


def words(name):
    made = plan(name)
    return compose(made, made.pattern.booklet.editions[0], sizes=(made.sizes[0].size.id,)).html


def test_the_booklet_tells_how_to_sew_on_paper():
    said = " ".join(words(HOUSE).replace("\xa0", " ").split())
    for sentence in (
        "How to sew on printed paper",
        "Sew section B on its paper: B1 to B3",
        "On foundation C lay C1 (door green) in its place",
        "Thin paper for the foundations, ",
        "Within a section every allowance lies toward the piece sewn on last",
        "Push a pin straight through both papers",
        "short stitches, 1.5 to 1.8 mm",
        "Foundations B and C, printed mirrored",
    ):
        assert sentence in said, sentence


def test_the_plan_tells_how_many_sections_are_needed(capsys):
    assert run(["plan", str(PATTERNS / HOUSE)]) == 0
    out = capsys.readouterr().out
    assert "7 patches on printed paper" in out and "no fewer would do" in out
    assert "the order in the pattern: 2 sections" in out


# Bad input


@pytest.mark.parametrize(
    ("old", "new", "code", "line"),
    [
        ("by: foundation\n    pieces", "by: papers\n    pieces", "wrong-kind", 16),
        (
            "title: Path",
            "title: Path\n    by: foundation\n    by: foundation",
            "duplicate-name",
            32,
        ),
        ("quilt:\n", "sewing:\n  foundation margin: -1 cm\nquilt:\n", "bad-length", 34),
        ("quilt:\n", "sewing:\n  foundation margin: wide\nquilt:\n", "bad-length", 34),
        (
            "quilt:\n",
            "sewing:\n  by: foundation\n  machine from: 3 cm\nquilt:\n",
            "conflicting-keys",
            35,
        ),
        ("[door, lintel, west, east]", "[door, west, lintel, east]", "unsewable-step", 27),
        (
            "[door, lintel, west, east]}",
            "[door, lintel, west, east], by: hand}",
            "conflicting-keys",
            27,
        ),
        (
            "[roof, left, right]}",
            "[roof, left, right], press: toward roof}",
            "conflicting-keys",
            26,
        ),
    ],
)
def test_what_cannot_be_sewn_on_paper_is_said(tmp_path, capsys, old, new, code, line):
    text = (PATTERNS / HOUSE / "pattern.yaml").read_text(encoding="utf-8")
    assert old in text
    (tmp_path / "pattern.yaml").write_text(text.replace(old, new, 1), encoding="utf-8")
    assert run(["check", str(tmp_path), "--format", "lines"]) == 1
    out = capsys.readouterr().out
    assert f"[{code}]" in out and f"pattern.yaml:{line}:" in out, out


# A unit on paper in a plain block


def one_unit(extra="", steps=None):
    text = (PATTERNS / HOUSE / "pattern.yaml").read_text(encoding="utf-8")
    text = text.replace("    by: foundation\n", "", 1)
    gable = "{make: gable, join: [roof, left, right], by: foundation}"
    return text.replace("{make: gable, join: [roof, left, right]}", steps or gable)


def test_a_unit_alone_is_sewn_on_paper_and_the_rest_cut_as_ever(tmp_path):
    (tmp_path / "pattern.yaml").write_text(one_unit(), encoding="utf-8")
    checked = compiler.check(tmp_path)
    assert checked.value is not None, checked.diagnostics
    made = compiler.plan(checked.value)
    (size,) = facts(made)["sizes"].values()
    house = size["blocks"]["house"]
    assert [s["pieces"] for s in house["sections"]] == [["roof", "left", "right"]]
    of = {piece["id"]: piece["patch"] for piece in house["pieces"]}
    (letter,) = {section["letter"] for section in house["sections"]}
    assert [of[id] for id in ("roof", "left", "right")] == [f"{letter}{n}" for n in (1, 2, 3)]
    plain = {of[id] for id in ("door", "lintel", "west", "east")} | {"A"}
    assert letter not in plain and not any(name[-1].isdigit() for name in plain)
    method = {row["for"]: row["method"] for row in size["rotary"]}
    assert method[of["roof"]] == "rough rectangle" and method[of["west"]] == "rectangle"
    said = compose(made, made.pattern.booklet.editions[0], sizes=("mat",)).html
    assert "Sew with the paper on top, on its line" in said
    assert "Push a pin straight through both papers" not in said


@pytest.mark.parametrize(
    ("steps", "code"),
    [
        ("{make: gable, join: [left, right, roof], by: foundation}", "does-not-touch"),
        (
            "{make: slope, join: [roof, left]}\n      - {make: gable, join: [slope, right], by: foundation}",
            "unsewable-step",
        ),
        (
            "{make: gable, join: [roof, left, right], by: foundation, press: open}",
            "conflicting-keys",
        ),
        (
            "{make: gable, join: [roof, left, right], by: foundation, ends: points}",
            "conflicting-keys",
        ),
    ],
)
def test_what_is_no_section_is_refused(tmp_path, capsys, steps, code):
    (tmp_path / "pattern.yaml").write_text(one_unit(steps=steps), encoding="utf-8")
    assert run(["check", str(tmp_path), "--format", "lines"]) == 1
    assert f"[{code}]" in capsys.readouterr().out
