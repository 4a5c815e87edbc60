"""Texts of strangers: what may stand in them, and what must come out as plain text."""

import re
from collections.abc import Mapping
from pathlib import Path

import pages_sample as sample
import pytest
from hypothesis import given, strategies as st
from markupsafe import Markup
from picture_bytes import pixels, png

from booklet.pages.texts.text_faults import picture_address, text_faults
from booklet.pages.texts.texts import Filling, needs_size, set_text
from booklet.pages.texts.true_fractions import quantities
from booklet.pages.texts.values import known_names
from booklet.source.reader import read_folder

PNG = png()


def set_(text: str, pictures: Mapping[str, bytes] | None = None, **values: str) -> str:
    pattern = sample.pattern({"text/a.md": text}, pictures)
    blocks = {"figure.quilt": Markup("<figure>Q</figure>")}
    return str(set_text("text/a.md", text, pattern, Filling(values, blocks.get)))


def test_headings_begin_below_the_title():
    assert set_("# One\n\n## Two\n\nWords.") == "<h2>One</h2>\n<h3>Two</h3>\n<p>Words.</p>"


def test_values_are_filled_in_and_escaped():
    assert set_("Size {{ name }}.", name="<b>3 1/2 in</b> *x*") == (
        "<p>Size &lt;b&gt;3½\u00a0in&lt;/b&gt; *x*.</p>"
    )


@pytest.mark.parametrize("text", ["{{ 7*7 }}", "{% for x in y %}", "{{ ''.join }}", "{# note #}"])
def test_template_code_stays_text(text: str):
    shown = set_(text)
    assert "49" not in shown
    assert Markup(shown).striptags() == text.replace("''", "‘’")


@pytest.mark.parametrize(
    "text",
    [
        "<script>alert(1)</script>",
        "<style>body{display:none}</style>",
        '<img src=x onerror="alert(1)">',
        '<p onclick="alert(1)">x</p>',
        '<svg onload="alert(1)"></svg>',
        '<iframe src="https://example.org"></iframe>',
        '<a href="javascript:alert(1)">x</a>',
        "<div><b>x</b></div>",
    ],
)
def test_raw_html_is_shown_not_run(text: str):
    shown = set_(text)
    for tag in ("<script", "<style", "<img", "<svg", "<iframe", "<div", "<b>", "<a"):
        assert tag not in shown
    assert "&lt;" in shown


@pytest.mark.parametrize(
    "address",
    ["javascript:alert(1)", "JaVaScript:alert(1)", "data:text/html,x", "vbscript:x", "file:///x"],
)
def test_strange_addresses_become_words(address: str):
    assert set_(f"[words]({address})") == "<p><span>words</span></p>"


def test_links_to_places_stay_and_others_are_printed():
    assert set_("[there](#cutting)") == '<p><a href="#cutting">there</a></p>'
    shop = '<a href="https://example.org">shop</a> (https://example.org)'
    assert set_("[shop](https://example.org).") == f"<p>{shop}.</p>"
    assert set_("[us](mailto:a@example.org)") == (
        '<p><a href="mailto:a@example.org">us</a> (a@example.org)</p>'
    )
    assert set_("[old](http://example.org)") == "<p><span>old</span> (http://example.org)</p>"


def test_a_figure_alone_takes_the_place_of_its_paragraph():
    assert set_("Before.\n\n{{ figure.quilt }}\n\nAfter.") == (
        "<p>Before.</p>\n<figure>Q</figure>\n<p>After.</p>"
    )


def test_a_figure_in_a_sentence_follows_its_paragraph():
    assert set_("See {{ figure.quilt }} here.") == "<p>See  here.</p><figure>Q</figure>"


def test_pictures_come_from_the_folder_as_data():
    shown = set_("![A lamp](lamp.png)", {"text/lamp.png": PNG})
    assert shown.startswith('<figure class="photo"><img src="data:image/png;base64,')
    assert 'alt="A lamp"' in shown


@pytest.mark.parametrize(
    "address", ["https://example.org/x.png", "//example.org/x.png", "gone.png"]
)
def test_other_pictures_leave_their_words(address: str):
    assert set_(f"![A lamp]({address})") == "<p><span>A lamp</span></p>"


def test_private_characters_cannot_forge_a_token():
    assert "<figure>" not in set_("\ue0000\ue001 {{ title }}", title="T")


@pytest.mark.parametrize(
    "text",
    [
        "[x](#&#xe000;0&#xe001;)", "[x](#{{ figure.quilt }})", "[x](#<th>)", '[x](#a>1/16>1/16"b)',
        '<slot data-n="0"></slot>', "`{{ figure.quilt }}`", "    {{ figure.quilt }}", "\x02klzzwxh:0000\x03",
        "![{{ figure.quilt }}](gone.png)", "\\{{ figure.quilt }}", "[{{ title }}]: #x",
    ],
)  # fmt: skip
def test_what_is_put_in_stands_in_no_attribute_and_no_code(text: str):
    shown = set_("{{ title }}\n\n" + text, title='T" onclick="x')
    assert shown.count("T&#34; onclick=&#34;x") == 1 or text.startswith("[{{")
    assert "<figure>" not in shown
    assert not re.search(r'<[a-z]+ [^>]*"[^ >]*[<"][^ >]', shown)


def test_a_value_can_stand_in_the_words_of_a_link_and_of_a_picture():
    assert set_("[{{ title }}](#a)", title="T") == '<p><a href="#a">T</a></p>'
    assert 'alt="T"' in set_("![{{ title }}](lamp.png)", {"text/lamp.png": PNG}, title="T")


@given(st.text(alphabet="<>&\"'abon=/ {}[]()!#*`:;script\n\ue000\ue0010", max_size=80))
def test_no_text_makes_a_tag_of_its_own(text: str):
    shown = set_(text).lower()
    for bad in ("<script", "<img", "<style", "<iframe", "<svg", 'javascript:"'):
        assert bad not in shown


def faults(text: str, pictures: Mapping[str, bytes] | None = None) -> list[str]:
    pattern = sample.pattern({"text/a.md": text}, pictures)
    return [
        f"{d.code} {d.span.line}:{d.span.column}-{d.span.end} {d.hint}"
        for d in text_faults(pattern)
    ]


def test_an_unknown_name_is_a_fault_with_its_place():
    # the name begins at column 9 of line 2 and ends before column 18
    assert faults("# A\n12345{{ size.tilte }}") == [
        "unknown-value 2:9-19 did you mean `size.title`?"
    ]


def test_code_in_braces_is_no_name():
    found = [fault.split()[:2] for fault in faults("{{ 7*7 }} {{ }} {{ ''.x }} {% if %}")]
    assert found == [["unknown-value", place] for place in ("1:4-7", "1:14-15", "1:20-24")]


def test_pictures_from_elsewhere_are_faults():
    assert [f.split()[0] for f in faults("![a](https://example.org/a.png)\n![b](b.png)")] == [
        "remote-address",
        "missing-picture",
    ]
    assert faults("![b](b.png)", {"b.png": PNG}) == []


def test_every_known_name_of_a_sample_is_filled():
    plan = sample.plan()
    text = "\n\n".join(f"{{{{ {name} }}}}" for name in known_names(plan.pattern))
    assert faults(text) == []


def test_a_text_that_names_the_size_is_set_for_each():
    assert needs_size("{{ size.title }}")
    assert needs_size("{{ figure.quilt }}")
    assert not needs_size("{{ title }} {{ table.sizes }} {{ fabric.ink.name }}")


def test_only_pictures_are_pictures():
    assert picture_address(b"<svg onload=x>") is None


@pytest.mark.parametrize(
    ("plain", "set_as"),
    [
        ("2 1/2 in", "2½\u00a0in"),
        ("1/4 in", "¼\u00a0in"),
        ("3 7/8 in x 4 in", "3⅞\u00a0in\u00a0× 4\u00a0in"),
        ("2 1/16 in", '<span class="mixed">2\u202f<span class="frac">1⁄16</span></span>\u00a0in'),
        ("over 11/16 in", 'over<span> </span><span class="frac">11⁄16</span>\u00a0in'),
        ("70/10 or 80/12", "70/10 or 80/12"),
        ("1/8 yd", "⅛\u00a0yd"),
        ("<b>1/2</b>", "&lt;b&gt;½&lt;/b&gt;"),
        ("2026/11/25", "2026/11/25"),
        ("64 mm wide", "64\u00a0mm wide"),
        ("A x B", "A x B"),
        ("D square × 18", "D square ×\u00a018"),  # a line may end before "× 18", not within it
        ("Pen × 4", "Pen ×\u00a04"),
        ("2 1/2 in × 4 in × 3", "2½\u00a0in\u00a0× 4\u00a0in\u00a0× 3"),
        ("Maßstab 1 : 5,5.", "Maßstab 1\u00a0:\u00a05,5."),  # a scale stays on its line
        ("Dessiné à 1\u00a0: 6", "Dessiné à 1\u00a0:\u00a06"),
    ],
)
def test_true_fractions(plain: str, set_as: str):
    assert quantities(plain) == set_as


def test_a_picture_beside_its_text_is_read_with_the_folder(tmp_path: Path):
    (tmp_path / "text").mkdir()
    (tmp_path / "text/lamp.png").write_bytes(PNG)
    (tmp_path / "text/a.md").write_text("![A lamp](lamp.png) ![Out](../../x.png)", encoding="utf-8")
    (tmp_path / "pattern.yaml").write_text(
        "title: T\nsizes: {lap: {title: L, unit: 1 in, blocks: 2 x 2}}\n"
        'fabrics: {ink: {name: Ink, colour: "#243b6b"}, sand: {name: Sand, colour: "#e9dcc3"}}\n'
        "blocks: {b: {grid: [[ink, sand]]}}\nbooklet: {editions: {p: {pages: [text/a.md]}}}\n",
        encoding="utf-8",
    )
    read = read_folder(tmp_path).value
    assert read is not None
    assert list(read.pictures) == ["text/lamp.png"]
    assert pixels(read.pictures["text/lamp.png"]) == pixels(PNG)
    assert [d.code for d in text_faults(read)] == ["missing-picture"]


def test_a_text_that_shows_too_much_is_a_fault():
    shown = "{{ figure.quilt }}\n\n"
    assert faults(shown * 199 + "![a](a.png)", {"a.png": PNG}) == []
    assert [f.split()[0] for f in faults(shown * 201)] == ["too-large"]
    large = {"a.png": bytes(10_000_000)}
    assert faults("![a](a.png)\n" * 5, large) == []  # 50 million bytes
    assert [f.split()[0] for f in faults("![a](a.png)\n" * 6, large)] == ["too-large"]
    assert [f.split()[0] for f in faults("a word " * 20_000)] == ["too-large"]  # 140 000 signs
    assert [f.split()[0] for f in faults("# a\n" * 5_001)] == ["too-large"]


@pytest.mark.parametrize(
    "text",
    ["\n".join("    " * k + "- x" for k in range(400)), "[" * 20000, "> " * 3000, "![\n" * 20000],
)
def test_a_tangled_text_is_a_fault_not_a_crash(text: str):
    assert [f.split()[0] for f in faults(text)] == ["too-large"]


def test_a_list_to_tick_has_boxes():
    made = set_text(
        "text/a.md",
        "- [ ] Wash the cloth\n- [x] Cut [ ] it\n- as is",
        sample.plan().pattern,
        Filling({}),
    )
    assert made.count('class="box"') == 1 and made.count('class="box ticked"') == 1
    assert "[x]" not in made and "Cut [ ] it" in made
