"""Quilts, tops and classes as a stranger makes them, reckoned by hand: what is bought, for which width, for how many."""

import re
from pathlib import Path

import corpus
import pytest

from booklet.comparing.changes import changes
from booklet.comparing.side import of_plan
from booklet.drawing.ink.fills import looks_of
from booklet.drawing.quilts.quilt import layout_figure
from booklet.facts import facts
from booklet.kit.diagnostic import did_you_mean
from booklet.kit.measure import Length
from booklet.pages.composing import compose
from booklet.pattern import Paper
from booklet.plan.workshop.day import day_of
from booklet.quilt.finishing.panels import best_layout
from booklet.recipe import compiler


def plan_of(name):
    (folder,) = (folder for folder in corpus.FOLDERS if folder.name == name)
    return corpus.plan_of(folder)


def written(tmp_path, text):
    """The plan of a pattern that is written anew."""
    (tmp_path / "pattern.yaml").write_text(text, "utf-8")
    found = compiler.check(tmp_path)
    assert found.value is not None, found.diagnostics
    return compiler.plan(found.value)


def page(plan, edition, *sizes):
    """The words of the web page of an edition."""
    (made,) = (e for e in plan.pattern.booklet.editions if e.id == edition)
    html = compose(
        plan, made, None, Paper.LETTER, sizes or tuple(s.size.id for s in plan.sizes)
    ).html
    return " ".join(re.sub(r"<[^>]+>", " ", html).replace("\u00a0", " ").split())


def test_backs_of_kits_lie_side_by_side():
    """A mat of 18 x 12 in with a border of 1 in is 20 x 14, its back with 1 in more all round 22 x 16. Of cloth 44 in wide two
    lie side by side: 23 backs are 12 lengths of 16 = 192 in. The last length has 22 x 16 in left, ten strips of 1 1/2 in:
    10 of the 46 long borders (20 1/2 in). The other 36 lie two by two in 18 strips, the 46 short ones (12 1/2 in) three by
    three in 16: 34 strips, 51 in. With 1/2 in to straighten 243 1/2 in, 7 yards of 36 in = 252 in."""
    kits = plan_of("placemats_for_all").kits_of("mat")
    (cream,) = (cloth for cloth in kits.cutting.fabrics if cloth.fabric == "c")
    beside = [
        sum(cut.name == "backing" for cut in laid)
        for strip in cream.strips
        for laid in strip.layouts
    ]
    assert [many for many in beside if many] == [2] * 11 + [1]
    assert float(cream.length) == 243.5
    (bought,) = (line.buy for line in kits.materials if line.fabric.id == "c")
    assert bought.replace("\u00a0", " ") == "7 yd"


@pytest.mark.parametrize(("backs", "turned"), [(1, False), (2, True), (3, True)])
def test_so_many_backs_are_laid_the_way_that_takes_least(backs, turned):
    """26 x 20 in of cloth 44 in wide: 26 across, one beside the other does not fit: 20 in each. 20 across, two side by side:
    26 in for two. One: 20 or 26. Two: 40 or 26. Three: 60 or 52."""
    size = Length.of(26), Length.of(20)
    best = best_layout(size, Length.of(44), backs=backs)
    assert best.turned == (backs > 1)
    assert float(best.length_of(backs, Length.of(44))) == {1: 20, 2: 26, 3: 52}[backs]


def test_narrow_last_widths_of_many_backs_lie_side_by_side():
    """52 x 20 in of cloth 42 in wide: 42 + 10 1/2 - 1/2 of either of two widths, four of the narrow ones from one: seven take
    7 + 2 lengths of 20 in, 180 in. Turned, two lie side by side: 4 lengths of 52 in, 208 in."""
    best = best_layout((Length.of(52), Length.of(20)), Length.of(42), backs=7)
    assert best.widths == 2
    assert float(best.length_of(7, Length.of(42))) == 180


def test_each_width_of_cloth_is_told_with_its_cloths(tmp_path):
    """Two cloths are bought by the length, 40 and 44 in wide; of a fat quarter the table says that it is 21 in wide."""
    told = page(plan_of("harbour_runner"), "pattern")
    assert "a usable width of 40 in (Rope) and 44 in (Back cloth) after the selvedges" in told
    assert "2 × fat quarter cloth 21 in wide" in told
    (folder,) = (folder for folder in corpus.FOLDERS if folder.name == "harbour_runner")
    text = (Path(folder) / "pattern.yaml").read_text("utf-8")
    alone = text.replace(
        'rope: {name: Rope, colour: "#a58a5e"}',
        'rope: {name: Rope, colour: "#a58a5e", width: 44 in}',
    )
    assert "a usable width of 44 in after the selvedges" in page(
        written(tmp_path, alone), "pattern"
    )


def test_batting_stands_out_as_each_size_says(tmp_path):
    """10 in and 2 x 2 in are 14 in; 20 in and 2 x 3 in are 26 in."""
    plan = written(
        tmp_path,
        "title: T\nunits: inch\nsizes:\n  small: {unit: 1 in, blocks: 1 x 1}\n"
        "  large: {unit: 2 in, blocks: 1 x 1, quilt: {batting: {extra: 3 in}}}\n"
        "fabrics: {a: {name: A, colour: navy}}\n"
        "blocks: {b: {title: B, grid: [[a, a]], columns: [5, 5], rows: [10]}}\n"
        "quilt: {arrange: [[b]], batting: {extra: 2 in}}\n",
    )
    assert "middle layer, 2 in or 3 in more on each side 14 in × 14 in 26 in × 26 in" in page(
        plan, "pattern"
    )
    assert "middle layer, 3 in more on each side" in page(plan, "pattern", "large")


def test_a_half_drop_is_told_in_columns():
    """Five columns (tests/patterns/half_drop says 5 x 4): they are numbered as the steps name them, and no row is, for a row
    would go up and down."""
    plan = plan_of("half_drop")
    size = plan.sizes[0]
    columns = len({placed.column for placed in size.quilt.placed})
    picture = layout_figure(size, looks_of(plan))
    assert str(picture.caption).startswith(f"{columns} columns of blocks")
    labels = re.findall(r">([0-9a-z]+)<", picture.svg)
    assert [label for label in labels if label.isdigit()][-columns:] == [
        str(n + 1) for n in range(columns)
    ]
    assert not set(labels) & set("abcde")


def test_a_whole_size_is_told_as_such():
    assert "23 students make the whole “mat” each. Cut 23 kits." in page(
        plan_of("placemats_for_all"), "kit", "mat"
    )


def test_a_slip_in_a_border_says_nothing_of_the_back(tmp_path):
    """5 x 5 blocks of 7 x 8 in are 35 x 40; with 4 in on every side 43 x 48, a width of 42 in more for its last inch. With the
    border it is another top: the border is what has to be mended, and nothing is said of the back."""
    (tmp_path / "pattern.yaml").write_text(
        "title: T\nunits: inch\nsizes: {a: {unit: 1 in, blocks: 5 x 5}}\n"
        "fabrics: {a: {name: A, colour: navy}, c: {name: C, colour: red, width: 42 in}}\n"
        "blocks: {b: {title: B, grid: [[a, a]], columns: [4, 3], rows: [8]}}\n"
        "quilt: {borders: [{width: 10 %, fabric: a}], backing: {extra: 4 in, fabric: c}}\n",
        "utf-8",
    )
    found = compiler.check(tmp_path).diagnostics
    assert [d.code for d in found] == ["bad-length"]
    text = (tmp_path / "pattern.yaml").read_text("utf-8").replace("10 %", "0.01 in")
    (tmp_path / "pattern.yaml").write_text(
        text.replace("borders: [{width: 0.01 in, fabric: a}], ", ""), "utf-8"
    )
    assert [d.code for d in compiler.check(tmp_path).diagnostics] == ["hardly-used-width"]


def test_a_slip_in_a_border_says_nothing_of_what_is_sewn_to_the_whole_top(tmp_path):
    """One block 6 in high: without its border it is lower than an overlap of 7 in, and half of it than a sleeve of 4 in. (A
    quilt has one of the two, so that each is asked by itself.)"""
    source = (
        "title: T\nunits: inch\nsizes: {a: {unit: 1 in, blocks: 1 x 1, bed: {mattress: queen}}}\n"
        "fabrics: {a: {colour: navy}}\nblocks: {b: {grid: [[a, a]], columns: [3, 3], rows: [6]}}\n"
        "quilt: {borders: [{fabric: a}], "
    )
    each = {
        "wide-finish": "sleeve: {fabric: a}}\n",
        "envelope-lap": "envelope: {lap: 7 in, fabric: a}}\n",
    }

    def codes(text):
        (tmp_path / "pattern.yaml").write_text(text, "utf-8")
        return [d.code for d in compiler.check(tmp_path).diagnostics]

    for code, key in each.items():
        assert codes(source + key) == ["missing-key"]
        told = codes(source.replace("borders: [{fabric: a}], ", "") + key)
        assert set(told) == {code, "small-for-bed"}


def test_a_figure_is_taken_for_its_word():
    ways = ["singly", "two at a time", "four at a time", "eight at a time"]
    assert did_you_mean("8 at a time", ways) == "did you mean `eight at a time`?"
    assert did_you_mean("4 at a time", ways) == "did you mean `four at a time`?"


def test_no_words_of_a_picture_stand_two_spaces_apart():
    """Two spaces side by side become one number that no reader of PDF can read (`-200.00001-200.00001`)."""
    for name in ("harbour_runner", "medallion"):
        plan = plan_of(name)
        for edition in plan.pattern.booklet.editions:
            html = compose(plan, edition, None, Paper.LETTER, ()).html
            assert not re.findall(r"<text[^>]*>[^<]*  [^<]*</text>", html)


CLASS = """
title: C
units: inch
sizes: {a: {title: A, unit: 1 in, blocks: 2 x 2}}
fabrics: {a: {name: Ash, colour: navy, width: 40 in}, b: {name: Bone, colour: white, width: 40 in}}
blocks: {b: {title: Bench, grid: [[a, b]], columns: [5, 5], rows: [10]}}
quilt: {}
booklet:
  class: {students: 12, makes: {b: 2}, start: "13:30", sessions: [{title: Sew, minutes: 90}]}
  parts: [{title: First, blocks: [b]}, {title: Last, quilt: yes}]
  editions: {one: {pages: [class, kits, day]}, two: {parts: yes, pages: [materials, cutting, quilt]}}
"""


def compared(tmp_path, was, now):
    sides = []
    for name, text in (("was", was), ("now", now)):
        folder = tmp_path / name
        folder.mkdir()
        sides.append(of_plan(written(folder, text)))
    return {(str(c.what), c.grave): (str(c.was), str(c.now)) for c in changes(*sides)}


def test_compare_tells_of_the_class(tmp_path):
    """5 1/2 x 10 1/2 in is cut, 7 from a strip of 40 in (3 with their long side across): 14 kits of two are 28, four strips,
    42 in and 1/2 to straighten, 1 1/4 yd (45 in); with three each 42: six strips, 63 1/2 in, 1 7/8 yd (67 1/2)."""
    now = (
        CLASS.replace("{b: 2}", "{b: 3}")
        .replace("13:30", "9:30")
        .replace("minutes: 90", "minutes: 120")
    )
    found = compared(tmp_path, CLASS, now)
    assert found["what each student makes", True] == ("2 Bench", "3 Bench")
    assert found["the times of the class", True] == (
        "from 13:30; Sew, 90 min",
        "from 9:30; Sew, 120 min",
    )
    said = found["cloth for all kits: Ash", True]
    assert [each.replace("\\u00a0", " ") for each in said] == ["1 1/4 yd", "1 7/8 yd"]
    assert not any("kits to cut" in what for what, _ in found)


def test_compare_tells_of_students_and_parts(tmp_path):
    """12 and 2 spare kits (one for every ten begun) are 14; 31 and 4 are 35."""
    now = CLASS.replace("students: 12", "students: 31")
    now = now.replace(
        "{title: First, blocks: [b]}, {title: Last, quilt: yes}", "{title: All, blocks: [b]}"
    )
    found = compared(tmp_path, CLASS, now)
    assert found["who gets a kit", False] == ("12 students", "31 students")
    assert found["kits to cut", False] == ("14 kits", "35 kits")
    assert found["what is made in part 1", True] == ("4 Bench", "4 Bench and the quilt joined")
    assert found["what is made in part 2", True] == ("the quilt joined", "none")


def test_compare_tells_of_homework_and_of_what_is_done(tmp_path):
    """Homework that has to be done an evening earlier is missing to whoever goes by the earlier handout; one that may be done
    later is not. Sessions may bear one title."""
    once = "sessions: [{title: Sew, minutes: 90}]"
    assert once in CLASS

    def meeting(before, first, second):
        sessions = (
            f"{{title: Sew, minutes: 90, do: [{first}]}}",
            '{title: Tea, minutes: 9, break: yes, start: "9:00"}',
            f'{{title: Sew, minutes: 90, start: "9:09", homework: [{second}]}}',
        )
        homework = f"homework: [{before}], " if before else ""
        return CLASS.replace(once, f"{homework}sessions: [{', '.join(sessions)}]")

    was = meeting("Wash.", "Chain.", "Cut., Press.")
    found = compared(tmp_path, was, meeting("Wash., Cut.", "Chain.", "Press."))
    assert found == {
        ("homework before the class", True): ("Wash", "Wash; Cut"),
        ("homework before Sew", False): ("Cut; Press", "Press"),
    }
    again = tmp_path / "again"
    again.mkdir()
    found = compared(again, was, meeting("", "Chain., Press.", "Wash., Cut., Press."))
    assert found == {
        ("homework before the class", False): ("Wash", "none"),
        ("homework before Sew", False): ("Cut; Press", "Wash; Cut; Press"),
        ("what is done in Sew", False): ("Chain", "Chain; Press"),
    }


def dealt(text, tmp_path):
    """The stretches of a class: in which session, of which block, which steps."""
    plan = written(tmp_path, text)
    lesson = plan.pattern.booklet.lesson
    day = day_of(lesson, plan.sizes[0])
    return [
        (s.session.title, s.task and s.task.block, s.task and s.task.cards) for s in day.stretches
    ], day.left


TWO_BLOCKS = """
title: D
units: inch
sizes: {a: {title: A, unit: 1 in, blocks: 2 x 1}}
fabrics: {a: {colour: navy}, b: {colour: white}}
blocks:
  one: {title: One, grid: [[a, b], [b, a]], columns: [2, 2], rows: [2, 2]}
  two: {title: Two, grid: [[b, a, b]], columns: [1, 2, 1], rows: [4]}
quilt: {arrange: [[one, two]]}
booklet:
  class:
    sessions:
      - {title: First, minutes: 60, do: The pairs.}
      - {title: Second, minutes: 60, do: The rest.}
  editions: {day: {pages: [day]}}
"""


def test_a_session_sews_as_far_as_it_says(tmp_path):
    """Two seams of 2 in and one of 4 in of block One, two of 4 in of Two, one of 4 in between: 20 in at 10 in a minute and
    five or six joins of a minute each are some eight minutes: the first of 60 holds all of it, unless it says how far."""
    found, left = dealt(TWO_BLOCKS, tmp_path)
    assert all(session == "First" for session, block, _ in found if block) and left == 0
    one = TWO_BLOCKS.replace("do: The pairs.", "until: 1, do: The pairs.")
    found, left = dealt(one, tmp_path)
    assert [row for row in found if row[0] == "First"] == [
        ("First", "One", (1,)),
        ("First", None, None),
    ]
    assert next(row for row in found if row[0] == "Second") == ("Second", "One", (2,)) and left == 0
    block = TWO_BLOCKS.replace("do: The pairs.", "until: one, do: The pairs.")
    found, _ = dealt(block, tmp_path)
    assert {b for session, b, _ in found if session == "First"} == {"One", None}
    assert next(row for row in found if row[0] == "Second")[1] == "Two"
    both = block.replace(
        "do: The rest.", "until: one 2, do: The rest."
    )  # nothing is left of it: all else is for home
    found, left = dealt(both, tmp_path)
    assert [row for row in found if row[0] == "Second"] == [("Second", None, None)] and left > 1


@pytest.mark.parametrize(
    ("said", "code"), [("too", "unknown-name"), ("two 0", "bad-number"), ("[two]", "wrong-kind")]
)
def test_until_names_a_block_or_a_step(tmp_path, said, code):
    text = TWO_BLOCKS.replace("do: The pairs.", f"until: {said}, do: The pairs.")
    (tmp_path / "pattern.yaml").write_text(text, "utf-8")
    found = compiler.check(tmp_path).diagnostics
    assert [d.code for d in found] == [code] and found[0].span.line == 13


def test_the_exact_cut_of_parts_is_that_of_what_is_cut(tmp_path):
    """Blocks of 9 in on point: the long side is 9 x 1.41421 = 12.7279, its square takes 2 + 2 x 1.41421 allowances more,
    13.9350; the short side 6.3640 and 2 + 1.41421 allowances, 7.2175. A mitred border and a sleeve are cut longer on
    purpose: 20 + 2 in of either, the sleeve 2 x 4 + 1/2 wide."""
    rows = {
        row["for"]: row["exact_in"]
        for row in facts(plan_of("harbour_runner"))["sizes"]["runner"]["rotary"]
    }
    assert rows["side triangle"] == pytest.approx([13.9350, 13.9350], abs=1e-4)
    assert rows["corner triangle"] == pytest.approx([7.2175, 7.2175], abs=1e-4)
    assert rows["border 1 sides"] == pytest.approx([13.2279, 2.0], abs=1e-4)  # cut 13 1/4 in
    plan = written(
        tmp_path,
        "title: T\nunits: inch\nsizes: {a: {unit: 1 in, blocks: 1 x 1}}\n"
        "fabrics: {a: {name: A, colour: navy}}\n"
        "blocks: {b: {title: B, grid: [[a, a]], columns: [8, 8], rows: [16]}}\n"
        "quilt: {borders: [{width: 2 in, fabric: a, corners: mitred}], sleeve: {fabric: a}}\n",
    )
    rows = {row["for"]: row["exact_in"] for row in facts(plan)["sizes"]["a"]["rotary"]}
    assert rows["border 1 sides"] == [22.0, 2.5] and rows["sleeve"] == [22.0, 8.5]
