"""The picture of the allowance test."""

from builders import ENGLISH

from booklet.drawing.cloths.allowance import allowance_figure
from booklet.drawing.scene import Fill


def test_three_strips_and_two_seams():
    figure = allowance_figure(
        "a", {"ink": Fill("#243b6b")}, "1 1/2 in", "3 1/2 in", speaker=ENGLISH
    )
    assert figure.svg.count("1 1/2 in</text>") == 1
    assert figure.svg.count("3 1/2 in</text>") == 1
    assert "three such strips" in figure.alt
    assert "3 1/2 in" in figure.caption
