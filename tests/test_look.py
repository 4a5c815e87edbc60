"""`look` of `booklet`: what an author changes without code, and what is refused."""

import re
from types import MappingProxyType

import pages_sample as sample
import pytest
from picture_bytes import pixels, png

from booklet.kit.colour import contrast
from booklet.kit.diagnostic import Span
from booklet.kit.records import replace
from booklet.pages.composing import compose
from booklet.pages.style.look import look_faults
from booklet.pattern import Look, Page, Paper, Tint
from booklet.source.reader import read_folder

S = Span("pattern.yaml", 1, 1, 2)
PATTERN = """\
title: T
designer: D
sizes: {lap: {title: L, unit: 1 in, blocks: 2 x 2}}
fabrics: {ink: {name: Ink, colour: "#243b6b"}, sand: {name: Sand, colour: "#e9dcc3"}}
blocks: {b: {grid: [[ink, sand]]}}
booklet: {look: LOOK, editions: {p: {pages: [cover, notes]}}}
"""


def read(tmp_path, look, **files):
    for name, data in files.items():
        path = tmp_path / name.replace("__", "/").replace("_", ".")
        path.parent.mkdir(exist_ok=True)
        path.write_bytes(data)
    (tmp_path / "pattern.yaml").write_text(PATTERN.replace("LOOK", look), encoding="utf-8")
    return read_folder(tmp_path)


def codes(outcome):
    return [(d.code, d.hint) for d in outcome.diagnostics]


def test_every_key_is_read(tmp_path):
    look = (
        "{title colour: navy, title font: sans, ground: '#eef', logo: logo.png, "
        "titles: {notes: My diary}, before: {notes: a.md}, after: {cutting: text/b.md}}"
    )
    found = read(tmp_path, look, logo_png=png(), a_md=b"A", text__b_md=b"B")
    assert found.diagnostics == ()
    made = found.value.booklet.look
    assert (made.title_colour.colour, made.title_font, made.ground.colour) == (
        "#000080",
        "sans",
        "#eeeeff",
    )
    assert dict(made.titles) == {"notes": "My diary"}
    assert (made.before["notes"].name, made.after["cutting"].name) == ("a.md", "text/b.md")
    assert dict(found.value.texts) == {"a.md": "A", "text/b.md": "B"}
    assert pixels(found.value.pictures["logo.png"]) == pixels(png())


@pytest.mark.parametrize(
    ("look", "code", "hint"),
    [
        ("{titel: x}", "unknown-key", "did you mean `titles`?"),
        ("{titles: {nots: x}}", "unknown-name", "did you mean `notes`?"),
        ("{titles: {cover: x}}", "unknown-name", ""),
        ("{titles: x}", "wrong-kind", ""),
        ("{title font: comic}", "wrong-kind", ""),
        ("{title colour: 'red;}'}", "wrong-kind", ""),
        ("{ground: url(x)}", "wrong-kind", ""),
        ("{logo: ../x.png}", "outside-folder", ""),
        ("{logo: https://example.org/x.png}", "remote-address", ""),
        ("{logo: gone.png}", "unreadable-source", ""),
        ("{before: {notes: a.txt}}", "wrong-kind", ""),
        ("{before: {notes: ../a.md}}", "outside-folder", ""),
        ("{after: {notes: gone.md}}", "unreadable-source", ""),
    ],
)
def test_what_is_no_look_is_a_fault_with_the_next_thing_to_do(tmp_path, look, code, hint):
    found = codes(read(tmp_path, look))
    assert len(found) == 1
    assert found[0][0] == code
    assert hint in found[0][1]


def page(look, pages=("cover", "notes", "materials"), texts=None, pictures=None, paper=None):
    plan = sample.plan()
    booklet = replace(plan.pattern.booklet, look=look)
    pattern = replace(
        plan.pattern, booklet=booklet, texts=texts or {}, pictures=MappingProxyType(pictures or {})
    )
    sizes = tuple(replace(size, pattern=pattern) for size in plan.sizes)
    edition = sample.edition("x", pages)
    sized = ("lap",) if paper else ()
    return compose(
        replace(plan, pattern=pattern, sizes=sizes), edition, sample.figures, paper, sized
    ).html


def test_a_title_of_ones_own_is_also_in_the_contents():
    html = page(Look(titles={"notes": "My <diary>"}))
    assert html.count("My &lt;diary&gt;") == 2
    assert "<h2>Notes</h2>" not in html


def test_texts_stand_at_the_beginning_and_the_end_of_their_page():
    texts = {"a.md": "## Before\n\nHeron.", "b.md": "Kingfisher {{ size.title }}."}
    look = Look(before={"materials": Page("a.md", S)}, after={"materials": Page("b.md", S)})
    html = page(look, texts=texts)
    body = html[html.index('id="materials"') :]
    body = body[: body.index("</section>")]
    order = [
        body.index(word)
        for word in ("<h2>", "<h3>Before</h3>", "Heron.", "<table", "Kingfisher Cushion")
    ]
    assert order == sorted(order)
    assert body.count("Kingfisher") == 2  # it names its size, so it is set for each


def test_a_logo_stands_on_the_cover_and_the_quilt_makes_room_for_it():
    look, pictures = Look(logo="logo.png"), {"logo.png": png()}
    for paper in (None, Paper.A4):
        html = page(look, pictures=pictures, paper=paper)
        assert html.count('<img class="logo" src="data:image/png;base64,') == 1
        assert 'alt="Example Studio"' in html
    top = [
        float(re.search(r"cover-wall[^>]*top:([\d.]+)pt", each)[1])
        for each in (html, page(Look(), paper=Paper.A4))
    ]
    assert top[0] - top[1] == pytest.approx(40.5)  # 27 pt of logo, 13.5 pt below it


def test_colours_and_font_are_values_of_our_own_rules():
    html = page(Look(title_colour=Tint("#7a2f4b", S), title_font="sans", ground=Tint("#eef2ea", S)))
    assert ':root{--titles:"Source Sans Pro", sans-serif;--title:#7a2f4b;--ground:#eef2ea;}' in html


@pytest.mark.parametrize("colour", ["#f0a0b0", "#ffff00", "#ffffff", "#5a8f5a", "#c0c0c0"])
def test_the_shade_that_is_proposed_can_be_read(colour):
    pattern = sample.pattern()
    for look in (Look(title_colour=Tint(colour, S)), Look(ground=Tint("#808080", S))):
        booklet = replace(pattern.booklet, look=look)
        fault = next(look_faults(replace(pattern, booklet=booklet)))
        better = re.search(r"#[0-9a-f]{6}", fault.hint)[0]
        tint = Tint(better, S)
        look = Look(title_colour=tint) if look.title_colour else Look(ground=tint)
        booklet = replace(pattern.booklet, look=look)
        assert list(look_faults(replace(pattern, booklet=booklet))) == []
    assert contrast(better, "#5f6872") >= 4.5  # quiet words on the ground
