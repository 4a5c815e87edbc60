"""With little ink cloths are pale tints under their hatches, and the darker stays the darker."""

import io

import pages_sample as sample
import pypdfium2
from hypothesis import given, strategies as st

from booklet.drawing.ink.fills import looks, looks_of, thrifty
from booklet.drawing.scene import Fill
from booklet.kit.colour import lightness, text_of
from booklet.pages.composing import compose
from booklet.pages.pictures.album import drawn
from booklet.pages.prepress.pdf import make_pdf
from booklet.pattern import Paper

part = st.floats(0, 1)
colours = st.tuples(part, part, part).map(text_of)


@given(colours, colours)
def test_a_tint_takes_a_fifth_of_the_ink_and_keeps_the_order(one, other):
    def ink(colour):  # how much of white is taken away, over three colours
        return sum(255 - int(colour[i : i + 2], 16) for i in (1, 3, 5))

    assert abs(ink(thrifty(Fill(one)).colour) - ink(one) / 5) <= 2
    light, pale = ([lightness(c) for c in pair] for pair in (
        (one, other), (thrifty(Fill(one)).colour, thrifty(Fill(other)).colour),
    ))  # fmt: skip
    darker_by_channel = all(one[i : i + 2] <= other[i : i + 2] for i in (1, 3, 5))
    if darker_by_channel:
        assert light[0] <= light[1] + 1e-9 and pale[0] <= pale[1] + 1e-9


def test_hatches_stay(example_plan):
    plain, pale = looks_of(example_plan), looks_of(example_plan, low_ink=True)
    assert {id: fill.hatch for id, fill in plain.items()} == {id: f.hatch for id, f in pale.items()}
    assert looks({"a": "#000000"}, ())["a"].colour == "#000000"


def ink_of(plan, low_ink) -> float:
    """How dark a page with the quilt is on average, 0 (white) to 1. Of the cushion: larger sizes have a mitred corner in lines
    alone, too, which take as much ink either way."""
    edition = sample.edition("pattern", ("quilt",))
    page = compose(plan, edition, drawn(plan, low_ink=low_ink), Paper.A5, ("cushion",))
    pdf = pypdfium2.PdfDocument(io.BytesIO(make_pdf(page.html).data))
    shades = [page.render(scale=0.5, grayscale=True).to_numpy().mean() for page in pdf]
    return 1 - sum(shades) / len(shades) / 255


def test_pictures_take_less_ink(example_plan):
    assert ink_of(example_plan, True) < 0.9 * ink_of(example_plan, False)
