"""Copies for a class: one layout, a name put into each; the same words as if each were laid out by itself."""

import io
import re
from functools import cache
from pathlib import Path

import pytest
from pypdf import PdfReader

from booklet.kit.records import replace
from booklet.pages.composing import SetSo, compose
from booklet.pages.prepress import pdf
from booklet.pages.prepress.copies import READER, signs_of
from booklet.pages.style.fonts import boxed
from booklet.pattern import Paper
from booklet.recipe import compiler

FOLDER = Path(__file__).parent / "patterns" / "four_patch"
NAMES = ("Ilse Ahrens", "Ömer", "Zoë O’Neill-Wu", "Ilse Ahrens")


@cache
def sheet(cover):
    plan = compiler.plan(compiler.check(FOLDER).value)
    chosen = next(e for e in plan.pattern.booklet.editions if (e.id == "handout") != cover)
    edition = replace(chosen, names=NAMES)
    size = (plan.sizes[0].size.id,)
    return boxed(compose(plan, edition, paper=Paper.A4, sizes=size, so=SetSo(reader=READER)).html)


@pytest.fixture(scope="module", params=[False, True], ids=["handout", "cover"])
def both(request):
    """The copies from one layout, and the second of them, which has signs that the first has not, laid out by itself."""
    html = sheet(request.param)
    return pdf.make_pdfs(html, NAMES), pdf.make_pdf(html.replace(READER, NAMES[1]))


def test_each_copy_says_its_own_name_and_no_other(both):
    made, _ = both
    assert len(made) == len(NAMES)
    for name, one in zip(NAMES, made, strict=True):
        reader = PdfReader(io.BytesIO(one.data))
        text = reader.pages[0].extract_text().replace("\xa0", " ")
        assert name in text
        assert all(other not in text for other in NAMES if other != name)
        assert reader.metadata.title.endswith(f", {name}")
        assert name in reader.xmp_metadata.dc_title["x-default"]
        assert one.complaints == ()


def test_nothing_but_the_name_differs_from_a_copy_laid_out_by_itself(both):
    (_, one, *_), alone = both
    pages = [PdfReader(io.BytesIO(x.data)).pages for x in (one, alone)]
    assert len(pages[0]) == len(pages[1]) == one.pages
    for page, same in zip(*pages, strict=True):
        drawn = [p.get_contents().get_data() for p in (page, same)]
        # the glyphs of a font have their own numbers, which a subset keeps; its name in the file may differ
        plain = [re.sub(rb"/[0-9a-zA-Z_-]+ ([\d.]+) Tf", rb"/F \1 Tf", each) for each in drawn]
        # nor does a shift of nothing between two glyphs matter
        plain = [re.sub(rb">-?[01]<|(?<=>)-?[01](?=])", b"", each) for each in plain]
        assert plain[0] == plain[1]


def test_a_copy_is_whole_and_tagged(both):
    made, _ = both
    identifiers = set()
    for one in made:
        reader = PdfReader(io.BytesIO(one.data), strict=True)
        root = reader.trailer["/Root"]
        assert root["/MarkInfo"]["/Marked"] and root["/StructTreeRoot"]["/K"]
        assert root["/ViewerPreferences"]["/PrintScaling"] == "/None"
        identifiers.add(str(reader.trailer["/ID"][0]))
    assert len(identifiers) == len(set(NAMES))


def test_copies_come_from_one_layout(monkeypatch):
    html = sheet(False)
    monkeypatch.setattr(pdf, "make_pdf", None)  # lays out one
    assert len(pdf.make_pdfs(html, NAMES)) == len(NAMES)


def test_the_same_names_give_the_same_bytes():
    html = sheet(False)
    first, again = (pdf.make_pdfs(html, NAMES[:2]) for _ in range(2))
    assert [one.data for one in first] == [one.data for one in again]


@pytest.mark.parametrize(
    "names",
    [
        ("Ilse",),  # one is laid out as it is
        ("Ilse", "雪"),  # signs of another font
        ("Ilse", "A\u0308nne"),  # a letter of two signs
        ("Ilse", "x" * 37),  # might run off the paper
        ("Ilse", "two  blanks"),
        ("Ilse", "<b>&"),
    ],
)
def test_names_that_are_better_laid_out_alone(names):
    assert signs_of(names) is None
    html = f"<html><title>{READER}</title><p class=reader>{READER}</p>"
    made = pdf.make_pdfs(html, names)
    assert [PdfReader(io.BytesIO(one.data)).metadata.title for one in made] == list(names)


def test_the_signs_of_all_names_once():
    assert signs_of(("Anna", "Nan")) == "AnaN"
    assert signs_of(("An Na", "Na")) == "AnNa A"
