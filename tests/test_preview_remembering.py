"""What the preview remembers from state to state is what it would work out anew: page, faults and places."""

import re
import shutil
from pathlib import Path

import pytest
from edits import as_read

from booklet.drawing.scene import Figure, Fill
from booklet.kit.colour import mix
from booklet.preview.bench.bench import Bench, Choice
from booklet.preview.bench.recolouring import recoloured
from booklet.preview.bench.remembering import Pictures

PATTERNS = Path(__file__).parent / "patterns"
# one after the other: each is found and changed in the source as the edit before has left it
EDITS = {
    "a colour": (r"#(\w)(\w{5})", r"#4\2"),
    "the name of a cloth": (r"\{name: (\w)", r"{name: X\1"),
    "the title": (r"(?m)^title: (\w)", r"title: X\1"),
    "the lightest cloth": (r"#[def]\w{5}", "#101418"),
    "a width": (r"width: (\d)", r"width: 1\1"),
    "a line put in": (r"(?m)^fabrics:", "# a note\nfabrics:"),
    "a unit": (r"unit: (\d)", r"unit: 2\1"),
    "a step": (r"join: \[(\w+), (\w+)\]", r"join: [\2, \1]"),
    "the language": (r"(?m)^units: inch", "language: de\nunits: inch"),
}


@pytest.mark.parametrize(
    "name",
    ["four_patch", "kite_wheel", pytest.param("on_point_two_blocks", marks=pytest.mark.everything)],
)
def test_every_edit_gives_the_page_of_a_fresh_start(tmp_path, name):
    shutil.copytree(PATTERNS / name, tmp_path / "p")
    source = tmp_path / "p" / "pattern.yaml"
    bench, done = Bench(tmp_path / "p"), 0
    bench.refresh()
    bench.shown(Choice())
    for what, (old, new) in EDITS.items():
        text = source.read_text("utf-8")
        source.write_text(re.sub(old, new, text, count=1), "utf-8")
        changed = bench.refresh()
        if not changed or not bench.look.sound:  # the pattern has nothing of the kind
            source.write_text(text, "utf-8")
            bench.refresh()
            continue
        fresh = Bench(tmp_path / "p")
        fresh.refresh()
        one, other = bench.shown(Choice()), fresh.shown(Choice())
        assert as_read(one.document) == as_read(other.document), what
        assert one.places == other.places, what
        assert bench.look.diagnostics == fresh.look.diagnostics, what
        done += 1
    assert done >= 5


def test_pictures_are_not_drawn_again_for_a_colour(tmp_path, monkeypatch):
    shutil.copytree(PATTERNS / "four_patch", tmp_path / "p")
    source = tmp_path / "p" / "pattern.yaml"
    bench = Bench(tmp_path / "p")
    bench.refresh()
    bench.shown(Choice())

    def refuse(*values):
        raise AssertionError("drawn again")

    monkeypatch.setattr("booklet.drawing.ink.svg.render", refuse)
    source.write_text(source.read_text("utf-8").replace("#243b6b", "#244b6b"), "utf-8")
    bench.refresh()
    document = bench.shown(Choice()).document
    assert any("#244b6b" in markup for _, markup in (*document.parts, *document.pieces.items()))


def test_cloths_of_one_colour_are_drawn_anew_where_they_part():
    figure = Figure(
        name="f",
        svg='<svg><path fill="#aa0000"/></svg>',
        width_mm=1,
        height_mm=1,
        caption="",
        alt="",
    )
    one = {"a": Fill("#aa0000", 1), "b": Fill("#aa0000", 1)}
    parted = {"a": Fill("#ab0000", 1), "b": Fill("#aa0000", 1)}
    assert recoloured(figure, one, parted) is None  # which of the two is the path?
    both = {"a": Fill("#ab0000", 1), "b": Fill("#ab0000", 1)}
    assert recoloured(figure, one, both).svg == '<svg><path fill="#ab0000"/></svg>'
    hatch = {"a": Fill("#aa0000", 2), "b": Fill("#aa0000", 1)}
    assert recoloured(figure, one, hatch) is None
    white = {"a": Fill("#ffffff"), "b": Fill("#aa0000")}
    assert (
        recoloured(figure, white, {"a": Fill("#fffffe"), "b": Fill("#aa0000")}) is None
    )  # paper is white
    tint = mix("#aa0000", "#ffffff", 0.72)
    pale = Figure(
        name="f",
        svg=f'<svg><path fill="{tint}"/></svg>',
        width_mm=1,
        height_mm=1,
        caption="",
        alt="",
    )
    assert (
        recoloured(pale, one, both).svg
        == f'<svg><path fill="{mix("#ab0000", "#ffffff", 0.72)}"/></svg>'
    )


def test_values_are_told_by_their_names_too():
    from booklet.kit.words import words_of

    pictures, drawn = Pictures(), []

    def draw(*, looks, speaker):
        drawn.append(speaker.language)
        return Figure(
            name="f",
            svg=f'<svg><path fill="{looks["a"].colour}"/></svg>',
            width_mm=1,
            height_mm=1,
            caption="",
            alt="",
        )

    red, blue = {"a": Fill("#aa0000", 1)}, {"a": Fill("#0000aa", 1)}
    english, german = words_of("en"), words_of("de")
    assert "#aa0000" in pictures.ask(draw, looks=red, speaker=english).svg
    assert "#0000aa" in pictures.ask(draw, looks=blue, speaker=english).svg
    pictures.ask(draw, looks=blue, speaker=german)
    assert drawn == ["en-US", "de"]


def test_what_nobody_asked_for_in_a_while_is_forgotten():
    pictures, drawn = Pictures(rounds=1), []

    def draw(value):
        drawn.append(value)
        return f"picture {value}"

    assert [pictures.ask(draw, n) for n in (1, 2, 1)] == ["picture 1", "picture 2", "picture 1"]
    assert drawn == [1, 2]
    for _ in range(3):
        pictures.next_round()
        pictures.ask(draw, 1)
    assert len(pictures) == 1
    pictures.ask(draw, 2)
    assert drawn == [1, 2, 2]
