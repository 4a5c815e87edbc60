"""Pages and style of an author's own: left out unless they are trusted, and cleaned where they are."""

import io
import json
import re
import signal
import subprocess
import sys
from html.parser import HTMLParser
from pathlib import Path

import pages_sample as sample
import pytest
from corpus import documents
from markupsafe import Markup
from pypdf import PdfReader
from test_nothing_lost import SOURCE

from booklet.__main__ import main
from booklet.kit.records import replace
from booklet.pages.composing import compose
from booklet.pages.pictures.typesetting import Typesetter
from booklet.pages.prepress import pdf
from booklet.pages.texts.templating import (
    OwnPageError,
    own_faults,
    page_values,
    template_text,
    uses_own,
)
from booklet.pages.texts.words import Words
from booklet.pattern import Paper
from booklet.recipe import compiler
from booklet.recipe.compiler import check, read_texts
from booklet.source.files.page_names import OWN_TEMPLATES
from booklet.source.reader import read_folder


def own(text, **values):
    """What a page of notes of the author's becomes."""
    setter = Typesetter(words=Words.of("en"), own={"pages/notes.html": text})
    return str(setter.filled("pages/notes.html", **values))


def fault(text, **values):
    with pytest.raises(OwnPageError) as raised:
        own(text, **values)
    return raised.value.fault


def with_own(templates=None, style=""):
    """The plan of the sample with templates and a style sheet of the author's."""
    plan = sample.plan()
    pattern = replace(plan.pattern, texts={}, templates=templates or {}, style=style)
    sizes = tuple(replace(size, pattern=pattern) for size in plan.sizes)
    return replace(plan, pattern=pattern, sizes=sizes)


# What is left out, and how it is taken in

PATTERN = """\
title: T
sizes: {lap: {title: L, unit: 1 in, blocks: 2 x 2}}
fabrics: {ink: {name: Ink, colour: "#243b6b"}, sand: {name: Sand, colour: "#e9dcc3"}}
blocks: {b: {grid: [[ink, sand]]}}
booklet: {editions: {p: {pages: [notes]}}}
"""


@pytest.fixture
def folder(tmp_path):
    (tmp_path / "pages").mkdir()
    (tmp_path / "pages/notes.html").write_text("<p>Heron {{ title }}</p>", encoding="utf-8")
    (tmp_path / "style.css").write_text("p { color: #234 }", encoding="utf-8")
    (tmp_path / "pattern.yaml").write_text(PATTERN, encoding="utf-8")
    return tmp_path


def test_a_folder_is_a_strangers_unless_its_author_says_otherwise(folder):
    read = read_folder(folder).then(read_texts)
    assert (dict(read.value.templates), read.value.style) == ({}, "")
    assert [(d.code, d.span.file, d.is_error) for d in read.diagnostics] == [
        ("left-out-page", "pages/notes.html", False),
        ("left-out-page", "style.css", False),
    ]
    assert all("--trust-pages" in d.hint and "that you wrote" in d.hint for d in read.diagnostics)


def test_a_trusted_folder_is_read_with_its_pages(folder):
    read = read_folder(folder, trust_pages=True).then(read_texts)
    assert dict(read.value.templates) == {"pages/notes.html": "<p>Heron {{ title }}</p>"}
    assert (read.value.style, read.diagnostics) == ("p { color: #234 }", ())


def test_a_page_that_takes_the_place_of_nothing_is_a_fault(folder):
    (folder / "pages/nots.html").write_text("", encoding="utf-8")
    found = check(folder, trust_pages=True)
    assert found.value is None
    assert [(d.code, d.hint) for d in found.diagnostics] == [
        ("unknown-name", "did you mean `pages/notes.html`?")
    ]


@pytest.mark.parametrize("command", ["check", "facts"])
def test_the_option_is_one_of_every_command_that_reads_pages(folder, command, capsys):
    assert main([command, str(folder)]) == 0
    told = capsys.readouterr()
    assert (told.out + told.err).count("[left-out-page]") == 2
    assert main([command, str(folder), "--trust-pages"]) == 0
    told = capsys.readouterr()
    assert "left-out-page" not in told.out + told.err


def test_the_page_is_in_the_booklet_only_where_it_is_trusted(folder, capsys):
    made = folder / "out/t-p.html"
    only = ["--edition", "p", "--paper", "a5", "--booklet-only", "--quiet"]
    assert main(["build", str(folder), *only]) == 0
    stranger = made.read_text(encoding="utf-8")
    assert main(["build", str(folder), *only, "--trust-pages"]) == 0
    mine = made.read_text(encoding="utf-8")
    assert ("Heron T" in stranger, "color: #234" in stranger) == (False, False)
    assert ("Heron T" in mine, "color: #234" in mine) == (True, True)


def test_a_page_that_cannot_be_set_is_told_with_its_line(folder, capsys):
    (folder / "pages/notes.html").write_text("<p>\n{{ title + 1 }}</p>", encoding="utf-8")
    assert main(["build", str(folder), "--trust-pages", "--quiet"]) == 1
    told = capsys.readouterr().err
    assert f"{folder}/pages/notes.html:2:1: error: " in told
    assert "[page-template]" in told
    assert "what stands here cannot be worked out" in told


# How a trusted page is set


def test_a_page_of_ones_own_takes_the_place_of_ours():
    plan = with_own({"pages/notes.html": "<p>For {{ title }}</p>{{ picture('quilt') }}"})
    html = compose(plan, sample.edition("x", ("notes",)), sample.figures).html
    assert "<p>For Harbour Lanterns</p><figure" in html
    assert "<slot" not in html


def test_a_pattern_with_a_page_and_a_style_of_its_own():
    home = Path(__file__).parent / "patterns/own_pages"
    pages = {}
    for trusted in (False, True):
        plan = compiler.plan(check(home, trusted).value)
        document = next(documents(plan, plan.pattern.booklet.editions[0], ()))
        pages[trusted] = document.html[document.html.index('id="notes"') :].partition("</section>")[
            0
        ]
        assert ("height: 29.25pt" in document.html) == trusted
    assert pages[False].count("<p>") == 21
    assert pages[True].count("<p>") == 2 * 6  # six lines under each of two headings
    assert pages[True].count("<h3") == 2
    assert pages[True].count("<svg") == 1


def test_a_part_of_a_page_of_ours_may_be_ones_own():
    templates = {"pages/materials_table.html": "<p>Ask at the shop.</p>"}
    assert uses_own("pages/materials.html", templates)
    assert not uses_own("pages/quilt.html", templates)
    plan = with_own(templates)
    html = compose(plan, sample.edition("x", ("materials",)), sample.figures).html
    assert "<p>Ask at the shop.</p>" in html


def test_values_are_escaped():
    assert own("{{ x }}", x="<b>") == "&lt;b&gt;"
    assert own("{{ x ~ '<' }}", x="<b>") == "&lt;b&gt;&lt;"


@pytest.mark.parametrize(
    "text",
    [
        "{{ ''.__class__ }}", "{{ x.__init__ }}", "{{ x.__globals__ }}", "{{ x()|attr('__class__') }}",
        "{{ self._TemplateReference__context }}", '{% include "/etc/passwd" %}', '{% include "../pattern.yaml" %}',
        '{% include "pages/../../pattern.yaml" %}', '{% include "base.html" %}', "{% import 'os' as os %}{{ os }}",
        '{% extends "../../../../etc/passwd" %}', "{{ title }}", "{{ 1 / 0 }}", "{{ x|nothing }}", "{% for %}",
    ],
)  # fmt: skip
def test_a_page_reaches_nothing_but_its_values(text):
    found = [*own_faults({"pages/notes.html": text})]
    if not found or found[0].message.endswith("nothing is called `x` here"):
        found = [fault(text, x=len)]
    assert (found[0].code, found[0].span.file) == ("page-template", "pages/notes.html")


RUNS = [
    "<script>x</script>", "<scr{{ 'ipt' }}>x</scr{{ 'ipt' }}>", '<p onclick="x">y</p>', "<iframe></iframe>",
    '<img src="https://example.org/x.png" alt="">', '<a href="javascript:x">y</a>', "<style>p{}</style>",
    '<p style="background:url(//example.org/x.png)">y</p>', "<!-- <p> -->", "<![CDATA[x]]>", "<svg><set/></svg>",
    '<link rel="stylesheet" href="#x">', '<img srcset="//example.org/x 1x" alt="">', '<a href="{{ x }}">y</a>',
    "{{ x|safe }}", "<noembed><p>", "<noframes><script>x</script>", '<base href="//example.org/">', "<plaintext>",
    '<form action="//example.org/"><button>x</button></form>', '<meta http-equiv="refresh" content="0;url=//example.org/">',
    "<math><mtext></p><style><img src=x onerror=y>", "<p title=\"{{ quilt }}\">x</p>", "<table><tr><td>",
]  # fmt: skip


class Tags(HTMLParser):
    """The tags of a page with their attributes, and its words."""

    def __init__(self, html):
        super().__init__()
        self.tags, self.words = [], ""
        self.feed(html)
        self.close()

    def handle_starttag(self, tag, attrs):
        if tag != "tbody":  # a browser, and nh3, put it into every table
            plain = ((name, re.sub(r"[;\s]", "", value or "")) for name, value in attrs)
            self.tags.append((tag, sorted(plain)))

    def handle_data(self, data):
        self.words = " ".join([*self.words.split(), *data.split()])


@pytest.mark.parametrize("text", RUNS)
def test_a_page_is_cleaned_of_what_runs_or_is_fetched(text):
    made = Tags(own(text, x="http://example.org", quilt=Markup('<svg onload="x"></svg>')))
    assert {tag for tag, _ in made.tags} <= {"p", "a", "table", "tr", "td"}
    attributes = {(name, value[:13]) for _, pairs in made.tags for name, value in pairs}
    assert attributes <= {("title", "<slotdata-n="), ("style", "")}


def test_only_a_figure_and_a_fabric_of_ours_are_placed():
    setter = Typesetter(
        words=Words.of("en"), own={"pages/notes.html": "{{ place(namespace(svg=x)) }}"}
    )
    with pytest.raises(OwnPageError):
        setter.filled("pages/notes.html", x=Markup("<script>"), place=setter.place)


def test_no_words_of_the_author_are_taken_for_a_slot():
    picture = Markup('<svg viewBox="0 0 1 1"></svg>')
    text = '<p title="{{ quilt }}">{{ "<slot data-n=\'0\'></slot>" }}</p><slot data-n="7"></slot>{{ quilt }}'
    made = own(text, quilt=picture)
    assert made.count("<svg") == 1
    assert made.endswith(f"</p>{picture}")


def test_a_fault_names_its_line_and_column():
    found = next(own_faults({"pages/notes.html": "<p>\n  {{ titel }}</p>"}))
    # the name begins at column 6 of line 2: two spaces, two braces, a space
    assert (found.span.file, found.span.line, found.span.column) == ("pages/notes.html", 2, 6)
    assert fault("<p>\n\n{{ x.y }}", x="a text").span.line == 3


WITHOUT_END = {
    "time": "x\n{% for a in range(9999) %}{% for b in range(99999) %}{% endfor %}{% endfor %}",
    "in the power": "x\n{{ 7 ** 999999999 }}",
    "memory": 'x\n{% set n = namespace(x="a" * 999) %}{% for a in range(60) %}{% set n.x = n.x ~ n.x %}{% endfor %}',
}
SET_WITHOUT_END = """
import json, resource, sys
import booklet.pages.texts.templating as templating
templating.OWN_SECONDS = 1
limits = lambda: [resource.getrlimit(kind) for kind in (resource.RLIMIT_AS, resource.RLIMIT_CPU)]
before, said = limits(), {}
for name, text in json.load(sys.stdin).items():
    try:
        made = templating.own_filled({"pages/notes.html": text}, "pages/notes.html", {})
    except templating.OwnPageError as end:
        made = [end.fault.message, end.fault.span.line, limits() == before]
    said[name] = made
print(json.dumps(said))
"""


@pytest.mark.skipif(sys.platform == "win32", reason="no such limits there")
def test_a_page_without_end_is_a_fault_with_its_line():
    """In a process of its own: where memory is short, what else runs in the process of a test could not go on."""
    texts = WITHOUT_END | {"sound": "x"}
    ended = subprocess.run(
        [sys.executable, "-c", SET_WITHOUT_END],
        input=json.dumps(texts), capture_output=True, text=True, check=True,
    )  # fmt: skip
    said = json.loads(ended.stdout)
    assert said.pop("sound") == "x"
    assert set(said) == set(WITHOUT_END)
    for name, (message, line, limits_are_back) in said.items():
        assert "setting it takes more than" in message and line == 2 and limits_are_back, name


@pytest.mark.skipif(sys.platform == "win32", reason="no such limits there")
def test_one_long_call_of_a_library_ends_with_a_sentence(tmp_path):
    # two lists of 9999 lists of 9999999 each, compared by one call that heeds no alarm
    lists = "{% set n = 9999999 %}{% set a = [0] * n %}{% set b = [0] * n %}"
    text = lists + "{{ [a] * 9999 == [b] * 9999 }}"
    (tmp_path / "pages").mkdir()
    (tmp_path / "pages" / "notes.html").write_text(text, encoding="utf-8")
    (tmp_path / "pattern.yaml").write_text(SOURCE.replace("materials", "notes"), encoding="utf-8")
    quick = (
        "import booklet.kit.running.stopping as s, booklet.pages.texts.templating as t; from booklet.__main__ import main; "
        "s.SWALLOWED, t.OWN_SECONDS = 1, 1; "
    )
    ended = subprocess.run(
        [sys.executable, "-c", quick + f"main(['build', {str(tmp_path)!r}, '--web', '--trust-pages', '--quiet'])"],
        capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert ended.returncode == -signal.SIGXCPU and not list(tmp_path.glob("out/*.html"))
    assert ended.stderr == (
        "booklet: template `pages/notes.html`: one step of it takes more than 2 s of processor time, so that the "
        "system ended the program; what was built before is still there. Put it right, or take the file away: the "
        "booklet's own page then comes back\n"
    )


def test_a_sound_page_of_ours_is_sound_as_ones_own():
    for name in OWN_TEMPLATES:
        text = template_text(name)
        assert text is not None
        assert list(own_faults({name: text})) == []
    assert {"title", "picture", "t"} <= page_values()


def test_every_page_of_ours_may_be_set_as_ones_own(example_plan):
    templates = {name: template_text(name) for name in OWN_TEMPLATES}
    pattern = replace(example_plan.pattern, templates=templates)
    sizes = tuple(replace(size, pattern=pattern) for size in example_plan.sizes)
    edition = pattern.booklet.editions[0]
    mine = compose(
        replace(example_plan, pattern=pattern, sizes=sizes), edition, None, Paper.A4, ("throw",)
    )
    ours = compose(example_plan, edition, None, Paper.A4, ("throw",))
    mine, ours = Tags(mine.html), Tags(ours.html)
    assert mine.tags == ours.tags
    assert mine.words == ours.words


# A style sheet of one's own


def test_own_rules_come_last_on_screen_and_paper():
    plan = with_own(style="h2 { color: #234 }")
    for paper in (None, Paper.A4):
        html = compose(
            plan, sample.edition("x", ("materials",)), sample.figures, paper, ("lap",)
        ).html
        assert html.index("h2 { color: #234 }") > html.rindex("figcaption {")


def test_a_style_sheet_cannot_end_its_element():
    plan = with_own(style='h2::after { content: "</style><meta http-equiv=refresh>" }')
    html = compose(plan, sample.edition("x", ("notes",)), sample.figures).html
    assert html.count("</style>") == 1
    assert html.index("<meta http-equiv=refresh>") < html.index("</style>")


@pytest.mark.parametrize(
    ("rule", "seen"),
    [
        ("upper-roman { system: fixed; symbols: 'Quay' 'Lamp' }", "Quay"),
        ("upper-roman { } @counter-style upper-roman { system: fixed; symbols: 'Mole' }", "Mole"),
        ("quilt-rows { system: fixed; symbols: 'Pier' }", "I"),
        ("decimal { system: fixed; symbols: 'one' }", "I"),
    ],
)
def test_a_style_of_counters_of_ones_own_holds_on_paper(rule, seen):
    """The last rule of a name holds, also where the page maker has one of that name."""
    sheets = f"<style>p::before {{ counter-increment: n; content: counter(n, upper-roman) }} @counter-style {rule}</style>"
    made = pdf.make_pdf(
        f"<html lang=en><head><title>T</title>{sheets}</head><body><p>.</p></body></html>"
    )
    (found,) = PdfReader(io.BytesIO(made.data)).pages
    assert found.extract_text().strip().rstrip(".") == seen
