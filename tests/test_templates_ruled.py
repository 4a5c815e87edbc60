"""A square, rectangle or triangle that is cut with the ruler gets no template of glued pages; the page says so."""

import re
from pathlib import Path

import corpus
import pytest
from corpus import documents

from booklet.drawing.templates.template_pages import ruled_only, template_figures
from booklet.pages.style.paper import sheet_of
from booklet.pattern import Paper
from booklet.recipe import compiler

PATTERNS = Path(__file__).parent / "patterns"


@pytest.fixture(scope="module")
def cloth():
    return corpus.plan_of(PATTERNS / "whole_cloth")


def test_a_middle_of_30_by_36_in_is_cut_with_the_ruler_alone(cloth):
    cot, doll = (
        cloth.sizes
    )  # 30 1/2 x 36 1/2 in and 15 1/2 x 18 1/2 in as cut; letter has 8 1/2 x 11
    area = sheet_of(Paper.LETTER).template_area_mm
    assert ruled_only(cot, *area) == ruled_only(doll, *area) == ("A",)
    assert template_figures(cot, *area) == ()


def test_the_page_says_that_there_is_none(cloth):
    (edition,) = [e for e in cloth.pattern.booklet.editions if e.id == "pattern"]
    web = next(iter(documents(cloth, edition, ())))
    assert "A is cut with the ruler, by the figures of the cutting pages." in web.html


def test_what_fits_a_page_keeps_its_template():
    plan = corpus.plan_of(PATTERNS / "log_cabin_13")
    area = sheet_of(Paper.LETTER).template_area_mm
    # the longest strip is 1 x 7 in finished, 1 1/2 x 7 1/2 in as cut: 190.5 mm lie on a letter page
    assert ruled_only(plan.sizes[0], *area) == ()
    pages = template_figures(plan.sizes[0], *area)
    printed = {word for page in pages for word in re.findall(r"\b[A-Z]\b", page.alt.split(":")[0])}
    assert printed == set(plan.sizes[0].letters)


SAILS = """
title: Sails
units: inch
sizes: {lap: {unit: 2 in, blocks: 2 x 2}, mini: {unit: 1 in, blocks: 2 x 2}}
fabrics: {sea: {name: Sea, colour: "#27496d"}, sand: {name: Sand, colour: "#e4d9b6"}}
patches: {sail: {shape: half-square triangle, side: 4}}
blocks:
  sail:
    size: 4 x 4
    pieces:
      - {id: a, patch: sail, fabric: sea, at: [2, 2]}
      - {id: b, patch: sail, fabric: sand, at: [2, 2], turn: 180}
"""


def test_a_triangle_cut_of_a_square_with_the_ruler_is_no_more_glued_together(tmp_path):
    # 8 in finished is 8 in + 1/4 in + 1/4 in x (1 + sqrt 2) = 8.85 in along each short side as cut: letter is 8 1/2 in wide
    (tmp_path / "pattern.yaml").write_text(SAILS, "utf-8")
    lap, mini = compiler.plan(compiler.check(tmp_path).value).sizes
    area = sheet_of(Paper.LETTER).template_area_mm
    assert ruled_only(lap, *area) == ("A",)
    assert template_figures(lap, *area) == ()
    assert ruled_only(mini, *area) == ()
    assert len(template_figures(mini, *area)) == 1
