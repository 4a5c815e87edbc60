"""`booklet help`: every key, shape and rule is told from the tables that the reader uses."""

import pytest

from booklet.commands import help as page
from booklet.crafts.forms import FORMS
from booklet.pages.texts.values import known_names
from booklet.recipe.compiler import check
from booklet.reference import keys, shapes, topics


def told(word: str) -> str:
    found = page.told(word)
    assert found, word
    return found


@pytest.mark.parametrize("word", page.known())
def test_every_word_has_a_page_that_fits_a_terminal(word):
    lines = told(word).splitlines()
    assert len(lines) > 2
    # rules, commands and examples are set by others; columns and paragraphs are ours
    assert all(len(line) <= 100 for line in lines if line.startswith("  ") and "{" not in line)


def test_a_hexagon_stands_on_a_corner_with_side_1_from_the_top():
    # side 2: the corners lie at 2 from the middle, the upright sides √3 = 1.732 beside it
    text = told("hexagon")
    assert "corner 1  top, at [0, -2]" in text
    assert "corner 2  upper right, at [1.732, -1]" in text
    assert "corner 6  upper left, at [-1.732, -1]" in text
    sketch = [line for line in text.splitlines() if "(1)" in line or "(4)" in line]
    assert "(6)" in sketch[0] and sketch[0].index("(6)") < sketch[0].index("(1)")
    assert sketch[1].index("(4)") < sketch[1].index("(3)")
    assert "mine: {shape: hexagon, side: 2}" in text


def test_a_page_is_told_with_how_to_ask_for_it_after_the_key_of_the_same_name():
    assert "pattern: {pages: [cover, step-cards]}" in told("step-cards")
    text = told("quilt")
    assert text.index("How blocks become a quilt") < text.index("quilt: a page of the booklet")


def test_a_half_square_triangle_has_its_right_angle_at_corner_3():
    # side 2 about its middle: top left, bottom right, bottom left
    text = told("half-square triangle")
    for line in (
        "1  top left, at [-1, -1]",
        "2  bottom right, at [1, 1]",
        "3  bottom left, at [-1, 1]",
    ):
        assert f"corner {line}" in text


@pytest.mark.parametrize("word", FORMS)
def test_the_example_of_every_shape_is_a_patch(word, tmp_path):
    example = shapes.told(FORMS[word])[-1].strip()
    text = (
        "title: T\nsizes: {s: {unit: 1 in}}\nfabrics: {ink: {}}\npatches:\n"
        f"  {example}\nblocks: {{b: {{pieces: [{{id: a, patch: mine, fabric: ink, at: [2, 2]}}]}}}}\n"
    )
    (tmp_path / "pattern.yaml").write_text(text, encoding="utf-8")
    assert [d.message for d in check(tmp_path).diagnostics if d.is_error] == []


def test_a_group_tells_where_it_stands_its_keys_and_what_a_bare_number_is():
    text = told("borders")
    assert text == told("border")
    assert "Where: `borders` in `quilt`." in text
    assert "fabric *" in text and "a bare number is in the pattern's `units`" in text
    assert "a bare number is in design units, u" in told("piece")
    assert "borders:\n      - {width: 4 in" in text


def test_a_key_is_told_at_each_of_its_places():
    text = told("press")
    assert "in `step`" in text and "in `sewing`" in text
    assert "at: [3, 1.5]" in told("at")


def test_texts_names_every_value_picture_and_table(tmp_path):
    (tmp_path / "pattern.yaml").write_text(
        "title: T\nsizes: {s: {unit: 1 in}}\nfabrics: {NAME: {}}\nblocks: {NAME: {grid: [[NAME]]}}\n",
        encoding="utf-8",
    )
    from booklet.source.reader import read_folder

    names = known_names(read_folder(tmp_path).value)
    text = "\n".join(topics.texts())
    assert [name for name in names if f"{{{{ {name} }}}}" not in text] == []
    assert text.count("{{ ") == len(names) + 2  # two more in the example


def test_rules_are_told_however_their_code_is_copied():
    told_page = told("blocked-set-in")
    for copied in (
        "[blocked-set-in]",
        "error: … [blocked-set-in]",
        "Blocked set in",
        "BLOCKED_SET_IN",
    ):
        assert page.told(copied) == told_page
    assert all(f"\n{code} " in told("rules") for code in ("gap", "overlap", "unused-name"))


def test_a_word_is_found_by_its_letters():
    assert page.told("Half Square_Triangle") == told("half-square triangle")
    assert page.told("{{ size.finished }}") == page.told("figure.block.star") == told("texts")


def test_a_word_may_be_a_key_and_a_rule_or_a_command():
    assert "in `block`" in told("size") or "size:" in told("size")
    assert "usage: booklet build" in told("build")
    assert "usage: booklet plan" in told("plan")


def test_the_example_of_a_group_with_names_has_one():
    """`colourways:` holds `dusk:`, and that the keys: an example without the name between them cannot be copied."""
    for table in keys.GROUPS:
        for key in table.keys:
            within = keys.inner(key)
            if within is not None and "additionalProperties" in key.kind.schema:
                assert within.name in keys.NAMES, (table.name, key.name)
    assert "    colourways:\n      dusk:\n        title:" in told("colourways")


def test_printed_paper_is_told_of_by_its_own_name():
    assert "by: foundation" in told("foundation") and "foundation margin" in told("foundation")
