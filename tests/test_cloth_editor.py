"""Other fabrics of pieces are put into the text of a pattern, and nothing else is touched."""

import pytest

from booklet.source.cloth_editor import write_cloths

HEAD = """\
title: Quay stones
fabrics:
  ink: {colour: "#243b6b"}   # dark
  sand: {colour: "#e9dcc3"}
  sea green: {colour: "#5f8a66"}
blocks:
"""
RING = """\
  stone:
    pieces:
      - {id: c, patch: heart, fabric: ink, at: [1, 1]}   # the middle
      - {id: h, patch: pane, fabric: %s, at: [4, 2], ring: {centre: [4, 4], times: 4}}  # four
"""


@pytest.mark.parametrize(
    ("before", "cloths", "after"),
    [
        ("ink", {"h1": "sand"}, "[sand, ink, ink, ink]"),  # one of four
        ("ink", {"h1": "sand", "h3": "sand"}, "[sand, ink]"),  # every other one
        ("[sand, ink]", {"h1": "ink", "h3": "ink"}, "ink"),  # all alike again
        ("[sand, ink]", {"h3": "ink"}, "[sand, ink, ink, ink]"),
        ('"ink"', {f"h{k}": "sea green" for k in (1, 2, 3, 4)}, "sea green"),
        ("ink", {"h2": "ink"}, "ink"),  # as it is
    ],
)
def test_a_ring_has_one_for_each_copy(before, cloths, after):
    assert write_cloths(HEAD + RING % before, "stone", cloths) == HEAD + RING % after


def test_a_piece_alone():
    text = HEAD + RING % "sand"
    made = write_cloths(text, "stone", {"c": "sand"})
    assert made == text.replace("fabric: ink, at: [1, 1]", "fabric: sand, at: [1, 1]")


@pytest.mark.parametrize(
    ("cells", "cloths", "after"),
    [
        ("[ink, sand]", {"r1c2": "ink"}, "[ink, ink]"),
        ("[ink/sand, sand]", {"r1c1b": "ink"}, "[ink/ink, sand]"),
        (r"[ink\sand, sand]", {"r1c1a": "sea green"}, r"[sea green\sand, sand]"),
        (r'["ink\\sand", "sand"]', {"r1c1a": "sand", "r1c2": "ink"}, r'["sand\\sand", "ink"]'),
    ],
)
def test_a_cell_of_a_grid(cells, cloths, after):
    text = HEAD + f"  stone:\n    grid:\n      - {cells}  # a row\n"
    assert write_cloths(text, "stone", cloths) == text.replace(cells, after)


def test_a_list_with_dashes_stays_one():
    lines = "\n          - ink  # one\n          - sand"
    text = HEAD + (
        "  stone:\n    pieces:\n      - id: h\n        ring: {centre: [1, 1], times: 4}\n"
        f"        fabric:{lines}\n        at: [1, 1]\n"
    )
    made = write_cloths(text, "stone", {"h1": "sand", "h3": "sand"})
    assert made == text.replace("- ink  # one", "- sand  # one")
    assert write_cloths(text, "stone", {"h1": "sand"}) is None  # four would have to stand there


@pytest.mark.parametrize(
    ("text", "cloths"),
    [
        ("  stone: {drawing: block.svg}\n", {"c": "ink"}),
        (RING % "ink", {"x": "ink"}),
        ("  stone: {grid: [[ink]]\n", {"r1c1": "sand"}),
        ("  other: {grid: [[ink]]}\n", {"r1c1": "sand"}),
        (RING % "[ink,  # first\n        sand]", {"h1": "sand", "h3": "sand"}),
    ],
)
def test_where_it_cannot_be_done_safely_nothing_is(text, cloths):
    assert write_cloths(HEAD + text, "stone", cloths) is None
