"""Whole quilts as someone writes them who sells patterns and teaches: what stands in the booklet, and what is missing."""

import copy
import re

import corpus
import pytest

from booklet.comparing.changes import changes
from booklet.comparing.side import PatternState, of_plan
from booklet.drawing.templates.template_pages import template_figures
from booklet.facts import facts
from booklet.pages.class_letter import letters_of
from booklet.pages.composing import compose
from booklet.pages.style.paper import sheet_of
from booklet.pattern import Paper
from booklet.recipe import compiler

QUILT = """title: T
units: inch
sizes: {lap: {unit: 1 in, blocks: 2 x 2}}
fabrics: {a: {name: A, colour: navy}, b: {name: B, colour: silver}}
blocks: {four: {title: Four, grid: [[a, b], [b, a]], columns: [5, 5], rows: [5, 5]}}
quilt:
  arrange: [[four]]
"""


def made(tmp_path, text):
    (tmp_path / "pattern.yaml").write_text(text, "utf-8")
    found = compiler.check(tmp_path)
    assert found.value is not None, found.diagnostics
    return compiler.plan(found.value)


def page(plan, edition="pattern"):
    """The words of the web page of an edition."""
    (made,) = (e for e in plan.pattern.booklet.editions if e.id == edition)
    html = compose(plan, made, None, Paper.LETTER, tuple(s.size.id for s in plan.sizes)).html
    html = re.sub(r"(?s)<(style|script)\b.*?</\1>", " ", html)
    return " ".join(re.sub(r"<[^>]+>", " ", html).replace("\u00a0", " ").split())


def plan_of(name):
    (folder,) = (folder for folder in corpus.FOLDERS if folder.name == name)
    return corpus.plan_of(folder)


TRIMMED = "trim all layers level with the edge of the top"


def test_layers_are_trimmed_before_the_binding_is_sewn_on(tmp_path):
    """Back and batting stand out by 4 in; the binding folds over an edge, so they are trimmed first (common practice)."""
    words = page(
        made(
            tmp_path,
            QUILT + "  backing: {fabric: b}\n  batting: {extra: 4 in}\n  binding: {fabric: a}\n",
        )
    )
    quilted = words.index("Quilt as you like")
    assert quilted < words.index(TRIMMED) < words.index("Lay its raw edges along the raw edge")


def test_without_a_binding_nothing_is_said_of_trimming(tmp_path):
    words = page(made(tmp_path, QUILT + "  backing: {fabric: b}\n  batting: {extra: 4 in}\n"))
    assert "Quilt as you like" in words
    assert TRIMMED not in words


def test_the_front_of_a_cushion_is_trimmed_once():
    """A cushion is trimmed to a measure of its own before its back is sewn on."""
    words = page(plan_of("cushions"))
    assert "Trim the front to" in words
    assert TRIMMED not in words


def test_tools_for_finishing_are_listed(tmp_path):
    """The steps measure the top, pin or baste three layers, quilt, and sew the binding down by hand: the list of tools
    has what each takes (common practice). A pattern of the top alone needs none of it."""
    finishing = ["Tape measure", "Safety pins or basting thread", "Thread for quilting"]
    needle = "Hand sewing needles"
    rest = (
        "  borders: [{width: 2 in, fabric: a}]\n  backing: {fabric: b}\n"
        "  batting: {extra: 4 in}\n  binding: {fabric: a}\n"
    )
    whole = page(made(tmp_path, QUILT + rest))
    assert all(tool in whole for tool in [*finishing, needle])
    top = page(made(tmp_path, QUILT))
    assert not any(tool in top for tool in [*finishing, needle])


def test_a_class_that_makes_one_block_brings_nothing_for_finishing(tmp_path):
    rest = (
        "  backing: {fabric: b}\n  batting: {extra: 4 in}\n  binding: {fabric: a}\n"
        "booklet:\n  class: {makes: one block, sessions: [{title: One, minutes: 60}]}\n"
        "  editions: {handout: {pages: [class, supplies]}}\n"
    )
    words = page(made(tmp_path, QUILT + rest), "handout")
    assert "Fine pins" in words
    assert "Thread for quilting" not in words


EVENINGS = """booklet:
  class:
    makes: one block
    start: "18:30"
    homework: Wash the cloth.
    sessions:
      - {title: First evening, minutes: 90, do: Sew.}
      - {title: Tea, minutes: 15, break: yes}
      - {title: Second evening, minutes: 120, start: "19:00", do: Sew on., homework: Sew three pairs.}
      - {title: Questions, minutes: 30}
  editions:
    handout: {pages: [class]}
    teacher: {teacher: yes, pages: [day]}
"""


def test_a_class_that_meets_twice_begins_anew_by_the_clock(tmp_path):
    """18:30 and 90 min is 20:00, and 15 min of tea 20:15. The second evening begins at 19:00, not at 20:15: 120 min is
    21:00, and 30 min more 21:30. What is done between stands before it."""
    plan = made(tmp_path, QUILT + EVENINGS)
    words = page(plan, "handout")
    order = [
        "Wash the cloth.",
        "18:30–20:00 First evening",
        "20:00–20:15 Tea",
        "At home Sew three pairs.",
        "19:00–21:00 Second evening",
        "21:00–21:30 Questions",
    ]
    assert [words.index(each) for each in order] == sorted(words.index(each) for each in order)
    told = page(plan, "teacher")
    assert "19:00–" in told and "20:15–" not in told and "–21:30" in told


def test_the_letter_of_a_class_that_meets_twice(tmp_path):
    plan = made(tmp_path, QUILT + EVENINGS)
    (handout,) = (e for e in plan.pattern.booklet.editions if e.id == "handout")
    (_, markdown), _ = letters_of(plan, handout)
    told = markdown.decode().replace("\u00a0", " ")
    assert "We meet 2 times, first at 18:30." in told
    assert "end at" not in told
    assert told.index("At home: Sew three pairs.") < told.index("19:00–21:00 Second evening")


def test_of_two_beginnings_of_the_first_session_one_is_too_much(tmp_path):
    """A start of the first session is that of the class; beside one of the class it is a fault; a later one needs it."""
    bare = EVENINGS.replace('    start: "18:30"\n', "")
    first = bare.replace("{title: First evening,", '{title: First evening, start: "18:30",')
    assert made(tmp_path, QUILT + first).pattern.booklet.lesson.start == 18 * 60 + 30
    both = EVENINGS.replace("{title: First evening,", '{title: First evening, start: "18:30",')
    for text, code in ((both, "conflicting-keys"), (bare, "missing-key")):
        (tmp_path / "pattern.yaml").write_text(QUILT + text, "utf-8")
        assert [fault.code for fault in compiler.check(tmp_path).diagnostics] == [code]


def test_a_page_for_which_there_is_nothing_is_left_out(tmp_path):
    """Four patches sewn by machine have no hand route to carry in a pocket; plain squares of 10 in have no step for a card,
    and no sheet of paper is as large as their shapes."""
    pages = (
        "booklet: {editions: {cards: {pages: [step-cards, pocket-card, marking, marking-quilt]}}}\n"
    )
    words = page(made(tmp_path, QUILT + pages), "cards")
    assert "Step cards" in words and "Shapes to mark with" in words
    assert "Pocket cards" not in words
    plain = QUILT.replace(
        "[[a, b], [b, a]], columns: [5, 5], rows: [5, 5]", "[[a]], columns: [10], rows: [10]"
    )
    words = page(
        made(tmp_path, plain.replace(", b: {name: B, colour: silver}", "") + pages), "cards"
    )
    for title in (
        "Step cards",
        "Pocket cards",
        "Shapes to mark with",
        "Shapes for the whole quilt",
    ):
        assert title not in words


def test_a_panel_is_cut_round_its_picture_by_the_ruler():
    """22 x 34 in finished and 1/4 in on every side are 22 1/2 x 34 1/2. A template would be glued from 15 sheets; it has
    none. The squares round it are 3 1/2 in and have one."""
    plan = plan_of("panel_with_coping_strips")
    words = page(plan)
    assert (
        "1 rectangle, 22½ in × 34½ in . Move the ruler until the motif sits in the middle." in words
    )
    (size,) = plan.sizes
    titles = [
        str(figure.alt)
        for figure in template_figures(size, *sheet_of(Paper.LETTER).template_area_mm)
    ]
    assert len(titles) == 1 and "Template A" in titles[0]


FRONT = """title: T
units: inch
sizes: {lap: {unit: 1 in, blocks: 2 x 2}}
fabrics: {a: {name: A, colour: navy, repeat: {across: 20 in, along: 20 in}}}
patches: {front: {shape: square, side: SIDE, motif: yes}}
blocks: {four: {title: Four, pieces: [{id: p, patch: front, fabric: a, at: [0, 0], anchor: corner 1}]}}
quilt: {arrange: [[four]]}
"""


@pytest.mark.parametrize(
    ("side", "method"),
    [
        ("7", "fussy cut by template"),
        ("9", "fussy cut by the ruler"),
        ("9.05", "fussy cut by template"),
    ],
)
def test_what_is_fussy_cut_by_the_ruler(tmp_path, side, method):
    """7 in and two allowances, 7 1/2 in, fit a sheet of letter between its margins; 9 1/2 in do not. 9.05 and 1/2 in lie on
    no mark of a ruler, so that takes its template."""
    (size,) = made(tmp_path, FRONT.replace("SIDE", side)).sizes
    assert {cut.method.word for cut in size.cutting.patches} == {method}


def test_a_cushion_has_its_pad_on_the_list(tmp_path):
    """One block of 10 in and 2 in all round is 14 in; what fills it is as large as its front (common practice). Of a quilt
    nothing is filled."""
    cushion = QUILT.replace("blocks: 2 x 2", "blocks: 1 x 1")
    cushion += "  borders: [{width: 2 in, fabric: a}]\n  envelope: {fabric: b}\n"
    words = page(made(tmp_path, cushion))
    assert "cushion pad, 14 in × 14 in" in words
    assert "Make 1 block. It measures 10½ in × 10½ in, with its allowance all round." in words
    assert "the next" not in words[words.index("Make 1 block.") :][:90]
    assert "cushion pad" not in page(made(tmp_path, QUILT))


def test_strips_that_are_only_laid_otherwise_are_told_so(tmp_path):
    """The same strips of one cloth, cut in another order: "2 strips (was 2 strips)" would tell nothing."""
    plan = made(tmp_path, QUILT + "  binding: {fabric: a}\n")
    turned = copy.deepcopy(facts(plan))
    strips = turned["sizes"]["lap"]["cutting"]["a"]["strips"]
    assert len(strips) > 1
    strips.reverse()
    (change,) = changes(of_plan(plan), PatternState(facts=turned))
    many = sum(strip["count"] for strip in strips)
    assert (
        str(change.was) == f"{many} strips" and str(change.now) == f"{many} strips, laid otherwise"
    )
