"""Parts longer than the cloth is wide: plan, facts, words, picture and table join the same strips."""

from __future__ import annotations

import re
from collections import Counter
from functools import cache

import corpus
import pytest
from source_helpers import PATTERNS

from booklet.drawing.ink.fills import looks_of
from booklet.drawing.quilts.border import border_figure
from booklet.drawing.quilts.strip_joins import join_lines
from booklet.exports.spreadsheets.tables import tables
from booklet.facts import facts
from booklet.pages.tables.cutlist import cut_lines
from booklet.pages.tables.edges import sleeve_view
from booklet.pages.tables.joining import border_words, sashing_words
from booklet.pages.texts.words import Words

BOTH = ("long_borders", "long_sashes_metric")


@cache
def plan_of(name):
    return corpus.plan_of(PATTERNS / name)


def size_of(name, size):
    return next(one for one in plan_of(name).sizes if one.size.id == size)


def words_for(name):
    return Words.of(plan_of(name).pattern.language)


def plain(markup):
    return " ".join(markup.striptags().replace("\N{NO-BREAK SPACE}", " ").split())


@pytest.mark.parametrize("name", BOTH)
def test_what_is_joined_is_as_long_as_it_is_cut(name):
    """Reads the facts alone: the stretches sewn with an allowance on either side give the lengths of the
    borders, and the cloth is cut into just these stretches, strip by strip."""
    found = facts(plan_of(name))
    for size in found["sizes"].values():
        for join in size["joined"]:
            usable, width = join["strip_in"]
            assert join["join_takes_in"] == pytest.approx(2 * found["allowance_in"], abs=1e-5)
            for piece in join["pieces"]:
                stretches = piece["stretches_in"]
                sewn = sum(stretches) - (len(stretches) - 1) * join["join_takes_in"]
                assert sewn == pytest.approx(piece["length_in"], abs=1e-5)
                assert piece["length_in"] > usable >= max(stretches)
            assert_cut(size["cutting"][join["fabric"]], join, width)
        for number, border in enumerate(size["finishing"].get("borders", ()), 1):
            made = [
                piece["length_in"]
                for join in size["joined"]
                for piece in join["pieces"]
                if piece["for"].startswith(f"border {number} ")
            ]
            assert not Counter(made) - Counter(border["lengths_in"])


def assert_cut(cloth, join, width):
    """The stretches lie in as many strips as are counted, and those in the cloth are just these."""
    wanted = Counter(
        (piece["for"], round(stretch, 3))
        for piece in join["pieces"]
        for stretch in piece["stretches_in"]
    )
    names = {name for name, _ in wanted}
    cut, strips = Counter(), 0
    for strip in cloth["strips"]:
        for laid in strip["laid"]:
            mine = [c["outline_in"] for c in laid["cuts"] if c["for"] in names]
            strips += bool(mine)
            for one in laid["cuts"]:
                if one["for"] in names:
                    xs, ys = zip(*one["outline_in"], strict=True)
                    cut[one["for"], round(max(xs) - min(xs), 3)] += 1
                    assert max(ys) - min(ys) == pytest.approx(width, abs=1e-5)
    assert (cut, strips) == (wanted, join["strips"])


def test_a_small_quilt_joins_nothing():
    assert size_of("long_borders", "frame").cutting.joins == ()
    # sides 2 x 4 + 1/2 = 8 1/2, top and bottom 8 + 2 x 2 + 1/2 = 12 1/2
    border = size_of("long_borders", "frame").quilt.borders[0]
    assert [float(x) for x in border.lengths] == [12.5, 12.5, 8.5, 8.5]
    assert (
        border_words(size_of("long_borders", "frame"), words_for("long_borders"), border).joins
        == ()
    )


def test_the_border_step_says_what_to_join():
    size, words = size_of("long_borders", "lap"), words_for("long_borders")
    named = [border_words(size, words, border) for border in size.quilt.borders]
    # border 1: 4 x 8 = 32, 5 x 8 = 40; sides 40 1/2: 40 + 1 - 1/2 would put the seam into the corner
    assert plain(named[0].joins[0].begin) == (
        "Join 3 strips 3½ in wide, raw edge on raw edge, with straight seams, and press the seams open:"
    )
    assert [plain(x) for x in named[0].joins[0].sums] == [
        "2 for the sides: 39 + 2 − ½ for the join = 40½ in"
    ]
    # border 3: sides 46 + 2 x 1 + 1/2 = 48 1/2, top and bottom 38 + 2 x 1 + 1/2 = 40 1/2, and squares
    assert [plain(x) for x in named[2].joins[0].sums] == [
        "2 for the sides: 40 + 9 − ½ for the join = 48½ in",
        "2 for top and bottom: 39 + 2 − ½ for the join = 40½ in",
    ]
    # the sleeve, of the top's 48 in and 2 for the hems, lies along the back's panels of 56 in in one piece
    assert sleeve_view(size).joined is None


def test_a_sleeve_of_a_cloth_that_no_back_is_cut_from_is_joined(tmp_path):
    text = (PATTERNS / "long_borders" / "pattern.yaml").read_text(encoding="utf-8")
    (tmp_path / "pattern.yaml").write_text(
        text.replace("sleeve: {fabric: sand}", "sleeve: {fabric: ink}"), encoding="utf-8"
    )
    size = next(one for one in corpus.plan_of(tmp_path).sizes if one.size.id == "lap")
    # the top is 48 in wide, 2 in more for the hems
    joined = sleeve_view(size).joined
    assert joined.endswith("1 for the sleeve: 40 + 10 1/2 − 1/2 for the join = 50 in.")


def test_a_border_of_two_widths_is_told_and_joined_by_each():
    words = words_for("borders_of_two_widths")

    def told(size):
        size = size_of("borders_of_two_widths", size)
        line = border_words(size, words, size.quilt.borders[0])
        return [plain(line.width), *(plain(x) for of in line.joins for x in (of.begin, *of.sums))]

    assert told("lap") == ["3 in wide finished at the sides, 5 in at top and bottom"]
    assert told("runner") == ["6 in wide finished, at top and bottom only"]
    # 11 blocks of 4 in: 44 1/2, of cloth 40 in wide; both ends of 5 in come of one strip
    assert told("panel") == [
        "3½ in wide finished, at the sides only",
        "Join 3 strips 4 in wide, raw edge on raw edge, with straight seams, and press the seams open:",
        "2 for the sides: 40 + 5 − ½ for the join = 44½ in",
    ]


def test_the_picture_of_a_border_on_two_sides_numbers_them_from_one():
    plan = plan_of("borders_of_two_widths")

    def turns(size):
        size = size_of("borders_of_two_widths", size)
        return Counter(re.findall(r">(\d)</text>", border_figure(size, 1, looks_of(plan)).svg))

    assert turns("runner") == turns("panel") == {"1": 2}
    # rectangles are sewn to the strips of top and bottom: two sides, then two strips and four corners
    assert turns("lap") == {"1": 2, "2": 2} and turns("square") == {"1": 2, "2": 6}


def test_the_cutting_list_says_which_stretches_to_cut():
    size, words = size_of("long_borders", "lap"), words_for("long_borders")
    cloth = next(c for c in size.cutting.fabrics if c.fabric == "ink")
    lines = cut_lines(size, cloth, words)
    told = [
        (line.count, plain(gives.pieces), plain(gives.figure), plain(gives.how))
        for line in lines
        for gives in line.gives
    ]
    assert told[:4] == [
        (2, "border 3, top and bottom", "2 × 39 in", "2 joined with straight seams: 39 + 2 − ½ for the join = 40½ in"),
        (2, "border 3, sides", "2 × 40 in", "2 joined with straight seams: 40 + 9 − ½ for the join = 48½ in"),
        (1, "border 3, sides", "2 × 9 in", "Likewise"),
        (1, "border 3, top and bottom", "2 × 2 in", "Likewise"),
    ]  # fmt: skip
    clay = next(c for c in size.cutting.fabrics if c.fabric == "clay")
    binding = [
        plain(g.how)
        for line in cut_lines(size, clay, words)
        for g in line.gives
        if g.pieces == "binding"
    ]
    # 2 x 48 + 2 x 56 + 10 = 218 in; 218 / (40 - 2 1/2) = 5.8
    assert binding == ["6 joined with diagonal seams: 218 in altogether", "Likewise"]
    rows = next(t for t in tables(plan_of("long_borders")) if t.name == "cutting").rows
    how = next(row[4] for row in rows if row[:2] == ("Lap", "Dark blue") and "sides" in str(row[3]))
    assert how == "from strips: 40 + 9 − 1/2 for the join = 48 1/2 in"


def test_sashes_and_centimetres():
    """4 blocks of 30 cm and 5 sashes of 4 cm: 140 cm, cut 141.5; a join takes 2 x 0.75 = 1.5 cm."""
    size, words = size_of("long_sashes_metric", "wall"), words_for("long_sashes_metric")
    told = sashing_words(size, words)
    # the long sashes are joined before they are sewn between the rows
    assert "102 + 41 − 1,5" in plain(told[-2]) and "141,5" in plain(told[-2])
    assert "langen Zwischenstreifen nähen" in plain(told[-1])


def test_the_picture_shows_each_join_where_it_lies():
    size = size_of("long_borders", "lap")
    sides = next(part for part in size.quilt.parts if part.name == "border 3 sides")
    # a side 48 in long from y = 4, cut 1/4 in longer at either end: the seam 39 3/4 in from the cut end
    assert [line[0][1] for line in join_lines(size, sides)] == [pytest.approx(4 + 39.5)] * 2
    level = next(part for part in size.quilt.parts if part.name == "border 2 top and bottom")
    # mitred: 40 in long on its outer edge, 42 in cut, 1 in beyond either end; 39 - 1/4 in from the cut end
    (top, bottom) = join_lines(size, level)
    assert top[0][0] == top[1][0] == bottom[0][0] == pytest.approx(4 + 38.75 - 1)
