"""The registry of forms: each is one file with all its parts and its tests beside it by the same name."""

from __future__ import annotations

import pickle
from pathlib import Path

import pytest
from builders import METHODS
from crafts_helpers import INCH

from booklet.crafts import forms
from booklet.crafts.figure import figure_of
from booklet.crafts.forms import FORMS, recognised
from booklet.kit.measure import Extent
from booklet.kit.words import Phrase

HERE = Path(__file__).parent
FILES = sorted(p.stem for p in Path(forms.__file__).parent.glob("*.py") if p.stem != "__init__")


def test_every_file_is_a_form_of_that_name_with_its_tests():
    named = {
        "half_square_triangle": "half-square triangle",
        "quarter_square_triangle": "quarter-square triangle",
    }
    assert {named.get(name, name.replace("_", " ")) for name in FILES} == set(FORMS)
    assert [name for name in FILES if not (HERE / f"test_{name}.py").exists()] == []


@pytest.mark.parametrize("word", FORMS)
def test_every_form_has_each_of_its_parts(word):
    form = FORMS[word]
    assert form.must and bool(form.written) is form.is_free
    assert (form.cut is None) is (form.method is None)
    assert all(part.__doc__ for part in (form.corners, form.recognise, form.cut) if part)
    if not form.is_free:
        assert set(form.sample) <= {measure.name for measure in form.measures}


@pytest.mark.parametrize("word", [form.word for form in FORMS.values() if not form.is_free])
def test_the_example_of_a_form_is_one_of_its_own(word):
    form = FORMS[word]
    sizes = {
        n: v if n in ("angle", "sides") else Extent(v, in_units=False)
        for n, v in form.sample.items()
    }
    outline = form.laid_out(sizes, INCH)
    assert form.sides in (0, len(outline))
    found, seen = recognised(figure_of(outline), None)
    twin = {"quarter-square triangle": "half-square triangle"}  # told apart by their grain alone
    assert found.word == twin.get(word, word)
    assert isinstance(seen.name, Phrase)  # so that it is said in every language


def test_no_two_forms_share_a_place_or_a_way_of_cutting_a_word():
    assert len({form.rank for form in FORMS.values()}) == len(FORMS)
    assert all(METHODS[method.word] == method for method in METHODS.values())


def test_a_form_that_was_stored_is_the_same_one():
    for form in FORMS.values():
        assert pickle.loads(pickle.dumps(form)) is form


def test_the_form_shown_to_developers_is_the_one_there_is():
    shown = (HERE.parents[1] / "DEVELOPERS.md").read_text(encoding="utf-8")
    assert (Path(forms.__file__).parent / "right_trapezoid.py").read_text(encoding="utf-8") in shown
