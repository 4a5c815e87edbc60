"""`booklet reference`: one page with everything that `booklet help` tells, and pictures."""

import re

import pytest
from placement import breaches

from booklet.checks.rulebook import rules
from booklet.commands import run
from booklet.crafts.forms import FORMS
from booklet.drawing.ink import svg
from booklet.drawing.quilts.shape import shape_figure
from booklet.geometry.placing.shapes import shape_outline
from booklet.kit.measure import Length
from booklet.reference import keys, shapes
from booklet.reference.demonstrations import DRAWN
from booklet.reference.page import page


@pytest.fixture(scope="module")
def made():
    return page()


def test_everything_has_its_entry(made):
    heads = re.findall(r"<h3>([^<]*)</h3>", made)
    assert set(heads) >= {*FORMS, *(table.name for table in keys.GROUPS), *rules(), "units"}
    assert len(heads) == len(set(re.findall(r'class="entry" id="([^"]*)"', made)))
    linked = set(re.findall(r'href="#([^"]*)"', made))
    assert linked <= set(re.findall(r'id="([^"]*)"', made))


def test_each_group_has_its_picture(made):
    known = {table.name for table in keys.GROUPS}
    assert set(DRAWN) == known
    for group in DRAWN:
        entry = made.partition(f'class="entry" id="keys-{group}"')[2].partition("</section>")[0]
        assert "<svg" in entry, group


def test_the_page_loads_nothing(made):
    assert "<script" not in made and not re.search(r'(?:src|href)="(?!#|data:)', made)


@pytest.mark.parametrize("form", [f for f in FORMS.values() if not f.is_free], ids=lambda f: f.word)
def test_the_numbers_of_a_shape_have_room(form, monkeypatch):
    caught = []
    monkeypatch.setattr(svg, "render", lambda scene: caught.append(scene) or "")
    shape_figure(form.word, shape_outline(shapes.sample(form), Length.of(1)))
    assert list(breaches(caught[0])) == []


def test_it_is_written_and_never_over_a_file_that_is_there(tmp_path, capsys):
    file = tmp_path / "all.html"
    file.write_text("mine", encoding="utf-8")
    assert run(["reference", str(file)]) == 1 and "there already" in capsys.readouterr().err
    assert file.read_text(encoding="utf-8") == "mine"
    assert run(["reference", str(file), "--replace"]) == 0
    assert file.read_text(encoding="utf-8").startswith("<!DOCTYPE html>")
    assert run(["reference", str(tmp_path / "all.pdf")]) == 2
