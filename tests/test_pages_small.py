"""Small pages: no title stands alone on one, whatever does not fit below it."""

import io

import pages_sample as sample
import pypdf
import pytest

from booklet.pages.composing import compose
from booklet.pages.prepress.pdf import make_pdf
from booklet.pages.style.fonts import boxed
from booklet.pattern import Paper
from booklet.recipe import compiler
from booklet.source.starter import starter_files


@pytest.fixture(scope="module")
def german_plan(tmp_path_factory):
    home = tmp_path_factory.mktemp("german")
    (home / "text").mkdir()
    for name, text in starter_files().items():
        changed = text.replace("units: inch", "language: de\nunits: inch", 1)
        changed = changed.replace("1 1/2 in, blocks: 4 x 5", "1 1/4 in, blocks: 5 x 5")
        (home / name).write_text(changed, encoding="utf-8")
    return compiler.plan(compiler.check(home).value)


@pytest.mark.parametrize("paper", [Paper.A5, Paper.HALF_LETTER])
def test_the_title_of_finishing_stands_above_its_first_steps(german_plan, paper):
    # the German steps and the two pictures of the layers fill a page by themselves
    page = compose(german_plan, sample.edition("pattern", ("finishing",)), None, paper, ("lap",))
    pdf = pypdf.PdfReader(io.BytesIO(make_pdf(boxed(page.html)).data))
    texts = [sheet.extract_text() for sheet in pdf.pages]
    titled = [text for text in texts if "Fertigstellen" in text]
    assert "Lagen" in titled[0] and "zuschneiden" in titled[0]
