"""Large print: 16 pt, nothing under 14 pt but what is true to size, on letter and A4 (common practice of makers of large print)."""

import pytest
from pdf_letters import letters_of
from source_helpers import GOOD, PATTERNS

from booklet.__main__ import main
from booklet.drawing.scales import LADDER, Scale, shown_larger
from booklet.kit.records import replace
from booklet.kit.words import listing, phrase
from booklet.pages.composing import SetSo, compose
from booklet.pages.pictures.large import enlarged, line_height, type_size
from booklet.pages.prepress.pdf import make_pdf
from booklet.pages.style.fonts import boxed
from booklet.pattern import Paper
from booklet.recipe import compiler

PAGES = ("cover", "materials", "cutting", "templates", "piecing", "pressing", "step-cards")


@pytest.fixture(scope="module", params=[Paper.A4, Paper.LETTER])
def pages(request):
    plan = compiler.plan(compiler.check(PATTERNS / "four_patch").value)
    edition = plan.pattern.booklet.editions[0]
    own = replace(edition, pages=tuple(replace(edition.pages[0], name=name) for name in PAGES))
    made = compose(plan, own, paper=request.param, sizes=("cushion",), so=SetSo(large=True))
    assert made.name.endswith("-large-print.pdf")
    pdf = make_pdf(boxed(made.html))
    assert pdf.complaints == ()
    with letters_of(pdf.data) as opened:
        return [(page.width, page.height, page.chars) for page in opened.pages]


def test_nothing_but_templates_is_set_in_less_than_14_points(pages):
    for number, (_, _, signs) in enumerate(pages, 1):
        small = "".join(s["text"] for s in signs if s["size"] < 13.95 and s["text"].strip())
        if "Template" in "".join(s["text"] for s in signs if s["size"] < 13.95):
            continue  # a page true to size
        assert not small, f"page {number}: {small[:60]}"


def test_most_words_are_set_in_16_points_and_all_stand_on_the_page(pages):
    sizes = [s["size"] for _, _, signs in pages for s in signs if s["text"].strip()]
    assert sum(size >= 15.9 for size in sizes) > len(sizes) * 0.6
    for wide, tall, signs in pages:
        assert all(s["x0"] >= 0 and s["x1"] <= wide and s["bottom"] <= tall for s in signs)


def test_a_picture_shown_twice_as_large_tells_twice_the_scale():
    def said(of):
        return str(shown_larger(Scale(of).caption, 2.0))

    # 1 : 5 of a picture at twice its size is 1 : 2.5; true to size becomes twice it
    assert said(5) == "Drawn at 1 : 2.5." and said(2) == "Drawn true to size."
    assert said(1) == "Drawn at 2 : 1." and said(1.25) == "Drawn at 1.6 : 1."
    mixed = listing(
        (phrase("{unit}. {drawn}", unit="Pair", drawn=Scale(3).caption), "x"), "sentences"
    )
    assert str(shown_larger(mixed, 2.0)) == str(
        listing(
            (phrase("{unit}. {drawn}", unit="Pair", drawn=Scale(1.5).caption), "x"), "sentences"
        )
    )
    assert all(str(shown_larger(scale.caption, 1.0)) == str(scale.caption) for scale in LADDER)


def test_type_grows_and_never_shrinks():
    for points in (7.5, 8.5, 9, 10, 12, 16, 24, 30, 40):
        assert type_size(points) >= max(14, points) and line_height(points) >= points
    assert "font: 600 16pt/20.93pt" in enlarged("x { font: 600 8.5pt/13.5pt serif }")
    assert "font-size: 16pt; line-height: 20.93pt" in enlarged(
        "a { font-size: 10pt; line-height: 13.5pt }"
    )


@pytest.mark.parametrize("more", [["--imposed"], ["--paper", "a5"]])
def test_small_papers_are_refused_with_the_reason(more, tmp_path, capsys):
    (tmp_path / "pattern.yaml").write_text(GOOD, encoding="utf-8")
    assert main(["build", str(tmp_path), "--large-print", *more]) == 2
    assert "needs the whole of letter or A4" in capsys.readouterr().err
