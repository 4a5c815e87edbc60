"""What a class makes: the plan of one student and of all kits, in layers, by hand."""

from functools import cache
from pathlib import Path

import corpus
import pytest
from source_helpers import GOOD, PATTERNS, faults, pattern

from booklet.exports.press.sheets import bound_together
from booklet.facts import facts
from booklet.kit.measure import Length
from booklet.kit.records import replace
from booklet.pages.class_letter import html_of, letter, letters_of, markdown_of
from booklet.pages.composing import compose
from booklet.pages.tables.kits import day_view
from booklet.pages.texts.words import Words
from booklet.pattern import Page, PageOrder, Paper
from booklet.plan.workshop.day import day_of
from booklet.plan.workshop.kits import kit_items, stacked
from booklet.plan.workshop.samples import cut_for, samples
from booklet.recipe import compiler
from booklet.source.editions.lessons import usual_spares

SHED = PATTERNS / "class_with_kits"


@cache
def planned():
    """The plan of the boat shed's class: 11 students and 1 spare kit; each makes 2 pennants."""
    return compiler.plan(compiler.check(SHED).value)


@cache
def page(edition):
    plan = planned()
    chosen = next(e for e in plan.pattern.booklet.editions if e.id == edition)
    return compose(plan, chosen, None, Paper.LETTER, ("banner",)).html


def pieces(plan):
    return {(p.name, p.fabric): p.pieces for p in plan.cutting.patches}


def test_a_student_cuts_for_the_blocks_of_the_class_and_for_no_border_binding_or_back():
    student = planned().student.sizes[0]
    assert {b.block.id: b.count for b in student.blocks} == {"pennant": 2}
    # a pennant has one tar and one sail square (B), and triangles (A): sail, tar, and two of rust; two pennants:
    assert pieces(student) == {
        ("A", "tar"): 2, ("B", "tar"): 2, ("A", "sail"): 2, ("B", "sail"): 2, ("A", "rust"): 4,
    }  # fmt: skip
    whole = planned().sizes[0]
    assert {b.block.id: b.count for b in whole.blocks} == {"pennant": 3, "deck": 3}  # 3 x 2 blocks


def test_all_kits_are_cut_by_one_plan_of_kits_times_pieces():
    plan = planned()
    kits, one = plan.kits_of("banner"), pieces(plan.student.sizes[0])
    assert kits.size.kits == 12  # 11 students and 1 spare
    assert pieces(kits) == {key: 12 * count for key, count in one.items()}
    bought = {line.fabric.id: line.buy.replace("\u00a0", " ") for line in kits.materials}
    # tar, and sail likewise: 12 squares of 3 + 7/8 in (each 2 triangles) and 24 of 3 1/2 in. A strip of 40 in takes 10 of the
    # large ones (38 3/4); the other 2 (7 3/4) leave 32 1/4 for 9 small ones (31 1/2); 15 more are 11 (38 1/2) and 4.
    # 2 x 3 7/8 + 2 x 3 1/2 + 1/2 to straighten = 15 1/4: more than 3/8 yd (13 1/2), so 1/2 yd.
    # rust: 24 squares are 10 + 10 + 4: 3 x 3 7/8 + 1/2 = 12 1/8: 3/8 yd.
    assert bought == {"tar": "1/2 yd", "sail": "1/2 yd", "rust": "3/8 yd"}
    assert [float(p.length) for p in kits.cutting.fabrics] == [15.25, 15.25, 12.125]


def test_a_kit_is_a_fair_share():
    items = kit_items(planned().kits_of("banner"))
    assert [(i.name, i.fabric, i.pieces) for i in items] == [
        ("A", "tar", 2), ("B", "tar", 2), ("A", "sail", 2), ("B", "sail", 2), ("A", "rust", 4),
    ]  # fmt: skip


def test_strips_are_cut_in_layers():
    kits = planned().kits_of("banner")
    cloths = {cloth.fabric: stacked(kits.cutting, cloth) for cloth in kits.cutting.fabrics}
    (rust,) = cloths["rust"]
    # 10, 10 and 4 squares: 1 cut straightens; each square takes one across and one corner to corner: 1 + 20 for all
    # three at once, and 21 + 21 + (1 + 8) one by one.
    assert (rust.strips, [(s.layers, s.cuts) for s in rust.stacks]) == (3, [(3, 21)])
    assert (rust.cuts, rust.cuts_singly, rust.gives) == (21, 51, (("A", 48),))
    # 11 and 4 squares of 3 1/2 in: 1 + 11 through both, 12 + 5 one by one
    assert (cloths["tar"][-1].cuts, cloths["tar"][-1].cuts_singly) == (12, 17)
    # of two large squares and nine lower ones: 1 + 2 x 2 + 9 x 2
    assert cloths["tar"][0].cuts == 23


def test_no_stack_is_of_more_than_four_layers():
    text = (SHED / "pattern.yaml").read_text("utf-8").replace("students: 11", "students: 59")
    plan = compiler.plan(checked(text))
    kits = plan.kits_of("banner")
    layers = [
        stack.layers
        for cloth in kits.cutting.fabrics
        for row in stacked(kits.cutting, cloth)
        for stack in row.stacks
    ]
    assert max(layers) == 4  # common practice
    for cloth in kits.cutting.fabrics:
        for row in stacked(kits.cutting, cloth):
            assert sum(stack.layers for stack in row.stacks) == row.strips


def looked_at(text):
    import tempfile

    with tempfile.TemporaryDirectory() as name:
        (Path(name) / "pattern.yaml").write_text(text, "utf-8")
        return compiler.check(Path(name))


def checked(text):
    found = looked_at(text)
    assert found.value is not None, found.diagnostics
    return found.value


def test_a_whole_size_is_made_from_kits_with_borders_binding_and_back():
    text = (SHED / "pattern.yaml").read_text("utf-8").replace("{pennant: 2}", "banner")
    plan = compiler.plan(checked(text))
    whole, kits = plan.sizes[0], plan.kits_of("banner")
    assert plan.student is None
    assert pieces(kits) == {key: 12 * count for key, count in pieces(whole).items()}
    assert pieces(kits)["border 1 sides", "tar"] == 24  # 2 x 12
    assert pieces(kits)["backing", "sail"] == 12
    # 18 x 12 in and 2 in of border all round are 22 x 16: 76 in of edge and the tail, two strips of 40 in joined for
    # most of it, so 3 strips each (as the banner itself takes), 36 in all
    assert pieces(whole)["binding", "rust"] == 3
    assert pieces(kits)["binding", "rust"] == 36
    teacher = next(e for e in plan.pattern.booklet.editions if e.teacher)
    html = compose(plan, teacher, None, Paper.LETTER, ("banner",)).html
    assert "3 for each kit, joined there with diagonal seams" in html  # 36 / 12
    assert "36 joined" not in html
    assert "border 1 top and bottom" not in html  # parts by their titles, not by names of the facts


def test_a_single_student_gets_one_kit_with_its_pictures():
    """One kit of some blocks was taken for what a student makes, whose pictures have another name."""
    text = (SHED / "pattern.yaml").read_text("utf-8").replace("students: 11", "students: 1")
    plan = compiler.plan(checked(text.replace("spare kits: 1", "spare kits: 0")))
    assert plan.kits.sizes[0].size.kits == 1
    assert pieces(plan.kits.sizes[0]) == pieces(plan.student.sizes[0])
    for edition in plan.pattern.booklet.editions:
        html = compose(plan, edition, None, Paper.LETTER, ("banner",)).html
        assert ("Cut 1 kit." in html) == edition.teacher


def test_a_size_may_be_named_as_kits_are():
    text = (SHED / "pattern.yaml").read_text("utf-8").replace("banner:", "banner-kits:")
    found = compiler.plan(checked(text), ("banner-kits",))
    assert [size.size.id for size in found.sizes] == ["banner-kits"]
    told = facts(found)["class"]
    assert list(told["student"]) == list(told["kits"]) == ["banner-kits"]


def test_pressing_and_letters_of_the_class_are_those_of_the_pattern():
    whole, student = planned().sizes[0], planned().student.sizes[0]
    (own,) = (b for b in whole.blocks if b.block.id == "pennant")
    (taught,) = student.blocks
    assert taught.tiling == own.tiling
    assert taught.pressing.pressed == own.pressing.pressed


SEWN = """\
    grid: [[tar, sail/rust], [rust/tar, sail]]
    sew:
      - {make: half, join: [r1c2a, r1c2b]}
      - {make: other half, join: [r2c1a, r2c1b]}
      - {make: top, join: [r1c1, half]}
      - {make: bottom, join: [other half, r2c2]}
      - {make: block, join: [top, bottom]}
"""


def test_units_made_together_lie_in_whole_rounds_in_each_kit():
    text = (SHED / "pattern.yaml").read_text("utf-8")
    text = text.replace("    grid: [[tar, sail/rust], [rust/tar, sail]]\n", SEWN)
    plan = compiler.plan(checked(text + "cutting: {half squares: eight at a time}\n"))
    one, kits = plan.student.sizes[0].cutting, plan.kits_of("banner").cutting
    # two pennants want 2 units of either kind; a round gives 8, so 1 round for each student, 12 rounds in all, although 24
    # units would come from 3: nobody could deal out a third of a square
    assert [unit.rounds for unit in one.together] == [1, 1]
    assert [unit.rounds for unit in kits.together] == [12, 12]
    assert [cut.count for cut in kits.together[0].cuts] == [12, 12]  # one square of each cloth


def test_more_names_than_students_are_told():
    text = (SHED / "pattern.yaml").read_text("utf-8").replace("students: 11", "students: 1")
    (told,) = looked_at(text).diagnostics
    assert (told.code, told.is_error) == ("class-makes", False)
    assert told.message.endswith("the class has 1 student: there is no kit for `Björn`")
    assert text.splitlines()[told.span.line - 1].strip().startswith("handout:")
    empty = text.replace("[Ada, Björn]", '[Ada, ""]')
    (told,) = looked_at(empty).diagnostics
    assert told.message == "a name in `names` of edition `handout` is empty"


def test_spares_by_the_rule():
    assert [usual_spares(n) for n in (1, 8, 10, 11, 12, 20)] == [
        1,
        1,
        1,
        2,
        2,
        2,
    ]  # one for ten begun
    made = pattern(GOOD + "booklet: {class: {students: 12}}\n").booklet.lesson
    assert (made.spares, made.kits) == (2, 14)
    none = pattern(GOOD + "booklet: {class: {students: 12, spare kits: 0}}\n").booklet.lesson
    assert none.kits == 12


@pytest.mark.parametrize(
    ("said", "code", "column"),
    [
        ("students: 0", "bad-number", 29),
        ("students: 10000", "too-large", 29),
        ("students: twelve", "bad-number", 29),
        ("students: 3, spare kits: -1", "bad-number", 44),
        ("spare kits: 1", "missing-key", 18),
        ("makes: sofa", "unknown-name", 26),
        ("makes: stone", "wrong-kind", 26),
        ("makes: {sofa: 1}", "unknown-name", 27),
        ("makes: {stone: 0}", "bad-number", 34),
        ("makes: {stone: many}", "bad-number", 34),
        ("makes: [stone]", "wrong-kind", 26),
        ("makes: {}", "wrong-kind", 26),
    ],
)
def test_a_class_that_cannot_be_is_told_at_its_place(said, code, column):
    line = GOOD.count("\n") + 1
    assert faults(GOOD + f"booklet: {{class: {{{said}}}}}\n") == [(code, line, column)]


def test_kits_of_too_many_patches_are_refused():
    text = (SHED / "pattern.yaml").read_text("utf-8")
    text = text.replace("students: 11", "students: 200").replace("pennant: 2", "pennant: 30")
    import tempfile

    with tempfile.TemporaryDirectory() as name:
        (Path(name) / "pattern.yaml").write_text(text, "utf-8")
        found = compiler.check(Path(name))
    # 200 students and the spare kit make 201 kits of 30 pennants of 6 patches: 36 180
    assert found.value is None
    assert [d.code for d in found.diagnostics if d.is_error] == ["too-large"]
    assert "201 kits have 36180 patches" in found.diagnostics[-1].message


def test_the_handout_tells_what_lies_in_the_kit_and_no_cloth_to_buy():
    html = page("handout")
    assert "You make 2 blocks “Pennant”" in html
    assert "What lies in a kit" in html
    assert "Cloth to buy, by size" not in html
    assert "backing" not in html


def test_the_teachers_copy_has_no_line_for_a_name_and_all_labels():
    html = page("teacher")
    assert 'class="name-line"' not in html
    assert 'class="name-line"' in page("handout")
    assert html.count('class="label-head"') == 12
    assert html.count("<span>spare</span>") == 1
    assert "<span>Ada</span>" in html


def test_the_day_is_dealt_out_by_the_clock():
    plan = planned().student.sizes[0]
    lesson = planned().pattern.booklet.lesson
    day = day_of(lesson, plan)
    # all that is sewn fits the first session of 40 min, so the rest of it and the last session are time in hand
    whole = sum(s.minutes * (s.last - s.first + 1) for s in plan.sittings)
    assert whole < 40
    assert day.left == 0
    assert sum(s.end - s.begin for s in day.stretches if s.task) == pytest.approx(whole)
    assert [(s.begin, s.end) for s in day.stretches][-2:] == [(40, 55), (55, 100)]
    assert all(s.machine and not s.light for s in day.stretches if s.task)
    assert "14:00–" in page("teacher")


def test_a_task_goes_on_after_the_break():
    text = (SHED / "pattern.yaml").read_text("utf-8").replace("pennant: 2", "pennant: 40")
    plan = compiler.plan(checked(text))
    day = day_of(plan.pattern.booklet.lesson, plan.student.sizes[0])
    stretches = day.stretches
    assert next(s.session.title for s in stretches if s.goes_on) == "Blocks"
    sewn = sum(s.end - s.begin for s in stretches if s.task)
    assert sewn == pytest.approx(40 + 45)
    whole = sum(s.minutes * (s.last - s.first + 1) for s in plan.student.sizes[0].sittings)
    assert day.left == pytest.approx(whole - 85)


def test_the_board_shows_every_stage_of_a_small_block_with_its_patches():
    found = samples(planned().student.sizes[0])
    assert [sample.card.n for sample in found] == [1, 2, 3]
    # two rows of three patches each, and both rows again in the whole pennant: 12 patches
    assert [sum(n for _, n in sample.patches) for sample in found] == [3, 3, 6]
    assert sum(n for _, n in cut_for(found)) == 12


def test_the_board_has_six_stages_at_most_and_the_whole_of_each_block(example_plan):
    size = example_plan.sizes[0]
    found = samples(size)
    assert len(found) == 6
    shown = [(s.block.block.id, s.card.n) for s in found]
    for block in size.blocks:
        assert (block.block.id, block.cards[-1].n) in shown


def test_the_letter_says_when_what_and_what_to_bring_in_both_forms():
    plan = planned()
    parts = letter(plan.shown_by(plan.pattern.booklet.editions[0]), plan.student.sizes[0])
    text = markdown_of(parts)
    assert text.startswith("# Boat shed banner\n")
    assert "We begin at 14:00 and end at 15:40." in text  # 40 + 15 + 45 minutes
    assert "12 pieces" in text  # 2 + 2 + 2 + 2 + 4
    assert "- 4 × A half-square triangle, Rust red" in text
    assert "- Wind two bobbins." in text
    html = html_of(parts, "en")
    assert html.count("<li>") == text.count("\n- ")
    names = [name for name, _ in letters_of(plan, plan.pattern.booklet.editions[0])]
    assert names == [
        "boat-shed-banner-handout-banner-class-letter.md",
        "boat-shed-banner-handout-banner-class-letter.html",
    ]
    assert not list(letters_of(plan, plan.pattern.booklet.editions[1]))  # the teacher's own copy


def test_words_of_the_author_are_no_markup_in_the_letter():
    said = "<b>*bring* [me](http://x)</b>"
    text = (SHED / "pattern.yaml").read_text("utf-8").replace("Wind two bobbins.", f'"{said}"')
    plan = compiler.plan(checked(text))
    parts = letter(plan.student, plan.student.sizes[0])
    assert "\\<b\\>\\*bring\\* \\[me\\](http://x)" in markdown_of(parts)
    assert "&lt;b&gt;*bring*" in html_of(parts, "en")


def test_the_facts_tell_the_class():
    told = facts(planned())["class"]
    assert (told["students"], told["spare_kits"]) == (11, 1)
    assert told["student"]["banner"]["makes"] == {"pennant": 2}
    kits = told["kits"]["banner"]
    assert kits["kits"] == 12
    assert kits["each"][0] == {"for": "A", "fabric": "tar", "pieces": 2, "reversed": 0}
    assert kits["cutting"]["rust"]["buy"]["yards"] == "3/8"
    # a class that counts no students and makes the whole size has its times alone
    clock = facts(compiler.plan(compiler.check(PATTERNS / "class_by_the_clock").value))["class"]
    sessions = [
        ("Pairs", 50, False, ["Chain step 1."]),
        ("Tea on the jetty", 20, True, []),
        ("Blocks", 75, False, ["Step 2.", "Press."]),
        ("Rows", 60, False, []),
    ]
    assert clock == {
        "start": "9:45",
        "homework": ["Cut all squares."],
        "sessions": [
            {"title": title, "minutes": minutes, "break": rest, "homework": [], "do": do}
            for title, minutes, rest, do in sessions
        ],
    }


def test_parts_of_a_print_with_an_up_are_cut_for_every_kit():
    text = (SHED / "pattern.yaml").read_text("utf-8").replace("{pennant: 2}", "banner")
    text = text.replace('colour: "#2d3b45"', 'colour: "#2d3b45", direction: one-way')
    plan = compiler.plan(checked(text))
    whole, kits = pieces(plan.sizes[0]), plan.kits_of("banner")
    border = [p for p in kits.cutting.patches if p.name == "border 1 top and bottom"]
    assert sum(p.pieces for p in border) == 24  # 2 x 12
    given = [
        use.pieces
        for cloth in kits.cutting.fabrics
        for strip in cloth.strips
        for use in strip.uses
        if use.name == "border 1 top and bottom"
    ]
    assert sum(given) == 24
    assert whole["border 1 top and bottom", "tar"] == 2


def test_copies_are_bound_so_that_each_begins_on_a_front():
    import io

    from pypdf import PdfReader, PdfWriter

    def copy(pages):
        made = PdfWriter()
        for number in range(pages):
            made.add_blank_page(100 + number, 200)
        data = io.BytesIO()
        made.write(data)
        return data.getvalue()

    bound = PdfReader(io.BytesIO(bound_together([copy(3), copy(2), copy(1)])))
    # 3 pages and an empty one, 2 pages, 1 page and an empty one
    widths = [float(page.mediabox.width) for page in bound.pages]
    assert len(widths) == 8
    assert (widths[0], widths[4], widths[6]) == (100, 100, 100)


def test_a_route_sheet_is_blank_for_students_and_answered_for_the_teacher():
    plan = corpus.plan_of(PATTERNS / "hexagon_rosette_1")
    own = plan.pattern.booklet.editions[0]
    sheet = replace(own, pages=(Page("route-sheet", own.span),), names=(), order=PageOrder.PAGES)
    size = (plan.sizes[0].size.id,)
    blank = compose(plan, sheet, None, Paper.A4, size).html
    answered = compose(plan, replace(sheet, teacher=True), None, Paper.A4, size).html
    threads = len(plan.sizes[0].blocks[0].assembly.threads)
    assert threads >= 1
    assert 'class="blanks"' in blank
    assert "The answer" not in blank
    assert 'class="blanks"' not in answered
    assert "The answer" in answered
    assert answered.count("<figure") > blank.count("<figure")


def test_a_text_of_the_handout_tells_of_the_whole_what_the_class_does_not_make(tmp_path):
    source = (
        (SHED / "pattern.yaml")
        .read_text("utf-8")
        .replace("[class, supplies", "[class, text/a.md, supplies")
    )
    (tmp_path / "pattern.yaml").write_text(source, encoding="utf-8")
    (tmp_path / "text").mkdir()
    text = "{{ block.pennant.count }} of 2, {{ block.deck.count }} of 3, {{ size.finished }}\n\n{{ figure.block.deck }}"
    (tmp_path / "text" / "a.md").write_text(text, encoding="utf-8")
    plan = compiler.plan(compiler.check(tmp_path).value)
    html = compose(plan, plan.pattern.booklet.editions[0], None, Paper.LETTER, ("banner",)).html
    # a student makes 2 pennants; the quilt has 3 decks, and measures 3 x 2 blocks of 6 in with borders of 2 in: 22 x 16 in
    assert "2 of 2, 3 of 3, 22 in × 16 in" in html.replace("\u00a0", " ")
    assert "{{" not in html and "The finished block, 6 in" in html.replace("\u00a0", " ")


RUNNERS = """
title: Runners
units: inch
sizes:
  runner: {unit: 1 in, blocks: 5 x 1}
fabrics:
  lime: {name: Lime, colour: "#9a3", width: 42 in}
  milk: {name: Milk, colour: "#f6f2ea", width: 42 in}
blocks:
  four: {grid: [[lime, milk], [milk, lime]], columns: [4, 4], rows: [4, 4]}
quilt:
  borders: [{width: 4 in, fabric: milk, cut: across}]
  binding: {width: 2 1/2 in, fabric: lime}
  backing: {extra: 2 in, fabric: milk}
booklet:
  class: {students: 7, spare kits: 0, makes: runner}
  editions:
    teacher: {pages: [kits, kit-list]}
"""
UPRIGHT = RUNNERS.replace("extra: 2 in, fabric: milk", "extra: 2 in, fabric: sail").replace(
    "fabrics:\n",
    'fabrics:\n  sail: {name: Sail, colour: "#cde", width: 42 in, direction: one-way}\n',
)


def test_short_ends_of_several_kits_come_from_one_strip():
    plan = compiler.plan(checked(UPRIGHT))
    kits = plan.kits_of("runner")
    strips = {
        (cloth.fabric, use.name, strip.width): (strip.count, use.pieces)
        for cloth in kits.cutting.fabrics
        for strip in cloth.strips
        for use in strip.uses
    }
    # finished 5 x 8 + 8 = 48 by 8 + 8 = 16 in; binding 2 x 48 + 2 x 16 + 10 = 138 in: three strips of 42 in give
    # 3 x 39 1/2 = 118 1/2, each less the join at its end, so the fourth must be 19 1/2 in long: two of them from one strip;
    # 7 x 3 + 4 strips
    assert strips["lime", "binding", Length.of("2 1/2")] == (25, 28)
    # back 52 by 20 in of a print with an up: 42 + 10 1/2 - 1/2 = 52; four of the narrow last widths lie in 42 in, so seven
    # take 2 lengths, and there are 7 whole widths in the same row of the list
    assert strips["sail", "backing last width", Length.of(20)] == (9, 7)
    assert strips["sail", "backing", Length.of(20)] == (9, 7)
    # four blocks: 40 by 16 in, 122 in: the fourth strip must be 3 1/2 in long: all seven from one strip of
    # 42 in, 7 x 3 + 1 = 22 in all
    shorter = compiler.plan(checked(RUNNERS.replace("5 x 1", "4 x 1"))).kits_of("runner")
    lime = next(cloth for cloth in shorter.cutting.fabrics if cloth.fabric == "lime")
    assert (lime.strips[0].count, lime.strips[0].uses[0].pieces) == (22, 28)


def test_seven_backs_have_no_seam_each_for_less_cloth_than_seven_seams_are_worth():
    """Lying, 20 in across the cloth, a back of 52 by 20 in has no seam, and two lie in 42 in: 4 x 52 = 208 in. Standing it
    has one, and seven take 7 x 20 and 2 x 20 = 180 in: 28 in less, not 7 x 18."""
    back = compiler.plan(checked(RUNNERS)).kits_of("runner").quilt.backing
    assert (back.widths, back.turned) == (1, True)


def test_a_bag_holds_the_lengths_of_a_border_that_are_to_be_joined():
    items = {i.name: i for i in kit_items(compiler.plan(checked(RUNNERS)).kits_of("runner"))}
    # top and bottom are 48 1/2 in long, 42 and 7 in each: four lengths in every bag; the sides, 8 1/2 in, are cut whole
    assert items["border 1 top and bottom"].pieces == 4
    assert str(items["border 1 top and bottom"].title) == "border 1, top and bottom, to be joined"
    assert items["border 1 sides"].pieces == 2


def test_a_session_in_which_no_reckoned_task_is_left_says_what_its_author_does_in_it():
    text = RUNNERS.replace(
        "makes: runner}",
        "makes: runner, sessions: [{title: Blocks, minutes: 600}, {title: Top, minutes: 90, do: Join the runner.}]}",
    )
    plan = compiler.plan(checked(text))
    view = day_view(plan.sizes[0], Words.of("en"))
    *_, before, last = view.rows
    # the blocks are sewn in the first ten hours, whose rest is in hand; then the runner is joined
    assert "Time in hand" in before.what and not before.is_own
    assert last.what == "Join the runner." and last.is_own and last.session == "Top"


EIGHT_RUNNERS = """\
title: Runners
units: cm
allowance: 0.6 cm
sizes: {s: {title: Runner, unit: 10 cm, blocks: 3 x 12}}
fabrics:
  p: {colour: red}
  w: {colour: blue, width: 112 cm}
blocks: {one: {grid: [[p]]}}
quilt:
  arrange: [[one]]
  borders: [{width: 4 cm, fabric: w}]
booklet:
  class: {students: 8, spare kits: 0, makes: s, sessions: [{title: Sew, minutes: 60}]}
  editions: {teacher: {pages: [class, kits], teacher: yes}}
"""


def test_short_strips_of_a_border_share_strips_with_the_ends_of_its_long_ones(tmp_path):
    """Eight runners of 30 x 120 cm, each with sides of 120 + 1.2 = 121.2 cm and top and bottom of 38 + 1.2 = 39.2. The 16
    sides take 16 whole strips of 112 cm and ends of 121.2 - 110.8 = 10.4. Two strips of 39.2 and three ends are 109.6: 8
    strips hold all 16 short ones and the ends. 24 x 5.2 + 1.5 = 126.3 cm, where ends by themselves, ten in a strip, leave
    too little: 26 strips."""
    (tmp_path / "pattern.yaml").write_text(EIGHT_RUNNERS, encoding="utf-8")
    found = compiler.check(tmp_path).value
    assert found is not None
    plan = found.kits.cuts["s-kits"]
    (cloth,) = (cloth for cloth in plan.fabrics if cloth.fabric == "w")
    assert sum(strip.count for strip in cloth.strips) == 24
    assert float(cloth.length) * 2.54 == pytest.approx(126.3)
    assert float(cloth.buy.metres) == 1.3
    _, parts = plan.joined("border 1 sides")
    assert len(parts) == 16 and plan.joined("border 1 top and bottom") is None
